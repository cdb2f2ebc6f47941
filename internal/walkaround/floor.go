package walkaround

import (
	"slices"

	"tarepage/internal/measure"
)

// Floors are made of boards or plate: the words of a floor, and the words of what is not one.
var (
	floorWords    = set("floor flooring deck decking plank board pine oak plywood lumber wood treated plate diamond")
	notFloorWords = set("wall side skin roof fender ramp channel beam tube tail dove dovetail wide long high tall over between overall off ground height flap")
)

// floorSize is the thickness that is said of a floor, as "2x8", "2 in", "7 gauge", where it
// was said; empty if none was.
func (h *hearing) floorSize(away []bool) (size string, from, to int) {
	qs := h.quantities()
	for i := range qs {
		if away[qs[i].from] {
			continue
		}
		size, to := h.thickness(qs, i)
		if size != "" && h.ofFloor(qs[i].from, to) {
			return size, qs[i].from, to
		}
	}
	return "", 0, 0
}

// thickness reads what quantity i can be as the thickness of a floor, and where it ends.
func (h *hearing) thickness(qs []quantity, i int) (size string, to int) {
	q := &qs[i]
	switch {
	case !q.single() || q.scaled:
	case q.unit == foreign && h.is(q.to-1, "gauge", "gage", "ga") && q.amount >= 3 && q.amount <= 16:
		return plainNumber(q.amount) + " gauge", q.to
	case q.unit == inches && q.amount <= 3:
		return measure.Inches(q.amount).InInches(), q.to
	case h.bareInches(q):
		return measure.Inches(q.amount).InInches(), q.to
	case i+1 < len(qs) && q.unit == bare && q.amount >= 1 && q.amount <= 3 && h.is(q.to, "by", "x"):
		if b := &qs[i+1]; b.from == q.to+1 && b.single() && b.amount >= 4 && b.amount <= 12 {
			return plainNumber(q.amount) + "x" + plainNumber(b.amount), b.to
		}
	}
	return "", 0
}

// bareInches reports a fraction of which nobody says the inch: "three quarter plywood", "the floor is
// three quarter".
func (h *hearing) bareInches(q *quantity) bool {
	return h.ofPlywood(q) || q.unit == bare && q.broken && q.amount < 1 && h.afterFloor(q.from)
}

// ofPlywood reports a fraction in front of plywood, where nobody says the inch.
func (h *hearing) ofPlywood(q *quantity) bool {
	return q.unit == bare && q.broken && q.amount < 1 && h.is(q.to, "plywood", "ply")
}

// afterFloor reports that nothing is between the floor and what is at token i but "is", "in this one" and
// the like.
func (h *hearing) afterFloor(i int) bool {
	for k := i - 1; k >= max(0, i-5); k-- {
		switch {
		case h.is(k, "floor", "deck", "decking", "flooring"):
			return true
		case h.t[k].kind == word && !h.is(k, "is", "it's", "the", "a", "here", "in", "this", "one"):
			return false
		}
	}
	return false
}

// ofFloor reports that the words around tokens from to to speak of a floor and of nothing else.
func (h *hearing) ofFloor(from, to int) bool {
	floor := false
	look := func(k int) bool {
		w := stem(h.word(k))
		floor = floor || floorWords[w]
		return h.t[k].kind != stop && !notFloorWords[w]
	}
	for k := to; k < min(len(h.t), to+4) && !floor; k++ {
		if !look(k) {
			break
		}
	}
	for k := from - 1; k >= max(0, from-5) && !floor; k-- {
		if !look(k) {
			break
		}
	}
	return floor
}

// withFloor adds the thickness of the floor to what was said of its material.
func (h *hearing) withFloor(text string, out []Candidate, away []bool) []Candidate {
	size, from, to := h.floorSize(away)
	if size == "" {
		return out
	}
	t := h.t
	if at := slices.IndexFunc(out, func(c Candidate) bool { return c.Role == floorKey }); at >= 0 {
		out[at].Value = Word(out[at].Value.String() + " " + size)
		return out
	}
	return append(out, Candidate{Role: floorKey, Value: Word(size), Compare: Equal, Quote: text[t[from].from:t[to-1].to],
		Start: t[from].start, End: t[to-1].end, Offset: t[from].from, Confidence: 0.8})
}
