package walkaround

import (
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/measure"
)

// bar is the confidence below which a figure is given no role.
const bar = 0.5

// Hear finds the figures spoken in the captions, in the order they are said. Their
// Offset counts in the words of the cues, joined by single spaces, repeats left out.
func Hear(c Captions) []Candidate { return hear(transcript(c)) }

// HearText finds the figures in written notes. Their times are zero; their Offset is
// the byte in text where the quote begins.
func HearText(text string) []Candidate { return hear(text, tokens(text)) }

// transcript is all that was said, with its tokens. A pause ends a sentence.
func transcript(c Captions) (string, []token) {
	words := c.words()
	var text strings.Builder
	t := make([]token, 0, len(words)+len(words)/4)
	for _, w := range words {
		if text.Len() > 0 {
			if w.gap > pause {
				t = append(t, token{kind: stop, text: ".", from: text.Len(), to: text.Len()})
			}
			text.WriteByte(' ')
		}
		at := text.Len()
		text.WriteString(w.text)
		t = lex(t, w.text, at, w.start, w.end)
	}
	return text.String(), t
}

// tokens cuts written notes. A blank line, a list item or a heading ends a sentence; any
// other line end is a soft edge, as prose is wrapped.
func tokens(text string) []token {
	var t []token
	for at := 0; at < len(text); {
		if c := text[at]; c == ' ' || c == '\t' || c == '\r' || c == '\n' {
			if c == '\n' {
				edge := kind(comma)
				rest := strings.TrimLeft(text[at+1:], " \t\r")
				if rest == "" || rest[0] == '\n' || strings.HasPrefix(rest, "- ") || strings.HasPrefix(rest, "* ") || rest[0] == '#' {
					edge = stop
				}
				t = append(t, token{kind: edge, text: "\n", from: at, to: at})
			}
			at++
			continue
		}
		end := at
		for end < len(text) && text[end] != ' ' && text[end] != '\t' && text[end] != '\r' && text[end] != '\n' {
			end++
		}
		t = lex(t, text[at:end], at, 0, 0)
		at = end
	}
	return t
}

func hear(text string, t []token) []Candidate {
	var out []Candidate
	for s := range sentences(text, t) {
		out = append(out, s.hear()...)
	}
	return out
}

// longest is the most tokens that are looked at as one sentence: speech without a pause
// is cut there, so that no file takes more than its length in time.
const longest = 200

func sentences(text string, t []token) iter.Seq[*sentence] {
	return func(yield func(*sentence) bool) {
		for len(t) > 0 {
			end := 0
			for end < len(t) && t[end].kind != stop && end < longest {
				end++
			}
			if end > 0 && !yield(&sentence{hearing: hearing{t: t[:end]}, source: text}) {
				return
			}
			if end < len(t) && t[end].kind == stop {
				end++
			}
			t = t[end:]
		}
	}
}

// A sentence is what is said between two pauses or full stops. Figures and the parts
// they belong to are sought within one.
type sentence struct {
	hearing
	source string
	aside  []string
	qs     []quantity
	cues   []placed
	out    []Candidate
}

// placed is a cue at its place.
type placed struct {
	from, to int
	cue      cue
}

func (s *sentence) hear() []Candidate {
	s.qs = s.quantities()
	s.patternsOfDigits()
	if len(s.qs) == 0 && len(s.out) == 0 && !s.hasSize() && !s.has("axle", "axles", "range", "lr", "lre", "lrg", "lrd", "lrh", "lrc", "dual", "rated") {
		return nil
	}
	s.aside = s.setAside()
	s.findCues()
	s.surroundings(s.qs, s.aside)
	s.tireSizes()
	s.dates()
	s.loadRanges()
	s.sections()
	s.counts()
	s.years()
	s.pairs()
	for i := range s.qs {
		if q := &s.qs[i]; !q.used {
			s.place(q)
		}
	}
	s.ofThem()
	slices.SortStableFunc(s.out, func(a, b Candidate) int { return a.Offset - b.Offset })
	return s.out
}

func (s *sentence) has(words ...string) bool {
	for i := range s.t {
		if s.is(i, words...) {
			return true
		}
	}
	return false
}

// hasSize reports a tire size in one word: "235/85R16".
func (s *sentence) hasSize() bool {
	for i := range s.t {
		if strings.HasPrefix(s.word(i), "size:") {
			return true
		}
	}
	return false
}

// findCues places the phrases; where two overlap the longer wins.
func (s *sentence) findCues() {
	for i := 0; i < len(s.t); i++ {
		if s.quantityAt(i) >= 0 {
			continue // "82 in between the fenders": the "in" is the figure's
		}
		best, at := 0, cue{}
		for _, p := range cues[s.spoken(i)] {
			if len(p.words) <= best {
				continue
			}
			ok := true
			for k := 1; k < len(p.words) && ok; k++ {
				ok = s.spoken(i+k) == p.words[k]
			}
			if ok {
				best, at = len(p.words), p.cue
			}
		}
		if best > 0 {
			s.cues = append(s.cues, placed{i, i + best, at})
			i += best - 1
		}
	}
}

