package inspect

import "tarepage/internal/compute"

var surgeBrakesOver = &Rule{
	Name: "surge-brakes-over", Severity: Stop,
	Title:  "a trailer of 20,001 lb or more has no surge brakes",
	Why:    "A surge brake is worked by the trailer pushing the truck; behind no truck may so heavy a trailer rely on it.",
	Source: "49 CFR 393.48(d)(1)(ii) (2015): less than 20,001 lb",
	Remedy: "fit electric, electric-over-hydraulic or air brakes, or correct brakes.kind",
	check: func(c *Case, f *Findings) {
		gvwr, kind := c.Weights.GVWR, c.Brakes.Kind
		if kind.Value != "surge" || !gvwr.Given() || gvwr.Value < compute.SurgeNever {
			return
		}
		f.add(kind.Pos, "surge brakes, and gvwr is %s; they are allowed below %s", gvwr.Value, compute.SurgeNever).
			figures(gvwr.Value.String(), compute.SurgeNever.String()).
			also(gvwr.Pos, "gvwr stands here")
	},
}
