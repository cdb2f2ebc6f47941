package inspect

import "tarepage/internal/unit"

var proofPublished = &Rule{
	Name: "proof-published", Severity: Stop,
	Title:  "a photo that is kept off the site is not published under another key",
	Why:    "Whoever keeps a photo off the site has a reason, such as a buyer's name on a ticket.",
	Source: "the unit file's format, docs/unit-file.md: proof",
	Remedy: "take it out here, or take withhold out there",
	checkYard: func(y *Yard, f *Findings) {
		withheld := map[string]unit.Media{}
		for _, c := range y.Cases {
			for _, m := range c.Media {
				if _, told := withheld[m.Name]; m.Withheld && !told {
					withheld[m.Name] = m
				}
			}
		}
		for _, c := range y.Cases {
			for _, m := range c.Media {
				if w, ok := withheld[m.Name]; ok && !m.Withheld {
					f.add(m.Pos, "photo %q is kept off the site by a proof, so it is not shown here", m.Name).
						also(w.Pos, "it is withheld here").Unit = c.File
				}
			}
		}
	},
}
