package inspect

import "tarepage/internal/measure"

var wheelsUnderAxle = &Rule{
	Name: "wheels-under-axle", Severity: Stop,
	Title:  "the wheels of an axle carry what the axle is rated for",
	Why:    "A wheel that carries more than its stamp cracks, often at the studs.",
	Source: "49 CFR 571.120 S5.1.1 (2015) and 571.110 S4.4 (2015, amended 2016): rims suit the tire and its load; the rating stamped on the wheel",
	Remedy: "fit wheels stamped for the load, and leave the axle rating as the label has it",
	check: func(c *Case, f *Findings) {
		axle, w := c.Axles.Rating, c.Work.WheelCapacity
		if axle.Given() && w.Known && !measure.NotOver(axle.Value, w.Value) {
			f.add(c.Tires.Wheel.Pos, "the wheels carry %s; the axle is rated %s", w.Value.Limit(), axle.Value).
				figures(w.Value.Limit(), axle.Value.String()).
				also(axle.Pos, "axle rating is here")
		}
	},
}