// emit adds a candidate over the tokens from to to.
func (s *sentence) emit(from, to int, c Candidate) {
	from, to = max(from, 0), min(max(to, from+1), len(s.t))
	for i := from; i < to; i++ {
		if w := s.aside; w != nil && w[i] != "" && c.Doubt == "" {
			c.Doubt = w[i]
		}
	}
	if c.Doubt == "" && c.Confidence < bar {
		c.Doubt = "too little around it says what it is of"
	}
	if c.Doubt != "" && c.Role != "" {
		c.Alternatives = append([]Alternative{{c.Role, c.Value}}, c.Alternatives...)
		c.Role = ""
	}
	if c.Compare == "" {
		c.Compare = Equal
	}
	c.Offset = s.t[from].from
	c.Quote = s.source[c.Offset:max(s.t[to-1].to, c.Offset)]
	c.Start, c.End = s.t[from].start, s.t[to-1].end
	s.out = append(s.out, c)
}

// distance is how far a cue is from a quantity, in words that mean something; negative
// when they overlap.
func (s *sentence) distance(c placed, from, to int) (cost float64, ok bool) {
	a, b := to, c.from
	if c.to <= from {
		a, b = c.to, from
		cost = 0.8 // what stands behind a figure names it more often than what stands in front
	} else if c.from < to {
		return 0, false
	} else if c.cue.verb || s.spoken(c.to) == ":" {
		cost = 3
	}
	if b-a > 24 {
		return 0, false
	}
	crossed := -1
	for i := a; i < b; i++ {
		if q := s.quantityAt(i); q >= 0 {
			if q != crossed {
				crossed = q
				if s.qs[q].rejected != "corrected at once" && s.qs[q].rejected != "denied" && !(s.qs[q].unit == bare && s.qs[q].single() && !s.qs[q].scaled) {
					cost += 3.5
				}
			}
			continue
		}
		switch {
		case s.spoken(i) == ":" && i == c.to:
		case s.t[i].kind == comma && i == c.to:
			cost += 1.5 // the topic first: "Axles, three ten k"
		case s.t[i].kind == comma && s.is(i-1, "now", "well", "okay"):
			cost += 0.5
		case s.t[i].kind == comma:
			cost += 3.5
		case s.is(i, "and", "with", "plus", "then", "so"):
			cost += 2.5
		case s.is(i, "but"):
			cost += 8
		case fillers[s.spoken(i)], s.match(corrections, i) > 0:
		default:
			cost++
		}
	}
	return cost + c.cue.weak, true
}

func (s *sentence) quantityAt(i int) int {
	for k := range s.qs {
		if i >= s.qs[k].from && i < s.qs[k].to {
			return k
		}
	}
	return -1
}

// nearest finds the closest cue that want accepts, and its distance.
func (s *sentence) nearest(from, to int, want func(cue) bool) (placed, float64, bool) {
	var best placed
	least, found := math.Inf(1), false
	for _, c := range s.cues {
		if !want(c.cue) {
			continue
		}
		if d, ok := s.distance(c, from, to); ok && d < least {
			best, least, found = c, d, true
		}
	}
	return best, least, found
}

// reach is the farthest a part may be from its figure.
const reach = 8.5

// confidence falls with the distance and with all that was not said.
func confidence(cost float64, inferred bool, q *quantity) float64 {
	c := 0.98 - cost*0.045
	if inferred {
		c -= 0.05
	}
	if !q.single() {
		c -= 0.04
	}
	return max(0, min(1, c))
}

// value makes q's Value in the role, if q can be one and the window holds it.
func (s *sentence) value(q *quantity, r Role, dim unit) (v Value, inferred, ok bool) {
	var x float64
	switch dim {
	case pounds:
		if x, inferred, ok = q.weight(); ok {
			v = measure.Pounds(x)
		}
	case dollars:
		if x, inferred, ok = q.money(); ok {
			v = measure.Dollars(x)
		}
	case psi:
		if x, inferred, ok = q.pressure(); ok {
			v = measure.PSI(x)
		}
	case inches:
		if x, inferred, ok = q.inchesFor(r); ok {
			v = measure.Inches(x)
		}
	}
	return v, inferred, ok && r != "" && inWindow(r, x)
}

// byItself is q as a value where no role is known, or nil if it is a bare number.
func (q *quantity) byItself() Value {
	switch q.unit {
	case pounds:
		if v, _, ok := q.weight(); ok {
			return measure.Pounds(v)
		}
	case dollars:
		if v, _, ok := q.money(); ok {
			return measure.Dollars(v)
		}
	case inches, feet:
		v, _, _ := q.inchesFor("")
		return measure.Inches(v)
	case psi:
		if v, ok := q.hundreds(); ok {
			return measure.PSI(v)
		}
	case degrees:
		return measure.Degrees(q.amount)
	case bare:
		if v, ok := q.together(); ok && (q.scaled || !q.single()) && v == math.Trunc(v) {
			return Word(plainNumber(v))
		}
	}
	return nil
}

type reading struct {
	role     Role
	value    Value
	inferred bool
	cost     float64
	dim      unit
	other    bool
}

