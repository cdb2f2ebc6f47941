package walkaround

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"

	"tarepage/internal/captions"
)

// An Item is a piece of equipment that was named of the trailer at hand.
type Item struct {
	Name string // as a listing writes it
	// Optional reports that it can be had and is not on this one.
	Optional bool
	Quote    string
	Start    float64 // seconds
	Offset   int
}

//go:embed equipment.csv
var equipmentTable string

// A piece is one way to say an item of equipment.csv. An item with a key has a place of its own
// in a unit file: it is equipment only where it can be had.
type piece struct {
	item, key string
	words     []string
}

// equipment is the list by the first word of what people say. Common practice, no source.
var equipment = sync.OnceValue(func() map[string][]piece {
	rows, err := csv.NewReader(strings.NewReader(equipmentTable)).ReadAll()
	if err != nil {
		panic("walkaround: equipment.csv: " + err.Error()) // embedded, read by a test
	}
	m := map[string][]piece{}
	for _, r := range rows[1:] {
		for said := range strings.SplitSeq(r[1], "|") {
			for _, words := range orders(strings.Fields(said)) {
				p := piece{r[0], r[2], words}
				first := stem(p.words[0])
				m[first] = append(m[first], p)
			}
		}
	}
	return m
})

// orders are a name and the sentence that says the same: "aluminum wheel", "wheels are aluminum".
func orders(name []string) [][]string {
	out := [][]string{name}
	if n := len(name) - 1; n == 1 || n == 2 {
		for _, is := range []string{"are", "is"} {
			out = append(out, append([]string{name[n], is}, name[:n]...))
		}
	}
	return out
}

// A having is whether an item is on the trailer. What is only named is there, until something is
// said of it: a later statement counts more than an earlier one, a firm one more than either.
type having uint8

const (
	there    having = iota // it is named
	optional               // it can be had
	absent                 // it is not there
	firm                   // it is there, and somebody says so
)

// Where a statement says it: of the item in front of it, of what follows, or of either.
type side uint8

const (
	itemFirst side = iota
	itemLast
	eitherSide
)

// A statement is a phrase that tells whether an item is on the trailer. The example is said
// by a test: it is of a winch.
type statement struct {
	phrase  string
	means   having
	side    side
	example string
}

