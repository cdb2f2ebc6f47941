package inspect

import (
	"tarepage/internal/tables"
)

var tireFromMemory = &Rule{
	Name: "tire-from-memory", Severity: Caution,
	Title:  "a tire's load that comes from a remembered table row says so",
	Why:    "No publication was found for this row. It counts until somebody reads the sidewall, and it may be off.",
	Source: "the tire table, rows graded M",
	Remedy: "read the maximum load off the sidewall and write it below tires: in two lines, \"  sidewall:\" and \"    single: 3,520 lb (sidewall)\"",
	check: func(c *Case, f *Findings) {
		if t := c.Work.Tire; t.Known && t.Grade == tables.Memory {
			f.add(c.Tires.Size.Pos, "%s load range %s is counted at %s a tire from memory; the sidewall governs",
				c.Tires.Size.Value, c.Tires.LoadRange.Value, t.Rating.Limit())
		}
	},
}
