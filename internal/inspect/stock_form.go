package inspect

import (
	"regexp"
	"strings"

	"tarepage/internal/unit"
)

// notInNames matches what a stock number may not have.
var notInNames = regexp.MustCompile(`[^A-Za-z0-9]+`)

var stockForm = &Rule{
	Name: "stock-form", Severity: Stop,
	Title:  "a stock number can name a page",
	Why:    "The page's file is named after the stock number, on every kind of host.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "use " + unit.StockForm,
	check: func(c *Case, f *Findings) {
		if s := c.Stock.Value; c.Stock.Given() && !unit.NamesPage(s) {
			found := f.add(c.Stock.Pos, "stock number %q cannot name a page", s)
			dashed := strings.Trim(notInNames.ReplaceAllString(s, "-"), "-")
			if unit.NamesPage(dashed) {
				found.fix("use "+unit.StockForm+"; here that is stock: %s", dashed)
			}
		}
	},
}
