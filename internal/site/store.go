package site

import (
	"sync"
	"time"

	"tarepage/internal/pagedata"
	"tarepage/internal/photo"
	"tarepage/internal/publish"
	"tarepage/internal/render"
	"tarepage/internal/unit"
)

// A Store is what one run keeps for the next one. The zero Store is that of a first run.
//
// Between two runs of the program it is a note next to the target (note.go). While the
// showroom is open it is in memory, and has the photos and pages too. Nothing in it is
// trusted as it is: what is kept is found by a digest, or by the size and times, of what it was made
// from.
type Store struct {
	// older is the note that the last build left; nil if there is none. Its pages are taken
	// over only if samePages is set: this program made them with this look.
	older     *note
	samePages bool

	mu     sync.Mutex
	videos map[string]knownVideo // by the names of their files
	// madeFrom is what each page of one unit is made from in this run, by its path.
	madeFrom map[string][32]byte

	// lines are where the lines of the units are in the files of the stock of this run.
	lines []keptLines

	// lexicon has the words of the units; nil until they are asked for.
	lexicon *pagedata.Lexicon

	remember bool // this is the showroom's
	opened   bool // the note was looked for
	// units are what the units contribute, by their files, if the Store remembers.
	units       map[string]*contribution
	photos      map[string]knownPhoto // by their names below content/
	showing     *render.OnDemand
	pictureShop *photo.Shop
}

// Remembering is a Store that keeps everything in memory.
func Remembering() *Store { return &Store{remember: true} }

// open looks for the note of an earlier build of the target, once. To read everything again, it
// takes no more from the note than what was found.
func (s *Store) open(o *Options) {
	if !s.opened {
		s.opened = true
		text, to := publish.Recall(o.To), o.To
		s.older = readNote(string(text), func() string { return string(publish.RecallMore(to, text)) })
		if o.Reread && s.older != nil {
			s.older = &note{findings: s.older.findings}
		}
	}
}

// recall is what a unit contributed the last time that somebody looked; nil if that is not
// known.
func (s *Store) recall(file string, x *examiner) *contribution {
	if c := s.units[file]; c != nil {
		return c
	}
	return s.older.recall(file, x)
}

// keepUnits keeps what the units contribute for as long as the showroom is open.
func (s *Store) keepUnits(parts []*contribution) {
	if !s.remember {
		return
	}
	s.units = make(map[string]*contribution, len(parts))
	for _, c := range parts {
		c.packed = ""
		s.units[c.read.Unit.File] = c
	}
	s.words(true) // they come out of the note
	s.older = nil
}

// words are those of the units of the last build. If nobody can tell what the units are made from, they
// are not kept.
func (s *Store) words(known bool) *pagedata.Lexicon {
	if !known {
		return nil
	}
	if s.lexicon == nil {
		var kept pagedata.KeptLexicon
		if s.older != nil {
			s.older.open()
			kept = s.older.Lexicon
		}
		s.lexicon = pagedata.NewLexicon(kept)
	}
	return s.lexicon
}

// knownPhoto is the result of a photo with this stamp.
type knownPhoto struct {
	stamp   unit.Stamp
	picture *photo.Picture
	fault   string
}

// youngest is how old a file must be before an unchanged time means unchanged bytes: the coarsest
// file system in use (FAT) keeps times to two seconds, so a younger file could be written again
// and keep its time.
const youngest = 2 * time.Second

// young reports whether a file with this stamp could have been written again since.
func young(stamp unit.Stamp, read time.Time) bool {
	return max(stamp.File.Time, stamp.File.Touched) > read.Add(-youngest).UnixNano()
}

// photosAsBefore are the results of those photos that did not change.
func (s *Store) photosAsBefore(stock *unit.Stock) photoResults {
	out := photoResults{pictures: map[string]*photo.Picture{}, faults: map[string]string{}}
	withheld := stock.WithheldFiles()
	for _, stamp := range stock.Stamps() {
		if k, ok := s.photos[stamp.Name]; ok && !withheld[stamp.Name] && k.stamp == stamp && !young(stamp, time.Now()) {
			out.add(stamp.Name, k.picture, k.fault)
		}
	}
	return out
}

func (r *photoResults) add(name string, p *photo.Picture, fault string) {
	if p != nil {
		r.pictures[name] = p
	}
	if fault != "" {
		r.faults[name] = fault
	}
}

// has reports whether the result of a photo is known.
func (r *photoResults) has(name string) bool { return r.pictures[name] != nil || r.faults[name] != "" }

// keepPhotos keeps the results of the photos that the stock names, and nothing else.
func (s *Store) keepPhotos(stock *unit.Stock, results photoResults) {
	s.photos = map[string]knownPhoto{}
	for _, stamp := range stock.Stamps() {
		if results.has(stamp.Name) {
			s.photos[stamp.Name] = knownPhoto{stamp, results.pictures[stamp.Name], results.faults[stamp.Name]}
		}
	}
}

// enterPage notes what a page of one unit is made from.
func (s *Store) enterPage(path string, from [32]byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.madeFrom == nil {
		s.madeFrom = map[string][32]byte{}
	}
	s.madeFrom[path] = from
}

// pageBefore is the digest of a page that the build before made from the same.
func (s *Store) pageBefore(path string, from [32]byte) (publish.Sum, bool) {
	if !s.samePages {
		return publish.Sum{}, false
	}
	return s.older.page(path, from)
}
