package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"golang.org/x/net/html"

	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
)

// write writes files below a folder. Their paths have slashes.
func write(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		full := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// spoilt is a sound unit with more lines after its stock number, and with notes of its own.
func spoilt(lines, notes string) string {
	front, _, _ := strings.Cut(string(testyard.Unit(1)), "\n---\n\n")
	if lines != "" {
		front = strings.Replace(front, "\ntitle:", "\n"+lines+"\ntitle:", 1)
	}
	return front + "\n---\n\n" + notes
}

// TestHostileFiles: whatever is among the units ends in a finding or in harmless text, within
// a time limit for one file, without a character that a terminal obeys, and with the pages of
// all other units published.
func TestHostileFiles(t *testing.T) {
	thorough.Only(t)
	bomb := "a: &a [x, x, x, x, x, x, x, x, x, x]\n"
	for c := 'b'; c <= 'z'; c++ {
		bomb += fmt.Sprintf("%c: &%c [%s]\n", c, c, strings.TrimSuffix(strings.Repeat("*"+string(c-1)+", ", 10), ", "))
	}
	keys := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "gvwr%d: 1\n", i)
		}
		return strings.TrimSuffix(b.String(), "\n")
	}
	for _, c := range []struct {
		name  string
		file  string // below content/units, a.md where there is none
		text  string
		finds string // what a finding says; nothing for text that is harmless
		stays bool   // the unit is published all the same
	}{
		{name: "alias bomb", text: "---\n" + bomb + "---\n", finds: "unknown key"},
		{name: "alias bomb under a key", text: spoilt("standard: &a [x, *a, *a]", "x"), finds: "mark of YAML"},
		{name: "deep lists in YAML", text: "---\nstock: " + strings.Repeat("[", 9000) + strings.Repeat("]", 9000) + "\n---\n", finds: "stock"},
		{name: "deeper than YAML may be", text: "---\nstock: " + strings.Repeat("[", 100_000) + "\n---\n", finds: "does not read as YAML"},
		{name: "deep keys in YAML", text: "---\n" + strings.Repeat("{a: ", 20_000) + "\n---\n", finds: "does not read as YAML"},
		{name: "fifty megabytes", text: "---\n" + strings.Repeat("x", 50<<20), finds: "52428804 bytes"},
		{name: "forty thousand unknown keys", text: spoilt(keys(40_000), "x"), finds: "more of this kind"},
		{name: "one key ten thousand times", text: spoilt(strings.TrimSuffix(strings.Repeat("color: red\n", 10_000), "\n"), "x"), finds: "more of this kind"},
		{name: "a key of half a megabyte", text: spoilt(strings.Repeat("k", 500_000)+": 1", "x"), finds: "unknown key \"kkkk"},
		{name: "a value of half a megabyte", text: spoilt("color: "+strings.Repeat("k", 500_000), "x"), finds: "color has 500000 bytes"},
		{name: "quotes in quotes", text: spoilt("", strings.Repeat(">", 30_000)+"x"), finds: "30000 levels deep"},
		{name: "lists in lists", text: spoilt("", strings.Repeat("- ", 30_000)+"x"), finds: "30000 levels deep"},
		{name: "numbered lists in lists", text: spoilt("", strings.Repeat("1. ", 20_000)+"x"), finds: "20000 levels deep"},
		{name: "brackets", text: spoilt("", strings.Repeat("[", 60_000)), finds: "60000 square brackets"},
		{name: "links that never end", text: spoilt("", strings.Repeat("[a](", 15_000)), finds: "15000 square brackets"},
		{name: "stars", text: spoilt("", strings.Repeat("*a ", 20_000)), finds: "20000 marks"},
		{name: "a table of bars", text: spoilt("", strings.Repeat("|", 20_000)+"\n"+strings.Repeat("-|", 10_000)), finds: "bars"},
		{name: "ten thousand notes at one time", text: spoilt("", strings.Repeat("0:10 x\n\n", 8000)), finds: "more of this kind", stays: true},
		{name: "ten thousand figures that are none", text: spoilt("", strings.Repeat("[?](worked:nothing) ", 1900)), finds: "more of this kind"},
		{name: "four thousand tags", text: spoilt("", strings.Repeat("<b>\n\n", 4000)), finds: "more of this kind", stays: true},
		{name: "nothing", text: "", finds: "the file is empty"},
		{name: "nothing behind a byte order mark", text: "\ufeff", finds: "the file is empty"},
		{name: "blank lines behind a byte order mark", text: "\ufeff\r\n \r\n", finds: "the file is empty"},
		{name: "a zero byte", text: spoilt("color: a\x00b", "x"), finds: "zero byte"},
		{name: "an escape sequence", text: spoilt("color: \x1b[31mred", "x"), finds: "U+001B"},
		{name: "an escape sequence by its number", text: spoilt(`color: "\x1b[31mred"`, "x"), finds: "U+001B"},
		{name: "text turned round", text: spoilt("color: \u202e069,21", "x"), finds: "U+202E"},
		{name: "text turned round by its number", text: spoilt(`color: "\u202e069,21"`, "x"), finds: "U+202E"},
		{name: "no UTF-8", text: spoilt("color: \xff\xfe", "x"), finds: "not UTF-8"},
		{name: "a file name with an escape sequence", file: "\x1b[31mred.md", text: "x", finds: `\x1b[31mred.md:1:1: stop`},
		{name: "a file name of two lines", file: "a\nb.md", text: "x", finds: `a\nb.md:1:1: stop`},
		{name: "a file name turned round", file: "a\u202egpj.md", text: "x", finds: `a\u202egpj.md:1:1: stop`},
		{name: "a file name that is no UTF-8", file: "a\xff.md", text: "x", finds: `a\xff.md:1:1: stop`},
		{name: "a file name of markup", file: "<img src=x onerror=alert(1)>.md", text: spoilt("", "0:05 x"), stays: true},
		{name: "a stock number that climbs", text: strings.Replace(spoilt("", "x"), "PV-00001", "../../x", 1), finds: "stock"},
		{name: "a stock number from the root", text: strings.Replace(spoilt("", "x"), "PV-00001", "/etc/passwd", 1), finds: "stock"},
		{name: "a stock number that is a device", text: strings.Replace(spoilt("", "x"), "PV-00001", "CON", 1), finds: "stock"},
		{name: "a stock number of markup", text: strings.Replace(spoilt("", "x"), "PV-00001", "'<script>'", 1), finds: "stock"},
		{name: "a stock number by case", text: strings.Replace(spoilt("", "x"), "PV-00001", "pv-00003", 1), finds: "is already taken"},
		{name: "a photo that climbs", text: spoilt("photos: [{file: ../../../etc/passwd, alt: x}]", "x"), finds: "not a path below"},
		{name: "a photo from the root", text: spoilt("photos: [{file: /etc/passwd, alt: x}]", "x"), finds: "a place on your computer"},
		{name: "a photo from a drive", text: spoilt(`photos: [{file: 'C:\x.jpg', alt: x}]`, "x"), finds: "file-missing"},
		{name: "a photo that is a device", text: spoilt("photos: [{file: /dev/zero, alt: x}]", "x"), finds: "file-missing"},
		{name: "a video by another case", text: spoilt("photos: [{file: MEDIA/side.jpg, alt: x}]", "x"), finds: "file-missing"},
		{name: "links that run", text: spoilt("", "[a](javascript:alert(1)) [b](JaVaScRiPt&colon;alert(1)) <vbscript:x> ![c](data:text/html,x)"), finds: "link-left-out", stays: true},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			if c.file == "" {
				c.file = "a.md"
			}
			write(t, dir, map[string]string{
				"content/yard.md": string(testyard.Yard(0)[2].Data), "content/media/side.jpg": "x",
				testyard.UnitFile(3): string(testyard.Unit(7)), "content/units/" + c.file: c.text,
			})
			write(t, dir, map[string]string{testyard.UnitFile(3): strings.Replace(string(testyard.Unit(7)), testyard.Stock(7), testyard.Stock(3), 1)})
			start := time.Now()
			var out, errs bytes.Buffer
			got := run([]string{"-from", dir, "-to", filepath.Join(dir, "public"), "-leave-out"}, &out, &errs)
			// A minute allows for a slow and busy machine; the faults that this is for took several.
			if took := time.Since(start); took > time.Minute {
				t.Errorf("it took %s", took)
			}
			want := stops
			if c.stays {
				want = clean
			}
			// A build prints the stops; an inspection prints the rest too.
			_, says := built(t, got, "inspect", "-from", dir)
			if got != want || !strings.Contains(says, c.finds) {
				t.Errorf("status %d, want %d; it says\n%.1500s\n%.500s\nwant %q in it", got, want, says, out.String(), c.finds)
			}
			if len(says) > 60_000 || errs.Len() > 60_000 {
				t.Errorf("it says %d bytes", len(says))
			}
			for _, r := range says + out.String() {
				if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r)) || r == unicode.ReplacementChar {
					t.Fatalf("it prints %U raw:\n%.1000q", r, says)
				}
			}
			pages := filesBelow(t, filepath.Join(dir, "public"))
			if _, ok := pages[testyard.Page(3)]; !ok {
				t.Errorf("the other unit has no page: %q", slices.Sorted(maps.Keys(pages)))
			}
			for name, page := range pages {
				if path.Ext(name) == ".html" {
					harmless(t, name, page)
				}
			}
		})
	}
}

