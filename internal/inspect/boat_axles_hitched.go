package inspect

import (
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

var boatAxlesHitched = &Rule{
	Name: "boat-axles-hitched", Severity: Caution,
	Title:  "the axles of a boat trailer hold what the least tongue weight leaves them",
	Why:    "The weight of a boat moves with its motor, its fuel and the bow stop. With too little of it on the hitch, axles that are rated below the GVWR are overloaded.",
	Source: "NHTSA interpretation of 1/15/76 (nht76-3.20): the axle ratings of a boat trailer may be less than its GVWR, and are judged with the trailer hitched",
	Remedy: "weigh the axles with a boat on it, hitched, and tell the customer how much has to be on the hitch",
	check: func(c *Case, f *Findings) {
		gvwr, s := c.Weights.GVWR, c.Work.AxleCapacity
		band, ok := c.Work.Band()
		if kinds.Of(c.Kind.Value).Space != kinds.Hull || !gvwr.Given() || !s.Known || !ok {
			return
		}
		// Within the widest band the hitch takes at least this much from the axles.
		least := band.Widest[0]
		if measure.NotOver(gvwr.Value-least.Of(gvwr.Value), s.Value) || measure.NotOver(gvwr.Value, s.Value) {
			return
		}
		need := gvwr.Value - s.Value
		f.add(c.Axles.Rating.Pos, "loaded to its gvwr of %s, it needs %s or more on the hitch: the axles are rated %s together", gvwr.Value, need.Load(), s.Value.Limit()).
			figures(need.Load(), s.Value.Limit()).
			also(gvwr.Pos, "gvwr is here").
			also(c.Axles.Count.Pos, "the number of axles is here")
	},
}
