package render

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"hash"
	"html/template"
	"io"
	"io/fs"
	"slices"
	"sync"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/inspect"
	"tarepage/internal/pagedata"
	"tarepage/internal/parallel"
	"tarepage/internal/photo"
	"tarepage/internal/phrases"
	"tarepage/internal/schemaorg"
	"tarepage/internal/sitepath"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// Input is everything a site is made from.
type Input struct {
	Stock *unit.Stock
	Works []*compute.Work // in the stock's order; nil for a file that did not read
	// Figures gives all figures of a unit where the Works are briefs (compute.Work.Brief).
	// It is nil where the Works have all figures themselves.
	Figures  Figures
	Findings []inspect.Finding
	// LeaveOut are the files of the units that are kept out because they have stops.
	LeaveOut map[string]bool
	// Pictures are the finished photos, by the names of the originals below content/.
	Pictures map[string]*photo.Picture
	// Cards is where the pictures of shared links are drawn and kept; nil for a site without
	// them. It is used only if the yard's file gives the site's address.
	Cards *photo.Shop
	// Lexicon keeps the words of the units from one build to the next; nil to keep nothing.
	Lexicon *pagedata.Lexicon
	// Spanish is whether the site has its pages in Spanish too.
	Spanish bool
	// Basis is a digest of what every page is made from besides the yard: the program with
	// its tables, and the theme.
	Basis [32]byte
}

// Figures gives the figures of a unit. Several pages may ask at the same time.
type Figures interface {
	Of(*unit.Unit) *compute.Work
}

// Published reports whether the site has pages for unit i of the stock.
func (in *Input) Published(i int) bool {
	u := in.Stock.Units[i]
	return in.Works[i] != nil && !u.Withheld() && !in.Stock.SetAside(u) && !in.LeaveOut[u.File]
}

// A Target takes the pages of a site while they are made: those of a large yard do not fit
// into memory.
type Target interface {
	// Add takes the bytes of one file.
	Add(path string, data []byte) error
	// Keep reports whether the page of one unit need not be made, because the target has it
	// from a build before. From is a digest of everything the page is made from. Several
	// pages may be asked about at the same time.
	Keep(path string, from [32]byte) (bool, error)
	// Spool begins a file that is written piece by piece.
	Spool(path string) (Spool, error)
	// Lines are the lines that the unit with this page has in the files of the stock, if the
	// target has them from a build before and from is the same. Several may be asked for at the
	// same time.
	Lines(page string, from [32]byte) (stockfile.Lines, bool)
	// Enter notes where the lines of a unit are in the files of this build.
	Enter(page string, from [32]byte, lines stockfile.Lines, at stockfile.Places)
}

// A Spool is a file of the site that is written piece by piece. It belongs to the site once
// Add was called.
type Spool interface {
	io.Writer
	Add() error
}

// AddFunc is a Target that takes every file whole and keeps none from before.
type AddFunc func(path string, data []byte) error

func (add AddFunc) Add(path string, data []byte) error  { return add(path, data) }
func (add AddFunc) Keep(string, [32]byte) (bool, error) { return false, nil }
func (add AddFunc) Spool(path string) (Spool, error)    { return &spooled{path: path, add: add}, nil }

// Lines implements Target; nothing is kept from before.
func (add AddFunc) Lines(string, [32]byte) (l stockfile.Lines, known bool) { return l, false }

// Enter implements Target and keeps nothing.
func (add AddFunc) Enter(string, [32]byte, stockfile.Lines, stockfile.Places) {}

// spooled is a Spool in memory.
type spooled struct {
	bytes.Buffer
	path string
	add  AddFunc
}

func (s *spooled) Add() error { return s.add(s.path, s.Bytes()) }

// Made tells what was made, and what the pages need besides.
type Made struct {
	Pages int
	// Files are copied from the disk as they are: photos and link cards.
	Files []File
	// Media are the recordings that pages play. From is the name below content/.
	Media []File
}

// A File is one that the site needs besides its pages: its path in the site, and where it
// comes from. At is the place that names it, for errors.
type File struct{ Path, From, At string }

