package walkaround

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/measure"
)

// An option is one role that a figure may have, with its value in that role.
type option struct {
	row         int // in roleTable
	value, high Value
	inferred    bool // no unit was said
}

// A candidate is a figure in the talk with every role that its unit and size allow. Which
// one it has, or none, is decided later over the whole recording.
type candidate struct {
	from, to int // tokens of the figure
	head, of int // tokens of the quote: "about" in front, "or so" behind
	options  []option
	compare  Comparison
	give     float64
	shape    string // how it was said, for the model
	unit     unit
}

// find lists the candidates of a talk in the order they are said.
func find(t []token) []candidate {
	h := &hearing{t: t}
	qs := h.splitPlurals(h.quantities())
	taken := make([]bool, len(qs))
	out := h.tireSizes(qs, taken)
	for i := range qs {
		if !taken[i] {
			h.compare(&qs[i])
		}
	}
	out = append(out, h.tubes(qs, taken)...)
	out = append(out, h.weeks(qs, taken)...)
	out = append(out, h.loadRanges()...)
	out = append(out, h.groups()...)
	rest := qs[:0:0]
	for i := range qs {
		if !taken[i] {
			rest = append(rest, qs[i])
		}
	}
	rest = h.joinRanges(rest)
	for i := 0; i < len(rest); i++ {
		q := &rest[i]
		if i+1 < len(rest) {
			if c, ok := h.twoSides(q, &rest[i+1]); ok {
				i++
				if i+1 < len(rest) && h.wall(&c, &rest[i+1]) {
					i++
				}
				out = append(out, c)
				continue
			}
		}
		c := candidate{from: q.from, to: q.to, head: q.head, of: q.to, compare: q.compare, give: q.give, unit: q.unit, shape: q.say()}
		var next *quantity
		if i+1 < len(rest) {
			next = &rest[i+1]
		}
		joined := h.readings(&c, q, next)
		if joined {
			i++
		}
		out = append(out, c)
	}
	slices.SortStableFunc(out, func(a, b candidate) int { return a.from - b.from })
	return out
}

// say is how the figure was said, for the model: its unit and its form.
func (q *quantity) say() string {
	s := [...]string{"n", "lb", "in", "ft", "psi", "$", "deg", "plf", "x"}[q.unit]
	switch {
	case q.plural:
		s += "s"
	case len(q.parts) > 1:
		s += strconv.Itoa(min(len(q.parts), 4)) + "p"
	case q.scaled && q.amount >= 1000:
		s += "k"
	case q.scaled:
		s += "c"
	case q.broken:
		s += "b"
	case q.amount < 10:
		s += "1"
	case q.amount < 100:
		s += "2"
	}
	return s
}

// splitPlurals parts "two sevens" in two: so many axles of seven thousand.
func (h *hearing) splitPlurals(qs []quantity) []quantity {
	var out []quantity
	for _, q := range qs {
		if n := len(q.parts); q.plural && n == 2 && q.parts[0] <= 4 && q.parts[1] < 26 {
			a, b := q, q
			a.parts, a.plural, a.to = q.parts[:1], false, q.from+1
			b.parts, b.from, b.head = q.parts[1:], q.from+1, q.from+1
			a.amount, b.amount = a.parts[0], b.parts[0]
			out = append(out, a, b)
			continue
		}
		out = append(out, q)
	}
	return out
}

