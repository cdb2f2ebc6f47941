package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/dop251/goja"
	"go.yaml.in/yaml/v4"
	"golang.org/x/net/html"

	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// spells are what an attacker writes where words belong. Whatever a browser could act on is
// named zq, so that the test knows it again in any file. None has a parenthesis, so that each
// can be written in parentheses as the source of a value.
var spells = []string{
	`'"><zqtag onzq=1 zqattr=2><script>zqran=1</script>`,
	`</script></title></style></textarea>--><zqtag zqattr>]]><zqtag>&lt;zqtag&gt;<!--`,
	`javascript:zqran=1//" onmouseover="zqran=1" x='`,
	`=1+1|zq'\u003czqtag\u003e\x3czqtag\x3e"+zqran+"${zqran=1}{{zqran}}`,
}

// inert fails for a file of the site in which a spell is more than words. An independent
// parser reads each kind of file.
func inert(t *testing.T, name, text string) {
	t.Helper()
	switch ext := path.Ext(name); {
	case ext == ".html":
		inertMarkup(t, name, text)
	case ext == ".json":
		var v any
		if err := json.Unmarshal([]byte(text), &v); err != nil {
			t.Errorf("%s cannot be parsed: %v", name, err)
		}
		inertValue(t, name, "", v)
	case ext == ".xml" || ext == ".atom" || ext == ".svg":
		d := xml.NewDecoder(strings.NewReader(text))
		kind := ""
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Errorf("%s cannot be parsed: %v", name, err)
				break
			}
			switch e := token.(type) {
			case xml.StartElement:
				kind = ""
				if strings.HasPrefix(e.Name.Local, "zq") || e.Name.Local == "script" {
					t.Errorf("%s holds an element <%s>", name, e.Name.Local)
				}
				for _, a := range e.Attr {
					if strings.Contains(a.Name.Local, "zq") || strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "href" && runs(a.Value) {
						t.Errorf("%s: <%s> has %s=%q", name, e.Name.Local, a.Name.Local, a.Value)
					}
					if a.Name.Local == "type" {
						kind = a.Value
					}
				}
			case xml.CharData:
				// A feed reader takes this text for markup (RFC 4287, 3.1.1.2).
				if kind == "html" {
					inertMarkup(t, name, string(e))
				}
			}
		}
	case strings.HasPrefix(name, "s/stock-") && ext == ".js":
		// The engine runs the file as a browser does. Goja has no page.
		js := goja.New()
		if _, err := js.RunString(text); err != nil {
			t.Errorf("%s does not run: %v", name, err)
		}
		if v := js.Get("zqran"); v != nil {
			t.Errorf("%s runs what was written", name)
		}
	case name == "stock.csv" || name == "stock-spreadsheet.csv":
		rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff"))).ReadAll()
		if err != nil {
			t.Errorf("%s cannot be parsed: %v", name, err)
		}
		for _, cell := range slices.Concat(rows...) {
			// A spreadsheet takes such a cell for a formula (OWASP, CSV Injection). stock.csv is for programs.
			if _, err := strconv.ParseFloat(cell, 64); err != nil && name == "stock-spreadsheet.csv" && cell != "" && strings.ContainsAny(cell[:1], "=+-@\t\r") {
				t.Errorf("%s: the cell %q is a formula", name, cell)
			}
		}
	}
}

// inertValue checks each text of a file for programs: those that a program takes for markup,
// by their keys, and those that it takes for an address.
func inertValue(t *testing.T, name, key string, v any) {
	t.Helper()
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			inertValue(t, name, k, x)
		}
	case []any:
		for _, x := range v {
			inertValue(t, name, key, x)
		}
	case string:
		// JSON Feed 1.1; schema.org.
		switch key {
		case "content_html":
			inertMarkup(t, name, v)
		case "url", "@id", "id", "external_url", "image", "home_page_url", "feed_url", "contentUrl", "embedUrl", "thumbnailUrl", "page":
			if runs(v) {
				t.Errorf("%s: %s leads to %q", name, key, v)
			}
		}
	}
}