var statements = []statement{
	{"option", optional, eitherSide, "a winch is an option"},
	{"an option", optional, itemFirst, "a winch is an option"},
	{"option is", optional, itemLast, "one option is a winch"},
	{"options", optional, itemLast, "for options there's a winch"},
	{"optional", optional, eitherSide, "the winch is optional"},
	{"available", optional, itemFirst, "a winch is available"},
	{"upgrade", optional, itemLast, "you can upgrade to a winch"},
	{"step up to", optional, itemLast, "you can step up to a winch"},
	{"is extra", optional, itemFirst, "a winch is extra"},
	{"are extra", optional, itemFirst, "winch and cable are extra"},
	{"that's extra", optional, itemFirst, "a winch, that's extra"},
	{"extra", optional, itemFirst, "the winch would be extra"},
	{"can add", optional, itemLast, "we can add a winch"},
	{"can have", optional, itemLast, "you can have a winch"},
	{"have it with", optional, itemLast, "you could have it with a winch"},
	{"can get it with", optional, itemLast, "you can get it with a winch"},
	{"order it with", optional, itemLast, "you order it with a winch"},
	{"will add", optional, itemLast, "we will add a winch for you"},
	{"we'll add", optional, itemLast, "we'll add a winch for you"},
	{"can install", optional, itemLast, "we can install a winch"},
	{"can mount", optional, itemLast, "we can mount a winch"},
	{"add on", optional, eitherSide, "a winch is an add on"},
	{"extra cost", optional, itemFirst, "a winch is extra cost"},
	{"upcharge", optional, itemFirst, "a winch is an upcharge"},
	{"sold separately", optional, itemFirst, "a winch is sold separately"},
	{"would cost you", optional, itemFirst, "a winch would cost you"},
	{"costs more", optional, itemFirst, "a winch costs more"},
	{"runs extra", optional, itemFirst, "a winch runs extra"},
	{"you can upgrade to", optional, itemLast, "you can upgrade to a winch"},
	{"also offer", optional, itemLast, "we also offer a winch"},
	{"we offer", optional, itemLast, "we offer a winch"},
	{"if you need", optional, itemLast, "if you need a winch we have them"},
	{"didn't order", optional, itemLast, "we didn't order the winch on it"},
	{"doesn't have that", optional, itemFirst, "a winch, this one doesn't have that"},
	{"not equipped with", absent, itemLast, "it is not equipped with a winch"},
	{"did not come with", absent, itemLast, "it did not come with a winch"},
	{"didn't come with", absent, itemLast, "it didn't come with a winch"},
	{"never had", absent, itemLast, "it never had a winch"},
	{"lost the", absent, itemLast, "somebody lost the winch"},
	{"took the", absent, itemLast, "he took the winch off"},
	{"wish it had", absent, itemLast, "i wish it had a winch"},
	{"needs a", absent, itemLast, "it needs a winch"},
	{"equipped with", firm, itemLast, "it's equipped with a winch"},
	{"all of them come with", firm, itemLast, "all of them come with a winch"},
	{"standard equipment", firm, eitherSide, "a winch is standard equipment"},
	{"standard on", firm, itemFirst, "a winch is standard on these"},
	{"no charge", firm, itemFirst, "a winch at no charge"},
	{"thrown in", firm, itemFirst, "a winch thrown in"},
	{"throw in", firm, itemLast, "i'll throw in the winch"},
	{"goes with it", firm, itemFirst, "the winch goes with it"},
	{"stays with it", firm, itemFirst, "the winch stays with it"},
	{"can get", optional, itemLast, "you can get a winch"},
	{"could get", optional, itemLast, "you could get a winch"},
	{"could add", optional, itemLast, "you could add a winch"},
	{"can order", optional, itemLast, "you can order a winch"},
	{"can put", optional, itemLast, "we can put a winch on it"},
	{"can swap", optional, itemFirst, "a winch, we can swap that"},
	{"can be had", optional, itemFirst, "a winch can be had"},
	{"can be added", optional, itemFirst, "a winch can be added"},
	{"can add that", optional, itemFirst, "a winch, we can add that"},
	{"can get it", optional, itemFirst, "a winch, we can get it"},
	{"can get that", optional, itemFirst, "a winch, we can get that"},
	{"can do that", optional, itemFirst, "a winch, we can do that"},
	{"we can do it", optional, itemFirst, "if you want a winch we can do it"},
	{"add a", optional, itemLast, "you want to add a winch"},
	{"add the", optional, itemLast, "to add the winch"},
	{"if you want", optional, eitherSide, "if you want a winch we do that"},
	{"if you want it", optional, itemFirst, "the winch is one eighty five if you want it"},
	{"if you want one", optional, itemFirst, "the winch is one eighty five if you want one"},
	{"you can add", optional, itemFirst, "a winch you can add"},
	{"you can buy", optional, itemFirst, "a winch you can buy"},
	{"can buy one", optional, itemFirst, "the winch is not with it, you can buy one"},
	{"can add one", optional, itemFirst, "it doesn't have a winch. we can add one"},
	{"could add one", optional, itemFirst, "it doesn't have a winch. we could add one"},
	{"can put one on", optional, itemFirst, "there's no winch, we can put one on"},
	{"we can get too", optional, itemFirst, "a winch we can get too"},
	{"you can have", optional, eitherSide, "a winch you can have"},
	{"may be specified", optional, itemFirst, "a winch may be specified"},
	{"is an accessory", optional, itemFirst, "the winch is an accessory"},
	{"order only", optional, itemFirst, "a winch is order only"},
	{"by order", optional, itemFirst, "a winch is by order"},
	{"bucks", optional, itemFirst, "the winch is forty bucks"},
	{"dollars more", optional, itemFirst, "the winch is forty dollars more"},
	{"hundred more", optional, itemFirst, "the winch is two hundred more"},
	{"another hundred", optional, itemFirst, "the winch is another hundred"},
	{"not on this one", optional, itemFirst, "the winch is not on this one"},
	{"isn't on this one", optional, itemFirst, "the winch isn't on this one"},
	{"aren't on this one", optional, itemFirst, "the winch and its cable aren't on this one"},
	{"ain't on this one", optional, itemFirst, "the winch ain't on this one"},
	{"not on here", optional, itemFirst, "the winch is not on here"},
	{"not on it", optional, itemFirst, "the winch is not on it"},
	{"isn't on it", optional, itemFirst, "the winch isn't on it"},
	{"aren't on it", optional, itemFirst, "winch and cable aren't on it"},
	{"not checked", optional, itemFirst, "winch, not checked"},
	{"not furnished", optional, itemFirst, "a winch is not furnished"},
	{"not fitted", optional, itemFirst, "the winch is not fitted"},
	{"aren't included", optional, itemFirst, "winch and cable aren't included"},
	{"isn't included", optional, itemFirst, "the winch isn't included"},
	{"not with this one", optional, itemFirst, "the winch is not with this one"},
	{"not in the price", optional, itemFirst, "the winch is not in the price"},
	{"doesn't have", absent, itemLast, "it doesn't have a winch"},
	{"does not have", absent, itemLast, "it does not have a winch"},
	{"doesn't come with", absent, itemLast, "it doesn't come with a winch"},
	{"don't have", absent, itemLast, "you don't have a winch"},
	{"don't need", absent, itemLast, "you don't need a winch"},
	{"don't ask", absent, itemLast, "don't ask me for a winch"},
	{"ain't got", absent, itemLast, "it ain't got a winch"},
	{"no", absent, itemLast, "there's no winch"},
	{"have to bring", absent, itemFirst, "the winch you have to bring"},
	{"doesn't work", absent, itemFirst, "a winch that doesn't work"},
	{"none on", absent, itemFirst, "winch, none on the trailer"},
	{"not a", absent, itemLast, "this is not a winch"},
	{"not the", absent, itemLast, "not the winch"},
	{"not", absent, itemLast, "a bumper, not winch"},
	{"isn't a", absent, itemLast, "that isn't a winch"},
	{"without", absent, itemLast, "it's without a winch"},
	{"missing", absent, eitherSide, "it's missing the winch"},
	{"is broken", absent, itemFirst, "the winch is broken"},
	{"is gone", absent, itemFirst, "the winch is gone"},
	{"are gone", absent, itemFirst, "winch and cable are gone"},
	{"got stolen", absent, itemFirst, "the winch got stolen"},
	{"was stolen", absent, itemFirst, "the winch was stolen"},
	{"were stolen", absent, itemFirst, "winch and cable were stolen"},
	{"fell off", absent, itemFirst, "the winch fell off"},
	{"broke off", absent, itemFirst, "the winch broke off"},
	{"used to have", absent, itemLast, "it used to have a winch"},
	{"thought it had", absent, itemLast, "I thought it had a winch"},
	{"room for", absent, itemLast, "there's room for a winch"},
	{"ready for", absent, itemLast, "it's ready for a winch"},
	{"instead of", absent, itemLast, "a hook instead of a winch"},
	{"rather than", absent, itemLast, "a hook rather than a winch"},
	{"some of them", absent, itemLast, "some of them have a winch"},
	{"most of them", absent, itemLast, "most of them have a winch"},
	{"is standard", firm, itemFirst, "a winch is standard"},
	{"are standard", firm, itemFirst, "winch and cable are standard"},
	{"that's standard", firm, itemFirst, "a winch, that's standard"},
	{"comes standard", firm, itemFirst, "the winch comes standard"},
	{"comes standard with", firm, itemLast, "it comes standard with a winch"},
	{"is standard with", firm, itemLast, "it is standard with a winch"},
	{"standard is", firm, itemLast, "standard is a winch"},
	{"comes with", firm, itemLast, "it comes with a winch"},
	{"comes with it", firm, itemFirst, "the winch comes with it"},
	{"comes with this one", firm, itemFirst, "the winch comes with this one"},
	{"come with it", firm, itemFirst, "the winch and cable come with it"},
	{"comes with that", firm, itemFirst, "the winch, it comes with that"},
	{"is included", firm, itemFirst, "the winch is included"},
	{"also included", firm, itemLast, "also included a winch"},
	{"'s included", firm, itemFirst, "the winch's included"},
	{"is on it", firm, itemFirst, "the winch is on it"},
	{"is on there", firm, itemFirst, "the winch is on there"},
	{"this one has one", firm, itemFirst, "a winch is an option but this one has one"},
	{"this one has", firm, itemLast, "this one has a winch"},
	{"this one has it", firm, itemFirst, "a winch is an option and this one has it"},
	{"has it", firm, itemFirst, "a winch is an option, it has it"},
	{"have one on this", firm, itemFirst, "a winch, we have one on this"},
	{"no extra charge", firm, itemFirst, "a winch at no extra charge"},
	{"extra heavy", firm, itemLast, "extra heavy winch"},
	{"no problem", there, itemFirst, "a winch, no problem"},
	{"not just", there, itemLast, "not just a winch"},
	{"no need", there, itemFirst, "a winch, no need to ask"},
	{"this one ain't", absent, itemFirst, "the winch, that's fifty, this one ain't"},
	{"this one isn't", absent, itemFirst, "the winch, that's fifty, this one isn't"},
	{"this is not that", absent, itemFirst, "the winch is the expensive one, this is not that"},
	{"this ain't that", absent, itemFirst, "the winch is the expensive one, this ain't that"},
	{"is the expensive one", absent, itemFirst, "the winch is the expensive one"},
	{"is dead", absent, itemFirst, "the winch is dead"},
	{"is shot", absent, itemFirst, "the winch is shot"},
	{"is swelled up", absent, itemFirst, "the winch is swelled up"},
	{"won't hold", absent, itemFirst, "a winch that won't hold"},
	{"does not work", absent, itemFirst, "a winch that does not work"},
	{"broken off", absent, itemFirst, "the winch is broken off"},
	{"for the other one", absent, itemFirst, "a winch for the other one"},
	{"there used to be", absent, itemLast, "there used to be a winch"},
	{"that's another", optional, itemFirst, "now the winch, that's another eight hundred"},
	{"not included", optional, itemFirst, "the winch is not included"},
	{"can throw in", there, itemLast, "i can throw in the winch"},
	{"open like", absent, itemLast, "they open like winch doors"},
	{"opens like", absent, itemLast, "it opens like a winch"},
	{"swings like", absent, itemLast, "it swings like a winch"},
	{"swing like", absent, itemLast, "they swing like a winch"},
	{"is an upgrade", optional, itemFirst, "a winch is an upgrade"},
	{"the same money", optional, itemFirst, "a winch would be the same money"},
	{"don't come with it", absent, itemFirst, "winch and cable don't come with it"},
	{"doesn't come with it", absent, itemFirst, "the winch doesn't come with it"},
	{"extra long", there, itemLast, "an extra long winch"},
	{"extra wide", there, itemLast, "an extra wide winch"},
}

