package inspect

import (
	"strings"

	"tarepage/internal/tables"
)

var ballAndHitchKind = &Rule{
	Name: "ball-and-hitch-kind", Severity: Stop,
	Title:  "the ball fits the way of coupling",
	Why:    "A coupler on a ball of another size comes off; a buyer who brings the wrong ball cannot take the trailer home.",
	Source: Practice + ": a gooseneck takes a 2-5/16 in ball",
	Remedy: "read the size off the coupler again",
	check: func(c *Case, f *Findings) {
		ball, kind := c.Hitch.Ball, c.Hitch.Kind
		if !ball.Given() || !kind.Given() {
			return
		}
		var fits []string
		for _, b := range tables.HitchBalls(kind.Value) {
			if b.Ball == ball.Value {
				return
			}
			if b.Ball > 0 {
				fits = append(fits, b.Ball.InInches())
			} else {
				fits = append(fits, "a "+b.Instead)
			}
		}
		takes := strings.Join(fits, " or ")
		f.add(ball.Pos, "ball is %s, a %s takes %s", ball.Value.InInches(), kind.Value, takes).
			figures(ball.Value.InInches(), takes).
			also(kind.Pos, "the way of coupling stands here")
	},
}
