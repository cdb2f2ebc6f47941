package walkaround

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/measure"
)

// A unit of speech.
type unit uint8

const (
	bare unit = iota
	pounds
	inches
	feet
	psi
	dollars
	degrees
	poundsPerFoot
	foreign // a unit that no figure here is in: tons, gallons, years ...
)

// A quantity is a numeral with its unit and what was said around it.
type quantity struct {
	numeral
	unit    unit
	amount  float64 // in the unit, where the numeral is one number
	high    *quantity
	compare Comparison
	give    float64 // give or take
	head    int     // first token of the quote, "about" included
}

// isDigitWord reports a digit as it is said in a telephone number.
func isDigitWord(w string) bool {
	_, ok := ones[w]
	return ok || w == "oh" || w == "o" || w == "zero"
}

func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// foreignUnits are counted or measured things no role takes.
var foreignUnits = set(`ton tons yard yards gallon gallons quart quarts volt volts amp amps mile miles hour hours year years month
	months day days week weeks percent gauge gage ga mil mils minute minutes people oclock o'clock am pm watt watts
	lug lugs way pin speed bolt bolts hole holes acre acres cents bearing coats coat horse horsepower hp cc th st nd rd
	thousandths thousandth hundredth yr units videos times guys stage v mph kilometers`)

// metric units are foreign too: what is said in them is said again in pounds and feet, or
// has no key.
var metric = set(`kg kgs kilo kilos kilogram kilograms tonne tonnes meter meters metre metres centimeter centimeters centimetre
	centimetres cm mm millimeter millimeters millimetre millimetres liter liters litre litres kpa bar`)

// A unitPhrase is how a unit is said behind a number. The longest that fits counts.
type unitPhrase struct {
	said string
	unit unit
	keep int // of its words, those that are not of the unit
}

// unitPhrases is the list. The example of each is its own phrase behind a number.
var unitPhrases = func() map[string][]unitPhrase {
	m := map[string][]unitPhrase{}
	add := func(u unit, keep int, phrases string) {
		for p := range strings.SplitSeq(phrases, "|") {
			first, _, _ := strings.Cut(p, " ")
			m[first] = append(m[first], unitPhrase{p, u, keep})
		}
	}
	for _, lb := range []string{"pound", "pounds", "lb", "lbs", "pounder", "pounders"} {
		add(pounds, 0, lb)
		for _, air := range []string{" of air", " of pressure"} {
			add(psi, 0, lb+air)
		}
		for _, foot := range []string{" per foot", " per ft", " a foot", " a ft", " foot foot", " foot ft", " per lineal foot", " per linear foot", " / ft", " / foot"} {
			add(poundsPerFoot, 0, lb+foot)
		}
		for _, each := range []string{" for", " to", " per"} {
			for _, one := range []string{" each", " the", " every"} {
				add(poundsPerFoot, 0, lb+each+one+" foot")
			}
		}
	}
	for _, ft := range []string{"foot", "feet", "ft", "footer", "footers"} {
		add(feet, 0, ft)
		add(foreign, 0, ft+" pound|"+ft+" pounds|"+ft+" lb|"+ft+" lbs|"+ft+" candles|"+ft+" traffic")
	}
	add(inches, 0, "inch|inches")
	add(psi, 0, "psi|p s i")
	add(dollars, 0, "dollar|dollars|bucks|usd")
	add(degrees, 0, "degree|degrees|deg")
	add(bare, 0, "even")
	add(bare, 2, "v nose") // no volts
	return m
}()

// notInches are words after "in" that make it no unit: "110 in the tires".
var notInches = set("the a an it this there here stock our my each all and every")

// unitAt reads the unit behind a number that ends before token i.
func (h *hearing) unitAt(i int, digits bool) (unit, int) {
	w := h.word(i)
	best, n := bare, 0
	keep := 0
	for _, p := range unitPhrases[w] {
		if words := strings.Fields(p.said); len(words) > n && h.startsWith(i, words) {
			best, n, keep = p.unit, len(words), p.keep
		}
	}
	switch {
	case n > 0:
		return best, i + n - keep
	case w == "in" && digits && !notInches[h.word(i+1)]:
		return inches, i + 1 // "102 in wide" in automatic captions
	case foreignUnits[w] || metric[w]:
		return foreign, i + 1
	}
	return bare, i
}

