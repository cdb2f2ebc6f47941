package render

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/photo"
	"tarepage/internal/unit"
)

// wordsOf is an entry of a few lines of front matter, whatever else it lacks.
func wordsOf(t *testing.T, front string) *entry {
	t.Helper()
	u, problems := unit.ReadUnit("content/units/ex-1.md", []byte("---\nstock: EX-1\n"+front+"---\n"))
	for _, p := range problems {
		if p.Rule == "unknown-key" || p.Rule == "value-unreadable" {
			t.Fatalf("%s: %s in\n%s", p.At, p.Message, front)
		}
	}
	return &entry{Unit: u, work: compute.Unit(u, compute.SettingsOf(&unit.Yard{})), path: "u/ex-1.html"}
}

// TestTitles: a long title is cut at its first comma, its numbers stay with their units, and the
// page's title has the price, the town and the stock number as far as 60 letters go.
func TestTitles(t *testing.T) {
	for title, want := range map[string][2]string{
		"82 in x 18 ft equipment trailer":                               {"82 in x 18 ft equipment trailer", ""},
		"14 ft dump, hydraulic":                                         {"14 ft dump, hydraulic", ""},                // short enough
		"83 in x 14 ft dump trailer, tarp kit":                          {"83 in x 14 ft dump trailer, tarp kit", ""}, // 36 letters
		"83 in x 14 ft dump trailer, tarp kits":                         {"83 in x 14 ft dump trailer", "tarp kits"},  // 37
		"102 in x 28 ft gooseneck deck-over, hydraulic tail, 3 jacks":   {"102 in x 28 ft gooseneck deck-over", "hydraulic tail, 3 jacks"},
		"a title of more than thirty-six letters and without any comma": {"a title of more than thirty-six letters and without any comma", ""},
	} {
		if short, more := shortTitle(title); short != want[0] || more != want[1] {
			t.Errorf("%q: %q and %q", title, short, more)
		}
	}
	if got := unbroken("82 in x 18 ft trailer, 7,000 lb"); got != "82\u00a0in x 18\u00a0ft trailer, 7,000\u00a0lb" {
		t.Errorf("%q", got)
	}
	m := &maker{templates: english.templates}
	m.frame.Yard.Town = "Quillfern"
	e := wordsOf(t, "title: x\nprice: $5,200\navailability: on the yard\n")
	for short, want := range map[string]string{
		"14 ft dump":            "14 ft dump, $5,200, Quillfern, EX-1",
		strings.Repeat("x", 51): strings.Repeat("x", 51) + ", $5,200", // 59 letters
		strings.Repeat("x", 52): strings.Repeat("x", 52) + ", EX-1",   // the price does not fit, the number does
		strings.Repeat("x", 60): strings.Repeat("x", 60),
	} {
		if got := m.titled(e, short); got != want {
			t.Errorf("%s: %s", short, got)
		}
	}
	m.frame.Yard.Town = ""
	if got := m.titled(e, "14 ft dump"); got != "14 ft dump, $5,200, EX-1" {
		t.Errorf("without a town: %s", got)
	}
}