// TestNamesAreNotObeyed: a folder, a recording and a title that hold what a terminal obeys are
// printed so that it obeys nothing, whatever is asked.
func TestNamesAreNotObeyed(t *testing.T) {
	const name = "yard\x1b]0;taken over\x07\x1b[2J\u202e"
	dir := filepath.Join(t.TempDir(), name)
	if err := testyard.Write(dir, 1); err != nil {
		t.Skip("NOT CHECKED: no folder can have such a name here: ", err)
	}
	captions := filepath.Join("content", "media", name+".vtt")
	write(t, dir, map[string]string{captions: "WEBVTT\n\n00:01.000 --> 00:02.000\na spare tire\n"})
	captions = filepath.Join(dir, captions)
	for _, args := range [][]string{
		{"-to", filepath.Join(dir, "public")},
		{"inspect", "-json"},
		{"editor-help"},
		{"intake", captions, "-stock", "SB-2"},
		{"intake", captions, "-into", filepath.Join(dir, testyard.UnitFile(1))},
		{"-to", filepath.Join(dir, "public")}, // what intake wrote has stops
	} {
		var out, errs bytes.Buffer
		run(append(args, "-from", dir), &out, &errs)
		says := out.String() + errs.String()
		if says == "" || strings.ContainsFunc(says, func(r rune) bool {
			return r != '\n' && r != '\t' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r))
		}) {
			t.Errorf("%q prints %q", args[0], says)
		}
	}
}