// quantities reads all numbers of a sentence with their units.
func (h *hearing) quantities() []quantity {
	var out []quantity
	for i := 0; i < len(h.t); {
		if n := h.telephone(i); n > 0 {
			i += n
			continue
		}
		if _, _, to := h.misheardSize(i); to > 0 {
			i = to
			continue
		}
		n, ok := h.numeralAt(i)
		if !ok {
			i++
			continue
		}
		if h.twoThings(n) {
			n.parts, n.to = n.parts[:1], n.from+1
		} else {
			n = h.apart(n)
		}
		q := h.measured(n)
		out = append(out, q)
		i = max(q.to, n.to, i+1)
	}
	return out
}

// partsInFeet are what a length in feet stands in front of.
var partsInFeet = set("sides dovetail tail ramps gate beavertail")

// twoThings reports a numeral of two parts of which the second belongs to what follows: "six
// by ten, two foot sides".
func (h *hearing) twoThings(n numeral) bool {
	first := h.word(n.from)
	return h.is(n.from-1, "by") && len(n.parts) == 2 && h.is(n.to, "foot") && partsInFeet[h.word(n.to+1)] && teens[first]+tens[first]+ones[first] == n.parts[0]
}

// firstParts ends a numeral after so many of its parts.
func (h *hearing) firstParts(n numeral, parts int) numeral {
	to := n.from
	for range parts {
		if _, digits := h.digits(to); digits {
			to++
			continue
		}
		_, next, _, ok := h.small(to)
		if !ok {
			return n
		}
		to = next
	}
	n.parts, n.to = n.parts[:parts], to
	return n
}

// apart is a numeral without what begins another one: a year and the first side of a size, as in
// "twenty twenty five seventy seven by fourteen", or a number that is said twice.
func (h *hearing) apart(n numeral) numeral {
	p := n.parts
	half := len(p) / 2
	switch {
	case len(p) > 2 && p[0] == 20 && p[1] >= 10 && p[1] <= 40 && h.is(n.to, "by", "x", "foot", "inch", "inches"):
		return h.firstParts(n, 2)
	case len(p) >= 4 && len(p)%2 == 0 && slices.Equal(p[:half], p[half:]) && p[0] >= 10:
		return h.firstParts(n, half)
	case len(p) == 4 && slices.Min(p) >= 10 && h.isTermAndResult(n):
		return h.firstParts(n, 2) // "less eleven eighty, thirty nine twenty"
	case len(p) == 2 && p[1] == 0 && h.is(n.to, "turn", "turns"):
		return h.firstParts(n, 1) // "two zero turns" are mowers
	case len(p) == 3 && isCountAfterWeight(p) && !n.plural && !n.broken:
		return h.firstParts(n, 2) // "is twenty two ten, three baggers"
	}
	return n
}

// isTermAndResult reports a numeral that is taken away and what is left of it.
func (h *hearing) isTermAndResult(n numeral) bool {
	return !n.scaled && h.is(n.from-1, "less", "minus")
}

// isCountAfterWeight reports the parts of a weight and a count.
func isCountAfterWeight(p []float64) bool { return p[0] >= 10 && p[1] >= 10 && p[2] < 10 && p[2] > 0 }

// measured is a numeral with its unit.
func (h *hearing) measured(n numeral) quantity {
	q := quantity{numeral: n, compare: Equal, amount: n.value(), head: n.from}
	digits := false
	for k := n.from; k < n.to; k++ {
		digits = digits || h.t[k].kind == number
	}
	q.unit, q.to = h.unitAt(n.to, digits)
	if n.grand {
		q.unit = dollars
	}
	if h.is(n.from-1, "$") {
		q.unit, q.from = dollars, n.from-1
	}
	if q.unit == feet && n.single() {
		h.feetAndInches(&q)
	}
	if q.unit == inches && n.single() && !n.broken && h.is(q.to, "and") {
		h.inchesAndFraction(&q)
	}
	if h.is(q.to, "/") && h.is(q.to+1, "ft") && q.unit == pounds {
		q.unit, q.to = poundsPerFoot, q.to+2
	}
	q.head = q.from
	return q
}

// inchesAndFraction adds the fraction of "two inches and five sixteenths", "thirty inches and
// a half" to q.
func (h *hearing) inchesAndFraction(q *quantity) {
	f, next, ok := h.fraction(q.to+1, true)
	if !ok {
		return
	}
	q.amount += f
	q.parts, q.broken = []float64{q.amount}, true
	q.to = next
	if h.is(q.to, "inch", "inches") {
		q.to++
	}
}

