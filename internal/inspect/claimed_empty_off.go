package inspect

import "tarepage/internal/measure"

// claimApart is how far the maker's empty weight may be from the scale's, as a share of the
// greater one: options and scales differ by a few in the hundred.
const claimApart measure.Share = 0.05

var claimedEmptyOff = &Rule{
	Name: "claimed-empty-off", Severity: Caution,
	Title:  "the maker's empty weight is near the scale's",
	Why:    "One of the two belongs to another trailer or was read wrong, and the payload rests on it.",
	Source: Practice + ": a maker's weight and a scale's differ by up to five percent",
	Remedy: "weigh it again; if the scale is right, leave the claim out",
	check: func(c *Case, f *Findings) {
		claim, empty := c.Claimed.Empty, c.Weights.Empty
		if !claim.Given() || !empty.Given() || claim.Value <= 0 || empty.Value <= 0 ||
			measure.NotOver(measure.Apart(claim.Value, empty.Value), claimApart) {
			return
		}
		f.add(claim.Pos, "the maker's sheet gives %s empty, the trailer weighs %s", claim.Value, empty.Value).
			figures(claim.Value.String(), empty.Value.String()).
			also(empty.Pos, "the empty weight is given here")
	},
}
