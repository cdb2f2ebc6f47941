package inspect

import "tarepage/internal/measure"

var dualsUncounted = &Rule{
	Name: "duals-uncounted", Severity: Caution,
	Title:  "four tires on an axle were counted by somebody, where two would not carry it",
	Why:    "A 4 that was typed to make a stop go away reads like one that was counted, and with two tires the axle is overloaded.",
	Source: Practice,
	Remedy: "count the tires on one axle, both ends together, without the spare, and write it as in per-axle: 4 (counted)",
	check: func(c *Case, f *Findings) {
		per, axle, t := c.Tires.PerAxle, c.Axles.Rating, c.Work.Tire
		if !per.Given() || per.Value < 4 || !axle.Given() || !t.Known || t.Each <= 0 || measure.NotOver(axle.Value, t.Each.Times(fewest)) {
			return
		}
		if axle.Value < leastDualAxle || stated(per.From) || c.ProofOf("tires.per-axle") != nil {
			return // duals-on-light-axle stops it, or somebody answers for it
		}
		two := t.Each.Times(fewest)
		f.add(per.Pos, "nobody says that the %d tires on an axle were counted; with %d, they carry %s, and the axle is rated %s",
			per.Value, fewest, two.Limit(), axle.Value).
			figures(two.Limit(), axle.Value.String()).
			also(axle.Pos, "axle rating is here")
	},
}

// fewest is how many tires an axle has at the least.
const fewest = 2

// stated reports whether a value says where it was read. What was only said, estimated or filled in
// from a model is judged by other rules, or shown as such.
func stated(from measure.Provenance) bool {
	return from.Origin != measure.Unstated && from.Origin != measure.Estimate
}