// runs reports whether a browser would run an address instead of fetching it, once the
// characters are gone that it drops (WHATWG URL, 4.4).
func runs(address string) bool {
	plain := strings.ToLower(strings.TrimLeft(strings.NewReplacer("\t", "", "\n", "", "\r", "").Replace(address), "\x00\x01\x02\x03\x04\x05\x06\x07\x08\x0b\x0c\x0e\x0f\x10\x11\x12\x13\x14\x15\x16\x17\x18\x19\x1a\x1b\x1c\x1d\x1e\x1f "))
	for _, scheme := range []string{"javascript:", "vbscript:", "data:", "file:", "blob:"} {
		if strings.HasPrefix(plain, scheme) && !strings.HasPrefix(plain, "data:image/svg+xml,") {
			return true
		}
	}
	return false
}

// inertMarkup fails for the same reasons as harmless, and for a spell that is more than words.
func inertMarkup(t *testing.T, name, page string) {
	t.Helper()
	harmless(t, name, page)
	doc, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		if strings.HasPrefix(n.Data, "zq") {
			t.Errorf("%s holds an element <%s>", name, n.Data)
		}
		kind := ""
		for _, a := range n.Attr {
			switch {
			case strings.Contains(a.Key, "zq") || a.Key == "srcdoc":
				t.Errorf("%s: <%s> has %s=%q", name, n.Data, a.Key, a.Val)
			case a.Key == "style" && strings.Contains(a.Val, "zq"):
				t.Errorf("%s: <%s> is styled by %q", name, n.Data, a.Val)
			case a.Key == "type":
				kind = a.Val
			}
		}
		if n.FirstChild == nil || n.Data != "script" && n.Data != "style" {
			continue
		}
		switch text := n.FirstChild.Data; {
		case strings.Contains(kind, "json"):
			var v any
			if err := json.Unmarshal([]byte(text), &v); err != nil {
				t.Errorf("%s: the data cannot be parsed: %v: %.200s", name, err, text)
			}
			inertValue(t, name, "", v)
		case strings.Contains(text, "zq"):
			t.Errorf("%s: a <%s> holds what was written: %.300s", name, n.Data, text)
		}
	}
}

// A sheet is a file's front matter. Values are set by the paths of the format.
type sheet struct{ root *yaml.Node }

func newSheet(t *testing.T, text string) sheet {
	t.Helper()
	front, _, _ := strings.Cut(strings.TrimPrefix(text, "---\n"), "\n---\n")
	var doc yaml.Node
	if err := yaml.Load([]byte(front), &doc); err != nil {
		t.Fatal(err)
	}
	return sheet{doc.Content[0]}
}

func scalar(text string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Value: text, Style: yaml.SingleQuotedStyle}
}

// enter sets the node at a path, and makes the sections on the way.
func enter(in *yaml.Node, path []string, value *yaml.Node) {
	for i := 0; i < len(in.Content); i += 2 {
		if in.Content[i].Value != path[0] {
			continue
		}
		if len(path) == 1 {
			in.Content[i+1] = value
			return
		}
		enter(in.Content[i+1], path[1:], value)
		return
	}
	if len(path) > 1 {
		inner := &yaml.Node{Kind: yaml.MappingNode}
		enter(inner, path[1:], value)
		value = inner
	}
	in.Content = append(in.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: path[0]}, value)
}

// drop removes a path.
func drop(in *yaml.Node, path []string) {
	for i := 0; i < len(in.Content); i += 2 {
		if in.Content[i].Value == path[0] {
			if len(path) == 1 {
				in.Content = slices.Delete(in.Content, i, i+2)
				return
			}
			drop(in.Content[i+1], path[1:])
			return
		}
	}
}

func (s sheet) text(t *testing.T, words string) string {
	t.Helper()
	out, err := yaml.Dump(s.root)
	if err != nil {
		t.Fatal(err)
	}
	return "---\n" + string(out) + "---\n\n" + words + "\n"
}

// stopped are the files of a yard that have a stop.
func stopped(t *testing.T, dir string) map[string]bool {
	t.Helper()
	type finding struct{ Severity, File string }
	var all struct {
		Units    []struct{ Findings []finding }
		Findings []finding
	}
	says, _ := built(t, stops, "inspect", "-from", dir, "-json")
	if err := json.Unmarshal([]byte(says), &all); err != nil {
		t.Fatal(err)
	}
	for _, u := range all.Units {
		all.Findings = append(all.Findings, u.Findings...)
	}
	out := map[string]bool{}
	for _, f := range all.Findings {
		if _, below, ok := strings.Cut(f.File, "content/"); ok && f.Severity == "stop" {
			out["content/"+below] = true
		}
	}
	return out
}

