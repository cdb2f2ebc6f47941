package inspect

import (
	"regexp"

	"tarepage/internal/unit"
)

// afterScale is how people say that something was fitted to a trailer that was weighed
// without it.
var afterScale = regexp.MustCompile(`(?i)\b(?:after|since)\s+(?:the\s+|it\s+was\s+|we\s+)?(?:scale|weigh(?:ed|ing)?|ticket)\b|\bnot\s+on\s+the\s+(?:scale\s+)?ticket\b`)

var fittedAfterScale = &Rule{
	Name: "fitted-after-scale", Severity: Stop,
	Title:  "what was fitted after the trailer was weighed is in dealer-added",
	Why:    "It is not in the empty weight, so the payload still counts that weight as room for cargo.",
	Source: "49 CFR 567.4(g)(3) (2015): the GVWR covers the unloaded weight and the cargo",
	Remedy: "weigh the trailer with it, or write what was added and on which day: dealer-added: 210 lb (scale ticket 2026-11-10)",
	check: func(c *Case, f *Findings) {
		if c.DealerAdded.Given() {
			return
		}
		for _, list := range [][]unit.Text{c.Standard, c.Options} {
			for _, t := range list {
				if afterScale.MatchString(t.Value) {
					f.add(t.Pos, "%q is not in the empty weight, and dealer-added gives no weight for it", t.Value).
						also(c.Weights.Empty.Pos, "the empty weight is here")
				}
			}
		}
	},
}
