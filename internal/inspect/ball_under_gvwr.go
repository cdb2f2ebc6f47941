package inspect

import "tarepage/internal/measure"

var ballUnderGVWR = &Rule{
	Name: "ball-under-gvwr", Severity: Stop,
	Title:  "a ball sold with the trailer is rated for it",
	Why:    "Everything the truck pulls hangs on this one part.",
	Source: "SAE J684; the rating stamped on the ball governs",
	Remedy: "read the stamp again, or sell the trailer with a ball rated for the gvwr",
	check: func(c *Case, f *Findings) {
		rating, gvwr := c.Hitch.BallRating, c.Weights.GVWR
		if rating.Given() && gvwr.Given() && !measure.NotOver(gvwr.Value, rating.Value) {
			f.add(rating.Pos, "the ball is rated %s; gvwr is %s", rating.Value, gvwr.Value).
				figures(rating.Value.String(), gvwr.Value.String()).
				also(gvwr.Pos, "gvwr is here")
		}
	},
}
