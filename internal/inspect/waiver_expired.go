package inspect

var waiverExpired = &Rule{
	Name: "waiver-expired", Severity: Remark,
	Title:  "a waiver that has expired is renewed or taken out",
	Why:    "After its last day a waiver has no effect, and what it waived stops the unit again.",
	Source: "the unit file's format, docs/unit-file.md: waive",
	Remedy: "fix what it waived and take it out, or give a later day and a reason that still holds",
	check: func(c *Case, f *Findings) {
		asOf := c.Work.Settings.AsOf
		for _, w := range c.Waive {
			if w.Until.Given() && asOf.Known() && asOf.After(w.Until.Value) {
				f.add(w.Until.Pos, "the waiver of %s ended on %s; the stock was walked on %s", w.Rule.Value, w.Until.Value, asOf)
			}
		}
	},
}
