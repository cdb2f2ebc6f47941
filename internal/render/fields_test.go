package render

import (
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"html/template"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

var update = flag.Bool("update", false, "write docs/theme.md again")

// received is what each template receives.
var received = []struct {
	file string
	data any
}{
	{"frame.html", frame{}},
	{"yard.html", yardPage{}},
	{"unit.html", unitPage{}},
	{"workings.html", figuresPage{}},
	{"lot.html", lotSheet{}},
	{"handover.html", handOver{}},
	{"how.html", howPage{}},
	{"gone.html", gonePage{}},
	{"photos.html", shownPhoto{}},
}

// others are the theme's files that are not templates.
var others = []struct{ file, what string }{
	{"style.css", "the style of every page on a screen"},
	{"figures.css", "more styles, for pages that explain"},
	{"unit.css", "more styles, for a trailer's page"},
	{"bring.css", "more styles, for what the customer brings"},
	{"yard.css", "more styles, for pages of many trailers"},
	{"paper.css", "more styles, for a trailer's page on paper"},
	{"sheet.css", "the style of the lot sheet and of the hand-over card"},
	{"language.js", "goes to the language that a visitor chose, within the pages of a site in two languages"},
	{"known.js", "keeps space for the answers to a customer whose machine or truck is known, within the page"},
	{"units.js", "switches between pounds and kilograms, within the page"},
	{"figures.js", "gives the quantities on pages of figures their metric form; units.js follows in the same file"},
	{"walk.js", "plays a recording from a moment on, within the page"},
	{"yard.js", "finds on the front page"},
	{"asked.js", "reads prices, loads and sizes out of words that somebody looks for"},
	{"compare.js", "two to four trailers side by side"},
	{"bring.js", "what a customer brings: a machine and a truck, remembered for every page"},
	{"bring-shapes.js", "the silhouettes of machines. A trailer's page loads them with `bring.js` in front, in one file"},
	{"unit.js", "answers for them on a trailer's page, and sets the machine on the deck"},
	{"statics.js", "the calculators, which a test compares with the Go"},
	{"search.js", "the search library, unchanged"},
	{"keep.js", "keeps what a customer chose on a phone, unless the yard turns it off"},
	{"worker.js", "does the keeping in the background"},
	{"unworker.js", "takes a kept copy away where the yard no longer wants it"},
}

const themeHead = `# A look of your own

A look is a folder of files with the names below. A file that the folder lacks comes from the built-in look
(` + "`themes/default`" + `), so a folder with one style sheet is a look. Every template is a Go html/template: frame.html
defines "frame", which is run for every page, and each of the others defines "main", which frame.html calls;
only photos.html defines "photos", the row of photos that unit.html calls.

Every page must show the cautions in Safety next to its numbers. If a template names a field that its data lack, the
build stops with an error. This page is made from the structs that the templates receive; a test keeps it so.

## The other files

| file | what it does |
| --- | --- |
`

// TestThemePage holds docs/theme.md: every template, every field, its type and meaning.
func TestThemePage(t *testing.T) {
	d := &fieldDocs{t: t, said: map[reflect.Type]bool{}, comments: map[string]string{}}
	d.read("fields.go", "../pagedata/facets.go", "../elevation/envelope.go")
	var b strings.Builder
	b.WriteString(themeHead)
	for _, o := range others {
		fmt.Fprintf(&b, "| `%s` | %s |\n", o.file, o.what)
	}
	for _, r := range received {
		typ := reflect.TypeOf(r.data)
		fmt.Fprintf(&b, "\n## %s\n\n%s\n", r.file, d.comments[name(typ)])
		if r.file != "frame.html" && typ.Field(0).Anonymous {
			b.WriteString("It has the fields of frame.html too.\n")
		}
		d.table(&b, typ)
	}
	const page = "../../docs/theme.md"
	if *update {
		if err := os.WriteFile(page, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != b.String() {
		t.Error("docs/theme.md is not what the structs say; write it again: go test ./internal/render -run ThemePage -update")
	}
}

// Every file of the theme is in the page.
func TestThemePageNamesEveryFile(t *testing.T) {
	var named []string
	for _, r := range received {
		named = append(named, r.file)
	}
	for _, o := range others {
		named = append(named, o.file)
	}
	files, err := fs.ReadDir(theme.Files, ".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !slices.Contains(named, f.Name()) {
			t.Errorf("%s is not in docs/theme.md", f.Name())
		}
	}
	if len(files) != len(named) {
		t.Errorf("the theme has %d files, the page names %d", len(files), len(named))
	}
}

// fieldDocs writes what structs and their fields mean.
type fieldDocs struct {
	t        *testing.T
	said     map[reflect.Type]bool
	comments map[string]string // by "type" and "type.field"
}

func (d *fieldDocs) read(files ...string) {
	for _, file := range files {
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments)
		if err != nil {
			d.t.Fatal(err)
		}
		pkg := ""
		if dir := filepath.Base(filepath.Dir(file)); dir != "." {
			pkg = dir + "."
		}
		for _, decl := range f.Decls {
			gen, ok := decl.(*ast.GenDecl)
			if !ok {
				continue
			}
			for _, spec := range gen.Specs {
				if typ, ok := spec.(*ast.TypeSpec); ok {
					d.typeOf(pkg+typ.Name.Name, gen.Doc, typ)
				}
			}
		}
	}
}

func (d *fieldDocs) typeOf(name string, doc *ast.CommentGroup, typ *ast.TypeSpec) {
	text := strings.TrimSpace(strings.ReplaceAll(doc.Text(), "\n", " "))
	if _, rest, ok := strings.Cut(text, typ.Name.Name+" "); ok {
		text = strings.TrimPrefix(strings.TrimPrefix(rest, "is "), "are ")
		text = strings.ToUpper(text[:1]) + text[1:]
	}
	d.comments[name] = text
	structure, ok := typ.Type.(*ast.StructType)
	if !ok {
		return
	}
	for _, f := range structure.Fields.List {
		comment := f.Comment.Text()
		if comment == "" {
			comment = f.Doc.Text()
		}
		for _, n := range f.Names {
			d.comments[name+"."+n.Name] = strings.TrimSpace(strings.ReplaceAll(comment, "\n", " "))
		}
	}
}

func name(t reflect.Type) string {
	if t.PkgPath() == "tarepage/internal/render" {
		return t.Name()
	}
	return filepath.Base(t.PkgPath()) + "." + t.Name()
}

// table writes the fields of a struct, and then those of the structs within it.
func (d *fieldDocs) table(b *strings.Builder, t reflect.Type) {
	if d.said[t] {
		return
	}
	d.said[t] = true
	var more []reflect.Type
	rows := d.rows(t, &more)
	if rows != "" {
		fmt.Fprintf(b, "\n| field | type | meaning |\n| --- | --- | --- |\n%s", rows)
	}
	for _, m := range more {
		if !d.said[m] {
			fmt.Fprintf(b, "\n### %s\n\n%s\n", m.Name(), d.comments[name(m)])
			if d.comments[name(m)] == "" {
				d.t.Errorf("%s has no comment", name(m))
			}
			d.table(b, m)
		}
	}
}

func (d *fieldDocs) rows(t reflect.Type, more *[]reflect.Type) string {
	var b strings.Builder
	for i := range t.NumField() {
		f := t.Field(i)
		switch {
		case f.Anonymous && f.Type == reflect.TypeOf(frame{}):
			continue // said once, at frame.html
		case f.Anonymous:
			b.WriteString(d.rows(f.Type, more))
			continue
		case !f.IsExported():
			continue
		}
		meaning := d.comments[name(t)+"."+f.Name]
		if meaning == "" {
			d.t.Errorf("field %s of %s has no comment", f.Name, name(t))
		}
		fmt.Fprintf(&b, "| `.%s` | %s | %s |\n", f.Name, kindOf(f.Type), meaning)
		inner := f.Type
		for inner.Kind() == reflect.Slice || inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		if inner.Kind() == reflect.Struct && !slices.Contains(*more, inner) {
			*more = append(*more, inner)
		}
	}
	return b.String()
}

// kindOf is a type in words.
func kindOf(t reflect.Type) string {
	switch {
	case t == reflect.TypeOf(template.HTML("")):
		return "HTML"
	case t == reflect.TypeOf(template.CSS("")):
		return "style"
	case t == reflect.TypeOf(template.JS("")):
		return "script"
	case t == reflect.TypeOf(template.URL("")):
		return "address"
	case t.Kind() == reflect.Slice:
		return "list of " + kindOf(t.Elem())
	case t.Kind() == reflect.Pointer:
		return kindOf(t.Elem()) + " or nothing"
	case t.Kind() == reflect.Struct:
		return t.Name()
	case t.Kind() == reflect.String:
		return "text"
	case t.Kind() == reflect.Bool:
		return "yes or no"
	}
	return "number"
}

var tags = regexp.MustCompile(`<[^>]*>`)

// A small look of its own makes the demo: it has one template for each kind of page and no
// style of the built-in one.
func TestSmallThemeMakesTheDemo(t *testing.T) {
	thorough.Only(t)
	look, err := Theme(theme.Files, "testdata/smalltheme")
	if err != nil {
		t.Fatal(err)
	}
	stock, problems, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	works := compute.Stock(stock)
	pages := map[string]string{}
	_, err = Site(look, Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems)},
		AddFunc(func(path string, data []byte) error { pages[path] = string(data); return nil }))
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string][]string{
		"index.html":            {"Sawbuck Trailer Yard", "102 in x 28 ft gooseneck deck-over, hydraulic tail: 12,960 lb"},
		"u/sb-1043.html":        {"102 in x 28 ft gooseneck deck-over", "May carry: 12,960 lb", "The label on the trailer governs.", "Deck: Length 28 ft"},
		"figures/sb-1043.html":  {"payload = ", "12,960 lb"},
		"lot/sb-1043.html":      {"28 ft deck-over"},
		"handover/sb-1043.html": {"electric"},
		"how-we-figure.html":    {"49 CFR 571.110"},
		"404.html":              {"Nothing here"},
	} {
		for _, w := range want {
			if !strings.Contains(strings.ReplaceAll(tags.ReplaceAllString(pages[path], ""), "\u00a0", " "), w) {
				t.Errorf("%s lacks %q", path, w)
			}
		}
		if !strings.Contains(pages[path], "small look") || strings.Contains(pages[path], "conspicuity") {
			t.Errorf("%s is not in the small look", path)
		}
	}
}

// What a template receives is on the page: a field that no built-in template names would
// be work for nothing, or words that nobody reads.
func TestTemplatesUseEveryField(t *testing.T) {
	var all strings.Builder
	for _, r := range received {
		text, err := fs.ReadFile(theme.Files, r.file)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(text)
	}
	seen := map[reflect.Type]bool{}
	var look func(reflect.Type)
	look = func(typ reflect.Type) {
		for typ.Kind() == reflect.Slice || typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct || seen[typ] {
			return
		}
		seen[typ] = true
		for i := range typ.NumField() {
			f := typ.Field(i)
			if f.IsExported() && !f.Anonymous && !regexp.MustCompile(`[.]`+f.Name+`\b`).MatchString(all.String()) {
				t.Errorf("no template uses %s.%s", typ.Name(), f.Name)
			}
			if f.IsExported() || f.Anonymous {
				look(f.Type)
			}
		}
	}
	for _, r := range received {
		look(reflect.TypeOf(r.data))
	}
}
