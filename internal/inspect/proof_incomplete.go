package inspect

import (
	"cmp"
	"slices"
	"strings"

	"tarepage/internal/unit"
)

var proofIncomplete = &Rule{
	Name: "proof-incomplete", Severity: Stop,
	Title:  "a proof names its photo, what the photo shows and what it proves",
	Why:    "Somebody took the photo to prove a number. Without these three, no number on the page leads to it.",
	Source: "the unit file's format, docs/unit-file.md: proof",
	Remedy: "write file, shows and proves",
	check: func(c *Case, f *Findings) {
		for i := range c.Proof {
			p := &c.Proof[i]
			if m := lackingProof(p); m != "" {
				f.add(p.At, "a proof lacks its key %s", m)
			}
			if !p.Withheld() || p.Withhold.Spoiled {
				continue
			}
			switch reason := strings.ToLower(strings.Trim(p.Withhold.Value, " .!")); reason {
			case "", "yes", "true", "on", "y":
				f.add(p.WithheldAt(), "withhold gives no reason; the photo is kept off the site all the same").
					fix("say why, as in withhold: the buyer's name is on the ticket; or delete the key to publish the photo")
			case "no", "false", "off", "n", "never":
				f.add(p.WithheldAt(), "withhold: %s keeps the photo off the site all the same", clipped(p.Withhold.Value)).
					fix("delete the key to publish the photo")
			}
		}
	},
	checkYard: func(y *Yard, f *Findings) {
		for _, m := range y.Stock.Models {
			if len(m.Proof) > 0 {
				f.add(m.Proof[0].At, "a proof is in a model, where it proves nothing").Unit = m.File
			}
		}
		slices.SortFunc(f.list, func(a, b Finding) int { return cmp.Compare(a.Unit, b.Unit) })
		for i := range f.list {
			f.list[i].fix("write it into the file of the unit whose label or ticket it shows")
		}
	},
}

// lackingProof is the first of a proof's keys that is missing. One that is there and does not
// read has its own finding.
func lackingProof(p *unit.Proof) string {
	for _, k := range []struct {
		name string
		text unit.Text
	}{{"file", p.File}, {"shows", p.Shows}, {"proves", p.Proves}} {
		if !k.text.Given() && !k.text.Spoiled {
			return k.name
		}
	}
	return ""
}
