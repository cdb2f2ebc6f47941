package inspect

import (
	"strings"

	"tarepage/internal/measure"
)

var ratingSummed = &Rule{
	Name: "rating-summed", Severity: Stop,
	Title:  "a rating is one number off one label, not a sum",
	Why:    "No label has a sum. Adding up what the axles are rated for is the usual way to a GVWR that is too high: the frame, the coupler and the brakes may be rated for less.",
	Source: "49 CFR 571.3(b) (2015): the GVWR is the value that the manufacturer specifies",
	Remedy: "write the one number that the label or the part has",
	check: func(c *Case, f *Findings) {
		for _, g := range c.Givens() {
			r, rests := ratings[g.Path]
			_, weight := g.Value.(measure.Pounds)
			if rests && weight && r.part != "" && strings.Contains(g.Text, "+") {
				f.add(g.Pos, "%s is written as a sum: %s", r.what, g.Text)
			}
		}
	},
}
