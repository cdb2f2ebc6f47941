package inspect

import (
	"strings"

	"tarepage/internal/unit"
)

var stockTaken = &Rule{
	Name: "stock-taken", Severity: Stop,
	Title:  "no two units have the same stock number",
	Why:    "The stock number names the page, so the second unit would overwrite the first.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "give one of them another number",
	checkYard: func(y *Yard, f *Findings) {
		first := map[string]unit.Pos{}
		// Units that are withheld have their numbers first, wherever they are in the list: a copy
		// of one, made before it was withheld, is the unit that has to stop.
		for _, withheld := range []bool{true, false} {
			for _, c := range y.Cases {
				if c.Withheld() != withheld || !c.Stock.Given() {
					continue
				}
				number := strings.ToLower(c.Stock.Value)
				if other, taken := first[number]; taken {
					f.add(c.Stock.Pos, "stock number %q is already taken", c.Stock.Value).also(other, "the other unit is here").Unit = c.File
					continue
				}
				first[number] = c.Stock.Pos
			}
		}
	},
}
