package inspect

import (
	"regexp"

	"tarepage/internal/unit"
)

// specTank is the specification of a cargo tank for hazardous materials.
var specTank = regexp.MustCompile(`(?i)\b(?:DOT|MC)[ -]?[34][0-9]{2}\b`)

var tankTestOld = &Rule{
	Name: "tank-test-old", Severity: Caution,
	Title:  "a tank with a DOT specification was tested in the last 12 months",
	Why:    "When a test is due, nobody may fill the tank with fuel before it has passed.",
	Source: "49 CFR 180.407(a)(1), (c): each year; 180.415(b): the mark",
	Remedy: "read the mark next to the tank's plate, and have the tank tested, or tell the customer that a test is due",
	check: func(c *Case, f *Findings) {
		t, asOf := c.Tank, c.Work.Settings.AsOf
		switch {
		case !t.Tested.Given() && !t.Tested.Spoiled && specTank.MatchString(t.Spec.Value):
			f.add(t.Spec.Pos, "the file does not say when the %s tank was last tested", t.Spec.Value).only(Remark).
				fix("read the mark next to the tank's plate, and write tested: 10/2025 below tank; on a new tank it is the month on the plate")
		case t.Tested.Given() && asOf.Known() && monthsFrom(t.Tested.Value, asOf) > 12:
			f.add(t.Tested.Pos, "the tank was last tested in %s, more than 12 months before the stock was walked on %s", t.Tested.Value.Long(), asOf).
				figures(t.Tested.Value.Long(), asOf.String())
		}
	},
}

// monthsFrom is how many months a day's month is after another one.
func monthsFrom(m unit.Month, day unit.Day) int { return (day.Year-m.Year)*12 + day.Month - m.Month }
