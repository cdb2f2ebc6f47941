package inspect

import "tarepage/internal/measure"

var tongueLimitOverCoupler = &Rule{
	Name: "tongue-limit-over-coupler", Severity: Stop,
	Title:  "the tongue limit is not above the coupler's own rating",
	Why:    "A coupler that may pull a trailer of one weight cannot carry more than that weight on its tongue. One of the two numbers was misread.",
	Source: "statics: the tongue carries a part of the trailer, and hitch.rating is the whole trailer",
	Remedy: "read both numbers off the coupler plate again",
	check: func(c *Case, f *Findings) {
		limit, rating := c.Hitch.TongueLimit, c.Hitch.Rating
		if limit.Given() && rating.Given() && rating.Value > 0 && !measure.NotOver(limit.Value, rating.Value) {
			f.add(limit.Pos, "the tongue limit is %s, the whole coupler is rated %s", limit.Value, rating.Value).
				figures(limit.Value.String(), rating.Value.String()).
				also(rating.Pos, "the coupler's rating is here")
		}
	},
}
