package render

import (
	"flag"
	"hash/crc32"
	"html/template"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"tarepage/internal/phrases"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// runnable are what a browser runs, frames or sends, or by which it changes what addresses
// mean (HTML Standard, 4.2 and 4.8 to 4.12).
var runnable = []string{"script", "iframe", "object", "embed", "form", "base", "meta", "link", "style", "img", "svg", "input", "button"}

// shape reads a piece of a page with an independent parser (golang.org/x/net/html) and
// returns its elements with the names of their attributes. It fails for an address that
// runs and for a handler.
func shape(t *testing.T, page string) (elements []string) {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		text := n.Data
		for _, a := range n.Attr {
			text += " " + a.Key
			if strings.HasPrefix(a.Key, "on") || a.Key == "style" && n.Data != "path" {
				t.Fatalf("<%s> has %s=%q in\n%s", n.Data, a.Key, a.Val, page)
			}
			if a.Key != "href" && a.Key != "src" {
				continue
			}
			// What a browser drops before it looks at the scheme (WHATWG URL, 4.4).
			plain := strings.ToLower(strings.TrimLeft(strings.NewReplacer("\t", "", "\n", "", "\r", "").Replace(a.Val), "\x00\x01\x02\x03\x04\x05\x06\x07\x08\x0b\x0c\x0e\x0f\x10\x11\x12\x13\x14\x15\x16\x17\x18\x19\x1a\x1b\x1c\x1d\x1e\x1f "))
			for _, bad := range []string{"javascript:", "vbscript:", "data:", "file:", "blob:", "fig:"} {
				if strings.HasPrefix(plain, bad) && !strings.HasPrefix(plain, "data:image/svg+xml,") {
					t.Fatalf("<%s> leads to %q in\n%s", n.Data, a.Val, page)
				}
			}
		}
		elements = append(elements, text)
	}
	return elements
}

// FuzzNotes: whatever Markdown an owner writes, his notes come out as text, lists, tables
// and links that lead somewhere harmless, or as an error that a rule has reported.
func FuzzNotes(f *testing.F) {
	for _, s := range []string{
		"0:45 The **neck**\n\n- 1:10 an item [x](https://maker.example/?a=1&b=\"2\")\n", "[a](javascript:alert(1)) [b](JaVaScRiPt&colon;alert(1)) <vbscript:x> ![c](data:text/html,x)",
		"<script>alert(1)</script>\n\n<img src=x onerror=alert(1)>", "[a]: <javascript:alert(1)> \"t\"\n\n[a] [fig](worked:payload) [?](worked:nothing)",
		"| a | b |\n| --- | :-: |\n| `\"><x>` | ~~c~~ |\n", "```html\n</code><script>alert(1)</script>\n```\n", "[x](java\tscript:alert(1)) [y](\x01javascript:alert(1)) [z](&#106;avascript:alert(1))",
		"> > > deep\n\n1. a\n   1. b\n      - c\n", "![a [b](javascript:alert(1)) c](x \"t\\\" onload=alert(1)\")", "# <a name=x onclick=y>\n\nhard  \nbreak\\\nline", "<https://x.example/\"onmouseover=alert(1)>",
		"&lt;script&gt; &#0; &#x110000; \\<b>", "a\n===\n\n***\n\n    code <b>\n", "~~~\n\x00\n~~~", "\u202e\u2066x\ufeff",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, words string) {
		u, problems := unit.ReadUnit("a.md", []byte("---\nstock: A-1\n---\n"+words))
		if u.Broken || len(problems) > 0 && u.Body.Root == nil {
			return
		}
		out, err := notes(&u.Body, nil, "../figures/a-1.html", nil)
		if err != nil {
			return
		}
		for _, e := range shape(t, "<!doctype html><body>"+string(out)) {
			if name, _, _ := strings.Cut(e, " "); slices.Contains(runnable, name) {
				t.Fatalf("%q makes a <%s> in\n%s", words, name, out)
			}
		}
	})
}

