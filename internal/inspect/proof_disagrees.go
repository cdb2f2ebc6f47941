package inspect

import "tarepage/internal/measure"

var proofDisagrees = &Rule{
	Name: "proof-disagrees", Severity: Stop,
	Title:  "a value comes from what its photo shows",
	Why:    "The page says that the number was photographed. It must be the number on the photo, not one that was only said, estimated or taken from the model.",
	Source: "the unit file's format, docs/unit-file.md: proof",
	Remedy: "read the number off the photo and write what the photo shows in parentheses, or take the key out of proves",
	check: func(c *Case, f *Findings) {
		for i := range c.Proof {
			p := &c.Proof[i]
			if !p.Shows.Given() {
				continue
			}
			for _, k := range p.Keys() {
				g := c.givenAt(k.Path)
				if g == nil || p.Fits(g.From) {
					continue
				}
				note := p.Shows.Value
				if note == "scale ticket" {
					note += " 2026-11-03" // the day is the ticket's
				}
				if g.From.Origin == measure.Model {
					f.add(k.Pos, "%s is filled in from the model, and its photo shows this trailer's %s", g.Path, p.Shows.Value).
						also(g.Pos, "the model's value is here").
						fix("write %s: %s (%s) in this file, as the photo shows it", g.Path, g.Text, note)
					continue
				}
				f.add(g.Pos, "%s is marked (%s), and its photo shows the %s", g.Path, g.From, p.Shows.Value).
					also(k.Pos, "the photo is named here").
					fix("if it was read off the photo, write (%s) after it; otherwise take %s out of proves", note, g.Path)
			}
		}
	},
}
