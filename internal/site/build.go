package site

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"runtime/metrics"
	"sync"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/photo"
	"tarepage/internal/publish"
	"tarepage/internal/render"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// A Result says how a build ended.
type Result struct {
	Units    int
	Findings []inspect.Finding
	// Yard is what was read; nil if nothing changed since the build before.
	Yard *Yard
	// Published is false if stops refused the site. The rest is then empty.
	Published bool
	Pages     int
	Files     publish.Report
	// LeftOut are the names of the units that were left out because of their stops.
	LeftOut []string
	// NewlyOut are those of them that the build before did not leave out.
	NewlyOut []string
	// Withheld are the names of the units that their owner keeps out.
	Withheld []string
	// Address is the site's own address, if the yard's file gives it.
	Address string
	// Example reports that the site has nothing but the example of a first yard.
	Example bool
	// Undated are the stock numbers of the units that the feeds do not name, because no file
	// gives a day for them. Unsaid are those that have another price or availability than was
	// published before, and no later day.
	Undated, Unsaid []string
	// Before reports that an earlier build left a note. Fresh are then the findings that it did
	// not have.
	Before bool
	Fresh  []inspect.Finding
	// Moves is what changes for customers; nil if there was no site before, or nothing changed.
	Moves *stockfile.Moves

	// For the next build: what went from the site without being sold, and the listed units.
	loss   loss
	listed []*unit.Unit
}

// Aside tells for the files of units whether they are kept off the site: withheld, or stopped.
func (r *Result) Aside() map[string]bool {
	aside := map[string]bool{}
	if r.Yard != nil {
		for _, u := range r.Yard.Stock.Units {
			aside[u.File] = u.Withheld()
		}
	}
	for _, f := range r.Findings {
		aside[f.Unit] = aside[f.Unit] || f.Severity == inspect.Stop
	}
	return aside
}

// Build reads, computes, inspects, makes the pages and publishes them. What it found is in
// the result even where the error says that the site could not be published.
func Build(o Options) (*Result, error) {
	start := time.Now()
	basis, known := basisOf(o.Look)
	s := new(Store)
	if o.Waiting != nil && publish.Busy(o.To) {
		o.Waiting()
	}
	s.open(&o)
	if s.samePages = known && s.older.under(basis); s.samePages {
		if r, err := s.older.unchanged(&o); r != nil || err != nil {
			return r, err
		}
	}
	// A target that no site may take is refused before the work; where nothing changed, its
	// files were compared already.
	if err := publish.Check(o.To, o.own()...); err != nil {
		return nil, err
	}
	y, err := readYard(&o, s, known)
	if err != nil {
		return nil, err
	}
	if len(y.Stock.Units) == 0 {
		return &Result{Findings: y.Findings, Yard: y}, errEmpty
	}
	held := inspect.Refused(y.Stock, y.Findings)
	var made photoResults
	if publishes(&o, y, held) {
		// No time goes into the photos of units that are already refused.
		if made, err = makePictures(&o, s, originals(&o, y, held, func(string) bool { return false })); err != nil {
			return nil, err
		}
		made.refuseCopies(&o, s, y)
		y = y.withPhotoFaults(made)
		held = inspect.Refused(y.Stock, y.Findings)
	}
	r := &Result{Units: y.own(), Findings: y.Findings, Yard: y, Before: s.older != nil, Fresh: s.older.fresh(y.Findings)}
	if !publishes(&o, y, held) {
		return r, nil
	}
	in := render.Input{Stock: y.Stock, Works: y.Works, Figures: y.figures, Findings: y.Findings, LeaveOut: held.Units,
		Pictures: made.pictures, Cards: s.cards(&o, y.Stock), Lexicon: s.words(known), Spanish: y.Stock.Yard.SpeaksSpanish(), Basis: basis}
	r.LeftOut, r.Address, r.Example = held.Names, y.Stock.Yard.Site(), y.Stock.Yard.IsExample()
	r.NewlyOut, r.Withheld = s.older.newlyOut(y.Stock, held), withheld(y.Stock)
	if err := compare(&o, in, r, s.older); err != nil {
		return r, err
	}
	// The note that follows the pages takes memory too, so the limit holds until the end.
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(memoryFor(inUse())))
	g, err := publishSite(&o, s, in, r)
	if err != nil {
		return r, err
	}
	r.Published = true
	if known {
		s.leaveNote(&o, y, r, g, basis, start)
	}
	return r, nil
}

// compare says what changes for customers against the site that is in the target now. Its
// error refuses a build that would take too much off that site.
func compare(o *Options, in render.Input, r *Result, before *note) error {
	listed, units := r.Yard.listed, publishedUnits(&in)
	r.listed = units
	if before != nil && before.Example && !r.Example {
		listed = nil // nobody misses the example of a first yard
	}
	if r.Address != "" { // there are no feeds without it
		r.Undated, r.Unsaid = undated(units), stockfile.Unsaid(listed, units)
	}
	moves, ok := stockfile.MovesSince(listed, units)
	if !ok {
		return nil
	}
	r.Moves = &moves
	if before != nil {
		r.loss = before.Loss
	}
	if err := inWrongFolder(o, in.Stock, moves); err != nil {
		return err
	}
	var err error
	r.loss, err = r.loss.allow(o, moves)
	return err
}

