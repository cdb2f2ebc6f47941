package inspect

var ratingUnknown = &Rule{
	Name: "rating-unknown", Severity: Caution,
	Title:  "a rating that nobody could read is named",
	Why:    "No payload can be given without it. Have the trailer rated by its maker or a licensed shop before you load it.",
	Source: "49 CFR 571.3(b) (2015): the ratings are the maker's",
	Remedy: "read the label or the axle tag, or ask the maker with the serial number",
	check: func(c *Case, f *Findings) {
		if c.Condition.Value == "new" {
			return
		}
		for _, r := range labelRatings(c) {
			if reason, unknown := r.is.Unknown(); unknown {
				f.add(r.is.Pos, "%s is not known: %s", r.what, reason)
			}
		}
	},
}
