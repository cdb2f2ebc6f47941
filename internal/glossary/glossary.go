// Package glossary lists the trade's words in English and in Spanish, glossary.csv: the Spanish word
// that the pages use with its gender, the word of northern Mexico where that is another one, and the
// source. A yard may put a word of its own in the place of a Spanish one.
package glossary

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

//go:embed glossary.csv
var file string

// A Term is one row of the table.
type Term struct {
	English, Spanish, Gender string // the gender is m, f, or empty for a verb
	North, NorthGender       string // empty where the north says the same
	Source                   string
}

// Terms are the rows in the order of the file.
var Terms = sync.OnceValue(func() []Term {
	lines, err := csv.NewReader(strings.NewReader(file)).ReadAll()
	if err != nil {
		panic("glossary.csv: " + err.Error())
	}
	out := make([]Term, 0, len(lines))
	for _, l := range lines[1:] {
		out = append(out, Term{l[0], l[1], l[2], l[3], l[4], l[5]})
	}
	return out
})

// base is a term without what it has in parentheses: the word on the label, which stays.
func base(term string) string {
	term, _, _ = strings.Cut(term, " (")
	return term
}

// A Word is a Spanish word of the pages and the word that a yard says for it.
type Word struct{ From, To string }

// fixed are the words that stay: those of the law and of labels, units, and words that mean more than
// one thing on the pages. They are without what is in parentheses.
var fixed = map[string]bool{
	"peso bruto vehicular": true, "peso bruto combinado": true, "capacidad del eje": true, "licencia comercial": true, "etiqueta de certificación": true,
	"etiqueta de la puerta": true, "número de serie": true, "título": true, "placa": true, "advertencia": true, "dólar": true, "capacidad de carga": true,
	"peso vacío": true, "libra": true, "kilo": true, "tonelada corta": true, "tonelada métrica": true, "pie": true, "pulgada": true,
	"caja": true, "carga": true, "carga con margen": true, "remolque": true, "dolly para carros": true, "por llegar": true,
}

// Changeable are the words that a yard may change, in the order of the table.
func Changeable() (out []string) {
	for _, t := range Terms() {
		if from := base(t.Spanish); t.Gender != "" && !fixed[from] && !slices.Contains(out, from) {
			out = append(out, from)
		}
	}
	return out
}

var (
	form    = regexp.MustCompile(`^(.+?)\s*=\s*(?:(la|el)\s+)?(.+)$`)
	letters = regexp.MustCompile(`^\pL[\pL -]{1,39}$`)
)

// Read reads a word that a yard changes, "camioneta = la troca". The article says the gender, which
// has to be that of the word in whose place it comes: the sentences around it agree with that. Where
// the table has the word, the article may be left out.
func Read(text string) (Word, error) {
	m := form.FindStringSubmatch(strings.ToLower(strings.TrimSpace(text)))
	if m == nil {
		return Word{}, fmt.Errorf("%q has no = between the two words", text)
	}
	from, article, to := m[1], m[2], m[3]
	var term *Term
	for _, t := range Terms() {
		if base(t.Spanish) == from && t.Gender != "" && term == nil {
			term = &t
		}
	}
	switch {
	case term == nil:
		return Word{}, fmt.Errorf("%q is not a noun of the glossary", from)
	case fixed[from]:
		return Word{}, fmt.Errorf("%q stays: it is a word of labels, laws or units, or it means several things on the pages", from)
	case !letters.MatchString(to):
		return Word{}, fmt.Errorf("%q is not a word or two", to)
	}
	gender := map[string]string{"la": "f", "el": "m"}[article]
	for _, t := range Terms() {
		for word, g := range map[string]string{base(t.Spanish): t.Gender, base(t.North): t.NorthGender} {
			switch {
			case word != to:
			case base(t.Spanish) != from:
				return Word{}, fmt.Errorf("%q is another thing: %s", to, t.English)
			case gender != "" && gender != g:
				return Word{}, fmt.Errorf("%q has the other gender", to)
			default:
				gender = g
			}
		}
	}
	switch {
	case gender == "":
		return Word{}, fmt.Errorf("%q needs its article: write %s = %s %s", to, from, map[string]string{"f": "la", "m": "el"}[term.Gender], to)
	case gender != term.Gender:
		return Word{}, fmt.Errorf("%q does not agree with the sentences around %q, which is %s", to, from, map[string]string{"f": "feminine", "m": "masculine"}[term.Gender])
	}
	return Word{from, to}, nil
}

// Changer puts words in the place of others.
func Changer(words []Word) func(text string) string {
	to := map[string]string{}
	var from []string
	for _, w := range words {
		for _, form := range []func(string) string{func(s string) string { return s }, plural} {
			to[form(w.From)] = form(w.To)
			from = append(from, regexp.QuoteMeta(form(w.From)))
		}
	}
	if len(from) == 0 {
		return func(text string) string { return text }
	}
	// The longest counts: camionetas, and not camioneta.
	any := regexp.MustCompile(`(?i)` + strings.Join(from, "|"))
	any.Longest()
	return func(text string) string {
		var b strings.Builder
		at := 0
		for _, m := range any.FindAllStringIndex(text, -1) {
			before, _ := utf8.DecodeLastRuneInString(text[:m[0]])
			after, _ := utf8.DecodeRuneInString(text[m[1]:])
			if unicode.IsLetter(before) || unicode.IsLetter(after) {
				continue
			}
			word := to[strings.ToLower(text[m[0]:m[1]])]
			if first, size := utf8.DecodeRuneInString(text[m[0]:]); unicode.IsUpper(first) {
				second, _ := utf8.DecodeRuneInString(text[m[0]+size:])
				if word = capital(word); unicode.IsUpper(second) {
					word = strings.ToUpper(word)
				}
			}
			b.WriteString(text[at:m[0]] + word)
			at = m[1]
		}
		return b.String() + text[at:]
	}
}

func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// plural is a term for several things: each word of it up to a preposition takes the plural.
func plural(term string) string {
	words := strings.Split(term, " ")
	for i, w := range words {
		switch w {
		case "de", "del", "para", "en", "a", "al", "con", "por", "sobre":
			return strings.Join(words, " ")
		}
		words[i] = pluralOf(w)
	}
	return strings.Join(words, " ")
}

// pluralOf is the plural of a word: after a vowel s, after z ces, after another letter es; a last
// syllable with an accent before n or s loses it (Real Academia Española, Ortografía, 2010).
func pluralOf(w string) string {
	last, size := utf8.DecodeLastRuneInString(w)
	stem := w[:len(w)-size]
	switch last {
	case 'a', 'e', 'i', 'o', 'u', 'á', 'é', 'ó':
		return w + "s"
	case 'z':
		return stem + "ces"
	case 's':
		return w
	case 'n':
		for with, without := range map[string]string{"á": "a", "é": "e", "í": "i", "ó": "o", "ú": "u"} {
			if s, ok := strings.CutSuffix(stem, with); ok {
				return s + without + "nes"
			}
		}
	}
	return w + "es"
}
