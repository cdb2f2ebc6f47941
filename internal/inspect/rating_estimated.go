package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var ratingEstimated = &Rule{
	Name: "rating-estimated", Severity: Caution,
	Title:  "a rating is read off the label or the part, not estimated",
	Why:    "A rating is what the maker printed, to the pound. If it is a guess, every limit that rests on it is a guess too.",
	Source: "49 CFR 571.3(b) (2015): the GVWR is the value that the manufacturer specifies",
	Remedy: "read it off the label or the part and write where you read it, as in (tag)",
	check: func(c *Case, f *Findings) {
		h, side := &c.Hitch, &c.Tires.Sidewall
		for _, r := range [...]struct {
			path string
			is   *unit.Weight
		}{
			{"hitch.rating", &h.Rating}, {"hitch.ball-rating", &h.BallRating}, {"hitch.tongue-limit", &h.TongueLimit},
			{"hitch.chains.breaking", &h.Chains.Breaking}, {"axles.rating", &c.Axles.Rating},
			{"tires.sidewall.single", &side.Single}, {"tires.sidewall.dual", &side.Dual}, {"tires.wheel", &c.Tires.Wheel},
			{"weights.gvwr", &c.Weights.GVWR},
		} {
			if !r.is.Given() || !r.is.About && r.is.From.Origin != measure.Estimate {
				continue
			}
			part := ratings[r.path]
			f.add(r.is.Pos, "%s is an estimate: %s", part.what, r.is.Words()).
				fix("read it off the %s and write (%s) after it, without about", part.part, part.note)
		}
	},
}
