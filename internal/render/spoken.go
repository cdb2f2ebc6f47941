package render

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"

	"golang.org/x/net/html"

	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

// inLanguage makes a page of one language. Its phrases are in the language already, between marks; what
// other packages say is looked up, with the metric form of its quantities. What the table lacks, and
// the words of the yard's owner, stay as they are and say lang="en". exact is what
// measure.Quantities takes.
func inLanguage(page []byte, lang phrases.Language, exact map[string]string) []byte {
	s := speaker{lang: lang, exact: exact}
	start := max(bytes.Index(page, []byte("<title>")), 0)
	s.out = append(make([]byte, 0, len(page)+len(page)/8), page[:start]...)
	rest := page[start:]
	for len(rest) > 0 {
		open := bytes.IndexByte(rest, '<')
		if open < 0 {
			open = len(rest)
		}
		text := rest[:open]
		rest = rest[open:]
		shut := tagEnd(rest)
		s.text(string(text), bytes.HasPrefix(rest, []byte("</")))
		if shut < 0 {
			return append(s.out, rest...)
		}
		tag := rest[:shut+1]
		rest = rest[shut+1:]
		s.start(tag)
		if name := tagName(tag); name == "script" || name == "style" {
			end := bytes.Index(rest, []byte("</"+name))
			if end < 0 {
				return append(s.out, rest...)
			}
			body := rest[:end]
			if bytes.Contains(tag, []byte("ld+json")) {
				body = s.stated(body)
			}
			s.out = append(s.out, body...)
			rest = rest[end:]
		}
	}
	return s.out
}

// speaker is a page while it is spoken.
type speaker struct {
	lang  phrases.Language
	exact map[string]string
	out   []byte
	in    bool   // whether the page is within a phrase
	tag   string // the start tag at the end of out
	// own are the elements around here that have said their language.
	own []string
}

// heard are the attributes that people read or hear.
var heard = regexp.MustCompile(` (aria-label|title|alt|placeholder|content|label|data-si|value)="([^"]*)"`)

// hears reports whether a tag may have an attribute of heard. Most have none, and a page has thousands.
func hears(tag string) bool {
	for _, name := range []string{`label="`, ` title="`, ` alt="`, ` placeholder="`, ` content="`, ` data-si="`, ` value="`} {
		if strings.Contains(tag, name) {
			return true
		}
	}
	return false
}

var anyAttribute = regexp.MustCompile(`="([^"]*)"`)

// start writes a tag. A text in an attribute is looked up; it cannot say its language.
func (s *speaker) start(tag []byte) {
	s.tag = ""
	name := tagName(tag)
	if len(tag) > 1 && tag[1] == '/' {
		s.close(string(tag[2 : len(tag)-1]))
		s.out = append(s.out, tag...)
		return
	}
	text := string(tag)
	if name == "meta" && !strings.Contains(text, `"description"`) && !strings.Contains(text, `"og:`) || name == "a" || name == "button" || name == "input" {
		if phrases.Unmarked(text) != text {
			text = anyAttribute.ReplaceAllStringFunc(text, phrases.Unmarked)
		}
	}
	if hears(text) {
		text = heard.ReplaceAllStringFunc(text, func(a string) string {
			m := heard.FindStringSubmatch(a)
			if m[1] == "value" && name != "data" {
				return a
			}
			return " " + m[1] + `="` + html.EscapeString(s.lang.Plain(html.UnescapeString(m[2]))) + `"`
		})
	}
	s.out = append(s.out, phrases.Unmarked(text)...)
	if len(s.own) > 0 && name != "" && !void[name] {
		s.own = append(s.own, name)
	} else if strings.Contains(text, ` lang="`) && name != "html" {
		s.own = append(s.own, name)
	}
	if name != "" {
		s.tag = text
	}
}

// close leaves an element.
func (s *speaker) close(name string) {
	if n := len(s.own); n > 0 && s.own[n-1] == name {
		s.own = s.own[:n-1]
	}
}

// void are the elements without an end tag (HTML Living Standard, 13.1.2).
var void = map[string]bool{"area": true, "base": true, "br": true, "col": true, "embed": true, "hr": true, "img": true, "input": true, "link": true,
	"meta": true, "source": true, "track": true, "wbr": true}

