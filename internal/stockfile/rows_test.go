package stockfile_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// full is a trailer with a value in every column.
const full = `---
title: 83 in x 16 ft utility
stock: EX-7
kind: utility
make: Stave & Hoop
year: 2025
serial: ABC123
condition: used
availability: spoken for (since 2026-11-12)
price: about $2,600 (since 2026-11-10)
arrived: 2026-10-05
color: green
hitch:
  kind: bumper-pull
  ball: 2 in
  rating: 7,000 lb (coupler plate)
deck:
  length: 16 ft (tape)
  width: 83 in
  between-fenders: 82 in (tape)
  height: about 22 in (tape)
axles:
  count: 2
  rating: 3,500 lb (tag)
tires:
  size: ST205/75R15
  load-range: C
  per-axle: 2
weights:
  gvwr: 7,000 lb (tag)
  empty: 1,860 lb (scale ticket 2026-10-06)
---
`

func fullYard(t *testing.T, file string) *yard {
	l := read(t, fstest.MapFS{
		"content/yard.md":       {Data: []byte("---\nname: Example & Sons\nphone: 555-0142\nas-of: 2026-11-20\nprice-excludes: tax\n---\n")},
		"content/units/ex-7.md": {Data: []byte(file)},
	})
	l.Units[0].Address = "https://yard.example/u/ex-7.html"
	l.Units[0].Cautions = []string{"first", "second"}
	return l
}

func table(t *testing.T, l *yard) map[string]string {
	t.Helper()
	text, err := written(l, "stock.csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil || len(rows) != 2 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	out := map[string]string{}
	for i, name := range rows[0] {
		out[name] = rows[1][i]
	}
	return out
}

// TestRowOfTheTable compares one row with the trailer's file, read by a person. The payload is the
// label's: 7,000 - 1,860 = 5,140 lb (49 CFR 567.4(g)(3)).
func TestRowOfTheTable(t *testing.T) {
	got := table(t, fullYard(t, full))
	for column, want := range map[string]string{
		"stock": "EX-7", "page": "u/ex-7.html", "url": "https://yard.example/u/ex-7.html", "title": "83 in x 16 ft utility", "kind": "utility",
		"make": "Stave & Hoop", "year": "2025", "serial": "ABC123", "condition": "used", "color": "green",
		"availability": "spoken for", "availability-since": "2026-11-12", "as-of": "2026-11-20", "arrived": "2026-10-05", "changed": "2026-11-12",
		"price-usd": "2600", "price-since": "2026-11-10", "price-excludes": "tax", "hitch": "bumper-pull", "tires": "ST205/75R15", "load-range": "C",
		"gvwr-lb": "7000", "gvwr-from": "tag", "empty-lb": "1860", "empty-from": "scale ticket 2026-10-06",
		"axles-count": "2", "axles-from": "stated, no note", "axle-rating-lb": "3500", "coupler-rating-lb": "7000", "coupler-rating-from": "coupler plate",
		"ball-in": "2", "deck-length-ft": "16", "deck-width-in": "83", "deck-width-from": "stated, no note",
		"between-fenders-in": "82", "deck-height-in": "22", "deck-height-from": "about, tape",
		"tongue-at-gvwr-lb": "", "tongue-at-gvwr-from": "", "cautions": "first | second",
	} {
		if have, ok := got[column]; !ok || have != want {
			t.Errorf("%s is %q, want %q", column, have, want)
		}
	}
	if from := got["deck-length-from"]; !strings.HasPrefix(from, "worked out: ") {
		t.Errorf("deck-length-from is %q", from)
	}
}

// A trailer that is sold has no price, and neither has one at $0 or without any.
func TestNoPrice(t *testing.T) {
	for name, file := range map[string]string{
		"sold":  strings.Replace(full, "spoken for", "sold", 1),
		"free":  strings.Replace(full, "about $2,600", "$0", 1),
		"blank": strings.Replace(full, "price: about $2,600 (since 2026-11-10)\n", "", 1),
	} {
		l := fullYard(t, file)
		got := table(t, l)
		if got["price-usd"] != "" || got["price-since"] != "" || got["price-excludes"] != "" {
			t.Errorf("%s: the price is %q, since %q, without %q", name, got["price-usd"], got["price-since"], got["price-excludes"])
		}
		if p := parsed(t, l).Units[0].Price; p != nil {
			t.Errorf("%s: the price is %+v", name, p)
		}
	}
}

// TestRowOfTheList compares the same trailer in stock.json, and the top of the file.
func TestRowOfTheList(t *testing.T) {
	text, err := written(fullYard(t, full), "stock.json")
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Form     string
		Schema   string
		AsOf     string `json:"as-of"`
		Excludes string `json:"price-excludes"`
		Governs  string
		Yard     map[string]string
		Figures  []map[string]string
		Units    []map[string]json.RawMessage
	}
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if got.Schema != "stock.schema.json" || got.AsOf != "2026-11-20" || got.Excludes != "tax" || got.Governs != strings.Join(compute.Safety, " ") {
		t.Errorf("the top is %+v", got)
	}
	if got.Yard["name"] != "Example & Sons" || got.Yard["phone"] != "555-0142" {
		t.Errorf("the yard is %v", got.Yard)
	}
	for _, f := range got.Figures {
		for _, key := range []string{"name", "label", "unit", "what", "source"} {
			if f[key] == "" {
				t.Errorf("the figure %q has no %s", f["name"], key)
			}
		}
	}
	for key, want := range map[string]string{
		"stock": `"EX-7"`, "page": `"u/ex-7.html"`, "url": `"https://yard.example/u/ex-7.html"`, "title": `"83 in x 16 ft utility"`, "kind": `"utility"`,
		"make": `"Stave \u0026 Hoop"`, "year": `2025`, "serial": `"ABC123"`, "condition": `"used"`, "color": `"green"`,
		"availability": `"spoken for"`, "availability-since": `"2026-11-12"`, "arrived": `"2026-10-05"`, "changed": `"2026-11-12"`,
		"price": `{"amount":2600,"currency":"USD","since":"2026-11-10","about":true}`, "cautions": `["first","second"]`,
	} {
		if have := string(got.Units[0][key]); have != want {
			t.Errorf("%s is %s, want %s", key, have, want)
		}
	}
}

