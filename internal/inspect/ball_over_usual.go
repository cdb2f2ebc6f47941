package inspect

import "tarepage/internal/measure"

// usualBall is the most that a ball of a diameter is commonly made for.
type usualBall struct {
	Ball measure.Inches
	Most measure.Pounds
}

// usualBalls are typical capacities by the thickest shank (COMAR 11.13.08 and makers'
// lists, "typical"); above 2 in the stamps differ too widely to say.
var usualBalls = []usualBall{{1.875, 2000}, {2, 10000}}

var ballOverUsual = &Rule{
	Name: "ball-over-usual", Severity: Caution,
	Title:  "a ball asked for more than its size is commonly made for says so",
	Why:    "A common ball of this size is not rated for this trailer; buy by the stamp, never by the diameter.",
	Source: "typical ball capacities: 1-7/8 in to 2,000 lb, 2 in to 10,000 lb on the thickest shank; the stamp governs",
	Remedy: "read the coupler's size and rating again; tell the customer the rating that the ball's stamp must show",
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
					f.add(ball.Pos, "the ball is %s, commonly made for %s at most; this trailer is %s", ball.Value.InInches(), usual.Most, gvwr.Value).
						figures(usual.Most.String(), gvwr.Value.String()).
						also(gvwr.Pos, "gvwr is here")
				}
				return
			}
		}
	},
}
