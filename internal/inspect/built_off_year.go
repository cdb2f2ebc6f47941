package inspect

import "strconv"

var builtOffYear = &Rule{
	Name: "built-off-year", Severity: Caution,
	Title:  "the month on the label fits the model year and the day it came",
	Why:    "One of the two is misread, and the year sets the price and the title.",
	Source: "49 CFR 565.12 (from memory): a model year is at most 24 months of production; 567.4(g)(2): month and year of manufacture",
	Remedy: "read the label again; the month on it goes under built, and the model year under year",
	check: func(c *Case, f *Findings) {
		built := c.Built
		if !built.Given() {
			return
		}
		if y := c.Year; y.Given() && (built.Value.Year < y.Value-1 || built.Value.Year > y.Value+1) {
			f.add(built.Pos, "it was built in %s, and the model year is %d", built.Value.Long(), y.Value).
				figures(built.Value.Long(), strconv.Itoa(y.Value)).
				also(y.Pos, "the year is here")
		}
		if day := c.Arrived; day.Given() && built.Value.First().After(day.Value) {
			f.add(built.Pos, "it was built in %s, after it came on %s", built.Value.Long(), day.Value).
				figures(built.Value.Long(), day.Value.String()).
				also(day.Pos, "the day is here")
		}
	},
}
