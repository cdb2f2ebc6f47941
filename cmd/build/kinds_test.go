package main

import (
	"encoding/csv"
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/intake"
	"tarepage/internal/kinds"
	"tarepage/internal/unit"
)

// bareUnit has what every unit needs and nothing that only some kinds need.
const bareUnit = `title: TITLE
stock: STOCK
kind: KIND
condition: used
availability: on the yard
price: $4,000
hitch:
  kind: bumper-pull
axles:
  count: 2
  rating: 6,000 lb (tag)
tires:
  size: ST235/80R16
  load-range: E
  per-axle: 2
brakes:
  kind: electric
  axles: 2
  breakaway: yes
weights:
  gvwr: 12,000 lb (tag)
  empty: 4,000 lb (scale ticket 2026-11-03)
`

// kindUnit is the front matter of a unit of that kind: a bare unit with the keys that the
// kind needs, each as the format's own example writes it.
func kindUnit(t *testing.T, k kinds.Kind) string {
	t.Helper()
	s := newSheet(t, strings.NewReplacer("TITLE", "the "+k.Noun+" in the test", "STOCK", "K-"+k.Name, "KIND", k.Name).Replace(bareUnit))
	for _, need := range k.Needs {
		i := slices.IndexFunc(unit.Keys(), func(d unit.KeyDoc) bool { return d.Path == need })
		if i < 0 || unit.Keys()[i].Example == "" {
			t.Fatalf("a %s needs %s, which is not a key with an example", k.Noun, need)
		}
		enter(s.root, strings.Split(need, "."), scalar(unit.Keys()[i].Example))
	}
	return s.text(t, "A trailer.")
}

// TestEveryKindGoesAllTheWay follows each kind of the table from the unit file to the last
// page: reader, editor schema, intake, drawing, drawing in words, page titles, chips,
// breadcrumbs, structured data and stock files. A new entry in internal/kinds is tested here
// without a change to the test.
func TestEveryKindGoesAllTheWay(t *testing.T) {
	dir := t.TempDir()
	files := map[string]string{"content/yard.md": "---\nname: The Yard\nas-of: 2026-11-20\naddress: https://yard.example/\n---\n"}
	for _, k := range kinds.All() {
		files["content/units/k-"+k.Name+".md"] = kindUnit(t, k)
	}
	write(t, dir, files)
	built(t, 0, "-from", dir, "-to", filepath.Join(dir, "public"))
	made := filesBelow(t, filepath.Join(dir, "public"))
	schema := unitSchema(t)
	stock := stockKinds(t, made)

	for _, k := range kinds.All() {
		t.Run(k.Name, func(t *testing.T) {
			text := files["content/units/k-"+k.Name+".md"]
			u, problems := unit.ReadUnit("content/units/a.md", []byte(text))
			if len(problems) > 0 || u.Kind.Value != k.Name || len(u.Missing()) > 0 {
				t.Errorf("the reader has kind %q, problems %v, missing %v", u.Kind.Value, problems, u.Missing())
			}
			if err := schema.Validate(frontMatter(t, text)); err != nil {
				t.Errorf("the editor schema refuses the unit: %v", err)
			}
			words := elevation.Words(compute.Unit(u, compute.Settings{}))
			if drawn := strings.HasPrefix(words, "Side view to scale"); drawn == (k.Space == kinds.None) {
				t.Errorf("the drawing in words is %q", words)
			}
			kindIsHeard(t, k)
			kindIsOnPages(t, k, made)
			for name, kind := range stock["K-"+k.Name] {
				if kind != k.Name {
					t.Errorf("%s has kind %q", name, kind)
				}
			}
			if len(stock["K-"+k.Name]) != 2 {
				t.Errorf("the stock files have the unit %d times, want 2", len(stock["K-"+k.Name]))
			}
		})
	}
}

