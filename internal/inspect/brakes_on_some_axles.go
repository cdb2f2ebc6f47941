package inspect

import (
	"tarepage/internal/measure"
)

// commercial is the combined rating or weight from which on the federal rules for commercial
// vehicles hold (49 CFR 390.5).
const commercial measure.Pounds = 10001

var brakesOnSomeAxles = &Rule{
	Name: "brakes-on-some-axles", Severity: Caution,
	Title:  "a trailer with brakes on only some axles says so",
	Why:    "Commercial vehicles in interstate commerce, from a combination of 10,001 lb on, need brakes on every wheel. For others the states differ.",
	Source: "49 CFR 393.42(a); 390.5 (from memory): from a combined rating or weight of 10,001 lb on",
	Remedy: "tell the customer, or fit brakes on the other axles",
	check: func(c *Case, f *Findings) {
		gvwr, b, n := c.Weights.GVWR, c.Brakes, c.Axles.Count
		if gvwr.Given() && gvwr.Value > brakesFrom && n.Given() && b.Axles.Given() && b.Kind.Given() && b.Kind.Value != "none" && b.Axles.Value > 0 && b.Axles.Value < n.Value {
			f.add(b.Axles.Pos, "%d of %d axles have brakes; for commercial use with a truck that makes it %s together or more, 49 CFR 393.42(a) asks for brakes on all wheels, and your state may ask for them too", b.Axles.Value, n.Value, commercial).
				figures(measure.Count(b.Axles.Value), measure.Count(n.Value)).
				also(n.Pos, "the number of axles is here")
		}
	},
}
