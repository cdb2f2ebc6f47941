package site

import (
	"errors"
	"fmt"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"tarepage/internal/inspect"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// told is what a finding tells the owner. A line that moved in its file tells nothing new.
type told struct{ rule, file, message string }

// fresh are the findings that the build before did not have. There are none in a first
// build, where everything would be. What stops nothing in a unit that was left out for a stop was
// not told by the build before, so it is fresh until the unit is published.
func (n *note) fresh(list []inspect.Finding) []inspect.Finding {
	if n == nil {
		return nil
	}
	stopped := n.stopped()
	before := map[told]int{}
	for _, f := range n.findings {
		if f.Severity == inspect.Stop || f.Rule.Name == unit.FileIgnored || !stopped[f.Unit] {
			before[told{f.Rule.Name, f.At.File, f.Message}]++
		}
	}
	var out []inspect.Finding
	for _, f := range list {
		key := told{f.Rule.Name, f.At.File, f.Message}
		if before[key]--; before[key] < 0 {
			out = append(out, f)
		}
	}
	return out
}

// stopped are the files of the units that had a stop in the build before.
func (n *note) stopped() map[string]bool {
	out := map[string]bool{}
	for _, f := range n.findings {
		if f.Severity == inspect.Stop {
			out[f.Unit] = true
		}
	}
	return out
}

// newlyOut are the units that are left out now and had no stop in the build before, by name.
func (n *note) newlyOut(stock *unit.Stock, held inspect.Held) (out []string) {
	if n == nil {
		return nil // everything would be new
	}
	stopped := n.stopped()
	for _, u := range stock.Units {
		if held.Units[u.File] && !stopped[u.File] {
			out = append(out, u.Stock.Value)
		}
	}
	return out
}

// manyGone reports whether so many of the listed units are gone that a mistake is likelier
// than a good week: three or more that are over a third of them, or ten or more. The limits
// are our own.
func manyGone(gone, listed int) bool { return gone >= 10 || gone >= 3 && gone*3 > listed }

// A loss is what went from the site without being sold since the owner last said how many may
// go. One unit deleted with each build is not noticed otherwise. A note keeps it.
type loss struct {
	// Lost are the stock numbers, and Start is how many units were listed when the count began.
	Lost  []string
	Start int
}

// with is the loss after a build that takes units off the site.
func (l loss) with(m stockfile.Moves) loss {
	if l.Start == 0 {
		l.Start = m.Listed
	}
	back := func(stock string) bool { return slices.Contains(m.New, stock) }
	l.Lost = slices.Concat(slices.DeleteFunc(slices.Clone(l.Lost), back), m.Unsold)
	return l
}

// allow refuses a build that takes many units off the site, at once or with the builds before
// it, if the owner did not say how many. If he did, the count begins again.
func (l loss) allow(o *Options, m stockfile.Moves) (loss, error) {
	after, gone := l.with(m), len(m.Gone)
	before := len(after.Lost) - len(m.Unsold)
	said := o.Fewer > 0 && (o.Fewer == gone || o.Fewer == len(after.Lost))
	switch {
	case said:
		return loss{Start: m.Listed - gone + len(m.New)}, nil
	case manyGone(gone, m.Listed):
		return after, fmt.Errorf("%d of the %d units on the site would be gone: %s; if they are meant to go, say how many: -fewer %d; nothing was published",
			gone, m.Listed, firstOf(m.Gone), gone)
	case len(m.Unsold) > 0 && before > 0 && manyGone(len(after.Lost), after.Start):
		return after, fmt.Errorf("%d units would be gone from the site since you last said how many, with those of earlier builds, and none was sold: %s; "+
			"if they were meant to go, say how many: -fewer %d; nothing was published", len(after.Lost), firstOf(after.Lost), len(after.Lost))
	}
	return after, nil
}

// inWrongFolder refuses a build that takes a trailer off the site whose file is still there, where
// no unit is read or under a name that none has, if the owner did not say how many go.
func inWrongFolder(o *Options, stock *unit.Stock, m stockfile.Moves) error {
	for _, gone := range m.Gone {
		if file := stock.Strays[gone]; file != "" && o.Fewer != len(m.Gone) {
			why := "is in " + file + ", where no trailer is read: move it to content/units/"
			if path.Dir(file) == "content/units" {
				why = "is now called " + path.Base(file) + ": name it so that it ends in .md"
			}
			return fmt.Errorf("%s would be gone from the site, because its file %s; if it is meant to go, add -fewer %d; nothing was published", gone, why, len(m.Gone))
		}
	}
	return nil
}

// firstOf names the first of a list.
func firstOf(list []string) string {
	const most = 12
	if len(list) <= most {
		return strings.Join(list, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(list[:most], ", "), len(list)-most)
}

// OwnTarget is the site that a yard has in its own folder; "" if it has none there, or if its folder
// is the current one.
func OwnTarget(from string) string {
	own := filepath.Join(from, "public")
	if filepath.Clean(from) == "." || published(own, "SHA256SUMS") == nil {
		return ""
	}
	return own
}

// errEmpty refuses a yard without a unit. A folder is emptied by mistake sooner than on purpose.
var errEmpty = errors.New("content/units has no unit file, and a site without a unit is not published; put the unit files back (their names end in .md)")
