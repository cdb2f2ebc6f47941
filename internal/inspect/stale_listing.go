package inspect

import "tarepage/internal/unit"

var staleListing = &Rule{
	Name: "stale-listing", Severity: Remark,
	Title:  "a listing on which nothing changed for as long as the yard's file says is looked at again",
	Why:    "Tires, batteries and prices do not keep, and neither does what was written about them. It takes 180 days if the yard's file has no look-again-after.",
	Source: Practice,
	Remedy: "walk round it again, or think about the price",
	check: func(c *Case, f *Findings) {
		last, asOf := c.Changed(), c.Work.Settings.AsOf
		if !last.Known() || !asOf.Known() || c.Availability.Value == "sold" {
			return
		}
		days := asOf.Days() - last.Days()
		if days <= c.Work.Settings.LookAgain {
			return
		}
		// Where the day stands that is the last one.
		var at unit.Pos
		what := "no new price or availability since " + last.String()
		switch last {
		case c.Availability.Since():
			at = c.Availability.Pos
		case c.Price.Since():
			at = c.Price.Pos
		default:
			at, what = c.Arrived.Pos, "here since "+last.String()+" without a new price or availability"
		}
		f.add(at, "%s, %d days before %s", what, days, asOf)
	},
}
