package walkaround

import "slices"

// A choice is an option of a candidate with its score, in units of scale, over no role.
type choice struct {
	option
	score int32
}

// A decided is a candidate with its choices, best first, and what was chosen.
type decided struct {
	*candidate
	choices []choice
	pick    int // index into choices, or -1
	doubt   string
	lost    *choice // the role that it would have, had that not been said otherwise
}

// decide scores every candidate from left to right, each with what was decided before it,
// and then chooses over the whole talk.
func (m *model) decide(s *scene) []decided {
	out := make([]decided, len(s.cands))
	sums := make([]int32, classes)
	own := make([]int32, classes)
	var fs []feature
	var h history
	seen := make([]Value, len(roleTable))
	last := -1
	for k := range s.cands {
		c := &s.cands[k]
		d := &out[k]
		d.candidate, d.pick = c, -1
		if len(c.options) == 0 {
			continue
		}
		clear(sums)
		h.ago = 99
		if last >= 0 {
			h.ago = s.place[k] - s.place[last]
		}
		fs = s.after(s.features(fs[:0], k), k, h)
		m.tally(sums, fs)
		d.choices = make([]choice, 0, len(c.options))
		for _, o := range c.options {
			fs = s.valueFeatures(fs[:0], k, o)
			fs = append(fs, seenFeature(seen[o.row], o.value))
			clear(own)
			m.tally(own, fs)
			d.choices = append(d.choices, choice{o, score(sums, o.row) + score(own, o.row) - sums[none]})
		}
		slices.SortStableFunc(d.choices, func(a, b choice) int { return int(b.score) - int(a.score) })
		class := uint32(none)
		if best := d.choices[0]; best.score > 0 {
			class = uint32(1 + best.row)
			seen[best.row] = best.value
		}
		h.next(class)
		last = k
	}
	return out
}

func (h *history) next(class uint32) {
	h.last = class
	h.since++
	if class != none {
		h.given, h.since = class, 0
	}
}

// seenFeature tells whether the role was given before, and with this value.
func seenFeature(before, now Value) feature {
	switch before {
	case nil:
		return hash(115, 0)
	case now:
		return hash(115, 1)
	}
	return hash(115, 2)
}