// TestFactsOfAPage: the line under a title, and what a search engine shows.
func TestFactsOfAPage(t *testing.T) {
	for _, c := range []struct{ front, more, want string }{
		{"condition: new\n", "", "new"},
		{"condition: used\nyear: 2019\nmake: Quillfern\ncolor: plum\n", "tarp kit", "tarp kit, 2019, Quillfern, used, plum"},
		{"condition: used\nyear: 2019\n", "tarp kit, Used", "tarp kit, Used, 2019"},
		{"condition: used\ncolor: galvanized\n", "tandem, galvanized, used", "tandem, galvanized, used"},
		{"condition: new\navailability: on the yard\narrived: 2026-11-05\n", "", "new, here since November 5, 2026"},
	} {
		if got := english.facts(wordsOf(t, c.front).Unit, c.more); got != c.want {
			t.Errorf("%s: %q, want %q", c.front, got, c.want)
		}
	}
	const weights = "weights:\n  gvwr: 7,000 lb (tag)\n  empty: 2,000 lb (scale ticket 2026-11-03)\n"
	for _, c := range []struct {
		front, heading, town string
		want                 []string
	}{
		{"availability: on the yard\n" + weights, "14 ft dump", "Quillfern", []string{"14 ft dump", "Quillfern", "7,000 lb", "5,000 lb"}},
		{"availability: on the yard\n" + weights, "14 ft dump, tarp", "", []string{"14 ft dump, tarp,", "7,000 lb", "5,000 lb"}},
		{"availability: sold\n" + weights, "14 ft dump, tarp", "", []string{"14 ft dump, tarp", "7,000 lb"}},
		{"availability: on the yard\nweights:\n  gvwr: 7,000 lb (tag)\n", "14 ft dump", "", []string{"7,000 lb"}},
	} {
		e := wordsOf(t, c.front)
		got := english.describe(c.heading, c.town, e.work)
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%q lacks %q", got, w)
			}
		}
		if strings.Contains(got, "{") || strings.Contains(got, ",,") || strings.Contains(got, "link ") || c.town == "" && strings.Contains(got, " in .") {
			t.Errorf("%q", got)
		}
	}
}

// TestLabels: keys and sections as words, and a clause as a sentence.
func TestLabels(t *testing.T) {
	for key, want := range map[string]string{"tongue-limit": "Tongue limit", "weights.gvwr": "Weights, GVWR", "gvwr": "GVWR", "d-rings": "D-rings", "vin": "VIN", "led": "LED", "": "", "brakes.abs": "Brakes, ABS"} {
		if got := label(key); got != want {
			t.Errorf("%q is labeled %q, want %q", key, got, want)
		}
	}
	if english.section("") == "" || strings.HasPrefix(english.section(""), "section") || english.section("no-such.key") != "No such, key" {
		t.Errorf("%q, %q", english.section(""), english.section("no-such.key"))
	}
	if ending("a.") != "a." || ending("a") != "a." || ending("a..") != "a." {
		t.Error("a clause does not end with one period")
	}
}

// TestPlatesOfATag: what was stated is on the tag, and a payload that cannot be figured says what
// is missing.
func TestPlatesOfATag(t *testing.T) {
	text := func(front string) string {
		e := wordsOf(t, front)
		var out []string
		for _, p := range english.plates(e.Unit, e.work) {
			out = append(out, p.Label+"="+p.Text+" ("+p.From+")")
		}
		return strings.Join(out, "; ")
	}
	const weights = "weights:\n  gvwr: 7,000 lb (tag)\n  empty: 2,000 lb (scale ticket 2026-11-03)\n"
	whole := text("kind: utility\nhitch:\n  kind: gooseneck\n  ball: 2-5/16 in\n  plug: 7-blade\n" + weights)
	for _, want := range []string{"=5,000 lb (", "=2,000 lb (scale ticket 2026-11-03)", "=7,000 lb (tag)", "=Gooseneck (2-5/16 in ball, 7-blade"} {
		if !strings.Contains(whole, want) {
			t.Errorf("the tag lacks %q: %s", want, whole)
		}
	}
	less := text("kind: utility\nweights:\n  gvwr: 7,000 lb (tag)\n")
	if strings.Contains(less, "5,000") || strings.Count(less, "=") != 2 || !strings.Contains(less, "weigh") {
		t.Errorf("without an empty weight: %s", less)
	}
	unknown := text("kind: utility\nweights:\n  gvwr: 7,000 lb (tag)\n  empty: \"unknown: the scale is broken\"\n")
	if !strings.Contains(unknown, "the scale is broken") {
		t.Errorf("with a reason: %s", unknown)
	}
}

