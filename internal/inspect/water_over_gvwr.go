package inspect

import "tarepage/internal/measure"

var waterOverGVWR = &Rule{
	Name: "water-over-gvwr", Severity: Caution,
	Title:  "a camper with full water tanks weighs no more than its GVWR",
	Why:    "Whoever fills the tanks and packs nothing is over the label already.",
	Source: "49 CFR 571.110 S9.3.2, 571.120 S10.4.2 (2016): potable water is cargo",
	Remedy: "tell the customer how far the tanks may be filled, or weigh it again",
	check: func(c *Case, f *Findings) {
		w := c.Weights
		if !w.Water.Given() || !w.Empty.Given() || !w.GVWR.Given() {
			return
		}
		full := w.Empty.Value + w.Propane.Value + w.Water.Value
		if measure.NotOver(full, w.GVWR.Value) {
			return
		}
		f.add(w.Water.Pos, "with its water tanks full it weighs %s, more than its gvwr of %s", full.Load(), w.GVWR.Value).
			figures(full.Load(), w.GVWR.Value.String()).
			also(w.Empty.Pos, "the empty weight is here").
			also(w.GVWR.Pos, "gvwr is here")
	},
}