// statementsByFirst are the statements by the first word of their phrase.
var statementsByFirst = sync.OnceValue(func() map[string][]wordedStatement {
	m := map[string][]wordedStatement{}
	for i := range statements {
		w := strings.Fields(strings.ReplaceAll(statements[i].phrase, "'s included", "included"))
		m[w[0]] = append(m[w[0]], wordedStatement{&statements[i], w})
	}
	return m
})

type wordedStatement struct {
	*statement
	words []string
}

// A naming is one time that an item is named.
type naming struct {
	piece
	span
	state having
}

// How many words may lie between a statement and its item, and between two items of a list.
const (
	itemReach = 9
	listReach = 3
)

// Equipment finds what equipment the talk names of the trailer at hand, each item once, in
// the order it is first named.
func Equipment(c captions.Track) []Item {
	text, t := transcript(c)
	return equipmentIn(text, t)
}

func equipmentIn(text string, t []token) []Item {
	h := &hearing{t: t}
	all := h.namings(asidesBy(t, leavingFor))
	h.state(all)
	var out []Item
	place := map[string]int{}
	var states []having
	for i := range all {
		n := &all[i]
		at, named := place[n.item]
		if !named {
			at = len(out)
			place[n.item] = at
			out = append(out, Item{Name: n.item, Quote: text[t[n.from].from:t[n.to-1].to], Start: t[n.from].start, Offset: t[n.from].from})
			states = append(states, n.state)
			continue
		}
		// What is said of it counts more than that it is named, and a firm word the most.
		if n.state == firm || states[at] != firm && n.state != there {
			states[at] = n.state
		}
	}
	kept := out[:0]
	for i, it := range out {
		it.Optional = states[i] == optional
		if states[i] != absent && (it.Optional || keyOf()[it.Name] == "") {
			kept = append(kept, it)
		}
	}
	return kept
}