// cast writes a spell into a field in the way in which its kind takes words: as the text, as an
// item of a list, or as the note after a value that says where it comes from. It reports false
// for a section, which takes no words of its own.
func cast(s sheet, k unit.KeyDoc, spell string) bool {
	list, leaf, _ := strings.Cut(k.Path, ".")
	item := func(pairs ...string) *yaml.Node {
		m := &yaml.Node{Kind: yaml.MappingNode}
		for i := 0; i < len(pairs); i += 2 {
			if pairs[i+1] != "" {
				enter(m, []string{pairs[i]}, scalar(pairs[i+1]))
			}
		}
		return m
	}
	value := spell
	if k.Kind != "text" && k.Kind != "list" && k.Kind != "choice" {
		value, _, _ = strings.Cut(k.Example, " (")
		value += " (" + spell + ")"
	}
	var node *yaml.Node
	switch {
	case k.Kind == "section" || k.Path == "photos" || k.Path == "waive" || k.Path == "proof":
		return false
	case k.Path == "tie-downs":
		node = item(spell, "4")
	case k.Kind == "list":
		node = scalar(value)
	case list == "photos":
		node = item("file", "media/side.jpg", "alt", "a side")
		enter(node, []string{leaf}, scalar(value))
		if leaf == "caption" { // it takes the place of the words
			drop(node, []string{"alt"})
		}
	case list == "proof":
		node = item("file", "media/side.jpg", "shows", "label", "proves", "weights.gvwr")
		enter(node, []string{leaf}, scalar(value))
	case list == "waive":
		node = item("rule", "tires-under-axle", "reason", "waits for tires", "until", "2026-12-15")
		enter(node, []string{leaf}, scalar(value))
	default:
		enter(s.root, strings.Split(k.Path, "."), scalar(value))
		return true
	}
	enter(s.root, []string{list}, &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{node}})
	return true
}

