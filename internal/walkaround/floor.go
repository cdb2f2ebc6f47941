package walkaround

import (
	"slices"

	"tarepage/internal/measure"
)

// What is named next to the thickness of a floor: the floor itself, what floors are made of, and
// what is not a floor.
var (
	floorWords    = set("floor flooring deck decking plank board")
	madeOfWords   = set("pine oak plywood lumber wood treated plate diamond board")
	notFloorWords = set("wall side skin roof fender ramp channel beam tube tail dove dovetail wide long high tall over between overall off ground height flap bolt chain ring")
)

// floorSize is the thickness that is said of a floor, as "2x8", "2 in", "7 gauge", where it
// was said; empty if none was.
func (h *hearing) floorSize(away []bool) (size string, from, to int) {
	qs := h.quantities()
	best := 0
	for i := range qs {
		if away[qs[i].from] {
			continue
		}
		said, end := h.thickness(qs, i)
		if said == "" {
			continue
		}
		// A later one of the same rank counts after words that take the first one back.
		if rank := h.ofFloor(qs[i].from, end); rank > best || rank > 0 && rank == best && h.repairedAfter(to, qs[i].from) {
			best, size, from, to = rank, said, qs[i].from, end
		}
	}
	return size, from, to
}

// repairedAfter reports words that take back what ends at token i, in front of token k.
func (h *hearing) repairedAfter(i, k int) bool {
	at, _ := h.repairAfter(i)
	return at >= 0 && at <= k
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
		if b := &qs[i+1]; b.from == q.to+1 && b.parts[0] >= 4 && b.parts[0] <= 12 {
			end := b.to
			if !b.single() {
				end = b.from + 1 // "two by six, eight boards"
			}
			return plainNumber(q.amount) + "x" + plainNumber(b.parts[0]), end
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

// ofFloor tells how surely a thickness from token from to token to is of a floor: not at all, as it is of
// something else or of nothing (0), by what follows it (1), by what floors are made of (2), or by the floor
// in front of it (3).
func (h *hearing) ofFloor(from, to int) int {
	for k := from - 1; k >= max(0, from-5) && h.t[k].kind != stop; k-- {
		switch w := stem(h.word(k)); {
		case notFloorWords[w]:
			return 0
		case floorWords[w] && h.is(k-1, "the") && h.is(k-2, "in", "on", "to", "into", "of"):
			return 0 // "d rings in the floor, half inch"
		case floorWords[w]:
			return 3
		case madeOfWords[w]:
			return 2
		}
	}
	for k := to; k < min(len(h.t), to+4) && h.t[k].kind != stop; k++ {
		switch w := stem(h.word(k)); {
		case notFloorWords[w]:
			return 0
		case madeOfWords[w] && k < to+2:
			return 2
		case floorWords[w]:
			return 1
		}
	}
	return 0
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