// maker makes the pages of one site.
type maker struct {
	*templates
	in    Input
	frame frame
	says  schemaorg.Yard // what pages state for programs
	units []*entry
	scale func() elevation.Scale // at which all silhouettes are drawn
	// files are what pages load; first those that are made of many units.
	files []script
	// machines is the one of them that says what common loads weigh.
	machines script
	// under is where the maker's pages are, "es/" or nothing, and up leads back to the site's root.
	under, up string
	// other makes the same pages in the other language; nil for a site in one.
	other *maker
	// tractor makes the pages of trailers that go behind a tractor; nil where no word differs.
	tractor *maker
}

// entry is one published unit.
type entry struct {
	*unit.Unit
	work     *compute.Work
	cautions []inspect.Finding
	path     string // u/sb-1043.html
	workings string // figures/sb-1043.html
	lot      string // lot/sb-1043.html
	handOver string // handover/sb-1043.html
	kind     string // the file of its kind's page: kind-dump.html
	media    []unit.Media
	// nearest are the units on the yard that are most like one that is sold, found once when
	// they are asked for.
	nearest func() []*entry
	// cards draw what a link to the unit's page shows, once, by the folder of the page's language;
	// nil for no card.
	cards map[string]func() (*linkCard, error)
	// key is the digest of everything that the unit's pages are made from, worked out once.
	key func() [32]byte
}

// whole is the entry with the tree of its notes, read once for everything on its page that
// is made from them.
func (e *entry) whole() *entry {
	if e.Body.Root != nil {
		return e
	}
	return e.noted(e.Body.Whole())
}

// noted is the entry with other notes.
func (e *entry) noted(notes *unit.Body) *entry {
	u, again := *e.Unit, *e
	u.Body = *notes
	again.Unit = &u
	return &again
}

// read is the entry with the tree of the notes that the pages in the maker's language show: those
// in Spanish where the unit has them and the language is Spanish.
func (m *maker) read(e *entry) *entry {
	if m.lang.Foreign() {
		if notes := e.Spanish(); notes != nil {
			return e.noted(notes)
		}
	}
	return e.whole()
}

// data is the entry as the data of pages have it.
func (m *maker) data(e *entry) pagedata.Trailer {
	return pagedata.Trailer{Lang: m.lang, Name: m.title(e), Unit: e.Unit, Work: e.work, Cautions: dangers(e)}
}

// again is the entry with all figures of its unit.
func (m *maker) again(e *entry) *entry {
	if m.in.Figures == nil {
		return e
	}
	whole := *e
	whole.work = m.in.Figures.Of(e.Unit)
	return &whole
}

// shared is one entry with all figures, for the jobs that are made from it: worked out for
// the first of them and let go after the last.
type shared struct {
	mu    sync.Mutex
	users int
	whole func() *entry
	entry *entry
}

func (s *shared) take() *entry {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.entry == nil {
		s.entry = s.whole()
	}
	return s.entry
}

func (s *shared) leave() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.users--; s.users == 0 {
		s.entry = nil
	}
}

// begin gathers what every page of the site needs.
func begin(p *templates, in Input) (*maker, error) {
	m := &maker{templates: p, in: in, says: schemaorg.Yard{Yard: in.Stock.Yard}}
	m.framed()
	m.enter()
	machines, err := pagedata.Machines(p.lang)
	m.machines = script{hashed("machines", machines), machines}
	return m, err
}

// framed sets what is the same on every page.
func (m *maker) framed() {
	y, p := m.in.Stock.Yard, m.templates
	m.frame = frame{Lang: p.lang.Tag.String(), Foreign: p.lang.Foreign(), Up: m.up, Safety: compute.Safety, Yard: yardCard{
		Name: y.Name.Value, Phone: y.Phone.Value, Texts: y.Texts.Value, Ways: y.Directions.Value, Email: y.Email.Value, Street: y.Street.Value, Town: y.Town.Value,
		AsOf: y.AsOf.Value.Long(), Hours: values(y.Hours),
	}, Example: y.IsExample(), Hidden: y.IsExample(), Feeds: y.Site() != "", Terms: m.terms(y)}
	m.dress(&m.frame, p.style, p.policy)
}