// readings adds the options of a quantity to c. It reports whether the quantity after it
// is part of it, as the pounds a foot of a beam are.
func (h *hearing) readings(c *candidate, q, next *quantity) (joined bool) {
	c.numbers(q, weight, func(v float64) Value { return measure.Pounds(v) }, func(q *quantity, r *roleRow) (float64, bool, bool) {
		if v, ok := q.thousands(); ok && inThousands[r.role] && !h.countsThings(q) {
			return v, true, true
		}
		return q.weight()
	})
	c.numbers(q, length, func(v float64) Value { return measure.Inches(v) }, func(q *quantity, r *roleRow) (float64, bool, bool) {
		if r.role == Ball && q.unit != inches && q.unit != bare {
			return 0, false, false
		}
		return q.inchesFor(r.role)
	})
	c.numbers(q, pressure, func(v float64) Value { return measure.PSI(v) }, func(q *quantity, _ *roleRow) (float64, bool, bool) { return q.pressure() })
	c.numbers(q, money, func(v float64) Value { return measure.Dollars(v) }, func(q *quantity, _ *roleRow) (float64, bool, bool) { return q.money() })
	h.countings(c, q)
	if y, ok := q.year(); ok && q.high == nil && !h.endsDate(q.from) {
		c.options = append(c.options, option{row: roleIndex[ModelYear], value: Year(y)})
	} else if y, ok := q.yearOfTwo(); ok && q.high == nil && y >= 10 && y <= 30 && h.likeYear(q) {
		c.options = append(c.options, option{row: roleIndex[ModelYear], value: Year(2000 + y)})
	}
	if w, ok := h.madeAt(q); ok && q.high == nil {
		c.options = append(c.options, option{row: roleIndex[TireMade], value: w})
	}
	s, joined := h.section(c, q, next)
	if s != (Section{}) {
		for _, row := range byDimension[section] {
			c.options = append(c.options, option{row: row, value: s})
		}
	}
	if joined {
		c.to, c.of = max(c.to, next.to), max(c.to, next.to)
		c.options = slices.DeleteFunc(c.options, func(o option) bool { return roleTable[o.row].dim != section })
		c.shape = "beam"
	}
	return joined
}

// inThousands are the ratings that people call by their thousands: "grosses fourteen".
var inThousands = map[Role]bool{GVWR: true, AxleRating: true, HitchRating: true, JackRating: true}

// months are the names of months.
var months = set("january february march april may june july august september october november december")

// endsDate reports that the day of a month is in front of token i, as in "november 3, 2026". The year of a
// day is not a model year.
func (h *hearing) endsDate(i int) bool {
	k := i - 1
	if k >= 0 && h.t[k].kind == comma {
		k--
	}
	if k >= 1 && (h.is(k, "th", "st", "nd", "rd") || h.is(k, "of") && months[h.word(k-1)]) {
		k--
	}
	day, digits := h.digits(k)
	if months[h.word(k)] {
		day, digits = h.digits(k - 1) // "3 november 2026"
	}
	return (digits && day <= 31 || h.ordinalBefore(k+1) > 0 || isNumberWord(h.word(k)) && !months[h.word(k)]) &&
		(months[h.word(k)] || months[h.word(k-1)] || months[h.word(k-2)])
}

// likeYear reports that two digits are said as a model year: "a twenty-five model", "it's a 24".
func (h *hearing) likeYear(q *quantity) bool {
	if q.unit != bare {
		return false // "a fifteen yard"
	}
	if h.is(q.from-1, "a") && h.is(q.from-2, "it") && h.is(q.to, "used", "new", "never", "well", "yeah") {
		return true // "it's a twenty one used"
	}
	return h.is(q.to, "model", "year") || h.is(q.from-1, "a") && (q.to >= len(h.t) || h.t[q.to].kind != word && h.t[q.to].kind != number)
}

// madeAt is the week that four digits name, where a tire or a date is spoken of near by.
func (h *hearing) madeAt(q *quantity) (Word, bool) {
	if q.unit != bare || len(q.parts) < 2 && !(q.single() && h.t[q.from].kind == number) || !h.nearDates(q) {
		return "", false
	}
	digits := h.codeDigits(q)
	if len(digits) != 4 {
		return "", false
	}
	n, err := strconv.Atoi(digits)
	if err != nil || n/100 < 1 || n/100 > 53 || n%100 > 45 {
		return "", false
	}
	return Word("week " + strconv.Itoa(n/100) + " " + strconv.Itoa(2000+n%100)), true
}

// nearDates reports that a date or tires are named near a quantity.
func (h *hearing) nearDates(q *quantity) bool {
	for k := max(0, q.from-16); k < min(len(h.t), q.to+6); k++ {
		if h.is(k, "date", "dates", "dated", "code", "codes", "dot") || k < q.from && h.is(k, "tire", "tires") {
			return true
		}
	}
	return false
}

