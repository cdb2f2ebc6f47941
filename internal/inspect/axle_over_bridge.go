package inspect

import (
	"fmt"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
)

var axleOverBridge = &Rule{
	Name: "axle-over-bridge", Severity: Caution,
	Title:  "axles loaded to their rating stay within the Interstate's axle limits",
	Why:    "A trailer loaded to its axle ratings would be over the federal axle limit. It can be fined or turned back, although its label allows the load.",
	Source: "23 CFR 658.17(c) to (e), 658.5 (2015); states keep their own tables",
	Remedy: "tell the customer to load less on the axles, or to ask the state for a permit",
	check: func(c *Case, f *Findings) {
		var worst *compute.AxleRun
		runs := c.Work.GroupRuns()
		for i := range runs {
			r := &runs[i]
			if r.Over() && (worst == nil || r.Weight-r.Limit.Most > worst.Weight-worst.Limit.Most) {
				worst = r
			}
		}
		if worst == nil {
			return
		}
		what, spacing := "the axle loaded to its rating weighs", unit.Pos{}
		if n := worst.Axles(); n > 1 {
			what = fmt.Sprintf("%d axles spanning %s, loaded to their rating, weigh", n, worst.Span.InInches())
			spacing = c.Axles.Spacing.Pos
		}
		f.add(c.Axles.Rating.Pos, "%s %s; the federal limit is %s for %s", what, worst.Weight.Load(), worst.Limit.Most, worst.Limit.Rule).
			figures(worst.Weight.Load(), worst.Limit.Most.String()).
			also(spacing, "the axle spacing is here").
			by(worst.Limit.Source + " (2015); states keep their own tables")
	},
}
