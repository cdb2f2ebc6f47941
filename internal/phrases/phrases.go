// Package phrases has the words of the pages in one table, phrases.csv: a key, then a column
// for each language. Another language is one more column. Blanks are {1}, {2} and so on.
//
// facts.csv has the same columns for what kinds, keys, figures and rules say.
//
// A phrase uses the word of the Southwest, as internal/glossary has it. A yard can change words.
package phrases

import (
	_ "embed"
	"encoding/csv"
	"encoding/json"
	"strconv"
	"strings"
	"sync"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

//go:embed phrases.csv
var file string

// facts.csv has in the same columns what kinds, keys, figures and rules say. Their packages
// hold the English; a test compares it.
//
//go:embed facts.csv
var facts string

// tractor.csv has in the same columns what is said in another way of a trailer behind a tractor, by
// the keys of the other two. English has "truck" for both.
//
//go:embed tractor.csv
var tractor string

// A Language is one column of the table.
type Language struct {
	// Tag is the language as BCP 47 writes it, in the lang attribute of a page.
	Tag    language.Tag
	column int
	// marked is whether marks are around what is said, as Marked says.
	marked bool
	// changed are the phrases in which a yard says a word of its own; nil where it changes none.
	changed *changed
}

// The languages of the table. Spanish is that of the United States, which writes numbers as
// English does: 1,234.5 (Unicode CLDR, es-US).
var (
	English = Language{Tag: language.AmericanEnglish, column: 1}
	Spanish = Language{Tag: language.MustParse("es-US"), column: 2}
)

// table is every phrase by its key, as the line of the file.
var table = sync.OnceValue(func() map[string][]string {
	out := map[string][]string{}
	for name, text := range map[string]string{"phrases.csv": file, "facts.csv": facts} {
		lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil {
			panic(name + ": " + err.Error())
		}
		for _, l := range lines[1:] {
			out[l[0]] = l
		}
	}
	return out
})

// Say is the phrase with the key in the language, its blanks filled in. A key that the table lacks
// is returned as it is, as the pages' script does; a test holds that none is missing.
func (l Language) Say(key string, blanks ...string) string {
	line, ok := table()[key]
	if !ok {
		return key
	}
	return l.said(l.Fill(l.of(line), blanks...))
}

// Fill fills in the blanks {1}, {2} and so on of a text in the language. A blank that nothing is
// given for stays as it is. (A strings.Replacer for each text takes longer to make than to use.)
func (l Language) Fill(text string, blanks ...string) string {
	var out strings.Builder
	for rest := text; ; {
		open := strings.IndexByte(rest, '{')
		if open < 0 || len(blanks) == 0 {
			if rest == text {
				return text
			}
			out.WriteString(rest)
			return out.String()
		}
		out.WriteString(rest[:open])
		rest = rest[open:]
		end := strings.IndexByte(rest, '}') + 1
		if n, err := strconv.Atoi(rest[1:max(end-1, 1)]); err == nil && n >= 1 && n <= len(blanks) && rest[1] >= '1' && rest[1] <= '9' {
			out.WriteString(l.Blank(blanks[n-1]))
			rest = rest[end:]
		} else {
			out.WriteByte('{')
			rest = rest[1:]
		}
	}
}

// Counted is the phrase for a number of things: the one with the key and " one" where the
// language has the singular for it, and the one with " many" otherwise.
func (l Language) Counted(key string, n int) string {
	form := " many"
	if plural.Cardinal.MatchPlural(l.Tag, n, 0, 0, 0, 0) == plural.One {
		form = " one"
	}
	return l.Say(key+form, l.Count(n))
}

// Count is a number of things as the language writes it: 1,234.
func (l Language) Count(n int) string {
	return message.NewPrinter(l.Tag).Sprint(number.Decimal(n))
}

// Group is the phrases whose keys begin with the word, by their keys.
func (l Language) Group(word string) map[string]string {
	out := map[string]string{}
	for key, line := range table() {
		if first, _, _ := strings.Cut(key, " "); first == word {
			out[key] = l.of(line)
		}
	}
	return out
}

// Script is a script that adds to PHRASES the phrases that other scripts use, with their
// keys in order: those whose keys they quote, and those that begin with a word that they
// quote with a space after it, "need " for "need kind".
func (l Language) Script(scripts string) []byte {
	// No key has a quotation mark, so each quoted key is between one mark and the next.
	quoted := map[string]bool{}
	for between := range strings.SplitSeq(scripts, `"`) {
		quoted[between] = true
	}
	used := map[string]string{}
	for key, line := range table() {
		first, _, _ := strings.Cut(key, " ")
		if quoted[key] || quoted[first+" "] {
			used[key] = l.of(line)
		}
	}
	text, err := json.Marshal(used) // a map's keys come in order
	if err != nil {
		panic(err) // a map of texts always marshals
	}
	return append(append([]byte("var PHRASES=Object.assign(typeof PHRASES==\"undefined\"||!PHRASES?{}:PHRASES,"), text...), ");\n"...)
}