// numbers adds an option for each role of a dimension that the quantity fits. Read is the
// quantity in the role: its number, whether the unit was inferred, and whether it is one.
func (c *candidate) numbers(q *quantity, dim dimension, value func(float64) Value, read func(*quantity, *roleRow) (float64, bool, bool)) {
	for _, row := range byDimension[dim] {
		r := &roleTable[row]
		v, inferred, ok := read(q, r)
		if !ok || !r.fits(v) {
			continue
		}
		o := option{row: row, value: value(v), inferred: inferred}
		if q.high != nil {
			if w, _, ok := read(q.high, r); ok && r.fits(w) && w > v {
				o.high = value(w)
			}
		}
		c.options = append(c.options, o)
	}
}

// notThings are the words after a number that count no part of a trailer: "a crank jack with two speeds".
var notThings = set("different kinds colors speed speeds stage stages position positions coat coats gallon gallons")

// countings adds what the quantity can count. Brakes on all four wheels are on two axles.
func (h *hearing) countings(c *candidate, q *quantity) {
	n, ok := q.number()
	switch {
	case !ok || q.unit != bare || notThings[h.word(q.to)]:
	case n%2 == 0 && n/2 >= 1 && n/2 <= 4 && h.wheelsAt(q.to):
		c.options = append(c.options, option{row: roleIndex[BrakeAxles], value: Count(n / 2)})
		c.shape = "wheels"
	case q.high == nil:
		for _, row := range byDimension[count] {
			if roleTable[row].fits(float64(n)) && (roleTable[row].role != Ply || n%2 == 0) {
				c.options = append(c.options, option{row: row, value: Count(n)})
			}
		}
	}
}

// wheelsAt reports that wheels are named at token i, as what has a brake.
func (h *hearing) wheelsAt(i int) bool {
	return h.is(i, "wheels", "hubs", "corners", "drums") || h.is(i, "wheel") && h.is(i+1, "brakes", "electric")
}

// number is a whole number of things, also one that was counted out: "one two three".
func (q *quantity) number() (int, bool) {
	if len(q.parts) > 2 && counted123(q.parts) {
		return len(q.parts), true
	}
	if q.plural || q.broken {
		return 0, false
	}
	n, ok := q.whole()
	return n, ok && n <= 80
}

// year is a model year: 2026, "twenty twenty-six", "twenty oh eight", "nineteen ninety".
func (q *quantity) year() (int, bool) {
	p := q.parts
	switch {
	case q.unit != bare || q.broken || q.plural:
	case q.single() && q.amount >= 1960 && q.amount <= 2040 && q.amount == math.Trunc(q.amount):
		return int(q.amount), true
	case len(p) == 2 && p[0] == 20 && p[1] >= 10 && p[1] <= 40, len(p) == 2 && p[0] == 19 && p[1] >= 60:
		return int(p[0])*100 + int(p[1]), true
	case len(p) == 3 && p[0] == 20 && p[1] == 0 && p[2] < 10:
		return 2000 + int(p[2]), true
	}
	return 0, false
}

// rolled are the letters of rolled shapes.
var rolled = set("w s c mc m")

// between the depth and the weight of a beam these may stand.
var beamWords = set("i beam beams ibeam channel junior main at a and x by it is")

// section reads a beam or a channel: "ten inch", "12 inch 19 pound", "W ten by twenty-two".
func (h *hearing) section(c *candidate, q, next *quantity) (s Section, joined bool) {
	if !q.single() || q.high != nil || q.amount < 2.5 || q.amount > 24 {
		return s, false
	}
	light := next != nil && next.single() && next.amount >= 3 && next.amount <= 120
	if light && rolled[h.word(q.from-1)] && next.from == q.to+1 && h.is(q.to, "x", "by") && next.unit != feet {
		c.from, c.head = q.from-1, q.from-1
		return Section{strings.ToUpper(h.word(q.from - 1)), measure.Inches(q.amount), measure.PoundsPerFoot(next.amount)}, true
	}
	if q.unit != inches {
		return s, false
	}
	s.Depth = measure.Inches(q.amount)
	if !light || !next.perFoot() || next.from-q.to > 5 {
		return s, false
	}
	for k := q.to; k < next.from; k++ {
		if h.t[k].kind != comma && !beamWords[h.word(k)] {
			return s, false
		}
	}
	s.PerFoot = measure.PoundsPerFoot(next.amount)
	return s, true
}

