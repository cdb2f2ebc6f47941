// Package spanishtalk lets the ear for English hear talk in Spanish and in both languages at once.
// It writes Spanish numerals, units and words of the trade in English, and leaves the rest as it
// was said: "dos ejes de siete mil libras" becomes "two seven thousand pound axles".
//
// numeral.go reads Spanish numerals. words.csv has what is said, with its English in the order in which
// an American says it, and an example that a test reads. {n} in it is a number, {q} a number with a unit.
//
// The package takes captions and returns captions. It decides nothing about figures: package
// walkaround does, and what it cannot place stays without a role.
package spanishtalk

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"
	"unicode"

	"tarepage/internal/captions"
)

//go:embed words.csv
var file string

// A token is a word that was said, or a numeral of several words.
type token struct {
	norm  string // small letters, without accents and punctuation
	out   string // in English
	num   bool   // a number, in either language
	unit  string // "pound", "foot", "inch" or "dollars" if it is a unit
	trail string // the punctuation after it
	start float64
	end   float64
	gap   float64
}

// English is the captions with their Spanish in English, and whether there was any. Captions
// without Spanish come back as they are.
func English(c captions.Track) (captions.Track, bool) {
	words := c.Words()
	if !spoken(words) {
		return c, false
	}
	out := captions.Track{Name: c.Name, Format: c.Format}
	var cue captions.Cue
	flush := func() {
		if cue.Text != "" {
			out.Cues = append(out.Cues, cue)
		}
		cue = captions.Cue{}
	}
	for _, t := range translated(numbered(cut(words))) {
		if t.gap > captions.Pause {
			flush()
		}
		said := strings.Fields(t.out)
		for i, w := range said {
			at := t.start + (t.end-t.start)*float64(i)/float64(len(said))
			if cue.Text == "" {
				cue.Start = at
			} else {
				cue.Text += " "
			}
			cue.Times = append(cue.Times, captions.Mark{At: len(cue.Text), Second: at})
			cue.Text += w
		}
		cue.Text += t.trail
		cue.End = t.end
		if strings.ContainsAny(t.trail, ".?!") {
			flush()
		}
	}
	flush()
	return out, true
}

// Quote is what was said between two times, as it was said.
func Quote(c captions.Track, start, end float64) string {
	const short = 0.01 // seconds; times are written in thousandths
	var out []string
	for _, w := range c.Words() {
		if w.End > start+short && w.Start < end-short {
			out = append(out, w.Text)
		}
	}
	return strings.Join(out, " ")
}

// fewest is how many Spanish words a talk has before it is taken for Spanish in part.
const fewest = 3

// spoken reports whether enough words are of Spanish alone.
func spoken(words []captions.Word) bool {
	found := map[string]bool{}
	for _, w := range words {
		if n := normal(w.Text); spanishOnly[n] {
			found[n] = true
		}
	}
	return len(found) >= fewest
}

// spanishOnly are words that English does not have and that are not part of names.
var spanishOnly = set("libras pies pulgadas ejes eje remolque remolques llantas plataforma vacio vacia bruto pesa enganche bola cuello ganso " +
	"travesanos rampas frenos gato gatos largo ancho dolares dos tres cuatro cinco seis siete ocho nueve diez doce quince veinte treinta cuarenta " +
	"cincuenta trae aqui cada mil")

func set(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}

var plainLetters = strings.NewReplacer("á", "a", "é", "e", "í", "i", "ó", "o", "ú", "u", "ü", "u", "ñ", "n")

// normal is a word in small letters, without accents and without punctuation around it.
func normal(word string) string {
	return plainLetters.Replace(strings.ToLower(strings.TrimFunc(word, outer)))
}

func outer(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '$' }

// cut makes tokens of words.
func cut(words []captions.Word) []token {
	out := make([]token, 0, len(words))
	for _, w := range words {
		core := strings.TrimLeftFunc(w.Text, outer)
		bare := strings.TrimRightFunc(core, outer)
		if bare == "" {
			continue
		}
		t := token{norm: normal(bare), out: bare, trail: core[len(bare):], start: w.Start, end: w.End, gap: w.Gap}
		t.unit = units[t.norm]
		t.num = englishNumber[t.norm] || unicode.IsDigit(rune(bare[0])) || bare[0] == '$'
		out = append(out, t)
	}
	return out
}

