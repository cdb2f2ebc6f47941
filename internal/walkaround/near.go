package walkaround

import "math"

// placed is a cue at its place.
type placed struct {
	from, to int
	cue      cue
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
		if best > 0 && at.part != noPart && !at.other && s.unknown(i-1) && !trade[s.word(i-1)] {
			at = cue{other: true, part: otherPart} // a trench box, a truck bed
		}
		if best > 0 {
			s.cues = append(s.cues, placed{i, i + best, at})
			i += best - 1
		}
	}
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
	} else if c.cue.verb || s.spoken(c.to) == ":" || s.is(c.to-1, "is", "says", "reads", "states") {
		cost = 6
	}
	if b-a > 24 {
		return 0, false
	}
	if c.cue.other && s.is(c.from-1, "your", "a", "the", "my") && s.is(c.from-2, "for") {
		cost += 4 // "that leaves you ten thousand for your machine"
	}
	if c.cue.other && c.from > to && s.is(to, "the", "a", "your", "there", "that", "this") {
		cost += 3 // "it weighs twenty-four fifty, the ramp door ...": it begins what comes next
	}
	if c.cue.other && c.from == to && s.is(to-1, "pounds") {
		cost += 3 // "stamped fifteen thousand pounds, safety chains ...": a chain's own would be "pound"
	}
	behind := c.from >= to
	if c.from >= to && s.followed(c) {
		cost += 2 // "... thirty thousand, gross weight eighteen thousand": it has a figure of its own
	}
	if (c.from > to || (c.cue.part == crossPart || c.cue.other || c.to > 0 && s.t[c.to-1].possessive && s.ownFigure(c.to)) && c.from == to) && c.to < len(s.t) && !c.cue.verb && (s.is(c.to, "is", "are", "was", "takes", "has", "have", "sits", "weighs") || s.t[c.to-1].possessive || s.is(c.to, "on", "the", "of") && (s.is(c.to+1, "is") || s.is(c.to+2, "is") || s.is(c.to+3, "is"))) {
		cost += 3 // "... thirteen pound, the crossmembers are ...": it begins what comes next
	}
	heading := c.to <= from && s.heads(c)
	if (c.cue.other || (c.cue.part == deckPart || c.cue.part == tailPart || c.cue.part == otherPart) && !behind) && s.isPlace(c) {
		cost += 4 // "four d-rings in the floor": where, not what
	}
	crossed := -1
	for i := a; i < b; i++ {
		if s.restated(i) {
			continue
		}
		if q := s.quantityAt(i); q >= 0 {
			if q != crossed {
				crossed = q
				if heading {
					cost++
				} else if s.qs[q].rejected != "corrected at once" && s.qs[q].rejected != "denied" && s.qs[q].rejected != before && !(s.qs[q].unit == bare && s.qs[q].single() && !s.qs[q].scaled) {
					cost += 3.5
				}
			}
			continue
		}
		if behind && (s.clause(i) || s.is(i, "depending", "depends", "because", "unless")) {
			cost += 5
		} else if !behind && i > c.to && s.is(i, "now", "alright", "let's", "moving", "anyway") && i+1 < len(s.t) && s.t[i+1].kind != comma {
			cost += 4
		}
		switch {
		case heading && s.t[i].kind == comma:
			cost += 0.5 // "Jack, drop leg, twelve k"
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
			cost += 9
		case c.cue.other && i > c.to && s.is(i, "it", "she", "this") && (s.t[i].possessive || s.is(i+1, "is", "has", "sits", "measures", "weighs", "one")):
			cost += 5 // a new subject: "no brakes, it's seventy-seven inches wide"
		case fillers[s.spoken(i)], s.match(corrections, i) > 0:
		default:
			cost++
		}
	}
	return cost + c.cue.weak, true
}

// restated reports that token i is of a figure that is corrected at once, or of one in metric
// units that is said again in ours right behind it, or of the words between: "the GVWR is 3,175 kilograms, so seven thousand pounds".
// What such a figure is of, the one behind it is of.
func (s *sentence) restated(i int) bool {
	for k := 0; k+1 < len(s.qs); k++ {
		q, r := &s.qs[k], &s.qs[k+1]
		if q.rejected == "corrected at once" && i >= q.head && i < r.head {
			return true
		}
		if i < q.head || i >= r.head || q.unit != foreign || !metric[s.word(q.to-1)] || r.unit != pounds && r.unit != feet && r.unit != inches && r.unit != psi {
			continue
		}
		for j := q.to; j < r.head; j++ {
			if s.t[j].kind != comma && !s.is(j, "so", "or", "that", "that's", "which", "is", "each", "call", "it", "in", "pounds", "money", "old", "and", "apiece", "about", "roughly", "say", "then", "in", "parentheses", "parens", "brackets") {
				return false
			}
		}
		return true
	}
	return false
}

// ownFigure reports a figure right at token i, but for an article and "about": "jack's a twelve
// thousand pounder".
func (s *sentence) ownFigure(i int) bool {
	for k := i; k < min(i+4, len(s.t)); k++ {
		if s.quantityAt(k) >= 0 {
			return true
		}
		if !s.is(k, "a", "an", "at", "about", "right", "around", "rated", "just", "only") {
			return false
		}
	}
	return false
}

// followed reports a rating whose own figure stands right behind it.
func (s *sentence) followed(c placed) bool {
	attr := c.cue.attr != none && c.to == c.from+1 && s.is(c.from, "width", "length", "height")
	if (c.cue.weight == "" || c.cue.part != noPart) && !attr {
		return false
	}
	k := c.to
	for k < len(s.t) && k < c.to+4 && s.is(k, "uh", "um", "is", "at", "of", "about", "right", "call", "it", "says", "reads", "was", "just", "around", "roughly", "approximately", "close", "to", "under", "over") {
		k++
	}
	i := s.quantityAt(k)
	if i < 0 || s.qs[i].rejected != "" {
		return false
	}
	q := &s.qs[i]
	if attr {
		return q.unit == inches || q.unit == feet
	}
	return q.unit == pounds || q.unit == bare && (q.scaled || !q.single())
}

// heads reports a cue that begins its sentence and is set off from it, or that was the
// whole sentence before: what follows is all of it.
func (s *sentence) heads(c placed) bool {
	if c.from < 0 {
		return true
	}
	if c.to >= len(s.t) || s.t[c.to].kind != comma || c.cue.attr != none && c.cue.part == noPart && !c.cue.other {
		return false
	}
	for i := 0; i < c.from; i++ {
		if !s.is(i, "the", "your", "our", "and", "now", "okay", "so", "then", "on", "a") {
			return false
		}
	}
	return true
}

// isPlace reports a part that only tells where: "in the floor", "under the deck".
func (s *sentence) isPlace(c placed) bool {
	k := c.from - 1
	if s.is(k, "the", "your", "each", "both", "this") {
		k--
	}
	return s.is(k, "in", "to", "from", "under", "behind", "into", "inside", "underneath", "beside", "by")
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

func (s *sentence) hasPart(p part) bool {
	for _, c := range s.cues {
		if c.cue.part == p {
			return true
		}
	}
	return false
}
