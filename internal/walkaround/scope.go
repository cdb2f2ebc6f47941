package walkaround

import "strings"

// A turn is a phrase with which talk leaves the trailer at hand, or comes back to it. The
// examples are said by a test: the first weight is of another trailer or of none.
type turn struct {
	phrase  string
	example string
	might   bool // it is of this trailer as it might be
}

// leaves begin talk of something else: another trailer, a truck, a person's own story,
// what might be. Common practice, no source.
var leaves = []turn{
	{"the other one", "the other one is a gooseneck", false},
	{"that one", "that one is a gooseneck", false},
	{"that other", "that other trailer is a gooseneck", false},
	{"another one", "another one we have is a gooseneck", false},
	{"other trailer", "the other trailer is a gooseneck", false},
	{"other trailers", "other trailers are a gooseneck", false},
	{"second one's", "the second one's a gooseneck", false},
	{"her sister", "her sister is a gooseneck", false},
	{"next to it", "the one next to it is a gooseneck", false},
	{"beside it", "the one beside it is a gooseneck", false},
	{"behind it", "the one behind it is a gooseneck", false},
	{"over there", "the one over there is a gooseneck", false},
	{"over yonder", "the one over yonder is a gooseneck", false},
	{"next door", "the man next door has a gooseneck", false},
	{"about the one", "ask me about the one with a gooseneck", false},
	{"bigger one", "the bigger one is a gooseneck", false},
	{"smaller one", "the smaller one is a gooseneck", false},
	{"next size up", "the next size up is a gooseneck", false},
	{"we also have", "we also have a gooseneck", false},
	{"also comes in", "it also comes in a gooseneck", false},
	{"also available", "also available as a gooseneck", true},
	{"we can order", "we can order a gooseneck", true},
	{"can order", "you can order it as a gooseneck", true},
	{"can get it", "you can get it as a gooseneck", true},
	{"could get", "you could get a gooseneck", true},
	{"we make", "we make a gooseneck too", false},
	{"they make", "they make a gooseneck too", false},
	{"we sold", "we sold a gooseneck", false},
	{"i sold", "i sold a gooseneck", false},
	{"my neighbor", "my neighbor has a gooseneck", false},
	{"neighbor", "a neighbor has a gooseneck", false},
	{"my brother", "my brother has a gooseneck", false},
	{"my dad", "my dad has a gooseneck", false},
	{"my buddy", "my buddy has a gooseneck", false},
	{"my truck", "my truck pulls a gooseneck", false},
	{"my old", "my old trailer was a gooseneck", false},
	{"my first", "my first trailer was a gooseneck", false},
	{"my last", "my last trailer was a gooseneck", false},
	{"my own", "my own is a gooseneck", false},
	{"mine", "mine is a gooseneck", false},
	{"a customer", "a customer wanted a gooseneck", false},
	{"customers", "customers want a gooseneck", false},
	{"a guy", "a guy wanted a gooseneck", false},
	{"a fella", "a fella wanted a gooseneck", false},
	{"somebody", "somebody wanted a gooseneck", false},
	{"if you", "if you wanted a gooseneck", true},
	{"if i", "if i had a gooseneck", true},
	{"used to", "we used to have a gooseneck", false},
	{"compared to", "compared to a gooseneck", false},
	{"instead of", "instead of a gooseneck", false},
	{"rather than", "rather than a gooseneck", false},
	{"better than", "better than a gooseneck", false},
	{"more than a", "more than a gooseneck", false},
	{"the competition", "the competition sells a gooseneck", false},
	{"other dealers", "other dealers sell a gooseneck", false},
	{"other guys", "the other guys sell a gooseneck", false},
	{"most trailers", "most trailers are a gooseneck", false},
	{"most of them", "most of them are a gooseneck", false},
	{"his deck", "his deck is a gooseneck", false},
	{"his trailer", "his trailer is a gooseneck", false},
	{"his is", "his is a gooseneck", false},
	{"we had", "we had a gooseneck", false},
	{"he had", "he had a gooseneck", false},
	{"he has", "he has a gooseneck", false},
	{"they had", "they had a gooseneck", false},
	{"looking for", "looking for a gooseneck", false},
	{"little ones", "brakes on the little ones, they are a gooseneck", false},
	{"big ones", "the big ones are a gooseneck", false},
	{"optional", "a gooseneck is optional", true},
	{"an option", "a gooseneck is an option", true},
	{"sister", "its sister is a gooseneck", false},
	{"the other model", "the other model is a gooseneck", false},
	{"the base model", "the base model is a gooseneck", false},
	{"new ones", "new ones have a gooseneck", false},
}