// TestFillsOfABed: loose materials by their density, the heaviest first; what fits is level or
// heaped, and a bed that is not heaped is filled level at most.
func TestFillsOfABed(t *testing.T) {
	const bed = "kind: dump\nbed:\n  length: 14 ft\n  width: 83 in\n  height: 24 in\n"
	e := wordsOf(t, bed+"weights:\n  gvwr: 14,000 lb (tag)\n  empty: 4,400 lb (scale ticket 2026-11-03)\n")
	list := english.fills(e)
	if len(list) < 3 {
		t.Fatalf("%d materials", len(list))
	}
	for i, h := range list {
		if h.Text == "" || h.Label == "" || h.What == "" {
			t.Errorf("material %d is %+v", i, h)
		}
		if strings.HasSuffix(h.Text, " in") && h.Metric == "" {
			t.Errorf("%s has no metric height", h.Label)
		}
	}
	heaped := fmt.Sprint(list)
	light := wordsOf(t, bed+"weights:\n  gvwr: 40,000 lb (tag)\n  empty: 4,400 lb (scale ticket 2026-11-03)\n")
	strong := fmt.Sprint(english.fills(light))
	flat := wordsOf(t, strings.Replace(bed, "  height: 24 in\n", "  height: 24 in\n  heap: no\n", 1)+"weights:\n  gvwr: 40,000 lb (tag)\n  empty: 4,400 lb (scale ticket 2026-11-03)\n")
	level := fmt.Sprint(english.fills(flat))
	if heaped == strong || strong == level {
		t.Errorf("the payload or the heap makes no difference:\n%s\n%s\n%s", heaped, strong, level)
	}
	if english.fills(wordsOf(t, bed)) != nil {
		t.Error("a bed without a payload has fills")
	}
}

