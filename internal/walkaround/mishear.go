package walkaround

import (
	"slices"
	"strings"
	"sync"

	"github.com/agnivade/levenshtein"
)

// Captions write what they know: "couple her" for coupler, "brake a way kit" for breakaway
// kit. This file puts the trade's words back where the sound leaves no doubt. It changes
// nothing else: words that are of the trade already stay, and so does what only resembles.

// tradeWords are terms that no table of equipment or of kinds holds. Common practice, no source.
const tradeWords = `coupler|gooseneck coupler|crossmember|crossmembers|aluminum|galvanized|ramp door|plywood|gvwr|fenders|suspension|
	gooseneck|pintle hitch|landing gear|treated pine|spring assist|load range|tongue weight|empty weight|tandem axles|tandem axle|
	dovetail|beavertail|one piece roof|interior height|bumper pull|stake pockets|electric brakes|sidewall|payload|radials|
	rub rail|main frame|center gate|drop leg jack|top wind jack|clearance lights|marker lights|deck height|main rails|side door|tail lights`

// A soundTable has the terms of the trade by what they sound like, in the order of the alphabet,
// and all words of the terms.
type soundTable struct {
	terms map[string][][]string
	known map[string]bool
}

var sounding = sync.OnceValue(func() *soundTable {
	m, known := map[string][][]string{}, map[string]bool{}
	add := func(term string) {
		words := strings.Fields(term)
		var key soundKey
		for _, w := range words {
			key.add(w)
			known[w], known[stem(w)] = true, true
		}
		if len(key) >= leastSound {
			m[string(key)] = append(m[string(key)], words)
		}
	}
	for _, list := range equipment() {
		for _, p := range list {
			// A single word of few consonants sounds like too many others.
			if len(p.words) > 1 && !slices.Contains(p.words, "are") && !slices.Contains(p.words, "is") {
				add(strings.Join(p.words, " "))
			}
			for _, w := range p.words {
				known[w], known[stem(w)] = true, true
			}
		}
	}
	for _, w := range wordTable {
		add(w.phrase)
	}
	for term := range strings.SplitSeq(tradeWords, "|") {
		add(term)
	}
	for key, terms := range m {
		slices.SortFunc(terms, slices.Compare)
		m[key] = slices.CompactFunc(terms, slices.Equal)
	}
	return &soundTable{m, known}
})

// writtenFor are terms whose sound is too short or too common to be told by it: what is written
// for them. Common practice, no source.
var writtenFor = func() map[string][][2][]string {
	m := map[string][][2][]string{}
	for _, r := range [][2]string{
		{"g v w r", "gvwr"}, {"g v w are", "gvwr"}, {"gee v w r", "gvwr"}, {"g v double you r", "gvwr"}, {"gvw are", "gvwr"},
		{"v knows", "v nose"}, {"vee nose", "v nose"}, {"weigh plug", "way plug"}, {"weigh round", "way round"}, {"brake a way", "breakaway"}, {"break a way", "breakaway"},
		{"load sea", "load c"}, {"load dee", "load d"}, {"load gee", "load g"}, {"tin ply", "ten ply"}, {"ate ply", "eight ply"}, {"ply wood", "plywood"},
		{"ramped or", "ramp door"}, {"ramp dore", "ramp door"}, {"spare older", "spare holder"}, {"clear ants", "clearance"}, {"dub tail", "dovetail"},
		{"duff tail", "dovetail"}, {"empty wait", "empty weight"}, {"pay load", "payload"}, {"alum in um", "aluminum"}, {"in closed", "enclosed"},
		{"drop lake", "drop leg"}, {"d rinks", "d rings"}, {"side dough", "side door"}, {"dough ore", "door"}, {"the defenders", "the fenders"},
	} {
		from := strings.Fields(r[0])
		m[from[0]] = append(m[from[0]], [2][]string{from, strings.Fields(r[1])})
	}
	return m
}()

// leastSound is how many consonants a term has at least that can be told by its sound.
const leastSound = 4

// mostHeard is how many words captions make of one term at most.
const mostHeard = 4

// A soundKey is the consonants of a term as they sound: voiced and voiceless ones alike,
// doubled ones once, silent ones not at all.
type soundKey []byte

// sounds of consonants; those that are not in the list are vowels or silent.
var consonant = [26]byte{'b' - 'a': 'p', 'c' - 'a': 'k', 'd' - 'a': 't', 'f' - 'a': 'f', 'g' - 'a': 'k', 'j' - 'a': 'j', 'k' - 'a': 'k', 'l' - 'a': 'l',
	'm' - 'a': 'm', 'n' - 'a': 'n', 'p' - 'a': 'p', 'q' - 'a': 'k', 'r' - 'a': 'r', 's' - 'a': 's', 't' - 'a': 't', 'v' - 'a': 'f', 'z' - 'a': 's', 'x' - 'a': 's'}

