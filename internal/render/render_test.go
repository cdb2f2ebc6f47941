package render_test

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"

	"tarepage/internal/compute"
	"tarepage/internal/render"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

const yard = `---
name: Example <b>Trailer</b> Yard
phone: 555-0100
as-of: 2026-11-20
---

Come & see.
`

const sound = `---
title: 7,000 lb "equipment" trailer </title><script>alert(1)</script>
stock: EX-1
kind: equipment
year: 2026
condition: new
availability: on the yard
price: $5,200
hitch:
  kind: bumper-pull
  ball: 2 in
  rating: 7,000 lb (<img src=x onerror=alert(2)>)
deck:
  length: 18 ft
  width: 82 in
  height: 24 in
  front: 5 ft
axles:
  count: 2
  rating: 3,500 lb (tag)
  center: 15 ft 6 in
  spacing: 34 in
tires:
  size: ST205/75R15
  load-range: C
  pressure: 50 psi
  per-axle: 2
brakes:
  kind: electric
  axles: 2
  breakaway: yes
weights:
  gvwr: 7,000 lb (tag)
  empty: 2,000 lb (scale ticket 2026-11-03)
  tongue-empty: 260 lb (scale ticket 2026-11-03)
standard:
  - spare <i>tire</i>
---

# Walk-around

0:45 The **coupler** & its plate.

- 1:10 A tight item with [?](worked:payload) in it.
- not a note

It carries [5,000 lb](worked:tag-payload), or [about 5,000 lb](worked:tag-payload).
See [the maker](https://maker.example/x?a=1&b=2), not [this](javascript:alert(3)).
Nor [this](&#106;avascript:alert(5)), [this](java&Tab;script:alert(6)), [this](\:javascript:alert(7)),
[this](data&colon;text/html,x) or [this](blob:x). [5,000 lb](FIG:tag-payload)

<div onclick="alert(4)">raw</div> and <b>inline</b>

| part | state |
| --- | --- |
| floor | ~~old~~ new |

![a picture](x.jpg)
`

