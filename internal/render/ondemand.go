package render

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"sync"

	"tarepage/internal/feed"
	"tarepage/internal/phrases"
	"tarepage/internal/sitepath"
	"tarepage/internal/stockfile"
)

// An OnDemand is a site whose files are made when somebody asks for them: somebody who
// writes about a trailer looks at one page of ten thousand. What it makes is what Site
// makes, byte for byte. Several requests may come at a time.
type OnDemand struct {
	m       *maker
	byStock map[string]*entry // by the stock number as paths have it
	// many are the files that are made of many units. programs are the files for other programs,
	// which nobody looks at while writing. disk is where all other files come from. Each of
	// the three is made once, when somebody asks for it.
	many     func() (*many, error)
	programs func() (map[string][]byte, error)
	disk     func() onDisk
}

// onDisk is where the files that are not made come from, by their paths in the site.
type onDisk struct{ files, media map[string]string }

type many struct {
	jobs  []job // every page of the site
	pages map[string]func() ([]byte, error)
	files map[string][]byte
}

// NewOnDemand takes in what the site is made from. Before is the OnDemand that this one
// replaces, or nil: where the Basis is the same, so is the theme, and it is not read again.
func NewOnDemand(theme fs.FS, in Input, before *OnDemand) (*OnDemand, error) {
	var p *templates
	if before != nil && before.m.in.Basis == in.Basis && in.Basis != ([32]byte{}) {
		p = before.m.templates
	} else {
		var err error
		if p, err = newTemplates(theme, phrases.English); err != nil {
			return nil, err
		}
	}
	m, err := begin(p, in)
	if err != nil {
		return nil, err
	}
	if err := m.speakAgain(theme, before); err != nil {
		return nil, err
	}
	s := &OnDemand{m: m, byStock: make(map[string]*entry, len(m.units))}
	for _, e := range m.units {
		// Two trailers with one stock number are a stop; the first is shown.
		if name := path.Base(e.path); s.byStock[name] == nil {
			s.byStock[name] = e
		}
	}
	s.many = sync.OnceValues(s.makeMany)
	s.programs = sync.OnceValues(func() (map[string][]byte, error) {
		all, err := s.many()
		if err != nil {
			return nil, err
		}
		files := map[string][]byte{}
		to := AddFunc(func(path string, data []byte) error { files[path] = data; return nil })
		stock, err := m.stock(to)
		if err != nil {
			return nil, err
		}
		for _, e := range m.units {
			line, err := m.lines(e, func() *entry { return m.again(e) }, stock, to, func() (none [32]byte) { return none }).line()
			if err != nil {
				return nil, err
			}
			if err := line(); err != nil {
				return nil, err
			}
		}
		return files, m.others(all.jobs, stock, to)
	})
	s.disk = sync.OnceValue(func() onDisk {
		d := onDisk{files: map[string]string{}, media: map[string]string{}}
		for _, f := range m.pictures() {
			d.files[f.Path] = f.From
		}
		for _, f := range m.carry() {
			d.media[f.Path] = f.From
		}
		return d
	})
	return s, nil
}

// speakAgain is speak with what the OnDemand before has ready, if that is for the same theme.
func (m *maker) speakAgain(theme fs.FS, before *OnDemand) error {
	if m.in.Spanish && before != nil && before.m.other != nil && m.templates == before.m.templates &&
		before.m.other.lang == phrases.Spanish.With(m.in.Stock.Yard.Words()).Marked() {
		return m.speakWith(theme, before.m.other.templates)
	}
	return m.speak(theme)
}

func (s *OnDemand) makeMany() (*many, error) {
	// A copy, since what is made for the yard page is entered in the maker's files.
	m := *s.m
	if m.other != nil {
		other := *m.other
		m.other = &other
	}
	yard, err := m.yardsPages()
	if err != nil {
		return nil, err
	}
	if err := m.scripted(); err != nil {
		return nil, err
	}
	all := &many{jobs: m.jobs(yard, nil, nil), pages: map[string]func() ([]byte, error){}, files: map[string][]byte{}}
	for _, j := range all.jobs {
		if j.unit == nil {
			all.pages[j.path] = j.make
		}
	}
	for _, f := range m.files {
		all.files[f.Path] = f.text
	}
	return all, nil
}

