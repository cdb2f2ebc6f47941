package inspect

import "tarepage/internal/measure"

var emptyOverGVWR = &Rule{
	Name: "empty-over-gvwr", Severity: Stop,
	Title:  "the empty trailer weighs no more than its GVWR",
	Why:    "It would be overloaded before anything is on it.",
	Source: "49 CFR 567.4(g)(3) (2015): the GVWR is not less than the unloaded weight plus the rated cargo load",
	Remedy: "read the label and the scale ticket again; one of the two is wrong",
	check: func(c *Case, f *Findings) {
		gvwr, empty := c.Weights.GVWR, c.Weights.Empty
		if gvwr.Given() && empty.Given() && !measure.NotOver(empty.Value, gvwr.Value) {
			f.add(empty.Pos, "it weighs %s empty; its gvwr is only %s", empty.Value, gvwr.Value).
				figures(empty.Value.String(), gvwr.Value.String()).
				also(gvwr.Pos, "gvwr is here")
		}
	},
}
