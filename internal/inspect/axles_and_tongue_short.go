package inspect

import (
	"tarepage/internal/compute"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

var axlesAndTongueShort = &Rule{
	Name: "axles-and-tongue-short", Severity: Stop,
	Title:  "the axles and the least recommended tongue weight reach the GVWR",
	Why:    "A camper loaded to its label, with the tongue weight that its maker recommends, would overload its axles.",
	Source: "49 CFR 571.120 S10.2 (2015): where the maker recommends a range of tongue weights, its least counts",
	Remedy: "read the axle ratings, the GVWR and the recommended tongue weight off the label again",
	check: func(c *Case, f *Findings) {
		least, gvwr, s := c.Weights.TongueLeast, c.Weights.GVWR, c.Work.AxleCapacity
		// For boats NHTSA judges the axles with the trailer hitched (letter of 15 January 1976,
		// nht76-3.20); axles-under-gvwr and boat-axles-hitched do that.
		if !least.Given() || !gvwr.Given() || !s.Known || kinds.Of(c.Kind.Value).Space == kinds.Hull {
			return
		}
		sum := s.Value + least.Value
		if measure.NotOver(gvwr.Value, sum) {
			return
		}
		fd := f.add(least.Pos, "the axles carry %s and the tongue at least %s, together %s; the GVWR is %s",
			s.Value.Limit(), least.Value, sum.Limit(), gvwr.Value).
			figures(sum.Limit(), gvwr.Value.String()).
			also(gvwr.Pos, "the GVWR is given here").
			also(c.Axles.Rating.Pos, "the axles' rating is given here")
		if gvwr.Value <= compute.LightTrailer {
			fd.by("49 CFR 571.110 S9.2 (2015, amended 2016): where the maker recommends a range of tongue weights, its least counts")
		}
	},
}