// place gives a quantity the role of the nearest part that takes its dimension.
func (s *sentence) place(q *quantity) {
	if q.rejected != "" {
		if v := q.byItself(); v != nil && q.unit != foreign {
			s.emit(q.head, q.to, Candidate{Value: v, Doubt: q.rejected, Compare: q.compare})
		}
		return
	}
	readings := s.readings(q)
	if len(readings) == 0 || readings[0].other || readings[0].cost > reach {
		doubt := "no part named near it"
		if len(readings) > 0 && readings[0].other {
			doubt = "of a part that has no key here"
		}
		if v := q.byItself(); v != nil {
			c := Candidate{Value: v, Doubt: doubt, Compare: q.compare}
			for _, r := range readings {
				if !r.other && len(c.Alternatives) < 3 {
					c.Alternatives = append(c.Alternatives, Alternative{r.role, r.value})
				}
			}
			s.emit(q.head, q.to, c)
		}
		return
	}
	best := readings[0]
	c := Candidate{Role: best.role, Value: best.value, UnitInferred: best.inferred, Compare: q.compare,
		Confidence: confidence(best.cost, best.inferred, q)}
	for _, r := range readings[1:] {
		if !r.other && r.role != best.role && len(c.Alternatives) < 3 && r.cost <= reach+3 {
			c.Alternatives = append(c.Alternatives, Alternative{r.role, r.value})
		}
	}
	to := q.to
	if q.high != nil {
		high, _, ok := s.value(q.high, best.role, best.dim)
		if !ok {
			c.Doubt = "a range whose upper end is not of the same kind"
		} else {
			c.High, c.Compare = high, Range
			to = q.high.to
		}
	}
	if q.give > 0 {
		switch best.dim {
		case pounds:
			c.Tolerance = measure.Pounds(q.give)
		case inches:
			c.Tolerance = measure.Inches(q.give)
		case dollars:
			c.Tolerance = measure.Dollars(q.give)
		}
	}
	s.emit(q.head, to, c)
}

// readings is every role that the cues around q allow, nearest first.
func (s *sentence) readings(q *quantity) []reading {
	var out []reading
	try := func(r Role, dim unit, cost float64) {
		if r == "" {
			return
		}
		if q.rejected == "" {
			if v, inferred, ok := s.value(q, r, dim); ok {
				out = append(out, reading{role: r, value: v, inferred: inferred, cost: cost, dim: dim})
			}
		}
	}
	end := q.to
	if q.high != nil {
		end = q.high.to
	}
	for _, c := range s.cues {
		d, ok := s.distance(c, q.from, end)
		if !ok {
			continue
		}
		switch {
		case c.cue.otherLength && (q.unit == inches || q.unit == feet), c.cue.verb && c.cue.weight == Payload && s.ofAnotherPart(c):
			out = append(out, reading{other: true, cost: d})
		case c.cue.other:
			if q.unit != psi && !(q.unit == dollars && s.is(c.from, "title", "tax")) {
				out = append(out, reading{other: true, cost: d})
			}
		case c.cue.attr != none:
			try(s.attributeRole(c, q), inches, d)
		default:
			try(c.cue.weight, pounds, d)
			try(c.cue.money, dollars, d)
			if q.unit != bare || d < 3 {
				try(c.cue.pressure, psi, d)
			}
			r := c.cue.length
			if r == DeckLength && c.cue.part == deckPart {
				r = s.deckRole(c, q)
			}
			if r == BedHeight && !s.has("dump", "bed") {
				r = ""
			}
			if r == RampLength && q.unit == inches && q.amount < 36 {
				r = ""
			}
			if r == DeckLength && c.cue.weak > 0 && q.unit == bare {
				r = ""
			}
			try(r, inches, d)
		}
	}
	if q.unit == psi {
		try(Pressure, psi, 3)
	}
	if q.unit == pounds && slices.ContainsFunc(s.out, func(c Candidate) bool { return c.Role == TireSize || c.Role == LoadRange || c.Role == Ply }) {
		try(Pressure, psi, 4)
	}
	if q.unit == bare && q.single() && q.to == len(s.t) && s.is(q.from-1, "a") && slices.ContainsFunc(s.qs, func(r quantity) bool { return r.unit == feet && r.rejected != "" && r.from < q.from }) {
		try(DeckLength, inches, 4) // "that one's a twenty-four footer but this one's a twenty"
	}
	if q.unit == dollars && q.compare == Equal && (s.is(q.head-1, "it", "one", "this") || s.is(q.head-1, "is") && s.is(q.head-2, "one", "this", "it", "trailer", "unit", "that")) {
		try(Price, dollars, 2)
	}
	if q.unit == dollars && len(s.qs) == 1 && q.to-q.from == len(s.t) {
		try(Price, dollars, 3)
	}
	if s.is(q.to-1, "footer", "footers") {
		try(DeckLength, inches, 0.3)
	}
	if s.ofTrailer(q) {
		try(GVWR, pounds, 0.1)
	}
	slices.SortStableFunc(out, func(a, b reading) int {
		switch {
		case a.cost < b.cost:
			return -1
		case a.cost > b.cost:
			return 1
		}
		return 0
	})
	return out
}

// ofAnotherPart reports whether what stands right before a verb is a part that carries
// something of its own: "the ramps hold ten thousand".
func (s *sentence) ofAnotherPart(verb placed) bool {
	for _, c := range s.cues {
		if c.to == verb.from && (c.cue.part != noPart && c.cue.part != deckPart && c.cue.part != bedPart && c.cue.part != boxPart) {
			return true
		}
	}
	return false
}

// ofTrailer reports "a fourteen k equipment trailer": such a figure is the GVWR, which is
// how the trade names sizes (common practice, no source).
func (s *sentence) ofTrailer(q *quantity) bool {
	if !q.scaled || q.unit != bare && q.unit != pounds {
		return false
	}
	for k := q.to; k < min(q.to+5, len(s.t)); k++ {
		if s.is(k, "trailer") {
			return true
		}
		if !s.is(k, "equipment", "utility", "dump", "tilt", "gooseneck", "flatbed", "car", "hauler", "deck", "over", "bumper", "pull", "low", "pro", "tandem", "enclosed", "cargo", "pound") {
			return false
		}
	}
	return false
}

