package inspect

import "tarepage/internal/measure"

// couplerAsked is the gvwr above which a coupler without a stated rating is named: the end
// of SAE J684 Class 2. Below it nearly every coupler is enough.
const couplerAsked measure.Pounds = 3500

var couplerRatingMissing = &Rule{
	Name: "coupler-rating-missing", Severity: Caution,
	Title:  "the coupler's rating is known for a trailer over 3,500 lb",
	Why:    "The coupler may be rated for less than the trailer. Nobody can tell until its plate is read.",
	Source: "SAE J684 (gross trailer weight of couplers, classes as COMAR 11.13.08.04(B) prints them)",
	Remedy: "read the coupler plate and write hitch.rating",
	check: func(c *Case, f *Findings) {
		h, gvwr := c.Hitch, c.Weights.GVWR
		if !h.Kind.Given() || !gvwr.Given() || h.Rating.Given() || h.Rating.Spoiled || measure.NotOver(gvwr.Value, couplerAsked) {
			return
		}
		f.add(h.Kind.Pos, "nobody has read the coupler's rating, and gvwr is %s; read its plate before you load the trailer", gvwr.Value).
			figures(gvwr.Value.String(), "").
			also(gvwr.Pos, "gvwr is here")
	},
}
