package walkaround

import (
	"math"
	"slices"
	"strings"

	"tarepage/internal/measure"
)

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
	if r.plural || q.plural {
		q.used, r.used = true, true // "two by eights", "the five-by-eights": of a kind
		return
	}
	end := r.to
	p, d, ok := s.nearest(q.from, end, func(c cue) bool { return c.part != noPart && c.part != axlePart || c.other })
	of := deckPart
	if s.holds != noPart {
		of = s.holds
	}
	with := ok && p.from >= r.to && (s.is(p.from-1, "with") || s.is(p.from-2, "with")) // "by twelve foot with the gate"
	if ok && d < 6 && !with && !(p.cue.part == otherPart && p.from > r.to && (described[s.word(r.to)] || sorts[s.word(r.to)])) {
		of = p.cue.part // and not "eighty-three by sixteen bumper pull, wood floor"
	}
	if of == otherPart && s.holds == boxPart && s.is(p.from, "v", "nose") {
		of = boxPart // "seven by fourteen V nose"
	}
	if of == bedPart && s.is(p.from, "sides") && s.holds != bedPart && !s.has("dump", "bed") && !s.onDump() {
		of = deckPart // "five by ten with the mesh sides"
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

// total finds the deck's whole length beside its flat and its tail: "twenty-five foot,
// twenty plus five". The sum tells it, whatever it is called.
func (s *sentence) total() {
	var flat, tail measure.Inches
	for _, c := range s.out {
		v, ok := c.Value.(measure.Inches)
		switch {
		case ok && c.Role == DeckFlat:
			flat = v
		case ok && c.Role == DeckTail:
			tail = v
		case c.Role == DeckLength:
			return
		}
	}
	if flat == 0 || tail == 0 {
		return
	}
	for i := range s.qs {
		q := &s.qs[i]
		if q.used || q.rejected != "" || q.unit != feet && q.unit != bare || !q.single() || q.scaled {
			continue
		}
		whole := *q
		whole.unit = feet
		if v, _, ok := s.value(&whole, DeckLength, inches); ok && v == Value(flat+tail) {
			q.used = true
			s.out = slices.DeleteFunc(s.out, func(c Candidate) bool { return c.Offset == s.t[q.head].from && c.Role == "" })
			s.emit(q.head, q.to, Candidate{Role: DeckLength, Value: v, UnitInferred: q.unit == bare, Compare: q.compare, Confidence: 0.85})
			return
		}
	}
}

// deckPlusTail mends "an eighteen-foot deck plus two feet of dovetail": the deck of such a
// sum is its flat.
func (s *sentence) deckPlusTail() {
	for i := range s.out {
		c := &s.out[i]
		if c.Role != DeckLength || slices.ContainsFunc(s.out, func(o Candidate) bool { return o.Role == DeckFlat }) {
			continue
		}
		for _, o := range s.out {
			if o.Role == DeckTail && o.Offset > c.Offset && strings.Contains(lower(s.source[c.Offset+len(c.Quote):o.Offset]), " plus") {
				c.Role = DeckFlat
			}
		}
	}
}