// TestUnsaid follows a price and an availability that change with and without a later day. A
// program that goes by days is told of a change only by a later day.
func TestUnsaid(t *testing.T) {
	before, err := written(fullYard(t, full), "stock.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, old, new string
		want           bool
	}{
		{"nothing changed", "", "", false},
		{"another title", "utility\nstock", "utility, washed\nstock", false},
		{"another price, same day", "$2,600 (since 2026-11-10)", "$2,500 (since 2026-11-10)", true},
		{"another price, a later day", "$2,600 (since 2026-11-10)", "$2,500 (since 2026-11-13)", false},
		{"another price, the day of the last change", "$2,600 (since 2026-11-10)", "$2,500 (since 2026-11-12)", true},
		{"no longer about", "about $2,600", "$2,600", true},
		{"the price goes", "price: about $2,600 (since 2026-11-10)\n", "", true},
		{"another availability, same day", "spoken for (since 2026-11-12)", "on the yard (since 2026-11-12)", true},
		{"another availability, a later day", "spoken for (since 2026-11-12)", "on the yard (since 2026-11-14)", false},
		{"another trailer", "EX-7", "EX-8", false},
	} {
		now := fullYard(t, strings.Replace(full, c.old, c.new, 1))
		var units []*unit.Unit
		for _, u := range now.Units {
			units = append(units, u.Work.Unit)
		}
		if got := stockfile.Unsaid(stockfile.ReadOffers(before), units); (len(got) == 1) != c.want || c.want && got[0] != "EX-7" {
			t.Errorf("%s: unsaid are %v", c.name, got)
		}
	}
	changed := fullYard(t, strings.Replace(full, "$2,600", "$2,500", 1)).Units[0].Work.Unit
	for name, text := range map[string]string{"nothing": "", "another form": strings.Replace(string(before), `"form": "`, `"form": "other `, 1), "cut off": string(before[:len(before)/2])} {
		if got := stockfile.Unsaid(stockfile.ReadOffers([]byte(text)), []*unit.Unit{changed}); got != nil {
			t.Errorf("%s: unsaid are %v", name, got)
		}
	}
}

