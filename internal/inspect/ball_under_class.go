package inspect

import "tarepage/internal/measure"

var ballUnderClass = &Rule{
	Name: "ball-under-class", Severity: Stop,
	Title: "the ball is as large as the coupler's class needs",
	Why:   "A smaller ball has a thinner shank, and its coupler is made for a lighter trailer.",
	Source: "SAE J684 (classes as COMAR 11.13.08.10 Table 1 prints them): through 2,000 lb 1-7/8 in, through 5,000 lb 2 in; " +
		"above 5,000 lb typical ball capacities, which end at 2,000 lb for 1-7/8 in",
	Remedy: "read the size off the coupler again, or fit a coupler of the right class",
	check: func(c *Case, f *Findings) {
		ball, gvwr := c.Hitch.Ball, c.Weights.GVWR
		if c.Hitch.Kind.Value != "bumper-pull" || !ball.Given() || !gvwr.Given() {
			return
		}
		// Above 5,000 lb (Class 4) J684 goes by strength and names no diameter, but nobody
		// makes a 1-7/8 in ball for more than 2,000 lb.
		least := measure.Inches(2)
		if gvwr.Value <= 2000 {
			least = 1.875
		}
		if ball.Value < least {
			f.add(ball.Pos, "the ball is %s; a trailer of %s takes %s or larger", ball.Value.InInches(), gvwr.Value, least.InInches()).
				figures(ball.Value.InInches(), least.InInches()).
				also(gvwr.Pos, "gvwr is here")
		}
	},
}
