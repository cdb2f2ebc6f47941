package inspect

import "tarepage/internal/measure"

// What a camper should still carry with full water tanks: 300 lb, or a twentieth of a
// light one's GVWR.
const (
	packed      measure.Pounds = 300
	packedShare measure.Share  = 0.05
)

var waterLeavesLittle = &Rule{
	Name: "water-leaves-little", Severity: Caution,
	Title: "a camper with full water tanks still carries what people pack",
	Why:   "Whoever fills the tanks and packs for a week is over the label without knowing it.",
	Source: Practice + ": 300 lb, or 5% of a light camper's GVWR; EN 1645-2 (from memory) asks for 10 kg for each berth and each meter and 30 kg, " +
		"which is 295 lb with four berths and 21 ft; 49 CFR 571.110 S9.3.2, 571.120 S10.4.2 (2016): potable water is cargo",
	Remedy: "tell the customer how little may be packed, or how far the tanks may be filled; check the empty weight",
	check: func(c *Case, f *Findings) {
		w, payload := c.Weights, c.Work.Payload
		if !w.Water.Given() || !w.GVWR.Given() || !payload.Known {
			return
		}
		least := min(packed, packedShare.Of(w.GVWR.Value))
		left := payload.Value - w.Water.Value
		if measure.NotOver(least, left) || w.Empty.Given() && !measure.NotOver(w.Empty.Value+w.Propane.Value+w.Water.Value, w.GVWR.Value) {
			return // Where nothing is left water-over-gvwr says so.
		}
		text := max(left, 0).Limit()
		f.add(w.Water.Pos, "with its water tanks full it carries only %s of cargo; at least %s is usual", text, least.Load()).
			figures(text, least.Load()).
			also(w.Empty.Pos, "the empty weight is here").
			also(w.GVWR.Pos, "gvwr is here")
	},
}
