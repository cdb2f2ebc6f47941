package site

import (
	"fmt"
	"os"
	"path/filepath"

	"tarepage/internal/compute"
	"tarepage/internal/files"
	"tarepage/internal/inspect"
	"tarepage/internal/parallel"
	"tarepage/internal/render"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// Options say what to read, where the site goes and how.
type Options struct {
	// From is the folder that holds content/.
	From string
	// To is the folder that the site takes the place of.
	To string
	// Look is a folder with templates and styles of the owner's; empty for the built-in look.
	Look string
	// LeaveOut publishes the site without the units that have stops.
	LeaveOut bool
	// Fewer is how many units the owner takes off the site on purpose; see allowGone.
	Fewer int
	// Reread believes no size and no time of a file: every file is read again, and everything is
	// made again and compared with the site.
	Reread bool
	// AllFigures keeps all figures of all units, for whoever prints them.
	AllFigures bool
	// Today is the day by the computer's clock; the zero value if nobody trusts it.
	Today unit.Day
	// Waiting, if it is not nil, is called if another build is writing the target, before this
	// one waits for it.
	Waiting func()
	// Progress, if it is not nil, is told how many photos of how many are done.
	Progress func(done, all int)
}

// content is the folder that is read.
func (o *Options) content() string { return filepath.Join(o.From, "content") }

// own are the folders that are never a site or in one: what is read, what files were before a phone
// or a sheet changed them, and pictures that are kept. They hold what is withheld.
func (o *Options) own() []string {
	return []string{o.content(), filepath.Join(o.From, "earlier"), filepath.Join(o.From, ".tarepage")}
}

// media is where a file is on the disk that a unit names.
func (o *Options) media(name string) string {
	return filepath.Join(o.content(), filepath.FromSlash(name))
}

// CheckFolder refuses a -from that is not a folder.
func CheckFolder(from string) error {
	if info, err := os.Stat(from); err != nil || !info.IsDir() {
		return fmt.Errorf("-from %q is not a folder; name the folder that holds content/", from)
	}
	real, err := filepath.EvalSymlinks(from)
	if err != nil {
		return fmt.Errorf("-from %q cannot be read: %w", from, err)
	}
	// A folder of the yard that is a link would bring in files from anywhere, and the yard
	// would be another one on another computer.
	for _, name := range []string{"content", "content/units", "content/models", "content/media"} {
		at, err := filepath.EvalSymlinks(filepath.Join(real, name))
		if err != nil {
			continue // it is missing, which reading reports
		}
		if in, err := filepath.Rel(real, at); err != nil || !filepath.IsLocal(in) {
			return fmt.Errorf("%s is a link to a folder outside the yard; put the folder itself there", name)
		}
	}
	return nil
}

// A Yard is everything that was read, computed and found.
type Yard struct {
	Stock *unit.Stock
	// Works are in the order of the stock; nil for a file that did not read. They are briefs
	// (compute.Work.Brief) unless all figures were asked for.
	Works []*compute.Work
	// Findings are complete and sorted.
	Findings []inspect.Finding

	figures  render.Figures // all figures of a unit; nil if the Works have them
	problems []unit.Problem
	listed   stockfile.Offers    // what the site in the target offers; nil if there is none
	found    [][]inspect.Finding // by unit, and at the end what concerns several units
	parts    []*contribution     // by unit
}

// Inspect reads, computes and inspects, and writes nothing.
func Inspect(o Options) (*Yard, error) {
	s := new(Store)
	s.open(&o)
	return readYard(&o, s, false)
}

// readYard reads, computes and inspects every unit that changed since somebody looked. One
// unit goes through all three stages before the processor takes the next: so the trees of the
// texts and the workings of a large yard are never in memory all at once. At ten thousand
// units all figures would take a quarter of a gigabyte, and computing those of one unit again
// for its pages takes a thirtieth of the time of the pages. With leave, what the units
// contribute is packed for a note.
func readYard(o *Options, s *Store, leave bool) (*Yard, error) {
	if err := CheckFolder(o.From); err != nil {
		return nil, err
	}
	reading, err := unit.Open(files.Below(o.From))
	if err != nil {
		return nil, fmt.Errorf("in %q: %w", o.From, err)
	}
	x := newExaminer(reading.Yard())
	x.whole, x.keep = o.AllFigures, leave
	y := &Yard{parts: make([]*contribution, reading.Len())}
	parallel.Each(reading.Len(), func(i int) {
		before := s.recall(reading.Name(i), x)
		var was *unit.Kept
		if before != nil {
			was = before.read
		}
		read, media := reading.Unit(i, was)
		y.parts[i] = x.unit(read, media, before)
	})
	y.Stock, y.problems = reading.Stock()
	y.Stock.Today = o.Today
	// Since when a price holds is known before anybody looks at how long it did.
	y.listed = s.older.offersIn(published(o.To, stockfile.JSONPath))
	stockfile.DateChanges(y.listed, y.Stock.Units, y.Stock.Yard.AsOf.Value)
	s.keepUnits(y.parts)
	if !o.AllFigures {
		y.figures = recompute{x.settings}
	}
	for _, c := range y.parts {
		y.Works = append(y.Works, c.work)
		y.found = append(y.found, c.found)
	}
	y.found = append(y.found, inspect.Across(y.Stock, y.Works))
	y.Findings = inspect.Complete(y.Stock, y.Works, y.problems, y.found...)
	return y, nil
}

// recompute gives all figures of a unit by computing them again.
type recompute struct{ settings compute.Settings }

func (r recompute) Of(u *unit.Unit) *compute.Work { return compute.Unit(u, r.settings) }

// own is the number of units without an example that is left out.
func (y *Yard) own() (n int) {
	for _, u := range y.Stock.Units {
		if !y.Stock.SetAside(u) {
			n++
		}
	}
	return n
}

// stops is the number of stops.
func (y *Yard) stops() int { return inspect.Count(y.Findings, inspect.Stop) }
