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
