package render

import (
	"html"
	"html/template"
	"regexp"
	"strconv"
	"strings"

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

// richIn is rich for the templates of a language.
func richIn(lang phrases.Language) func(string, ...any) template.HTML {
	return func(key string, blanks ...any) template.HTML { return rich(lang, key, blanks...) }
}

// rich is the phrase with the key as HTML, its marks turned into elements and its blanks filled
// in. A blank of template.HTML is taken as it is; of what else comes nothing is a mark.
func rich(lang phrases.Language, key string, blanks ...any) template.HTML {
	text := html.EscapeString(lang.Say(key))
	for _, m := range richMarks {
		text = m.form.ReplaceAllString(text, m.html)
	}
	pairs := make([]string, 0, 2*len(blanks))
	for i, b := range blanks {
		fill := ""
		switch b := b.(type) {
		case template.HTML:
			fill = string(b)
		case string:
			fill = html.EscapeString(b)
		case []labeled:
			fill = string(listed(b))
		}
		pairs = append(pairs, "{"+strconv.Itoa(i+1)+"}", lang.Blank(fill))
	}
	return template.HTML(strings.NewReplacer(pairs...).Replace(text))
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
