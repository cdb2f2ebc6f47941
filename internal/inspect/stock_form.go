package inspect

import (
	"regexp"
	"strings"
)

var stockShape = regexp.MustCompile(`^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$`)

// deviceNames cannot be file names on Windows (Microsoft, "Naming Files, Paths, and
// Namespaces"); a site must unpack on any host.
var deviceNames = regexp.MustCompile(`^(con|prn|aux|nul|com[0-9]|lpt[0-9])$`)

var stockForm = &Rule{
	Name: "stock-form", Severity: Stop,
	Title:  "a stock number can name a page",
	Why:    "The page's file is named after it, on every kind of host.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "use letters, digits and single dashes, at most 40 of them: SB-1043",
	check: func(c *Case, f *Findings) {
		s := c.Stock.Value
		if c.Stock.Given() && (!stockShape.MatchString(s) || len(s) > 40 || deviceNames.MatchString(strings.ToLower(s))) {
			f.add(c.Stock.Pos, "stock number %q cannot name a page", s)
		}
	},
}