// perFoot reports that a quantity can be the weight of a beam, in pounds a foot.
func (q *quantity) perFoot() bool {
	return (q.unit == pounds || q.unit == poundsPerFoot || q.unit == bare && q.broken) && !(q.scaled && q.amount > 100)
}

// grouped are the words that count without a number.
var grouped = map[string]int{"tandem": 2, "tandems": 2, "twin": 2, "dual": 2, "duals": 2, "dually": 2, "double": 2, "pair": 2, "both": 2, "couple": 2,
	"triple": 3, "tri": 3, "triaxle": 3, "trips": 3, "single": 1, "quad": 4, "one": 1, "front": 1, "rear": 1}

// notAxles are what "both" is said of other than axles, jacks or chains.
var notAxles = set("sides ends corners trailers units wheels have has had are were doors walls rails gates")

// ofBrakes reports that axles or brakes are named next to "both".
func (h *hearing) ofBrakes(i int) bool {
	for k := max(0, i-6); k < min(len(h.t), i+6); k++ {
		if k != i && h.is(k, "axle", "axles", "brake", "brakes", "electric", "electrics", "chains", "jacks") {
			return true
		}
	}
	return false
}

// groups finds "tandem axles", "dual jacks", "a single axle", "one jack".
func (h *hearing) groups() []candidate {
	var out []candidate
	for i := range h.t {
		n := grouped[h.word(i)]
		if n == 0 || h.is(i, "both") && (notAxles[h.word(i+1)] || !h.ofBrakes(i)) || h.is(i, "one") && h.countingOne(i) || h.is(i, "front", "rear") && !h.is(i+1, "axle") {
			continue
		}
		c := candidate{from: i, to: i + 1, head: i, of: i + 1, compare: Equal, shape: "=" + h.word(i), unit: bare}
		if h.is(i, "dual", "duals", "dually") && (h.is(i+1, "tandem", "tandems", "wheel", "wheels", "tires") || h.is(i-1, "tandem", "tandems")) {
			c.shape = "=dualtires"
			c.options = []option{{row: roleIndex[PerAxle], value: Count(4)}}
			out = append(out, c)
			continue
		}
		for _, role := range []Role{AxleCount, JackCount, BrakeAxles, ChainsCount} {
			c.options = append(c.options, option{row: roleIndex[role], value: Count(n)})
		}
		if h.is(i, "single") {
			c.options = append(c.options, option{row: roleIndex[PerAxle], value: Count(2)})
		} else if h.is(i, "dual", "duals") {
			c.options = append(c.options, option{row: roleIndex[PerAxle], value: Count(4)})
		}
		out = append(out, c)
	}
	return out
}

// tireSizes finds "ST235/80R16", "235 80 R16", "two thirty-five eighty sixteens", and
// marks the quantities that they are made of.
func (h *hearing) tireSizes(qs []quantity, taken []bool) []candidate {
	var out []candidate
	add := func(from, to int, text string) {
		out = append(out, candidate{from: from, to: to, head: from, of: to, compare: Equal, shape: "tire",
			options: []option{{row: roleIndex[TireSize], value: Word(text)}}})
	}
	for i := 0; i < len(h.t); i++ {
		if text, from, to := h.misheardSize(i); text != "" {
			add(from, to, text)
			i = to - 1
			continue
		}
		if w, ok := strings.CutPrefix(h.word(i), "size:"); ok {
			m := sizeForm.FindStringSubmatch(w)
			from, prefix := i, strings.ToUpper(m[1])
			if prefix == "" {
				from, prefix = h.service(i)
			}
			if text, ok := tireSize(prefix, m[2]+m[3]+m[4]); ok {
				add(from, i+1, text)
			}
		}
	}
	for i := range qs {
		q := &qs[i]
		if taken[i] || q.unit != bare && q.unit != foreign {
			continue
		}
		digits, to, last := h.digitsOf(q), q.to, i
		for last+1 < len(qs) && len(digits) < 7 && h.sizeGap(to, qs[last+1].from) {
			last++
			digits += h.digitsOf(&qs[last])
			to = qs[last].numeral.to
		}
		from, prefix := h.service(q.from)
		if text, ok := tireSize(prefix, digits); ok {
			add(from, to, text)
			for ; last >= i; last-- {
				taken[last] = true
			}
		}
	}
	return out
}

