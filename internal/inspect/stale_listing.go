package inspect

// staleDays is after how many days in the yard a listing wants another look.
const staleDays = 180

var staleListing = &Rule{
	Name: "stale-listing", Severity: Remark,
	Title:  "a unit that has stood for half a year is looked at again",
	Why:    "Tires, batteries and prices do not keep, and neither does what was written about them.",
	Source: Practice,
	Remedy: "walk round it again, or think about the price",
	check: func(c *Case, f *Findings) {
		arrived, asOf := c.Arrived, c.Work.Settings.AsOf
		if !arrived.Given() || !asOf.Known() || c.Availability.Value == "sold" {
			return
		}
		if days := asOf.Days() - arrived.Value.Days(); days > staleDays {
			f.add(arrived.Pos, "here since %s, %d days before %s", arrived.Value, days, asOf)
		}
	},
}
