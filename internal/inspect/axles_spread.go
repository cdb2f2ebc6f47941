package inspect

import "tarepage/internal/measure"

// spreadOver is the spacing above which two axles are not one tandem: 23 CFR 658.5.
const spreadOver measure.Inches = 96

var axlesSpread = &Rule{
	Name: "axles-spread", Severity: Caution,
	Title: "axles more than 96 in apart are not taken for one group that shares equally",
	Why: "Spread axles often have a suspension each. The one nearer to the load can be past its rating while the figures here, " +
		"which share the weight equally, are within it. Weigh each axle by itself.",
	Source: "23 CFR 658.5 (2015): a tandem spans at most 96 in; that axles without a common suspension do not share equally is statics",
	Remedy: "weigh each axle loaded, and tell the customer to do the same",
	check: func(c *Case, f *Findings) {
		n, spacing := c.Axles.Count, c.Axles.Spacing
		if n.Value < 2 || !spacing.Given() || measure.NotOver(spacing.Value, spreadOver) {
			return
		}
		f.add(spacing.Pos, "the axles are %s apart, more than %s; the figures share the load equally between them, which spread axles may not do", spacing.Words(), spreadOver.InInches()).
			figures(spacing.Words(), spreadOver.InInches()).
			also(n.Pos, "the number of axles is here")
	},
}
