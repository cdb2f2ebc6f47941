package inspect

import (
	"strings"

	"tarepage/internal/tables"
)

var ballAndHitchKind = &Rule{
	Name: "ball-and-hitch-kind", Severity: Stop,
	Title:  "the ball fits the kind of hitch",
	Why:    "A coupler on a ball of the wrong size can come off. A buyer who brings the wrong ball cannot take the trailer home.",
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
		f.add(ball.Pos, "the ball is %s; a %s takes %s", ball.Value.InInches(), kind.Value, takes).
			figures(ball.Value.InInches(), takes).
			also(kind.Pos, "the kind of hitch is here")
	},
}
