package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// ticketDays is how old a scale ticket may be before the trailer is weighed again.
const ticketDays = 365

var weighedLongAgo = &Rule{
	Name: "weighed-long-ago", Severity: Remark,
	Title:  "the scale ticket is not older than a year",
	Why:    "Spares, boxes and ramps are added and taken off. The payload rests on what the trailer weighs today.",
	Source: Practice,
	Remedy: "weigh it again",
	check: func(c *Case, f *Findings) {
		asOf := c.Work.Settings.AsOf
		old := func(at unit.Pos, from measure.Provenance, what string) {
			if from.Origin != measure.ScaleTicket || !asOf.Known() {
				return
			}
			day, err := unit.ParseDay(from.Date())
			if err != nil {
				return
			}
			if days := asOf.Days() - day.Days(); days > ticketDays {
				f.add(at, "%s was weighed on %s, %d days before %s", what, day, days, asOf)
			}
		}
		w := c.Weights
		old(w.Empty.Pos, w.Empty.From, "the empty trailer")
		old(w.TongueEmpty.Pos, w.TongueEmpty.From, "the tongue")
	},
}