// dress gives a page its style: in English within the page, which is one round trip less for the
// first page that a customer opens. In Spanish it is a file, since the site has each page twice.
func (m *maker) dress(f *frame, style template.CSS, policy string) {
	f.Style, f.Policy = style, policy
	if m.lang.Foreign() {
		f.Style, f.Sheet, f.Policy = "", m.sheet(style).Path, policyWith("'self'")
	}
}

// at is the whole address of a page of the site, or nothing where the site's own is not
// known.
func (m *maker) at(page string) string {
	return sitepath.Whole(m.in.Stock.Yard.Site(), sitepath.In(m.under, page))
}

// stated is what a page states for programs.
func stated(data []byte, err error) (template.JS, error) { return template.JS(data), err }

// Site makes every page, and the scripts that pages load, and hands each to the target.
// Pages are made several at a time; Add is called for one at a time.
func Site(theme fs.FS, in Input, to Target) (Made, error) {
	p, err := newTemplates(theme, phrases.English)
	if err != nil {
		return Made{}, err
	}
	m, err := begin(p, in)
	if err != nil {
		return Made{}, err
	}
	if err := m.speak(theme); err != nil {
		return Made{}, err
	}
	yard, err := m.yardsPages()
	if err != nil {
		return Made{}, err
	}
	// What is for programs of each unit is made with its pages, while its figures are at hand.
	stock, err := m.stock(to)
	if err != nil {
		return Made{}, err
	}
	jobs := m.jobs(yard, stock, to)
	made, err := run(jobs, to)
	if err != nil {
		return Made{}, err
	}
	if err := m.scripted(); err != nil {
		return Made{}, err
	}
	for _, f := range m.files {
		if err := to.Add(f.Path, f.text); err != nil {
			return Made{}, err
		}
	}
	if err := m.others(jobs, stock, to); err != nil {
		return Made{}, err
	}
	return Made{Pages: made, Files: append(m.pictures(), m.linkCards()...), Media: m.carry()}, nil
}

// jobs are the pages of the site, the yard's first, then each unit's, and with them, where a
// stock is given, its lines of the stock for programs. Pages that the target, if there is
// one, has already are kept.
func (m *maker) jobs(yard []job, stock *stock, to Target) []job {
	jobs := slices.Clip(yard)
	for _, l := range m.languages() {
		jobs = append(jobs, job{path: l.under + sitepath.HowWeFigure, make: l.how}, job{path: l.under + sitepath.NotFound, make: l.gone})
	}
	if to != nil {
		for i := range jobs {
			if of := jobs[i].of; of != nil {
				jobs[i].kept = func() (bool, error) { return to.Keep(jobs[i].path, of()) }
			}
		}
	}
	for _, e := range m.units {
		s := &shared{whole: func() *entry { return m.again(e) }}
		var own []job
		for _, l := range m.languages() {
			own = append(own, l.by(e).pagesOf(e, s.take)...)
		}
		if to != nil {
			for i := range own {
				own[i].kept = func() (bool, error) {
					// A page that is kept still needs its card.
					for _, l := range m.languages() {
						if _, err := l.linkCard(e); err != nil {
							return false, err
						}
					}
					return to.Keep(own[i].path, e.key())
				}
			}
		}
		if stock != nil {
			own = append(own, m.lines(e, s.take, stock, to, e.key))
		}
		for i := range own {
			own[i].leave = s.leave
		}
		s.users = len(own)
		jobs = append(jobs, own...)
	}
	return jobs
}

// pagesOf are the pages of one unit. Whole is the entry with all figures.
func (m *maker) pagesOf(e *entry, whole func() *entry) []job {
	return []job{{path: m.under + e.path, unit: e.Unit, make: func() ([]byte, error) { return m.unit(m.read(whole())) }},
		{path: m.under + e.workings, unit: e.Unit, make: func() ([]byte, error) { return m.workings(whole()) }},
		{path: m.under + e.lot, unit: e.Unit, hidden: true, make: func() ([]byte, error) { return m.lot(whole()) }},
		{path: m.under + e.handOver, unit: e.Unit, hidden: true, make: func() ([]byte, error) { return m.handOver(whole()) }}}
}

