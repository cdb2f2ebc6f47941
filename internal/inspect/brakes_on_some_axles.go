package inspect

import (
	"tarepage/internal/measure"
)

var brakesOnSomeAxles = &Rule{
	Name: "brakes-on-some-axles", Severity: Caution,
	Title:  "a trailer that is not braked on every axle says so",
	Why:    "In interstate commerce every wheel of a vehicle over 10,000 lb in combination has brakes; states differ below.",
	Source: "49 CFR 393.42(a) (2015)",
	Remedy: "say so when you sell it, or fit brakes on the other axles",
	check: func(c *Case, f *Findings) {
		gvwr, b, n := c.Weights.GVWR, c.Brakes, c.Axles.Count
		if gvwr.Given() && gvwr.Value > brakesFrom && n.Given() && b.Axles.Given() && b.Kind.Given() && b.Kind.Value != "none" && b.Axles.Value > 0 && b.Axles.Value < n.Value {
			f.add(b.Axles.Pos, "%d of %d axles have brakes; your state may ask for all", b.Axles.Value, n.Value).
				figures(measure.Count(b.Axles.Value), measure.Count(n.Value)).
				also(n.Pos, "the number of axles stands here")
		}
	},
}
