package inspect

import "tarepage/internal/measure"

var rampsUnderPayload = &Rule{
	Name: "ramps-under-payload", Severity: Caution,
	Title:  "the ramps are rated for what the trailer may carry",
	Why:    "The trailer may carry a machine that is too heavy for its ramps, and on the way up the ramps alone hold it.",
	Source: "the ramps' own rating; common practice, no source: the lowest-rated part sets the limit",
	Remedy: "tell the customer what the ramps are rated for, or fit stronger ones; heavier loads must be loaded another way",
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
		f.add(ramps.Pos, "%s rated %s; the payload is %s", what, ramps.Words(), payload.Value.Limit()).
			figures(ramps.Words(), payload.Value.Limit()).
			also(c.Weights.GVWR.Pos, "gvwr is here")
	},
}
