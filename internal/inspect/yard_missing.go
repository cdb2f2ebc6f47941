package inspect

var yardMissing = &Rule{
	Name: "yard-missing", Severity: Stop,
	Title:  "the yard says who it is and when the stock was walked",
	Why:    "Prices and availability mean nothing without the day they were true, and a page without a name sells nothing.",
	Source: "the yard file's format, docs/unit-file.md",
	Remedy: "give the key",
	checkYard: func(y *Yard, f *Findings) {
		if y.Stock.Yard.Broken {
			return // that nothing of it reads is a stop of its own
		}
		for _, m := range y.Stock.Yard.Missing() {
			f.add(m.At, "%s is missing", m.Path).fix("give %s, as in %s: %s", m.Doc, m.Path, m.Example)
		}
	},
}
