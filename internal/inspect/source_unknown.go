package inspect

import "tarepage/internal/measure"

var sourceUnknown = &Rule{
	Name: "source-unknown", Severity: Stop,
	Title:  "a note after a rating or an empty weight names what it was read on",
	Why:    "The page shows the note as the reason to believe the number. A name, a website or another trailer is not a reason: only the part itself, its papers or a scale is.",
	Source: "49 CFR 567.4 (2015): the label states the ratings",
	Remedy: "write what it was read on, as in (tag), (coupler plate) or (scale ticket 2026-11-03); your own words may follow",
	check: func(c *Case, f *Findings) {
		for _, g := range c.Givens() {
			r, rests := ratings[g.Path]
			if !rests || g.Path == "price" || g.From.Origin != measure.Other || g.From.NamesPlace() {
				continue
			}
			if g.From.Text == "" {
				f.add(g.Pos, "%s has empty parentheses", r.what)
				continue
			}
			f.add(g.Pos, "%s comes from %q, which names nothing that it can be read on", r.what, g.From.Text)
		}
	},
}
