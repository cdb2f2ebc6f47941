package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var afterAsOf = &Rule{
	Name: "after-as-of", Severity: Stop,
	Title:  "no date is after the day the stock was walked",
	Why:    "Either a date is mistyped or nobody updated the yard's as-of day. A weight from a ticket of tomorrow has no source, and a tire of tomorrow no age.",
	Source: "the yard file's format, docs/unit-file.md: as-of",
	Remedy: "correct the date, or update as-of in content/yard.md",
	check: func(c *Case, f *Findings) {
		asOf := c.Work.Settings.AsOf
		if !asOf.Known() {
			return
		}
		later := func(at unit.Pos, day unit.Day, what string, s Severity) {
			if day.Known() && day.After(asOf) {
				f.add(at, "%s on %s, which is after the stock was walked on %s", what, day, asOf).only(s)
			}
		}
		weighed := func(at unit.Pos, from measure.Provenance, what string) {
			if from.Origin == measure.ScaleTicket {
				if day, err := unit.ParseDay(from.Date()); err == nil {
					later(at, day, what, Stop)
				}
			}
		}
		if c.Availability.Value != "on order" {
			later(c.Arrived.Pos, c.Arrived.Value, "arrived", Remark)
		}
		later(c.Price.Pos, c.Price.Since(), "the price changed", Remark)
		later(c.Availability.Pos, c.Availability.Since(), "the availability changed", Remark)
		later(c.Relabeled.Pos, c.Relabeled.Value, "relabeled", Stop)
		weighed(c.Weights.Empty.Pos, c.Weights.Empty.From, "the empty trailer was weighed")
		weighed(c.DealerAdded.Pos, c.DealerAdded.From, "weight was added")
		if made := c.Tires.Made; made.Given() && made.Value.Days() > asOf.Days() {
			f.add(made.Pos, "the tires were made in %s, after the stock was walked on %s", made.Value, asOf).
				figures(made.Value.String(), asOf.String()).
				fix("read the date code again, or update as-of in content/yard.md")
		}
		weighed(c.Weights.TongueEmpty.Pos, c.Weights.TongueEmpty.From, "the tongue was weighed")
	},
}
