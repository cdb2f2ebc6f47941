package inspect

import "tarepage/internal/compute"

var surgeBrakesOver = &Rule{
	Name: "surge-brakes-over", Severity: Stop,
	Title:  "a trailer of 20,001 lb or more has no surge brakes",
	Why:    "A surge brake works by the trailer pushing against the truck. A trailer this heavy may not rely on it with any truck.",
	Source: "49 CFR 393.48(d)(1)(ii) (2015): less than 20,001 lb",
	Remedy: "fit electric, electric-over-hydraulic or air brakes, or correct brakes.kind",
	check: func(c *Case, f *Findings) {
		gvwr, kind := c.Weights.GVWR, c.Brakes.Kind
		if kind.Value != "surge" || !gvwr.Given() || gvwr.Value < compute.SurgeNever {
			return
		}
		f.add(kind.Pos, "the trailer has surge brakes and a gvwr of %s; they are allowed only below %s", gvwr.Value, compute.SurgeNever).
			figures(gvwr.Value.String(), compute.SurgeNever.String()).
			also(gvwr.Pos, "gvwr is here")
	},
}
