package inspect

import "tarepage/internal/unit"

var labelMissing = &Rule{
	Name: "label-missing", Severity: Stop,
	Title:  "a new trailer has a certification label that somebody can read",
	Why:    "Without its label a new trailer may not be sold, and nobody knows what it may carry.",
	Source: "49 CFR 567.4 (2015): the label names the GVWR and each axle's rating; 49 USC 30112, from memory: no sale without it",
	Remedy: "get the label from the maker, or write condition: used if it was sold before",
	check: func(c *Case, f *Findings) {
		if c.Condition.Value != "new" {
			return
		}
		for _, r := range labelRatings(c) {
			if reason, unknown := r.is.Unknown(); unknown {
				f.add(r.is.Pos, "%s of a new trailer is not known: %s", r.what, reason).
					also(c.Condition.Pos, "it is called new here")
			}
		}
	},
}

type namedWeight struct {
	what string
	is   *unit.Weight
}

// labelRatings are the ratings that a certification label names.
func labelRatings(c *Case) []namedWeight {
	return []namedWeight{{"the GVWR", &c.Weights.GVWR}, {"the rating of its axles", &c.Axles.Rating}}
}