// withheld are the names of the units that their owner keeps out.
func withheld(stock *unit.Stock) (names []string) {
	for _, u := range stock.Units {
		if u.Withheld() {
			names = append(names, u.Stock.Value)
		}
	}
	return names
}

// publishes reports whether the stops let anything be published.
func publishes(o *Options, y *Yard, held inspect.Held) bool {
	return y.stops() == 0 || o.LeaveOut && !held.Yard
}

// cards is where link cards are drawn, for a yard whose address is known.
func (s *Store) cards(o *Options, stock *unit.Stock) *photo.Shop {
	if stock.Yard.Site() == "" {
		return nil
	}
	return s.shop(o)
}

// publishSite makes the pages and puts the site in the place of the target.
func publishSite(o *Options, s *Store, in render.Input, r *Result) (*publish.Staging, error) {
	files, err := render.Theme(theme.Files, o.Look)
	if err != nil {
		return nil, err
	}
	g, err := publish.Begin(o.To, o.own()...)
	if err != nil {
		return nil, err
	}
	if o.Reread {
		g.Doubt()
	}
	made, err := render.Site(files, in, target{g, s, sync.OnceValue(func() [3]string { return stockBefore(o.To) })})
	if err == nil {
		err = copyFiles(o, made, g)
	}
	if err != nil {
		return nil, errors.Join(err, g.Abandon())
	}
	r.Pages = made.Pages
	r.Files, err = g.Finish()
	return g, err
}

// memoryFor is how much memory the pages may take before garbage is collected sooner than usual,
// where so many bytes are in use before the first page. Bookkeeping about the pages comes on top
// of these. A yard of five thousand never comes near the limit. One that is near what is in use
// would make the program do little else than collect: at ten thousand units, half of its time
// went into that when the limit was a fixed size for each unit and units had grown.
func memoryFor(inUse uint64) int64 { return max(480<<20, 2*int64(min(inUse, 1<<40))) }

// inUse is how many bytes of the memory were in use when garbage was last collected.
func inUse() uint64 {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	if live[0].Value.Kind() != metrics.KindUint64 {
		return 0
	}
	return live[0].Value.Uint64()
}

// target takes the pages into the staged site, and keeps those that the build before made
// from the same.
type target struct {
	*publish.Staging
	store *Store
	// stock are the files of the stock in the site of before, read once.
	stock func() [3]string
}

func (t target) Keep(path string, from [32]byte) (bool, error) {
	t.store.enterPage(path, from)
	sum, ok := t.store.pageBefore(path, from)
	if !ok {
		return false, nil
	}
	return t.Staging.Keep(path, sum)
}

// Lines implements render.Target.
func (t target) Lines(page string, from [32]byte) (stockfile.Lines, bool) {
	if !t.store.samePages {
		return stockfile.Lines{}, false
	}
	return t.store.older.linesOf(page, from, t.stock())
}

// Enter implements render.Target.
func (t target) Enter(page string, from [32]byte, lines stockfile.Lines, at stockfile.Places) {
	t.store.lines = append(t.store.lines, keptLines{page, from, at, lineSum(lines)})
}

func (t target) Spool(path string) (render.Spool, error) { return t.Staging.Spool(path) }

// stockBefore are the files of the stock in the site that is in the target now.
func stockBefore(target string) (out [3]string) {
	for i, path := range stockfile.LinePaths() {
		out[i] = string(published(target, path))
	}
	return out
}

// copyFiles adds what is not made but copied: pictures, link cards and recordings.
func copyFiles(o *Options, made render.Made, g *publish.Staging) error {
	for _, f := range made.Files {
		if err := g.AddFile(f.Path, f.From); err != nil {
			return fmt.Errorf("%s: %w", f.At, err)
		}
	}
	for _, f := range made.Media {
		if err := copyVideo(o, g, f.Path, f.From); err != nil {
			return fmt.Errorf("%s: %w", f.At, err)
		}
	}
	return nil
}

// publishedUnits are the units that the site lists.
func publishedUnits(in *render.Input) (units []*unit.Unit) {
	for i, u := range in.Stock.Units {
		if in.Published(i) {
			units = append(units, u)
		}
	}
	return units
}

// undated are the stock numbers of units that the feeds leave out: feeds use no clock and go by
// the days in the files. A unit on order is named when it comes.
func undated(units []*unit.Unit) (out []string) {
	for _, u := range units {
		if !u.Changed().Known() && u.Availability.Value != "on order" {
			out = append(out, u.Stock.Value)
		}
	}
	return out
}

// published reads a file of the site that is in the target now, nil if there is none.
func published(target, path string) []byte {
	name := filepath.Join(target, filepath.FromSlash(path))
	if info, err := os.Lstat(name); err != nil || !info.Mode().IsRegular() {
		return nil // a first build
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil
	}
	return data
}