// telephone is how many tokens of a telephone number begin at i: 555-0142, or digits said
// one by one, seven or ten of them.
func (h *hearing) telephone(i int) int {
	if n := h.digitByDigit(i); n > 0 {
		return n
	}
	if i+2 >= len(h.t) || h.t[i].kind != number || !h.is(i+1, "-") || h.t[i+2].kind != number || !h.t[i+2].glued {
		return 0
	}
	if len(h.t[i].text) == 3 && (len(h.t[i+2].text) == 4 || len(h.t[i+2].text) == 3) {
		return 3
	}
	return 0
}

// digitByDigit is how many tokens of a telephone number begin at i whose digits are said one
// by one or in groups of three and four, as "555 0142".
func (h *hearing) digitByDigit(i int) int {
	n, to := 0, i
	for k := i; k < len(h.t) && n < 10; k++ {
		if h.t[k].kind == comma && n > 0 {
			continue
		}
		d := h.phoneDigits(k)
		if d == 0 {
			break
		}
		n, to = n+d, k+1
		if h.spanishPair(k) {
			k, to = k+2, k+3
		}
	}
	if n == 7 || n == 10 {
		return to - i
	}
	return 0
}

// phoneDigits is how many digits of a telephone number token i can be, or 0.
func (h *hearing) phoneDigits(i int) int {
	t := &h.t[i]
	switch n := len(t.text); {
	case t.kind == word && isDigitWord(t.text):
		return 1
	case t.kind == word:
		return spanishDigitsOf(t.text)
	case t.kind == number && !t.decimal && (n == 1 || n == 3 || n == 4) && !strings.Contains(t.text, ","):
		return n
	}
	return 0
}

// feetAndInches adds the inches of "six foot ten wide", "8 ft 6 in", "eight feet and
// six inches" to q.
func (h *hearing) feetAndInches(q *quantity) {
	j := q.to
	and := h.is(j, "and")
	if and {
		j++
	}
	n, ok := h.numeralAt(j)
	if !ok || !n.single() || n.scaled || n.plural || n.value() >= 12 {
		return
	}
	u, next := h.unitAt(n.to, true)
	glued := q.to < len(h.t) && h.t[q.to].glued
	switch {
	case u == inches:
	case u == bare && !and && (glued || n.to == len(h.t) || h.t[n.to].kind == comma || h.t[n.to].kind == stop || h.is(n.to, "by", "x", "wide", "long", "high", "tall", "between", "inside", "off", "deep", "so", "to", "in", "at", "from") || h.is(n.to, "and") && h.is(n.to+1, "she", "it", "he", "the")):
	default:
		return
	}
	q.amount = q.amount*measure.InchesPerFoot + n.value()
	q.unit = inches
	q.broken = true
	q.to = max(next, n.to)
	q.parts = []float64{q.amount}
}

// together reads the parts as one whole number the way weights and prices are said:
// fifteen four is 15,400; twenty-nine fifty is 2,950; eighteen four fifty is 18,450;
// nine nine nine oh is 9,990; one twenty-five is 125. Common practice, no source.
func (n numeral) together() (float64, bool) {
	p := n.parts
	for _, x := range p {
		if x != math.Trunc(x) || x > 99 {
			return p[0], len(p) == 1
		}
	}
	if v, ok := inRow(p); ok {
		return v, v > 0
	}
	switch {
	case len(p) == 1:
		return p[0], true
	case p[0] == 0:
	case len(p) == 2 && p[1] == 0:
	case len(p) == 2 && p[1] < 10:
		return p[0]*1000 + p[1]*100, true
	case len(p) == 2:
		return p[0]*100 + p[1], true
	case len(p) == 3:
		return ofThree(p)
	}
	return 0, false
}

// ofThree reads three parts as one number: eighteen four fifty, twenty oh five, fifty eight oh fifty.
func ofThree(p []float64) (float64, bool) {
	switch {
	case p[1] == 0 && p[2] < 10:
		return p[0]*100 + p[2], true
	case p[1] == 0 && p[0] >= 10:
		return p[0]*1000 + p[2], true
	case p[1] < 10 && p[2] >= 10:
		return p[0]*1000 + p[1]*100 + p[2], true
	}
	return 0, false
}

// inRow reads three to six digits said one by one. Somebody who counts says no number: that
// is 0.
func inRow(p []float64) (v float64, ok bool) {
	if len(p) < 3 {
		return 0, false
	}
	if counted123(p) {
		return 0, true
	}
	for _, x := range p {
		if x >= 10 || len(p) > 6 {
			return 0, false
		}
		v = v*10 + x
	}
	return v, true
}

// counted123 reports one, two, three ...: somebody counts.
func counted123(p []float64) bool {
	for i, x := range p {
		if x != float64(i+1) {
			return false
		}
	}
	return true
}

