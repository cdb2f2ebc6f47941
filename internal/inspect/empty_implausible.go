package inspect

import "tarepage/internal/measure"

var emptyImplausible = &Rule{
	Name: "empty-implausible", Severity: Caution,
	Title:  "the empty weight is one that its parts can make",
	Why:    "The payload is what the empty weight leaves; a digit typed wrong is a payload that is not there.",
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
			f.add(empty.Pos, "%s empty, the listed parts alone weigh %s", empty.Value, low.Load()).
				figures(empty.Value.String(), low.Load()).
				also(c.Frame.Beam.Pos, "the main beams stand here")
		case !measure.NotOver(empty.Value, high):
			f.add(empty.Pos, "%s empty, the listed parts and three tenths more weigh %s", empty.Value, high.Limit()).
				figures(empty.Value.String(), high.Limit()).
				also(c.Frame.Beam.Pos, "the main beams stand here")
		}
	},
}
