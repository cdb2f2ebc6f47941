package inspect

import "tarepage/internal/measure"

var emptyTooLight = &Rule{
	Name: "empty-too-light", Severity: Stop,
	Title:  "the empty weight is more than the axles and wheels under it weigh",
	Why:    "The payload is what the empty weight leaves; with a digit lost it is tons too high, and somebody loads by it.",
	Source: Practice + ": trailers weigh a tenth to a half of their GVWR, running gear alone about a twentieth; from memory",
	Remedy: "read the scale ticket again; a digit may be missing",
	check: func(c *Case, f *Findings) {
		empty, gvwr := c.Weights.Empty, c.Weights.GVWR
		if !empty.Given() || !gvwr.Given() || empty.Value <= 0 {
			return
		}
		if least := lightest.Of(gvwr.Value); empty.Value < least {
			f.add(empty.Pos, "it weighs %s empty, less than a twentieth of its gvwr of %s", empty.Value, gvwr.Value).
				figures(empty.Value.String(), least.Load()).
				also(gvwr.Pos, "gvwr is here")
		}
	},
}

// lightest is the share of the GVWR below which no empty weight is believed: half of
// what the lightest trailers weigh, and a lost digit leaves a tenth.
const lightest measure.Share = 0.05
