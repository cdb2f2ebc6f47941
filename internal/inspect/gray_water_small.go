package inspect

import "tarepage/internal/measure"

// grayShare is how much larger than the tank for fresh water the one for waste water is.
const grayShare measure.Share = 1.15

var grayWaterSmall = &Rule{
	Name: "gray-water-small", Severity: Caution,
	Title:  "the waste water tank of a kitchen is 15 percent larger than its fresh water tank",
	Why:    "The health department may refuse the permit.",
	Source: "Food Code of the Food and Drug Administration, 5-401.11(A)",
	Remedy: "measure both tanks again, or tell the customer to ask the health department first",
	check: func(c *Case, f *Findings) {
		fresh, gray := c.Equipment.Fresh, c.Equipment.Gray
		if c.Kind.Value != "concession" || !fresh.Given() || !gray.Given() || gray.Value >= grayShare.OfVolume(fresh.Value)-1e-6 {
			return
		}
		f.add(gray.Pos, "its waste water tank holds %s and its fresh water tank %s; 15 percent more than the fresh water is asked for", gray.Words(), fresh.Words()).
			figures(gray.Words(), fresh.Words()).
			also(fresh.Pos, "the fresh water is here")
	},
}
