package walkaround

import "strings"

// A setting is how a clause speaks of what it names: whose it is, when it was so, whether it is so. The
// bits of its marks are lines of marks; noun is the first part of the trailer that it names, or 0.
type setting struct {
	marks uint32
	noun  uint8
}

// marks are the small words that tell whose a figure is, when, and whether it is so at all, one
// line for each bit of a setting.
var marks = func() map[string]uint32 {
	m := map[string]uint32{}
	for i, line := range []string{
		"it it's she she's this these here its her",
		"he he's they they're his him them guy fella customer customers somebody someone neighbor people folks",
		"you you'll you're your you've",
		"i i've i'd i'll we we're we've we'll me us",
		"that that's those",
		"was were had used before last sold ago",
		"would could might should can",
		"if unless suppose say",
		"not no isn't ain't doesn't don't never without",
		"what which how where",
		"than like most usually same compared",
		"other another next second bigger smaller both",
		"each per apiece every",
		"total together combined pair altogether",
		"rated good stamped says reads tag sticker plate",
		"new replaced old",
	} {
		for w := range strings.FieldsSeq(line) {
			m[w] |= 1 << i
		}
	}
	return m
}()

// settings are the settings of the clauses, and of each token the number of its clause.
func (h *hearing) settings() (list []setting, clause []int) {
	clause = make([]int, len(h.t))
	from := 0
	for _, c := range clauses(h.t) {
		var s setting
		for i := c.from; i < c.to; i++ {
			w := h.word(i)
			s.marks |= marks[w]
			if s.noun == 0 {
				s.noun = nouns[stem(w)]
			}
		}
		for ; from < c.to; from++ {
			clause[from] = len(list)
		}
		list = append(list, s)
	}
	for ; from < len(h.t); from++ {
		clause[from] = max(0, len(list)-1)
	}
	return list, clause
}

// farthest is how many clauses back the part is looked for that a clause without one speaks of.
const farthest = 4

// clausesNear adds how the clause of the figure and the one before it speak, the part that it
// speaks of, and how far back in clauses that was named.
func (v *view) clausesNear() {
	c := &v.cands[v.k]
	v.add(158, v.again[v.k], v.shape)
	v.add(159, uint32(10*c.from/len(v.clause)), v.shape)
	if len(v.settings) == 0 {
		return
	}
	n := v.clause[c.from]
	own := v.settings[n]
	v.add(150, own.marks)
	for b := uint32(1); b <= own.marks; b <<= 1 {
		if own.marks&b != 0 {
			v.add(151, b)
			v.add(152, b, v.shape)
			v.add(153, b, uint32(own.noun))
		}
	}
	if n > 0 {
		before := v.settings[n-1]
		for b := uint32(1); b <= before.marks; b <<= 1 {
			if before.marks&b != 0 {
				v.add(154, b, v.shape)
			}
		}
	}
	for back := 0; back <= min(n, farthest); back++ {
		if noun := v.settings[n-back].noun; noun != 0 {
			v.add(155, uint32(noun), uint32(back))
			v.add(156, uint32(noun), uint32(back), v.shape)
			break
		}
	}
}

// saidAgain tells of each candidate how many others have one of its values, up to two.
func saidAgain(cands []candidate) []uint32 {
	times := map[Value]uint32{}
	each := func(c *candidate, do func(Value)) {
		for i := range c.options {
			v := c.options[i].value
			first := true
			for _, o := range c.options[:i] {
				first = first && o.value != v
			}
			if first {
				do(v)
			}
		}
	}
	for k := range cands {
		each(&cands[k], func(v Value) { times[v]++ })
	}
	out := make([]uint32, len(cands))
	for k := range cands {
		each(&cands[k], func(v Value) {
			if _, counts := v.(Count); !counts {
				out[k] = max(out[k], min(times[v]-1, 2))
			}
		})
	}
	return out
}