// loaded are the scripts that are the same whatever the yard holds.
func (m *maker) loaded() []script {
	out := []script{m.machines, m.figuresSheet, m.figuresScript}
	for _, name := range scriptNames {
		out = append(out, m.scripts[name])
	}
	if m.keeps() {
		out = append(out, m.scripts["keep.js"])
	}
	if m.lang.Foreign() {
		out = append(out, m.sheet(m.unitStyle), m.sheet(m.yardStyle), m.sheet(m.sheetStyle))
	}
	return out
}

// keeps reports whether a phone may keep pages. The copy on a phone is of the pages in English.
func (m *maker) keeps() bool { return m.in.Stock.Yard.Keeps() && !m.lang.Foreign() }

// scripted completes the files that pages load.
func (m *maker) scripted() error {
	m.files = append(m.loaded(), m.files...)
	if m.other != nil {
		files := append(m.other.loaded(), m.other.files...)
		if t := m.other.tractor; t != nil {
			files = append(files, t.loaded()...)
		}
		for _, f := range files {
			if !slices.ContainsFunc(m.files, func(s script) bool { return s.Path == f.Path }) {
				m.files = append(m.files, f)
			}
		}
	}
	w, err := m.worker()
	m.files = append(m.files, w)
	return err
}

// offered is what holds for every price and every availability.
func (m *maker) terms(y *unit.Yard) string {
	s := m.lang.Say("terms as of", y.AsOf.Value.Long())
	if y.Excludes.Given() {
		s = m.lang.Say("terms exclude", s, y.Excludes.Value)
	}
	return s
}

// carry lists the videos that the pages play.
func (m *maker) carry() (out []File) {
	for _, e := range m.units {
		if v := e.video(); v != nil {
			out = append(out, File{Path: sitepath.Video(e.Unit, v.Name), From: v.Name, At: v.Pos.String()})
		}
	}
	return out
}

// enter gathers the units that are published, with their cautions.
func (m *maker) enter() {
	cautions := m.cautions()
	works := make([]*compute.Work, 0, len(m.in.Works))
	m.units = make([]*entry, 0, len(m.in.Works))
	for i, u := range m.in.Stock.Units {
		if !m.in.Published(i) {
			continue
		}
		e := &entry{
			Unit: u, work: m.in.Works[i], cautions: cautions[u.File],
			path: sitepath.Trailer(u), workings: sitepath.Figures(u), lot: sitepath.LotSheet(u), handOver: sitepath.HandOver(u),
			kind:  sitepath.Kind(u.Kind.Value),
			media: m.in.Stock.Media[u.File], cards: map[string]func() (*linkCard, error){},
		}
		e.key = sync.OnceValue(func() [32]byte { return m.keyOf(e) })
		m.units = append(m.units, e)
		works = append(works, e.work)
	}
	m.linked()
	m.scale = sync.OnceValue(func() elevation.Scale { return elevation.ScaleOf(works) })
	m.neighbors(works)
}

// cautions are the cautions by the files of the units. What hurts people comes before the
// rest, which keeps its order.
func (m *maker) cautions() map[string][]inspect.Finding {
	out := map[string][]inspect.Finding{}
	for _, f := range m.in.Findings {
		if f.Severity == inspect.Caution {
			out[f.Unit] = append(out[f.Unit], f)
		}
	}
	for _, list := range out {
		slices.SortStableFunc(list, func(a, b inspect.Finding) int {
			switch {
			case a.First == b.First:
				return 0
			case a.First:
				return -1
			}
			return 1
		})
	}
	return out
}

// neighbors sets how to find the units that are most like one that is sold.
func (m *maker) neighbors(works []*compute.Work) {
	of := map[*compute.Work]*entry{}
	ofKind := map[string][]*compute.Work{}
	for _, e := range m.units {
		of[e.work] = e
		ofKind[e.Kind.Value] = append(ofKind[e.Kind.Value], e.work)
	}
	for _, e := range m.units {
		e.nearest = sync.OnceValue(func() (out []*entry) {
			if !e.sold() {
				return nil
			}
			// Those of its kind come before all others, so the others are compared with it only
			// where its kind has too few: a yard of thousands has thousands that are sold.
			near := compute.Nearest(e.work, ofKind[e.Kind.Value], mostNearest)
			if len(near) < mostNearest {
				near = compute.Nearest(e.work, works, mostNearest)
			}
			for _, w := range near {
				out = append(out, of[w])
			}
			return out
		})
	}
}