// tubes finds "six by two by three sixteenths", a tube or an angle by its sides and the
// thickness of its wall.
func (h *hearing) tubes(qs []quantity, taken []bool) []candidate {
	var out []candidate
	for i := 0; i+2 < len(qs); i++ {
		a, b, c := &qs[i], &qs[i+1], &qs[i+2]
		by := func(x, y *quantity) bool { return y.from == x.to+1 && h.is(x.to, "by", "x") }
		if taken[i] || !by(a, b) || !by(b, c) || !a.single() || !b.single() || !c.single() || c.amount >= 1 || a.amount > 20 || b.amount > 12 || c.unit != bare && c.unit != inches {
			continue
		}
		w := Word(plainNumber(a.amount) + "x" + plainNumber(b.amount) + "x" + strings.TrimSuffix(measure.Inches(c.amount).InInches(), " in"))
		x := candidate{from: a.from, to: c.to, head: a.from, of: c.to, compare: Equal, shape: "tube"}
		for _, row := range byDimension[section] {
			x.options = append(x.options, option{row: row, value: w})
		}
		taken[i], taken[i+1], taken[i+2] = true, true, true
		out = append(out, x)
	}
	return out
}

// tubeWords name what has two sides and no length: "two by four tube".
var tubeWords = set("tube tubing tubes angle rectangular rectangle angles crossmembers crossmember main")

// twoSides finds "two by four tube" and "three by two angle", where no wall was said.
func (h *hearing) twoSides(a, b *quantity) (candidate, bool) {
	var none candidate
	if b.from != a.to+1 || !h.is(a.to, "by", "x", "buy") || !a.single() || !b.single() || a.amount < 1 || a.amount > 12 || b.amount < 1 || b.amount > 12 || b.unit != bare && b.unit != inches || a.high != nil || b.high != nil {
		return none, false
	}
	near := false
	for k := b.to; k < min(b.to+3, len(h.t)) && h.t[k].kind == word; k++ {
		near = near || tubeWords[h.word(k)]
	}
	for k := a.from - 1; k >= max(0, a.from-3) && h.t[k].kind != stop; k-- {
		near = near || tubeWords[h.word(k)]
	}
	c := candidate{from: a.from, to: b.to, head: a.from, of: b.to, compare: Equal, shape: "sides"}
	for _, row := range byDimension[section] {
		c.options = append(c.options, option{row: row, value: Word(plainNumber(a.amount) + "x" + plainNumber(b.amount))})
	}
	return c, near
}

// wall adds the thickness of the wall to a tube of two sides: "two by six tube, quarter inch wall", "ten by
// four quarter inch tube".
func (h *hearing) wall(c *candidate, q *quantity) bool {
	gap := q.from - c.to
	if gap < 0 || gap > 3 || !q.single() || q.amount >= 1 || q.amount <= 0 || q.unit != inches && !(gap > 0 && h.is(q.from-1, "by", "a", "an")) || h.stopIn(c.to, q.from) {
		return false
	}
	if gap > 0 && !h.is(q.to, "wall", "walls", "thick") && !h.is(q.from-1, "by", "a", "an") {
		return false
	}
	for i := range c.options {
		o := &c.options[i]
		o.value = Word(o.value.String() + "x" + strings.TrimSuffix(measure.Inches(q.amount).InInches(), " in"))
	}
	c.to, c.of, c.shape = q.to, q.to, "tube"
	return true
}

