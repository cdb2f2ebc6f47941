package phrases

import "strings"

// What a page says comes from two places: from the table by a key, in the language of the page,
// and from other packages, in English. A page in another language has to tell them apart. The marks
// are characters for private use (Unicode, 23.5), which no text of a yard has: a reader takes them out.
const (
	said = '\ue000' // what follows is in the language
	told = '\ue001' // what follows came from somewhere else
)

// Marked is the language with marks around what it says, for texts that are resolved later by
// Plain or as the text of a page (Runs).
func (l Language) Marked() Language {
	l.marked = l.column != English.column
	return l
}

func (l Language) unmarked() Language {
	l.marked = false
	return l
}

// Foreign reports whether the language is another one than that of the other packages.
func (l Language) Foreign() bool { return l.column != English.column }

func (l Language) said(text string) string {
	if !l.marked {
		return text
	}
	return string(said) + text + string(told)
}

// Blank is a text that goes into a blank of a phrase. It is not of the phrase's language by itself.
func (l Language) Blank(text string) string {
	if !l.marked {
		return text
	}
	return string(told) + text + string(said)
}

// A Run is a part of a text.
type Run struct {
	Text string
	Said bool // it is in the language; else it came from somewhere else
}

// Runs are the parts of a text, and whether the text after it goes on in the language. In is
// whether it began so.
func Runs(text string, in bool) (out []Run, after bool) {
	for {
		at := strings.IndexAny(text, string(said)+string(told))
		if at < 0 {
			if text != "" {
				out = append(out, Run{text, in})
			}
			return out, in
		}
		if at > 0 {
			out = append(out, Run{text[:at], in})
		}
		in = strings.HasPrefix(text[at:], string(said))
		text = text[at+len(string(said)):]
	}
}

// Plain is a text without its marks, as far as the table has it in the language: what it lacks
// stays English.
func (l Language) Plain(text string) string {
	if !l.Foreign() || text == "" {
		return text
	}
	var b strings.Builder
	runs, _ := Runs(text, false)
	for _, r := range runs {
		if r.Said {
			b.WriteString(r.Text)
			continue
		}
		if out, ok := l.Around(r.Text); ok {
			b.WriteString(out)
			continue
		}
		for _, sentence := range Sentences(r.Text) {
			out, _ := l.Around(sentence)
			b.WriteString(out)
		}
	}
	return b.String()
}

// Said is a text that is in the language already: the comma between two phrases.
func (l Language) Said(text string) string { return l.said(text) }

// Told is an English text of the program in the language if the table has it, else the text.
func (l Language) Told(text string) string {
	if !l.Foreign() {
		return text
	}
	if out, ok := l.Of(text); ok {
		return l.said(out)
	}
	return text
}

// Sentences are the sentences of a text: each of them is looked up by itself.
func Sentences(text string) []string {
	var out []string
	from := 0
	for i := range text {
		if strings.HasPrefix(text[i:], ". ") && !shortened(text[:i]) {
			out = append(out, text[from:i+2])
			from = i + 2
		}
	}
	return append(out, text[from:])
}

// shortened reports whether a text ends with a short form, whose period does not end a sentence:
// page 16 of a manual, the Code of a state.
func shortened(text string) bool {
	for _, short := range []string{" p", " pp", "Tex", "Transp", "U.S", "H.R"} {
		if strings.HasSuffix(text, short) {
			return true
		}
	}
	return false
}

// Around is Of for a text with spaces and commas around it. A text that the table lacks is
// returned as it is.
func (l Language) Around(text string) (string, bool) {
	inner := strings.Trim(text, edges)
	if inner == "" {
		return text, true
	}
	start := strings.Index(text, inner)
	out, ok := l.Of(inner)
	if !ok {
		return text, false
	}
	return text[:start] + out + text[start+len(inner):], true
}

// edges are what a text from another package may have around it where it joins a phrase.
const edges = " \n\t\u00a0,;:=/"

// Unmarked is a text without its marks and otherwise as it is.
func Unmarked(text string) string {
	return unmark.Replace(text)
}

var unmark = strings.NewReplacer(string(said), "", string(told), "")