func (k *soundKey) add(w string) {
	for i := 0; i < len(w); i++ {
		c := w[i]
		if c < 'a' || c > 'z' {
			if c >= '0' && c <= '9' {
				*k = append(*k, c)
			}
			continue
		}
		next := byte(0)
		if i+1 < len(w) {
			next = w[i+1]
		}
		s := consonant[c-'a']
		switch {
		case c == 'k' && next == 'n' && i == 0, c == 'w', c == 'g' && next == 'h':
			continue
		case c == 'c' && (next == 'e' || next == 'i' || next == 'y'):
			s = 's'
		}
		if s != 0 && (len(*k) == 0 || (*k)[len(*k)-1] != s) {
			*k = append(*k, s)
		}
	}
}

// unhear puts terms of the trade where captions wrote other words that sound the same.
func unhear(t []token) []token {
	var key soundKey
	out := t
	changed := false
	for i := 0; i < len(t); {
		n, term := mistaken(t[i:], &key)
		if n == 0 && i > 0 && i+1 < len(t) && (t[i].text == "buy" || t[i].text == "bye") && counts(&t[i-1]) && counts(&t[i+1]) {
			n, term = 1, []string{"by"} // "seven buy sixteen"
		}
		if n == 0 {
			if changed {
				out = append(out, t[i])
			}
			i++
			continue
		}
		if !changed {
			changed = true
			out = append(make([]token, 0, len(t)), t[:i]...)
		}
		out = append(out, spelled(t[i:i+n], term)...)
		i += n
	}
	return out
}

func counts(t *token) bool { return t.kind == number || t.kind == word && isNumberWord(t.text) }

// mistaken is how many tokens at the beginning of t are a term that was misheard, the most
// that are, and the term.
func mistaken(t []token, key *soundKey) (n int, term []string) {
	for _, r := range writtenFor[t[0].text] {
		if wordsAt(t, r[0]) {
			return len(r[0]), r[1]
		}
	}
	*key = (*key)[:0]
	for i := 0; i < min(mostHeard, len(t)) && t[i].kind == word; i++ {
		w := t[i].text
		before := len(*key)
		key.add(w)
		if len(*key) == before || len(*key) < leastSound || i == 0 && len(*key) == leastSound {
			continue
		}
		for _, words := range sounding().terms[string(*key)] {
			if sure(t[:i+1], words) {
				n, term = i+1, words
				break
			}
		}
	}
	return n, term
}

// wordsAt reports that t begins with the words.
func wordsAt(t []token, words []string) bool {
	if len(t) < len(words) {
		return false
	}
	for i, w := range words {
		if t[i].kind != word || t[i].text != w {
			return false
		}
	}
	return true
}

// sure reports that what was said can only be the term: no end of it is a word of its own,
// the term itself was not said, and the vowels differ little.
func sure(t []token, term []string) bool {
	if first, last := t[0].text, t[len(t)-1].text; ownWord(first) && first != term[0] || ownWord(last) && last != term[len(term)-1] {
		return false
	}
	said := make([]string, len(t))
	for i := range t {
		if said[i] = t[i].text; said[i] == "the" {
			return false
		}
	}
	said, term = apart(said, term)
	if len(said) == 0 || len(term) == 0 || said[0][0] != term[0][0] || len(said) == 1 && sounding().known[said[0]] {
		return false
	}
	a, b := strings.Join(said, ""), strings.Join(term, "")
	return levenshtein.ComputeDistance(a, b)*5 <= 2*max(len(a), len(b))
}

// ownWord reports a word that is more likely itself than a part of a misheard term.
func ownWord(w string) bool {
	return len(w) == 1 || openers[w] || holders[w] || units[w] || isNumberWord(w) || !strings.ContainsAny(w, "aeiouy")
}

// apart takes off the words that both begin and end with.
func apart(a, b []string) (x, y []string) {
	for len(a) > 0 && len(b) > 0 && stem(a[0]) == stem(b[0]) {
		a, b = a[1:], b[1:]
	}
	for len(a) > 0 && len(b) > 0 && stem(a[len(a)-1]) == stem(b[len(b)-1]) {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return a, b
}

// units are words that belong to the number in front of them.
var units = set("inch inches foot feet pound pounds k lb psi ply")

// spelled are the words of a term in the place of the tokens that were heard.
func spelled(t []token, term []string) []token {
	out := make([]token, len(term))
	last := &t[len(t)-1]
	for i, w := range term {
		x := t[min(i, len(t)-1)]
		if i >= len(t) {
			x.from = x.to
		}
		if i == len(term)-1 {
			x.to, x.end = last.to, last.end
		}
		x.kind, x.text, x.possessive = word, w, false
		out[i] = x
	}
	return out
}