// returns come back to the trailer at hand.
var returns = []turn{
	{"this one", "that one is red, this one is a gooseneck", false},
	{"this is", "that one is red, this is a gooseneck", false},
	{"this trailer", "that one is red, this trailer is a gooseneck", false},
	{"this here", "that one is red, this here is a gooseneck", false},
	{"this thing", "that one is red, this thing is a gooseneck", false},
	{"but this", "that one is red but this is a gooseneck", false},
	{"ours", "theirs has one axle but ours is a gooseneck", false},
	{"anyway", "that one is red, anyway it's a gooseneck", false},
	{"anyhow", "that one is red, anyhow it's a gooseneck", false},
	{"now this", "that one is red, now this is a gooseneck", false},
	{"back to", "that one is red, back to our gooseneck", false},
	{"moving on", "that one is red, moving on, it's a gooseneck", false},
	{"all right", "that one is red, all right, it's a gooseneck", false},
	{"alright", "that one is red, alright, it's a gooseneck", false},
	{"okay so", "that one is red, okay so it's a gooseneck", false},
}

// seconds begin the description of another trailer in the same recording. It runs on over
// stops, until the talk comes back to the first or ends.
var seconds = []turn{
	{"walking over to the", "it's a flatbed. walking over to the red one. it is a gooseneck", false},
	{"walk over to the", "it's a flatbed. let's walk over to the red one. it is a gooseneck", false},
	{"walk with me", "it's a flatbed. okay walk with me over here. it is a gooseneck", false},
	{"come with me", "it's a flatbed. come with me over here. it is a gooseneck", false},
	{"going over to the", "it's a flatbed. we're going over to the red one. it is a gooseneck", false},
	{"over to the other", "it's a flatbed. over to the other one. it is a gooseneck", false},
	{"this is the other", "it's a flatbed. this is the other one. it is a gooseneck", false},
	{"now the other", "it's a flatbed. now the other one. it is a gooseneck", false},
	{"the second trailer", "it's a flatbed. now the second trailer. it is a gooseneck", false},
	{"the second one", "it's a flatbed. the second one here. it is a gooseneck", false},
	{"second one here", "it's a flatbed. second one here. it is a gooseneck", false},
	{"smaller unit", "it's a flatbed. smaller unit. it is a gooseneck", false},
	{"bigger unit", "it's a flatbed. bigger unit. it is a gooseneck", false},
	{"next unit", "it's a flatbed. next unit. it is a gooseneck", false},
	{"other unit", "it's a flatbed. other unit. it is a gooseneck", false},
	{"unit two", "it's a flatbed. unit two. it is a gooseneck", false},
	{"trailer two", "it's a flatbed. trailer two. it is a gooseneck", false},
	{"second unit", "it's a flatbed. second unit. it is a gooseneck", false},
	{"trailer number two", "it's a flatbed. trailer number two. it is a gooseneck", false},
	{"number two is", "it's a flatbed. number two is red. it is a gooseneck", false},
	{"next one over", "it's a flatbed. the next one over is red. it is a gooseneck", false},
	{"next to it we have", "it's a flatbed. next to it we have the red one. it is a gooseneck", false},
	{"next to it we got", "it's a flatbed. next to it we got the red one. it is a gooseneck", false},
	{"one next to it the", "it's a flatbed. that one next to it the big one. it is a gooseneck", false},
}

// comings end the description of another trailer.
var comings = []turn{
	{"back to", "the second trailer is red. back to the gooseneck", false},
	{"back over to", "the second trailer is red. back over to the gooseneck", false},
	{"but this one here", "the second trailer is red. but this one here is a gooseneck", false},
	{"the first one", "the second trailer is red. the first one is a gooseneck", false},
	{"the first trailer", "the second trailer is red. the first trailer is a gooseneck", false},
	{"as for this one", "the second trailer is red. as for this one it's a gooseneck", false},
}

// turnsOf are phrases by their first word.
func turnsOf(list []turn, might bool) map[string][][]string {
	m := map[string][][]string{}
	for _, x := range list {
		if x.might && !might {
			continue
		}
		w := strings.Fields(x.phrase)
		m[w[0]] = append(m[w[0]], w)
	}
	return m
}

var leaving, leavingFor, returning = turnsOf(leaves, true), turnsOf(leaves, false), turnsOf(returns, true)
var seconding, coming = turnsOf(seconds, true), turnsOf(comings, true)

// opening is how many tokens people take at most to say what the trailer is.
const opening = 80