// keyOf are the keys of the items that have one.
var keyOf = sync.OnceValue(func() map[string]string {
	m := map[string]string{}
	for _, list := range equipment() {
		for _, p := range list {
			m[p.item] = p.key
		}
	}
	return m
})

// namings are the items that are named of this trailer, in order.
func (h *hearing) namings(away []bool) []naming {
	var out []naming
	for i := 0; i < len(h.t); i++ {
		p, n := h.pieceAt(i)
		if n == 0 {
			continue
		}
		if !away[i] {
			state := there
			if h.unsaidAt(i + n) {
				state = absent // "two speed, no, these are single speed"
			}
			out = append(out, naming{p, span{i, i + n}, state})
		}
		i += n - 1
	}
	return out
}

// pieceAt is the longest way to say an item at token i.
func (h *hearing) pieceAt(i int) (best piece, n int) {
	for _, p := range equipment()[stem(h.text(i))] {
		if w := h.saysLoosely(i, p.words); w > n {
			best, n = p, w
		}
	}
	return best, n
}

// padding are words that may stand inside the name of an item: "lights are all LED".
var padding = set("a an the all of real nice good big new brand heavy duty little full")

// ratingWords go with a number inside the name of an item.
var ratingWords = set("k inch foot pound lb pounds inches sixteenths sixteenth by x way speed position ply gauge thousand hundred /")

