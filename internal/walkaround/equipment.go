package walkaround

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"

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

// A piece is one way to say an item of equipment.csv.
type piece struct {
	item  string
	words []string
}

// equipment is the list by the first word of what people say. Common practice, no source.
var equipment = func() map[string][]piece {
	rows, err := csv.NewReader(strings.NewReader(equipmentTable)).ReadAll()
	if err != nil {
		panic("walkaround: equipment.csv: " + err.Error()) // embedded, read by a test
	}
	m := map[string][]piece{}
	for _, r := range rows[1:] {
		for said := range strings.SplitSeq(r[1], "|") {
			p := piece{r[0], strings.Fields(said)}
			first := stem(p.words[0])
			m[first] = append(m[first], p)
		}
	}
	return m
}()

// A statement is a phrase that tells whether an item is on the trailer. The example is said
// by a test: it is of a winch.
type statement struct {
	phrase   string
	optional bool // it can be had
	absent   bool // it is not there, and nothing is said of having it
	example  string
}

var statements = []statement{
	{"option", true, false, "a winch is an option"},
	{"options", true, false, "for options there's a winch"},
	{"optional", true, false, "the winch is optional"},
	{"available", true, false, "a winch is available"},
	{"upgrade", true, false, "you can upgrade to a winch"},
	{"extra", true, false, "a winch is extra"},
	{"can add", true, false, "we can add a winch"},
	{"can get", true, false, "you can get a winch"},
	{"could add", true, false, "you could add a winch"},
	{"can order", true, false, "you can order a winch"},
	{"can put", true, false, "we can put a winch on it"},
	{"can be had", true, false, "a winch can be had"},
	{"add a", true, false, "you want to add a winch"},
	{"if you want", true, false, "if you want a winch we do that"},
	{"not on this one", true, false, "the winch is not on this one"},
	{"isn't on this one", true, false, "the winch isn't on this one"},
	{"doesn't have", false, true, "it doesn't have a winch"},
	{"does not have", false, true, "it does not have a winch"},
	{"doesn't come with", false, true, "it doesn't come with a winch"},
	{"don't have", false, true, "you don't have a winch"},
	{"ain't got", false, true, "it ain't got a winch"},
	{"no", false, true, "there's no winch"},
	{"without", false, true, "it's without a winch"},
	{"missing", false, true, "it's missing the winch"},
	{"broken", false, true, "the winch is broken"},
	{"used to have", false, true, "it used to have a winch"},
	{"room for", false, true, "there's room for a winch"},
	{"ready for", false, true, "it's ready for a winch"},
	{"not included", true, false, "the winch is not included"},
}

var statementWords = func() [][]string {
	var out [][]string
	for _, s := range statements {
		out = append(out, strings.Fields(s.phrase))
	}
	return out
}()

// Equipment finds what equipment the talk names of the trailer at hand, each item once, in
// the order it is first named.
func Equipment(c captions.Track) []Item {
	text, t := transcript(c)
	return equipmentIn(text, t)
}

func equipmentIn(text string, t []token) []Item {
	h := &hearing{t: t}
	away := asidesBy(t, leavingFor)
	var out []Item
	spans := clauses(t)
	for n, s := range spans {
		state := h.stated(t, spans, n)
		for i := s.from; i < s.to; i++ {
			p, length := h.pieceAt(i)
			if length == 0 {
				continue
			}
			if !away[i] && !(state.absent && h.absentAt(i, i+length, s)) {
				at := slices.IndexFunc(out, func(o Item) bool { return o.Name == p.item })
				switch {
				case at < 0:
					out = append(out, Item{p.item, state.optional, text[t[i].from:t[i+length-1].to], t[i].start, t[i].from})
				case out[at].Optional && !state.optional && h.firm(s):
					out[at].Optional = false // "... and this one has it"
				}
			}
			i += length - 1
		}
	}
	return out
}

// pieceAt is the longest way to say an item at token i.
func (h *hearing) pieceAt(i int) (best piece, n int) {
	for _, p := range equipment[stem(h.text(i))] {
		if len(p.words) > n && h.says(i, p.words) {
			best, n = p, len(p.words)
		}
	}
	return best, n
}

// stated is what a clause says of having the things it names, or else the clause that
// follows and says "that's an option".
func (h *hearing) stated(t []token, spans []span, n int) statement {
	s := h.statementIn(spans[n].from, spans[n].to)
	if s.phrase == "" && n+1 < len(spans) && h.is(spans[n+1].from, "that", "those", "it", "they", "which", "but", "and") {
		next := spans[n+1]
		if next.to-next.from <= 9 {
			if f := h.statementIn(next.from, next.to); f.optional {
				_, named := h.anyPiece(next)
				if !named {
					return f
				}
			}
		}
	}
	// A list of options goes on over its commas and ands until the next sentence.
	if s.phrase == "" && n > 0 && t[spans[n].from-1].kind != stop && spans[n].to-spans[n].from <= 6 {
		f := h.statementIn(spans[n-1].from, spans[n-1].to)
		_, named := h.anyPiece(spans[n-1])
		if f.optional && (!named || h.is(spans[n].from, "and", "or", "also", "plus")) {
			return f
		}
	}
	return s
}

func (h *hearing) anyPiece(s span) (piece, bool) {
	for i := s.from; i < s.to; i++ {
		if p, n := h.pieceAt(i); n > 0 {
			return p, true
		}
	}
	return piece{}, false
}

// statementIn is the longest statement in a clause.
func (h *hearing) statementIn(from, to int) statement {
	best, n := statement{}, 0
	for i := from; i < to; i++ {
		for k, w := range statementWords {
			if len(w) > n && h.startsWith(i, w) && !(h.is(i, "no", "extra") && h.is(i+1, "extra", "charge", "problem", "doubt", "heavy", "long", "wide", "cost", "question")) {
				best, n = statements[k], len(w)
			}
		}
	}
	return best
}

// absentAt reports that the denial is of the item from i to end: "no winch, LED lights" has
// lights.
func (h *hearing) absentAt(i, end int, s span) bool {
	for k := max(s.from, i-5); k < min(s.to, end+4); k++ {
		for n, w := range statementWords {
			if statements[n].absent && h.startsWith(k, w) && (k < i || w[0] == "broken" || w[0] == "missing") {
				return true
			}
		}
	}
	return false
}

// firm reports a clause that says the trailer has what it names.
func (h *hearing) firm(s span) bool {
	for i := s.from; i < s.to; i++ {
		if h.is(i, "standard", "included", "has", "got") || h.is(i, "comes") && h.is(i+1, "with") {
			return true
		}
	}
	return false
}
