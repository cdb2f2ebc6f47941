package unit_test

import (
	"fmt"
	"strings"
	"testing"

	"tarepage/internal/unit"
)

func body(t *testing.T, text string) *unit.Unit {
	u, ps := unit.ReadUnit("a.md", []byte("---\nstock: A\n---\n"+text))
	if len(ps) > 0 {
		t.Fatal(problemLines(ps))
	}
	return u
}

// A paragraph or a list item that begins with a time is a note, and nothing else is.
// The body begins on line 4.
func TestNotes(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"paragraph", "0:45 The neck.", "0:45 at 4:1 skip 5"},
		{"hours", "1:02:03 The neck.", "1:02:03 at 4:1 skip 8"},
		{"tight items", "- 0:10 one\n- 0:20 two\n- three", "0:10 at 4:3 skip 5, 0:20 at 5:3 skip 5"},
		{"loose items", "- 0:10 one\n\n- 0:20 two\n", "0:10 at 4:3 skip 5, 0:20 at 6:3 skip 5"},
		{"numbered items", "1. 0:10 one\n2. 0:20 two\n", "0:10 at 4:4 skip 5, 0:20 at 5:4 skip 5"},
		{"item in an item", "- one\n  - 0:20 two\n", "0:20 at 5:5 skip 5"},
		{"second paragraph of an item", "- 0:10 one\n\n  0:15 more\n", "0:10 at 4:3 skip 5, 0:15 at 6:3 skip 5"},
		{"quoted", "> 0:45 said so\n", "0:45 at 4:3 skip 5"},
		{"time alone", "0:45\nThe neck.", "0:45 at 4:1 skip 4"},
		{"tab behind", "0:45\tThe neck.", "0:45 at 4:1 skip 5"},
		{"two paragraphs", "é\n\n0:45 one\n\n0:50 two", "0:45 at 6:1 skip 5, 0:50 at 8:1 skip 5"},
		{"heading", "## 0:45 The neck", ""},
		{"in the middle", "At 0:45 the neck.", ""},
		{"second line", "The neck\n0:45 is there.", ""},
		{"no such time", "0:75 The neck.", ""},
		{"glued", "0:45The neck.", ""},
		{"ratio", "2:1 slope", ""},
		{"code", "```\n0:45 The neck.\n```", ""},
	} {
		var got []string
		for _, n := range body(t, c.text).Body.Notes {
			got = append(got, fmt.Sprintf("%s at %d:%d skip %d", n.At, n.Pos.Line, n.Pos.Column, n.Skip))
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%s: %s; want %s", c.name, s, c.want)
		}
	}
}

// A checked figure stands where its opening bracket stands: the place is found again
// in the text by counting to the bracket.
func TestFigureLinks(t *testing.T) {
	for _, c := range []struct{ name, text, words, figure string }{
		{"first line", "[12,960 lb](worked:tag-payload) it is", "12,960 lb", "tag-payload"},
		{"later in the line", "It carries [12,960 lb](worked:tag-payload).", "12,960 lb", "tag-payload"},
		{"behind characters of several bytes", "Né 🚚 ünder [12,960 lb](worked:tag-payload).", "12,960 lb", "tag-payload"},
		{"second line of a paragraph", "It carries\nwhat it can, [12,960 lb](worked:tag-payload).", "12,960 lb", "tag-payload"},
		{"in a note", "0:45 It carries [about 13,000 lb](worked:tag-payload).", "about 13,000 lb", "tag-payload"},
		{"in an item", "- one\n- two [x](worked:payload)", "x", "payload"},
		{"marked up", "It is [**12,960** lb](worked:payload)", "12,960 lb", "payload"},
		{"all marked up", "It is [**12,960 lb**](worked:payload)", "12,960 lb", "payload"},
		{"in bold", "It is **[12,960 lb](worked:payload)**", "12,960 lb", "payload"},
		{"empty", "It carries [?](worked:payload).", "", "payload"},
		{"empty, later line", "One.\n\nTwo.\n\nIt carries [?](worked:payload).", "", "payload"},
		{"over two lines", "It is [12,960\nlb](worked:payload)", "12,960 lb", "payload"},
		{"in a table", "| a | b |\n| - | - |\n| x | [9 lb](worked:payload) |", "9 lb", "payload"},
		// RFC 3986, 3.1: a scheme is the same in capitals; CommonMark 0.31.2, 2.5: so is a reference.
		{"in capitals", "It is [9 lb](WORKED:payload)", "9 lb", "payload"},
		{"by a reference", "It is [9 lb](worked&#58;payload)", "9 lb", "payload"},
		{"in a heading", "# It is [9 lb](worked:payload)", "9 lb", "payload"},
	} {
		f := body(t, c.text).Body.Figures
		if len(f) != 1 {
			t.Errorf("%s: %d figures", c.name, len(f))
			continue
		}
		at := strings.Index(c.text, "[")
		before := c.text[:at]
		line := 4 + strings.Count(before, "\n")
		column := len([]rune(before[strings.LastIndex(before, "\n")+1:])) + 1
		if f[0].Name != c.figure || f[0].Text != c.words || f[0].Pos != (unit.Pos{File: "a.md", Line: int32(line), Column: int32(column)}) {
			t.Errorf("%s: %s %q at %s; want %s %q at a.md:%d:%d", c.name, f[0].Name, f[0].Text, f[0].Pos, c.figure, c.words, line, column)
		}
	}
	if f := body(t, "[a](figure:payload) [b](https://sawbuck.example/worked:x) `[c](worked:payload)` ![d](worked:payload)").Body.Figures; len(f) != 0 {
		t.Errorf("figures where there are none: %+v", f)
	}
	f := body(t, "[a](worked:payload), [?](worked:tag-payload)\nand [c](worked:deck-length)").Body.Figures
	var got []string
	for _, l := range f {
		got = append(got, fmt.Sprintf("%s %d:%d", l.Name, l.Pos.Line, l.Pos.Column))
	}
	if s := strings.Join(got, ", "); s != "payload 4:1, tag-payload 4:22, deck-length 5:5" {
		t.Errorf("several in a paragraph: %s", s)
	}
}

