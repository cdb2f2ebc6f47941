package walkaround

import (
	"slices"
	"strings"
)

// A numeral is a number as said, before anything tells what it counts. "fifteen four"
// is kept as its parts: it is 15,400 of a weight, 15 ft 4 in of a length.
type numeral struct {
	from, to int // tokens
	// parts are the small numbers said one after another; one part for a plain number.
	parts []float64
	// scaled: a hundred or a thousand was said, or digits of 100 and more were written,
	// so that the number stands as it is.
	scaled bool
	grand  bool // "grand": thousands of dollars
	// broken: it has a fraction or a decimal point.
	broken bool
	plural bool // "sevens"
}

func (n numeral) value() float64 { return n.parts[len(n.parts)-1] }
func (n numeral) single() bool   { return len(n.parts) == 1 }

var ones = map[string]float64{"zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6,
	"seven": 7, "eight": 8, "nine": 9}
var teens = map[string]float64{"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14,
	"fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19}
var tens = map[string]float64{"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50,
	"sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}

// plurals are the number words that axles and tires are called by: "tandem sevens".
var plurals = map[string]float64{"threes": 3, "fours": 4, "fives": 5, "sixes": 6, "sevens": 7, "eights": 8,
	"nines": 9, "tens": 10, "elevens": 11, "twelves": 12, "thirteens": 13, "fourteens": 14, "fifteens": 15,
	"sixteens": 16, "seventeens": 17, "eighteens": 18}

// denominators name the parts that tapes and taps are marked in; some are how captions
// mishear them.
var denominators = map[string]float64{"half": 2, "halves": 2, "halfs": 2, "quarter": 4, "quarters": 4,
	"eighth": 8, "eighths": 8, "eights": 8, "sixteenth": 16, "sixteenths": 16, "sixteens": 16, "16ths": 16}

// homophones are words that captions write for a number.
var homophones = map[string]float64{"to": 2, "too": 2, "for": 4, "fore": 4, "ate": 8, "won": 1, "sex": 6}

// begins are the words that a numeral can begin with.
var begins = func() map[string]bool {
	m := set("a an half quarter eighth sixteenth inch foot for fore ate to too won sex hundred thousand dozen")
	for _, list := range []map[string]float64{ones, teens, tens, plurals} {
		for w := range list {
			m[w] = true
		}
	}
	return m
}()

// hearing reads numerals from tokens.
type hearing struct {
	t []token
}

func (h *hearing) word(i int) string {
	if i < 0 || i >= len(h.t) || h.t[i].kind != word {
		return ""
	}
	return h.t[i].text
}

func (h *hearing) is(i int, words ...string) bool {
	w := h.word(i)
	if w == "" {
		return false
	}
	for _, x := range words {
		if w == x {
			return true
		}
	}
	return false
}

func (h *hearing) digits(i int) (float64, bool) {
	if i < 0 || i >= len(h.t) || h.t[i].kind != number {
		return 0, false
	}
	return h.t[i].value, true
}

// small reads 0 to 99 in words: "twelve", "forty", "forty two".
func (h *hearing) small(i int) (v float64, next int, plural, ok bool) {
	w := h.word(i)
	if w == "" {
		return 0, i, false, false
	}
	if v, ok := ones[w]; ok {
		return v, i + 1, false, true
	}
	if v, ok := teens[w]; ok {
		return v, i + 1, false, true
	}
	if v, ok := tens[w]; ok {
		if u, ok := ones[h.word(i+1)]; ok && u > 0 && !h.startsFraction(i+1) {
			return v + u, i + 2, false, true
		}
		if u, ok := plurals[h.word(i+1)]; ok && u < 10 {
			return v + u, i + 2, true, true
		}
		return v, i + 1, false, true
	}
	if v, ok := plurals[w]; ok {
		return v, i + 1, true, true
	}
	return 0, i, false, false
}

// startsFraction reports whether a numerator and a denominator stand at i.
func (h *hearing) startsFraction(i int) bool {
	u, ok := ones[h.word(i)]
	if !ok {
		return false
	}
	d, ok := denominators[h.word(i+1)]
	return ok && u < d && d != 2
}

// fraction reads "a half", "three quarters", "five sixteenths", "5/16", "5/16ths".
func (h *hearing) fraction(i int, after bool) (v float64, next int, ok bool) {
	if v, next, ok := h.fractionDigits(i); ok {
		return v, next, true
	}
	if h.is(i, "a") && after && h.is(i+1, "half", "halfs", "quarter") {
		return 1 / denominators[h.word(i+1)], i + 2, true
	}
	if after && h.is(i, "half", "halfs", "quarter") {
		return 1 / denominators[h.word(i)], i + 1, true
	}
	n, ok := ones[h.word(i)]
	if d, isDigits := h.digits(i); !ok && isDigits && d < 16 {
		n, ok = d, true
	}
	if !ok || n <= 0 {
		return 0, i, false
	}
	if d, ok := denominators[h.word(i+1)]; ok && n < d {
		return n / d, i + 2, true
	}
	if h.is(i+1, "ate") && h.is(i+2, "inch") && n < 8 {
		return n / 8, i + 2, true // "three ate inch chain"
	}
	if d, ok := h.digits(i + 1); ok && d == 16 && h.is(i+2, "th", "ths", "s") {
		return n / 16, i + 3, true
	}
	return 0, i, false
}

// madeOf are the denominators of measures in inches.
var madeOf = map[float64]bool{2: true, 4: true, 8: true, 16: true, 32: true, 64: true}

// fractionDigits reads "5/16" and "5/16ths".
func (h *hearing) fractionDigits(i int) (v float64, next int, ok bool) {
	n, ok1 := h.digits(i)
	d, ok2 := h.digits(i + 2)
	if !ok1 || !ok2 || !h.is(i+1, "/") || d <= n || n <= 0 || !madeOf[d] {
		return 0, i, false
	}
	next = i + 3
	if h.is(next, "th", "ths", "s", "nd", "nds") && h.t[next].glued {
		next++
	}
	return n / d, next, true
}

// thing reports whether what stands at i is counted or measured, so that a number in
// front of it belongs to it: in "ten thousand and eight d-rings" the eight is not added.
func (h *hearing) thing(i int) bool {
	return h.is(i, "foot", "feet", "ft", "inch", "inches", "d", "stake", "axle", "axles", "jack", "jacks", "ply", "lug",
		"tires", "ramps", "chains") || h.is(i, "of") && h.is(i+1, "them", "em", "these", "those", "the", "our", "my")
}

// ends reports whether the number v belongs to what is at i and not to the number in front of it.
// Nobody counts thirteen tires or more: "two hundred sixty, tires are".
func (h *hearing) ends(v float64, i int) bool {
	return h.thing(i) && !(v > 12 && h.is(i, "axle", "axles", "jack", "jacks", "tires", "ramps", "chains"))
}

// below1000 reads what may follow a thousand: "forty", "two hundred and six", and
// "nine ninety five", which is 995 behind a thousand.
func (h *hearing) below1000(i int) (v float64, next int, ok bool) {
	a, n, plural, ok := h.small(i)
	if !ok && h.is(i+1, "hundred") {
		if h.is(i, "a") {
			a, n, ok = 1, i+1, true // "two thousand a hundred and eighty"
		} else if d := homophones[h.word(i)]; d > 0 {
			a, n, ok = d, i+1, true // "twelve thousand for hundred"
		}
	}
	switch {
	case !ok || plural:
		return h.digitsBelow1000(i)
	case h.is(n, "hundred") && a < 10:
		v, next := h.hundredAnd(a, n+1)
		return v, next, true
	case h.is(n, "hundred", "thousand", "k", "grand") || h.ends(a, n):
		return 0, i, false
	case a > 0 && a < 10:
		b, m, plural, ok := h.small(n)
		if ok && h.is(m, "k", "thousand", "hundred") {
			return 0, i, false // "tagged at fourteen thousand, two seven k axles"
		}
		if ok && !plural && b >= 10 && !h.ends(b, m) {
			return a*100 + b, m, true
		}
	}
	return a, n, true
}

// digitsBelow1000 reads digits behind a thousand: "6 thousand 8 95".
func (h *hearing) digitsBelow1000(i int) (v float64, next int, ok bool) {
	d, isDigits := h.digits(i)
	if !isDigits || d >= 1000 || h.t[i].decimal {
		return 0, i, false
	}
	if h.is(i+1, "hundred") && d < 10 {
		return d * 100, i + 2, true
	}
	if e, two := h.digits(i + 1); two && d < 10 && e >= 10 && e < 100 && !h.t[i+1].decimal && !h.t[i+1].glued && !h.thing(i+2) {
		return d*100 + e, i + 2, true
	}
	if h.thing(i+1) || h.is(i+1, "/", "-", "k", "thousand", "pound", "pounds", "lb", "x", "by") {
		return 0, i, false
	}
	return d, i + 1, true
}

// hundredAnd reads what follows so many hundred at token i.
func (h *hearing) hundredAnd(hundreds float64, i int) (v float64, next int) {
	j := i
	if h.is(j, "and") {
		j++
	}
	if b, m, plural, ok := h.small(j); ok && !plural && !h.is(m, "hundred", "thousand", "k") && !h.ends(b, m) {
		return hundreds*100 + b, m
	}
	return hundreds * 100, i
}

// numeralAt reads the numeral that starts at i.
func (h *hearing) numeralAt(i int) (numeral, bool) {
	_, digits := h.digits(i)
	if !digits && !begins[h.word(i)] {
		return numeral{from: i}, false
	}
	for _, read := range []func(*hearing, int) (numeral, bool){(*hearing).dozens, (*hearing).fractional, (*hearing).misheardNumeral} {
		if n, ok := read(h, i); ok {
			return n, true
		}
	}
	v, next, plural, ok := h.group(i)
	if !ok {
		return numeral{from: i}, false
	}
	if s, m, scaled := h.scale(v, next); scaled {
		n := one(i, m, s, false)
		n.scaled, n.grand = true, h.is(m-1, "grand")
		n.plural = h.is(m-1, "hundreds", "thousands", "ks") || h.is(m-1, "k") && h.t[m-1].possessive
		return n, true
	}
	if digits {
		return h.inDigits(i, v, next), true
	}
	if f, m, ok := h.mixed(v, next); ok {
		n := one(i, m, f, true)
		n.plural = plural
		return n, true
	}
	// "fifteen nine hundred" is how some say 15,900.
	if u := ones[h.word(next)]; u > 0 && v >= 10 && h.is(next+1, "hundred") && !plural {
		n := one(i, next+2, v*1000+u*100, false)
		n.scaled = true
		return n, true
	}
	n := one(i, next, v, false)
	n.plural = plural
	h.row(&n)
	return n, true
}

// one is a numeral that is one number.
func one(from, to int, v float64, broken bool) numeral {
	return numeral{from: from, to: to, parts: []float64{v}, broken: broken}
}

// dozens reads "half a dozen" and the like.
func (h *hearing) dozens(i int) (numeral, bool) {
	switch {
	case h.is(i, "half") && h.is(i+1, "a") && h.is(i+2, "dozen"):
		return one(i, i+3, 6, false), true
	case h.is(i, "half") && h.is(i+1, "dozen"):
		return one(i, i+2, 6, false), true
	case h.is(i, "a") && h.is(i+1, "dozen"):
		return one(i, i+2, 12, false), true
	case h.is(i, "dozen"):
		return one(i, i+1, 12, false), true
	}
	return numeral{}, false
}

// fractional reads "quarter inch", "three quarter inch", "5/16", "inch and a quarter".
func (h *hearing) fractional(i int) (numeral, bool) {
	if h.is(i, "half", "quarter", "eighth", "sixteenth") && h.is(i+1, "inch", "foot") {
		return one(i, i+1, 1/denominators[h.word(i)], true), true
	}
	if v, next, ok := h.fraction(i, false); ok && !h.is(next, "of") {
		return one(i, next, v, true), true
	}
	if h.is(i, "inch", "foot") && h.is(i+1, "and") && h.is(i+2, "a") && !h.isNumberBefore(i) {
		if v, next, ok := h.fraction(i+2, true); ok {
			return one(i, next, 1+v, true), true
		}
	}
	return numeral{}, false
}

// beams are what a number of inches is said of that captions write as "for".
var beams = set("channel beam i tubing junior sides ramps")

// misheardNumeral reads words that captions write for a number, where no other reading is left.
func (h *hearing) misheardNumeral(i int) (numeral, bool) {
	if v, ok := homophones[h.word(i)]; ok && h.is(i+1, "thousand", "hundred") && !h.isNumberBefore(i) && !h.is(i-1, "up", "down", "close", "next", "how", "not") {
		if s, m, scaled := h.scale(v, i+1); scaled && s >= 200 {
			n := one(i, m, s, false)
			n.scaled = true
			return n, true
		}
	}
	switch {
	case h.is(i, "for") && h.is(i+1, "foot") && !h.is(i+2, "pounds", "traffic"),
		h.is(i, "for") && h.is(i+1, "inch") && beams[h.word(i+2)]:
		return one(i, i+1, 4, false), true
	case h.is(i, "ate") && h.is(i+1, "foot", "inch", "thousand", "ply"):
		return one(i, i+1, 8, false), true
	case !h.is(i, "to", "too"):
		return numeral{}, false
	}
	j := i + 1
	if h.is(j, "and") {
		j++
	}
	v, next, ok := h.fraction(j, false)
	if !ok {
		v, next, ok = h.fiveSixteenths(j)
	}
	return one(i, next, 2+v, true), ok && v == 0.3125
}

// inDigits is the numeral of digits at token i whose value is v.
func (h *hearing) inDigits(i int, v float64, next int) numeral {
	d := h.t[i].value
	n := one(i, next, v, h.t[i].decimal)
	n.scaled = d >= 100
	if h.is(next, "s") && h.t[next].glued && d >= 2000 && d <= 15000 {
		n.plural = true // "tandem 3500s"
		n.to++
	}
	if f, m, ok := h.mixed(v, n.to); ok {
		n.parts, n.to, n.broken = []float64{f}, m, true
		return n
	}
	// The pair that captions write as "14,9".
	if e, isDigits := h.digits(i + 1); isDigits && h.t[i+1].glued && h.t[i].to == h.t[i+1].from && e < 100 {
		n.parts, n.to = []float64{d, e}, i+2
	}
	return n
}

// row adds the small numbers that follow in a row. One in front of a scale ("two | seven k
// axles") or of a fraction stays by itself: it counts.
func (h *hearing) row(n *numeral) {
	for !n.plural && len(n.parts) < 8 {
		j := n.to
		if h.is(j, "r") && len(n.parts) >= 2 { // "seventy five r fifteen"
			j++
		}
		v, m, plural, ok := h.small(j)
		if h.is(j, "oh", "o") {
			v, m, plural, ok = 0, j+1, false, true
		}
		if !ok {
			return
		}
		if _, _, scaled := h.scale(v, m); scaled {
			h.saidAgain(n, j)
			return
		}
		if widths(n.parts) && tens[h.word(j)] > 0 && ones[h.word(m)] == 5 {
			v, m = v+5, m+1 // of a tire: "two thirty-five eighty-five sixteens" has no five sixteenths
		}
		if f, e, ok := h.mixed(v, m); ok {
			if len(n.parts) >= 2 && f == v+0.5 { // a tire's "seventeen and a half"
				n.parts, n.to, n.broken = append(n.parts, f), e, true
			}
			return
		}
		if h.startsFraction(j) {
			return
		}
		n.parts, n.to, n.plural = append(n.parts, v), m, plural
		if digits := run(n.parts); len(digits) == 7 && widths(n.parts[:2]) && !h.is(n.to, "five", "fives", "and", "point") {
			return // a tire size is whole: what follows counts something
		}
	}
}

// saidAgain ends a row before the number that says it again: "twenty nine ninety, two thousand nine
// hundred and ninety" without the comma.
func (h *hearing) saidAgain(n *numeral, j int) {
	last, first := tens[h.word(j)], ones[h.word(j+1)]
	if last == 0 || first == 0 {
		return
	}
	row := numeral{from: n.from, to: j + 1, parts: append(slices.Clone(n.parts), last)}
	short, ok := row.together()
	if long, _, scaled := h.scale(first, j+2); ok && scaled && long == short {
		*n = row
	}
}

// widths reports whether parts are a tire's section width as it is said: two thirty-five,
// two oh five, one forty-five.
func widths(parts []float64) bool {
	if len(parts) < 2 || parts[0] != 1 && parts[0] != 2 && parts[0] != 4 {
		return false
	}
	digits := run(parts)
	return len(digits) == 3 && digits[2] == '5'
}

func (h *hearing) isNumberBefore(i int) bool {
	if i == 0 {
		return false
	}
	if _, ok := h.digits(i - 1); ok {
		return true
	}
	w := h.word(i - 1)
	_, a := ones[w]
	_, b := teens[w]
	_, c := tens[w]
	_, d := denominators[w]
	return a || b || c || d || w == "hundred"
}

// group reads a small number, digits, or the "a" and nothing in front of "hundred".
func (h *hearing) group(i int) (v float64, next int, plural, ok bool) {
	if d, ok := h.digits(i); ok {
		return d, i + 1, false, true
	}
	if h.is(i, "a", "an") && h.is(i+1, "hundred", "thousand") {
		return 1, i + 1, false, true
	}
	if h.is(i, "hundred", "thousand") && !h.isNumberBefore(i) {
		return 1, i, false, true
	}
	v, next, plural, ok = h.small(i)
	if ok && v == 1 && next == i+1 && !h.countingOne(i) {
		return 0, i, false, false
	}
	return v, next, plural, ok
}

// countingOne tells the number one from the pronoun: "this one", "one of them".
func (h *hearing) countingOne(i int) bool {
	if h.is(i+1, "hundred", "thousand", "inch", "foot", "pound", "pounds", "ply", "and", "axle", "point", "oh", "o") {
		return !h.is(i+1, "and") || h.is(i+2, "a", "half", "three", "five", "seven", "one")
	}
	_, _, _, ok := h.small(i + 1)
	return ok && !h.is(i-1, "this", "that", "the", "other", "each", "every", "another", "which", "new")
}

// scale reads "hundred" and "thousand" behind v: "seventy seven hundred", "15 k",
// "a hundred and two", "twelve thousand nine hundred and sixty".
func (h *hearing) scale(v float64, i int) (float64, int, bool) {
	if h.is(i, "point") && v < 1000 {
		if d, m, _, ok := h.small(i + 1); ok && d < 10 {
			v += d / 10
			i = m
		}
	}
	if v > 1 && v < 100 {
		switch {
		case h.is(i, "ks"):
			return v * 1000, i + 1, true // "tandem 10Ks"
		case v != float64(int(v)) || h.is(i+1, "of"):
		case h.is(i, "hundreds"):
			return v * 100, i + 1, true // "the axles are fifty-two hundreds": so many of that
		case h.is(i, "thousands"):
			return v * 1000, i + 1, true
		}
	}
	scaled := false
	if h.is(i, "hundred") && v > 0 && v < 100 && v == float64(int(v)) {
		scaled = true
		v, i = h.hundredsAnd(v*100, i+1)
	}
	if h.is(i, "thousand", "k", "grand") && v > 0 && v < 1000 {
		scaled = true
		if h.is(i, "k") {
			return v * 1000, i + 1, true // nobody says "fourteen k fifty two" for one figure
		}
		v, i = h.thousandAnd(v*1000, i+1)
	}
	return v, i, scaled
}

// hundredsAnd adds what follows v, a number of hundreds, at token i.
func (h *hearing) hundredsAnd(v float64, i int) (float64, int) {
	j := i
	if h.is(j, "and") {
		j++
	}
	if b, m, plural, ok := h.small(j); ok && !plural && !h.is(m, "hundred", "k", "thousand", "grand") && !(h.is(i, "and") && v >= 1000 && b < 10) && !(v >= 1000 && h.ends(b, m)) {
		if !(h.is(j, "one") && !h.countingOne(j) && j == i) {
			return v + b, m
		}
	} else if d, digits := h.digits(j); digits && j > i && v >= 1000 && d >= 10 && d < 100 && !h.thing(j+1) {
		return v + d, j + 1 // "26 hundred and 40"
	}
	return v, i
}

// thousandAnd adds what follows v, a number of thousands, at token i.
func (h *hearing) thousandAnd(v float64, i int) (float64, int) {
	j := i
	if h.is(j, "and") {
		j++
	}
	if b, m, ok := h.below1000(j); ok && !(h.is(j, "one") && !h.countingOne(j) && j == i) && !h.ends(b, m) && !(b*1000 == v && h.is(m, "minus", "less", "take", "subtract")) {
		return v + b, m // but "gross is sixty five thousand, sixty five minus ..." says it again
	}
	return v, i
}

// mixed reads the fraction behind a whole number: "two and five sixteenths",
// "two 5/16", "2-5/16", "seventeen point five".
func (h *hearing) mixed(v float64, i int) (float64, int, bool) {
	j, and := i, false
	switch {
	case h.is(i, "and"), h.is(i, "in", "n", "an", "inch") && v == 2 && (h.is(i+2, "sixteenth", "sixteenths", "sixteens") || h.isFiveSixteenths(i+1)):
		j, and = i+1, true // captions also hear "two in five sixteenths"
	case h.is(i, "-"):
		j = i + 1
	case h.is(i, "point"):
		return h.decimals(v, i+1)
	}
	if f, next, ok := h.fraction(j, and); ok {
		// Two numbers without "and" between them make a mixed number only if the first is
		// small: "two five sixteenths".
		if !and && v > 60 && !h.is(i, "-") {
			return 0, i, false
		}
		return v + f, next, true
	}
	if f, next, ok := h.fiveSixteenths(j); ok && v == 2 && (and || h.t[next-1].kind == number) {
		return v + f, next, true
	}
	return 0, i, false
}

// decimals reads the digits after "point": up to three count.
func (h *hearing) decimals(v float64, i int) (float64, int, bool) {
	place, any := 0.1, false
	for ; ; i++ {
		d, ok := ones[h.word(i)]
		if n, isDigits := h.digits(i); isDigits && n < 10 {
			d, ok = n, true
		} else if h.is(i, "oh") {
			d, ok = 0, true
		}
		if !ok || place < 0.001 {
			return v, i, any
		}
		v += d * place
		place /= 10
		any = true
	}
}

func (h *hearing) isFiveSixteenths(i int) bool {
	_, _, ok := h.fiveSixteenths(i)
	return ok
}

// fiveSixteenths reads how captions mishear the fraction of a ball: "five sixteen", "5 16".
func (h *hearing) fiveSixteenths(i int) (v float64, next int, ok bool) {
	is := func(i int, n float64, word string) bool {
		d, digits := h.digits(i)
		return digits && d == n || h.is(i, word)
	}
	ok = is(i, 5, "five") && is(i+1, 16, "sixteen") && !h.is(i+2, "foot", "inch", "feet")
	return 5.0 / 16, i + 2, ok
}

// run is the parts as digits in a row: 2, 35, 80, 16 is "2358016".
func run(parts []float64) string {
	var b strings.Builder
	for _, p := range parts {
		b.WriteString(plainNumber(p))
	}
	return b.String()
}
