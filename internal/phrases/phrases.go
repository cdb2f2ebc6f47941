// Package phrases has the words of the pages in one table, phrases.csv: a key, then a column
// for each language. Another language is one more column. Blanks are {1}, {2} and so on.
package phrases

import (
	_ "embed"
	"encoding/csv"
	"encoding/json"
	"strconv"
	"strings"
	"sync"
)

//go:embed phrases.csv
var file string

// table is every phrase by its key.
var table = sync.OnceValue(func() map[string]string {
	lines, err := csv.NewReader(strings.NewReader(file)).ReadAll()
	if err != nil {
		panic("phrases.csv: " + err.Error())
	}
	out := make(map[string]string, len(lines))
	for _, l := range lines[1:] {
		out[l[0]] = l[1]
	}
	return out
})

// Say is the phrase with the key, its blanks filled in. A key that the table lacks is
// returned as it is, as the pages' script does; a test holds that none is missing.
func Say(key string, blanks ...string) string {
	text, ok := table()[key]
	if !ok {
		return key
	}
	pairs := make([]string, 0, 2*len(blanks))
	for i, b := range blanks {
		pairs = append(pairs, "{"+strconv.Itoa(i+1)+"}", b)
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// Script is a script that adds to PHRASES the phrases that other scripts use, with their
// keys in order: those whose keys they quote, and those that begin with a word that they
// quote with a space after it, "need " for "need kind".
func Script(scripts string) []byte {
	// No key has a quotation mark, so each quoted key is between one mark and the next.
	quoted := map[string]bool{}
	for between := range strings.SplitSeq(scripts, `"`) {
		quoted[between] = true
	}
	used := map[string]string{}
	for key, text := range table() {
		first, _, _ := strings.Cut(key, " ")
		if quoted[key] || quoted[first+" "] {
			used[key] = text
		}
	}
	text, err := json.Marshal(used) // a map's keys come in order
	if err != nil {
		panic(err) // a map of texts always marshals
	}
	return append(append([]byte("var PHRASES=Object.assign(typeof PHRASES==\"undefined\"||!PHRASES?{}:PHRASES,"), text...), ");\n"...)
}
