package inspect

import "tarepage/internal/measure"

var jackUnderTongue = &Rule{
	Name: "jack-under-tongue", Severity: Caution,
	Title:  "the jack holds the tongue of the loaded trailer",
	Why:    "When the loaded trailer is uncoupled, the jack alone holds the tongue. A jack that folds can crush a foot.",
	Source: "the jack's own rating; statics",
	Remedy: "fit a stronger jack, or tell the customer not to uncouple the trailer loaded",
	check: func(c *Case, f *Findings) {
		j, tongue := c.Jack, c.Work.TongueAtGVWR
		if !j.Rating.Given() || !tongue.Known {
			return
		}
		n := 1
		if j.Count.Given() {
			n = j.Count.Value
		}
		if holds := j.Rating.Value.Times(n); n > 0 && !measure.NotOver(tongue.Value, holds) {
			f.add(j.Rating.Pos, "the jack holds %s; with an even load up to gvwr the tongue puts %s on it", holds.Limit(), tongue.Value.Load()).
				figures(holds.Limit(), tongue.Value.Load()).
				also(c.Weights.TongueEmpty.Pos, "the tongue weight, empty, is here")
		}
	},
}
