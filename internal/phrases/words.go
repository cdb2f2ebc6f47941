package phrases

import (
	"encoding/csv"
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
	key := fmt.Sprintf("%d %p %q", l.column, l.changed, words)
	if known, ok := everChanged.Load(key); ok {
		l.changed = known.(*changed)
		return l
	}
	change, c := glossary.Changer(words), &changed{map[string]string{}}
	for key, line := range table() {
		if typed(key) {
			continue
		}
		if text := change(l.of(line)); text != line[l.column] {
			c.lines[key] = text
		}
	}
	known, _ := everChanged.LoadOrStore(key, c)
	l.changed = known.(*changed)
	return l
}

// behind is what Spanish says of trailers behind a tractor.
var behind = sync.OnceValue(func() *changed {
	lines, err := csv.NewReader(strings.NewReader(tractor)).ReadAll()
	if err != nil {
		panic("tractor.csv: " + err.Error())
	}
	c := &changed{map[string]string{}}
	for _, l := range lines[1:] {
		c.lines[l[0]] = l[Spanish.column]
	}
	return c
})

// BehindTractor is the language for pages of trailers that go behind a tractor: in Spanish a pickup
// is a camioneta, and a tractor with a fifth wheel a tractocamión. English stays as it is.
func (l Language) BehindTractor() Language {
	if l.Foreign() {
		l.changed = behind()
	}
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
