package walkaround

// Two trailers in one recording are often told apart by a word each: the white one and the
// charcoal one, the aluminum and the galvanized. This file finds the two words and follows which
// of the two the talk is about.

// nameWords are the words that tell two trailers apart, by what they are of: two names come from
// one line. Common practice, no source.
var nameWords = func() map[string]int {
	m := map[string]int{}
	for i, line := range []string{
		"white black red blue gray grey charcoal green yellow orange silver tan brown beige pewter",
		"aluminum steel galvanized",
		"left right",
		"big little bigger smaller large small long short longer shorter",
		"first second",
		"single tandem triple",
		"new used old older newer",
		"gooseneck bumper tag deckover dump tilt enclosed flatbed utility",
		"ten twelve fourteen sixteen eighteen twenty 10 12 14 16 18 20 22 24",
	} {
		for w := range set(line) {
			m[w] = i + 1
		}
	}
	return m
}()

// called are the words after which a name is of a trailer and not of a part: "the white one",
// "charcoal has", "on the galvanized it's".
var called = set("one one's ones unit footer foot's is has weighs gets comes sits got was you it's we it and you'll i")

// nameAt is the name of a trailer at token i, or nothing. Sure reports the form "the white one".
func (h *hearing) nameAt(i int) (name string, sure bool) {
	w := h.text(i)
	if nameWords[w] == 0 {
		return "", false
	}
	first := i == 0 || h.t[i-1].kind != word
	the := h.is(i-1, "the")
	end := i+1 >= len(h.t) || h.t[i+1].kind == stop || h.t[i+1].kind == comma
	switch {
	case h.is(i+1, "one", "ones", "unit", "footer", "trailer"):
		return w, the || first || h.is(i-1, "this", "that", "of", "and", "but", "so")
	case the && (end || called[h.word(i+1)] || h.t[i].possessive || h.t[i+1].kind == number),
		first && (end || h.t[i].possessive || h.is(i+1, "is", "has", "gets", "was", "grosses", "weighs", "sits", "wears", "takes")):
		return w, false
	}
	return "", false
}

// leastNamings is how often two names are said at least in talk that tells trailers apart by them.
const leastNamings = 2

// twoNames are the two names of a talk about two trailers, the first one first, or nothing.
func (h *hearing) twoNames() (first, second string) {
	times, sure := map[string]int{}, map[string]int{}
	var order []string
	for i := range h.t {
		name, s := h.nameAt(i)
		if name == "" {
			continue
		}
		if times[name] == 0 {
			order = append(order, name)
		}
		times[name]++
		if s {
			sure[name]++
		}
	}
	for a, x := range order {
		for _, y := range order[a+1:] {
			if nameWords[x] == nameWords[y] && times[x] >= leastNamings && times[y] >= leastNamings && sure[x]+sure[y] >= leastNamings {
				return x, y
			}
		}
	}
	return "", ""
}

// sellingWords say which of two trailers the recording is about, next to its name.
var sellingWords = [][]string{{"i'm", "selling"}, {"selling", "you"}, {"for", "sale"}, {"to", "sell"}, {"for", "the", "listing"}, {"start", "with"}, {"want", "to", "talk", "about"},
	{"video", "is", "for"}, {"looking", "at"}, {"you're", "getting"}, {"we're", "selling"}, {"i'd", "sell"}}

// sold reports that the name at token i is of the trailer that is sold.
func (h *hearing) sold(i int) bool {
	for k := max(0, i-8); k < min(len(h.t), i+6); k++ {
		for _, w := range sellingWords {
			if h.startsWith(k, w) && !h.denied(k) {
				return true
			}
		}
	}
	return false
}

// interleaved is how often the second name is said in talk that goes back and forth. A name is then
// of its own sentence.
const interleaved = 3

// byRole are the two names of a talk, that of the trailer that is sold first.
func (h *hearing) byRole() (first, second string) {
	first, second = h.twoNames()
	for i := range h.t {
		switch name, _ := h.nameAt(i); {
		case name == "" || !h.sold(i):
		case name == first:
			return first, second
		case name == second:
			return second, first
		}
	}
	return first, second
}

// ofSecondName tells of each token whether the talk is about the second of two named trailers. What
// is said of both is of the first too. A name at the end of a clause is of that clause alone: "an
// option on the white one". So is a third name, as "the big one", which may be either.
func (h *hearing) ofSecondName() []bool {
	first, second := h.byRole()
	if first == "" {
		return nil
	}
	times := 0
	for i := range h.t {
		if name, _ := h.nameAt(i); name == second {
			times++
		}
	}
	f := &follower{h: h, first: first, second: second, forth: times >= interleaved, out: make([]bool, len(h.t))}
	for i := range h.t {
		f.edge(i)
		f.turn(i)
		f.out[i] = f.of
	}
	return f.out
}

// A follower knows which of two named trailers the talk is about.
type follower struct {
	h             *hearing
	first, second string
	forth         bool // the talk goes back and forth
	out           []bool
	of, back      bool // it is about the second one, and whether it was before this clause
	local         bool // only this clause is
	begin, since  int  // tokens at which the clause and what is of one trailer begin
}

// edge ends at token i what is of one clause alone.
func (f *follower) edge(i int) {
	t := f.h.t
	ends := t[i].kind == stop || t[i].kind == comma
	if !ends && !(clauseWord[f.h.word(i)] && !holders[f.h.word(i-1)] && i > f.begin+2) {
		return
	}
	f.begin = i
	if ends {
		f.begin = i + 1
	}
	if f.local && (t[i].kind == stop || i-f.since > longSentence) {
		f.of, f.local = f.back, false
	}
}

// turn follows a name at token i: its whole clause is of that trailer.
func (f *follower) turn(i int) {
	turn, is, local := f.h.unitTurn(i, f.first, f.second, f.of)
	if !turn {
		return
	}
	end := i + 1
	for f.h.is(end, "one", "ones", "unit", "trailer", "footer", "too") {
		end++
	}
	last := end >= len(f.h.t) || f.h.t[end].kind == stop || f.h.t[end].kind == comma
	if !f.local {
		f.back = f.of && !f.forth
	}
	f.since = i
	f.of, f.local = is, is && (last && i > f.begin+3 || local || f.forth)
	for k := f.begin; k < i; k++ {
		f.out[k] = f.of
	}
}

// unitTurn tells whether token i turns to one of two trailers: whether to the second, and whether
// for its own clause only.
func (h *hearing) unitTurn(i int, first, second string, of bool) (turn, is, local bool) {
	name, sure := h.nameAt(i)
	switch {
	case name == first, h.is(i, "both", "either") && !h.is(i+1, "axles", "sides", "brakes", "walls"), h.is(i, "mine") && h.is(i-1, "on", "of"):
		return true, false, false
	case name == second:
		return true, true, false
	case sure && name != "" && nameWords[name] != nameWords[first]:
		return true, true, true
	case h.is(i, "over") && h.is(i+1, "there"):
		return true, true, true
	case h.is(i, "other") && h.is(i+1, "one", "one's", "trailer", "unit", "other's"), h.is(i, "other") && h.t[i].possessive:
		return true, !of, false
	}
	return false, false, false
}
