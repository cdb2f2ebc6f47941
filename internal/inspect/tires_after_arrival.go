package inspect

var tiresAfterArrival = &Rule{
	Name: "tires-after-arrival", Severity: Caution,
	Title:  "the tires are not younger than the day the trailer came in",
	Why:    "Either the date code was read wrong, or the trailer has other tires than it came with.",
	Source: "the calendar; the date code is 49 CFR 574.5 (from memory)",
	Remedy: "read the date code again; if the tires were replaced, say so in the words",
	check: func(c *Case, f *Findings) {
		made, here := c.Tires.Made, c.Arrived
		// What the model says of the tires is not read off this trailer.
		if !made.Given() || made.Pos.File != c.File || !here.Given() || made.Value.Days() <= here.Value.Days() {
			return
		}
		f.add(made.Pos, "the tires were made in %s, after the trailer arrived on %s", made.Value, here.Value).
			figures(made.Value.String(), here.Value.String()).
			also(here.Pos, "the day it arrived is here")
	},
}
