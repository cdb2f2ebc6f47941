package inspect

import "tarepage/internal/measure"

var tireNoReserve = &Rule{
	Name: "tire-no-reserve", Severity: Caution,
	Title:  "tires that carry the axle exactly say so",
	Why:    "With nothing to spare, a little less air, a little more load or an uneven one overloads the tires.",
	Source: "49 CFR 571.110 S4.2.2.1 (2015, amended 2016) and 571.120 S5.1.2 (2015) ask for no reserve; any reserve is " + Practice,
	Remedy: "check the pressure before every trip and weigh it loaded, or fit the next load range",
	check: func(c *Case, f *Findings) {
		if r := c.Work.TireReserve; r.Known && measure.NotOver(c.Work.TireCapacity.Value, c.Axles.Rating.Value) && measure.NotOver(c.Axles.Rating.Value, c.Work.TireCapacity.Value) {
			f.add(c.Tires.Size.Pos, "the tires carry exactly the axle's %s and nothing more", c.Axles.Rating.Value).
				figures(c.Work.TireCapacity.Value.String(), c.Axles.Rating.Value.String()).
				also(c.Axles.Rating.Pos, "axle rating is here")
		}
	},
}
