package inspect

import (
	"regexp"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var wordsChangeValue = &Rule{
	Name: "words-change-value", Severity: Stop,
	Title:  "the words after a price, an availability or a yes leave it what it is",
	Why:    "The page shows the value and not these words. A monthly rate would be the price, a sold trailer would be for sale, and a dead breakaway battery would be a breakaway device.",
	Source: Practice,
	Remedy: "write what is true as the value; after it, only the day since when, as in (since 2026-11-10), or nothing",
	check: func(c *Case, f *Findings) {
		for _, g := range c.Givens() {
			words := changing(g)
			if words == "" {
				continue
			}
			found := f.add(g.Pos, "%s is %s, and the words after it may change that: (%s)", worded(g.Path), g.Text, words)
			switch {
			case moneyKeys[g.Path]:
				found.fix("write the full price there; what comes on top goes under offer.plus, a monthly rate or a deposit under offer.financing")
			case g.Path == "availability":
				found.fix("write the state it is in: on the yard, on order, spoken for or sold; after it, only the day, as in (since 2026-11-10)")
			}
		}
	},
}

// moneyKeys are the keys that ask for an amount.
var moneyKeys = map[string]bool{"price": true, "offer.cash": true, "offer.was": true}

// changing is the note after a value if it may change what the value means, or an empty text.
func changing(g unit.Given) string {
	kept, note := harmless["availability"], g.From.Text
	switch {
	case note == "" || g.From.Origin == measure.Since || g.From.Origin == measure.Model:
		return ""
	case g.Value == true:
		if takesBack.MatchString(note) {
			return note
		}
		return ""
	case moneyKeys[g.Path]:
		if g.Path == "price" && g.From.Origin == measure.Said {
			return "" // said-not-confirmed stops it
		}
		kept = harmless["price"]
	case g.Path != "availability" || g.Value == "sold":
		return ""
	}
	for _, part := range strings.FieldsFunc(note, func(r rune) bool { return r == ',' || r == ';' }) {
		if !leaves(kept, strings.TrimSpace(part)) && !leaves(harmless[""], strings.TrimSpace(part)) {
			return note
		}
	}
	return ""
}

func leaves(list []harmlessWords, part string) bool {
	for _, row := range list {
		if row.form.MatchString(part) {
			return true
		}
	}
	return false
}

// harmlessWords are words after a value that leave its meaning alone.
type harmlessWords struct {
	form *regexp.Regexp
	eg   string
}

func leaving(eg, form string) harmlessWords {
	return harmlessWords{regexp.MustCompile(`(?i)^(?:` + form + `)$`), eg}
}

// harmless are the words that leave a price or an availability what it is; those under no key
// fit both. Whatever is not here stops. Common practice, no source.
var harmless = map[string][]harmlessWords{
	"": {
		leaving("since 2026-11-31", `(?:since|as of|from|desde(?: el)?)?\s*[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}`),
		leaving("as of 11/18/2026", `(?:since|as of|from|desde(?: el)?)?\s*[0-9]{1,2}/[0-9]{1,2}(?:/[0-9]{2,4})?`),
		leaving("since Nov. 18, as the comma cuts it", `(?:since|as of|from)?\s*(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\.?\s+[0-9]{1,2}(?:, as the comma cuts it)?`),
		leaving("2026", `20[0-9]{2}`),
		leaving("since today", `(?:since |as of )?(?:today|yesterday|hoy|ayer)`),
		leaving("said 1:20", `said(?: [0-9]{1,3}(?::[0-9]{2}){1,2})?`),
		leaving("checked", `checked|confirmed|correct|updated|confirmado`),
	},
	"price": {
		leaving("firm", `firm|price (?:is )?firm|firme|precio firme`),
		leaving("or best offer", `obo|or best offer|or offer|best offer|negotiable|neg\.?|o mejor oferta|a tratar|negociable`),
		leaving("asking", `asking|asking price|list|list price|sticker|price tag|tag|label|the tag`),
		leaving("new price", `new price|reduced|marked down|rebajado`),
		leaving("plus tax", `(?:plus|\+|before|without|más) (?:sales )?(?:tax|taxes|ttl|impuestos)(?: and (?:title|license|registration))?`),
		leaving("cash or check", `cash or check|us dollars?|usd|dollars`),
		leaving("maker's sheet", `maker['’]s sheet|invoice|price list|office`),
	},
	"availability": {
		leaving("here now", `here|here now|in stock|on hand|ready|ready to go|aquí`),
		leaving("just in", `just in|just arrived|new arrival|arrived|recién llegado`),
		leaving("until Friday", `(?:until|till|through|hasta(?: el)?) [a-z]+(?: [0-9]{1,2})?`),
		leaving("front row", `(?:(?:in|at|on) )?(?:the )?(?:front|back|first|second|third|north|south|east|west)(?: (?:row|lot|fence|gate|side|corner))?`),
		leaving("row 3", `(?:row|spot|space|stall|lot) [0-9a-z]{1,3}`),
		leaving("call first", `call first|call ahead|by appointment|con cita`),
		leaving("two left", `(?:one|two|three|four|five|several|[0-9]{1,2}) (?:left|here|in stock)`),
		leaving("due in May", `(?:due|expected|arrives|arriving|eta)(?: (?:in|on|by))? [a-z]+(?: [0-9]{1,2})?`),
	},
}

// takesBack are the words after a yes by which it is a no.
var takesBack = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:no|not|none|never|without|missing|gone|lost|broken|dead|removed|disconnected|unhooked|unplugged|inoperative|bad|worn\s+out|needs?|falta|roto|rota|muerta|sin)(?:[^\pL]|$)|n['’]t(?:[^\pL]|$)`)
