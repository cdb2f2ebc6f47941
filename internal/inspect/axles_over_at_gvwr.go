package inspect

import "tarepage/internal/measure"

var axlesOverAtGVWR = &Rule{
	Name: "axles-over-at-gvwr", Severity: Caution,
	Title:  "with an even load up to its GVWR the trailer stays within its axle ratings",
	Why:    "An even load up to the GVWR would overload the axles. The payload shown is what the axles carry. Load no more than that, or load farther forward and weigh it.",
	Source: "NHTSA interpretation of 1/15/76 (nht76-3.20): axle ratings are judged with the trailer hitched, at its GVWR",
	Remedy: "check the tongue weight and the distances; if they are right, tell the customer that the axles set the limit",
	check: func(c *Case, f *Findings) {
		load, s := c.Work.AxleLoadAtGVWR, c.Work.AxleCapacity
		if !load.Known || !s.Known || measure.NotOver(load.Value, s.Value) {
			return
		}
		f.add(c.Axles.Rating.Pos, "with an even load up to gvwr the axles carry %s; together they are rated %s", load.Value.Load(), s.Value.Limit()).
			figures(load.Value.Load(), s.Value.Limit()).
			also(c.Weights.GVWR.Pos, "gvwr is here").
			also(c.Weights.TongueEmpty.Pos, "the tongue weight, empty, is here").
			also(c.Axles.Center.Pos, "the middle of the axles is here")
	},
}