// digitsOf are the digits of a number as they are written, with their leading zeros: the
// "05" of "2 05 75 r 15".
func (h *hearing) digitsOf(q *quantity) string {
	var out strings.Builder
	for i := q.from; i < q.numeral.to; i++ {
		if h.t[i].kind != number {
			return run(q.parts)
		}
		out.WriteString(h.t[i].text)
	}
	return out.String()
}

// sizeGap reports that two numbers with these tokens between them may be of one tire size.
func (h *hearing) sizeGap(to, from int) bool {
	switch from - to {
	case 0:
		return true
	case 1:
		return h.is(to, "r", "/", "-", "our", "are", "or") || h.t[to].kind == comma
	case 2:
		return (h.is(to, "r", "/", "-", "our", "are") || h.t[to].kind == comma) && h.is(to+1, "r")
	}
	return false
}

// digitWords are digits of a tire size as captions write them.
var digitWords = map[string]string{"to": "2", "too": "2", "for": "4", "ate": "8", "tea": "0", "oh": "0", "o": "0"}

// betweenDigits are what captions write between the numbers of a tire size.
var betweenDigits = set("are r or our by")

// madeSizes are the sizes of trailer tires that are looked for in misheard digits. Common practice,
// no source.
var madeSizes = set(`145/80R12 145/80R13 175/80R13 185/80R13 205/75R14 205/75R15 225/75R15 225/75R16 235/80R16 235/85R16 215/75R17.5 235/75R17.5 255/70R22.5 235/75R15 245/75R16`)

// misheardSize reads a tire size at token i that is cut or misheard: "2 35 80 are 16", "s t too oh five
// 75 are 14". It is nothing where every number is written as it should be, which tireSizes reads.
func (h *hearing) misheardSize(i int) (text string, from, to int) {
	digits, odd := "", false
	if h.is(i-1, "to", "too") {
		return "", 0, 0
	}
	for to = i; to < min(len(h.t), i+10) && len(digits) < 7; {
		d, next, strange := h.sizeDigits(to, digits == "")
		if d == "" && digits != "" && (betweenDigits[h.word(to)] || h.is(to, "/", "-")) {
			strange = h.is(to, "are", "or", "our")
			d, next, _ = h.sizeDigits(to+1, false)
		}
		if d == "" {
			return "", 0, 0
		}
		digits, to, odd = digits+d, next, odd || strange
	}
	if !odd || len(digits) != 7 {
		return "", 0, 0
	}
	from, prefix := h.service(i)
	text, ok := tireSize(prefix, digits)
	if !ok || !madeSizes[strings.TrimPrefix(text, prefix)] {
		return "", 0, 0
	}
	return text, from, to
}

// sizeDigits are the digits of a tire size at token i, where they end, and whether they are written in
// an odd way. In front of a size only "to" stands for a digit.
func (h *hearing) sizeDigits(i int, first bool) (digits string, next int, odd bool) {
	if d, ok := h.digits(i); ok && !h.t[i].decimal {
		return h.t[i].text, i + 1, first && d < 100
	}
	if d := digitWords[h.word(i)]; d != "" && (!first || h.is(i, "to", "too")) {
		return d, i + 1, true
	}
	if v, next, plural, ok := h.small(i); ok && !plural {
		return plainNumber(v), next, false
	}
	return "", i, false
}

// service reads the letters in front of a tire size: ST, LT, or s t.
func (h *hearing) service(from int) (int, string) {
	switch {
	case h.is(from-1, "st", "lt"):
		return from - 1, strings.ToUpper(h.word(from - 1))
	case h.is(from-1, "t", "tee") && h.is(from-2, "s", "l"):
		return from - 2, strings.ToUpper(h.word(from-2)) + "T"
	}
	return from, ""
}