// introductions begin the description of a trailer, the first or another one.
var introductions = turnsOf([]turn{{phrase: "this here is"}, {phrase: "this is the"}, {phrase: "this is a"}, {phrase: "this is our"}, {phrase: "here is the"}, {phrase: "here is a"},
	{phrase: "here we have"}, {phrase: "here we got"}, {phrase: "then we have"}, {phrase: "then we got"}, {phrase: "next is the"}, {phrase: "next is a"}}, true)

// introduces reports that token i begins to speak of a trailer of another kind than the first.
func (h *hearing) introduces(i int, first Word) bool {
	n := h.anyAt(introductions, i)
	if n == 0 || first == "" {
		return false
	}
	kind := h.kindIn(i+n, min(i+n+5, len(h.t)))
	return kind != "" && kind != first
}

// kindIn is the first kind of trailer that is named by its whole name between two tokens.
func (h *hearing) kindIn(from, to int) Word {
	for i := from; i < to; i++ {
		if h.is(i, "dolly") {
			return "tow-dolly"
		}
		for _, r := range wordsByFirst[stem(h.word(i))] {
			if r.role == kindKey && len(r.words) > 1 && h.says(i, r.words) {
				return r.value
			}
		}
	}
	return ""
}

// others tells of each token whether it is in the description of another trailer.
func others(t []token) []bool {
	h := &hearing{t: t}
	out := make([]bool, len(t))
	away := false
	announced := 0 // tokens that an announcement of two trailers may still run
	first := h.kindIn(0, min(opening, len(t)))
	for i := range t {
		switch {
		case h.anyAt(coming, i) > 0 || away && first != "" && i > opening && h.is(i, "the") && h.kindIn(i+1, min(i+4, len(t))) == first:
			away = false
		case h.anyAt(seconding, i) > 0 && (i < opening && h.announces(i) || h.compares(i+h.anyAt(seconding, i))):
			announced = furthest
		case h.anyAt(seconding, i) > 0 || i > opening && h.introduces(i, first):
			away = true
		}
		if announced > 0 {
			announced--
			if t[i].kind == stop {
				announced = 0
			}
		}
		out[i] = away || announced > 0
	}
	for i, second := range h.ofSecondName() {
		out[i] = out[i] || second
	}
	return out
}

// compares reports that token i says after a name of another trailer what that one has: "the next one
// over has a seam in it". Such talk is over in a sentence, and does not describe that trailer.
func (h *hearing) compares(i int) bool {
	return h.is(i, "has", "had", "have", "doesn't", "don't", "didn't", "hasn't", "does", "did", "came", "comes")
}

// announces reports that two trailers are named in front of token i as what the recording is about.
func (h *hearing) announces(i int) bool {
	for k := max(0, i-opening/2); k < i; k++ {
		if h.is(k, "both", "two") && h.is(k+1, "of", "units", "trailers") || h.is(k, "first") && h.is(k+1, "one", "one's") {
			return true
		}
	}
	return false
}

// furthest is how many words talk of something else may run where nothing ends it, as
// captions without stops do not.
const furthest = 16

// asides tells of each token whether it is of something else than the trailer at hand. It
// begins with the clause that turns away, and ends at a stop or where the talk returns.
func asides(t []token) []bool { return asidesBy(t, leaving) }

func asidesBy(t []token, leaving map[string][][]string) []bool {
	h := &hearing{t: t}
	out := others(t)
	begin := 0 // of the clause
	left := 0  // tokens that the aside may still run
	for i := range t {
		if t[i].kind == stop {
			left, begin = 0, i+1
			continue
		}
		if t[i].kind == comma || clauseWord[h.word(i)] && !holders[h.word(i-1)] && i > begin+2 {
			begin = i
		}
		if left > 0 && h.anyAt(returning, i) > 0 && h.anyAt(leaving, i) == 0 {
			left = 0
		}
		if left == 0 && h.anyAt(leaving, i) > 0 && !(h.is(i, "if") && h.is(i+2, "look", "see", "notice", "come")) {
			left = furthest
			for k := begin; k < i; k++ {
				out[k] = true
			}
		}
		if left > 0 {
			out[i] = true
			left--
		}
	}
	return out
}

func (h *hearing) anyAt(m map[string][][]string, i int) int {
	for _, w := range m[h.word(i)] {
		if h.startsWith(i, w) {
			return len(w)
		}
	}
	return 0
}

// clauseWord are the words that a new clause begins with.
var clauseWord = set(`and but so now then because while where which the it it's she she's he they they're you you've you'll we we've i i've i'm
	there there's that that's this these those got comes has your our also plus`)