// TestLinksAmongTheUnits: a link out of the folder is not followed.
func TestLinksAmongTheUnits(t *testing.T) {
	dir := t.TempDir()
	if err := testyard.Write(dir, 1); err != nil {
		t.Fatal(err)
	}
	write(t, dir, map[string]string{"secret.md": string(testyard.Unit(1)), "elsewhere/side.jpg": "secret"})
	if err := os.Symlink("../../secret.md", filepath.Join(dir, "content/units/leak.md")); err != nil {
		t.Skip("NOT CHECKED: no symbolic links here: ", err)
	}
	if err := os.Symlink(filepath.Join(dir, "elsewhere"), filepath.Join(dir, "content/media")); err != nil {
		t.Fatal(err)
	}
	write(t, dir, map[string]string{testyard.UnitFile(2): strings.Replace(string(testyard.Unit(2)), "\ntitle:", "\nphotos: [{file: media/side.jpg, alt: x}]\ntitle:", 1)})
	_, says := built(t, stops, "-from", dir, "-to", filepath.Join(dir, "public"), "-leave-out")
	if n := strings.Count(says, "is a link to another place"); n != 2 {
		t.Errorf("%d links are reported, want 2:\n%s", n, says)
	}
	if _, ok := filesBelow(t, filepath.Join(dir, "public"))[testyard.Page(1)]; ok {
		t.Error("the file that the link leads to was published")
	}
}

