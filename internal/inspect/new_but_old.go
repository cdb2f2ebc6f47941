package inspect

import "strconv"

// newYears is how many model years a new trailer may be behind the day the stock was
// walked. Common practice, no source.
const newYears = 2

var newButOld = &Rule{
	Name: "new-but-old", Severity: Caution,
	Title:  "a trailer sold as new is not more than two model years old",
	Why:    "Tires, seals and a breakaway battery age on the lot too. Ask how long it has been outside and how old its tires are.",
	Source: Practice,
	Remedy: "read the year off the label again; if it is right, tell the customer how long the trailer has been in stock",
	check: func(c *Case, f *Findings) {
		day, year := c.Work.Settings.AsOf, c.Year
		if c.Condition.Value != "new" || !year.Given() || year.Value <= 0 || !day.Known() || day.Year-year.Value <= newYears {
			return
		}
		f.add(year.Pos, "sold as new, and it is a %d; the stock was walked on %s", year.Value, day).
			figures(strconv.Itoa(year.Value), day.String()).
			also(c.Condition.Pos, "the condition is here")
	},
}
