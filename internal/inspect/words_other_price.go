package inspect

import (
	"regexp"
	"strconv"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var wordsOtherPrice = &Rule{
	Name: "words-other-price", Severity: Stop,
	Title:  "no text of the unit or of the yard asks for another price than the file",
	Why:    "Some states hold a seller to the lower of two published prices.",
	Source: Practice,
	Remedy: "write the price in one place, under price; the page prints it",
	check: func(c *Case, f *Findings) {
		if !c.Price.Given() {
			return
		}
		for _, a := range amountsIn(c.Title.Value) {
			if c.asked(a.dollars) || otherUse.MatchString(a.after) {
				continue
			}
			f.add(c.Title.Pos, "the title names %s; the price is %s", a.text, c.Price.Value).
				figures(a.text, c.Price.Value.String()).
				also(c.Price.Pos, "the price is here")
		}
		for _, t := range c.writing() {
			// note-disagrees compares what was said with the file, and words-change-value reads the
			// words after the price.
			if t.spoken || t.code || t.at == c.Price.Pos {
				continue
			}
			for _, a := range amountsIn(t.text) {
				c.otherPrice(&t, a, f)
			}
		}
	},
	checkYard: func(y *Yard, f *Findings) {
		for _, t := range y.writing() {
			for _, a := range amountsIn(t.text) {
				if c, known := y.pricedFor(a); c != nil && !known {
					f.add(t.place(a.at), "the words ask for %s; the price of %s is %s", a.text, c.Stock.Value, c.Price.Value).
						figures(a.text, c.Price.Value.String()).
						also(c.Price.Pos, "the price is here").
						fix("take the amount out; the pages print each price")
				}
			}
		}
	},
}

// otherPrice judges an amount in a text of the unit: a stop where the words ask for it, a caution
// where a customer may take it for the price.
func (c *Case) otherPrice(t *writing, a amount, f *Findings) {
	least := quarter.OfMoney(c.Price.Value)
	switch {
	case c.asked(a.dollars):
	case asks.MatchString(a.before) && !otherUse.MatchString(a.after), takesIt.MatchString(a.after),
		asksWeakly.MatchString(a.before) && !otherUse.MatchString(a.after) && a.dollars >= least:
		f.add(t.place(a.at), "the words ask for %s; the price is %s", a.text, c.Price.Value).
			figures(a.text, c.Price.Value.String()).
			also(c.Price.Pos, "the price is here")
	case a.dollars >= least && a.dollars < c.Price.Value && !explained.MatchString(a.before+" "+a.after):
		f.add(t.place(a.at), "the words name %s and do not say what for; the price is %s", a.text, c.Price.Value).only(Caution).
			figures(a.text, c.Price.Value.String()).
			also(c.Price.Pos, "the price is here").
			fix("say what the amount is for, or take it out")
	}
}

// quarter is the share of the price from which an amount may be taken for one: less is what a
// part costs. Common practice, no source.
const quarter measure.Share = 0.25

// asked reports whether the file asks, or asked, for an amount.
func (c *Case) asked(d measure.Dollars) bool {
	return d == c.Price.Value || c.Offer.Cash.Given() && d == c.Offer.Cash.Value || c.Offer.Was.Given() && d == c.Offer.Was.Value
}

// pricedFor is the unit that a sentence of the yard's names with an amount, or the cheapest one
// where it speaks of trailers in general, and whether that amount is a price of the yard's.
func (y *Yard) pricedFor(a amount) (c *Case, known bool) {
	var least *Case
	words := strings.ToLower(a.before + " " + a.after)
	for _, c := range y.Cases {
		if !c.Price.Given() {
			continue
		}
		if c.Stock.Given() && strings.Contains(words, strings.ToLower(c.Stock.Value)) {
			return c, c.asked(a.dollars)
		}
		known = known || c.asked(a.dollars)
		if least == nil || c.Price.Value < least.Price.Value {
			least = c
		}
	}
	if least == nil || !trailerWords.MatchString(words) || explained.MatchString(words) || otherUse.MatchString(a.after) || a.dollars < quarter.OfMoney(least.Price.Value) {
		return nil, false
	}
	return least, known
}

// place is the place of a letter in it.
func (w *writing) place(at int) unit.Pos {
	if w.of != nil {
		return w.of.Pos(at)
	}
	return w.at
}

// An amount is money in a text, with what is before and after it in its sentence.
type amount struct {
	text, before, after string
	dollars             measure.Dollars
	at                  int
}

var (
	amounts = regexp.MustCompile(`(?i)(?:\$|\bUSD\s?)\s?([0-9][0-9,]*(?:\.[0-9]{1,2})?)(\s?k\b|\s+grand\b)?|\b([0-9][0-9,]*(?:\.[0-9]{1,2})?)(\s?k|\s+grand)?\s*(?:dollars|bucks|dólares|usd)\b`)

	// asks are the words before an amount that ask for it, and asksWeakly those that are also said
	// of what a part costs. takesIt are the words after it.
	asks       = regexp.MustCompile(`(?i)\b(?:yours\s+(?:today\s+)?for|(?:price|prices|precio)(?:\s+(?:is|now|today|of|es|hoy))*\s*:?|priced\s+(?:at|to\s+sell(?:\s+at)?)|we\s+ask|asking|(?:all|take\s+it|sells|selling|sell\s+it|goes|let\s+it\s+go|buy\s+it|on\s+sale|sale)\s+for|(?:reduced|marked\s+down|dropped)\s+to|suyo\s+por|lo\s+dejo\s+en|rebajado\s+a)\s+$`)
	asksWeakly = regexp.MustCompile(`(?i)\b(?:now|only|just|special|sale|cash|it['’]s|trailer\s+is|solo|hoy)[:,]?\s+$`)
	takesIt    = regexp.MustCompile(`(?i)^[\s,]*(?:cash\s+)?(?:(?:and|y)\s+)?(?:(?:it|she|this|one|trailer|unit)(?:['’]s|\s+is)\s+yours|es\s+suyo|takes\s+(?:it|her|this)|buys\s+it|obo\b|or\s+best\s+offer|firm\b|out\s+the\s+door)`)
	// otherUse are the words after an amount by which it is not the price.
	otherUse = regexp.MustCompile(`(?i)^\s*(?:(?:a|an|per|each|every|/|al|por)\s*(?:month|week|day|year|mile|hour|gallon|load|mes|semana|día|milla)|monthly|weekly|down\b|deposit|more\b|extra\b|off\b|less\b|fee\b|freight|rebate|discount|back\b|de\s+enganche|más\b|menos\b|de\s+descuento)`)
	// explained are words in the same sentence that say what an amount is for.
	explained = regexp.MustCompile(`(?i)\b(?:deposit|down|month|monthly|weekly|fee|fees|freight|delivery|shipping|tax|taxes|title|extra|more|off|save|saves|rebate|discount|new|worth|paid|pay|payments?|spent|invested|cost|costs|msrp|list|retail|was|before|earlier|used\s+to|book|insured?|insurance|trade|finance|financing|repair|repairs|parts?|tires|labor|option|options|warranty\s+covers|up\s+to|limit|depósito|enganche|mes|flete|nuevo|antes|costó|pagos?)\b`)
	// trailerWords are words by which the yard's own words are about what it sells.
	trailerWords = regexp.MustCompile(`(?i)\b(?:trailers?|units?|remolques?|everything|any|all)\b`)
)

// amountsIn finds the money in a text.
func amountsIn(text string) (out []amount) {
	if !mayHold(text, "$", "usd", "dollars", "bucks") {
		return nil
	}
	for _, at := range amounts.FindAllStringSubmatchIndex(text, -1) {
		number, thousands := "", false
		for _, group := range []int{1, 3} {
			if at[2*group] >= 0 {
				number, thousands = text[at[2*group]:at[2*group+1]], at[2*group+2] >= 0
			}
		}
		v, err := strconv.ParseFloat(strings.TrimRight(strings.ReplaceAll(number, ",", ""), "."), 64)
		if err != nil {
			continue
		}
		if thousands {
			v = float64(v * 1000)
		}
		says := strings.TrimRight(text[at[0]:at[1]], ",")
		from, to := around(text, at[0], len(says))
		out = append(out, amount{says, text[from:at[0]], text[at[0]+len(says) : to], measure.Dollars(v), at[0]})
	}
	return out
}
