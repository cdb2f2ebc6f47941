package walkaround

import (
	"slices"

	"tarepage/internal/measure"
)

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
	of the oil bath leaf rubber dropleg k recessed these those`)

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
	how := Equal // "at least a dozen stake pockets"
	tell := func(from, to int, c counted, n int, conf float64) bool {
		if !inWindow(c.role, float64(n)) {
			return false
		}
		cand := Candidate{Role: c.role, Value: Count(n), Confidence: conf, Compare: how}
		if c.role == Ply {
			if s.ofSpare(from) {
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
		// "two sevens": so many axles of seven thousand.
		if len(q.parts) == 2 && q.plural && q.parts[0] >= 2 && q.parts[0] <= 3 && q.parts[1] >= 3 && q.parts[1] <= 15 && s.hasPart(axlePart) {
			q.used = true
			tell(q.from, q.from+1, countedThings[0], int(q.parts[0]), 0.85)
			s.emit(q.from, q.to, Candidate{Role: AxleRating, Value: measure.Pounds(q.parts[1] * 1000), UnitInferred: true, Count: int(q.parts[0]), Confidence: 0.85})
			continue
		}
		// "riding on two seven-thousand-pounders"
		if i+1 < len(s.qs) && q.single() && (q.amount == 2 || q.amount == 3) && s.qs[i+1].from == q.to && s.is(s.qs[i+1].to-1, "pounders") && !s.qs[i+1].used {
			r := &s.qs[i+1]
			if v, _, ok := r.weight(); ok && inWindow(AxleRating, v) && v <= 15000 && (s.is(q.from-1, "on", "got", "has", "with", "are") || s.is(q.from-1, "that") && s.t[q.from-1].possessive && s.hasPart(axlePart)) {
				q.used, r.used = true, true
				tell(q.from, q.to, countedThings[0], int(q.amount), 0.8)
				s.emit(r.from, r.to, Candidate{Role: AxleRating, Value: measure.Pounds(v), Count: int(q.amount), Confidence: 0.8})
				continue
			}
		}
		// "two seven k's under it", "two 5200s", "axles are two 7,000 lb": nothing else comes so.
		if i+1 < len(s.qs) && q.single() && (q.amount == 2 || q.amount == 3) && s.qs[i+1].from == q.to && !s.qs[i+1].used && s.qs[i+1].rejected == "" {
			r := &s.qs[i+1]
			v, _, ok := r.weight()
			_, _, thing := s.thingAt(r.to)
			if ok && v >= 2000 && v <= 15000 && !thing && (r.plural && r.scaled && !s.is(r.to, "jack", "jacks") || s.is(q.from-1, "are") && s.is(q.from-2, "axles") && r.unit == pounds) {
				q.used, r.used = true, true
				tell(q.from, q.to, countedThings[0], int(q.amount), 0.85)
				s.emit(r.from, r.to, Candidate{Role: AxleRating, Value: measure.Pounds(v), UnitInferred: r.unit == bare, Count: int(q.amount), Confidence: 0.85})
				continue
			}
		}
		n, ok := q.whole()
		if !q.single() && len(q.parts) > 2 { // counting aloud: one two three four
			ok = true
			for k, p := range q.parts {
				ok = ok && p == float64(k+1)
			}
			n = len(q.parts)
		}
		if !ok || n > 80 || q.plural || i > 0 && s.qs[i-1].to == q.from && s.qs[i-1].unit == bare && !s.qs[i-1].used {
			continue // "three fifty d-rings": neither
		}
		// "2 x 10k axles" or a rating between count and noun
		j, rated := q.to, false
		if s.is(j, "x") || s.spoken(j) == ")" && s.spoken(q.from-1) == "(" {
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
			if c.role == AxleCount && s.is(to, "tubes", "to") || s.is(q.from-1, "from", "per") || n == 1 && s.is(q.from-1, "on", "in", "of", "over", "only") {
				continue
			}
			how = q.compare
			if tell(q.head, to, c, n, 0.95) {
				q.used = true
			}
			how = Equal
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
		if c, at, ok := s.nounBefore(q.from); ok && (c.role == StakePockets || c.role == DRings) && s.is(q.to, "i", "we", "and", "they", "all", "on", "in", "along", "down", "yeah") && !s.saysRole(c.role) {
			if tell(at, q.to, c, n, 0.85) {
				q.used = true
			}
			continue
		}
		if q.to == len(s.t) || s.t[q.to].kind == comma {
			k := q.from - 1
			for k >= 0 && (s.t[k].kind == comma || s.is(k, "are", "is", "count")) {
				k--
			}
			if k >= 0 && k < q.from-1 {
				// "Stake pockets, twenty." and "eight k axles, two": nothing else is left to be counted.
				if c, at, ok := s.nounBefore(k + 1); ok && (q.to == len(s.t) || at <= 1 && c.role != JackCount) && !s.saysRole(c.role) && (at <= 1 || c.role == AxleCount && n <= 3 && s.quantityAt(at-1) >= 0) && c.role != Ply {
					if tell(at, q.to, c, n, 0.85) {
						q.used = true
					}
				} else if c, at, ok := s.nounBefore(k + 1); ok && (s.is(at-2, "number") || s.is(k+1, "are")) && c.role == AxleCount {
					if tell(at, q.to, c, n, 0.85) {
						q.used = true
					}
				}
			}
		}
	}
	// tandem, triple, dual
	for i := range s.t {
		if s.is(i, "both") && s.is(i+1, "axles") && s.is(i+2, "are") {
			tell(i, i+2, countedThings[0], 2, 0.85)
		}
		n, ok := groups[s.word(i)]
		if !ok {
			continue
		}
		if s.is(i, "tandem") && i > 0 && (i+1 == len(s.t) || s.t[i+1].kind == comma || s.is(i+1, "with")) {
			if k := s.quantityAt(i - 1); k >= 0 && s.qs[k].unit == feet && s.qs[k].rejected == "" && s.is(s.qs[k].head-1, "a") {
				tell(i, i+1, countedThings[0], n, 0.85) // "she's a sixteen-foot tandem with a gate"
			}
		}
		if s.is(i, "tandem") && s.is(i+1, "dual") && (i+2 == len(s.t) || s.t[i+2].kind == comma || s.is(i+2, "and", "with", "so")) {
			tell(i, i+1, countedThings[0], n, 0.85) // "it's a tandem dual"
			continue
		}
		if s.is(i, "tandem") && s.is(i+1, "dump", "enclosed", "utility", "flatbed", "stock") {
			tell(i, i+1, countedThings[0], n, 0.85) // "a tandem dump"
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
			if rated && sorts[s.word(j)] && !s.is(j, "deck", "over") {
				// "tandem seven k equipment trailer"
				if k := s.quantityAt(j - 1); k >= 0 && s.qs[k].scaled && !s.qs[k].used {
					if v, _, ok := s.qs[k].weight(); ok && inWindow(AxleRating, v) {
						s.qs[k].used = true
						s.emit(s.qs[k].from, s.qs[k].to, Candidate{Role: AxleRating, Value: measure.Pounds(v), UnitInferred: s.qs[k].unit == bare, Count: n, Confidence: 0.8})
						tell(i, i+1, countedThings[0], n, 0.85)
					}
				}
				break
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
		q.used = s.countNamed(q, n)
	}
	for i := range s.t {
		if (s.is(i, "both") || s.is(i, "pair") && !s.is(i-2, "one")) && s.is(i+1, "of") && s.is(i+2, "them", "em") && s.saysRole(AxleRating) && !s.saysRole(AxleCount) && s.hasPart(axlePart) && !s.has("brakes", "brake", "jack", "jacks", "ramps") {
			s.emit(i, i+3, Candidate{Role: AxleCount, Value: Count(2), Confidence: 0.8})
		}
	}
	s.ratingsOf()
}

func (s *sentence) saysRole(r Role) bool {
	return slices.ContainsFunc(s.out, func(c Candidate) bool { return c.Role == r })
}

// countNamed gives the count n at q to the counted thing that was named last before it.
func (s *sentence) countNamed(q *quantity, n int) bool {
	for i := q.from - 1; i >= 0; i-- {
		for _, p := range s.cues {
			if p.to != i+1 {
				continue
			}
			if p.cue.other && !s.is(p.from, "brake", "brakes") {
				return false
			}
			c, _, ok := s.thingAt(p.from)
			if !ok {
				c, _, ok = s.thingAt(p.to - 1) // "per axle"
			}
			if !ok {
				continue
			}
			if c.role == AxleCount && n > 4 || c.role == JackCount && n > 2 || !inWindow(c.role, float64(n)) {
				return false
			}
			if slices.ContainsFunc(s.out, func(o Candidate) bool { return o.Role == c.role }) {
				return false
			}
			s.emit(q.from, q.to+2, Candidate{Role: c.role, Value: Count(n), Confidence: 0.85})
			return true
		}
	}
	return false
}

// ratingsOf tells each rating the count that was said beside it.
func (s *sentence) ratingsOf() {
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
