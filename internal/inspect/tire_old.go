package inspect

// tireYears is the age from which a tire is shown as old. There is no federal limit;
// advice runs from three to ten years.
const tireYears = 5

var tireOld = &Rule{
	Name: "tire-old", Severity: Caution,
	Title:  "tires of five years and more are shown with their age",
	Why:    "Trailer tires age standing still; an old one can come apart with its tread whole.",
	Source: Practice + ": advice runs from 3 to 10 years; the date code is 49 CFR 574.5 (from memory)",
	Remedy: "have the tires looked at, or replace them",
	check: func(c *Case, f *Findings) {
		made, asOf := c.Tires.Made, c.Work.Settings.AsOf
		if !made.Given() || !asOf.Known() {
			return
		}
		days := asOf.Days() - made.Value.Days()
		// A year of the Gregorian calendar has 365.2425 days on average.
		if years := days * 10000 / 3652425; years >= tireYears {
			f.add(made.Pos, "tires were made in %s, %d years before %s", made.Value, years, asOf).
				figures(made.Value.String(), "5 years")
		}
	},
}