// ofRating reports a number inside the name of an item, or a word that goes with one.
func (h *hearing) ofRating(i int) bool {
	if _, digits := h.digits(i); digits || isNumberWord(h.word(i)) {
		return true
	}
	after := i > 0 && (h.t[i-1].kind == number || isNumberWord(h.word(i-1)))
	return after && (ratingWords[h.text(i)] || h.is(i, "and") && i+1 < len(h.t) && (h.t[i+1].kind == number || isNumberWord(h.word(i+1))))
}

// saysLoosely tells how many tokens from i say the words, or 0.
func (h *hearing) saysLoosely(i int, words []string) int {
	k := i
	for n, w := range words {
		for skipped := 0; n > 0 && skipped < 2 && padding[h.word(k)] && !h.says(k, words[n:n+1]); skipped++ {
			k++
		}
		for rated := 0; n > 0 && rated < 6 && h.ofRating(k) && !h.says(k, words[n:n+1]); rated++ {
			k++ // "adjustable two and five sixteenths coupler"
		}
		if !h.says(k, []string{w}) {
			return 0
		}
		k++
	}
	return k - i
}

// listed makes the items optional that are read from a list: "Options. Spare mount, forty-five."
func (h *hearing) listed(all []naming) {
	k := 0
	for i := 0; i+1 < len(h.t); i++ {
		if !h.is(i, "options", "extras", "adders") || i > 0 && h.t[i-1].kind != stop || h.t[i+1].kind == word {
			continue
		}
		end := i + 1
		for end < min(i+longestList, len(h.t)) && !(h.t[end-1].kind == stop && listEnds[h.word(end)]) {
			end++
		}
		for ; k < len(all) && all[k].from < end; k++ {
			if all[k].from > i {
				all[k].state = optional
			}
		}
	}
}

// A list of options goes on to a sentence that begins with one of these words.
var listEnds = set("now price weight weights load that's this anyway condition standard so and thanks call")

const longestList = 120 // tokens

// priced makes the items optional that have a price of their own: "a toolbox is four fifty", or
// in a list "toolbox on the tongue one ninety, item six".
func (h *hearing) priced(all []naming) {
	begins := map[int]bool{}
	for _, n := range all {
		begins[n.from] = true
	}
	prices := map[int]int{} // by the token that they begin at: how far in front the item may be
	for _, q := range h.quantities() {
		if reach := h.priceReach(&q, begins[q.to]); reach > 0 {
			prices[q.from] = reach
		}
	}
	for k := range all {
		n := &all[k]
		for i := n.to; i < min(n.to+listedReach, len(h.t)) && !(h.t[i].kind == stop && !h.is(i+1, "that's", "that", "it's")) && !begins[i]; i++ {
			at, reach := i-n.to, prices[i]
			if at < reach && (reach == listedReach && at > 0 && !h.stopIn(n.to, i) || h.onlyPricing(n.to, i)) {
				n.state = optional
				break
			}
		}
	}
}

// How many words may lie between an item and its price where it is called one, and in a list.
const saidReach, listedReach = 4, 9

