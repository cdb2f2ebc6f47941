package walkaround

import (
	"slices"

	"tarepage/internal/measure"
)

// margin is by how much one reading has to be surer than another of the same role to
// stand against it.
const margin = 0.1

// settle looks at what one sentence says twice of one thing, and differently. The surer
// reading stands; where none is, both are doubtful: "the seven by fourteen is ..., and
// this seven by sixteen ...".
func (s *sentence) settle() {
	for i := range s.out {
		a := &s.out[i]
		if a.Role == "" {
			continue
		}
		for k := i + 1; k < len(s.out); k++ {
			b := &s.out[k]
			if b.Role != a.Role || a.agrees(b) {
				continue
			}
			switch {
			case a.Confidence >= b.Confidence+margin:
				b.contest("said otherwise in the same sentence")
			case b.Confidence >= a.Confidence+margin:
				a.contest("said otherwise in the same sentence")
			default:
				a.contest("said otherwise in the same sentence")
				b.contest("said otherwise in the same sentence")
			}
			if a.Role == "" {
				break
			}
		}
	}
}

// settleAll looks at what a whole recording says of one thing. A trailer has one GVWR: of
// two the one that was said more often stands, then the surer, then the first.
func settleAll(cs []Candidate) {
	byRole := map[Role][]int{}
	var order []Role
	for i := range cs {
		if r := cs[i].Role; r != "" {
			if byRole[r] == nil {
				order = append(order, r)
			}
			byRole[r] = append(byRole[r], i)
		}
	}
	for _, r := range order {
		// Each value once, with how often it was said: an hour of talk repeats itself.
		type saying struct{ first, times, surest int }
		var sayings []saying
		group := byRole[r]
	next:
		for _, i := range group {
			for k := range sayings {
				if cs[sayings[k].first].Value == cs[i].Value {
					sayings[k].times++
					if cs[i].Confidence > cs[sayings[k].surest].Confidence {
						sayings[k].surest = i
					}
					continue next
				}
			}
			sayings = append(sayings, saying{i, 1, i})
		}
		if len(sayings) == 1 {
			continue
		}
		best, most := 0, 0
		for i, a := range sayings {
			n := 0
			for _, b := range sayings {
				if a.first == b.first || cs[a.first].agrees(&cs[b.first]) {
					n += b.times
				}
			}
			if n > most || n == most && cs[a.surest].Confidence > cs[sayings[best].surest].Confidence+margin {
				best, most = i, n
			}
		}
		stands := sayings[best].first
		for _, i := range group {
			if cs[stands].Value != cs[i].Value && !cs[stands].agrees(&cs[i]) {
				cs[i].contest("said otherwise at " + measure.Clock(int(cs[stands].Start)))
			}
		}
	}
}

// contest takes the role away; it stays the first alternative.
func (c *Candidate) contest(doubt string) {
	if c.Role == "" {
		return
	}
	c.Alternatives = slices.Insert(c.Alternatives, 0, Alternative{c.Role, c.Value})
	c.Role, c.Doubt, c.Contested = "", doubt, true
}

// agrees reports whether two candidates of a role can both be so: the same value, a
// range that holds it, "about" within 2.5%.
func (c *Candidate) agrees(d *Candidate) bool {
	if c.Value.String() == d.Value.String() {
		return true
	}
	about := c.Compare != Equal || d.Compare != Equal
	switch v := c.Value.(type) {
	case measure.Pounds:
		return close(v, c, d, about)
	case measure.Inches:
		return close(v, c, d, about)
	case measure.PSI:
		return close(v, c, d, about)
	case measure.Dollars:
		return close(v, c, d, about)
	case Section:
		w, ok := d.Value.(Section)
		return ok && (v.Depth == 0 || w.Depth == 0 || v.Depth == w.Depth) && (v.PerFoot == 0 || w.PerFoot == 0 || v.PerFoot == w.PerFoot)
	case Word:
		// A size with its letters and without.
		w, ok := d.Value.(Word)
		return ok && c.Role == TireSize && sizeDigits(string(v)) == sizeDigits(string(w))
	}
	return false
}

func close[U measure.Unit](v U, c, d *Candidate, about bool) bool {
	w, ok := d.Value.(U)
	if !ok {
		return false
	}
	if h, ok := c.High.(U); ok && v <= w && w <= h {
		return true
	}
	if h, ok := d.High.(U); ok && w <= v && v <= h {
		return true
	}
	return about && measure.Agrees(v, w, 0, true)
}

func sizeDigits(s string) string {
	for len(s) > 0 && (s[0] < '0' || s[0] > '9') {
		s = s[1:]
	}
	return s
}
