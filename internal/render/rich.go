package render

import (
	"html"
	"html/template"
	"regexp"
	"strings"
	"sync"

	"tarepage/internal/phrases"
)

// richMarks are the marks of a whole sentence whose parts look different: *bold*, [to be
// ticked] and a line to write on. They keep the sentence in one piece for a translator.
var richMarks = []struct {
	form *regexp.Regexp
	html string
}{
	{regexp.MustCompile(`\*([^*]+)\*`), `<b>$1</b>`},
	{regexp.MustCompile(`\[([^\]]+)\]`), `<span class="tick">$1</span>`},
	{regexp.MustCompile(`____`), `<span class="line"></span>`},
}

// richIn gives the templates of a language the phrase with a key as HTML, its marks turned into
// elements and its blanks filled in. A blank of template.HTML is taken as it is; of what else comes
// nothing is a mark.
func richIn(lang phrases.Language) func(string, ...any) template.HTML {
	var marked sync.Map // the phrases with their marks turned into elements, by their keys
	return func(key string, blanks ...any) template.HTML {
		text, ok := marked.Load(key)
		if !ok {
			text, _ = marked.LoadOrStore(key, richText(lang, key))
		}
		return filled(lang, text.(string), blanks)
	}
}

// richText is the phrase with the key as HTML, its blanks not filled in yet.
func richText(lang phrases.Language, key string) string {
	text := html.EscapeString(lang.Say(key))
	for _, m := range richMarks {
		text = m.form.ReplaceAllString(text, m.html)
	}
	return text
}

// filled fills in the blanks of a rich text.
func filled(lang phrases.Language, text string, blanks []any) template.HTML {
	fills := make([]string, len(blanks))
	for i, b := range blanks {
		switch b := b.(type) {
		case template.HTML:
			fills[i] = string(b)
		case string:
			fills[i] = html.EscapeString(b)
		case []labeled:
			fills[i] = string(listed(b))
		}
	}
	return template.HTML(lang.Fill(text, fills...))
}

// ticks are numbers to tick off, one after the other.
func ticks(list []string) template.HTML {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = `<span class="tick"><b>` + html.EscapeString(s) + `</b></span>`
	}
	return template.HTML(strings.Join(out, " "))
}

// listed are labels, each with its text.
func listed(list []labeled) template.HTML {
	out := make([]string, len(list))
	for i, l := range list {
		out[i] = "<b>" + html.EscapeString(l.Label) + "</b> " + html.EscapeString(l.Text)
	}
	return template.HTML(strings.Join(out, "; "))
}
