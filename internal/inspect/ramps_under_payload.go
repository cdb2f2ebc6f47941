package inspect

import "tarepage/internal/measure"

var rampsUnderPayload = &Rule{
	Name: "ramps-under-payload", Severity: Caution,
	Title:  "the ramps bear what the trailer may carry",
	Why:    "A machine that the trailer can carry may be more than its ramps can bear, and on the way up it stands on them alone.",
	Source: "the ramps' own rating; common practice, no source: the lowest-rated part sets the limit",
	Remedy: "tell the customer what the ramps bear, or fit stronger ones; heavier loads have to come on another way",
	check: func(c *Case, f *Findings) {
		ramps, payload := c.Ramps.Rating, c.Work.Payload
		if !ramps.Given() || ramps.Value <= 0 || !payload.Known || measure.NotOver(payload.Value, ramps.Value) {
			return
		}
		what := "the ramps are"
		switch c.Ramps.Kind.Value {
		case "gate":
			what = "the gate is"
		case "ramp door":
			what = "the ramp door is"
		}
		f.add(ramps.Pos, "%s rated %s, the payload is %s", what, ramps.Words(), payload.Value.Limit()).
			figures(ramps.Words(), payload.Value.Limit()).
			also(c.Weights.GVWR.Pos, "gvwr stands here")
	},
}
