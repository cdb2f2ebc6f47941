package inspect

import "tarepage/internal/unit"

// absFrom is the month from which a trailer with air brakes is built with ABS.
var absFrom = unit.Month{Year: 1998, Month: 3}

var absMissing = &Rule{
	Name: "abs-missing", Severity: Caution,
	Title:  "air brakes built since March 1998 have ABS",
	Why:    "Wheels that lock let a trailer jackknife.",
	Source: "49 CFR 393.55(c)(2); 571.121 S5.2.3",
	Remedy: "look for the ABS lamp on the left near the rear, and write abs: yes or no below brakes",
	check: func(c *Case, f *Findings) {
		b := c.Brakes
		if b.Kind.Value != "air" || b.ABS.Spoiled || b.ABS.Given() && b.ABS.Value || !absDue(c) {
			return
		}
		reason, unknown := b.ABS.Unknown()
		switch {
		case unknown:
			f.add(b.ABS.Pos, "it has air brakes, and it is not known whether they have ABS: %s", reason).also(b.Kind.Pos, "the brakes are here")
		case b.ABS.Given():
			f.add(b.ABS.Pos, "it has air brakes without ABS, and from March 1998 on ABS is built in").
				also(b.Kind.Pos, "the brakes are here").
				fix("have ABS fitted or repaired before it is used commercially, or correct abs, built or year")
		default:
			f.add(b.Kind.Pos, "the file does not say whether its air brakes have ABS, which is built in from March 1998 on").only(Remark)
		}
	},
}

// absDue says whether the trailer was built on or after March 1, 1998. Where the label's month
// is not given, the model year decides: one of 1999 was built after, and one of 1997 before. One
// of 1998 may have been built on either side, so nothing is said of it.
func absDue(c *Case) bool {
	if m := c.Built; m.Given() {
		return !absFrom.First().After(m.Value.First())
	}
	return !c.Year.Given() || c.Year.Value > absFrom.Year
}
