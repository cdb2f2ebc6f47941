package inspect

import (
	"tarepage/internal/measure"
)

var brakesOnSomeAxles = &Rule{
	Name: "brakes-on-some-axles", Severity: Caution,
	Title:  "a trailer with brakes on only some axles says so",
	Why:    "In interstate commerce a combination over 10,000 lb needs brakes on every wheel. For others the states differ.",
	Source: "49 CFR 393.42(a) (2015)",
	Remedy: "tell the customer, or fit brakes on the other axles",
	check: func(c *Case, f *Findings) {
		gvwr, b, n := c.Weights.GVWR, c.Brakes, c.Axles.Count
		if gvwr.Given() && gvwr.Value > brakesFrom && n.Given() && b.Axles.Given() && b.Kind.Given() && b.Kind.Value != "none" && b.Axles.Value > 0 && b.Axles.Value < n.Value {
			f.add(b.Axles.Pos, "%d of %d axles have brakes; your state may ask for brakes on all of them", b.Axles.Value, n.Value).
				figures(measure.Count(b.Axles.Value), measure.Count(n.Value)).
				also(n.Pos, "the number of axles is here")
		}
	},
}
