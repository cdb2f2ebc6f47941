package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var afterAsOf = &Rule{
	Name: "after-as-of", Severity: Remark,
	Title:  "no date is after the day the stock was walked",
	Why:    "Either a date is mistyped or nobody updated the yard's as-of day. Ages and price changes are counted to that day.",
	Source: "the yard file's format, docs/unit-file.md: as-of",
	Remedy: "correct the date, or update as-of in content/yard.md",
	check: func(c *Case, f *Findings) {
		asOf := c.Work.Settings.AsOf
		if !asOf.Known() {
			return
		}
		later := func(at unit.Pos, day unit.Day, what string) {
			if day.Known() && day.After(asOf) {
				f.add(at, "%s on %s, which is after the stock was walked on %s", what, day, asOf)
			}
		}
		weighed := func(at unit.Pos, from measure.Provenance, what string) {
			if from.Origin == measure.ScaleTicket {
				if day, err := unit.ParseDay(from.Date()); err == nil {
					later(at, day, what)
				}
			}
		}
		if c.Availability.Value != "on order" {
			later(c.Arrived.Pos, c.Arrived.Value, "arrived")
		}
		later(c.Price.Pos, c.Price.Since(), "the price changed")
		later(c.Availability.Pos, c.Availability.Since(), "the availability changed")
		later(c.Relabeled.Pos, c.Relabeled.Value, "relabeled")
		weighed(c.Weights.Empty.Pos, c.Weights.Empty.From, "the empty trailer was weighed")
		weighed(c.Weights.TongueEmpty.Pos, c.Weights.TongueEmpty.From, "the tongue was weighed")
	},
}
