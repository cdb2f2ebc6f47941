package render

import (
	"bytes"
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"tarepage/internal/phrases"
	theme "tarepage/themes/default"
)

var (
	actionForm  = regexp.MustCompile(`(?s)\{\{.*?\}\}`)
	scriptForm  = regexp.MustCompile(`(?s)<(style|script)\b.*?</(style|script)>`)
	spokenForm  = regexp.MustCompile(`\s(?:aria-label|title|alt|placeholder|label)="([^"]*)"`)
	tagForm     = regexp.MustCompile(`(?s)<[^>]*>`)
	wordForm    = regexp.MustCompile(`\pL{2,}`)
	stringForm  = regexp.MustCompile("\"(?:[^\"\\\\\n]|\\\\.)*\"|'(?:[^'\\\\\n]|\\\\.)*'")
	sentence    = regexp.MustCompile(`\pL{2,} \pL{2,}`)
	commentForm = regexp.MustCompile(`(?m)^\s*//.*$|\s// .*$|(?s:/\*.*?\*/)`)
	regexpForm  = regexp.MustCompile(`/(?:[^/\\\n\[]|\\.|\[(?:[^\]\\\n]|\\.)*\])+/[gimsuy]*(?:[.,;)]|$)`)
)

// unseen are names of outlines and of classes, which nobody reads on a page.
var unseen = map[string]bool{"skid steer": true, "track loader": true, "scissor lift": true, "bring second": true}

// ownWords are the texts of a template that are written in it.
func ownWords(template string) (out []string) {
	text := scriptForm.ReplaceAllString(actionForm.ReplaceAllString(template, "\x00"), "")
	for _, m := range spokenForm.FindAllStringSubmatch(text, -1) {
		if wordForm.MatchString(m[1]) {
			out = append(out, m[1])
		}
	}
	for t := range strings.SplitSeq(tagForm.ReplaceAllString(text, "\n"), "\n") {
		if t = strings.TrimSpace(strings.ReplaceAll(t, "&nbsp;", " ")); wordForm.MatchString(t) {
			out = append(out, t)
		}
	}
	return out
}

// begins reports whether a script's text is the beginning of keys of the table.
func begins(s string) bool {
	first, _, _ := strings.Cut(s, " ")
	return strings.HasSuffix(s, " ") && bytes.Contains(phrases.English.Script(`"`+first+` "`), []byte(`"`+s))
}

// ownSentences are the texts of two words and more that a script writes itself. Keys of
// the table, selectors and markup do not count.
func ownSentences(script string) (out []string) {
	script = regexpForm.ReplaceAllString(commentForm.ReplaceAllString(script, ""), "0)")
	for _, s := range stringForm.FindAllString(script, -1) {
		s = s[1 : len(s)-1]
		if !sentence.MatchString(s) || unseen[s] || s == "use strict" || strings.ContainsAny(s, "<>[]#=:{}") || phrases.English.Say(s) != s || begins(s) {
			continue
		}
		out = append(out, s)
	}
	return out
}

// TestOwnWords: no template and no script has words of its own. They are in the table of phrases,
// so that another language is one more column.
func TestOwnWords(t *testing.T) {
	for _, c := range []struct {
		template string
		want     int
	}{{`<p>{{say "x"}} <b>{{.Y}}</b>, {{.Z}}</p>`, 0}, {`<p aria-label="{{say "x"}}">GVWR</p>`, 1}, {`<img alt="A trailer">`, 1}, {`<p>{{.A}} long, {{.B}}</p>`, 1}} {
		if got := ownWords(c.template); len(got) != c.want {
			t.Errorf("%s: %q", c.template, got)
		}
	}
	if got := ownSentences(`"use strict"; say("frame skip"); x = "Call us about it"; // "not this one"`); len(got) != 1 || got[0] != "Call us about it" {
		t.Errorf("the sentences of a script are %q", got)
	}
	files, err := fs.Glob(theme.Files, "*.*")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		data, err := fs.ReadFile(theme.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		var own []string
		switch {
		case name == "search.js": // a library
		case strings.HasSuffix(name, ".html"):
			own = ownWords(string(data))
		case strings.HasSuffix(name, ".js"):
			own = ownSentences(string(data))
		}
		if len(own) > 0 {
			t.Errorf("%s has %d texts of its own; they belong in internal/phrases/phrases.csv: %q", name, len(own), own)
		}
	}
}