var units = map[string]string{"libras": "pound", "libra": "pound", "pound": "pound", "pounds": "pound", "lb": "pound", "lbs": "pound",
	"pies": "foot", "pie": "foot", "foot": "foot", "feet": "foot", "ft": "foot", "pulgadas": "inch", "pulgada": "inch", "inch": "inch", "inches": "inch",
	"dolares": "dollars", "dollars": "dollars"}

var englishNumber = set("one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen " +
	"twenty thirty forty fifty sixty seventy eighty ninety hundred thousand sixteenths sixteenth point half k")

// A row is a line of words.csv.
type row struct {
	said    []string
	english string
}

// rows are the lines by their first word, the longest first.
var rows = sync.OnceValue(func() map[string][]row {
	lines, err := csv.NewReader(strings.NewReader(file)).ReadAll()
	if err != nil {
		panic("words.csv: " + err.Error())
	}
	out := map[string][]row{}
	for _, l := range lines[1:] {
		said := strings.Fields(plainLetters.Replace(l[0]))
		first := said[0]
		if first == "{q}" {
			first = "{n}"
		}
		out[first] = append(out[first], row{said, l[1]})
	}
	for _, list := range out {
		slices.SortStableFunc(list, func(a, b row) int { return len(b.said) - len(a.said) })
	}
	return out
})

// translated writes tokens in English, the longest line of words.csv first.
func translated(t []token) (out []token) {
	for i := 0; i < len(t); {
		first := t[i].norm
		if t[i].num {
			first = "{n}"
		}
		n := 1
		made := t[i]
		for _, r := range rows()[first] {
			if english, taken := r.match(t[i:]); taken > 0 {
				made.out, n = english, taken
				made.end, made.trail = t[i+n-1].end, t[i+n-1].trail
				break
			}
		}
		out = append(out, made)
		i += n
	}
	return out
}

// match is what the tokens say in English, and how many of them the line takes.
func (r row) match(t []token) (english string, taken int) {
	english = r.english
	at := 0
	for i, want := range r.said {
		if at >= len(t) || at > 0 && t[at-1].trail != "" {
			return "", 0
		}
		n := 1
		switch {
		case want == "{n}" || want == "{q}":
			n = numberAt(t[at:])
			if want == "{q}" && n > 0 {
				n = quantityAt(t[at:], n)
			}
			last := i+1 == len(r.said)
			if n == 0 || !last && (t[at+n-1].trail != "" || at+n == len(t)) {
				return "", 0
			}
			english = fill(english, want, t[at:at+n])
		case t[at].norm != want:
			return "", 0
		}
		at += n
	}
	return english, at
}

// numberAt is how many tokens a number has: one said in two languages counts as one.
func numberAt(t []token) int {
	n := 0
	for n < len(t) && t[n].num {
		n++
		if t[n-1].trail != "" {
			break
		}
	}
	return n
}

// quantityAt is how many tokens a number of n tokens has with its unit, and with inches after feet.
func quantityAt(t []token, n int) int {
	if n >= len(t) || t[n-1].trail != "" || t[n].unit == "" {
		return n
	}
	foot := t[n].unit == "foot" && t[n].trail == ""
	n++
	if more := numberAt(t[min(n, len(t)):]); foot && more > 0 && n+more < len(t) && t[n+more-1].trail == "" && t[n+more].unit == "inch" {
		n += more + 1
	}
	return n
}

// fill puts a number or a quantity into the English of a line. A unit before a noun has no s.
func fill(english, blank string, t []token) string {
	before, after, _ := strings.Cut(english, blank)
	var said []string
	for _, x := range t {
		switch {
		case x.unit == "pound" && (after == "" || strings.HasPrefix(after, " empty") || strings.HasPrefix(after, " GVWR")):
			said = append(said, "pounds")
		case x.unit != "":
			said = append(said, x.unit)
		default:
			said = append(said, x.out)
		}
	}
	return before + strings.Join(said, " ") + after
}
