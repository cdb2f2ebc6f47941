package inspect

import "tarepage/internal/measure"

// usualBall is the highest rating that balls of one diameter usually have.
type usualBall struct {
	Ball measure.Inches
	Most measure.Pounds
}

// usualBalls are typical capacities by the thickest shank (COMAR 11.13.08 and makers'
// lists, "typical"); above 2 in the stamps differ too widely to say.
var usualBalls = []usualBall{{1.875, 2000}, {2, 10000}}

var ballOverUsual = &Rule{
	Name: "ball-over-usual", Severity: Caution,
	Title:  "a ball size that is seldom made for this weight is pointed out",
	Why:    "Most balls of this size are not rated for this trailer. Buy a ball by the rating stamped on it, never by its diameter.",
	Source: "typical ball capacities: 1-7/8 in to 2,000 lb, 2 in to 10,000 lb on the thickest shank; the stamp governs",
	Remedy: "read the coupler's size and rating again; tell the customer what rating must be stamped on the ball",
	check: func(c *Case, f *Findings) {
		ball, gvwr := c.Hitch.Ball, c.Weights.GVWR
		if !ball.Given() || !gvwr.Given() {
			return
		}
		if c.Hitch.Kind.Value == "bumper-pull" && ball.Value < 2 {
			return // ball-under-class stops it
		}
		for _, usual := range usualBalls {
			if ball.Value <= usual.Ball {
				if !measure.NotOver(gvwr.Value, usual.Most) {
					f.add(ball.Pos, "the ball is %s, a size usually made for %s at most; gvwr is %s", ball.Value.InInches(), usual.Most, gvwr.Value).
						figures(usual.Most.String(), gvwr.Value.String()).
						also(gvwr.Pos, "gvwr is here")
				}
				return
			}
		}
	},
}
