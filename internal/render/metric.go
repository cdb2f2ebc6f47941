package render

import (
	"bytes"
	"encoding/json"
	"strings"

	"tarepage/internal/measure"
)

// bilingual adds to every quantity in a page's body the same quantity in metric units: as
// data-si of the element if it is in the element's only text, else as the value of a data
// element around it. units.js lets the two change places. Where a template has marked a
// quantity itself, from the exact value of a figure, the mark stays. exact is what
// measure.Quantities takes.
//
// A page that has the element of listPlace gets each metric form once, in a list there, and an i
// element around each quantity: a page of figures has three hundred quantities, and less than a
// hundred different ones.
func bilingual(page []byte, exact map[string]string) []byte {
	start := bytes.Index(page, []byte("<body"))
	if start < 0 {
		return page
	}
	at := bytes.LastIndex(page, []byte(listPlace))
	if at < start {
		return marked(page, start, &marks{exact: exact})
	}
	m := &marks{exact: exact, listed: map[string]string{}}
	out := marked(page[:at], start, m)
	out = append(out, strings.TrimSuffix(listPlace, "</script>")...)
	out = append(out, m.list()...)
	return append(out, page[at+len(listPlace)-len("</script>"):]...)
}

// listPlace is the empty element in which a template wants the list of quantities.
const listPlace = `<script type="application/json" id="metric"></script>`

// marks are how the quantities of a page are marked.
type marks struct {
	exact map[string]string
	// listed are the metric forms of those in the page's list, and order is theirs in it; nil
	// where a page has no list.
	listed map[string]string
	order  []string
}

// inList reports whether a quantity has its metric form from the list. One that is written as
// another with another form has not.
func (m *marks) inList(text, metric string) bool {
	if m.listed == nil {
		return false
	}
	before, ok := m.listed[text]
	if !ok {
		m.listed[text] = metric
		m.order = append(m.order, text)
	}
	return !ok || before == metric
}

// list is the page's list of quantities, as JSON.
func (m *marks) list() []byte {
	out := []byte{'{'}
	for i, text := range m.order {
		if i > 0 {
			out = append(out, ',')
		}
		for j, part := range []string{text, m.listed[text]} {
			quoted, err := json.Marshal(part)
			if err != nil {
				panic(err) // a string always has JSON
			}
			if j > 0 {
				out = append(out, ':')
			}
			out = append(out, quoted...)
		}
	}
	return append(out, '}')
}

// marked is a page with its quantities marked from start on.
func marked(page []byte, start int, m *marks) []byte {
	out := make([]byte, 0, len(page)+len(page)/8)
	out = append(out, page[:start]...)
	rest := page[start:]
	var tag []byte // the start tag at the end of out, which text may follow
	for {
		open := bytes.IndexByte(rest, '<')
		if open < 0 {
			return append(out, rest...)
		}
		text := rest[:open]
		rest = rest[open:]
		shut := tagEnd(rest)
		if shut < 0 {
			return append(append(out, text...), rest...)
		}
		next := rest[:shut+1]
		rest = rest[shut+1:]
		out = translated(out, text, tag, bytes.HasPrefix(next, []byte("</")), m)
		out = append(out, next...)
		tag = nil
		switch name := tagName(next); name {
		case "script", "style", "":
			// People do not read the text of a script.
			if name != "" {
				end := bytes.Index(rest, []byte("</"+name))
				if end < 0 {
					return append(out, rest...)
				}
				out = append(out, rest[:end]...)
				rest = rest[end:]
			}
		default:
			tag = next
		}
	}
}

// tagEnd is where the tag ends with which b begins, or -1. The value of an attribute may hold
// a > in its quotes.
func tagEnd(b []byte) int {
	quote := byte(0)
	for i, c := range b {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return i
		}
	}
	return -1
}

// tagName is the name of a start tag; empty for anything else and for a tag that closes itself.
func tagName(tag []byte) string {
	if len(tag) < 3 || tag[1] == '/' || tag[1] == '!' || tag[len(tag)-2] == '/' {
		return ""
	}
	name := tag[1 : len(tag)-1]
	if i := bytes.IndexByte(name, ' '); i >= 0 {
		name = name[:i]
	}
	return string(name)
}

// translated appends a text to out. Where the text is all that its element holds, the
// metric form goes into the start tag, which is then the end of out.
func translated(out, text, tag []byte, last bool, m *marks) []byte {
	if len(text) < 3 || bytes.Contains(tag, []byte(" data-si=")) || tagName(tag) == "data" || !bytes.ContainsAny(text, "0123456789") {
		return append(out, text...)
	}
	words := string(text)
	all := measure.Quantities(words, m.exact)
	if len(all) == 0 {
		return append(out, text...)
	}
	around := 0
	for _, q := range all {
		around += len(`<data value=""></data>`) + len(q.Metric)
	}
	drawn := false // an SVG element cannot hold a data element
	switch tagName(tag) {
	case "text", "title", "desc":
		drawn = true
	}
	if tag != nil && last && (drawn || m.listed == nil && len(text) < around) {
		out = append(out[:len(out)-1], ` data-si="`...)
		out = append(out, strings.ReplaceAll(measure.InMetric(words, m.exact), `"`, "&#34;")...)
		out = append(out, `">`...)
		return append(out, text...)
	}
	from := 0
	for _, q := range all {
		out = append(out, words[from:q.Start]...)
		from = q.End
		if text := words[q.Start:q.End]; m.inList(text, q.Metric) {
			out = append(append(append(out, "<i>"...), text...), "</i>"...)
			continue
		}
		out = append(out, `<data value="`...)
		out = append(out, q.Metric...)
		out = append(out, `">`...)
		out = append(out, words[q.Start:q.End]...)
		out = append(out, `</data>`...)
	}
	return append(out, words[from:]...)
}

// twofold puts the switch of units on a page, and the script that keeps space for answers.
func (p *templates) twofold(f *frame) {
	f.Units, f.Policy = p.units, scripted(f.Policy, p.unitsHash)
	f.Known, f.Policy = p.known, scripted(f.Policy, p.knownHash)
}

// turned makes a page that can be read in either system of units.
func (p *templates) turned(name string, data any, exact map[string]string) ([]byte, error) {
	page, err := p.made(name, data, exact)
	if err != nil {
		return nil, err
	}
	return bilingual(page, exact), nil
}
