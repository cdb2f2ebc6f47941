package walkaround

import (
	"strings"

	"tarepage/internal/measure"
)

// materials are what frames and crossmembers are rolled as.
func (s *sentence) material(i int) int {
	switch {
	case s.is(i, "main"):
		if n := s.material(i + 1); n > 0 {
			return n + 1
		}
	case s.is(i, "c") && s.is(i+1, "at", "channel"):
		return 1
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

// materialBefore reports whether a beam or channel is what the figure at from is said of.
func (s *sentence) materialBefore(from int) bool {
	k := from - 1
	for k >= 0 && (s.t[k].kind == comma || s.is(k, "is", "are", "a", "an", "of", "it", "here")) {
		k--
	}
	return s.is(k, "beam", "beams", "ibeam", "channel", "junior")
}

// crossAt reports whether the crossmembers are named right at q.
func (s *sentence) crossAt(q *quantity) bool {
	p, d, ok := s.nearest(q.from, q.to, func(c cue) bool { return c.part != noPart || c.attr != none || c.other })
	return ok && d < 2.5 && p.cue.part == crossPart
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
			for k < r.from && (s.t[k].kind == comma || s.is(k, "at", "a", "and", "x", "i", "want", "to", "say", "think", "believe", "about")) {
				k++
			}
			light := r.unit == poundsPerFoot || r.unit == bare && r.broken && s.is(r.from-1, "at") && s.is(j-1, "c") && r.single() && r.amount < 30 || r.unit == pounds && r.single() && r.amount <= 120 && !r.scaled
			if k == r.from && light && (n > 0 || s.material(r.to) > 0 || k == j && s.sectionNamed(q.from, r.to)) {
				sec.PerFoot = measure.PoundsPerFoot(r.amount)
				r.used = true
				n += 1 + s.material(r.to)
				to = r.to + s.material(r.to)
			}
		}
		if n == 0 && sec.PerFoot == 0 && i+1 < len(s.qs) && s.materialBefore(q.from) {
			// "the I-beam is 10 in 19 lb", "the beam is ten inches, twenty-two pounds a foot"
			r := &s.qs[i+1]
			k := q.to
			for k < r.from && (s.t[k].kind == comma || s.is(k, "and", "at")) {
				k++
			}
			if k == r.from && (r.unit == poundsPerFoot || r.unit == pounds) && r.single() && r.amount <= 120 && !r.scaled {
				sec.PerFoot, r.used = measure.PoundsPerFoot(r.amount), true
				n, to = 1, r.to
			}
		}
		if n == 0 && q.amount <= 6 && s.crossAt(q) {
			n = 1 // "three-inch crossmembers": too little for a spacing
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
	if o, e, found := s.nearest(from, to, func(c cue) bool { return c.other || c.part == otherPart && c.weight == "" }); found && o.to <= from && (e < 2.5 || e < 3.5 && (!ok || e < d)) && !(ok && p.to <= from && p.from > o.from) {
		c.Doubt = "a section of a part that has no key here"
	}
	beam := false
	for i := from; i < to; i++ {
		beam = beam || s.is(i, "beam", "beams", "ibeam")
	}
	switch {
	case c.Doubt != "":
	case s.is(from-1, "are", "is") && s.is(from-2, "beam", "beams", "rails", "frame") && (!ok || p.from >= to):
		// "beams are twelve inch nineteen pound, crossmembers ..."
	case s.is(to, "every") || s.is(to, "on") && s.quantityAt(to+1) >= 0 && (s.is(to+3, "centers", "center") || s.is(to+4, "centers", "center")):
		// "with three-inch channel every sixteen inches": what comes so often are crossmembers
		c.Role = Crossmember
		c.Alternatives = []Alternative{{Beam, sec}}
	case beam && ok && p.cue.part == crossPart && p.from >= to:
		// "eight-inch beam, crossmembers ...": they come next
	case ok && (d < reach || !s.hasPart(framePart) && d < reach+2) && p.cue.part == crossPart:
		c.Role = Crossmember
		c.Alternatives = []Alternative{{Beam, sec}}
	case ok && d < reach:
	case sec.PerFoot == 0:
		c.Doubt = "a section, but of which part?"
	}
	s.emit(from, to, c)
}