// TestEveryFieldIsWords writes a spell into the fields that the format declares for a unit, a
// model and the yard, so it will try a field that is added later too. Each spell ends in a
// finding about its file, or as words on pages. All spells that were taken are then written
// into one yard with an address, and the files for other programs are checked as well. With
// TAREPAGE_LONG every spell is tried, and in every field, not in every second one of a unit and
// every eighth one of a model.
func TestEveryFieldIsWords(t *testing.T) {
	thorough.Only(t)
	if testing.Short() {
		t.Skip("not with -short: it builds hundreds of units")
	}
	tried, whole := spells[:1], os.Getenv("TAREPAGE_LONG") != ""
	if whole {
		tried = spells
	}
	example := func(name string) string {
		data, err := os.ReadFile("../../content/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	sound, model, yard := example("units/sb-1043.md"), example("models/oxbow-28.md"), example("yard.md")
	numbered := func(stock string) sheet {
		s := newSheet(t, sound)
		drop(s.root, []string{"serial"})
		drop(s.root, []string{"photos"})
		drop(s.root, []string{"proof"})
		enter(s.root, []string{"stock"}, scalar(stock))
		return s
	}
	for n, spell := range tried {
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			dir := t.TempDir()
			files := map[string]string{"content/yard.md": newSheet(t, yard).text(t, "x"), "content/media/side.jpg": example("media/sb-1043-side.jpg"),
				"content/models/oxbow-28.md": model}
			y := newSheet(t, yard)
			drop(y.root, []string{"address"})
			files["content/yard.md"] = y.text(t, "x")
			fields := map[string]unit.KeyDoc{} // by the files that they are tried in
			for i, k := range unit.Keys() {
				stock := fmt.Sprintf("OWN-%d", i)
				s := numbered(stock)
				// An example is left out next to other trailers, and alone it has no feed.
				if k.Path == "example" || !cast(s, k, spell) {
					continue
				}
				if i%2 == 0 || whole {
					name := fmt.Sprintf("content/units/own-%d.md", i)
					files[name], fields[name] = s.text(t, "x"), k
				}
				// The same in a model, for a unit that does not state the value itself. Every
				// field of a unit is one of a model, and goes the same way from there on.
				if i%8 != 1 && !whole {
					continue
				}
				m := newSheet(t, model)
				cast(m, k, spell)
				s = numbered(fmt.Sprintf("MOD-%d", i))
				if k.Path != "stock" {
					drop(s.root, strings.Split(k.Path, "."))
				}
				enter(s.root, []string{"model"}, scalar(fmt.Sprintf("m-%d", i)))
				name := fmt.Sprintf("content/units/mod-%d.md", i)
				files[name], fields[name] = s.text(t, "x"), k
				files[fmt.Sprintf("content/models/m-%d.md", i)] = m.text(t, "x")
			}
			// A model with a stop keeps the whole yard from being published, so such models go.
			write(t, dir, files)
			says := stopped(t, dir)
			refused := 0
			for name := range fields {
				model := strings.Replace(name, "units/mod-", "models/m-", 1)
				if model != name && says[model] {
					if err := errors.Join(os.Remove(filepath.Join(dir, name)), os.Remove(filepath.Join(dir, model))); err != nil {
						t.Fatal(err)
					}
					delete(fields, name)
					refused++
				}
			}
			target := filepath.Join(dir, "public")
			built(t, stops, "-from", dir, "-to", target, "-leave-out", "-quiet")
			says = stopped(t, dir)
			pages := filesBelow(t, target)
			for name, text := range pages {
				inert(t, name, text)
			}
			var taken []unit.KeyDoc
			for name, k := range fields {
				base := strings.TrimSuffix(path.Base(name), ".md")
				_, published := pages["u/"+base+".html"]
				told := says[name]
				if published == told && k.Path != "withhold" {
					t.Errorf("%s in %s: published is %v, a stop told of is %v", k.Path, name, published, told)
				}
				switch {
				case told:
					refused++
				case strings.HasPrefix(base, "own-"):
					taken = append(taken, k)
				}
			}
			t.Logf("%d files: %d refused, %d fields take it", len(fields), refused, len(taken))
			if len(taken) < 25 || refused == 0 {
				t.Errorf("%d fields take %q and %d files are refused: too few", len(taken), spell, refused)
			}

			// All spells that were taken, at once, and those in the yard's file.
			all := numbered("ALL-1")
			slices.SortFunc(taken, func(a, b unit.KeyDoc) int { return strings.Compare(a.Path, b.Path) })
			for _, k := range taken {
				if !strings.HasPrefix(k.Path, "photos.") && !strings.HasPrefix(k.Path, "bed.") && !strings.HasPrefix(k.Path, "box.") {
					cast(all, k, spell)
				}
			}
			for _, k := range taken {
				if k.Path == "photos.alt" {
					cast(all, k, spell)
				}
			}
			drop(all.root, []string{"withhold"})
			words := "It says `" + spell + "`.\n\n0:20 It says `" + spell + "`.\n\n" + spell
			y, theirs := newSheet(t, yard), 0
			enter(y.root, []string{"address"}, scalar("https://yard.example/"))
			for _, k := range unit.YardKeys() {
				alone := newSheet(t, yard)
				if !cast(alone, k, spell) {
					continue
				}
				dir := t.TempDir()
				write(t, dir, map[string]string{"content/yard.md": alone.text(t, "x"), "content/units/ok.md": numbered("OK-1").text(t, "x"), "content/models/oxbow-28.md": model})
				var out, errs bytes.Buffer
				switch run([]string{"inspect", "-from", dir}, &out, &errs) {
				case clean:
					cast(y, k, spell)
					theirs++
				case stops:
				default:
					t.Errorf("the yard's %s: %s", k.Path, errs.String())
				}
			}
			// Name, street, town, hours and price-excludes take words, and allowance and
			// save-for-the-lot say a source. yard-contact refuses words for a phone number, a mail
			// address and a link, so these are fewer than before that rule.
			if theirs < 7 {
				t.Errorf("%d fields of the yard take it: too few", theirs)
			}
			dir = t.TempDir()
			write(t, dir, map[string]string{"content/yard.md": y.text(t, words), "content/media/side.jpg": example("media/sb-1043-side.jpg"),
				"content/models/oxbow-28.md": model, "content/units/all.md": all.text(t, words)})
			target = filepath.Join(dir, "public")
			built(t, clean, "-from", dir, "-to", target)
			kinds := map[string]int{}
			for name, text := range filesBelow(t, target) {
				inert(t, name, text)
				if strings.Contains(text, "zq") {
					kinds[path.Ext(name)]++
				}
			}
			for _, ext := range []string{".html", ".json", ".csv", ".atom", ".js"} {
				if kinds[ext] == 0 {
					t.Errorf("no file %s holds what was written: %v", ext, kinds)
				}
			}
		})
	}
}

