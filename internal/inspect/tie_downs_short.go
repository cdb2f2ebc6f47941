package inspect

import "tarepage/internal/measure"

var tieDownsShort = &Rule{
	Name: "tie-downs-short", Severity: Caution,
	Title:  "the rated tie-down points hold a full load",
	Why:    "A tie-down is only as strong as the ring it is hooked to. A load that breaks loose does not stop when the trailer stops.",
	Source: "49 CFR 393.106(d), 393.108(a) (2015): half the weight of the load, anchor points included",
	Remedy: "fit more or stronger rings, or tell the customer what the rings hold",
	check: func(c *Case, f *Findings) {
		need, has := c.Work.TieDownNeed, c.Work.TieDownPoints
		if !need.Known || !has.Known || measure.NotOver(need.Value, has.Value) {
			return
		}
		unrated := ""
		for _, t := range c.TieDowns {
			if !t.Rating.Given() {
				unrated = "; " + t.Kind.Value + " without a rating do not count"
			}
		}
		f.add(c.TieDowns[0].Count.Pos, "the rated tie-down points count for %s together; a full load needs %s%s",
			has.Value.Limit(), need.Value.Load(), unrated).
			figures(has.Value.Limit(), need.Value.Load())
	},
}
