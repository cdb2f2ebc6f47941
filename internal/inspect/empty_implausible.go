package inspect

import "tarepage/internal/measure"

var emptyImplausible = &Rule{
	Name: "empty-implausible", Severity: Caution,
	Title:  "the empty weight agrees with the parts that the file lists",
	Why:    "The payload is what the empty weight leaves. A digit typed wrong makes a payload that does not exist.",
	Source: Practice + ": the parts are weighed by the tables, with 0 to 30% for what is not listed",
	Remedy: "read the scale ticket again, or the frame's parts",
	check: func(c *Case, f *Findings) {
		empty, parts := c.Weights.Empty, c.Work.EstimatedRange
		if !empty.Given() || !c.Work.EstimatedEmpty.Known {
			return
		}
		low, high := parts[0], parts[1]
		switch {
		case !measure.NotOver(low, empty.Value):
			f.add(empty.Pos, "%s empty; the listed parts alone weigh %s", empty.Value, low.Load()).
				figures(empty.Value.String(), low.Load()).
				also(c.Frame.Beam.Pos, "the main beams are here")
		case !measure.NotOver(empty.Value, high):
			f.add(empty.Pos, "%s empty; the listed parts and three tenths more weigh only %s", empty.Value, high.Limit()).
				figures(empty.Value.String(), high.Limit()).
				also(c.Frame.Beam.Pos, "the main beams are here")
		}
	},
}
