package phrases

import (
	"fmt"
	"strings"
	"sync"

	"tarepage/internal/glossary"
)

// changed are phrases with words of a yard's own, by their keys.
type changed struct{ lines map[string]string }

// everChanged are the languages that With has made, by the words: a yard that is built again has the
// same one, and what was looked up in it is remembered.
var everChanged sync.Map

// With is the language with other words in its phrases. English stays as it is.
func (l Language) With(words []glossary.Word) Language {
	if !l.Foreign() || len(words) == 0 {
		return l
	}
	key := fmt.Sprintf("%d %q", l.column, words)
	if known, ok := everChanged.Load(key); ok {
		l.changed = known.(*changed)
		return l
	}
	change, c := glossary.Changer(words), &changed{map[string]string{}}
	for key, line := range table() {
		if typed(key) {
			continue
		}
		if text := change(line[l.column]); text != line[l.column] {
			c.lines[key] = text
		}
	}
	known, _ := everChanged.LoadOrStore(key, c)
	l.changed = known.(*changed)
	return l
}

// typed reports whether a phrase is what a customer types, and not what a page says.
func typed(key string) bool {
	first, _, _ := strings.Cut(key, " ")
	return first == "find" || first == "words"
}

// of is the text of a line of the table in the language.
func (l Language) of(line []string) string {
	if l.changed != nil {
		if text, ok := l.changed.lines[line[0]]; ok {
			return text
		}
	}
	return line[l.column]
}