// priceReach is how far in front the item may be that a quantity is the price of; 0 if it is no
// price. In a list, a new item or the end of a sentence follows the price.
func (h *hearing) priceReach(q *quantity, begins bool) int {
	v, _, ok := q.money()
	if !ok || v < 20 || v > 4000 {
		return 0
	}
	if q.unit == dollars || h.is(q.to, "extra", "more", "installed", "additional", "each", "apiece") || h.is(q.from-1, "runs", "adds", "add", "another", "costs") {
		return saidReach
	}
	listed := begins || h.is(q.to, "item", "that", "option") || q.to < len(h.t) && h.t[q.to].kind != word && h.t[q.to].kind != number
	if listed && q.unit == bare && v >= 60 && v < 2500 && (q.scaled || q.broken || v >= 100) {
		return listedReach
	}
	return 0
}

// onlyPricing reports that nothing lies between an item and its price but the words of one, as far as the
// price is not said of it in a sentence: "the latch and screen is $160".
func (h *hearing) onlyPricing(from, to int) bool {
	if h.is(to-1, "is", "are", "runs", "costs") && !h.stopIn(from, to) {
		return true
	}
	for i := from; i < to; i++ {
		if h.t[i].kind == word && !pricing[h.word(i)] || h.t[i].kind == number {
			return false
		}
	}
	return true
}

// pricing are the words between an item and its price.
var pricing = set("is are runs run adds add costs cost at for another about that's it's would be goes plus you on an option s")

// state gives every statement to the items that it is of.
func (h *hearing) state(all []naming) {
	h.listed(all)
	h.priced(all)
	for i := 0; i < len(h.t); i++ {
		s, n := h.statementAt(i)
		if n == 0 {
			continue
		}
		at := span{i, i + n}
		switch {
		case s.means == there:
		case s.side == itemFirst:
			h.stateBefore(all, at, s.means)
		case s.side == itemLast:
			h.stateAfter(all, at, s.means)
		case !h.stateBefore(all, at, s.means):
			h.stateAfter(all, at, s.means)
		}
		i += n - 1
	}
}

// statementAt is the longest statement at token i.
func (h *hearing) statementAt(i int) (best *statement, n int) {
	for _, s := range statementsByFirst()[h.word(i)] {
		if len(s.words) > n && h.startsWith(i, s.words) {
			best, n = s.statement, len(s.words)
		}
	}
	for _, s := range statementsByFirst()[h.spoken(i)] {
		if len(s.words) > n && h.startsWith(i, s.words) {
			best, n = s.statement, len(s.words)
		}
	}
	return best, n
}

// stateBefore gives a state to the item in front of a statement and to those in one list with
// it. A sentence may end between them only where the statement's own begins with "that" or the
// like.
func (h *hearing) stateBefore(all []naming, at span, state having) bool {
	k := len(all) - 1
	for k >= 0 && all[k].to > at.from {
		k--
	}
	if k < 0 || at.from-all[k].to > itemReach {
		return false
	}
	for i := all[k].to; i < at.from; i++ {
		if h.t[i].kind == stop && !h.is(i+1, "that", "those", "it", "they", "but", "which", "four", "and", "we", "not") {
			return false
		}
		if joins[h.word(i)] && i+1 < at.from && h.is(i+1, "the", "a", "that") && state != firm {
			return false // "... and the price is extra"
		}
	}
	for {
		all[k].state = state
		if k == 0 || !h.inList(all[k-1].to, all[k].from) {
			return true
		}
		k--
	}
}

// stateAfter gives a state to the item that follows a statement and to those in one list
// with it.
func (h *hearing) stateAfter(all []naming, at span, state having) bool {
	reach := itemReach
	if state == absent {
		reach = 5
	}
	k := 0
	for k < len(all) && all[k].from < at.to {
		k++
	}
	if k == len(all) || all[k].from-at.to > reach {
		return false
	}
	for i := at.to; i < all[k].from; i++ {
		if h.t[i].kind == stop || state == absent && (h.t[i].kind == comma || h.is(i, "but", "it's", "just")) {
			return false
		}
	}
	for {
		all[k].state = state
		if k+1 == len(all) || !h.inList(all[k].to, all[k+1].from) || state == absent && !h.is(all[k+1].from-1, "or", "a", "and") {
			return true
		}
		k++
	}
}

// inList reports that nothing lies between two items but the words of a list.
func (h *hearing) inList(from, to int) bool {
	if to-from > listReach {
		return false
	}
	joined := false
	for i := from; i < to; i++ {
		if h.t[i].kind == comma || h.is(i, "and", "or", "plus", "also") {
			joined = true
		} else if !h.is(i, "a", "an", "the") {
			return false
		}
	}
	return joined
}
