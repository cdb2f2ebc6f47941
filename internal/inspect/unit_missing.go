package inspect

import "strings"

var unitMissing = &Rule{
	Name: "unit-missing", Severity: Stop,
	Title:  "the unit file has what a listing needs",
	Why:    "Nobody can say what a trailer carries without its rating, its empty weight, its axles and its tires.",
	Source: "49 CFR 567.4(g) (2015): what the certification label states; the rest is the unit file's format",
	Remedy: "give the key",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Missing() {
			what := "is missing"
			if m.Empty {
				what = "is empty"
			}
			if m.Noun != "" {
				what += "; every " + m.Noun + " needs it"
			}
			missing := f.add(m.At, "%s %s", m.Path, what)
			if !onLabel[m.Path] {
				missing.by("the unit file's format, docs/unit-file.md")
			}
			if section, key, ok := strings.Cut(m.Path, "."); ok {
				// As the file writes it, not as messages name it.
				missing.fix("give %s; below %s: write it like %s: %s", m.Doc, section, key, m.Example)
			} else {
				missing.fix("give %s, as in %s: %s", m.Doc, m.Path, m.Example)
			}
		}
		// Without a kind nobody knows which length is needed, only that one of them is.
		if !c.Kind.Given() && !c.Work.Space.Length.Given() && !c.Deck.Length.Spoiled && !c.Bed.Length.Spoiled && !c.Box.Length.Spoiled {
			f.add(c.Top, "no deck.length, bed.length or box.length is given").
				fix("give the length of what the load stands on")
		}
	},
}

// onLabel are the keys that a certification label states, 49 CFR 567.4(g). A missing title
// is not the label's fault.
var onLabel = map[string]bool{
	"weights.gvwr": true, "axles.rating": true, "tires.size": true, "tires.load-range": true, "serial": true,
}
