package inspect

import (
	"slices"
	"strings"
	"sync"

	"tarepage/internal/unit"
)

var valueUnknown = &Rule{
	Name: "value-unknown", Severity: Stop,
	Title:  "a figure that nobody knows is named",
	Why:    "What nobody knows cannot be checked and limits no figure here. The trailer may carry less than the page says.",
	Source: "the unit file's format, docs/unit-file.md: a figure that nobody knows",
	Remedy: "go and look, and write what you find",
	check: func(c *Case, f *Findings) {
		named := c.namedElsewhere()
		for _, u := range c.Unknown() {
			if _, words := u.Value.(string); words && !limiting(u.Path) || slices.Contains(named, u.Pos) {
				continue
			}
			fd := f.add(u.Pos, "nobody knows the %s: %s", worded(u.Path), u.From.Text).fix("go and look, and write what you find under %s", u.Path)
			if neededKeys()[u.Path].NeededFor(c.Kind.Value) && !countedSafely[u.Path] {
				c.here(fd)
				continue
			}
			fd.only(Caution)
		}
	},
}

// countedSafely are needed keys that can be unknown without harm: an unknown number of tires
// counts as the fewest, and the payload is not given if the empty weight is unknown.
var countedSafely = map[string]bool{"tires.per-axle": true, "weights.empty": true}

// limiting reports whether words under the key decide what a trailer carries.
func limiting(path string) bool {
	return strings.HasPrefix(path, "tires.") || strings.HasPrefix(path, "hitch.")
}

// namedElsewhere are the unknown values that rules of their own name, which say it better.
func (c *Case) namedElsewhere() []unit.Pos {
	var out []unit.Pos
	if len(c.Unknown()) == 0 {
		return nil
	}
	for _, r := range []*Rule{labelMissing, ratingUnknown, breakawayMissing, tireUnknown, tiresUnderAxle} {
		f := Findings{rule: r, file: c.File}
		r.check(c, &f)
		for _, found := range f.list {
			out = append(out, found.At)
		}
	}
	return out
}

// neededKeys are the keys of the format by their paths.
var neededKeys = sync.OnceValue(func() map[string]unit.KeyDoc {
	out := map[string]unit.KeyDoc{}
	for _, k := range unit.Keys() {
		out[k.Path] = k
	}
	return out
})