// TestMediaNamesAreWords: photos, captions and videos whose names are spells. Each system has
// its own rules for names; Linux takes everything except a slash and a zero byte.
func TestMediaNamesAreWords(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("NOT CHECKED: files cannot have such names on this system")
	}
	dir := t.TempDir()
	data := map[string]string{}
	for _, name := range []string{"sb-1043-side.jpg", "sb-1003.mp4", "sb-1003.vtt"} {
		text, err := os.ReadFile("../../content/media/" + name)
		if err != nil {
			t.Fatal(err)
		}
		data[path.Ext(name)] = string(text)
	}
	yard, err := os.ReadFile("../../content/yard.md")
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{"content/yard.md": string(yard)}
	names := []string{`'"><zqtag onzq=1>`, `javascript:zqran=1`, `" onzq="1`, `{{zqran}}`, `CON`, `nul.`, `%2e%2e%2fzq`, `..zq`, `a?zq#zq`, `=1+1`, "aé zq"}
	unitOf := func(i int) string {
		text := strings.Replace(spoilt("", "0:02 x"), "PV-00001", fmt.Sprintf("MN-%d", i), 1)
		text = strings.Replace(text, "\nserial: "+between(text, "\nserial: ", "\n"), "", 1)
		return regexp.MustCompile(`\nrecording:\n  length: [0-9:]*`).ReplaceAllString(text, "")
	}
	for i, name := range names {
		photo, video, captions := "media/"+name+".jpg", "media/"+name+".mp4", "media/"+name+".vtt"
		files["content/"+photo], files["content/"+video], files["content/"+captions] = data[".jpg"], data[".mp4"], data[".vtt"]
		quoted := func(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }
		files[fmt.Sprintf("content/units/mn-%d.md", i)] = strings.Replace(unitOf(i), "\ntitle:", "\nphotos:\n  - file: "+quoted(photo)+"\n    alt: a side\nrecording:\n  length: 0:30\n  video: "+quoted(video)+
			"\n  captions: "+quoted(captions)+"\ntitle:", 1)
	}
	write(t, dir, files)
	target := filepath.Join(dir, "public")
	var out, errs bytes.Buffer
	status := run([]string{"-from", dir, "-to", target, "-leave-out"}, &out, &errs)
	if status != clean && status != stops {
		t.Fatalf("status %d: %s", status, errs.String())
	}
	pages := filesBelow(t, target)
	published := 0
	for name, text := range pages {
		inert(t, name, text)
		if strings.ContainsAny(name, `<>:"|?*\`) || strings.HasPrefix(name, "..") || strings.TrimRight(path.Base(name), ". ") != path.Base(name) {
			t.Errorf("a file of the site is called %q", name)
		}
		if base := strings.ToUpper(strings.SplitN(path.Base(name), ".", 2)[0]); base == "CON" || base == "NUL" {
			t.Errorf("a file of the site is called %q, which is a device elsewhere", name)
		}
	}
	for i, name := range names {
		_, ok := pages[fmt.Sprintf("u/mn-%d.html", i)]
		if told := strings.Contains(errs.String(), fmt.Sprintf("units/mn-%d.md:", i)); !ok && !told {
			t.Errorf("%q: no page and no finding", name)
		}
		if !ok {
			continue
		}
		published++
		// Every file that the page links to exists, however its name is written in an address.
		doc, err := html.Parse(strings.NewReader(pages[fmt.Sprintf("u/mn-%d.html", i)]))
		if err != nil {
			t.Fatal(err)
		}
		leads := 0
		for n := range doc.Descendants() {
			for _, a := range n.Attr {
				if (a.Key != "src" && a.Key != "href") || !strings.Contains(a.Val, "media/") {
					continue
				}
				u, err := url.Parse(a.Val)
				if err != nil || pages[path.Join("u", u.Path)] == "" {
					t.Errorf("%q: %s leads nowhere (%v)", name, a.Val, err)
				}
				leads++
			}
		}
		if leads == 0 {
			t.Errorf("%q: the page leads to no video", name)
		}
	}
	if published == 0 || published == len(names) {
		t.Errorf("%d of %d are published: the test checked too little", published, len(names))
	}
}
