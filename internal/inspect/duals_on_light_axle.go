package inspect

import "tarepage/internal/measure"

// leastDualAxle is the lightest axle that is sold with four tires: common practice, no source.
const leastDualAxle measure.Pounds = 8000

var dualsOnLightAxle = &Rule{
	Name: "duals-on-light-axle", Severity: Stop,
	Title: "four tires on an axle are duals, and light axles do not have them",
	Why: "Somebody who counts all tires of a tandem writes 4 where each axle has 2. Then the tires seem to carry far more " +
		"than they do, and a trailer with overloaded tires looks sound.",
	Source: "axles with duals are rated 8,000 lb and more: " + Practice,
	Remedy: "count the tires on one axle, both ends together, without the spare; write tires.per-axle: 2 where each end has one; " +
		"if they really are duals, waive this with the reason",
	check: func(c *Case, f *Findings) {
		per, axle := c.Tires.PerAxle, c.Axles.Rating
		if !per.Given() || per.Value < 4 || !axle.Given() || axle.Value <= 0 || measure.NotOver(leastDualAxle, axle.Value) {
			return
		}
		f.add(per.Pos, "%d tires on an axle that is rated %s; axles with duals are rated %s or more", per.Value, axle.Value, leastDualAxle).
			figures(axle.Value.String(), leastDualAxle.String()).
			also(axle.Pos, "axle rating is here")
	},
}
