package inspect

import "regexp"

var defectKnown = &Rule{
	Name: "defect-known", Severity: Caution,
	Title:  "a defect that the yard knows is among the cautions",
	Why:    "A customer reads the cautions before he hooks up. Further down, between the measures, he does not see it.",
	Source: Practice,
	Remedy: "repair it, and take it out of the file",
	check: func(c *Case, f *Findings) {
		if d := c.Wear.Defects; d.Given() && !noDefect.MatchString(d.Value) {
			f.add(d.Pos, "known defect: %s", d.Value)
		}
	},
}

// noDefect matches a text that says that there is none.
var noDefect = regexp.MustCompile(`(?i)^(?:none|no|no defects?|nothing)(?: (?:known|seen|found|that we know of))?\.?$`)
