package inspect

import "tarepage/internal/measure"

var weighedLoaded = &Rule{
	Name: "weighed-loaded", Severity: Stop,
	Title:  "the weight with a load on it is more than the empty one and within the GVWR",
	Why:    "If two weights cannot both be right, the payload is wrong. A trailer that was weighed over its rating was overloaded.",
	Source: Practice + ": a load adds weight; 49 CFR 571.3(b) (2015): the GVWR is the most it may weigh loaded",
	Remedy: "read both scale tickets again",
	check: func(c *Case, f *Findings) {
		loaded, empty, gvwr := c.Weights.Loaded, c.Weights.Empty, c.Weights.GVWR
		if !loaded.Given() || loaded.Value <= 0 {
			return
		}
		if empty.Given() && measure.NotOver(loaded.Value, empty.Value) {
			f.add(loaded.Pos, "it weighed %s with a load on it; empty it weighs %s", loaded.Value, empty.Value).
				figures(loaded.Value.String(), empty.Value.String()).
				also(empty.Pos, "the empty weight is here")
		}
		if gvwr.Given() && !measure.NotOver(loaded.Value, gvwr.Value) {
			f.add(loaded.Pos, "it was weighed at %s with a load on it; the most it may weigh is %s", loaded.Value, gvwr.Value).
				only(Caution).
				figures(loaded.Value.String(), gvwr.Value.String()).
				also(gvwr.Pos, "gvwr is here").
				fix("load less, and have tires, axles and frame looked at")
		}
	},
}