// deckRole tells a deck's length from its width and height by the unit: decks are as
// long as feet, as wide as 48 to 102 inches, as high as less than that.
func (s *sentence) deckRole(c placed, q *quantity) Role {
	if q.unit != inches || q.broken && q.amount >= 48 && q.amount > 102 {
		return DeckLength
	}
	if q.amount >= 48 {
		return DeckWidth
	}
	if c.to <= q.from {
		for k := c.from; k < q.from; k++ {
			if s.is(k, "sits", "sit", "at", "stands") {
				return DeckHeight
			}
		}
		if s.t[c.from].possessive {
			return DeckHeight
		}
	}
	return ""
}

// attributeRole makes a role of a direction and the part it is said of.
func (s *sentence) attributeRole(c placed, q *quantity) Role {
	isPart := func(k cue) bool { return k.part != noPart }
	from, to := min(c.from, q.from), max(c.to, q.to)
	near, d, ok := s.nearest(from, to, isPart)
	of := noPart
	if ok && d < 7 {
		of = near.cue.part
	}
	if of == otherPart && (near.from >= to || d >= 2.5) && c.cue.attr != every {
		of = noPart // what stands behind a direction begins the next thing
	}
	if of == noPart && !s.hasPart(deckPart) {
		// The only part that the sentence speaks of may stand farther off.
		isLoading := func(k cue) bool { return k.part == rampPart || k.part == bedPart || k.part == boxPart }
		if p, d, ok := s.nearest(from, to, isLoading); ok && d < 14 && p.to <= from {
			of = p.cue.part
		}
	}
	if of == noPart && c.cue.attr == wide && q.unit == inches && q.amount < 48 && s.hasPart(rampPart) {
		of = rampPart
	}
	// The part may stand inside: "the deck sits 35 off the ground" is outside, "ramps 15
	// inches wide" too, but "28 inches deck height" is within the cue itself.
	switch c.cue.attr {
	case wide:
		switch of {
		case rampPart:
			return RampWidth
		case bedPart:
			return BedWidth
		case boxPart:
			return BoxWidth
		case axlePart:
			if s.is(c.from, "between") && c.to == c.from+1 {
				return ""
			}
		case otherPart:
			return ""
		}
		if s.is(c.from, "between") && c.to == c.from+1 {
			return ""
		}
		return DeckWidth
	case long:
		switch of {
		case rampPart:
			return RampLength
		case tailPart:
			if near.to <= from && !s.is(c.from, "total", "of", "deck") {
				return DeckTail
			}
		case bedPart:
			return BedLength
		case boxPart:
			return BoxLength
		case otherPart:
			return ""
		}
		return DeckLength
	case tall:
		switch {
		case of == otherPart && near.to <= from:
			return ""
		case s.is(c.from, "deck", "loading", "off", "from"):
			return DeckHeight
		case s.is(c.from, "inside", "interior"):
			return BoxHeight
		case of == bedPart:
			return BedHeight
		case of == boxPart:
			return BoxHeight
		case s.is(c.from, "height") && s.is(c.from-1, "neck", "load", "coupler", "hitch"):
			return ""
		case of == otherPart:
			return ""
		}
		if s.is(c.from, "tall") && of != deckPart {
			return ""
		}
		return DeckHeight
	case apart:
		if of == axlePart || s.is(c.from, "spread", "axle", "spacing") && of != crossPart || s.has("axle", "axles") && of != crossPart {
			return AxleSpacing
		}
		return ""
	case every:
		if of == otherPart {
			return ""
		}
		if s.is(c.from, "every") && (of != crossPart || c.to > q.from) {
			return ""
		}
		if of == axlePart && !s.hasPart(crossPart) {
			return AxleSpacing
		}
		return CrossSpacing
	}
	return ""
}

func (s *sentence) hasPart(p part) bool {
	for _, c := range s.cues {
		if c.cue.part == p {
			return true
		}
	}
	return false
}

// patternsOfDigits takes away what no figure is made of: telephone numbers, fractions of
// lumber, hours like 8-5.
func (s *sentence) patternsOfDigits() {
	for i := range s.qs {
		q := &s.qs[i]
		if i+1 < len(s.qs) {
			r := &s.qs[i+1]
			if r.from == q.to+1 && s.is(q.to, "-") && !r.broken {
				q.used, r.used = true, true
			}
		}
		if len(q.parts) >= 7 {
			q.used = true
		}
	}
}

func (q *quantity) whole() (int, bool) {
	if !q.single() || q.amount != math.Trunc(q.amount) || q.amount < 0 || q.amount > 1e6 {
		return 0, false
	}
	return int(q.amount), true
}

// tireSizes finds "ST235/80R16", "235 80 R16", "two thirty-five eighty sixteens".
func (s *sentence) tireSizes() {
	for i := range s.t {
		if w, ok := strings.CutPrefix(s.word(i), "size:"); ok {
			m := sizeForm.FindStringSubmatch(w)
			s.tire(i, i+1, strings.ToUpper(m[1]), m[2]+m[3]+m[4], false)
		}
	}
	for i := range s.qs {
		q := &s.qs[i]
		if q.used || q.unit != bare && q.unit != foreign || q.amount < 0 {
			continue
		}
		digits, to := run(q.parts), q.to
		k := i
		for k+1 < len(s.qs) && len(digits) < 7 {
			next := &s.qs[k+1]
			gap := next.from - to
			if gap > 2 || gap == 2 && !(s.is(to, "r", "/", "-") && s.is(to+1, "r")) || gap == 1 && !s.is(to, "r", "/", "-") {
				break
			}
			digits += run(next.parts)
			to = next.to
			k++
		}
		if k > i && s.qs[k].unit == bare {
			to = s.qs[k].numeral.to
		}
		prefix, from := "", q.from
		if s.is(from-1, "st", "lt") {
			prefix = strings.ToUpper(s.word(from - 1))
			from--
		} else if s.is(from-1, "t") && s.is(from-2, "s", "l") {
			prefix = strings.ToUpper(s.word(from-2)) + "T"
			from -= 2
		}
		if s.tire(from, to, prefix, digits, true) {
			for ; k >= i; k-- {
				s.qs[k].used = true
			}
		}
	}
}