// kindIsHeard says each phrase of the kind in a recording: its sheet has the kind, and asks
// for each key that the kind needs.
func kindIsHeard(t *testing.T, k kinds.Kind) {
	t.Helper()
	for _, phrase := range k.Said {
		talk, err := intake.Listen("walk.vtt", []byte("WEBVTT\n\n00:01.000 --> 00:04.000\nThis is a "+phrase+".\n"))
		if err != nil {
			t.Fatal(err)
		}
		sheet := talk.Sheet("K-1", "media/walk.vtt")
		u, problems := unit.ReadUnit("content/units/k-1.md", sheet.Text)
		if len(problems) > 0 || u.Kind.Value != k.Name {
			t.Errorf("%q is heard as kind %q, problems %v", phrase, u.Kind.Value, problems)
		}
		for _, need := range k.Needs {
			asked := slices.ContainsFunc(sheet.Missing, func(d unit.KeyDoc) bool { return d.Path == need })
			empty := slices.ContainsFunc(u.Missing(), func(m unit.Missing) bool { return m.Path == need && m.Empty })
			if !asked || !empty {
				t.Errorf("%q: the sheet does not ask for %s\n%s", phrase, need, sheet.Text)
			}
		}
	}
}

// kindIsOnPages looks for the kind on the pages of a site.
func kindIsOnPages(t *testing.T, k kinds.Kind, made map[string]string) {
	t.Helper()
	page, own, front := made["u/k-"+k.Name+".html"], made["kind-"+k.Name+".html"], made["index.html"]
	for _, want := range []struct{ where, in, text string }{
		{"link to the kind", page, `<a href="../kind-` + k.Name + `.html">More of this kind: `},
		{"structured data", page, `"bodyType":"` + k.Label + `"`},
		{"structured breadcrumb", page, `"name":"` + k.Label + `","item":"https://yard.example/kind-` + k.Name + `.html"`},
		{"title of the kind's page", own, "<title>" + k.Label + ": 1 for sale in The Yard</title>"},
		{"heading of the kind's page", own, "<h1>" + k.Label + "</h1>"},
		{"chip of the kind's page", own, `aria-current="page">` + k.Label + "</a>"},
		{"chip of the front page", front, `data-v="` + k.Name + `" data-n="1">` + k.Label + "</a>"},
		{"lot sheet", made["lot/k-"+k.Name+".html"], k.Noun},
	} {
		if !strings.Contains(want.in, want.text) {
			t.Errorf("the %s lacks %s", want.where, want.text)
		}
	}
	if k.Space == kinds.None {
		return // without a length there is no drawing
	}
	for _, want := range []string{">Side view to scale: " + k.Noun + ",", ">Side view to scale, hitch at the left."} {
		if !strings.Contains(page, want) {
			t.Errorf("the drawing lacks %q", want)
		}
	}
}

// stockKinds is the kind of each unit in the stock files, by stock number and file.
func stockKinds(t *testing.T, made map[string]string) map[string]map[string]string {
	t.Helper()
	out := map[string]map[string]string{}
	put := func(stock, file, kind string) {
		if out[stock] == nil {
			out[stock] = map[string]string{}
		}
		out[stock][file] = kind
	}
	rows, err := csv.NewReader(strings.NewReader(made["stock.csv"])).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := slices.Index(rows[0], "kind")
	for _, row := range rows[1:] {
		put(row[0], "stock.csv", row[column])
	}
	var doc struct {
		Units []struct{ Stock, Kind string }
	}
	if err := json.Unmarshal([]byte(made["stock.json"]), &doc); err != nil {
		t.Fatal(err)
	}
	for _, u := range doc.Units {
		put(u.Stock, "stock.json", u.Kind)
	}
	var v any
	if v, err = jsonschema.UnmarshalJSON(strings.NewReader(made["stock.json"])); err != nil {
		t.Fatal(err)
	}
	if err := compiled(t, "stock.schema.json", made["stock.schema.json"]).Validate(v); err != nil {
		t.Errorf("stock.json is not as its schema says: %v", err)
	}
	return out
}

// unitSchema is the editor's schema of a unit file.
func unitSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	for _, f := range unit.EditorFiles() {
		if f.Name == "unit.schema.json" {
			return compiled(t, f.Name, string(f.Data))
		}
	}
	t.Fatal("there is no editor schema of a unit file")
	return nil
}

func compiled(t *testing.T, name, text string) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(name, doc); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile(name)
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// frontMatter is a file's front matter as an editor's validator sees it.
func frontMatter(t *testing.T, text string) any {
	t.Helper()
	front, _, _ := strings.Cut(strings.TrimPrefix(text, "---\n"), "\n---\n")
	var v any
	if err := yaml.Unmarshal([]byte(front), &v); err != nil {
		t.Fatal(err)
	}
	src, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(src)))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}
