package unit_test

import (
	"fmt"
	"io/fs"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/unit"
)

func folder(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, text := range files {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

const yardText = "---\nname: Sawbuck Trailer Yard\nas-of: 2026-11-20\n---\n"

// A model fills in key by key what the unit leaves out; what it filled stands in the
// model's file, what the unit states stands in the unit's.
func TestModelFillsKeyByKey(t *testing.T) {
	s, problems, err := unit.Read(folder(map[string]string{
		"content/yard.md": yardText,
		"content/models/m.md": "---\ntitle: the model\nstock: NEVER\nserial: NEVER\nmodel: other\nwithhold: never\nmake: Works\n" +
			"hitch:\n  kind: gooseneck\n  ball: 2-5/16 in\n  chains:\n    count: 2\n" +
			"weights:\n  gvwr: 20,000 lb (tag)\n  empty: 7,000 lb (maker's sheet)\n" +
			"standard:\n  - spare\noptions:\n  - winch\nphotos:\n  - file: never.jpg\nrecording:\n  length: 1:00\n---\nmodel words\n",
		"content/units/a.md": "---\nmodel: m\nstock: A\n" +
			"hitch:\n  ball: 3 in\nweights:\n  empty: 7,040 lb (scale ticket)\noptions:\n  - none\ntitle:\n---\nunit words\n",
	}))
	// The model has the number of a trailer, so it may be one in the wrong folder; and it names
	// another model, which it takes nothing from.
	if err != nil || len(problems) != 2 || problems[0].Rule != unit.FileIgnored || problems[1].Rule != unit.UnknownKey {
		t.Fatal(err, problemLines(problems))
	}
	u := s.Units[0]
	got := map[string]string{}
	for path, f := range givenOf(u) {
		got[path] = fmt.Sprintf("%v (%s) %s", f.Value, f.From, f.Pos)
	}
	want := map[string]string{
		"model":              "m () content/units/a.md:2:8",
		"stock":              "A () content/units/a.md:3:8",
		"hitch.ball":         "3 in () content/units/a.md:5:9",
		"weights.empty":      "7,040 lb (scale ticket) content/units/a.md:7:10",
		"options.0":          "none () content/units/a.md:9:5",
		"title":              "the model () content/models/m.md:2:8",
		"make":               "Works () content/models/m.md:7:7",
		"hitch.kind":         "gooseneck () content/models/m.md:9:9",
		"hitch.chains.count": "2 (from the model) content/models/m.md:12:12",
		"weights.gvwr":       "20,000 lb (from the model) content/models/m.md:14:9",
		"standard.0":         "spare () content/models/m.md:17:5",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%v\nwant\n%v", got, want)
	}
	if u.FromModel(u.Stock.Pos) || !u.FromModel(u.Make.Pos) || u.FromModel(unit.Pos{}) {
		t.Error("FromModel mistakes a place")
	}
	if u.Hitch.At.File != u.File || u.Hitch.Chains.At.File != "content/models/m.md" {
		t.Errorf("sections stand at %s and %s", u.Hitch.At, u.Hitch.Chains.At)
	}
	if string(u.Body.Source) != "unit words\n" {
		t.Errorf("the body is %q", u.Body.Source)
	}
	// The model itself keeps what it had.
	if m := s.Models["m"]; m.Stock.Value != "NEVER" || m.Options[0].Value != "winch" {
		t.Error("filling changed the model")
	}
}

// A value that does not read in the unit is not papered over by the model's.
func TestSpoiledValueIsNotFilled(t *testing.T) {
	s, problems, err := unit.Read(folder(map[string]string{
		"content/yard.md":     yardText,
		"content/models/m.md": "---\nweights:\n  gvwr: 20,000 lb (tag)\n---\n",
		"content/units/a.md":  "---\nmodel: m\nweights:\n  gvwr: 25,000\n---\n",
	}))
	if err != nil || len(problems) != 1 || problems[0].At != (unit.Pos{File: "content/units/a.md", Line: 4, Column: 9}) {
		t.Fatal(err, problemLines(problems))
	}
	if w := s.Units[0].Weights.GVWR; w.Given() {
		t.Errorf("gvwr is %v from %s though the unit states another one that does not read", w.Value, w.Pos)
	}
}

func TestModelUnknown(t *testing.T) {
	files := map[string]string{
		"content/yard.md":             yardText,
		"content/models/oxbow-20k.md": "---\nmake: Works\n---\n",
		"content/units/a.md":          "---\nmodel: oxbow-20\n---\n",
		"content/units/b.md":          "---\nmodel: zebra\n---\n",
	}
	_, problems, err := unit.Read(folder(files))
	want := `2:8 there is no model "oxbow-20" in content/models [model-unknown] fix: did you mean "oxbow-20k"?` + "\n" +
		`2:8 there is no model "zebra" in content/models [model-unknown] fix: write the file content/models/zebra.md, or leave the key out; the maker's own name for the model is written as on the label, with its capitals`
	if got := problemLines(problems); err != nil || got != want {
		t.Errorf("%v\n%s\nwant\n%s", err, got, want)
	}
}

// TestMakersModel: a model as labels name it fills in nothing, and is shown.
func TestMakersModel(t *testing.T) {
	for model, makers := range map[string]bool{"RG-35": true, "Dolly 80": true, "8520TA": true, "240": true, "D14-83": true,
		"Oxbow-20k": false, "oxbow-20k": false, "zebra": false, "a/RG-35": false, "RG-35.md": false} {
		s, problems, err := unit.Read(folder(map[string]string{
			"content/yard.md":             yardText,
			"content/models/oxbow-20k.md": "---\nmake: Works\n---\n",
			"content/units/a.md":          "---\nstock: A\nmodel: " + model + "\n---\n",
		}))
		if err != nil {
			t.Fatal(err)
		}
		u, want, shown := s.Units[0], "", false
		if makers {
			want = model
		}
		for _, g := range u.Stated() {
			for _, r := range g.Rows {
				shown = shown || r.Path == "model" && r.Text == model
			}
		}
		if u.MakersModel() != want || shown != makers || makers && (len(problems) != 1 || problems[0].Rule != unit.ModelUnfilled) {
			t.Errorf("%s: %q, shown %v, %+v", model, u.MakersModel(), shown, problems)
		}
	}
}

func TestFolders(t *testing.T) {
	s, problems, err := unit.Read(folder(map[string]string{
		"content/yard.md":             yardText,
		"content/units/b.md":          "---\nstock: B\n---\n",
		"content/lost.md":             "---\nstock: L\n---\n",
		"content/units/a.MD":          "---\nstock: A\n---\n",
		"content/units/.hidden":       "x",
		"content/units/photo.jpg":     "x",
		"content/units/old/c.md":      "x",
		"content/units/big.md":        strings.Repeat("x", unit.MostBytes+1),
		"content/units/broken.md":     "---\nno end\n",
		"content/models/notes.txt":    "x",
		"content/models/unused.md":    "---\nyear: new\n---\n",
		"content/units/z-readable.md": "---\nstock: Z\n---\n",
	}))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, u := range s.Units {
		names = append(names, fmt.Sprintf("%s %s %v", u.File, u.Stock.Value, u.Broken))
	}
	if got, want := strings.Join(names, "\n"), "content/units/a.MD A false\ncontent/units/b.md B false\ncontent/units/big.md  true\ncontent/units/broken.md  true\ncontent/units/z-readable.md Z false"; got != want {
		t.Errorf("units:\n%s\nwant\n%s", got, want)
	}
	var told []string
	for _, p := range problems {
		told = append(told, fmt.Sprintf("%s %s [%s]", p.At, p.Message, p.Rule))
	}
	want := `content/lost.md:1:1 this is the file of a trailer, L, and trailers are not read here [file-ignored]
content/models/notes.txt:1:1 "notes.txt" is not a Markdown file and is not read [file-ignored]
content/models/unused.md:2:7 year: "new" is not a count; write a whole number such as 2026 [value-unreadable]
content/units/big.md:1:1 the file has 1048577 bytes; a unit file stays below 1048576 [file-unreadable]
content/units/broken.md:1:1 the front matter opens here and never closes [file-unreadable]
content/units/old:1:1 this folder is not read [file-ignored]
content/units/photo.jpg:1:1 "photo.jpg" is not a Markdown file and is not read [file-ignored]`
	if got := strings.Join(told, "\n"); got != want {
		t.Errorf("problems:\n%s\nwant\n%s", got, want)
	}

	for name, c := range map[string]struct {
		files map[string]string
		want  string
	}{
		"no yard":  {map[string]string{"content/units/a.md": ""}, "no content/yard.md here; name the folder that holds content/ with -from, or set one up with first-yard"},
		"no units": {map[string]string{"content/yard.md": yardText}, "no content/units here; put one Markdown file per unit there"},
	} {
		if _, _, err := unit.Read(folder(c.files)); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v; want %s", name, err, c.want)
		}
	}
}

// A pipe or a device would keep the build waiting forever, or fill the memory.
func TestOnlyFilesAreRead(t *testing.T) {
	root := folder(map[string]string{"content/yard.md": yardText, "content/units/a.md": "---\nstock: A\n---\n"})
	root["content/units/pipe.md"] = &fstest.MapFile{Data: []byte("---\nstock: P\n---\n"), Mode: fs.ModeNamedPipe}
	root["content/models/zero.md"] = &fstest.MapFile{Data: []byte("---\nyear: 2026\n---\n"), Mode: fs.ModeDevice}
	_, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	var told []string
	for _, p := range problems {
		told = append(told, fmt.Sprintf("%s %s", p.At, p.Message))
	}
	want := "content/models/zero.md:1:1 this is not a regular file, content/units/pipe.md:1:1 this is not a regular file"
	if got := strings.Join(told, ", "); got != want {
		t.Errorf("problems %q, want %q", got, want)
	}
	root["content/yard.md"].Mode = fs.ModeNamedPipe
	if _, _, err := unit.Read(root); err == nil || err.Error() != "cannot read content/yard.md: this is not a regular file" {
		t.Errorf("a pipe for the yard's file: %v", err)
	}
}

// What is told, and in what order, does not hang on how many processors read.
func TestOrderIsTheSameOnAnyNumberOfProcessors(t *testing.T) {
	files := map[string]string{"content/yard.md": yardText}
	for i := range 60 {
		files[fmt.Sprintf("content/units/u%02d.md", i)] = fmt.Sprintf("---\nstock: U%d\ntitel: x\nyear: new\nmodel: none\n---\n1:0%d note\n", i, i%10)
	}
	read := func(procs int) (string, []string) {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(procs))
		s, problems, err := unit.Read(folder(files))
		if err != nil {
			t.Fatal(err)
		}
		var stocks []string
		for _, u := range s.Units {
			stocks = append(stocks, u.Stock.Value)
		}
		return problemLines(problems), stocks
	}
	first, stocks := read(1)
	if n := strings.Count(first, "\n") + 1; n != 180 {
		t.Errorf("%d problems, want 180", n)
	}
	for _, procs := range []int{2, 4, 7} {
		if got, s := read(procs); got != first || !reflect.DeepEqual(s, stocks) {
			t.Errorf("with %d processors the order differs", procs)
		}
	}
}

func TestYard(t *testing.T) {
	y, problems := unit.ReadYard("content/yard.md", []byte("---\nname: Sawbuck\nallowance: 7.5%\ntongue-band:\n  gooseneck: {least: 18%, most: 24%}\nhours:\n  - Monday\n---\nWelcome.\n"))
	if len(problems) > 0 {
		t.Fatal(problemLines(problems))
	}
	b := y.Bands.Gooseneck
	if y.Name.Value != "Sawbuck" || y.Allowance.Value != 0.075 || b.Least.Value != 0.18 || b.Most.Value != 0.24 || len(y.Hours) != 1 || string(y.Body.Source) != "Welcome.\n" {
		t.Errorf("%+v", y)
	}
	if m := y.Missing(); len(m) != 1 || m[0].Path != "as-of" || m[0].At != (unit.Pos{File: "content/yard.md", Line: 1, Column: 1}) {
		t.Errorf("missing: %+v", m)
	}
}