// text writes a text of the page. Last is whether its element ends after it.
func (s *speaker) text(text string, last bool) {
	var runs []phrases.Run
	runs, s.in = phrases.Runs(text, s.in)
	alone := len(runs) == 1 && last && s.tag != ""
	if parts := s.sentences(runs); len(parts) > len(runs) {
		runs, alone = parts, false
	}
	for _, r := range runs {
		if r.Said || len(s.own) > 0 {
			s.out = append(s.out, r.Text...)
			continue
		}
		words := html.UnescapeString(r.Text)
		out, ok := s.lang.Around(words)
		switch {
		case ok && out == words: // numbers and the like: bilingual adds their metric form
			s.out = append(s.out, r.Text...)
		case ok:
			s.looked(words, out, alone)
		case alone && !strings.Contains(s.tag, " lang="):
			s.out = append(s.out[:len(s.out)-1], ` lang="en">`...)
			s.out = append(s.out, r.Text...)
		case plainOnly(s.tag):
			s.out = append(s.out, r.Text...)
		default:
			inner := strings.TrimSpace(r.Text)
			at := strings.Index(r.Text, inner)
			s.out = append(s.out, r.Text[:at]+`<span lang="en">`+inner+`</span>`+r.Text[at+len(inner):]...)
		}
	}
	s.tag = ""
}

// ownersFinding begins a caution whose rest the owner wrote.
const ownersFinding = "Known defect"

// sentences are the runs with each sentence by itself where the table does not have them together.
func (s *speaker) sentences(runs []phrases.Run) (out []phrases.Run) {
	for _, r := range runs {
		if label, of, ok := strings.Cut(r.Text, ": "); ok && label == ownersFinding && !r.Said && len(s.own) == 0 {
			out = append(out, phrases.Run{Text: label + ": "}, phrases.Run{Text: of})
			continue
		}
		if !r.Said && len(s.own) == 0 && strings.Contains(r.Text, ". ") && !plainOnly(s.tag) {
			if _, ok := s.lang.Around(html.UnescapeString(r.Text)); !ok {
				for _, sentence := range phrases.Sentences(r.Text) {
					out = append(out, phrases.Run{Text: sentence})
				}
				continue
			}
		}
		out = append(out, r)
	}
	return out
}

// looked writes a text that was looked up. The table gives its metric form as well, so that a page
// never converts half of a range.
func (s *speaker) looked(words, out string, alone bool) {
	metric := measure.InMetric(words, s.exact)
	if metric == words || strings.Contains(s.tag, " data-si=") || tagName([]byte(s.tag)) == "data" {
		s.out = append(s.out, html.EscapeString(out)...)
		return
	}
	metric, ok := s.lang.Around(metric)
	switch {
	case !ok:
		s.out = append(s.out, html.EscapeString(out)...)
	case alone:
		s.out = append(s.out[:len(s.out)-1], ` data-si="`+html.EscapeString(metric)+`">`+html.EscapeString(out)...)
	case !plainOnly(s.tag):
		s.out = append(s.out, `<span data-si="`+html.EscapeString(metric)+`">`+html.EscapeString(out)+`</span>`...)
	default:
		s.out = append(s.out, html.EscapeString(out)...)
	}
}

// plainOnly reports whether an element holds text and nothing else.
func plainOnly(tag string) bool {
	switch tagName([]byte(tag)) {
	case "title", "option", "text", "desc", "textarea", "tspan":
		return true
	}
	return false
}

var jsonText = regexp.MustCompile(`("@?[a-zA-Z]+":)?"((?:[^"\\]|\\.)*)"(:?)`)

// stated is what a page states for programs, with its texts in the language. Keys, types and
// addresses stay.
func (s *speaker) stated(data []byte) []byte {
	return jsonText.ReplaceAllFunc(data, func(m []byte) []byte {
		parts := jsonText.FindSubmatch(m)
		key := string(parts[1])
		if strings.HasPrefix(key, `"@`) || len(parts[3]) > 0 { // a key whose value is a number, a list or an object
			return m
		}
		var text string
		if err := json.Unmarshal([]byte(`"`+string(parts[2])+`"`), &text); err != nil {
			return m
		}
		out, err := json.Marshal(s.lang.Plain(text))
		if err != nil {
			return m
		}
		return append([]byte(key), out...)
	})
}
