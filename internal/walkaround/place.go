package walkaround

import (
	"math"
	"slices"

	"tarepage/internal/measure"
)

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
	if noun, known := s.ofWhat(q); noun && !known {
		if v := q.byItself(); v != nil {
			s.emit(q.head, q.to, Candidate{Value: v, Doubt: "of " + s.word(q.to) + ", which has no key here", Compare: q.compare})
		}
		return
	}
	if s.strange(q) {
		if v := q.byItself(); v != nil {
			s.emit(q.head, q.to, Candidate{Value: v, Doubt: "of something that has no key here", Compare: q.compare})
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
		if best.role == AxleRating || best.role == GVWR || best.role == HitchRating {
			ok = false // a plate has one number: captions make "to" of "two"
		}
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
	plural := s.pluralSubject(q)
	_, named := s.ofWhat(q)
	try := func(r Role, dim unit, cost float64) {
		if r == "" {
			return
		}
		if each := s.is(q.to, "each", "apiece"); q.rejected == "" && !(singular[r] && (plural || each)) {
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
		if c.cue.verb && c.from > 0 && c.cue.weight == Payload && s.is(c.from-1, "axles", "axle") {
			try(AxleRating, pounds, d)
			continue
		}
		if c.cue.verb && c.from >= 0 && (s.is(c.from-1, "they", "they'll", "these", "those", "each") || s.is(q.to, "each", "apiece") || s.is(q.to, "a") && s.is(q.to+1, "piece")) && q.unit != inches && q.unit != feet && q.unit != psi {
			out = append(out, reading{other: true, cost: d})
			continue
		}
		if c.cue.verb && (named && q.unit != inches && q.unit != feet || c.cue.weight == Payload && !s.able(c)) {
			continue
		}
		if c.cue.weight == TongueEmpty && s.ofLimit(q) {
			out = append(out, reading{other: true, cost: d})
			continue
		}
		if c.cue.weight == Empty && c.from >= q.to && s.tongueBefore(q) {
			continue // "tongue weighs about nine hundred pounds with nothing on it"
		}
		if c.cue.weight == Empty && (s.onTongue(c, q) || s.is(q.to, "loaded") || s.is(q.to, "fully") && s.is(q.to+1, "loaded") || s.is(0, "loaded") && !s.has("empty")) {
			continue
		}
		if at := c.from - 1; c.cue.verb && c.from > 1 && (s.is(at, "it", "it'll") && s.standsForAnother(at) || s.is(at, "only", "just", "probably", "about") && s.is(at-1, "it") && s.standsForAnother(at-1)) {
			out = append(out, reading{other: true, cost: d})
			continue
		}
		if c.cue.verb && c.from > 0 && s.unknown(c.from-1) && q.unit != inches && q.unit != feet && q.unit != psi {
			out = append(out, reading{other: true, cost: d})
			continue
		}
		if c.cue.verb {
			if p, ok := s.subject(c); ok && q.unit != inches && q.unit != feet && q.unit != psi {
				if p.other || c.cue.weight != Payload || p.weight == "" {
					out = append(out, reading{other: true, cost: d})
				} else {
					try(p.weight, pounds, d)
				}
				continue
			}
		}
		if c.cue.weight == GVWR && s.is(c.from, "tagged", "plated") {
			if p, ok := s.subject(c); ok {
				try(p.weight, pounds, d) // "axles are tagged seven thousand each"
				continue
			}
		}
		if c.cue.scale && s.is(c.from-1, "tongue", "pin") {
			try(TongueEmpty, pounds, d) // "tongue comes in at four-sixty"
			continue
		}
		if c.cue.bare && !s.has("empty", "nothing", "unloaded") {
			c.cue.weight = ""
		}
		if k := s.quantityAt(c.to); c.cue.money != "" && k >= 0 && &s.qs[k] != q {
			if noun, _ := s.ofWhat(&s.qs[k]); noun {
				continue // "we're at eleven hundred subscribers"
			}
		}
		if c.cue.money != "" && s.is(c.from, "going") && s.is(c.from-1, "we're", "i'm", "they're", "he") {
			continue // who goes for a number is no trailer
		}
		if c.cue.money != "" && s.is(c.from, "sticker") && c.to == c.from+1 && q.unit != dollars {
			continue // the label is a sticker too
		}
		if c.cue.plate && (s.ratedPart(q) != "" || s.onPart(c) || len(s.topic) > 0 && s.topic[0].verb) {
			continue
		}
		if c.cue.scale && !s.has("weighed", "weigh", "scale", "scales", "scaled") {
			continue
		}
		if c.cue.weight == Payload && s.is(c.to-1, "capacity") {
			if p, ok := s.capacityOf(c); ok {
				if p.other {
					out = append(out, reading{other: true, cost: d})
				} else {
					try(p.weight, pounds, d)
				}
				continue
			}
		}
		switch {
		case c.cue.otherLength && (q.unit == inches || q.unit == feet):
			out = append(out, reading{other: true, cost: d})
		case c.cue.other:
			if s.is(c.from, "spring") && !s.t[c.from].possessive && !s.is(c.to, "is", "rated") {
				continue // an axle on springs
			}
			if s.is(c.from, "down") && (c.from != q.to || q.unit != dollars && q.unit != bare) {
				continue
			}
			if q.unit != psi && !(q.unit == dollars && s.is(c.from, "title", "tax")) {
				out = append(out, reading{other: true, cost: d})
			}
		case c.cue.attr != none:
			if q.unit == bare && s.is(q.to, "of") && s.is(q.to+1, "those", "them", "em", "these") {
				continue // they are counted
			}
			if q.unit == bare && (d > nearBare+1 || c.to <= q.from && s.is(c.to-1, "wide", "long", "across", "tall", "high")) {
				continue // "two inches wide, six leaves"
			}
			if c.from == q.to && s.ofThing(c.to) {
				out = append(out, reading{other: true, cost: d})
				continue
			}
			try(s.attributeRole(c, q), inches, d)
		default:
			if c.cue.weight == GVWR && s.bareThousands(c, q, d) {
				thousands := *q
				thousands.amount *= 1000
				thousands.parts, thousands.scaled = []float64{thousands.amount}, true
				if v, _, ok := s.value(&thousands, GVWR, pounds); ok {
					out = append(out, reading{role: GVWR, value: v, inferred: true, cost: d, dim: pounds})
				}
			}
			try(c.cue.weight, pounds, d)
			try(c.cue.money, dollars, d)
			if (q.unit != bare || d < 3) && !(q.unit == bare && (q.broken || s.is(q.to, "tires", "tire"))) {
				try(c.cue.pressure, psi, d)
			}
			r := c.cue.length
			if r == DeckLength && c.cue.part == deckPart {
				r = s.deckRole(c, q)
			}
			if r == BedHeight && !s.has("dump", "bed") && !s.onDump() && s.holds != bedPart {
				r = ""
			}
			if r == DeckFlat && q.unit == bare && s.has("plug", "pin", "prong", "blade") {
				r = ""
			}
			if r == RampLength && q.unit == inches && q.amount < 36 {
				r = ""
			}
			if q.unit == bare && r == Ball && !q.broken && q.amount != 2 {
				r = "" // a three point hitch
			}
			if q.unit == bare && (r == RampLength && q.amount < 4 || s.is(q.to, "of") && r != DeckFlat && r != DeckTail) {
				r = "" // "ramps, two"; "there's eight of them"
			}
			if r == "" && c.cue.length == RampLength && q.unit == inches && q.amount >= 10 && q.amount < 36 && c.from >= q.to && d < 3 {
				r = RampWidth // "fourteen inch slide-in ramps"
			}
			if q.unit == bare && (r == DeckFlat && c.to <= q.from || (r == RampLength || r == BedLength || r == BoxLength) && c.from >= q.to) {
				r = "" // a flat four plug; two ramps
			}
			if q.unit == bare && (r == DeckLength && c.cue.weak > 0 || d > nearBare || s.placeBetween(c, q) && !(r == DeckTail && s.saysRole(DeckFlat))) && r != Ball {
				r = "" // "crossmembers on sixteen, twelve in the tail"
			}
			try(r, inches, d)
		}
	}
	if q.unit == psi {
		try(Pressure, psi, 3)
	}
	if s.is(q.to, "each", "apiece") || s.is(q.to, "a") && s.is(q.to+1, "piece") {
		if r := s.ratedEach(q); r != "" {
			try(r, pounds, 4)
		}
	}
	if (q.unit == bare || q.unit == inches) && q.single() && s.is(q.from-1, "on", "every") && s.crossBefore(q.from-1) && (q.to == len(s.t) || s.t[q.to].kind == comma || s.is(q.to, "and", "all")) {
		try(CrossSpacing, inches, 1) // "crossmembers on sixteen"
	}
	if q.unit == bare && q.single() && q.broken && q.amount == 2.3125 && !slices.ContainsFunc(out, func(r reading) bool { return r.other && r.cost < 3 }) {
		try(Ball, inches, 4) // nothing else on a trailer is two and five sixteenths
	}
	if n, ok := q.hundreds(); ok && q.unit == bare && n >= 35 && s.afterTire(q) {
		try(Pressure, psi, 3.5) // "load range g, one ten"
	}
	if q.unit == pounds && (s.is(q.head-1, "at", "to") || s.t[max(0, q.head-1)].kind == comma) && s.tireNear(q) {
		try(Pressure, psi, 4)
	}
	if q.unit == bare && q.single() && q.to == len(s.t) && s.is(q.from-1, "a") && slices.ContainsFunc(s.qs, func(r quantity) bool { return r.unit == feet && r.rejected != "" && r.from < q.from }) {
		try(DeckLength, inches, 4) // "that one's a twenty-four footer but this one's a twenty"
	}
	if q.unit == feet && q.single() && q.amount >= 10 && s.is(q.head-1, "a", "an") && s.is(q.head-2, "it", "this", "is", "one", "she", "this'n") && (q.to == len(s.t) || s.t[q.to].kind == comma || s.is(q.to, "with", "and", "it", "so", "tandem", "single")) {
		try(DeckLength, inches, 3) // "it's a twenty-five foot with wide ramps"
	}
	if q.unit == dollars && q.compare == Equal && s.is(q.to, "trailer", "unit") {
		try(Price, dollars, 1)
	}
	if q.unit == dollars && q.compare == Equal && s.is(q.head-1, "just", "only") && s.is(q.head-2, "is", "trailer", "it", "one", "unit") {
		try(Price, dollars, 2)
	}
	if r := s.ratedPart(q); r != "" {
		cost := 5.0
		if s.is(q.head-1, "stamped") || s.is(q.head-1, "at", "for") && s.is(q.head-2, "stamped") {
			cost = 1 // "two and five sixteenths stamped fifteen thousand pounds safety chains ..."
		}
		try(r, pounds, cost)
	}
	if q.unit == dollars && q.compare == Equal && (s.is(q.head-1, "it", "one", "this", "here") || s.is(q.head-1, "is") && s.is(q.head-2, "one", "this", "it", "trailer", "unit", "that")) {
		try(Price, dollars, 2)
	}
	if q.unit == dollars && q.compare == Equal && (s.is(q.to, "firm", "obo") || s.t[min(q.to, len(s.t)-1)].kind == comma && s.is(q.to+1, "firm", "obo")) {
		try(Price, dollars, 2)
	}
	if q.unit == dollars && s.bidAlone(q) {
		try(Price, dollars, 3)
	}
	if s.is(q.to-1, "footer", "footers") {
		if s.hasPart(rampPart) {
			try(RampLength, inches, 0.3)
		} else if s.is(q.to-1, "footer") {
			try(DeckLength, inches, 0.3)
		}
	}
	if q.unit == inches && q.amount >= 12 && s.is(q.to, "crossmember", "crossmembers") || q.unit == inches && q.amount >= 12 && s.is(q.to, "cross") && s.is(q.to+1, "members", "member") {
		try(CrossSpacing, inches, 0.5) // "sixteen-inch crossmembers": too much for a depth
	}
	if q.unit == feet && q.single() && q.amount >= 12 && s.is(q.to, "with") && s.tailAfter(q.to) {
		try(DeckLength, inches, 3) // "thirty-two feet with a ten-foot dovetail"
	}
	if s.ofTrailer(q) {
		try(GVWR, pounds, 0.1)
	}
	if q.scaled && q.single() && q.unit == bare && s.is(q.to-1, "k") && q.from >= 2 && s.t[q.from-1].kind == comma && sorts[s.word(q.from-2)] && (q.to == len(s.t) || s.t[q.to].kind == comma) {
		try(GVWR, pounds, 2) // "a tandem dump, fourteen K, seven by fourteen"
	}
	if s.holds == boxPart && (q.unit == inches || q.unit == feet) && (s.is(q.to, "inside", "interior") || s.is(q.to, "even") && s.is(q.to+1, "inside")) && !s.is(q.to+1, "width", "length") {
		try(BoxHeight, inches, 0.5) // "six foot six inside" is how tall: common practice, no source
	}
	if s.is(q.to-1, "pounders") && s.pounders(q.from) {
		try(AxleRating, pounds, -0.1) // "two axles ... and they're eight thousand pounders"
	}
	if q.scaled && q.single() && s.is(q.from-1, "our") && (q.to == len(s.t) || s.t[q.to].kind == comma || s.is(q.to, "it", "and", "with", "this")) {
		try(GVWR, pounds, 2) // "this is our 14k"
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

// pounders reports that of the parts that have ratings the axles were named last before token i.
func (s *sentence) pounders(i int) bool {
	var last placed
	for _, c := range s.cues {
		if c.to <= i && c.from >= last.from && c.cue.rated() {
			last = c
		}
	}
	return last.cue.part == axlePart
}

// crossBefore reports whether the crossmembers end right before token i, but for an
// auxiliary.
func (s *sentence) crossBefore(i int) bool {
	for i > 0 && s.is(i-1, "is", "are", "set", "spaced", "sit") {
		i--
	}
	for _, c := range s.cues {
		if c.to == i && c.cue.part == crossPart {
			return true
		}
	}
	return false
}

// afterTire reports whether q ends a list of what the tires are, right behind one of it.
func (s *sentence) afterTire(q *quantity) bool {
	if q.to != len(s.t) && s.t[q.to].kind != comma {
		return false
	}
	k := q.from
	for k > 0 && (s.t[k-1].kind == comma || s.is(k-1, "at", "and")) {
		k--
	}
	return k > 0 && slices.ContainsFunc(s.out, func(c Candidate) bool {
		return (c.Role == LoadRange || c.Role == Ply) && c.Offset+len(c.Quote) == s.t[k-1].to
	})
}

// ratedEach is the rating of the one thing that was counted before q: "eight d-rings, three
// quarter inch, rated six thousand each".
func (s *sentence) ratedEach(q *quantity) Role {
	var r Role
	for _, c := range s.out {
		for _, t := range countedThings {
			if c.Role == t.role && t.rating != "" && c.Offset < s.t[q.from].from {
				if r != "" && r != t.rating {
					return ""
				}
				r = t.rating
			}
		}
	}
	return r
}

// tireNear reports that a size, load range or ply was said shortly before q.
func (s *sentence) tireNear(q *quantity) bool {
	from := s.t[max(0, q.from-10)].from
	return slices.ContainsFunc(s.out, func(c Candidate) bool {
		return (c.Role == TireSize || c.Role == LoadRange || c.Role == Ply) && c.Offset+len(c.Quote) >= from && c.Offset < s.t[q.from].from
	})
}

// singular are the roles of what there is one of: "those are sixty inches wide" is of
// something else.
var singular = map[Role]bool{GVWR: true, Empty: true, Payload: true, DeckWidth: true, DeckLength: true, DeckHeight: true, BedWidth: true,
	BedLength: true, BoxWidth: true, BoxLength: true, BoxHeight: true}

// pluralSubject reports that q is said of "they", "those", "these".
func (s *sentence) pluralSubject(q *quantity) bool {
	for i := q.from - 1; i >= max(0, q.from-7); i-- {
		switch {
		case s.is(i, "they're"), s.is(i, "they", "those", "these") && s.is(i+1, "are", "weigh", "run", "measure", "were"):
			return true
		case s.is(i, "it", "she", "this", "that", "you", "we", "i"), s.t[i].kind == comma && !s.is(i-1, "are"):
			return false
		}
		for _, c := range s.cues {
			if c.to == i+1 && c.cue.part != noPart {
				return false
			}
		}
	}
	return false
}

// ratedPart is the part whose plate q is read from: "the coupler takes a ..., and the plate
// on it reads twenty thousand". What was named last counts, and not far off.
func (s *sentence) ratedPart(q *quantity) Role {
	rated := -1
	for i := q.head - 1; i >= max(0, q.head-5); i-- {
		if s.is(i, "rated", "plate", "stamped", "rating") {
			rated = i
		}
	}
	if rated < 0 {
		return ""
	}
	var last placed
	for _, c := range s.cues {
		if c.to <= rated && c.to > rated-14 && c.from >= last.from && (c.cue.other || c.cue.part != noPart) {
			last = c
		}
	}
	switch last.cue.weight {
	case HitchRating, JackRating, AxleRating, DRingRating:
		return last.cue.weight
	}
	return ""
}

// onPart reports a part with a rating named shortly before a plate is read: "the coupler takes a
// two and five sixteenths and the plate says".
func (s *sentence) onPart(plate placed) bool {
	for _, c := range s.cues {
		if c.to <= plate.from && c.to > plate.from-10 && c.cue.rated() {
			return true
		}
	}
	return false
}

// tailAfter reports a tail named soon behind token i.
func (s *sentence) tailAfter(i int) bool {
	for _, c := range s.cues {
		if c.cue.part == tailPart && c.from > i && c.from < i+8 {
			return true
		}
	}
	return false
}

// onDump reports that the sentence before was about a dump body.
func (s *sentence) onDump() bool {
	return slices.ContainsFunc(s.topic, func(c cue) bool { return c.length == BedLength })
}

// bidAlone reports a sentence that is nothing but an amount: "$11,900", "just six thousand
// dollars", "$10,450 (was $11,200)".
func (s *sentence) bidAlone(q *quantity) bool {
	for i := range s.qs {
		if r := &s.qs[i]; r != q && r.rejected == "" && !r.used {
			return false
		}
	}
	return (q.head == 0 || q.head == 1 && s.is(0, "just", "only", "now")) && (q.to == len(s.t) || len(s.qs) > 1 && s.t[q.to].kind == comma)
}

// nearBare is how far a part may be from a length without its unit.
const nearBare = 4.5

// placeBetween reports "twelve in the tail": where something is, not how long that is.
func (s *sentence) placeBetween(c placed, q *quantity) bool {
	from, to := q.to, c.from
	if c.to <= q.from {
		from, to = c.to, q.from
	}
	for i := from; i < to; i++ {
		if s.is(i, "in", "on", "at", "for", "under", "behind", "near") && s.is(i+1, "the", "each", "both", "that", "this", "your") {
			return true
		}
	}
	return false
}

// bareThousands reports "the GVWR is fourteen": at the rating itself nobody says thousand.
func (s *sentence) bareThousands(c placed, q *quantity, d float64) bool {
	return q.unit == bare && q.single() && !q.scaled && !q.broken && d <= 1 && c.to <= q.from && q.amount >= 7 && q.amount <= 40 && !q.plural && q.compare == Equal && q.high == nil &&
		(q.to == len(s.t) || s.t[q.to].kind == comma || s.is(q.to, "and", "so", "with", "but"))
}

// standsForAnother reports that "it" at token i is what was named just before and is not the
// trailer: "my pickup's a one-ton, and it weighs", "this is a ramp door, and it'll hold".
func (s *sentence) standsForAnother(i int) bool {
	for k := i - 1; k > max(0, i-12) && !s.is(k, "trailer", "this", "she", "deck"); k-- {
		if s.is(k, "pickup", "truck", "dually", "van") && owned.whose[s.word(k-1)] ||
			s.is(k, "car", "machine", "tractor", "mower", "skid", "excavator", "sweeper", "boat", "loader") && s.is(k-1, "the", "my", "his", "that") && (s.is(k+1, "that", "i", "we", "is") || s.t[k].possessive) ||
			s.is(k, "ramp", "gate") && s.is(k-1, "a", "the") && (s.is(k-2, "is") || s.is(k-2, "here", "this", "that") && s.t[k-2].possessive) {
			return true
		}
	}
	return false
}

// subject is the part that a verb is said of: "the ramps hold ten thousand", "the machine
// on it weighs". A new subject in between, "it", "she", ends the search.
func (s *sentence) subject(verb placed) (cue, bool) {
	first := verb.from - 1
	for s.is(first, "and", "will", "can", "they'll", "also", "that", "that'll", "which") {
		first-- // "the ramps are eight foot long and hold twenty thousand"
	}
	joined := s.is(verb.from-1, "and") || s.is(verb.from-2, "and") && s.is(verb.from-1, "will", "can", "also")
	if joined {
		return s.clauseSubject(first)
	}
	for i := verb.from - 1; i >= max(0, verb.from-7); i-- {
		if s.is(i, "it", "this") && s.is(i-1, "on", "in", "behind", "with", "under") {
			if i == verb.from-1 && s.is(i-2, "was", "is", "sits", "sat", "that's", "rode") {
				return cue{other: true}, true // "the sander that was on it weighed"
			}
			continue // "the machine on it weighs"
		}
		if s.t[i].kind == comma || s.is(i, "it", "she", "this", "he", "and", "but", "so", "they", "you", "i", "we", "with", "that'll") || s.quantityAt(i) >= 0 {
			return cue{}, false
		}
		for _, c := range s.cues {
			if c.to != i+1 {
				continue
			}
			if c.cue.other || c.cue.part != noPart && c.cue.part != deckPart && c.cue.part != bedPart && c.cue.part != boxPart {
				return c.cue, true
			}
			return cue{}, false
		}
	}
	return cue{}, false
}

// clauseSubject is the first part of the clause that ends with token i: what verbs joined by
// "and" are said of.
func (s *sentence) clauseSubject(i int) (c cue, ok bool) {
	for k := i; k >= max(0, i-14); k-- {
		for _, p := range s.cues {
			if p.to == k+1 && p.from >= 0 {
				c, ok = p.cue, p.cue.other || p.cue.part != noPart && p.cue.part != deckPart && p.cue.part != bedPart && p.cue.part != boxPart
			}
		}
		if s.is(k, "it", "she", "this") && s.clause(k) {
			return cue{}, false
		}
		if s.t[k].kind == comma || s.clause(k) {
			break
		}
	}
	return c, ok
}

// able reports that a verb of carrying is said of what the trailer can: "it holds", "you
// can put", "she'll tote"; not of what somebody did: "we put a jack on it".
func (s *sentence) able(verb placed) bool {
	if verb.from < 0 || !s.is(verb.to-1, "put", "hold", "carry", "haul", "tote") {
		return true
	}
	for k := verb.from - 1; k >= max(0, verb.from-3); k-- {
		switch {
		case s.is(k, "can", "will", "to", "could", "you", "it'll", "she'll", "you'll", "that'll", "she", "it", "does", "should", "trailer", "deck", "legally", "gonna", "would", "wouldn't", "won't", "don't", "didn't"):
			return true
		case s.is(k, "we", "i", "they", "he"):
			return false
		}
	}
	return verb.from == 0 || s.t[verb.from-1].kind == comma
}

// ofThing reports that another part or an unknown thing stands right at token i, so that a
// direction in front of it is of that: "a four foot wide walk door".
func (s *sentence) ofThing(i int) bool {
	for k := i; k < min(i+3, len(s.t)); k++ {
		w := s.word(k)
		for _, c := range s.cues {
			if c.from == k {
				return c.cue.other
			}
		}
		if w == "" || standing[w] || fillers[w] || adjectives[w] || described[w] || sorts[w] || sortsOfPart[w] || groups[w] > 0 || selves[w] || s.quantityAt(k) >= 0 {
			return false
		}
		if k > i && s.is(k-1, "storage", "walk", "entry", "access", "cargo", "walkway") {
			return true
		}
	}
	return false
}

// ofLimit reports a weight that is what something is good for, not what it weighs: "rated for
// a fifteen hundred pound tongue load".
func (s *sentence) ofLimit(q *quantity) bool {
	for k := max(0, q.head-4); k < min(q.to+4, len(s.t)); k++ {
		if s.is(k, "rated", "max", "maximum", "limit", "limited") || s.is(k, "good") && s.is(k+1, "for") {
			return true
		}
	}
	return false
}

// onTongue reports "tongue weight on it empty was": how the trailer stood when its tongue was
// weighed.
func (s *sentence) onTongue(empty placed, q *quantity) bool {
	for _, c := range s.cues {
		if c.cue.weight == TongueEmpty && c.to <= empty.from && empty.from-c.to <= 4 && empty.to <= q.from {
			for i := c.to; i < empty.from; i++ {
				set := s.t[i].kind == comma && s.is(empty.from, "empty") && empty.to == empty.from+1 && s.t[min(empty.to, len(s.t)-1)].kind == comma
				if s.t[i].kind != word && !set || s.quantityAt(i) >= 0 || s.is(i, "and", "is", "but") {
					return false
				}
			}
			return true
		}
	}
	return false
}

// tongueBefore reports that the tongue is what is weighed, within six words in front of q.
func (s *sentence) tongueBefore(q *quantity) bool {
	for _, c := range s.cues {
		if c.cue.weight == TongueEmpty && c.to <= q.from && q.from-c.to <= 6 {
			return true
		}
	}
	return false
}

// capacityOf is the part whose capacity is spoken of: "a coupler with a capacity of".
func (s *sentence) capacityOf(c placed) (cue, bool) {
	if s.is(c.from-1, "lift", "lifting", "dump", "hoist", "winch", "tank", "fuel", "crane", "towing", "tow", "seating", "heap", "heaped") {
		return cue{other: true}, true
	}
	if s.is(c.to, "of", "on", "for") && (s.unknown(c.to+2) || s.is(c.to+1, "that", "the", "my") && things[s.word(c.to+2)]) {
		return cue{other: true}, true // "the capacity on that gantry"
	}
	if s.is(c.to, "of") {
		for k := c.to + 1; k < min(c.to+4, len(s.t)); k++ {
			for _, p := range s.cues {
				if p.from == k && (p.cue.other || p.cue.weight != "" && p.cue.part != noPart) {
					return p.cue, true
				}
			}
		}
	}
	for i := c.from - 1; i >= max(0, c.from-5); i-- {
		for _, p := range s.cues {
			if p.to != i+1 {
				continue
			}
			if p.cue.other || p.cue.weight != "" && p.cue.part != noPart {
				return p.cue, true
			}
			if p.cue.part == rampPart || p.cue.part == tailPart {
				return cue{other: true}, true
			}
		}
		if s.t[i].kind == comma || s.is(i, "it", "and", "so") || s.quantityAt(i) >= 0 {
			break
		}
	}
	return cue{}, false
}

// sorts are the words for what sort of trailer it is; a weight right in front of them is
// the GVWR, which is how the trade names sizes (common practice, no source). Those of
// described may stand between.
var (
	sorts     = set("model trailer equipment utility dump tilt gooseneck flatbed hauler deckover deck over lowboy hotshot tiltbed carhauler")
	described = set("car deck over bumper pull low pro tandem single enclosed cargo pound pounds lb lbs hydraulic dually dual full power gravity landscape axle profile series heavy duty super")
	// parted are the words that make the weight a part's after all.
	parted = set(`coupler hitch jack jacks neck ball beam beams frame axles ramp ramps ring rings tires tire tongue chain chains spring springs
		brakes winch payload capacity load height width length plate pin setup`)
)

// ofTrailer reports "a fourteen k equipment trailer", "twenty-four nine gooseneck".
func (s *sentence) ofTrailer(q *quantity) bool {
	if q.single() && s.t[q.from].kind == number && q.unit == bare && q.amount >= 1980 && q.amount <= 2040 {
		return false // "a 2021 tandem axle dump trailer"
	}
	paired := len(q.parts) == 2 && q.parts[0] >= 5 && q.parts[1] > 0 && q.parts[1] < 10
	if !q.scaled && !paired && !(q.single() && q.broken && s.is(q.to, "gooseneck", "equipment", "dump", "tilt") && q.unit == bare && q.amount >= 7) || q.unit != bare && q.unit != pounds {
		return false
	}
	if groups[s.word(q.from-1)] > 0 || s.is(q.from-1, "on", "at") {
		return false
	}
	sort := false
	k := q.to
	for ; k < min(q.to+6, len(s.t)); k++ {
		if sorts[s.word(k)] && !(s.is(k, "deck", "over") && !s.is(k+1, "over") && !s.is(k-1, "deck")) {
			sort = true
			continue
		}
		if !described[s.word(k)] {
			break
		}
	}
	if s.quantityAt(k) >= 0 && s.qs[s.quantityAt(k)].from == k && s.is(k-1, "tandem", "single") {
		return false
	}
	return sort && !parted[s.word(k)] && !s.is(k-1, "axle", "pound", "single", "tandem")
}

// deckRole tells a deck's length from its width and height by the unit: decks are as
// long as feet, as wide as 48 to 102 inches, as high as less than that.
func (s *sentence) deckRole(c placed, q *quantity) Role {
	if q.unit == inches && q.amount < 48 && c.to <= q.from && s.is(q.to, "up") {
		return DeckHeight
	}
	if c.to <= q.from && (q.unit == bare || q.unit == inches) && q.amount < 48 {
		for k := c.from - 1; k >= max(1, c.from-6) && s.quantityAt(k) < 0; k-- {
			if s.is(k, "height") && s.is(k-1, "deck", "floor") {
				return DeckHeight // "deck height with the deck locked down"
			}
		}
	}
	if n, ok := q.hundreds(); ok && q.unit == bare && !q.single() && (n == 102 || n == 96) {
		return DeckWidth // "the deck's the full one-oh-two"
	}
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
		if c.from >= 0 && s.t[c.from].possessive {
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
	if of == otherPart && near.to <= from && s.newSubject(near.to, from) && (c.cue.attr != wide || q.unit == inches && q.amount >= 72 || q.unit == feet && q.amount >= 6) {
		of = noPart
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
	if of == noPart && c.cue.attr != every && c.cue.attr != apart && c.to == c.from+1 && s.speaksOfOther(from) {
		return "" // "straps are two inch, twenty-seven feet long"
	}
	if c.cue.attr == wide && (of == framePart || of == crossPart) {
		of = noPart
	}
	if of == noPart && c.cue.attr == wide && (q.unit == inches && q.amount < 72 || q.unit == feet && q.amount < 6) && s.otherBefore(from) {
		of = otherPart // "this is the toolbox ... it's about five feet wide"
	}
	if of == noPart && s.holds != noPart && (c.cue.attr == wide || c.cue.attr == long) && !s.hasPart(deckPart) {
		of = s.holds
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
		case framePart, crossPart:
			if near.to <= from && !s.newSubject(near.to, from) && d < 3 {
				return "" // "the beam is eighteen feet long"
			}
		}
		return DeckLength
	case tall:
		switch {
		case of == otherPart && near.to <= from && !s.is(near.from, "floor"):
			return ""
		case s.is(c.from, "deck", "loading", "off", "from"):
			return DeckHeight
		case s.is(c.from, "inside", "interior"), s.is(c.to-1, "inside"):
			return BoxHeight
		case s.holds == boxPart && s.is(c.from, "height", "tall", "high") && (q.unit == inches && q.amount >= 60 || q.unit == feet && q.amount >= 5):
			return BoxHeight
		case s.holds == noPart && s.is(c.from, "tall", "high") && s.insideBefore(from) && (q.unit == inches && q.amount >= 60 || q.unit == feet && q.amount >= 5):
			return BoxHeight // nothing else on a trailer is as tall inside
		case of == bedPart && q.unit == bare:
			return "" // "it'll hold twenty hives two high"
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
		if of == crossPart && s.is(c.from, "apart", "spaced", "set", "spacing", "center") {
			return CrossSpacing
		}
		if of == axlePart || s.is(c.from, "spread", "axle", "spacing") && of != crossPart || s.has("axle", "axles") && of != crossPart {
			return AxleSpacing
		}
		return ""
	case every:
		if of == otherPart && near.from >= to && s.crossSince(from) {
			of = crossPart
		}
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

// insideBefore reports "inside" within eight words before a place: "inside's six and a half
// foot tall".
func (s *sentence) insideBefore(at int) bool {
	for k := at - 1; k >= max(0, at-8); k-- {
		if s.is(k, "inside") {
			return true
		}
	}
	return false
}

// crossSince reports that the crossmembers are the last part named before a place.
func (s *sentence) crossSince(at int) bool {
	last := noPart
	for _, c := range s.cues {
		if c.to <= at && c.cue.part != noPart {
			last = c.cue.part
		}
	}
	return last == crossPart
}

// speaksOfOther reports that the clause before a place begins with a part that has no key
// here, and names nothing since.
func (s *sentence) speaksOfOther(at int) bool {
	var last placed
	found := false
	for _, c := range s.cues {
		if c.from >= 0 && c.to <= at && (c.cue.other || c.cue.part != noPart || c.cue.length != "") {
			last, found = c, true
		}
	}
	return found && last.cue.other && last.from <= 3 && !s.isPlace(last) && !s.is(last.from-1, "no", "with", "and") && at-last.to < 14 && !s.newSubject(last.to, at)
}

// otherBefore reports another part within some words before a place.
func (s *sentence) otherBefore(at int) bool {
	for _, c := range s.cues {
		if c.cue.other && c.to <= at && at-c.to < 16 {
			return true
		}
	}
	return false
}

// newSubject reports whether between two places the speaker turns to the trailer as a
// whole: "it's", "she is", "this one has".
func (s *sentence) newSubject(from, to int) bool {
	for i := from; i < to; i++ {
		if s.is(i, "it", "she", "this") && (s.t[i].possessive || s.is(i+1, "is", "has", "sits", "measures", "weighs", "one")) && !(s.is(i, "it") && s.justShown(i)) {
			return true
		}
	}
	return false
}

// justShown reports that "it" at token i is the thing named right before: "there's a tarp
// it's twenty feet long".
func (s *sentence) justShown(i int) bool {
	k := i - 1
	for k > 0 && (s.t[k].kind == comma || s.is(k, "and")) {
		k--
	}
	for _, c := range s.cues {
		if c.to == k+1 && c.cue.other && c.from > 0 && s.is(c.from-1, "a", "an", "that", "this", "the") && !s.is(c.from-2, "no", "with") {
			return true
		}
	}
	return false
}