// hundreds reads parts as a number of up to 199: "one ten", "one oh two".
func (n numeral) hundreds() (float64, bool) {
	p := n.parts
	switch {
	case len(p) == 1:
		return p[0], true
	case len(p) == 2 && p[0] == 1 && p[1] >= 10 && p[1] < 100:
		return 100 + p[1], true
	case len(p) == 3 && p[0] == 1 && p[1] == 0 && p[2] < 10:
		return 100 + p[2], true
	}
	return 0, false
}

// weight is the quantity as pounds; inferred when no unit was said.
func (q *quantity) weight() (v float64, inferred, ok bool) {
	if q.unit != pounds && q.unit != bare {
		return 0, false, false
	}
	if q.plural && q.single() && !q.scaled && q.amount < 26 {
		return q.amount * 1000, true, true // "tandem sevens"
	}
	v, ok = q.together()
	if !ok {
		return 0, false, false
	}
	if q.unit == bare {
		switch {
		case q.single() && !q.scaled && q.broken && q.amount >= 2 && q.amount < 100 && math.Abs(q.amount*10-math.Round(q.amount*10)) < 1e-9:
			v *= 1000 // "gross is 15.4"
		case q.single() && !q.scaled:
			return 0, false, false // a bare "fourteen" may be anything
		}
		inferred = true
	}
	return v, inferred, true
}

// ratedThings are what a rating in thousands is said in front of, in the plural.
var ratedThings = set("axles jacks springs brakes torsions pounds")

// countsThings reports a number in front of things that it counts: "the four stabilizers".
func (h *hearing) countsThings(q *quantity) bool {
	w := h.word(q.to)
	return len(w) > 5 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !ratedThings[w]
}

// thousands is a plain small number as so many thousand pounds.
func (q *quantity) thousands() (float64, bool) {
	n, ok := q.whole()
	return float64(n) * 1000, ok && q.unit == bare && !q.scaled && !q.plural && !q.broken && n >= 2 && n <= 48
}

func (q *quantity) money() (v float64, inferred, ok bool) {
	if q.unit != dollars && q.unit != bare {
		return 0, false, false
	}
	if q.unit == bare && len(q.parts) > 2 && !slices.ContainsFunc(q.parts, func(x float64) bool { return x > 9 }) {
		return 0, false, false // digits one by one are of a serial or telephone number
	}
	v, ok = q.together()
	if !ok {
		return 0, false, false
	}
	if q.unit == bare {
		if q.single() && !q.scaled {
			return 0, false, false
		}
		inferred = true
	}
	return v, inferred, true
}

func (q *quantity) pressure() (v float64, inferred, ok bool) {
	if q.unit != psi && q.unit != bare && q.unit != pounds {
		return 0, false, false
	}
	v, ok = q.hundreds()
	return v, q.unit == bare, ok
}

// inchesFor is the quantity as inches in the role; without a unit the role decides which
// it is, as nobody has a deck 28 inches long.
func (q *quantity) inchesFor(r Role) (v float64, inferred, ok bool) {
	v = q.amount
	switch q.unit {
	case inches:
		if !q.single() {
			if v, ok = q.hundreds(); !ok {
				v = q.value()
			}
		}
		return v, false, true
	case feet:
		return q.value() * measure.InchesPerFoot, false, true
	case bare:
	default:
		return 0, false, false
	}
	if !q.single() {
		switch r {
		case DeckWidth, BoxWidth, BedWidth, DeckBetween, OverallWidth:
			if v, ok = q.hundreds(); ok {
				return v, true, true
			}
			if len(q.parts) == 2 && q.parts[0] < 9 && q.parts[1] < 12 { // "six ten wide"
				return q.parts[0]*measure.InchesPerFoot + q.parts[1], true, true
			}
		}
		return 0, false, false
	}
	switch r {
	case DeckLength, DeckFlat, DeckTail, BedLength, BoxLength, RampLength, BoxHeight, AxleCenter, DeckPivot, DeckFront:
		if v > 53 {
			return v, true, r == RampLength
		}
		if half := v * 2; half != math.Trunc(half) {
			return 0, false, false // eighths are of inches
		}
		return v * measure.InchesPerFoot, true, true
	case DeckWidth, BedWidth, BoxWidth, OverallWidth:
		if v <= 8.5 {
			return v * measure.InchesPerFoot, true, true
		}
	}
	return v, true, true
}

func (q *quantity) whole() (int, bool) {
	if !q.single() || q.amount != math.Trunc(q.amount) || q.amount < 0 || q.amount > 1e6 {
		return 0, false
	}
	return int(q.amount), true
}
