package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var lampsShort = &Rule{
	Name: "lamps-short", Severity: Stop,
	Title:  "the trailer has as many lamps as the standard asks for",
	Why:    "Other drivers cannot see the corners of a wide or long trailer at night, and the buyer is the one who gets the ticket.",
	Source: "49 CFR 571.108 Table I-b (2015); in service 393.11; no new trailer may be sold without them: 49 USC 30112(a), from memory",
	Remedy: "count the lamps again, or fit the ones that are missing",
	check: func(c *Case, f *Findings) {
		want, has := c.Work.Lamps, c.Lights
		if !want.Known {
			return
		}
		// A kind of lamp that nobody counted says nothing.
		short := func(counted unit.Count, due int, what string) {
			if counted.Given() && counted.Value < due {
				c.unlawfulNew(f.add(counted.Pos, "%d %s lamps were counted; a trailer of this size needs %d", counted.Value, what, due).
					figures(counted.Words(), measure.Count(due)).
					also(c.OverallWidth.Pos, "the overall width is here").
					also(c.Work.Space.Width.Pos, "the width is here").
					also(c.Work.Space.Length.Pos, "the length is here"))
			}
		}
		short(has.Clearance, want.Clearance(), "clearance")
		short(has.Identification, want.Identification, "identification")
		short(has.SideMarkers, want.SideMarkers(), "side marker")
		short(has.Intermediate, want.Intermediate, "intermediate side marker")
	},
}

// unlawfulNew leaves a finding a stop on a new trailer, which may not be sold that way, and
// makes it a caution on a used one.
func (c *Case) unlawfulNew(f *Finding) {
	if c.Condition.Value != "new" {
		f.only(Caution)
	}
}
