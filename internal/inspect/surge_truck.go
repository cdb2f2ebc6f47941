package inspect

var surgeTruck = &Rule{
	Name: "surge-truck", Severity: Caution,
	Title:  "a trailer with surge brakes says what truck it needs in commerce",
	Why:    "Behind a lighter truck surge brakes are unlawful in commerce, because they push the truck that slows down.",
	Source: "49 CFR 393.48(d) (2015): the trailer's gross weight is at most 1.75 times the truck's up to 12,000 lb, and at most 1.25 times up to 20,000 lb",
	Remedy: "tell the customer",
	check: func(c *Case, f *Findings) {
		if t := c.Work.SurgeTruck; t.Known {
			f.add(c.Brakes.Kind.Pos, "surge brakes: for commercial use the truck must be rated %s or more; your state may ask for that too", t.Value.Load()).
				also(c.Weights.GVWR.Pos, "gvwr is here")
		}
	},
}