// tire emits the size that the digits spell, if they spell one that is made: a width
// ending in 5, an aspect that is a multiple of 5, a rim of 12 to 24 inches.
func (s *sentence) tire(from, to int, prefix, digits string, spoken bool) bool {
	if len(digits) < 7 {
		return false
	}
	width, err1 := strconv.Atoi(digits[:3])
	aspect, err2 := strconv.Atoi(digits[3:5])
	rimText := digits[5:]
	if len(rimText) == 3 && rimText[2] == '5' {
		rimText = rimText[:2] + ".5"
	}
	rim, err3 := strconv.ParseFloat(rimText, 64)
	if err1 != nil || err2 != nil || err3 != nil || width < 135 || width > 455 || width%5 != 0 || width%10 == 0 ||
		aspect < 30 || aspect > 90 || aspect%5 != 0 || rim < 12 || rim > 24.5 || rim != math.Trunc(rim) && rim-math.Trunc(rim) != 0.5 {
		return false
	}
	c := Candidate{Role: TireSize, Value: Word(prefix + digits[:3] + "/" + digits[3:5] + "R" + rimText), Confidence: 0.97}
	if spoken {
		c.Confidence = 0.92
	}
	if p, d, ok := s.nearest(from, to, func(c cue) bool { return c.other }); ok && d < 2.5 && s.is(p.from, "spare") {
		c.Doubt = "of the spare"
	}
	s.emit(from, to, c)
	return true
}

// dates finds the week and year a tire was made: "date code thirty-one twenty-five",
// "week eighteen of twenty-three". The code is 49 CFR 574.5: two digits of the week,
// two of the year.
func (s *sentence) dates() {
	for i := range s.t {
		switch {
		case s.is(i, "date") && s.is(i+1, "code", "codes", "thing", "stamp", "on"):
			for k := range s.qs {
				q := &s.qs[k]
				if q.from <= i || q.from > i+9 || q.used {
					continue
				}
				digits := ""
				for _, p := range q.parts {
					// "oh eight nineteen" begins with the oh that is no number of its own
					digits += plainNumber(p)
				}
				if len(digits) == 3 && s.is(q.from-1, "oh", "o", "zero") {
					digits = "0" + digits
				}
				if s.made(i, q.to, digits) {
					q.used = true
				}
				break
			}
		case s.is(i, "week"):
			for k := 0; k+1 < len(s.qs); k++ {
				a, b := &s.qs[k], &s.qs[k+1]
				if a.from == i+1 && b.from == a.to+1 && s.is(a.to, "of") {
					w, ok1 := a.whole()
					y, ok2 := b.whole()
					if y >= 2000 {
						y -= 2000
					} else if len(b.parts) == 2 && b.parts[0] == 20 {
						y, ok2 = int(b.parts[1]), true
					}
					if ok1 && ok2 && w < 54 && y < 60 && s.made(i, b.to, twoDigits(w)+twoDigits(y)) {
						a.used, b.used = true, true
					}
				}
			}
		}
	}
}

