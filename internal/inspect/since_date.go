package inspect

import (
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var sinceDate = &Rule{
	Name: "since-date", Severity: Stop,
	Title:  "a note after a price or an availability is the day of its last change",
	Why:    "The feeds announce a change by that day. A day that does not read is mistyped. Other words in the parentheses are not shown to anybody.",
	Source: "the unit file's format, docs/unit-file.md: price",
	Remedy: "write the day of the last change, (since 2026-11-10), or nothing",
	check: func(c *Case, f *Findings) {
		stopped := map[string]bool{} // words-change-value tells of them
		for _, g := range c.Givens() {
			stopped[g.Path] = changing(g) != ""
		}
		dated := func(at unit.Pos, from measure.Provenance, since unit.Day, what string) {
			// What was only said is another rule's.
			if from.Origin != measure.Unstated && from.Origin != measure.Said && !since.Known() && !stopped[what] {
				found := f.add(at, "the %s is followed by (%s), which is not the day of a change", what, from)
				if !strings.HasPrefix(strings.ToLower(from.String()), "since") {
					found.only(Remark)
				}
			}
		}
		dated(c.Price.Pos, c.Price.From, c.Price.Since(), "price")
		dated(c.Availability.Pos, c.Availability.From, c.Availability.Since(), "availability")
	},
}
