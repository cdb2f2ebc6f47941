package inspect

import "tarepage/internal/measure"

var hoistUnderPayload = &Rule{
	Name: "hoist-under-payload", Severity: Caution,
	Title:  "the hoist is rated for what the trailer may carry",
	Why:    "The trailer may carry a load that its hoist cannot lift: the bed stays down with it, or comes down on somebody.",
	Source: "the hoist's own rating; common practice, no source: the lowest-rated part sets the limit",
	Remedy: "tell the customer what the hoist is rated for; heavier loads must be unloaded another way",
	check: func(c *Case, f *Findings) {
		hoist, payload := c.Hoist.Rating, c.Work.Payload
		if !hoist.Given() || hoist.Value <= 0 || !payload.Known || measure.NotOver(payload.Value, hoist.Value) {
			return
		}
		f.add(hoist.Pos, "the hoist is rated %s; the payload is %s", hoist.Words(), payload.Value.Limit()).
			figures(hoist.Words(), payload.Value.Limit()).
			also(c.Weights.GVWR.Pos, "gvwr is here")
	},
}