// mostNearest is how many units a sold one points to. The page of its kind has the others.
const mostNearest = 3

// keyOf is the digest of everything that a unit's page is made from: its file, its
// model and the yard's file, what is known about the files it names, what was found, and
// the Basis; and the same for the units that it points to where it is sold. If you show
// more on a unit's page, or of a unit on a page of many, add it here. A test changes each file
// of a yard in turn and compares the pages with those of a first build.
func (m *maker) keyOf(e *entry) (key [32]byte) {
	h := sha256.New()
	m.enterFile(h, e)
	for _, f := range e.media {
		enterParts(h, f.Path, f.Name, f.Fault, f.Bytes, sha256.Sum256(f.Data))
		if f.Video != nil {
			enterParts(h, *f.Video)
		}
		if p := m.in.Pictures[f.Name]; p != nil {
			enterParts(h, *p)
		}
	}
	for _, l := range m.languages() {
		if c, err := l.linkCard(e); err == nil && c != nil {
			enterParts(h, c.path)
		}
	}
	for _, c := range e.cautions {
		enterParts(h, c.Rule.Name, c.At, c.Message, c.Source, c.Remedy)
	}
	// Where the file gives no day of a change, it comes from the site of before.
	enterParts(h, e.Price.Since(), e.Availability.Since())
	for _, n := range e.nearest() {
		m.enterFile(h, n)
	}
	h.Sum(key[:0])
	return key
}

// enterFile adds to a digest what a unit is read from, its file, its model and the yard's file; the
// Basis, and the language.
func (m *maker) enterFile(h hash.Hash, e *entry) {
	model := m.modelSum(e)
	for _, sum := range [][32]byte{m.in.Basis, m.in.Stock.Yard.Sum, e.Sum, model} {
		h.Write(sum[:])
	}
	enterParts(h, m.lang.Tag, e.File)
}

// enterParts adds values to a digest as they are printed, each with its length.
func enterParts(h hash.Hash, parts ...any) {
	for _, p := range parts {
		text := fmt.Sprint(p)
		fmt.Fprintf(h, "%d %s\n", len(text), text)
	}
}

func (m *maker) modelSum(e *entry) (sum [32]byte) {
	if model := m.in.Stock.Model(e.Model.Value); e.Model.Given() && model != nil {
		sum = model.Sum
	}
	return sum
}

// job is one page to be made.
type job struct {
	path string
	unit *unit.Unit // whose page it is, if it is one unit's
	// hidden is whether search engines should leave it out.
	hidden bool
	make   func() ([]byte, error)
	// of is the digest of what a page of many units is made from; nil if it is always made.
	of func() [32]byte
	// kept reports whether the page is there and need not be made; nil if it must be.
	kept func() (bool, error)
	// leave, where it is given, is called once when the job is over.
	leave func()
	// line, where it is given, is what the job makes in place of a page: it returns what is
	// called in the jobs' order, one at a time.
	line func() (func() error, error)
}

// ahead is how many finished pages may wait to be added: enough to keep every processor
// busy, few enough for memory.
const ahead = 64

// run makes the pages several at a time and adds them in their order, one at a time.
func run(jobs []job, to Target) (made int, err error) {
	err = parallel.InOrder(len(jobs), ahead, func(i int) finished { return jobs[i].run() }, func(i int, f finished) error {
		j := &jobs[i]
		switch {
		case f.err != nil:
			_, f.err = j.named(nil, f.err)
		case f.line != nil:
			return f.line()
		case !f.kept:
			f.err = to.Add(j.path, f.page)
		}
		if f.err == nil {
			made++
			return nil
		}
		return f.err
	})
	return made, err
}

// finished is what became of a job.
type finished struct {
	page []byte
	kept bool
	line func() error
	err  error
}

func (j *job) run() (f finished) {
	if j.kept != nil {
		f.kept, f.err = j.kept()
	}
	switch {
	case f.kept || f.err != nil:
	case j.line != nil:
		f.line, f.err = j.line()
	default:
		f.page, f.err = j.make()
	}
	if j.leave != nil {
		j.leave()
	}
	return f
}

func values(list []unit.Text) []string {
	var out []string
	for _, t := range list {
		out = append(out, t.Value)
	}
	return out
}
