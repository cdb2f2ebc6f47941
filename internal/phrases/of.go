package phrases

import (
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// Packages that work things out speak English: a kind, a caution, a working with its numbers. Of
// finds such a text in the table by its English, and the numbers in it as the blanks of a row.
// What no row has stays English as a whole: half a sentence in each language would mislead.

// Of is an English text of the program in the language, and whether the table has all of it. The
// result begins with a capital and ends with a period where the text does.
func (l Language) Of(text string) (string, bool) {
	if l.column == English.column || text == "" {
		return text, true
	}
	type key struct {
		column  int
		changed *changed
		text    string
	}
	k := key{l.column, l.changed, text}
	if found, ok := known.Load(k); ok {
		f := found.(string)
		return f, f != ""
	}
	out := l.find(text, 0)
	if known.Len() < mostKnown {
		known.Store(k, out)
	}
	return out, out != ""
}

// mostKnown is how many texts are remembered, about 10 MB of them: a yard of thousands says most of
// its texts many times.
const mostKnown = 50_000

// known are texts that were looked up before; an empty one is not in the table.
var known remembered

type remembered struct {
	sync.Map
	mu sync.Mutex
	n  int
}

func (r *remembered) Len() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.n++
	return r.n
}

// deepest is how many times a blank may hold a text with blanks of its own.
const deepest = 5

// find is Of without its memory; empty for a text that the table lacks.
func (l Language) find(text string, depth int) string {
	if out := l.row(text, depth); out != "" {
		return out
	}
	switch {
	case neutral(text):
		return text
	case depth > deepest:
		return ""
	}
	for _, look := range []func(string, int) string{l.dated, l.form, l.bracketed, l.ended, l.listed} {
		if out := look(text, depth); out != "" {
			return out
		}
	}
	return ""
}

// row is a text that is a row by itself.
func (l Language) row(text string, _ int) string {
	rows := english().rows
	if line, ok := rows[text]; ok {
		return l.of(line)
	}
	first, size := utf8.DecodeRuneInString(text)
	switch {
	case unicode.IsUpper(first):
		if line, ok := rows[string(unicode.ToLower(first))+text[size:]]; ok {
			return capital(l.of(line))
		}
	case unicode.IsLower(first):
		// A kind or a label begins with a capital in its row, and within a sentence it does not.
		if line, ok := rows[string(unicode.ToUpper(first))+text[size:]]; ok {
			return small(l.of(line))
		}
	}
	return ""
}

var (
	day   = regexp.MustCompile(`^([A-Z][a-z]+) (\d{1,2}), (\d{4})$`)
	month = regexp.MustCompile(`^([A-Z][a-z]+) (\d{4})$`)
)

// dated is a day, or a month of a year.
func (l Language) dated(text string, depth int) string {
	if d := month.FindStringSubmatch(text); d != nil {
		if name := l.row(d[1], depth); name != "" {
			return l.unmarked().Say("date/month", name, d[2])
		}
	}
	if d := day.FindStringSubmatch(text); d != nil {
		if month := l.row(d[1], depth); month != "" {
			return l.unmarked().Say("date/day", month, d[2], d[3])
		}
	}
	return ""
}

// form is a text that fills in the blanks of a row.
func (l Language) form(text string, depth int) string {
	for _, lower := range []bool{true, false} {
		t := text
		if lower {
			if t = small(text); t == text {
				continue
			}
		}
		for _, f := range english().candidates(t) {
			blanks := f.match(t)
			if blanks == nil {
				continue
			}
			whole := !l.joined(f, blanks)
			for i, b := range blanks {
				if whole {
					blanks[i] = l.find(b, depth+1)
				}
				whole = whole && blanks[i] != ""
			}
			if !whole {
				continue
			}
			var pairs []string
			for i, b := range blanks {
				pairs = append(pairs, f.names[i], b)
			}
			out := strings.NewReplacer(pairs...).Replace(l.of(f.line))
			if lower {
				out = capital(out)
			}
			return out
		}
	}
	return ""
}

// bracketed is a text with another one in parentheses after it.
func (l Language) bracketed(text string, depth int) string {
	open := opened(text)
	if open <= 0 {
		return ""
	}
	before, in := l.find(text[:open], depth+1), l.find(text[open+2:len(text)-1], depth+1)
	if before == "" || in == "" {
		return ""
	}
	return before + " (" + in + ")"
}

// opened is where the parentheses begin that end a text, with the space before them, or -1.
func opened(text string) int {
	if !strings.HasSuffix(text, ")") {
		return -1
	}
	deep := 0
	for i := len(text) - 1; i > 0; i-- {
		switch text[i] {
		case ')':
			deep++
		case '(':
			if deep--; deep == 0 && text[i-1] == ' ' {
				return i - 1
			}
		}
	}
	return -1
}

