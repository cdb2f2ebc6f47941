package render

import (
	"bytes"
	"encoding/json"
	"html/template"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// The yard of the golden files: a dump trailer with nearly every part of a page, a sold one, and
// a plain one that is like it.
var givenYard = map[string]string{
	"content/yard.md": "---\nname: Example Trailer Yard\nphone: 555-0100\ntown: Quillfern\nas-of: 2026-11-20\nprice-excludes: tax and title\naddress: https://yard.example/lot/\n---\n\nCome and see.\n",
	"content/units/ex-1.md": `---
title: 83 in x 14 ft dump trailer, scissor hoist, tarp kit
stock: EX-1
kind: dump
year: 2026
make: Quillfern
color: plum
condition: new
availability: on the yard
arrived: 2026-11-05
price: $9,200 (since 2026-11-10)
serial: 0J9RP4G22T1644190
offer:
  cash: $9,000
hitch:
  kind: bumper-pull
  ball: 2-5/16 in (coupler plate)
  rating: 14,000 lb (coupler plate)
  plug: 7-blade
  chains:
    count: 2
    breaking: 14,000 lb (label)
bed:
  length: 14 ft
  width: 83 in
  height: 24 in
  floor: 30 in
  front: 5 ft
axles:
  count: 2
  rating: 7,000 lb (tag)
  center: 12 ft 9 in
  spacing: 35 in
tires:
  size: ST235/80R16 (sidewall)
  load-range: E (sidewall)
  pressure: 80 psi (tag)
  per-axle: 2
  stud: 1/2 in
brakes:
  kind: electric
  axles: 2
  breakaway: yes
weights:
  gvwr: 14,000 lb (tag)
  empty: 4,100 lb (scale ticket 2026-11-03)
  tongue-empty: 560 lb (scale ticket 2026-11-03)
tie-downs:
  - d-rings: 4 at 5,000 lb
standard:
  - spare tire
  - tarp kit (said 1:02)
options:
  - side boards
---

0:45 The coupler is tight. It carries [?](worked:payload).
`,
	"content/units/ex-2.md": "---\ntitle: 14 ft dump\nstock: EX-2\nkind: dump\ncondition: used\navailability: sold\nprice: $7,000\nhitch:\n  kind: bumper-pull\nbed:\n  length: 14 ft\n  width: 83 in\n  height: 24 in\naxles:\n  count: 2\n  rating: 5,200 lb (tag)\nweights:\n  gvwr: 10,400 lb (tag)\n  empty: 3,100 lb (scale ticket 2026-11-03)\n---\n",
	"content/units/ex-3.md": "---\ntitle: 77 in x 14 ft utility trailer\nstock: EX-3\nkind: utility\ncondition: new\navailability: on order\nhitch:\n  kind: bumper-pull\n  ball: 2 in\ndeck:\n  length: 14 ft\n  width: 77 in\naxles:\n  count: 1\n  rating: 3,500 lb (said 0:20)\nramps:\n  kind: gate\n  length: 4 ft\nweights:\n  gvwr: 2,990 lb (tag)\n---\n",
}

// given is what pages are made from, for the yard above.
func given(t *testing.T) Input {
	t.Helper()
	root := fstest.MapFS{}
	for name, text := range givenYard {
		root[name] = &fstest.MapFile{Data: []byte(text)}
	}
	stock, problems, err := unit.Read(root)
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	works := compute.Stock(stock)
	return Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems)}
}

// notGiven are fields without a place in the golden files: the look, scripts, what other packages
// draw, state and hold in golden files of their own, and what is on every page.
var notGiven = []string{"Policy", "Style", "Units", "Known", "Safety", "Yard", "View", "Front", "Envelope", "Code", "Drawing", "Clauses", "Programs", "Terms", "WhyMore",
	"Source", "Why", "Find", "Body", "About", "Data", "ViewWords"}

// TestWhatPagesAreGiven compares what each template receives with a golden file: the words and
// numbers of a page, apart from its look. Read a difference like code; then run
// go test ./internal/render -run WhatPagesAreGiven -update.
func TestWhatPagesAreGiven(t *testing.T) {
	p, err := newTemplates(theme.Files, phrases.English)
	if err != nil {
		t.Fatal(err)
	}
	m, err := begin(p, given(t))
	if err != nil {
		t.Fatal(err)
	}
	// Each template keeps what it was given.
	var got any
	keep := template.FuncMap{"keep": func(v any) string { got = v; return "" }}
	for name := range p.pages {
		p.pages[name] = template.Must(template.New("frame").Funcs(keep).Parse("{{keep .}}<!doctype html><title>x</title><p>"))
	}
	yard, err := m.yardPages()
	if err != nil {
		t.Fatal(err)
	}
	for _, j := range m.jobs(yard, nil, nil) {
		if j.path == "how-we-figure.html" || j.path == "404.html" || strings.HasPrefix(j.path, "figures/") && !strings.Contains(j.path, "ex-3") {
			continue
		}
		got = nil
		if _, err := j.make(); err != nil {
			t.Fatal(err)
		}
		if got == nil {
			t.Fatalf("%s: no template ran", j.path)
		}
		text := asGiven(t, got)
		file := filepath.Join("testdata/given", strings.NewReplacer("/", "_", ".html", ".json").Replace(j.path))
		if *update {
			if err := os.WriteFile(file, text, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil || !bytes.Equal(text, want) {
			t.Errorf("%s is given something else than %s has (%v); it is\n%.3000s", j.path, file, err, text)
		}
	}
}

// asGiven writes what a template received, without the fields that are not given.
func asGiven(t *testing.T, v any) []byte {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var tree any
	if err := json.Unmarshal(text, &tree); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	if err := e.Encode(pruned(tree)); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// pruned leaves out what is not given and what is empty.
func pruned(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for _, key := range notGiven {
			delete(v, key)
		}
		for key, in := range v {
			if v[key] = pruned(in); v[key] == nil {
				delete(v, key)
			}
		}
		if len(v) == 0 {
			return nil
		}
	case []any:
		for i := range v {
			v[i] = pruned(v[i])
		}
		if len(v) == 0 {
			return nil
		}
	case string:
		if v == "" || strings.HasPrefix(strings.TrimPrefix(v, "../"), "s/") { // a file named by its bytes
			return nil
		}
	case bool:
		if !v {
			return nil
		}
	}
	return v
}
