package inspect

import "tarepage/internal/measure"

// Width limits: 23 CFR 658.15 and 49 USC 31113(a) name 102 in, and 658.15 reads it as
// 2.6 m (102.36 in) on the National Network.
var widest = measure.FromMillimeters(2600)

var wideLoad = &Rule{
	Name: "wide-load", Severity: Caution,
	Title:  "a trailer wider than 102 in says that it needs a permit",
	Why:    "A trailer wider than 102 in needs a permit on most roads, empty or loaded. Some local roads still allow only 96 in.",
	Source: "23 CFR 658.15 (2015); 49 USC 31113(a) (undated copy): 102 in (2.6 m)",
	Remedy: "measure across the widest part, fenders included; tell the customer to ask the state for a permit",
	check: func(c *Case, f *Findings) {
		// The deck may be narrower than the fenders, and the width across everything may
		// not have been measured: the wider of the two counts.
		w := c.Work.Space.Width
		if over := c.OverallWidth; over.Given() && (!w.Given() || over.Value > w.Value) {
			w = over
		}
		if w.Given() && w.Value > widest {
			f.add(w.Pos, "the trailer is %s wide; above 102 in (2.6 m) it needs a permit", w.Value.InInches()).
				figures(w.Value.InInches(), "102 in")
		}
	},
}
