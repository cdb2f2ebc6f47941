package inspect

import "tarepage/internal/measure"

var axlesOverAtGVWR = &Rule{
	Name: "axles-over-at-gvwr", Severity: Caution,
	Title:  "loaded evenly to its GVWR the trailer stays within its axle ratings",
	Why:    "The label's gvwr alone would overload the axles here. The payload is held to what they carry; load no more, or load farther forward and weigh it.",
	Source: "NHTSA interpretation of 1/15/76 (nht76-3.20): axle ratings are judged with the trailer hitched, at its GVWR",
	Remedy: "check the tongue weight and the distances; if they are right, tell the customer that the axles govern",
	check: func(c *Case, f *Findings) {
		load, s := c.Work.AxleLoadAtGVWR, c.Work.AxleCapacity
		if !load.Known || !s.Known || measure.NotOver(load.Value, s.Value) {
			return
		}
		f.add(c.Axles.Rating.Pos, "loaded evenly to gvwr the axles carry %s, they are rated %s together", load.Value.Load(), s.Value.Limit()).
			figures(load.Value.Load(), s.Value.Limit()).
			also(c.Weights.GVWR.Pos, "gvwr stands here").
			also(c.Weights.TongueEmpty.Pos, "the tongue weight, empty, stands here").
			also(c.Axles.Center.Pos, "the middle of the axles stands here")
	},
}