// TestMovesSince follows one trailer from an earlier stock.json to what is listed now.
func TestMovesSince(t *testing.T) {
	before, err := written(fullYard(t, full), "stock.json")
	if err != nil {
		t.Fatal(err)
	}
	ex7 := []string{"EX-7"}
	jumped := func(to string) stockfile.Moves {
		move := []stockfile.PriceMove{{Stock: "EX-7", From: "about $2,600", To: to}}
		return stockfile.Moves{Prices: move, Jumps: move}
	}
	for _, c := range []struct {
		name, old, new string
		want           stockfile.Moves
	}{
		{"nothing changed", "", "", stockfile.Moves{AsBefore: 1}},
		{"another price", "$2,600", "$2,500", stockfile.Moves{Prices: []stockfile.PriceMove{{"EX-7", "about $2,600", "about $2,500"}}}},
		{"half the price", "$2,600", "$1,300", stockfile.Moves{Prices: []stockfile.PriceMove{{"EX-7", "about $2,600", "about $1,300"}}}},
		{"less than half", "$2,600", "$1,299", jumped("about $1,299")},
		{"twice the price", "$2,600", "$5,200", stockfile.Moves{Prices: []stockfile.PriceMove{{"EX-7", "about $2,600", "about $5,200"}}}},
		{"ten times", "$2,600", "$26,000", jumped("about $26,000")},
		{"another availability", "spoken for", "on the yard", stockfile.Moves{Offers: ex7}},
		{"sold", "spoken for", "sold", stockfile.Moves{Sold: ex7}},
		{"another trailer", "EX-7", "EX-8", stockfile.Moves{New: []string{"EX-8"}, Gone: ex7, Unsold: ex7}},
	} {
		var units []*unit.Unit
		for _, u := range fullYard(t, strings.Replace(full, c.old, c.new, 1)).Units {
			units = append(units, u.Work.Unit)
		}
		c.want.Listed = 1
		if got, ok := stockfile.MovesSince(stockfile.ReadOffers(before), units); !ok || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
	if _, ok := stockfile.MovesSince(stockfile.ReadOffers(before[:len(before)/2]), nil); ok {
		t.Error("a stock.json that was cut off is compared")
	}
}

// TestOffers: the offers of units are those that are read from the stock.json of these units,
// so that a build may keep them in its place.
func TestOffers(t *testing.T) {
	for _, file := range []string{full, strings.Replace(full, "spoken for", "sold", 1), strings.Replace(full, "price: about $2,600 (since 2026-11-10)\n", "", 1),
		strings.NewReplacer(" (since 2026-11-12)", "", " (since 2026-11-10)", "", "about ", "").Replace(full)} {
		yard := fullYard(t, file)
		text, err := written(yard, "stock.json")
		if err != nil {
			t.Fatal(err)
		}
		var units []*unit.Unit
		for _, u := range yard.Units {
			units = append(units, u.Work.Unit)
		}
		if got, want := stockfile.OffersOf(units), stockfile.ReadOffers(text); len(want) == 0 || !reflect.DeepEqual(got, want) {
			t.Errorf("%+v, the file says %+v", got, want)
		}
	}
}

// failing fails at its nth write.
type failing struct{ left *int }

var errFull = errors.New("the disk is full")

func (f failing) Write(p []byte) (int, error) {
	if *f.left--; *f.left < 0 {
		return 0, errFull
	}
	return len(p), nil
}

// TestPlaces: the lines of each trailer are where Add says.
func TestPlaces(t *testing.T) {
	l := fullYard(t, full)
	var files [3]bytes.Buffer
	opened := 0
	w, err := stockfile.NewWriter(l.Yard, func(path string) (io.Writer, error) {
		if opened++; path != stockfile.LinePaths()[opened-1] {
			t.Errorf("file %d is %s", opened, path)
		}
		return &files[opened-1], nil
	})
	if err != nil {
		t.Fatal(err)
	}
	lines, err := w.Lines(&l.Units[0])
	var at [2]stockfile.Places
	for i := range at {
		if err == nil {
			at[i], err = w.Add(lines)
		}
	}
	if err = errors.Join(err, w.End()); err != nil {
		t.Fatal(err)
	}
	for _, places := range at {
		for i, p := range places {
			if got := files[i].String()[p.At : p.At+p.Bytes]; got != string(lines[i]) || got == "" {
				t.Errorf("file %d has %q at %+v, want %q", i, got, p, lines[i])
			}
		}
	}
	if at[0] == at[1] {
		t.Error("both trailers are in one place")
	}
}

// Wherever the disk is full, the error comes back, and nothing is reported as written.
func TestFullDiskIsReported(t *testing.T) {
	l := fullYard(t, full)
	write := func(left int) error {
		w, err := stockfile.NewWriter(l.Yard, func(string) (io.Writer, error) { return failing{&left}, nil })
		if err != nil {
			return err
		}
		lines, err := w.Lines(&l.Units[0])
		if err != nil {
			return err
		}
		_, err = w.Add(lines)
		return errors.Join(err, w.End())
	}
	writes := 0
	for ; write(writes) != nil; writes++ {
		if err := write(writes); !errors.Is(err, errFull) {
			t.Errorf("after %d writes: %v", writes, err)
		}
	}
	if writes < 7 { // three heads, a separator and three lines, the end
		t.Errorf("only %d writes", writes)
	}
	for i := range 3 {
		opened := 0
		_, err := stockfile.NewWriter(l.Yard, func(string) (io.Writer, error) {
			if opened++; opened > i {
				return nil, errFull
			}
			return io.Discard, nil
		})
		if !errors.Is(err, errFull) {
			t.Errorf("file %d does not open: %v", i+1, err)
		}
	}
}

// The lines of the second trailer are separated from the first's by a comma, and each is a line.
func TestTwoTrailers(t *testing.T) {
	l := read(t, fstest.MapFS{
		"content/yard.md":       {Data: []byte("---\nname: Example\nas-of: 2026-11-20\n---\n")},
		"content/units/ex-7.md": {Data: []byte(full)},
		"content/units/ex-8.md": {Data: []byte(strings.Replace(full, "EX-7", "EX-8", 1))},
	})
	text, err := written(l, "stock.json")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, u := range parsed(t, l).Units {
		got = append(got, u.Stock)
	}
	if fmt.Sprint(got) != "[EX-7 EX-8]" || strings.Count(string(text), "\n  {\"stock\":") != 2 || !strings.HasSuffix(string(text), "}\n ]\n}\n") {
		t.Errorf("%v\n%s", got, text)
	}
}

// Every property in the schema says what it means: the schema is the only description that
// another program's author gets.
func TestSchemaDescribesEverything(t *testing.T) {
	text, err := stockfile.Schema()
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasSuffix(text, []byte("}\n")) {
		t.Error("the schema does not end with a line end")
	}
	var schema any
	if err := json.Unmarshal(text, &schema); err != nil {
		t.Fatal(err)
	}
	described := 0
	var walk func(path string, v any)
	walk = func(path string, v any) {
		node, ok := v.(map[string]any)
		if !ok {
			return
		}
		properties, _ := node["properties"].(map[string]any)
		for name, p := range properties {
			at := path + "/" + name
			node := p.(map[string]any)
			_, constant := node["const"]
			if node["description"] == nil && !constant && name != "value" && name != "unit" && name != "amount" {
				t.Errorf("%s has no description", at)
			}
			described++
			walk(at, p)
		}
		for _, key := range []string{"items", "$defs"} {
			if sub, ok := node[key].(map[string]any); ok {
				walk(path+"/"+key, sub)
				for name, p := range sub {
					walk(path+"/"+key+"/"+name, p)
				}
			}
		}
	}
	walk("", schema)
	if described < 80 {
		t.Errorf("only %d properties were looked at", described)
	}
}

// TestProofsAreNamed: what a photo proves says so in both files, and so does one that is kept off
// the site.
func TestProofsAreNamed(t *testing.T) {
	proven := strings.Replace(full, "---\n", `---
proof:
  - file: media/ex-7-label.jpg
    shows: label
    proves: weights.gvwr
  - file: media/ex-7-ticket.jpg
    shows: scale ticket
    proves: weights.empty
    withhold: the buyer's name is on it
`, 1)
	l := fullYard(t, proven)
	row := table(t, l)
	if got := row["ratings-photographed"]; !strings.HasPrefix(got, "1 of ") {
		t.Errorf("ratings-photographed is %q", got)
	}
	const want = "weights.gvwr: label photographed | weights.empty: scale ticket 2026-10-06 photographed, the photo is not public"
	if got := row["photographed"]; got != want {
		t.Errorf("photographed is %q, want %q", got, want)
	}
	text, err := written(l, "stock.json")
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Units []struct {
			Stated map[string]struct{ Proof string }
		}
	}
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	stated := got.Units[0].Stated
	if stated["weights.gvwr"].Proof != "label photographed" || stated["hitch.rating"].Proof != "" {
		t.Errorf("the proofs are %+v", stated)
	}
}