// site makes the pages of a yard held in memory.
func site(t testing.TB, files map[string]string) map[string]string {
	t.Helper()
	pages, err := pagesOf(files)
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

func pagesOf(files map[string]string) (map[string]string, error) {
	all, err := allOf(files)
	maps.DeleteFunc(all, func(path, _ string) bool { return !strings.HasSuffix(path, ".html") })
	return all, err
}

// filesOf makes every file of a site whose yard file is given.
func filesOf(files map[string]string, yard string) (map[string]string, error) {
	files["content/yard.md"] = yard
	return allOf(files)
}

func allOf(files map[string]string) (map[string]string, error) {
	root := fstest.MapFS{}
	for name, text := range files {
		root[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return makeSite(root)
}

func one(t testing.TB) map[string]string {
	return site(t, map[string]string{"content/yard.md": yard, "content/units/ex-1.md": sound})
}

func TestPagesOfASite(t *testing.T) {
	got := slices.Sorted(maps.Keys(one(t)))
	want := []string{"404.html", "figures/ex-1.html", "handover/ex-1.html", "how-we-figure.html", "index.html", "kind-equipment.html", "list.html", "lot/ex-1.html", "u/ex-1.html"}
	if !slices.Equal(got, want) {
		t.Errorf("pages %v, want %v", got, want)
	}
}

// runs is an address that a browser may run rather than fetch: any scheme but those of
// pages, mail and telephones, after what a browser drops (WHATWG URL, 4.4: leading
// controls and spaces, tabs and line ends anywhere).
var runs = regexp.MustCompile(`(?i)^[\x00-\x20]*(j\s*a\s*v\s*a|data|vbscript|blob|file|fig)\s*[a-z]*:`)

// TestNothingTheOwnerWritesRuns: text is text, wherever it is. Every page is read
// with an independent HTML parser (golang.org/x/net/html): it holds no script, no
// handler, no address that runs, and no element that the owner wrote as text.
func TestNothingTheOwnerWritesRuns(t *testing.T) {
	pages := one(t)
	for path, page := range pages {
		root, err := html.Parse(strings.NewReader(page))
		if err != nil {
			t.Fatal(err)
		}
		for n := range root.Descendants() {
			if n.Type != html.ElementNode {
				continue
			}
			// A data block is not a script: a browser runs no block of another type (HTML
			// Standard, 4.12.1).
			if n.Data == "script" && len(n.Attr) == 1 && n.Attr[0] == (html.Attribute{Key: "type", Val: "application/ld+json"}) {
				continue
			}
			if n.Data == "script" && slices.Equal(n.Attr, []html.Attribute{{Key: "type", Val: "application/json"}, {Key: "id", Val: "metric"}}) {
				continue // likewise
			}
			if n.Data == "i" && len(n.Attr) == 0 && strings.HasPrefix(path, "figures/") && n.FirstChild != nil && n.FirstChild.NextSibling == nil && quantity.MatchString(n.FirstChild.Data) {
				continue // where a quantity is
			}
			if n.Data == "script" && n.FirstChild == nil && len(n.Attr) > 0 && strings.HasPrefix(strings.TrimPrefix(n.Attr[0].Val, "../"), "s/") {
				continue // a file of the site
			}
			if n.Data == "script" && len(n.Attr) == 0 && strings.HasPrefix(n.FirstChild.Data, "window.units=") && !strings.Contains(n.FirstChild.Data, "alert") {
				continue // the switch of units, which has nothing of the owner's
			}
			if n.Data == "script" && len(n.Attr) == 0 && strings.Contains(n.FirstChild.Data, `"known-"`) && !strings.Contains(n.FirstChild.Data, "alert") {
				continue // space for answers, which has nothing of the owner's either
			}
			switch n.Data {
			case "script", "iframe", "object", "embed", "form", "img", "i", "base":
				t.Errorf("%s holds an element %s", path, n.Data)
			}
			for _, a := range n.Attr {
				if strings.HasPrefix(a.Key, "on") || a.Key == "style" ||
					a.Key == "href" && !strings.HasPrefix(a.Val, "data:image/svg+xml,") && runs.MatchString(a.Val) {
					t.Errorf("%s: element %s has %s=%q", path, n.Data, a.Key, a.Val)
				}
			}
		}
	}
	if !strings.Contains(pages["u/ex-1.html"], "&lt;script>alert(1)") {
		t.Error("the title does not show what was written")
	}
}

// TestAboutIsSaidOnce fills in a figure after the word with which its own text begins.
func TestAboutIsSaidOnce(t *testing.T) {
	about := strings.NewReplacer("empty: 2,000 lb (scale", "empty: about 2,000 lb (scale", "It carries [5,000 lb](worked:tag-payload)", "About [?](worked:tag-payload)").Replace(sound)
	if about == sound {
		t.Fatal("the example has changed")
	}
	page := site(t, map[string]string{"content/yard.md": yard, "content/units/ex-1.md": about})["u/ex-1.html"]
	if want := `About <a class="fig" href="../figures/ex-1.html#fig-tag-payload" data-si="2,267 kg">5,000 lb</a>, or`; !strings.Contains(page, want) {
		t.Errorf("the unit page lacks %q", want)
	}
}

// TestNotes looks at what becomes of the Markdown.
func TestNotes(t *testing.T) {
	page := one(t)["u/ex-1.html"]
	for _, want := range []string{
		`<h2>Walk-around</h2>`, // the page's own title is the only h1
		`<ol class="moments"><li class="moment"><span class="at">0:45</span> The <strong>coupler</strong> & its plate.`,
		`<span class="at">1:10</span> A tight item with <a class="fig" href="../figures/ex-1.html#fig-payload" data-si="2,267 kg">5,000 lb</a> in it.`,
		`<a class="fig" href="../figures/ex-1.html#fig-tag-payload" data-si="2,267 kg">5,000 lb</a>`,
		`<a class="fig" href="../figures/ex-1.html#fig-tag-payload" data-si="about 2,267 kg">about 5,000 lb</a>`,
		`<a class="fig" href="../figures/ex-1.html#fig-tag-payload" data-si="2,267 kg">5,000 lb</a>`,
		`href="https://maker.example/x?a=1&amp;b=2"`,
		`<del>old</del>`, `<td>floor`,
		`a picture`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the unit page lacks %q", want)
		}
	}
	for _, want := range []string{`id="fig-tag-payload"`, `id="fig-payload"`} {
		if !strings.Contains(one(t)["figures/ex-1.html"], want) {
			t.Errorf("the figures' page lacks %q", want)
		}
	}
	if n := strings.Count(page, "<h1"); n != 1 {
		t.Errorf("the page has %d h1, want 1", n)
	}
}

// quantity is a number with a unit, as far as an i element may hold it.
var quantity = regexp.MustCompile(`^[0-9][0-9,./ -]*[a-z][a-z0-9 /,.-]*$`)

// TestPolicyFitsTheStyle: the hash in the policy is the one of the style as it is
// in the finished page (CSP Level 3, 2.3.1: the hash of the element's text).
func TestPolicyFitsTheStyle(t *testing.T) {
	style := regexp.MustCompile(`(?s)<style>(.*?)</style>`)
	policy := regexp.MustCompile(`content="([^"]*style-src[^"]*)"`)
	for path, page := range one(t) {
		if strings.HasPrefix(path, "figures/") {
			if want := "style-src 'self'; script-src 'self'; base-uri"; !strings.Contains(strings.ReplaceAll(page, "&#39;", "'"), want) || strings.Contains(page, "<style") {
				t.Errorf("%s has a style of its own, or its policy does not hold %s", path, want)
			}
			continue
		}
		s, p := style.FindStringSubmatch(page), policy.FindStringSubmatch(page)
		if s == nil || p == nil {
			t.Fatalf("%s has no style or no policy", path)
		}
		sum := sha256.Sum256([]byte(s[1]))
		want := "style-src &#39;sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "&#39;"
		got := strings.ReplaceAll(strings.ReplaceAll(p[1], "'", "&#39;"), "&#43;", "+")
		if !strings.Contains(got, want) {
			t.Errorf("%s: policy %s does not hold %s", path, got, want)
		}
		if !strings.Contains(got, "default-src &#39;none&#39;") || strings.Contains(got, "unsafe") {
			t.Errorf("%s: policy %s is not strict", path, got)
		}
	}
}

// TestNumbersStandNearTheCaution: every page with capacities says what governs.
func TestNumbersStandNearTheCaution(t *testing.T) {
	for path, page := range one(t) {
		if !strings.Contains(page, "The label on the trailer governs.") {
			t.Errorf("%s does not say that the label governs", path)
		}
	}
	page := one(t)["u/ex-1.html"]
	plate, words := strings.Index(page, `class="tag"`), strings.Index(page, `class="safety"`)
	ladder := strings.Index(page, `class="carries"`)
	if !(plate >= 0 && plate < words && words < ladder) {
		t.Errorf("the caution stands at %d, the plate at %d, the ladder at %d", words, plate, ladder)
	}
}

// TestBudget holds the size of a page, which has to fit into the first flight of a TCP connection
// (docs/design.md, "Pages"): 13 KB at gzip -9, with the style inside.
func TestBudget(t *testing.T) {
	for _, path := range []string{"u/ex-1.html", "index.html"} {
		var b bytes.Buffer
		w, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
		_, _ = w.Write([]byte(one(t)[path]))
		_ = w.Close()
		if b.Len() > 13<<10 {
			t.Errorf("%s has %d bytes compressed, more than 13 KiB", path, b.Len())
		}
		t.Logf("%s: %d bytes, %d compressed", path, len(one(t)[path]), b.Len())
	}
}

func TestSameInputSameBytes(t *testing.T) {
	thorough.Only(t)
	files := map[string]string{"content/yard.md": yard}
	for i := range 104 {
		files[fmt.Sprintf("content/units/ex-%03d.md", i)] = strings.Replace(sound, "stock: EX-1", fmt.Sprintf("stock: EX-%03d", i), 1)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	first := site(t, files)
	runtime.GOMAXPROCS(7)
	if !maps.Equal(first, site(t, files)) {
		t.Error("with one at a time and with seven the pages differ")
	}
	// A hundred and four units are two pages of the plain list, which lead to each other.
	// The front page shows the first of them.
	if !strings.Contains(first["list.html"], `href="list-2.html"`) || !strings.Contains(first["list-2.html"], `href="list.html"`) {
		t.Error("the two pages of the plain list do not lead to each other")
	}
	if n := strings.Count(first["list.html"], `href="u/`) + strings.Count(first["list-2.html"], `href="u/`); n != 104 {
		t.Errorf("the plain list shows %d units, want 104", n)
	}
	if n := strings.Count(first["index.html"], `<li class="card`) - 1; n != 12 { // one is the template
		t.Errorf("the front page shows %d units, want 12", n)
	}
}

func TestSoldAndWithheld(t *testing.T) {
	sold := strings.NewReplacer("stock: EX-1", "stock: EX-2", "on the yard", "sold", "$5,200", "$6,300").Replace(sound)
	held := strings.NewReplacer("stock: EX-1", "stock: EX-3\nwithhold: waiting for the title").Replace(sound)
	pages := site(t, map[string]string{"content/yard.md": yard, "content/units/a.md": sold, "content/units/b.md": held, "content/units/c.md": sound})
	if _, there := pages["u/ex-3.html"]; there || strings.Contains(pages["index.html"], "EX-3") {
		t.Error("a withheld unit is shown")
	}
	gone := pages["u/ex-2.html"]
	if strings.Contains(gone, "$6,300") || !strings.Contains(gone, `<b class="price">Sold</b>`) {
		t.Error("a sold unit still shows its price, or does not say sold")
	}
	// It keeps its page, which leads to what is nearest: not to itself, nor to what is kept out.
	if leads := regexp.MustCompile(`href="?([a-z0-9-]+\.html)`).FindAllStringSubmatch(between(gone, `id="nearest"`, "</section>"), -1); len(leads) != 1 || leads[0][1] != "ex-1.html" {
		t.Errorf("a sold unit leads to %v", leads)
	}
	if front := between(pages["index.html"], `id="cards"`, "</ul>"); strings.Index(front, "EX-1") > strings.Index(front, "EX-2") {
		t.Error("the sold unit stands before the one that can be bought")
	}
}

// between is the part of a text after one mark and before the next of another.
func between(text, from, to string) string {
	_, text, _ = strings.Cut(text, from)
	text, _, _ = strings.Cut(text, to)
	return text
}

func TestOwnTheme(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"style.css", "sheet.css"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("body { color: #123456 }"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	files, err := render.Theme(theme.Files, dir)
	if err != nil {
		t.Fatal(err)
	}
	stock, _, err := unit.Read(fstest.MapFS{"content/yard.md": {Data: []byte(yard)}, "content/units/ex-1.md": {Data: []byte(sound)}})
	if err != nil {
		t.Fatal(err)
	}
	_, err = render.Site(files, render.Input{Stock: stock, Works: compute.Stock(stock)}, render.AddFunc(func(path string, page []byte) error {
		own := strings.HasSuffix(path, ".html") && !strings.HasPrefix(path, "figures/") || strings.HasSuffix(path, ".css")
		if own && !bytes.Contains(page, []byte("body{color:#123456}")) {
			t.Errorf("%s does not have the theme's own style", path)
		}
		return nil
	}))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := render.Theme(theme.Files, filepath.Join(dir, "style.css")); err == nil || !strings.Contains(err.Error(), "is not a folder") {
		t.Errorf("a theme that is not a folder gives %v", err)
	}
	if err := os.WriteFile(filepath.Join(dir, "unit.html"), []byte(`{{define "main"}}{{.NoSuch}}{{end}}`), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := render.Site(files, render.Input{Stock: stock, Works: compute.Stock(stock)}, render.AddFunc(func(string, []byte) error { return nil })); err == nil || !strings.Contains(err.Error(), "NoSuch") {
		t.Errorf("a template that asks for what there is not gives %v", err)
	}
}

func BenchmarkSite(b *testing.B) {
	files := map[string]string{"content/yard.md": yard}
	for i := range 100 {
		files[fmt.Sprintf("content/units/ex-%03d.md", i)] = strings.Replace(sound, "stock: EX-1", fmt.Sprintf("stock: EX-%03d", i), 1)
	}
	for b.Loop() {
		site(b, files)
	}
}
