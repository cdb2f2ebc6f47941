package inspect

import "tarepage/internal/unit"

var lookAgainDue = &Rule{
	Name: "look-again-due", Severity: Remark,
	Title:  "a listing that has not changed for a long time is looked at again",
	Why:    "Tires, batteries and prices change with time. The rule waits 180 days, or as long as look-again-after in the yard's file says.",
	Source: Practice,
	Remedy: "walk around it again, or think about the price",
	// The yard's, because since when a price holds may be known from the site before only.
	checkYard: func(y *Yard, f *Findings) {
		for i := range y.Cases {
			lookAgain(y.Cases[i], f)
		}
	},
}

func lookAgain(c *Case, f *Findings) {
	if c.Work == nil {
		return
	}
	last, asOf := c.Changed(), c.Work.Settings.AsOf
	if !last.Known() || !asOf.Known() || c.Availability.Value == "sold" {
		return
	}
	days := asOf.Days() - last.Days()
	if days <= c.Work.Settings.LookAgain {
		return
	}
	// The place of the last day.
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
	f.add(at, "%s, %d days before %s", what, days, asOf).Unit = c.File
}
