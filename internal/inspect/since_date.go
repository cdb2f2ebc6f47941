package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var sinceDate = &Rule{
	Name: "since-date", Severity: Remark,
	Title:  "what stands behind a price or an availability is the day since which it holds",
	Why:    "The feeds tell of a change by that day; anything else there is shown to nobody.",
	Source: "the unit file's format, docs/unit-file.md: price",
	Remedy: "write the day of the last change, (since 2026-11-10), or nothing",
	check: func(c *Case, f *Findings) {
		dated := func(at unit.Pos, from measure.Provenance, since unit.Day, what string) {
			// What was only said is another rule's.
			if from.Origin != measure.Unstated && from.Origin != measure.Said && !since.Known() {
				f.add(at, "behind the %s stands (%s), which is no day since which it holds", what, from)
			}
		}
		dated(c.Price.Pos, c.Price.From, c.Price.Since(), "price")
		dated(c.Availability.Pos, c.Availability.From, c.Availability.Since(), "availability")
	},
}
