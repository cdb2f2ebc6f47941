package inspect

import "tarepage/internal/unit"

var stockForm = &Rule{
	Name: "stock-form", Severity: Stop,
	Title:  "a stock number can name a page",
	Why:    "The page's file is named after the stock number, on every kind of host.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "use " + unit.StockForm,
	check: func(c *Case, f *Findings) {
		if s := c.Stock.Value; c.Stock.Given() && !unit.NamesPage(s) {
			f.add(c.Stock.Pos, "stock number %q cannot name a page", s)
		}
	},
}
