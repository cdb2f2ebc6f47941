package inspect

import "tarepage/internal/measure"

// lightestTruck is what the lightest trucks weigh empty: US Department of Energy, Fact
// 621 (2010), class 1, as internal/tables gives it. No truck is rated for less.
const lightestTruck measure.Pounds = 3200

var licenseClass = &Rule{
	Name: "license-class", Severity: Caution,
	Title:  "a trailer over 10,000 lb says when a commercial license may be needed",
	Why:    "A buyer who drives home without the license that the combination needs breaks the law.",
	Source: "49 CFR 383.5, 383.91(a)(1) (2015): a combination of 26,001 lb or more, towing more than 10,000 lb",
	Remedy: "tell the customer to add the truck's rating to the trailer's and to ask the state",
	check: func(c *Case, f *Findings) {
		truck, gvwr := c.Work.ClassATruck, c.Weights.GVWR
		if !truck.Known {
			return
		}
		if truck.Value <= 0 {
			f.add(gvwr.Pos, "a federal Class A license may be needed with any truck: GVWR %s is over 26,000 lb by itself; ask your state", gvwr.Value)
			return
		}
		if truck.Value <= lightestTruck {
			f.add(gvwr.Pos, "a federal Class A license may be needed with any truck: GVWR %s leaves only %s before 26,001 lb; ask your state",
				gvwr.Value, truck.Value.Limit()).
				figures(gvwr.Value.String(), "10,000 lb")
			return
		}
		f.add(gvwr.Pos, "a federal Class A license may be needed with a truck whose own GVWR is %s or more; ask your state", truck.Value.Limit()).
			figures(gvwr.Value.String(), "10,000 lb")
	},
}
