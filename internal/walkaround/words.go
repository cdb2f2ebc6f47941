package walkaround

import (
	"slices"
	"strings"

	"tarepage/internal/captions"
	"tarepage/internal/kinds"
)

// A spokenKind is a phrase and the word of the unit file that it means.
type spokenKind struct {
	role   Role
	value  Word
	phrase string
}

// spokenKinds are the phrases that are heard, without those for the kind of trailer, which
// internal/kinds holds. The values are the unit file's own.
var spokenKinds = []spokenKind{
	{"hitch.kind", "bumper-pull", "bumper pull"},
	{"hitch.kind", "gooseneck", "gooseneck"},
	{"hitch.kind", "gooseneck", "goose neck"},
	{"hitch.kind", "fifth-wheel", "fifth wheel"},
	{"hitch.kind", "pintle", "pintle"},
	{"brakes.kind", "electric", "electric brakes"},
	{"brakes.kind", "electric", "brakes are electric"},
	{"brakes.kind", "electric over hydraulic", "electric over hydraulic"},
	{"brakes.kind", "hydraulic disc", "hydraulic disc"},
	{"axles.suspension", "torsion", "torsion"},
	{"axles.suspension", "leaf spring", "leaf spring"},
	{"axles.suspension", "leaf spring", "leaf springs"},
	{"axles.suspension", "slipper spring", "slipper spring"},
	{"axles.suspension", "slipper spring", "slipper springs"},
	{"axles.hubs", "oil bath", "oil bath"},
	{"deck.tail-kind", "hydraulic dovetail", "hydraulic dovetail"},
	{"deck.tail-kind", "hydraulic dovetail", "hydraulic tail"},
	{"deck.tail-kind", "dovetail", "dovetail"},
	{"deck.tail-kind", "dovetail", "dove tail"},
	{"deck.tail-kind", "beavertail", "beaver tail"},
	{"deck.tail-kind", "beavertail", "beavertail"},
	{"condition", "new", "brand new"},
	{"condition", "used", "trade in"},
	{"frame.floor", "treated pine", "treated pine"},
	{"frame.floor", "diamond plate", "diamond plate"},
	{"jack.kind", "drop leg", "drop leg"},
	{"ramps.kind", "stand-up", "stand up ramp"},
	{"ramps.kind", "stand-up", "stand up ramps"},
	{"ramps.kind", "slide-in", "slide in"},
	{"ramps.kind", "slide-in", "slide in ramps"},
	{"ramps.kind", "slide-in", "slide ins"},
}

var kindPhrases = func() map[string][]spokenKind {
	m := map[string][]spokenKind{}
	all := slices.Clone(spokenKinds)
	for _, k := range kinds.All() {
		for _, phrase := range k.Said {
			all = append(all, spokenKind{"kind", Word(k.Name), phrase})
		}
	}
	for _, k := range all {
		first, _, _ := strings.Cut(k.phrase, " ")
		m[first] = append(m[first], k)
	}
	return m
}()

// Words finds the words, not figures, that a unit file asks for: the kind of hitch, of
// brakes, of suspension. What is said of another unit or denied is not among them. Each
// word of a role is given once, where it was first said.
func Words(c captions.Track) []Candidate {
	text, t := transcript(c)
	return wordsIn(text, t)
}

// WordsText finds the same in written notes.
func WordsText(text string) []Candidate { return wordsIn(text, tokens(text)) }

func wordsIn(text string, t []token) []Candidate {
	var out []Candidate
	for sentence := range sentences(text, t) {
		s := sentence
		s.aside = s.setAside()
		for i := 0; i < len(s.t); i++ {
			k, n := s.kindAt(i)
			if n == 0 {
				continue
			}
			c := Candidate{Role: k.role, Value: k.value, Confidence: 0.9}
			if s.is(i-1, "no", "not", "without", "isn't", "ain't") || s.is(i-2, "no", "not", "without", "isn't", "ain't") && s.is(i-1, "a", "the", "any") {
				c.Doubt = "denied"
			}
			if !slices.ContainsFunc(out, func(o Candidate) bool { return o.Role == c.Role && o.Value == c.Value && c.Role != "" }) {
				s.emit(i, i+n, c)
				out = append(out, s.out...)
				s.out = nil
			}
			i += n - 1
		}
	}
	return out
}

func (s *sentence) kindAt(i int) (best spokenKind, n int) {
	for _, k := range kindPhrases[s.word(i)] {
		w := strings.Fields(k.phrase)
		ok := len(w) > n
		for j := 1; j < len(w) && ok; j++ {
			ok = s.spoken(i+j) == w[j]
		}
		if ok {
			best, n = k, len(w)
		}
	}
	return best, n
}
