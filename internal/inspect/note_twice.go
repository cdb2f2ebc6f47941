package inspect

import "tarepage/internal/unit"

var noteTwice = &Rule{
	Name: "note-twice", Severity: Remark,
	Title:  "no two timed notes have the same time",
	Why:    "Both would lead to the same moment, and one of the two times is probably a mistake.",
	Source: "the unit file's format, docs/unit-file.md: timed notes",
	Remedy: "correct one of the times, or join the two notes",
	check: func(c *Case, f *Findings) {
		for _, b := range c.Bodies() {
			first := map[unit.Clock]unit.Note{}
			for _, n := range b.Notes {
				if other, twice := first[n.At]; twice {
					f.add(n.Pos, "a second note at %s", n.At).also(other.Pos, "the first one is here")
					continue
				}
				first[n.At] = n
			}
		}
	},
}