func twoDigits(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

func (s *sentence) made(from, to int, digits string) bool {
	n, err := strconv.Atoi(digits)
	if err != nil || len(digits) != 4 || n/100 < 1 || n/100 > 53 || n%100 > 45 {
		return false
	}
	s.emit(from, to, Candidate{Role: TireMade, Value: Word("week " + strconv.Itoa(n/100) + " " + strconv.Itoa(2000+n%100)), Confidence: 0.93})
	return true
}

// loadRanges finds "load range E", "LR E", "LRE", "e rated".
func (s *sentence) loadRanges() {
	letter := func(i int) string {
		w := s.word(i)
		if len(w) == 1 && w >= "b" && w <= "n" && w != "i" && w != "k" {
			return strings.ToUpper(w)
		}
		return ""
	}
	for i := range s.t {
		var l string
		to := i + 1
		switch {
		case s.is(i, "load") && s.is(i+1, "range"):
			l, to = letter(i+2), i+3
		case s.is(i, "lr"):
			l, to = letter(i+1), i+2
		case strings.HasPrefix(s.word(i), "lr") && len(s.word(i)) == 3:
			l = strings.ToUpper(s.word(i)[2:])
		case letter(i) != "" && s.is(i+1, "rated") && s.is(i+2, "tires", "tire"):
			l, to = letter(i), i+2
		}
		if l != "" {
			s.emit(i, to, Candidate{Role: LoadRange, Value: Word(l), Confidence: 0.95})
		}
	}
}

// materials are what frames and crossmembers are rolled as.
func (s *sentence) material(i int) int {
	switch {
	case s.is(i, "main"):
		if n := s.material(i + 1); n > 0 {
			return n + 1
		}
	case s.is(i, "i") && s.is(i+1, "beam", "beams"):
		return 2
	case s.is(i, "ibeam", "beam", "beams", "channel", "channels", "junior"):
		n := 1
		for s.is(i+n, "channel", "beam", "beams") {
			n++
		}
		return n
	}
	return 0
}

// sections finds what frame and crossmembers are made of: "ten inch twenty-two pound
// beam", "W ten by twenty-two", "three inch channel".
func (s *sentence) sections() {
	for i := range s.qs {
		q := &s.qs[i]
		if q.used || q.rejected != "" {
			continue
		}
		// W10x22
		if i+1 < len(s.qs) && s.is(q.from-1, "w", "s", "c", "mc", "m") && s.qs[i+1].from == q.to+1 && s.is(q.to, "x", "by") {
			r := &s.qs[i+1]
			if q.single() && r.single() && q.amount >= 3 && q.amount <= 24 && r.amount >= 3 && r.amount <= 120 {
				q.used, r.used = true, true
				s.section(q.from-1, r.to, Section{strings.ToUpper(s.word(q.from - 1)), measure.Inches(q.amount), measure.PoundsPerFoot(r.amount)})
				continue
			}
		}
		if q.unit != inches || q.amount < 2.5 || q.amount > 24 {
			continue
		}
		j := q.to
		n := s.material(j)
		j += n
		to := j
		sec := Section{Depth: measure.Inches(q.amount)}
		if i+1 < len(s.qs) {
			r := &s.qs[i+1]
			k := j
			for k < r.from && (s.t[k].kind == comma || s.is(k, "at", "a", "and")) {
				k++
			}
			light := r.unit == poundsPerFoot || r.unit == pounds && r.single() && r.amount <= 120 && !r.scaled
			if k == r.from && light && (n > 0 || s.material(r.to) > 0 || k == j && s.sectionNamed(q.from, r.to)) {
				sec.PerFoot = measure.PoundsPerFoot(r.amount)
				r.used = true
				n += 1 + s.material(r.to)
				to = r.to + s.material(r.to)
			}
		}
		if n == 0 {
			continue
		}
		if s.is(to, "tongue", "neck", "bumper", "side", "wrap") || s.is(q.to, "tubing", "angle") {
			q.used = true
			continue
		}
		q.used = true
		s.section(q.from, to, sec)
	}
}

// sectionNamed reports whether frame or crossmembers are named right at the figure.
func (s *sentence) sectionNamed(from, to int) bool {
	_, d, ok := s.nearest(from, to, func(c cue) bool { return c.part == crossPart || c.part == framePart })
	return ok && d < 2
}

func (s *sentence) section(from, to int, sec Section) {
	p, d, ok := s.nearest(from, to, func(c cue) bool { return c.part == crossPart || c.part == framePart })
	c := Candidate{Role: Beam, Value: sec, Confidence: 0.85}
	switch {
	case ok && (d < reach || !s.hasPart(framePart) && d < reach+2) && p.cue.part == crossPart:
		c.Role = Crossmember
		c.Alternatives = []Alternative{{Beam, sec}}
	case ok && d < reach:
	case sec.PerFoot == 0:
		c.Doubt = "a section, but of which part?"
	}
	s.emit(from, to, c)
}

// A counted thing: the words that name it.
type counted struct {
	role   Role
	rating Role
	first  []string
	then   []string // second word, or none
}

var countedThings = []counted{
	{AxleCount, AxleRating, []string{"axle", "axles"}, nil},
	{JackCount, JackRating, []string{"jack", "jacks"}, nil},
	{DRings, DRingRating, []string{"d"}, []string{"ring", "rings"}},
	{StakePockets, "", []string{"stake"}, []string{"pocket", "pockets"}},
	{Ply, "", []string{"ply"}, nil},
}

// between what counts and what is counted these may stand.
var adjectives = set(`drop leg electric torsion spring hydraulic welded bolt on swivel heavy duty tandem dual inch pound pounds lb weld
	of the oil bath leaf rubber dropleg k recessed`)

func (s *sentence) thingAt(i int) (counted, int, bool) {
	for _, c := range countedThings {
		if s.is(i, c.first...) {
			if c.then == nil {
				return c, i + 1, true
			}
			if s.is(i+1, c.then...) {
				return c, i + 2, true
			}
		}
	}
	return counted{}, i, false
}

var groups = map[string]int{"tandem": 2, "twin": 2, "dual": 2, "triple": 3, "tri": 3, "triaxle": 3, "single": 1, "quad": 4, "pair": 2}

// counts finds how many: "two seven k axles", "tandem sevens", "eight d-rings", "dual
// jacks", "12k jack x 2".
func (s *sentence) counts() {
	tell := func(from, to int, c counted, n int, conf float64) bool {
		if !inWindow(c.role, float64(n)) {
			return false
		}
		cand := Candidate{Role: c.role, Value: Count(n), Confidence: conf}
		if c.role == Ply {
			if p, d, ok := s.nearest(from, to, func(c cue) bool { return c.other }); ok && d < 2.5 && s.is(p.from, "spare") {
				cand.Doubt = "of the spare"
			}
		}
		if c.role == StakePockets {
			for k := to; k < min(to+6, len(s.t)); k++ {
				if s.is(k, "side") {
					cand.Doubt = "a count of each side"
				}
			}
		}
		s.emit(from, to, cand)
		return true
	}
	for i := range s.qs {
		q := &s.qs[i]
		if q.used || q.unit != bare || q.rejected != "" {
			continue
		}
		n, ok := q.whole()
		if !q.single() && len(q.parts) > 2 { // counting aloud: one two three four
			ok = true
			for k, p := range q.parts {
				ok = ok && p == float64(k+1)
			}
			n = len(q.parts)
		}
		if !ok || n > 80 || q.plural {
			continue
		}
		// "2 x 10k axles" or a rating between count and noun
		j, rated := q.to, false
		if s.is(j, "x") {
			j++
		}
		for j < len(s.t) {
			if k := s.quantityAt(j); k >= 0 {
				r := &s.qs[k]
				if rated || r.unit != pounds && !(r.unit == bare && r.scaled) || r.rejected != "" {
					break
				}
				rated = true
				j = r.to
				continue
			}
			if !adjectives[s.word(j)] {
				break
			}
			j++
		}
		if c, to, ok := s.thingAt(j); ok && (!rated || c.rating != "") && !(c.role == Ply && (j != q.to || n%2 == 1)) {
			if c.role == AxleCount && s.is(to, "tubes") {
				continue
			}
			if tell(q.from, to, c, n, 0.95) {
				q.used = true
			}
			continue
		}
		// behind the noun: "axles (2)", "jack x 2", "number of axles, three", "the axles are two"
		if q.from >= 2 && (s.t[q.from-1].kind == comma && s.spoken(q.from-1) == "(" || s.is(q.from-1, "x")) {
			if c, to, ok := s.nounBefore(q.from - 1); ok {
				if tell(to, q.to, c, n, 0.85) {
					q.used = true
				}
			}
			continue
		}
		if q.to == len(s.t) || s.t[q.to].kind == comma {
			k := q.from - 1
			for k >= 0 && (s.t[k].kind == comma || s.is(k, "are", "is")) {
				k--
			}
			if k >= 0 && k < q.from-1 {
				if c, at, ok := s.nounBefore(k + 1); ok && (s.is(at-2, "number") || s.is(k+1, "are")) && c.role == AxleCount {
					if tell(at, q.to, c, n, 0.85) {
						q.used = true
					}
				}
			}
		}
	}
	// tandem, triple, dual
	for i := range s.t {
		n, ok := groups[s.word(i)]
		if !ok {
			continue
		}
		j, rated, plural := i+1, false, false
		for j < min(i+8, len(s.t)) {
			if k := s.quantityAt(j); k >= 0 {
				r := &s.qs[k]
				if rated || r.used || r.unit == inches || r.unit == feet || r.unit == foreign {
					break
				}
				rated, plural = true, r.plural
				j = r.to
				if plural {
					if v, _, ok := r.weight(); ok && inWindow(AxleRating, v) {
						r.used = true
						s.emit(r.from, r.to, Candidate{Role: AxleRating, Value: measure.Pounds(v), UnitInferred: true, Count: n, Confidence: 0.9})
					}
					break
				}
				continue
			}
			if !adjectives[s.word(j)] && !s.is(j, "axle", "axles", "jack", "jacks") {
				break
			}
			if c, to, ok := s.thingAt(j); ok && (c.role == AxleCount || c.role == JackCount && n == 2) {
				tell(i, to, c, n, 0.92)
				break
			}
			j++
		}
		if plural {
			tell(i, i+1, countedThings[0], n, 0.92)
		}
	}
}

func (s *sentence) nounBefore(i int) (counted, int, bool) {
	for k := i - 1; k >= max(0, i-2); k-- {
		if c, to, ok := s.thingAt(k); ok && to == i {
			return c, k, true
		}
	}
	return counted{}, 0, false
}

// ofThem finds the count that stands behind: "seven k axles, two of 'em". It counts what
// was last given a rating.
func (s *sentence) ofThem() {
	for i := range s.qs {
		q := &s.qs[i]
		n, ok := q.whole()
		if q.used || !ok || q.rejected != "" || q.unit != bare || !s.is(q.to, "of") || !s.is(q.to+1, "them", "em", "those", "these") {
			continue
		}
		for k := len(s.out) - 1; k >= 0; k-- {
			c := &s.out[k]
			if c.Offset > s.t[q.from].from {
				continue
			}
			if c.Role == AxleRating && n <= 4 {
				c.Count = n
				q.used = true
				s.emit(q.from, q.to+2, Candidate{Role: AxleCount, Value: Count(n), Confidence: 0.85})
			}
			break
		}
	}
	// A rating knows the count that was said in front of it.
	for i := range s.out {
		for k := range s.out {
			c, n := &s.out[i], &s.out[k]
			if c.Count == 0 && (c.Role == AxleRating && n.Role == AxleCount || c.Role == JackRating && n.Role == JackCount || c.Role == DRingRating && n.Role == DRings) {
				c.Count = int(n.Value.(Count))
			}
		}
	}
}

// years finds the model year: "a twenty twenty-six", "2026 model".
func (s *sentence) years() {
	for i := range s.qs {
		q := &s.qs[i]
		if q.used || q.rejected != "" || q.unit != bare {
			continue
		}
		var y float64
		switch {
		case q.single() && !q.broken && q.amount >= 1980 && q.amount <= 2040:
			y = q.amount
		case len(q.parts) == 2 && q.parts[0] == 20 && q.parts[1] >= 10 && q.parts[1] <= 40:
			y = 2000 + q.parts[1]
		case len(q.parts) == 2 && q.parts[0] == 19 && q.parts[1] >= 80:
			y = 1900 + q.parts[1]
		case len(q.parts) == 3 && q.parts[0] == 20 && q.parts[1] == 0 && q.parts[2] < 10:
			y = 2000 + q.parts[2]
		default:
			continue
		}
		near := false
		for k := max(0, q.from-4); k < min(q.to+2, len(s.t)); k++ {
			near = near || s.is(k, "year", "yr", "model")
		}
		if !near && !s.is(q.from-1, "a", "an", "new") {
			continue
		}
		if _, d, ok := s.nearest(q.from, q.to, func(c cue) bool { return c.money != "" || c.weight != "" }); ok && d < 2 && !near {
			continue
		}
		q.used = true
		s.emit(q.from, q.to, Candidate{Role: ModelYear, Value: Year(y), Confidence: 0.93})
	}
}

// pairs joins quantities: N by N, N plus N, N to N.
func (s *sentence) pairs() {
	for i := 0; i+1 < len(s.qs); i++ {
		q, r := &s.qs[i], &s.qs[i+1]
		if q.used || r.used || q.rejected != "" || r.rejected != "" || r.from <= q.to-1 {
			continue
		}
		gap := s.t[q.to:min(r.from, len(s.t))]
		var words []string
		for _, t := range gap {
			words = append(words, t.text)
		}
		switch strings.Join(words, " ") {
		case "by", "x", "wide by", "by a", "long by", "wide x", "wide and", "w x":
			s.dims(q, r)
		case "plus", "plus a", "plus an":
			s.sum(q, r)
		case "to", "or", "to about", "and":
			between := s.is(q.from-1, "between")
			if words[0] == "and" && !between || q.unit != bare && r.unit != bare && q.unit != r.unit {
				continue
			}
			if words[0] == "to" && q.compare == UpTo {
				continue
			}
			// The scale and the unit may be said once for both: ten to twelve thousand.
			if q.unit == bare {
				q.unit = r.unit
			}
			if r.unit == bare {
				r.unit = q.unit
			}
			if q.single() && r.single() && !q.scaled && r.scaled && q.amount < 100 {
				low := *q
				switch {
				case r.amount >= 1000 && q.amount*1000 <= r.amount:
					low.amount *= 1000
				case r.amount < 10000 && math.Mod(r.amount, 100) == 0 && q.amount*100 <= r.amount:
					low.amount *= 100
				}
				low.parts, low.scaled = []float64{low.amount}, true
				*q = low
			}
			a, ok1 := q.together()
			b, ok2 := r.together()
			if !ok1 || !ok2 || a > b {
				continue
			}
			if between {
				q.head = q.from - 1
			}
			high := *r
			q.high = &high
			r.used = true
		}
	}
}

// dims is "eighty-three by eighteen": width and length of the part named nearest.
func (s *sentence) dims(q, r *quantity) {
	if s.t[max(0, q.from-1)].text == "by" || !q.single() || !r.single() {
		return
	}
	end := r.to
	p, d, ok := s.nearest(q.from, end, func(c cue) bool { return c.part != noPart && c.part != axlePart || c.other })
	of := deckPart
	if ok && d < 6 {
		of = p.cue.part
	}
	if of == otherPart {
		q.used, r.used = true, true
		return
	}
	width, length := DeckWidth, DeckLength
	switch of {
	case rampPart:
		width, length = RampWidth, RampLength
	case bedPart:
		width, length = BedWidth, BedLength
	case boxPart:
		width, length = BoxWidth, BoxLength
	}
	w, l := q, r
	if of == rampPart && q.unit != inches || q.unit == feet && r.unit == inches || q.unit == bare && r.unit == inches && r.amount >= 48 && q.amount < 54 || q.unit == feet && r.unit == feet && r.amount < q.amount ||
		q.unit == bare && r.unit == bare && r.amount <= 8.5 && q.amount > 8.5 && q.amount < 48 {
		w, l = r, q
	}
	lv := *l
	if l.unit == bare && w.unit == inches && l.amount <= 53 || l.unit == bare {
		lv.unit = feet
		if of == rampPart && l.amount > 14 {
			lv.unit = inches
		}
	}
	wv, wInferred, ok1 := s.value(w, width, inches)
	ll, lInferred, ok2 := s.value(&lv, length, inches)
	if !ok1 || !ok2 {
		if q.unit == bare && r.unit == bare {
			q.used, r.used = true, true
		}
		return
	}
	q.used, r.used = true, true
	conf := 0.9
	if w.unit == bare && l.unit == bare {
		conf = 0.82
	}
	s.emit(w.from, w.to, Candidate{Role: width, Value: wv, UnitInferred: wInferred, Confidence: conf})
	s.emit(l.from, l.to, Candidate{Role: length, Value: ll, UnitInferred: lInferred || l.unit == bare, Confidence: conf})
}

// sum is "twenty plus eight": the flat and the tail. Where each has its noun the general
// rule finds them; this is for the bare form.
func (s *sentence) sum(q, r *quantity) {
	if !q.single() || !r.single() || q.scaled || r.scaled || q.unit != feet && q.unit != bare || r.unit != feet && r.unit != bare {
		return
	}
	a, b := *q, *r
	a.unit, b.unit = feet, feet
	flat, _, ok1 := s.value(&a, DeckFlat, inches)
	tail, _, ok2 := s.value(&b, DeckTail, inches)
	if !ok1 || !ok2 {
		return
	}
	if _, d, ok := s.nearest(q.from, r.to, func(c cue) bool { return c.other }); ok && d < 2 {
		return
	}
	q.used, r.used = true, true
	s.emit(q.from, q.to, Candidate{Role: DeckFlat, Value: flat, UnitInferred: q.unit == bare, Confidence: 0.85})
	s.emit(r.from, r.to, Candidate{Role: DeckTail, Value: tail, UnitInferred: r.unit == bare, Confidence: 0.85})
}
