package inspect

var yardMissing = &Rule{
	Name: "yard-missing", Severity: Stop,
	Title:  "the yard's file gives its name and the day the stock was walked",
	Why:    "Prices and availability mean nothing without a day, and nobody calls a yard without a name.",
	Source: "the yard file's format, docs/unit-file.md",
	Remedy: "give the key",
	checkYard: func(y *Yard, f *Findings) {
		if y.Stock.Yard.Broken {
			return // a file of which nothing reads has a stop of its own
		}
		for _, m := range y.Stock.Yard.Missing() {
			f.add(m.At, "%s is missing", m.Path).fix("give %s, as in %s: %s", m.Doc, m.Path, m.Example)
		}
	},
}
