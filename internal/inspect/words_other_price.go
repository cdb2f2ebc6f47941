package inspect

import (
	"regexp"

	"tarepage/internal/measure"
)

// pricedAt is how the words of a page ask for money.
var pricedAt = regexp.MustCompile(`(?i)\b(?:yours\s+for|(?:the\s+|our\s+)?price\s+(?:is|now)|priced\s+at|we\s+ask|asking|now\s+only|only)\s+(\$[0-9][0-9,]*(?:\.[0-9]{2})?)`)

var wordsOtherPrice = &Rule{
	Name: "words-other-price", Severity: Stop,
	Title:  "the words below the front matter ask for the same price as the file",
	Why:    "Some states hold a seller to the lower of two published prices.",
	Source: Practice,
	Remedy: "write the price in one place, under price; the page prints it",
	check: func(c *Case, f *Findings) {
		if !c.Price.Given() {
			return
		}
		for _, p := range c.Passages() {
			if p.Note != nil {
				continue // note-disagrees compares what was said with the file
			}
			for _, at := range pricedAt.FindAllStringSubmatchIndex(p.Text, -1) {
				text := p.Text[at[2]:at[3]]
				if w, err := measure.ParseMoney(text); err == nil && w.Value != c.Price.Value {
					f.add(p.Pos(at[2]), "the words ask for %s; the price is %s", text, c.Price.Value).
						figures(text, c.Price.Value.String()).
						also(c.Price.Pos, "the price is here")
				}
			}
		}
	},
}
