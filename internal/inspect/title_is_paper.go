package inspect

import (
	"regexp"
	"strings"
)

var titleIsPaper = &Rule{
	Name: "title-is-paper", Severity: Stop,
	Title:  "the title is the listing's headline, not the ownership paper",
	Why:    "The headline is the first thing on the page, in feeds and on link cards. A customer who reads \"clean\" there does not learn what is for sale.",
	Source: "the unit file's format, docs/unit-file.md: title, ownership",
	Remedy: "write the headline under title, and the paper under ownership",
	check: func(c *Case, f *Findings) {
		words := strings.ToLower(strings.TrimSpace(c.Title.Value))
		for _, p := range paperWords {
			if c.Title.Given() && p.form.MatchString(words) {
				f.add(c.Title.Pos, "the title is %q, which describes an ownership paper and not a trailer", c.Title.Value).
					fix("write the headline under title, such as 82 in x 18 ft equipment trailer, and under ownership write %s", p.write)
				return
			}
		}
	},
}

// paperWords are what people write for the ownership paper, and how the unit file has it.
var paperWords = []struct {
	form  *regexp.Regexp
	write string
}{
	{titleWords(`clean|clear`), "paper: title and brand: clean"},
	{titleWords(`salvage|rebuilt|reconstructed|flood|junk|branded`), "paper: title and the brand"},
	{titleWords(`(?:in|on) ?hand|have|here|present`), "paper: title and state: in hand"},
	{titleWords(`lien|lender|bank|(?:with|at) the (?:bank|lender)`), "paper: title and state: with the lender"},
	{titleWords(`lost|missing`), "paper: title and state: lost"},
	{titleWords(`pending|applied for|ordered|duplicate`), "paper: title and state: applied for"},
	{titleWords(`none|no|n/a`), "paper: none"},
	{titleWords(`yes|title`), "paper: title"},
	{titleWords(`mso|mco|cert(?:ificate|\.)? of origin|(?:maker|manufacturer)['’]?s (?:statement|certificate) of origin`), "paper: MSO"},
	{titleWords(`bill of sale`), "paper: bill of sale"},
}

// titleWords matches these words, with or without "title", and nothing else.
func titleWords(words string) *regexp.Regexp {
	return regexp.MustCompile(`^(?:title:? ?(?:is )?)?(?:` + words + `)(?: (?:state )?title)?(?:,? in hand)?\.?$`)
}