// ended is a text with a period or a colon at its end, which its row lacks.
func (l Language) ended(text string, depth int) string {
	for _, end := range []string{".", ":", ","} {
		if rest, ok := strings.CutSuffix(text, end); ok && rest != "" {
			if out := l.find(rest, depth+1); out != "" {
				return out + end
			}
		}
	}
	return ""
}

// between are what stands between the members of a list, the strongest first.
var between = []string{". ", "; ", ": ", " = ", " + ", " - ", " / ", ", "}

// listed is a list or a sum all of whose members the table has. What comes after the first member
// may be one text with commas in it.
func (l Language) listed(text string, depth int) string {
	for _, b := range between {
		parts := outside(text, b)
		if len(parts) == 1 {
			continue
		}
		out := l.members(parts, b, depth)
		if out == "" && len(parts) > 2 {
			out = l.members([]string{parts[0], text[len(parts[0])+len(b):]}, b, depth)
		}
		return out
	}
	return ""
}

// members are the members of a list; empty if the table lacks one.
func (l Language) members(parts []string, b string, depth int) string {
	out := make([]string, len(parts))
	for i, p := range parts {
		if b == ". " && i+1 < len(parts) {
			p += "."
		}
		if out[i] = strings.TrimSuffix(l.find(p, depth+1), "."); out[i] == "" {
			return ""
		}
		if b == ". " && i+1 == len(parts) && strings.HasSuffix(p, ".") {
			out[i] += "."
		}
	}
	return strings.Join(out, b)
}

// outside splits a text at what stands outside parentheses.
func outside(text, at string) (out []string) {
	deep, from := 0, 0
	for i := 0; i < len(text); i++ {
		switch {
		case text[i] == '(':
			deep++
		case text[i] == ')':
			deep--
		case deep == 0 && strings.HasPrefix(text[i:], at) && !(at == ". " && shortened(text[:i])):
			out = append(out, text[from:i])
			from = i + len(at)
			i = from - 1
		}
	}
	return append(out, text[from:])
}

func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// small begins a text within a sentence. An abbreviation keeps its capitals.
func small(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[size:]); unicode.IsUpper(next) {
		return s
	}
	return string(unicode.ToLower(first)) + s[size:]
}

// unitWords may follow a number, and are the same in both languages.
var unitWords = map[string]bool{"lb": true, "ft": true, "in": true, "kg": true, "m": true, "cm": true, "mm": true, "km": true, "mph": true, "psi": true,
	"kPa": true, "gal": true, "L": true, "l": true, "yd": true, "N": true, "h": true, "deg": true, "sq": true, "cu": true, "x": true, "lb-ft": true, "t": true,
	"lb/ft": true, "lb/sq": true, "km/h": true, "lb/yd": true, "kg/m": true, "lb/cu": true, "kg/cu": true, "ton": true, "V": true, "A": true}

// address is the name of a host, without a path.
var address = regexp.MustCompile(`\b[a-z0-9]+([.-][a-z0-9]+)*\.(com|gov|org|net)\b`)

// paragraph is a part of a law: (g), (iv); or the number of a table of one: I-b.
var paragraph = regexp.MustCompile(`\(([a-z]|[ivx]+)\)|\bI-[ab]\b`)

// neutral reports whether a text is the same in every language: numbers with their units, sizes and
// names with digits in them, abbreviations in capitals.
func neutral(text string) bool {
	if strings.HasPrefix(text, "https://") {
		return true
	}
	text = address.ReplaceAllString(paragraph.ReplaceAllString(text, ""), "")
	after := false // whether a number came before
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("(),;:+=/\u2212-\u2013·*?$", r) }) {
		w = strings.Trim(w, ".\"'")
		switch {
		case w == "arcsin" || strings.Contains(w, "@"):
		case !strings.ContainsFunc(w, unicode.IsLetter):
			after = after || strings.ContainsAny(w, "0123456789\u00bc\u00bd\u00be")
		case strings.ContainsAny(w, "0123456789"):
			after = true
		case after && unitWords[w]:
		case len(w) > 1 && w == strings.ToUpper(w): // CFR, GVWR
		case len(w) == 1 && w == strings.ToUpper(w):
		default:
			return false
		}
	}
	return true
}

// forms are the rows of the table by their English.
type forms struct {
	rows  map[string][]string
	forms []form // those with blanks, the one with the most text first
	// having are the forms by the longest word that their text has; those without one are under "".
	having map[string][]*form
}

// A form is a row with blanks.
type form struct {
	order int      // its place among the forms
	texts []string // before, between and after the blanks
	names []string // the blanks: {1}
	line  []string
}

