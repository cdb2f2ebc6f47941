package walkaround

import (
	"strings"

	"tarepage/internal/captions"
)

// A Saying is what was said in one clause: up to a full stop, a pause, or where the speaker
// turns to the next thing, since automatic captions have no stops.
type Saying struct {
	Text  string
	Start float64 // seconds
	// Another reports that it is said of another unit, or of one that might be.
	Another bool
}

// Sayings cuts what was said in the captions into clauses.
func Sayings(c captions.Track) []Saying {
	text, t := transcript(c)
	away := asides(t)
	var out []Saying
	for _, s := range clauses(t) {
		out = append(out, Saying{strings.TrimSpace(text[t[s.from].from:t[s.to-1].to]), t[s.from].start, away[s.from]})
	}
	return out
}

// OfAnother reports that written notes speak of another unit, or of one that might be.
func OfAnother(text string) bool {
	for _, away := range asides(tokens(text)) {
		if away {
			return true
		}
	}
	return false
}

// A span is the tokens from from to to.
type span struct{ from, to int }

// openers begin a clause in talk without stops, unless one of their own stands before
// them.
var openers = set(`and but so now then because the it she he they you we i there that this these those got your our also plus anyway`)

// joins are the openers that also stand between two things of one clause.
var joins = set("and but plus also")

// holders are the words after which no clause begins: what follows belongs to them.
var holders = set(`on of in to for with like that at by from under over is are was were be and but so than the a an per between around about
	inside behind off into onto has have had got if when because as or not it's which what where how who all both each every do does did can
	could would will missing see put get need want add take takes needs run runs open close pull use using love not ain't isn't doesn't don't hasn't aren't wasn't never`)

// clauses cuts tokens into clauses.
func clauses(t []token) []span {
	h := &hearing{t: t}
	var out []span
	from := 0
	cut := func(to int) {
		for from < to && t[from].kind != word && t[from].kind != number {
			from++
		}
		if to > from {
			out = append(out, span{from, to})
		}
		from = to
	}
	for i := range t {
		switch {
		case t[i].kind == stop:
			cut(i)
		case joins[h.word(i)] && !openers[h.word(i+1)] && !h.is(i+1, "got", "has", "comes", "come"):
			// "a spare tire and wheel" is one thing said
		case i > from && openers[h.word(i)] && !holders[h.word(i-1)] && !(h.t[i-1].possessive && i-1 == from):
			cut(i)
		}
	}
	cut(len(t))
	return out
}
