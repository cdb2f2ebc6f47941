package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var lampsShort = &Rule{
	Name: "lamps-short", Severity: Caution,
	Title:  "the lamps that were counted are the lamps the standard asks for",
	Why:    "A wide or long trailer that does not show its corners at night is hit, and the buyer is the one who is stopped for it.",
	Source: "49 CFR 571.108 Table I-b (2015); in service 393.11",
	Remedy: "count the lamps again, or fit the ones that are missing",
	check: func(c *Case, f *Findings) {
		want, has := c.Work.Lamps, c.Lights
		if !want.Known {
			return
		}
		// A kind of lamp that nobody counted says nothing.
		short := func(counted unit.Count, due int, what string) {
			if counted.Given() && counted.Value < due {
				f.add(counted.Pos, "%d %s lamps were counted, this size takes %d", counted.Value, what, due).
					figures(counted.Words(), measure.Count(due)).
					also(c.OverallWidth.Pos, "the overall width stands here").
					also(c.Work.Space.Width.Pos, "the width stands here").
					also(c.Work.Space.Length.Pos, "the length stands here")
			}
		}
		short(has.Clearance, want.Clearance(), "clearance")
		short(has.Identification, want.Identification, "identification")
		short(has.SideMarkers, want.SideMarkers(), "side marker")
		short(has.Intermediate, want.Intermediate, "intermediate side marker")
	},
}
