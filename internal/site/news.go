package site

import (
	"errors"
	"fmt"
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

// allowGone refuses a build that takes many units off the site, if the owner did not say how
// many.
func allowGone(o *Options, m stockfile.Moves) error {
	if gone := len(m.Gone); manyGone(gone, m.Listed) && gone != o.Fewer {
		const most = 12
		named, more := m.Gone, ""
		if gone > most {
			named, more = named[:most], fmt.Sprintf(" and %d more", gone-most)
		}
		return fmt.Errorf("%d of the %d units on the site would be gone: %s%s; if they are meant to go, say how many: -fewer %d; nothing was published",
			gone, m.Listed, strings.Join(named, ", "), more, gone)
	}
	return nil
}

// errEmpty refuses a yard without a unit. A folder is emptied by mistake sooner than on purpose.
var errEmpty = errors.New("content/units has no unit file, and a site without a unit is not published; put the unit files back (their names end in .md)")
