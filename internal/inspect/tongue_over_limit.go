package inspect

import "tarepage/internal/measure"

var tongueOverLimit = &Rule{
	Name: "tongue-over-limit", Severity: Stop,
	Title:  "the tongue stays within the coupler's limit",
	Why:    "At its GVWR with an even load the trailer would press harder on the coupler than it is rated for.",
	Source: "the limit on the coupler plate; SAE J684 vertical load",
	Remedy: "move the axles forward on the drawing or lower the gvwr; check the distances and the tongue weight first",
	check: func(c *Case, f *Findings) {
		limit := c.Hitch.TongueLimit
		if !limit.Given() {
			return
		}
		tongue := c.Weights.TongueEmpty
		over := func(what string, v measure.Pounds) *Finding {
			return f.add(limit.Pos, "%s the tongue carries %s; its limit is %s", what, v.Load(), limit.Value).
				figures(v.Load(), limit.Value.String()).
				also(tongue.Pos, "the tongue weight, empty, is here").
				also(c.Axles.Center.Pos, "the middle of the axles is here")
		}
		if tongue.Given() && !measure.NotOver(tongue.Value, limit.Value) {
			over("empty", tongue.Value)
			return
		}
		if t := c.Work.TongueAtGVWR; t.Known && !measure.NotOver(t.Value, limit.Value) {
			fd := over("loaded evenly to gvwr", t.Value)
			// An estimate refuses nobody's unit: it asks for the scale.
			if fig := c.Work.Figure("tongue-at-gvwr"); fig != nil && fig.Estimated {
				fd.Severity = Caution
				fd.Message += " (estimated from the parts)"
				fd.fix("weigh the tongue empty and write weights.tongue-empty")
			}
		}
	},
}