// tireSize writes the size that the digits spell, if they spell one that is made: a width
// that ends in 5, an aspect that is a multiple of 5, a rim of 12 to 24 inches.
func tireSize(prefix, digits string) (string, bool) {
	if len(digits) < 7 {
		return "", false
	}
	width, err1 := strconv.Atoi(digits[:3])
	aspect, err2 := strconv.Atoi(digits[3:5])
	rimText := digits[5:]
	if len(rimText) == 3 && rimText[2] == '5' {
		rimText = rimText[:2] + ".5"
	}
	rim, err3 := strconv.ParseFloat(rimText, 64)
	if err1 != nil || err2 != nil || err3 != nil || width < 135 || width > 455 || width%10 != 5 ||
		aspect < 30 || aspect > 90 || aspect%5 != 0 || rim < 12 || rim > 24.5 || rim != math.Trunc(rim) && rim-math.Trunc(rim) != 0.5 {
		return "", false
	}
	return prefix + digits[:3] + "/" + digits[3:5] + "R" + rimText, true
}

// letterNames are how captions write a letter that was said.
var letterNames = map[string]string{"be": "B", "bee": "B", "he": "E", "cee": "C", "sea": "C", "see": "C", "dee": "D", "ee": "E", "eff": "F", "ef": "F",
	"gee": "G", "jee": "G", "aitch": "H", "jay": "J", "ell": "L"}

// loadRanges finds "load range E", "LR E", "LRE", "E rated", "G load".
func (h *hearing) loadRanges() []candidate {
	var out []candidate
	add := func(from, to int, l string) {
		out = append(out, candidate{from: from, to: to, head: from, of: to, compare: Equal, shape: "range",
			options: []option{{row: roleIndex[LoadRange], value: Word(l)}}})
	}
	for i := 0; i < len(h.t); i++ {
		if n := h.rangeWords(i); n > 0 {
			if l := h.rangeLetter(i+n, true); l != "" {
				add(i, i+n+1, l)
				i += n
			}
			continue
		}
		if w := h.word(i); len(w) == 3 && strings.HasPrefix(w, "lr") {
			add(i, i+1, strings.ToUpper(w[2:]))
			continue
		}
		l := h.rangeLetter(i, false)
		switch {
		case l == "":
		case h.is(i+1, "range", "rated", "load", "rating"):
			add(i, i+2, l)
		case l != "B" && h.sizeBefore(i):
			add(i, i+1, l)
		}
	}
	return out
}

// rangeWords is how many tokens at i lead to the letter of a load range, or 0.
func (h *hearing) rangeWords(i int) int {
	switch {
	case h.is(i, "load", "low", "lode") && h.is(i+1, "range", "rage", "ranges", "arrange"):
		if h.is(i+2, "of", "is", "letter") {
			return 3
		}
		return 2
	case h.is(i, "range") && h.is(i+1, "of") && h.is(i+2, "load"):
		return 3
	case h.is(i, "lr"):
		return 1
	case h.is(i, "load") && !h.is(i+1, "a", "i") && (len(h.word(i+1)) == 1 || h.is(i+1, "sea", "cee", "dee", "ee", "eff", "gee")):
		return 1
	}
	return 0
}

// sizeBefore reports that a tire size, a number or a ply rating is in front of token i.
func (h *hearing) sizeBefore(i int) bool {
	return i > 0 && (h.is(i-1, "ply") || h.t[i-1].kind == number || strings.HasPrefix(h.word(i-1), "size:") || h.is(i-2, "ply"))
}

func (h *hearing) rangeLetter(i int, named bool) string {
	w := h.word(i)
	if l, ok := letterNames[w]; ok && named {
		return l
	}
	if len(w) == 1 && w >= "b" && w <= "n" && w != "i" && w != "k" {
		return strings.ToUpper(w)
	}
	return ""
}

// weeks finds the week and year a tire was made, the four digits of 49 CFR 574.5: "date
// code thirty-one twenty-five", "week eighteen of twenty-three", "the 48th week of 24".
func (h *hearing) weeks(qs []quantity, taken []bool) []candidate {
	var out []candidate
	for i := range qs {
		if taken[i] {
			continue
		}
		at, last := h.weekAt(qs, i)
		if last < i {
			continue
		}
		if at.year >= 0 && at.week >= 1 && at.week <= 53 && at.year <= 45 {
			out = append(out, candidate{from: at.from, to: at.to, head: at.from, of: at.to, compare: Equal, shape: "week",
				options: []option{{row: roleIndex[TireMade], value: Word("week " + strconv.Itoa(at.week) + " " + strconv.Itoa(2000+at.year))}}})
		} else if at.code {
			continue // four digits that are of something else
		}
		for k := i; k <= last; k++ {
			taken[k] = true
		}
	}
	return out
}