// TestOutdatedFigureLinks: the form of earlier versions and a link without words are found
// with how they are written now, and are not checked figures.
func TestOutdatedFigureLinks(t *testing.T) {
	for _, c := range []struct{ text, written string }{
		{"It carries [](fig:payload).", "[?](worked:payload)"},
		{"It carries [12,960 lb](fig:tag-payload).", "[12,960 lb](worked:tag-payload)"},
		{"It carries [](FIG:payload).", "[?](worked:payload)"},
		{"It carries [](worked:payload).", "[?](worked:payload)"},
		{"It carries [ ](worked:payload).", "[?](worked:payload)"},
	} {
		b := body(t, c.text).Body
		if len(b.Outdated) != 1 || len(b.Figures)+len(b.LeftOut) > 0 {
			t.Errorf("%s: outdated %+v, figures %+v, left out %+v", c.text, b.Outdated, b.Figures, b.LeftOut)
			continue
		}
		if got := b.Outdated[0].Written(); got != c.written || b.Outdated[0].Pos.Column != 12 {
			t.Errorf("%s: write %s, at column %d", c.text, got, b.Outdated[0].Pos.Column)
		}
	}
	if b := body(t, "It carries [?](worked:payload) and [9 lb](worked:tag-payload).").Body; len(b.Outdated) > 0 {
		t.Errorf("outdated: %+v", b.Outdated)
	}
}

func TestRawHTML(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"inline", "é <b>bold</b>", "4:3, 4:10"},
		{"block", "one\n\n<div>\nx\n</div>\n", "6:1"},
		{"comment", "<!-- hidden -->", "4:1"},
		{"indented block", "one\n\n  <script>x</script>\n", "6:1"},
		{"in code", "`<b>`", ""},
		{"mail address", "<yard@sawbuck.example>", ""},
	} {
		var got []string
		for _, p := range body(t, c.text).Body.RawHTML {
			got = append(got, fmt.Sprintf("%d:%d", p.Line, p.Column))
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%s: raw HTML at %s; want %s", c.name, s, c.want)
		}
	}
}

// The body's lines count from the file's first, whatever comes before the front matter.
func TestBodyLines(t *testing.T) {
	for _, src := range []string{
		"---\nstock: A\n---\n0:45 here",
		"\ufeff---\nstock: A\n---\n0:45 here",
		"\n\n---\nstock: A\n---\n\n\n0:45 here",
		"---\r\nstock: A\r\n---\r\n\r\n0:45 here\r\n",
		"---\rstock: A\r---\r\r0:45 here",
		"---\nstock: A\n---  \n0:45 here\n\n---\n\nmore",
	} {
		u, ps := unit.ReadUnit("a.md", []byte(src))
		flat := strings.NewReplacer("\r\n", "\n", "\r", "\n", "\ufeff", "").Replace(src)
		want := strings.Count(flat[:strings.Index(flat, "0:45")], "\n") + 1
		if len(ps) > 0 || len(u.Body.Notes) != 1 || u.Body.Notes[0].Pos.Line != int32(want) {
			t.Errorf("%q: notes %+v, want line %d; %s", src, u.Body.Notes, want, problemLines(ps))
		}
	}
}
