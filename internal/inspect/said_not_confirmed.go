package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var saidNotConfirmed = &Rule{
	Name: "said-not-confirmed", Severity: Stop,
	Title:  "a rating that was only said is confirmed",
	Why:    "Everything rests on the gvwr, the axle rating, the tires and the hitch; a slip of the tongue would be on every page.",
	Source: "49 CFR 567.4: the label states them; a recording does not",
	Remedy: "read it off the label or the part and write where it stands, as in (tag)",
	check: func(c *Case, f *Findings) {
		said := func(at unit.Pos, from measure.Provenance, key, value, part, note string) {
			if at.Known() && from.Origin == measure.Said {
				when := "was only said"
				if from.Timed {
					when += " at " + measure.Clock(from.At)
				}
				f.add(at, "%s %s: %s", key, when, value).fix("read it off the %s and write (%s) behind it", part, note)
			}
		}
		w, a, t, h := c.Weights.GVWR, c.Axles.Rating, c.Tires, c.Hitch
		said(w.Pos, w.From, "gvwr", w.Value.String(), "label", "tag")
		said(a.Pos, a.From, "the axle rating", a.Value.String(), "label", "tag")
		said(t.Size.Pos, t.Size.From, "the tire size", t.Size.Value, "tire", "sidewall")
		said(t.LoadRange.Pos, t.LoadRange.From, "the load range", t.LoadRange.Value, "tire", "sidewall")
		// The sidewall governs over any table, and the rest sets limits: none of it counts
		// for having been said.
		said(t.Sidewall.Single.Pos, t.Sidewall.Single.From, "the sidewall's single rating", t.Sidewall.Single.Value.String(), "tire", "sidewall")
		said(t.Sidewall.Dual.Pos, t.Sidewall.Dual.From, "the sidewall's dual rating", t.Sidewall.Dual.Value.String(), "tire", "sidewall")
		said(t.Sidewall.Pressure.Pos, t.Sidewall.Pressure.From, "the sidewall's pressure", t.Sidewall.Pressure.Value.String(), "tire", "sidewall")
		said(t.Wheel.Pos, t.Wheel.From, "the wheel's rating", t.Wheel.Value.String(), "wheel", "stamp")
		said(h.TongueLimit.Pos, h.TongueLimit.From, "the tongue limit", h.TongueLimit.Value.String(), "coupler plate", "coupler plate")
		said(h.Chains.Breaking.Pos, h.Chains.Breaking.From, "the chains' breaking force", h.Chains.Breaking.Value.String(), "chain's tag", "tag")
		said(h.Rating.Pos, h.Rating.From, "the coupler's rating", h.Rating.Value.String(), "coupler plate", "coupler plate")
		said(h.BallRating.Pos, h.BallRating.From, "the ball's rating", h.BallRating.Value.String(), "ball", "stamp")
	},
}
