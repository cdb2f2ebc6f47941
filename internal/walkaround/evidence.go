package walkaround

import "tarepage/internal/measure"

// What a figure is in arithmetic that was said aloud: "fourteen thousand less thirty six
// hundred leaves you ten four" has a whole, a part that is taken off, and what is left.
const (
	inWhole uint32 = 1 + iota
	inPart
	inLeft
	inTerm
	inSum
	inFactor
	inProduct
	inShare
	inShareOf
	inShared
	inLeaves
	inHeld
)

// placesOf are the places of the terms of an operation, and of its result.
var placesOf = map[Operation][]uint32{
	Less:  {inWhole, inPart, inLeft},
	Plus:  {inTerm, inTerm, inSum},
	Times: {inFactor, inFactor, inProduct},
	Share: {inShare, inShareOf, inShared},
}

// reckoned tells of each candidate what it is in arithmetic that was said, or 0.
func (h *hearing) reckoned(cands []candidate) []uint32 {
	out := make([]uint32, len(cands))
	at := map[int]int{} // candidates by their first token
	for k := range cands {
		if _, ok := at[cands[k].from]; !ok {
			at[cands[k].from] = k
		}
	}
	qs := h.figures()
	mark := func(q *quantity, place uint32) {
		if k, ok := at[q.from]; ok && out[k] == 0 {
			out[k] = place
		}
	}
	for i := range qs {
		if c, last, ok := h.chain(qs, i); ok {
			places := placesOf[c.Operation]
			first, other := places[0], places[1]
			if c.Operation == Less && h.between(qs[i].to, qs[i+1].from) == fromLink {
				first, other = other, first
			}
			mark(&qs[i], first)
			for k := i + 1; k < last; k++ {
				mark(&qs[k], other)
			}
			mark(&qs[last], places[2])
		} else if _, ok := h.leftOver(qs, i); ok {
			mark(&qs[i], inLeaves)
		} else if _, ok := h.holding(qs, i); ok {
			mark(&qs[i], inHeld)
		}
	}
	return out
}

// nearSums is how many candidates before and after a figure its sums are looked for.
const nearSums = 24

// Bits of what a weight is to the other weights near it.
const (
	isPart   uint32 = 1 << iota // it and another one make a third
	isWhole                     // two others make it
	isDouble                    // it is twice or three times another one
	isHalf                      // another one is twice or three times it
	isAgain                     // it is said more than once
)

// figuresOf tells of each weight that a candidate can be what it is to the others.
func figuresOf(cands []candidate) []map[measure.Pounds]uint32 {
	row := roleIndex[GVWR]
	values := make([]measure.Pounds, len(cands))
	for k := range cands {
		for _, o := range cands[k].options {
			if v, ok := o.value.(measure.Pounds); ok && (o.row == row || values[k] == 0) && v >= 200 {
				values[k] = v
			}
		}
	}
	out := make([]map[measure.Pounds]uint32, len(cands))
	for k, v := range values {
		if v == 0 {
			continue
		}
		near := map[measure.Pounds]int{}
		for i := max(0, k-nearSums); i < min(len(values), k+nearSums+1); i++ {
			if values[i] > 0 {
				near[values[i]]++
			}
		}
		out[k] = map[measure.Pounds]uint32{v: amongOthers(v, near)}
	}
	return out
}

// amongOthers is what a weight is to those near it, each with how often it is said.
func amongOthers(v measure.Pounds, near map[measure.Pounds]int) uint32 {
	bits := uint32(0)
	if near[v] > 1 {
		bits |= isAgain
	}
	for w := range near {
		switch {
		case w == v:
			continue
		case v == w.Times(2) || v == w.Times(3):
			bits |= isDouble
		case w == v.Times(2) || w == v.Times(3):
			bits |= isHalf
		case w > v && near[w-v] > 0:
			bits |= isPart
		case w < v && near[v-w] > 0:
			bits |= isWhole
		}
	}
	return bits
}

// How far from a figure a statement such as "that's an option" may be.
const statedBefore, statedAfter = 8, 10

// stated tells of each candidate what is stated in front of it, of what follows, and after it,
// of what goes before: nothing as 0, otherwise the having and one.
func (h *hearing) stated(cands []candidate) (front, behind []uint8) {
	front, behind = make([]uint8, len(cands)), make([]uint8, len(cands))
	said := make([]*statement, len(h.t))
	for i := 0; i < len(h.t); i++ {
		if s, n := h.statementAt(i); n > 0 {
			said[i] = s
			i += n - 1
		}
	}
	for k := range cands {
		c := &cands[k]
		for i := c.from - 1; i >= max(0, c.from-statedBefore) && h.t[i].kind != stop; i-- {
			if s := said[i]; s != nil && s.side != itemFirst {
				front[k] = uint8(s.means) + 1
				break
			}
		}
		for i := c.to; i < min(len(h.t), c.to+statedAfter); i++ {
			if s := said[i]; s != nil && s.side != itemLast {
				behind[k] = uint8(s.means) + 1
				break
			}
		}
	}
	return front, behind
}

// How far from a figure a repair such as "no wait" may be.
const repairedNear = 6

// repaired tells of each candidate whether words that take something back are close in front
// of it (1), close after it (2), or both (3).
func (h *hearing) repaired(cands []candidate) []uint8 {
	at := make([]bool, len(h.t))
	for i := range h.t {
		n, _ := h.repairing(i)
		at[i] = n > 0
	}
	out := make([]uint8, len(cands))
	for k := range cands {
		for i := max(0, cands[k].from-repairedNear); i < min(len(at), cands[k].to+repairedNear); i++ {
			switch {
			case !at[i]:
			case i < cands[k].from:
				out[k] |= 1
			default:
				out[k] |= 2
			}
		}
	}
	return out
}
