package inspect

import "tarepage/internal/measure"

var pressureOverTire = &Rule{
	Name: "pressure-over-tire", Severity: Stop,
	Title:  "no tire is set above its maximum pressure",
	Why:    "The next owner will set the pressure on the label. Above the sidewall's maximum it can burst the tire or the wheel, and it adds no load capacity.",
	Source: "49 CFR 571.120 S5.3.1 (2015) and 571.110 S4.3(c) (2015, amended 2016): the cold pressure on the label belongs to the tire fitted",
	Remedy: "read the label again; if the sidewall allows more than the table, write below tires: two lines, \"  sidewall:\" and \"    pressure: 80 psi (sidewall)\" with the pressure that is molded there",
	check: func(c *Case, f *Findings) {
		p, t := c.Tires.Pressure, c.Work.Tire
		if p.Given() && t.MostPressure > 0 && !measure.PressureKeeps(p.Value, t.MostPressure) {
			f.add(p.Pos, "the label says %s; the tire's maximum is %s", p.Value, t.MostPressure).
				figures(p.Value.String(), t.MostPressure.String()).
				also(t.MostPressureAt, "the sidewall's pressure is here").
				also(c.Tires.LoadRange.Pos, "the load range is here")
		}
	},
}
