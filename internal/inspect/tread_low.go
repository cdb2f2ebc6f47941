package inspect

import "tarepage/internal/measure"

// treadLeast is the least tread of a trailer's tire in commerce.
const treadLeast measure.Inches = 2.0 / 32

var treadLow = &Rule{
	Name: "tread-low", Severity: Caution,
	Title:  "tires have a tread of 2/32 in or more",
	Why:    "A bald tire lets go in the rain, and an officer can park the trailer for it.",
	Source: "49 CFR 393.75(c)",
	Remedy: "replace the tires, or tell the customer to before it leaves",
	check: func(c *Case, f *Findings) {
		if t := c.Wear.Tread; t.Given() && t.Value < treadLeast {
			f.add(t.Pos, "the tread is %s, below 2/32 in", t.Words()).figures(t.Words(), "2/32 in")
		}
	},
}