var english = sync.OnceValue(func() *forms {
	out := &forms{rows: map[string][]string{}}
	all := table()
	keys := make([]string, 0, len(all))
	for key := range all {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	for _, key := range keys {
		line := all[key]
		family, _, fact := strings.Cut(key, "/")
		if !fact || families[family] == never { // phrases are said by their keys
			continue
		}
		text := line[English.column]
		if blank := blanks.FindAllStringIndex(text, -1); blank != nil {
			f, from := form{line: line}, 0
			for _, b := range blank {
				f.texts, f.names = append(f.texts, text[from:b[0]]), append(f.names, text[b[0]:b[1]])
				from = b[1]
			}
			f.texts = append(f.texts, text[from:])
			if strings.ContainsFunc(strings.Join(f.texts, ""), unicode.IsLetter) {
				out.forms = append(out.forms, f)
			}
			continue
		}
		if before, ok := out.rows[text]; !ok || before[Spanish.column] != line[Spanish.column] && families[family] > familyOf(before) {
			out.rows[text] = line
		}
	}
	letters := func(f form) int { return len(strings.Join(f.texts, "")) }
	slices.SortStableFunc(out.forms, func(a, b form) int { return letters(b) - letters(a) })
	out.having = map[string][]*form{}
	for i := range out.forms {
		f := &out.forms[i]
		f.order = i
		out.having[f.word()] = append(out.having[f.word()], f)
	}
	return out
})

// wholeWords are the words of a text that nothing can go on with: a blank next to a letter may hold
// the rest of its word.
var wholeWords = regexp.MustCompile(`[a-zA-Z]+`)

// word is the longest word that every text of the form has.
func (f *form) word() (longest string) {
	for i, t := range f.texts {
		for _, at := range wholeWords.FindAllStringIndex(t, -1) {
			open := at[0] == 0 && i > 0 || at[1] == len(t) && i+1 < len(f.texts)
			if w := t[at[0]:at[1]]; !open && len(w) > len(longest) {
				longest = w
			}
		}
	}
	return longest
}

// candidates are the forms that a text can fill, in their order: those whose word it has.
func (e *forms) candidates(text string) []*form {
	out := slices.Clone(e.having[""])
	for i := 0; i < len(text); {
		n := 0
		for i+n < len(text) && (text[i+n]|0x20 >= 'a' && text[i+n]|0x20 <= 'z') {
			n++
		}
		if n > 0 {
			out = append(out, e.having[text[i:i+n]]...)
		}
		i += n + 1
	}
	slices.SortFunc(out, func(a, b *form) int { return a.order - b.order })
	return slices.Compact(out)
}

const never = -1

// families are which row is taken where two have the same English and other Spanish: the one of
// the higher family. A key that has a choice is said by its own key (Fact).
var families = map[string]int{"end": never, "noun": 3, "kind": 2, "figure": 2, "text": 4, "choice": 1}

func familyOf(line []string) int {
	family, _, _ := strings.Cut(line[0], "/")
	return families[family]
}

var blanks = regexp.MustCompile(`\{\d\}`)

// match is what a text has in the blanks, or nil. A blank is never empty and takes as little as it
// can.
func (f *form) match(text string) []string {
	rest, ok := strings.CutPrefix(text, f.texts[0])
	last := f.texts[len(f.texts)-1]
	if !ok || !strings.HasSuffix(rest, last) || len(rest) <= len(last) {
		return nil
	}
	rest = rest[:len(rest)-len(last)]
	var out []string
	for _, t := range f.texts[1 : len(f.texts)-1] {
		at := strings.Index(rest, t)
		if t == "" || at <= 0 {
			return nil
		}
		out = append(out, rest[:at])
		rest = rest[at+len(t):]
	}
	if rest == "" {
		return nil
	}
	return append(out, rest)
}

// joined reports whether a blank holds the end of one sentence and the beginning of another.
func (l Language) joined(f *form, blanks []string) bool {
	for i, b := range blanks {
		if l.row(b, 0) != "" {
			continue
		}
		if len(outside(b, "; ")) > 1 || strings.Contains(b, ". ") || i == 0 && f.texts[0] == "" && (clause.MatchString(b) || len(outside(b, ": ")) > 1) {
			return true
		}
	}
	return false
}

// clause is a comma with words after it, or before it.
var clause = regexp.MustCompile(`, [a-zA-Z]|[a-zA-Z]{4}, `)

// Fact is the row of facts.csv with the key in the language, and whether there is one.
func (l Language) Fact(key string) (string, bool) {
	line, ok := table()[key]
	if !ok {
		return "", false
	}
	return l.said(l.of(line)), true
}

// Written reports whether an owner's text is in Spanish: more of its words are small words of
// Spanish than of English. A text without any is taken for English.
func Written(text string) bool {
	spanish, english := 0, 0
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' }) {
		switch {
		case smallSpanish[w]:
			spanish++
		case smallEnglish[w]:
			english++
		}
	}
	return spanish > english
}

var smallSpanish = setOf("de la el los las con y es en que para por una un del al su sin pero más está son trae")

var smallEnglish = setOf("the of and is with in to it for a on you that this at are be as or by from")

func setOf(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}