// Units are the units that have pages, by the paths of these, as long as they can be made.
func (s *OnDemand) Units() map[string]string {
	out := make(map[string]string, len(s.m.units))
	for _, e := range s.m.units {
		if s.byStock[path.Base(e.path)] == e {
			out[e.path] = e.File
		}
	}
	return out
}

// File makes the page or the file with the path. fs.ErrNotExist means that there is
// none; any other error says why it cannot be made.
func (s *OnDemand) File(name string) ([]byte, error) {
	if e := s.byStock[path.Base(name)]; e != nil {
		for _, l := range s.m.languages() {
			for _, j := range l.by(e).pagesOf(e, func() *entry { return s.m.again(e) }) {
				if j.path == name {
					return j.named(j.make())
				}
			}
		}
	}
	// What every unit's page loads does not wait for the yard's.
	for _, l := range s.m.languages() {
		for _, f := range l.loaded() {
			if f.Path == name {
				return f.text, nil
			}
		}
	}
	// A page that does not exist does not wait for the yard's pages either. A browser asks again for
	// the page of a unit that was just broken or deleted, and for files of its own choice.
	if !ofMany(name) {
		return nil, fs.ErrNotExist
	}
	all, err := s.many()
	if err != nil {
		return nil, err
	}
	if page := all.pages[name]; page != nil {
		return job{path: name}.named(page())
	}
	if text, ok := all.files[name]; ok {
		return text, nil
	}
	if !forPrograms(name) {
		return nil, fs.ErrNotExist
	}
	programs, err := s.programs()
	if err != nil {
		return nil, err
	}
	if text, ok := programs[name]; ok {
		return text, nil
	}
	return nil, fs.ErrNotExist
}

// ofMany reports whether a path has the form of one that only the whole yard can answer for:
// a page of many units, a file that such a page loads, or a file for other programs.
func ofMany(name string) bool {
	folder := strings.TrimSuffix(path.Dir(name)+"/", sitepath.Spanish)
	folder = cmp.Or(strings.TrimSuffix(folder, "/"), ".")
	return folder == "s" || folder == "." && (path.Ext(name) == ".html" || path.Ext(name) == ".js") || forPrograms(name)
}

// forPrograms reports whether a path has the form of one of the files that others adds.
func forPrograms(name string) bool {
	for _, f := range stockfile.Files() {
		if f.Path == name {
			return true
		}
	}
	sitemap := strings.HasPrefix(name, strings.TrimSuffix(feed.SitemapPath, ".xml")) && strings.HasSuffix(name, ".xml")
	name = strings.TrimPrefix(name, sitepath.Spanish)
	return sitemap || name == feed.AtomPath || name == feed.JSONPath || name == feed.RobotsPath
}

// Disk is where the file with that path in the site comes from if it is not made: a photo or a
// card on the disk, or, where media is true, a recording below content/.
func (s *OnDemand) Disk(name string) (from string, media bool, err error) {
	if rest, ok := strings.CutPrefix(name, "s/card-"); ok {
		stock := rest[:max(strings.LastIndexByte(rest, '-'), 0)]
		if e := s.byStock[stock+".html"]; e != nil {
			var failed error
			for _, l := range s.m.languages() {
				c, err := l.linkCard(e)
				if c != nil && c.path == name {
					return c.from, false, nil
				}
				failed = errors.Join(failed, err)
			}
			return "", false, errors.Join(fs.ErrNotExist, failed)
		}
	}
	d := s.disk()
	if from, ok := d.files[name]; ok {
		return from, false, nil
	}
	if from, ok := d.media[name]; ok {
		return from, true, nil
	}
	return "", false, fs.ErrNotExist
}

// named adds to an error which page it is about.
func (j job) named(page []byte, err error) ([]byte, error) {
	if err != nil {
		err = fmt.Errorf("page %s: %w", j.path, err)
	}
	return page, err
}