// TestLinks: further pages, the address of a comparison, and which addresses need the whole yard.
func TestLinks(t *testing.T) {
	names := func(pages, here int) string {
		var out []string
		for _, l := range furtherLinks("list.html", pages, here) {
			if l.Here {
				l.Name = "[" + l.Name + "]"
			}
			out = append(out, l.Name)
		}
		return strings.Join(out, " ")
	}
	for _, c := range []struct {
		pages, here int
		want        string
	}{{1, 0, ""}, {2, 0, "[1] 2"}, {2, 1, "1 [2]"}, {9, 0, "[1] 2 3 9"}, {9, 4, "1 3 4 [5] 6 7 9"}, {9, 8, "1 7 8 [9]"}} {
		if got := names(c.pages, c.here); got != c.want {
			t.Errorf("page %d of %d: %s, want %s", c.here, c.pages, got, c.want)
		}
	}
	e := wordsOf(t, "kind: dump\n")
	e.Stock.Value = "A 1,#2&3%"
	if got := comparing("../", e); got != "../index.html#kind=dump&pick=A%201%2C%232%263%25" {
		t.Errorf("%s", got)
	}
	for name, want := range map[string][2]bool{
		"index.html": {true, false}, "kind-dump.html": {true, false}, "s/stock-1.js": {true, false}, "worker.js": {true, false}, "u/a.html": {false, false},
		"stock.json": {true, true}, "stock.csv": {true, true}, "sitemap.xml": {true, true}, "sitemap-2.xml": {true, true}, "robots.txt": {true, true},
		"favicon.ico": {false, false}, "a/b.js": {false, false}, "sitemap.txt": {false, false},
	} {
		if got := [2]bool{ofMany(name), forPrograms(name)}; got != want {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
}

// TestPoster: the photo of the earliest moment, and without moments the first one.
func TestPoster(t *testing.T) {
	shot := func(name, at string, seconds int) shownPhoto {
		p := &photo.Picture{JPEG: photo.File{Name: name, Wide: 640, High: 480}}
		p.WebP = []photo.File{{Name: name, Wide: photo.Poster}}
		return shownPhoto{made: p, At: at, AtSeconds: seconds}
	}
	for _, c := range []struct {
		list []shownPhoto
		want string
	}{
		{nil, ""},
		{[]shownPhoto{shot("a", "", 0), shot("b", "", 0)}, "../a"},
		{[]shownPhoto{shot("a", "", 0), shot("b", "0:20", 20), shot("c", "0:10", 10)}, "../c"},
		{[]shownPhoto{shot("a", "0:10", 10), shot("b", "0:10", 10), shot("c", "", 0)}, "../a"},
		{[]shownPhoto{shot("a", "0:10", 10), shot("b", "0:00", 0)}, "../b"},
	} {
		if got := english.poster(c.list); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	p := &photo.Picture{JPEG: photo.File{Name: "s/a.jpg", Wide: 640, High: 480}, Preview: photo.Preview{Wide: 10, High: 7, Mid: "M1 1h2", Dark: "M3 3h1"}}
	for _, w := range []int{photo.Poster / 2, photo.Poster, photo.Phone, photo.Desk, 4 * photo.Desk} {
		p.WebP = append(p.WebP, photo.File{Name: fmt.Sprintf("s/a-%d.webp", w), Wide: w})
	}
	for _, first := range []bool{true, false} {
		got := string(pictured("../", p, `a "big" <one>`, first))
		if strings.Contains(got, "lazy") == first || strings.Contains(got, "fetchpriority") != first || !strings.Contains(got, `alt="a &#34;big&#34; &lt;one&gt;"`) ||
			!strings.Contains(got, `viewBox="0 -.5 10 7"`) || !strings.Contains(got, `width="640" height="480"`) || strings.Contains(got, fmt.Sprintf("a-%d.webp", 4*photo.Desk)) ||
			strings.Contains(got, fmt.Sprintf("a-%d.webp", photo.Poster/2)) || strings.Count(got, fmt.Sprintf("../s/a-%d.webp %dw", photo.Phone, photo.Phone)) < 2 {
			t.Errorf("first is %v: %s", first, got)
		}
		phone, desk, _ := strings.Cut(got, `sizes="704px"`)
		if strings.Contains(phone, fmt.Sprintf("a-%d.webp", photo.Desk)) && photo.Desk != photo.Phone || !strings.Contains(desk, fmt.Sprintf("a-%d.webp", photo.Desk)) {
			t.Errorf("a phone is offered what a desk needs: %s", got)
		}
	}
}

// TestThemeOver: a file of the owner's folder stands for the built-in one; a pipe, a folder's link
// out and a file that is too large do not.
func TestThemeOver(t *testing.T) {
	built := fstest.MapFS{"unit.html": {Data: []byte("built in")}, "yard.html": {Data: []byte("built in")}}
	dir := t.TempDir()
	if same, err := Theme(built, ""); err != nil || fmt.Sprint(same) != fmt.Sprint(built) {
		t.Errorf("%v", err)
	}
	for _, bad := range []string{filepath.Join(dir, "missing"), filepath.Join(dir, "file")} {
		if err := os.WriteFile(filepath.Join(dir, "file"), nil, 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := Theme(built, bad); err == nil || !strings.Contains(err.Error(), "is not a folder") {
			t.Errorf("%s: %v", bad, err)
		}
	}
	for name, size := range map[string]int{"unit.html": 5, "most.css": MostThemeFile, "more.css": MostThemeFile + 1} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(strings.Repeat("x", size)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	look, err := Theme(built, dir)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"unit.html": "xxxxx", "yard.html": "built in"} {
		if data, err := fs.ReadFile(look, name); err != nil || string(data) != want {
			t.Errorf("%s: %q, %v", name, data, err)
		}
	}
	for name, opens := range map[string]bool{"most.css": true, "more.css": false, "missing.css": false, ".": true} {
		f, err := look.Open(name)
		if (err == nil) != opens {
			t.Errorf("%s: %v", name, err)
		}
		if f != nil {
			f.Close()
		}
	}
	secret := filepath.Join(t.TempDir(), "secret")
	if err := os.WriteFile(secret, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(secret, filepath.Join(dir, "out.css")); err == nil {
		if f, err := look.Open("out.css"); err == nil {
			f.Close()
			t.Error("a link leads out of the folder")
		}
	}
}
