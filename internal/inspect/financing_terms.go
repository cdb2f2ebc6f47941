package inspect

import (
	"regexp"
	"strings"
)

var financingTerms = &Rule{
	Name: "financing-terms", Severity: Caution,
	Title:  "a text about financing that names one of its terms names them all",
	Why:    "A payment alone hides what the credit costs. Federal law asks whoever advertises one of these terms to state the others next to it.",
	Source: "12 CFR 1026.24(c), (d)(1), (d)(2) (from memory)",
	Remedy: "say that you offer financing and no more, or state the down payment, the terms of repayment and the annual percentage rate (APR)",
	check: func(c *Case, f *Findings) {
		text := c.Offer.Financing
		if !text.Given() {
			return
		}
		for _, term := range creditTerms {
			words, missing := term.form.FindString(text.Value), untold(text.Value)
			if words != "" && len(missing) > 0 {
				f.add(text.Pos, "the text about financing names %s (%q) and leaves out %s",
					term.what, strings.TrimSpace(words), strings.Join(missing, ", "))
				return
			}
		}
		if words := bareRate.FindString(text.Value); words != "" && !annualRate.MatchString(text.Value) {
			f.add(text.Pos, "the text about financing names a rate (%q) that it does not call the annual percentage rate", strings.TrimSpace(words)).
				by("12 CFR 1026.24(c) (from memory)").
				fix("state the rate as the annual percentage rate, 7.9%% APR, or take it out")
		}
	},
}

// creditTerms are the terms that call for the others: 12 CFR 1026.24(d)(1)(i) to (iv).
// "Nothing down" is not one of them: the commentary to 24(d)(1) says so (from memory).
var creditTerms = []struct {
	what string
	form *regexp.Regexp
	eg   string
}{
	{"a down payment", regexp.MustCompile(`(?i)(?:\$ ?[1-9][0-9,.]*|\b(?:[1-9][0-9]*|0\.[0-9]*[1-9][0-9]*)(?:\.[0-9]+)? ?(?:%|percent)) ?(?:cash )?(?:down|as a down)|down ?payment (?:of|from|is)?:? ?(?:\$ ?[1-9][0-9,.]*|[1-9][0-9.]* ?(?:%|percent))`), "$500 down"},
	{"the amount of a payment", regexp.MustCompile(`(?i)\$ ?[0-9][0-9,.]* ?(?:/|a|an|per|each|every) ?(?:mo\b|month|week|wk\b|bi-?weekly|pay)|payments? (?:of|from|as low as|start(?:ing|s)? at) ?(?:about )?\$ ?[0-9]`), "$189 a month"},
	{"the number of payments or the period of repayment", regexp.MustCompile(`(?i)\b[0-9]+ ?-?(?:equal |monthly )?(?:payments|months?|mos?\b|years?|yrs?\b|weeks?)`), "60 months"},
	{"the amount of a finance charge", regexp.MustCompile(`(?i)(?:finance charge|interest|fee) (?:of|is)? ?\$ ?[0-9]|\$ ?[0-9][0-9,.]* (?:of )?(?:interest|finance charge)`), "interest of $900"},
}

var (
	bareRate   = regexp.MustCompile(`(?i)\b[0-9]+(?:\.[0-9]+)? ?(?:%|percent)`)
	annualRate = regexp.MustCompile(`(?i)\bA\.?P\.?R\b|annual percentage rate`)
	downNamed  = regexp.MustCompile(`(?i)\bdown\b`)
	paysNamed  = regexp.MustCompile(`(?i)[0-9]+ ?-?(?:equal |monthly )?(?:payments|months?|mos?\b|years?)`)
)

// untold lists what a text that names a term must also name and does not.
func untold(text string) (missing []string) {
	for _, part := range []struct {
		what  string
		named *regexp.Regexp
	}{{"the down payment", downNamed}, {"the terms of repayment", paysNamed}, {"the annual percentage rate", annualRate}} {
		if !part.named.MatchString(text) {
			missing = append(missing, part.what)
		}
	}
	return missing
}
