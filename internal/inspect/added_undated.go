package inspect

var addedUndated = &Rule{
	Name: "added-undated", Severity: Stop,
	Title:  "the day the yard added weight and the day the trailer was weighed empty are both known",
	Why:    "Weight that was added after the scale ticket is not in the empty weight. Without the two days nobody knows whether the payload still counts it.",
	Source: "49 CFR 567.4(g)(3) (2015): the GVWR covers the unloaded weight and the cargo; the days are " + Practice,
	Remedy: "weigh the trailer again and leave dealer-added out, or write both days: dealer-added: 95 lb (scale ticket 2026-11-10)",
	check: func(c *Case, f *Findings) {
		added, empty := c.DealerAdded, c.Weights.Empty
		if !added.Given() || added.Value <= 0 || !empty.Given() {
			return
		}
		switch {
		case added.From.Date() == "":
			f.add(added.Pos, "%s was added, but not on which day", added.Value).
				also(empty.Pos, "the empty weight is given here")
		case empty.From.Date() == "":
			f.add(empty.Pos, "%s was added on %s, but the empty weight names no day of a scale ticket", added.Value, added.From.Date()).
				also(added.Pos, "what was added is given here")
		}
	},
}