// A madeIn is a week and the last two digits of a year, where they were said. Code reports
// that they are four digits.
type madeIn struct {
	span
	week, year int
	code       bool
}

// weekAt reads a week and a year at quantity i. Last is the last quantity of it, or -1.
func (h *hearing) weekAt(qs []quantity, i int) (at madeIn, last int) {
	q := &qs[i]
	if h.is(q.from-1, "of") && h.is(q.from-2, "week") {
		w := h.ordinalBefore(q.from - 2)
		y, ok := q.yearOfTwo()
		if w > 0 && ok {
			return madeIn{span{q.from - 3, q.to}, w, y, false}, i
		}
		return at, -1
	}
	if i+1 < len(qs) && h.is(q.from-1, "week") && qs[i+1].from-q.to <= 1 && (qs[i+1].from == q.to || h.is(q.to, "of")) {
		w, ok1 := q.whole()
		y, ok2 := qs[i+1].yearOfTwo()
		if ok1 && ok2 && w <= 53 {
			return madeIn{span{q.from - 1, qs[i+1].to}, w, y, false}, i + 1
		}
	}
	if q.unit == bare && h.speaksOfCode(q.from) && !h.is(q.from-1, "/") {
		if digits := h.codeDigits(q); len(digits) == 4 {
			n, _ := strconv.Atoi(digits)
			return madeIn{span{q.from, q.to}, n / 100, n % 100, true}, i
		}
	}
	return at, -1
}

// speaksOfCode reports that a date code, or the digits on a tire's side, were named within
// the last words.
func (h *hearing) speaksOfCode(at int) bool {
	for k := at - 1; k >= max(0, at-12); k-- {
		if h.is(k, "code", "codes", "coded", "dot", "stamp", "digits") || h.is(k, "date") || h.is(k, "numbers") && h.is(k+1, "on", "are", "say", "says") || h.is(k, "week") {
			return true
		}
		if h.t[k].kind == stop && k < at-6 {
			return false
		}
	}
	return false
}

func (h *hearing) codeDigits(q *quantity) string {
	if q.single() && h.t[q.from].kind == number {
		return h.t[q.from].text // with its leading zero
	}
	digits := run(q.parts)
	if len(digits) == 3 && h.is(q.from-1, "oh", "o", "zero") {
		digits = "0" + digits
	}
	return digits
}

// yearOfTwo is the year as its last two digits: 24, 2024, "twenty twenty-four".
func (q *quantity) yearOfTwo() (int, bool) {
	if y, ok := q.year(); ok && y >= 2000 {
		return y - 2000, true
	}
	y, ok := q.whole()
	return y, ok && y < 60
}

// ordinals are those that do not end in th, or not regularly.
var ordinals = map[string]int{"first": 1, "second": 2, "third": 3, "fifth": 5, "eighth": 8, "ninth": 9, "twelfth": 12, "twentieth": 20, "thirtieth": 30, "fortieth": 40, "fiftieth": 50}

// ordinalBefore is the ordinal that ends before token i: "48th", "nineteenth", "thirty
// third"; or 0.
func (h *hearing) ordinalBefore(i int) int {
	if h.is(i-1, "th", "st", "nd", "rd") {
		if v, ok := h.digits(i - 2); ok {
			return int(v)
		}
		return 0
	}
	w := h.word(i - 1)
	n, ok := ordinals[w]
	if !ok {
		stem, cut := strings.CutSuffix(w, "th")
		if !cut {
			return 0
		}
		v, isOne := ones[stem]
		if !isOne {
			v, isOne = teens[stem]
		}
		if !isOne {
			return 0
		}
		n = int(v)
	}
	if t, ok := tens[h.word(i-2)]; ok && n < 10 {
		n += int(t)
	}
	return n
}