// TestHostileWordsAreWords: the page shows what people wrote as they wrote it. Whatever that
// is, the page has the same elements and attributes as with harmless words.
func TestHostileWordsAreWords(t *testing.T) {
	place := func(words string) map[string]string {
		quoted := "'" + strings.ReplaceAll(words, "'", "''") + "'"
		front, _, _ := strings.Cut(string(testyard.Unit(1)), "\n---\n\n")
		var lines []string
		for l := range strings.Lines(front) {
			key, _, _ := strings.Cut(l, ":")
			switch key {
			case "title", "make", "color":
				l = key + ": " + quoted + "\n"
			case "standard", "options":
				l = ""
			}
			if strings.HasPrefix(l, "  - ") {
				l = ""
			}
			l = strings.Replace(l, "(tape)", "("+strings.NewReplacer("(", "", ")", "", "#", "", ":", "").Replace(words)+")", 1)
			if strings.Contains(l, words) && !strings.Contains(l, "'") {
				k, v, _ := strings.Cut(strings.TrimSuffix(l, "\n"), ": ")
				l = k + ": '" + strings.ReplaceAll(v, "'", "''") + "'\n"
			}
			lines = append(lines, strings.TrimSuffix(l, "\n"))
		}
		lines = slices.DeleteFunc(lines, func(l string) bool { return l == "" || strings.HasPrefix(l, "tie-downs") })
		text := strings.Join(lines, "\n") + "\nspare: " + quoted + "\nstandard:\n  - " + quoted + "\noptions:\n  - " + quoted + "\n---\n\n" +
			"## `" + words + "`\n\n- 0:05 the `" + words + "` one\n\n| a | b |\n| --- | --- |\n| `" + strings.ReplaceAll(words, "|", `\|`) + "` | c |\n\n    " + words + "\n"
		yard := strings.Replace(string(testyard.Yard(0)[2].Data), "street: 12 Weighbridge Lane", "street: "+quoted, 1)
		yard = strings.Replace(yard, "name: Proving Ground Trailers", "name: "+quoted, 1)
		yard = strings.Replace(yard, "town: Level Crossing", "town: "+quoted, 1)
		yard = strings.Replace(yard, "tax, title and registration", quoted, 1)
		yard = strings.Replace(yard, "  - Monday to Friday, 8 to 5", "  - "+quoted, 1)
		return map[string]string{"content/yard.md": yard, "content/units/a.md": text}
	}
	shape := func(words string) map[string][]string {
		dir := t.TempDir()
		write(t, dir, place(words))
		var out, errs bytes.Buffer
		if run([]string{"-from", dir, "-to", filepath.Join(dir, "public")}, &out, &errs) != clean {
			t.Fatalf("%q: %s", words, errs.String())
		}
		shapes := map[string][]string{}
		for name, page := range filesBelow(t, filepath.Join(dir, "public")) {
			if path.Ext(name) == ".html" {
				harmless(t, name, page)
				shapes[name] = elements(page)
				if !strings.Contains(page, html.EscapeString(words)) && name == testyard.Page(1) && words == "harmless" {
					t.Errorf("%s does not show %q", name, words)
				}
			}
		}
		return shapes
	}
	want := shape("harmless")
	for i, words := range []string{
		`"><script>alert(1)</script>`, `'><img src=x onerror=alert(1)>`, `</title><script>alert(1)</script>`, `</script><script>alert(1)</script>`,
		`--><svg onload=alert(1)>`, `]]><x>`, `" onmouseover="alert(1)`, `' autofocus onfocus='alert(1)`, `{{.Yard}} {{template "frame" .}}`,
		`javascript:alert(1)`, `${alert(1)}`, `</style><style>*{display:none}`, `<base href=//evil.example>`, `&lt;script&gt;`, `<!--`, `\u003cscript\u003e`,
	} {
		if i%4 != 0 && os.Getenv("TAREPAGE_LONG") == "" {
			continue // TestEveryFieldIsWords writes all of them at once
		}
		got := shape(words)
		for name := range want {
			if !slices.Equal(got[name], want[name]) {
				t.Errorf("%q changes the elements of %s from\n%v to\n%v", words, name, want[name], got[name])
			}
		}
	}
}

// elements are a page's elements with the names of their attributes, in order.
func elements(page string) []string {
	var out []string
	z := html.NewTokenizer(strings.NewReader(page))
	for {
		switch z.Next() {
		case html.ErrorToken:
			return out
		case html.StartTagToken, html.SelfClosingTagToken:
			tag := z.Token()
			text := tag.Data
			for _, a := range tag.Attr {
				text += " " + a.Key
			}
			out = append(out, text)
		}
	}
}

// harmless fails if anything could run: a handler, a foreign script or frame, an address that
// is not a page, or data that cannot be parsed.
func harmless(t *testing.T, name, page string) {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		if slices.Contains([]string{"iframe", "object", "embed", "base", "frame"}, n.Data) {
			t.Errorf("%s holds a <%s>", name, n.Data)
		}
		var kind string
		for _, a := range n.Attr {
			switch {
			case strings.HasPrefix(a.Key, "on"):
				t.Errorf("%s: <%s> has %s", name, n.Data, a.Key)
			case slices.Contains([]string{"href", "src", "action", "formaction", "xlink:href", "poster", "data"}, a.Key):
				if runs(a.Val) && n.Data != "track" {
					t.Errorf("%s: <%s> leads to %q", name, n.Data, a.Val)
				}
			case a.Key == "type":
				kind = strings.ToLower(a.Val)
			}
		}
		if n.Data == "script" && n.FirstChild != nil {
			text := n.FirstChild.Data
			if strings.Contains(kind, "json") && !json.Valid([]byte(text)) {
				t.Errorf("%s: the data cannot be parsed: %.200s", name, text)
			}
			if !strings.Contains(kind, "json") && strings.Contains(text, "alert(1)") {
				t.Errorf("%s: a script holds what was written: %.200s", name, text)
			}
		}
	}
}
