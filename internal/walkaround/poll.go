package walkaround

import "slices"

// A poll holds the mentions that have one key, in the order they are said. Mentions of one opinion agree
// with the same others, so agreement is counted for each opinion, and once: a talk may have thousands of
// figures.
type poll struct {
	mentions []int   // indexes into the decided figures
	own      []int32 // of each mention: its weight without the others
	of       []int   // of each mention: its opinion
	opinions []opinion
	support  []int32 // of each opinion: how many mentions agree with it
}

// An opinion is a value, and whether it is meant roughly.
type opinion struct {
	value Value
	rough bool
}

// agrees reports whether an opinion says the same as another one.
func (o *opinion) agrees(other *opinion) bool {
	return o.value == other.value || same(o.value, other.value, o.rough || other.rough)
}

// poll gathers the mentions of a key. Due is what a value gains by what is known of the others.
func (h *hearing) poll(ds []decided, row int, due map[Value]int32) *poll {
	p := &poll{}
	at := map[opinion]int{}
	var votes []int32
	for k := range ds {
		d := &ds[k]
		if d.pick < 0 || d.choices[d.pick].row != row {
			continue
		}
		ch := &d.choices[d.pick]
		own := ch.score + h.credit(d) + due[ch.value]
		if d.compare != Equal {
			own -= scale
		}
		if h.saysExactly(d) {
			own += 2 * scale
		}
		o := opinion{ch.value, d.compare != Equal || ch.high != nil}
		n, known := at[o]
		if !known {
			n = len(p.opinions)
			at[o] = n
			p.opinions, votes = append(p.opinions, o), append(votes, 0)
		}
		votes[n]++
		p.mentions, p.own, p.of = append(p.mentions, k), append(p.own, own), append(p.of, n)
	}
	p.support = make([]int32, len(p.opinions))
	for a := range p.opinions {
		for b := range p.opinions {
			if p.opinions[a].agrees(&p.opinions[b]) {
				p.support[a] += votes[b]
			}
		}
	}
	return p
}

// contest finds the mention that wins the key, as an index into the decided figures, and one that says
// something else, as an index into the mentions. Either is -1 where there is none.
func (p *poll) contest() (best, loser int) {
	at, most := -1, int32(0)
	for i, n := range p.of {
		if total := p.own[i] + scale*(p.support[n]-1); at < 0 || total > most {
			at, most = i, total
		}
	}
	if at < 0 {
		return -1, -1
	}
	won := &p.opinions[p.of[at]]
	for i, n := range p.of {
		if n != p.of[at] && !p.opinions[n].agrees(won) {
			return p.mentions[at], i
		}
	}
	return p.mentions[at], -1
}

// leave takes mention i out of the poll.
func (p *poll) leave(i int) {
	gone := &p.opinions[p.of[i]]
	for n := range p.opinions {
		if p.opinions[n].agrees(gone) {
			p.support[n]--
		}
	}
	p.mentions, p.own, p.of = slices.Delete(p.mentions, i, i+1), slices.Delete(p.own, i, i+1), slices.Delete(p.of, i, i+1)
}