// FuzzPage: whatever a text field holds, the page has the elements and attributes that it
// has with harmless words, and shows the words.
func FuzzPage(f *testing.F) {
	for _, s := range []string{`"><script>alert(1)</script>`, `'><img src=x onerror=alert(1)>`, `</title><script>alert(1)</script>`, `</style><style>*{}`, `--><svg onload=alert(1)>`,
		`]]><x>`, `" onmouseover="alert(1)`, `{{.Yard}} {{template "frame" .}}`, `javascript:alert(1)`, `&lt;script&gt;`, `<!--`, `\u003cscript\u003e`, "\x00\x1b[31m\u202e", "a\u2028b", `</h1`, `<a href="`, "\xff\xfe"} {
		f.Add(s)
	}
	p, err := newTemplates(theme.Files, phrases.English)
	if err != nil {
		f.Fatal(err)
	}
	// The style is four fifths of a page and has nothing that an owner wrote: without it ten times
	// as many texts are tried.
	p.style = ""
	page := func(t *testing.T, words string) []string {
		data := figuresPage{Heading: words, Back: "../u/a-1.html", Figures: []figure{{Name: "payload", Label: words, Text: words, Working: words, What: words, From: words, Source: words,
			Notes: []string{words}}}, Given: []labeled{{Label: words, Text: words, From: words}}, Absent: []absent{{words, words}}}
		data.frame = frame{Title: words, Description: words, Policy: p.policy, Style: p.style, Root: "../", Canonical: "https://yard.example/figures/a-1.html", Feeds: true,
			Yard: yardCard{Name: words, Phone: words, Email: words, Street: words, Town: words, AsOf: "today", Hours: []string{words}}, Safety: []string{words},
			Picture: &picture{Address: "https://yard.example/s/a.jpg", Alt: words, Width: 1, Height: 1}}
		out, err := p.page("workings", data)
		if err != nil {
			t.Fatal(err)
		}
		return shape(t, string(out))
	}
	// One page with every place in which a theme may put words, for most of what a fuzzer makes
	// up: the whole page takes ten times as long, and is tried with one text in sixteen, drawn by
	// the text itself, and with all that are kept.
	p.pages["places"] = template.Must(template.New("places").Parse(`{{define "frame"}}<!doctype html><html lang="en-US"><head><title>{{.}}</title><meta name="description" content="{{.}}">` +
		`<script type="application/ld+json">{"name":{{.}}}</script></head><body class="{{.}}"><h1 id='{{.}}'>{{.}}</h1><p title={{.}}>{{.}}<a href="{{.}}">a</a><a href="u/{{.}}.html?q={{.}}#{{.}}">b</a>` +
		`<img src="s/{{.}}" alt="{{.}}"></p><pre>{{.}}</pre><textarea>{{.}}</textarea><data value="{{.}}">{{.}}</data></body></html>{{end}}`))
	places := func(t *testing.T, words string) []string {
		out, err := p.page("places", words)
		if err != nil {
			t.Fatal(err)
		}
		return shape(t, string(out))
	}
	wantPage, wantPlaces := []string(nil), []string(nil)
	f.Fuzz(func(t *testing.T, words string) {
		// A field never holds an empty text or only spaces: the reader drops both.
		if strings.TrimSpace(words) == "" {
			return
		}
		if wantPage == nil {
			wantPage, wantPlaces = page(t, "harmless"), places(t, "harmless")
		}
		if got := places(t, words); !slices.Equal(got, wantPlaces) {
			t.Fatalf("%q makes the elements\n%q\nwant\n%q", words, got, wantPlaces)
		}
		if flag.Lookup("test.fuzz").Value.String() != "" && crc32.ChecksumIEEE([]byte(words))%16 != 0 {
			return
		}
		if got := page(t, words); !slices.Equal(got, wantPage) {
			t.Fatalf("%q makes the elements\n%q\nwant\n%q", words, got, wantPage)
		}
	})
}
