package render

import (
	"bytes"
	"strings"

	"tarepage/internal/measure"
)

// bilingual adds to every quantity in a page's body the same quantity in metric units: as
// data-si of the element if it is in the element's only text, else as the value of a data
// element around it. units.js lets the two change places. Where a template has marked a
// quantity itself, from the exact value of a figure, the mark stays. exact is what
// measure.Quantities takes.
func bilingual(page []byte, exact map[string]string) []byte {
	start := bytes.Index(page, []byte("<body"))
	if start < 0 {
		return page
	}
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
		out = translated(out, text, tag, bytes.HasPrefix(next, []byte("</")), exact)
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
func translated(out, text, tag []byte, last bool, exact map[string]string) []byte {
	if len(text) < 3 || bytes.Contains(tag, []byte(" data-si=")) || tagName(tag) == "data" || !bytes.ContainsAny(text, "0123456789") {
		return append(out, text...)
	}
	words := string(text)
	all := measure.Quantities(words, exact)
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
	if tag != nil && last && (drawn || len(text) < around) {
		out = append(out[:len(out)-1], ` data-si="`...)
		out = append(out, strings.ReplaceAll(measure.InMetric(words, exact), `"`, "&#34;")...)
		out = append(out, `">`...)
		return append(out, text...)
	}
	from := 0
	for _, q := range all {
		out = append(out, words[from:q.Start]...)
		out = append(out, `<data value="`...)
		out = append(out, q.Metric...)
		out = append(out, `">`...)
		out = append(out, words[q.Start:q.End]...)
		out = append(out, `</data>`...)
		from = q.End
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
