package inspect

// inspectionDays are the 12 months for which a yearly inspection holds, leap days included.
const inspectionDays = 366

var inspectionOld = &Rule{
	Name: "inspection-old", Severity: Caution,
	Title:  "the yearly inspection is not over a year old",
	Why:    "In commercial use nobody may tow it before it is inspected again.",
	Source: "49 CFR 396.17(c) (from memory): at least once in the 12 months before; for commercial motor vehicles, trailers over 10,000 lb gross among them",
	Remedy: "have it inspected, or tell the customer that it is due",
	check: func(c *Case, f *Findings) {
		day, asOf := c.Wear.Checked, c.Work.Settings.AsOf
		if !day.Given() || !asOf.Known() || asOf.Days()-day.Value.Days() <= inspectionDays {
			return
		}
		f.add(day.Pos, "it was last inspected on %s, more than a year before the stock was walked on %s", day.Value, asOf).
			figures(day.Value.String(), asOf.String())
	},
}
