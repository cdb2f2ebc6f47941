package pagedata

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

const yard = "---\nname: Example Yard\nas-of: 2026-11-20\n---\n"

// trailer is a unit file; each pair of texts is replaced by the next.
func trailer(pairs ...string) string {
	return strings.NewReplacer(pairs...).Replace(`---
title: 82 in x 18 ft equipment trailer
stock: EX-1
kind: equipment
year: 2026
condition: new
availability: on the yard
price: $5,200
hitch:
  kind: bumper-pull
  ball: 2-5/16 in
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
  per-axle: 2
brakes:
  kind: electric
  axles: 2
  breakaway: yes
weights:
  gvwr: 7,000 lb (tag)
  empty: 2,000 lb (scale)
  tongue-empty: 260 lb (scale)
ramps:
  kind: slide-in
  length: 5 ft
tie-downs:
  - d-rings: 4 at 5,000 lb
standard:
  - spare tire
options:
  - winch mount
---

The coupler is tight.
Second line.
`)
}

// read reads a yard of these unit files.
func read(t *testing.T, files ...string) []Trailer {
	t.Helper()
	root := fstest.MapFS{"content/yard.md": {Data: []byte(yard)}}
	for i, text := range files {
		root[fmt.Sprintf("content/units/ex-%04d.md", i)] = &fstest.MapFile{Data: []byte(text)}
	}
	stock, problems, err := unit.Read(root)
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	var out []Trailer
	for i, w := range compute.Stock(stock) {
		if w == nil {
			t.Fatalf("unit %d does not read", i)
		}
		out = append(out, Trailer{Lang: phrases.English, Unit: stock.Units[i], Work: w, Cautions: i})
	}
	return out
}

// chipsOf is a facet as text: its chips with their counts, and the number of each trailer's.
func chipsOf(f Facet) string {
	var b strings.Builder
	for _, c := range f.Chips {
		fmt.Fprintf(&b, "%s=%s(%s) ", c.Value, c.Label, c.Count)
	}
	return b.String() + fmt.Sprint(f.of)
}

func TestFacets(t *testing.T) {
	list := read(t,
		trailer(),
		trailer("EX-1", "EX-2", "18 ft\n", "20 ft 6 in\n", "on the yard", "sold", "3,500 lb", "7,000 lb"),
		trailer("EX-1", "EX-3", "bumper-pull", "gooseneck", "$5,200", "$50,000", "new", "used", "kind: equipment", "kind: flatbed"),
		trailer("EX-1", "EX-4", "$5,200", "$2,499", "on the yard", "on order"),
		trailer("EX-1", "EX-5", "price: $5,200\n", "", "on the yard", "spoken for"),
	)
	want := map[string]string{
		"kind":      "flatbed=Flatbed(1) equipment=Equipment(4) [1 1 0 1 1]",
		"hitch":     "bumper-pull=bumper-pull(4) gooseneck=gooseneck(1) [0 0 1 0 0]",
		"deck":      "18=18 ft(4) 20=20 ft(1) [0 1 0 0 0]",
		"axle":      "3500=3,500 lb(4) 7000=7,000 lb(1) [0 1 0 0 0]",
		"price":     "0=under $2,500(1) 5000=$5,000 to 7,500(1) 50000=$50,000 and up(1) [1 -1 2 0 -1]",
		"here":      "on-the-yard=on the yard(2) on-order=on order(1) spoken-for=spoken for(1) sold=sold(1) [0 3 0 1 2]",
		"condition": "new=new(4) used=used(1) [0 0 1 0 0]",
	}
	var names []string
	for _, f := range Facets(phrases.English, list) {
		names = append(names, f.Name)
		if got := chipsOf(f); got != want[f.Name] {
			t.Errorf("%s: %s\nwant %s", f.Name, got, want[f.Name])
		}
		if byModel := slices.Contains([]string{"kind", "hitch", "deck", "axle"}, f.Name); (f.by == ofModel) != byModel || f.Label == "" {
			t.Errorf("%s: by %s, label %q", f.Name, f.by, f.Label)
		}
	}
	if got := strings.Join(names, " "); got != "kind hitch deck axle price here condition" {
		t.Errorf("the facets are %s", got)
	}
}

// Each price is in the step that begins at it or below it.
func TestPriceSteps(t *testing.T) {
	for price, want := range map[string]string{"$1": "0", "$2,499.99": "0", "$2,500": "2500", "$9,999": "7500", "$10,000": "10000", "$49,999": "30000", "$50,000": "50000", "$90,000": "50000"} {
		f := prices(phrases.English, read(t, trailer("$5,200", price)))
		if len(f.Chips) != 1 || f.Chips[0].Value != want {
			t.Errorf("%s is in %v, want %s", price, f.Chips, want)
		}
	}
}

// Up to 14 sizes have a chip each; of more, neighbors share one.
func TestSizesShareChips(t *testing.T) {
	label := func(from, to float64) string { return fmt.Sprint(from, "-", to) }
	var values []float64
	for v := range 14 {
		values = append(values, float64(10+v))
	}
	if f := sizes(values, []float64{1, 2, 4}, label); len(f.Chips) != 14 || f.Chips[0].Label != "10-11" {
		t.Errorf("14 sizes: %v", f.Chips)
	}
	values = append(values, 24, unknown)
	f := sizes(values, []float64{1, 2, 4}, label)
	if len(f.Chips) != 8 || f.Chips[0].Label != "10-12" || f.Chips[7].Label != "24-26" {
		t.Errorf("15 sizes: %v", f.Chips)
	}
	if want := []int{0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, -1}; !slices.Equal(f.of, want) {
		t.Errorf("the chips of 15 sizes are %v, want %v", f.of, want)
	}
	// Where even the last step gives too many, it stays.
	if f := sizes(values, []float64{1}, label); len(f.Chips) != 15 {
		t.Errorf("with one step: %d chips", len(f.Chips))
	}
	if f := sizes([]float64{3500, 3501}, []float64{0, 1000}, label); len(f.Chips) != 2 || f.Chips[1].Value != "3501" || f.Chips[1].Label != "3501-3501" {
		t.Errorf("a step of 0 takes values as they are: %v", f.Chips)
	}
}

// stockOf is the stock as the page reads it.
func stockOf(t *testing.T, list []Trailer) (columns, elevation.Scale) {
	t.Helper()
	var works []*compute.Work
	for _, one := range list {
		works = append(works, one.Work)
	}
	scale := elevation.ScaleOf(works)
	text, err := Stock(phrases.English, list, Facets(phrases.English, list), scale)
	if err != nil {
		t.Fatal(err)
	}
	body, ok := strings.CutPrefix(string(text), "var STOCK=")
	body, end := strings.CutSuffix(body, ";\n")
	var c columns
	if err := json.Unmarshal([]byte(body), &c); err != nil || !ok || !end {
		t.Fatalf("%v: %.80s", err, text)
	}
	return c, scale
}

func same(t *testing.T, what string, got, want any) {
	t.Helper()
	if a, b := fmt.Sprint(got), fmt.Sprint(want); a != b {
		t.Errorf("%s: %s, want %s", what, a, b)
	}
}

func TestStock(t *testing.T) {
	list := read(t,
		trailer(),
		trailer("EX-1", "EX-2", "2,000 lb", "about 2,100 lb", "on the yard", "sold"), // the same model, another empty weight
		trailer("EX-1", "EX-12", "title: 82", "title: 33 in sides, 82", "18 ft\n", "20 ft\n", "82 in\n", "82 in\n  between-fenders: 80 in\n", "$5,200", "about $6,000", "new", "used"),
		trailer("EX-1", "AB", "price: $5,200\n", "", "  tongue-empty: 260 lb (scale)\n", "", "  width: 82 in\n", ""),
	)
	c, scale := stockOf(t, list)
	same(t, "stock", c.Stock, []any{"EX-1", 1, "EX-12", "AB"})
	same(t, "model", c.Model, []int{0, 0, 1, 2})
	same(t, "titles", c.Titles, []string{"82 in x 18 ft equipment trailer", "33 in sides, 82 in x 18 ft equipment trailer"})
	same(t, "title", c.Title, []int{0, 0, 0, 0}) // the first of its model's
	same(t, "titles of models", c.Models.Title, [][]int{{0}, {1}, {0}})
	same(t, "state", c.State, []int{0, 3, 0, 0})
	same(t, "worn", c.Worn, []int{0, 0, 1, 0})
	same(t, "price", c.Price, []any{5200, 0, 6000, 0})
	same(t, "empty", c.Empty, []any{0, 100, 0, 0})
	same(t, "empty of models", c.Models.Empty, []any{2000, 2000, 2000})
	same(t, "weighed", c.Weighed, []int{1, 1, 1, 0})
	same(t, "tongues", c.Tongue[:3], []any{0, 0, 0})
	same(t, "tongues of models", c.Models.Tongue[:2], []any{260, 260})
	same(t, "cautions", c.Careful, []int{0, 1, 2, 3})
	same(t, "phrases", c.Phrases, said{"Sold", "Call for price", []string{"", "1 caution", "2 cautions", "3 cautions"}})
	same(t, "tall", c.Tall, scale.Tall())
	same(t, "states", c.States, []string{"on the yard", "on order", "spoken for", "sold"})

	// GVWR less empty, less nothing else that governs here: 7,000 - 2,000 and - 2,100, which is
	// what the page works back from the two.
	same(t, "load", c.Load[:2], []any{0, 0})
	same(t, "full", c.Models.Full, []any{7000, 7000, 7000})
	// 15 ft 6 in from the ball to the axles, the deck's middle 14 ft behind the ball: 260 + 5,000 x (1 - 14/15.5) = 743.9 lb, of 7,000.
	same(t, "share", c.Shares[c.Models.Share[0][c.Share[0]]], "loaded, 10.6% on the truck")
	same(t, "share of the last, whose tongue nobody weighed", c.Shares[c.Models.Share[2][c.Share[3]]], "tongue not weighed")
	says := map[string]string{"empty 1": "about 2,100 lb", "load 1": "about 4,900 lb", "price 2": "about $6,000"}
	for k, v := range c.Says {
		if !strings.HasPrefix(k, "kg ") && says[k] != v && !strings.HasSuffix(k, " 3") {
			t.Errorf("says %q: %q", k, v)
		}
		delete(says, k)
	}
	if len(says) > 0 {
		t.Errorf("the stock does not say %v", says)
	}
	same(t, "gvwr", c.Models.GVWR, []string{"7,000 lb", "7,000 lb", "7,000 lb"})
	same(t, "space", c.Models.Space, []string{"deck", "deck", "deck"})
	same(t, "long", c.Models.Long, []string{"18 ft", "20 ft", "18 ft"})
	same(t, "wide", c.Models.Wide, []any{82, 80, nil})
	same(t, "rows", c.Rows, []string{"Kind", "Hitch", "Width", "Height of the floor", "Axles", "Tires", "Brakes", "Ramps"})
	same(t, "facts", c.Models.Facts[0], []string{"Equipment", "bumper-pull, 2-5/16 in ball", "82 in", "24 in", "2 x 3,500 lb", "ST205/75R15 load range C", "electric", "slide-in, 5 ft"})
	same(t, "width", c.Models.Facts[1][2], "80 in between fenders (overall width not measured)")
	if len(c.Facets) != 7 || fmt.Sprint(c.Facets[2].Values, c.Facets[2].Of) != "[18 20] [0 1 0]" || fmt.Sprint(c.Facets[5].Values, c.Facets[5].Of) != "[on-the-yard sold] [0 -1 -1 1]" {
		t.Errorf("facets %v", c.Facets)
	}
	for k, f := range Facets(phrases.English, list) {
		same(t, "chips of "+f.Name, chipsFound(t, &c, c.Facets[k]), f.of)
	}
	// 18 ft is 5.4864 m, 82 in 2.0828 m, 7,000 lb 3,175.147 kg, a rating that is rounded down.
	for text, want := range map[string]string{"18 ft": "5.49 m", "82 in": "2.08 m", "7,000 lb": "3,175 kg", "about 2,100 lb": "", "2,100 lb": "953 kg", "5 ft": "1.52 m", "33 in": "838 mm"} {
		if c.SI[text] != want {
			t.Errorf("%s is %q in metric, want %q", text, c.SI[text], want)
		}
	}
	// A silhouette, one for both lengths where they differ.
	if wheels := strings.Split(strings.Split(c.Shapes[0], "|")[3], ","); len(wheels) != 2 || len(strings.Fields(wheels[1])) != 4 {
		t.Errorf("the wheels of a tandem are %q", wheels)
	}
	if c.Models.Shape[0] < 0 || c.Models.Shape[0] == c.Models.Shape[1] || strings.Count(c.Shapes[0], "|") != 3 {
		t.Errorf("shapes %v: %.80v", c.Models.Shape, c.Shapes)
	}
	rig, _ := compute.RigOf(list[0].Work)
	want := Calculator(rig, compute.TowedOf(list[0].Work))
	for i := range want {
		if slices.Contains(ofUnit, i) {
			want[i] = 0
		}
	}
	text, _ := json.Marshal(want)
	got, _ := json.Marshal(c.Models.Rig[0])
	same(t, "rig", string(got), string(text))
}

// chipsFound are the numbers of a facet's chips by trailer, as the page finds them.
func chipsFound(t *testing.T, c *columns, f facetColumn) (out []int) {
	t.Helper()
	column := map[string][]int{"model": c.Model, "state": c.State, "worn": c.Worn}[f.By]
	for i := range c.Model {
		if column != nil {
			out = append(out, f.Of[column[i]])
			continue
		}
		at := -1
		for k, v := range f.Values {
			from, err := strconv.ParseFloat(v, 64)
			if price := c.Price[i].(float64); err == nil && f.By == "price" && price > 0 && price >= from {
				at = k
			}
		}
		out = append(out, at)
	}
	return out
}

// A number of a column that is near its model's first comes back as it was, to the last bit.
func TestNearFirst(t *testing.T) {
	column := []any{2000., 3286.8, nil, 1006.3, 2100., nil} // 3286.8 + (1006.3 - 3286.8) is not 1006.3
	model := []int{0, 1, 1, 1, 0, 2}
	was := slices.Clone(column)
	first := nearFirst(column, model)
	same(t, "first", first, []any{2000, 0, nil})
	for i, v := range column {
		if v != nil && first[model[i]].(float64)+v.(float64) != was[i].(float64) || v == nil && was[i] != nil {
			t.Errorf("%v comes back as %v above %v", was[i], v, first[model[i]])
		}
	}
	which, of := within([]int{7, 8, 7, 9, 7}, []int{0, 0, 0, 1, 1})
	same(t, "which", which, []int{0, 1, 0, 0, 1})
	same(t, "of", of, [][]int{{7, 8}, {9, 7}})
	if which, of := within(nil, nil); which != nil || len(of) != 0 {
		t.Errorf("of nothing: %v %v", which, of)
	}
}

// A trailer without a payload, without an empty weight and without a size.
func TestStockOfWhatIsNotKnown(t *testing.T) {
	c, _ := stockOf(t, read(t, trailer("  empty: 2,000 lb (scale)\n", "", "  length: 18 ft\n", "", "  height: 24 in\n", "", "  center: 15 ft 6 in\n", "")))
	same(t, "empty", c.Empty, []any{nil})
	same(t, "load", c.Load, []any{nil})
	same(t, "tongue, which somebody weighed", c.Tongue, []any{0})
	same(t, "rig", c.Models.Rig[0][2] == nil && c.Models.Rig[0][4] == nil, true)
	same(t, "long", c.Models.Long, []string{""})
}

func TestStockColumn(t *testing.T) {
	for _, c := range []struct{ in, want []any }{
		{[]any{"SB-1", "SB-2", "SB-9"}, []any{"SB-1", 1, 7}},
		{[]any{"SB-9", "SB-10"}, []any{"SB-9", "SB-10"}}, // another width
		{[]any{"SB-2", "SB-1"}, []any{"SB-2", "SB-1"}},   // backward
		{[]any{"SB-1", "SB-1"}, []any{"SB-1", "SB-1"}},   // twice
		{[]any{"SB", "SB"}, []any{"SB", "SB"}},           // without a number
		{[]any{"SB-1", "SC-2"}, []any{"SB-1", "SC-2"}},   // another head
		{[]any{"0000000001", "1000000000"}, []any{"0000000001", 999999999}},
		{[]any{"1000000000", "1000000001"}, []any{"1000000000", "1000000001"}}, // above a billion
		{[]any{"99999999999999999998", "99999999999999999999"}, []any{"99999999999999999998", "99999999999999999999"}},
	} {
		got := slices.Clone(c.in)
		stockColumn(got)
		same(t, fmt.Sprint(c.in), got, c.want)
	}
}

// numberOf is what a script reads where digits wrote.
func numberOf(s string) (n int, rest string) {
	const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
	for shift := 0; ; shift += 5 {
		v := strings.IndexByte(alphabet, s[0])
		s = s[1:]
		n |= v & 31 << shift
		if v < 32 {
			return n, s
		}
	}
}

// indexOf reads the parts back as yard.js does: by word and field, the trailers.
func indexOf(t *testing.T, parts []WordPart) map[string][fields][]int {
	t.Helper()
	out := map[string][fields][]int{}
	for k, p := range parts {
		body, ok := strings.CutPrefix(string(p.Text), "WORDS(")
		body, end := strings.CutSuffix(body, ");\n")
		var part []any
		if err := json.Unmarshal([]byte("["+body+"]"), &part); err != nil || !ok || !end || int(part[0].(float64)) != k {
			t.Fatalf("part %d: %v, %.60s", k, err, p.Text)
		}
		posts, word := part[2].(string), ""
		for i, s := range strings.Split(part[1].(string), " ") {
			n, err := strconv.ParseInt(s[:1], 36, 0)
			if err != nil {
				t.Fatal(err)
			}
			word = string([]rune(word)[:n]) + s[1:] // no word here is beyond UCS-2
			if i == 0 && (k > 0 && word != p.From || k == 0 && p.From != "") {
				t.Errorf("part %d begins with %q, it says %q", k, word, p.From)
			}
			var in [fields][]int
			for f := range in {
				var count, at, step int
				for count, posts = numberOf(posts); count > 0; count-- {
					step, posts = numberOf(posts)
					at += step
					in[f] = append(in[f], at)
				}
			}
			out[word] = in
		}
		if posts != "" {
			t.Errorf("part %d has %d letters too many", k, len(posts))
		}
	}
	return out
}

// The words of the parts are those of the trailers, whatever they begin with.
func TestWords(t *testing.T) {
	var long [2]strings.Builder
	for i := range 9000 {
		fmt.Fprintf(&long[i%2], "%c%cxy%d ", 'a'+i%26, 'a'+i/26%26, i)
	}
	list := read(t, trailer(), trailer("EX-1", "EX-2", "The coupler", "Ölfrei "+strings.Repeat("z", 50)+" "+strings.Repeat("z", 50)+"y "+long[0].String()+"coupler coupler"), trailer("EX-1", "EX-3", "spare tire", "D-rings", "Second line.", long[1].String()))
	parts, err := Words(list, make([][32]byte, len(list)), nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(parts) < 2 {
		t.Fatalf("%d parts; the test wants more", len(parts))
	}
	for _, p := range parts {
		if len(p.Text) > partSize+1000 {
			t.Errorf("the part from %q has %d bytes", p.From, len(p.Text))
		}
	}
	got := indexOf(t, parts)
	want := map[string][fields][]int{}
	for i := range list {
		for f, text := range wordsOf(&list[i]) {
			for _, w := range terms(text) {
				in := want[w]
				if !slices.Contains(in[f], i) {
					in[f] = append(in[f], i)
				}
				want[w] = in
			}
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d words, want %d", len(got), len(want))
	}
	for _, w := range slices.Sorted(maps.Keys(want)) {
		if fmt.Sprint(got[w]) != fmt.Sprint(want[w]) {
			t.Fatalf("%q is in %v, want %v", w, got[w], want[w])
		}
	}
	// What can be found: the kind as pages call it, equipment by field, words of the notes.
	for w, field := range map[string]int{"equipment": 0, "bumper": 0, "ex": 0, "2026": 0, "new": 0, "slide": 1, "d": 1, "spare": 1, "winch": 1, "electric": 1, "st205": 1, "coupler": 2, "second": 2, "rings": 1, "tight": 2, "line": 2} {
		if len(got[w][field]) == 0 {
			t.Errorf("%q is not found in field %d: %v", w, field, got[w])
		}
	}
	for w := range got {
		if strings.Contains(w, "tightsecond") || strings.Contains(w, "tight.second") || strings.Contains(w, "headingthe") {
			t.Errorf("lines run together: %q", w)
		}
	}
	// A word is written as what it adds to the one before it.
	short, err := Words(read(t, trailer("The coupler is tight.\nSecond line.", "couple\n\ncoupled\n\ncoupler")), make([][32]byte, 1), nil)
	if err != nil || !strings.Contains(string(short[0].Text), " 1ouple 6d 6r ") || strings.HasPrefix(string(short[0].Text), `WORDS(0," `) {
		t.Errorf("%v, %s", err, short[0].Text)
	}
}

func TestShared(t *testing.T) {
	for _, c := range []struct {
		w, before string
		want      int
	}{
		{"coupler", "coupled", 6}, {"a", "", 0}, {"coupler", "coupler", 7}, {"ab", "abc", 2},
		{strings.Repeat("z", 40), strings.Repeat("z", 40), 35}, // one digit of base 36 says no more
		{"oé", "oè", 1}, // the two share the first byte of a letter of two
	} {
		if got := shared(c.w, c.before); got != c.want {
			t.Errorf("%q after %q shares %d bytes, want %d", c.w, c.before, got, c.want)
		}
	}
	// The HTML Standard's scripts count UTF-16: a truck beyond the first 65,536 counts twice.
	if got := utf16Len("é🚚a\uffff"); got != 5 {
		t.Errorf("utf16Len is %d, want 5", got)
	}
}

func TestDigits(t *testing.T) {
	for n, want := range map[int]string{0: "A", 31: "f", 32: "gB", 63: "_B", 1023: "_f", 1024: "ggB"} {
		var b strings.Builder
		digits(&b, n)
		if back, rest := numberOf(b.String()); b.String() != want || back != n || rest != "" {
			t.Errorf("%d is written %q and read %d, want %q", n, b.String(), back, want)
		}
	}
}

// The rows of the comparison that a card shows, and rows for want of a value.
func TestSize(t *testing.T) {
	one := read(t, trailer("count: 2", "count: 1", "  spacing: 34 in\n", "", "  ball: 2-5/16 in\n", "", "  length: 5 ft\n", "", "  load-range: C\n", ""))[0]
	if got, want := one.Size(), "bumper-pull, 82 in, 3,500 lb"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for _, row := range comparison {
		if want, ok := map[string]string{"ramps": "slide-in", "tires": "ST205/75R15", "tail": ""}[row.name]; ok && row.of(&one) != want {
			t.Errorf("%s: %q, want %q", row.name, row.of(&one), want)
		}
	}
	none := read(t, trailer("ramps:\n  kind: slide-in\n  length: 5 ft\n", ""))[0]
	if got := comparison[len(comparison)-1].of(&none); got != "" {
		t.Errorf("no ramps: %q", got)
	}
}

// Each number is where statics.js looks for it.
func TestCalculator(t *testing.T) {
	r := compute.Rig{Empty: 1, Tongue: 2, Axles: 3, Front: 4, Length: 5, GVWR: 6, Hold: 7, HoldBy: compute.TireHold, TongueMost: 9, Coupler: 10, Ball: 11,
		Least: .12, Most: .13, Holds: [3]measure.Pounds{17, 0, 19}}
	known := func(v measure.Pounds) compute.Result[measure.Pounds] {
		return compute.Result[measure.Pounds]{Value: v, Known: true}
	}
	got := Calculator(r, compute.Towed{Payload: known(14), SurgeTruck: known(15), TongueEmpty: known(16), NoBall: true, Kind: "pintle", Ball: 2,
		WayUp: compute.Result[measure.Degrees]{Value: 21.5, Known: true}, WayHolds: known(25), WayBy: compute.DoorHold, PartHolds: known(27),
		Part: compute.Result[measure.Inches]{Value: 28, Known: true}, Room: compute.Result[measure.Inches]{Value: 29, Known: true}, Floor: compute.Result[measure.Inches]{Value: 30, Known: true},
		NoWay: true, Closed: true, Inside: compute.Result[measure.Inches]{Value: 32, Known: true}})
	same(t, "numbers", got, []any{1, 2, 3, 4, 5, 6, 7, int(compute.TireHold), 9, 10, 11, .12, .13, 14, 15, 16, true, 17, nil, 19, false, "pintle", 2, 21.5, false, 25, int(compute.DoorHold), 27, 28, 29, 30, true, 32})
	got = Calculator(r, compute.Towed{})
	same(t, "unknown ones", got[13:17], []any{nil, nil, nil, false})
	same(t, "unknown ratings", got[25:], []any{nil, 0, nil, nil, nil, nil, false, nil})
	// 49 CFR 383.5: Class A from 26,001 lb with more than 4,536 kg (10,000 lb) towed, Class B from
	// 26,001 lb; 390.5: commercial from 10,001 lb.
	same(t, "limits of a license", LicenseLimits(), []any{26001, float64(measure.FromKilograms(4536)), 26001, 10001})
}

func TestMachines(t *testing.T) {
	text, err := Machines(phrases.English)
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]any
	body, law, _ := strings.Cut(strings.TrimPrefix(string(text), "var MACHINES="), ";\n")
	if !strings.HasPrefix(law, "var LAW=[26001,10000.1") {
		t.Errorf("the limits of a license: %s", law)
	}
	if err := json.Unmarshal([]byte(body), &rows); err != nil || len(rows) < 40 {
		t.Fatal(err, len(rows))
	}
	i := -1
	for _, c := range tables.Cargo() {
		if c.Shape == "animal" { // no trailer for machines carries one
			continue
		}
		i++
		same(t, c.Class, rows[i], []any{compute.NameOf(c), float64(c.Weight.Low), float64(c.Typical), float64(c.Weight.High), float64(c.Length.High),
			float64(c.Center), float64(c.Margin), c.Front, c.Rear, c.Shape, float64(c.Length.Low), float64(c.Width.Low), float64(c.Width.High)})
	}
	if i+1 != len(rows) {
		t.Errorf("%d rows, want %d", len(rows), i+1)
	}
}

func TestAttribute(t *testing.T) {
	if got, err := Attribute([]any{1, "a<b", nil}); err != nil || got != `[1,"a\u003cb",null]` {
		t.Errorf("%s, %v", got, err)
	}
	if _, err := Attribute(func() {}); err == nil {
		t.Error("a function was written as JSON")
	}
}

// Chips of lengths and of axles that come in many sizes, as the page has them.
func TestManySizes(t *testing.T) {
	var files []string
	for i := range 20 {
		files = append(files, trailer("EX-1", fmt.Sprint("EX-", 10+i), "18 ft\n", fmt.Sprintf("%d ft\n", 10+i), "3,500 lb", fmt.Sprintf("%d lb", 2000+450*i)))
	}
	list := read(t, files...)
	if f := lengths(phrases.English, list); len(f.Chips) != 10 || f.Chips[0].Label != "10 to 11 ft" || f.Chips[9].Label != "28 to 29 ft" || f.of[19] != 9 {
		t.Errorf("lengths: %v", f)
	}
	if f := axles(phrases.English, list); len(f.Chips) != 9 || f.Chips[0].Label != "2,000 to 3,000 lb" || f.Chips[8].Label != "10,000 to 11,000 lb" {
		t.Errorf("axles: %v", f)
	}
}

func TestSuspension(t *testing.T) {
	one := read(t, trailer("  spacing: 34 in\n", "  spacing: 34 in\n  suspension: torsion\n"))[0]
	for _, row := range comparison {
		if row.name == "suspension" && row.of(&one) != "torsion" {
			t.Errorf("suspension %q", row.of(&one))
		}
	}
}

// columnOf reads a script of one column as the page does.
func columnOf(t *testing.T, text []byte, name string, into any) {
	t.Helper()
	body, ok := strings.CutPrefix(string(text), "COLUMN(")
	body, end := strings.CutSuffix(body, ");\n")
	var got []json.RawMessage
	if err := json.Unmarshal([]byte("["+body+"]"), &got); err != nil || !ok || !end || len(got) != 2 || string(got[0]) != `"`+name+`"` {
		t.Fatalf("%v: %.60s", err, text)
	}
	if err := json.Unmarshal(got[1], into); err != nil {
		t.Fatal(err)
	}
}

// What is loaded later is in the order of the trailers, and of 65 trailers the last has a file
// of details to itself.
func TestLater(t *testing.T) {
	list := read(t, trailer("stock: EX-1", "stock: EX-1\nserial: 0J9RP9K29T1644501\narrived: 2026-10-06"), trailer("EX-1", "EX-2"))
	list[0].Warnings = []string{"The tongue takes 500 lb."}
	for len(list) < detailsOf+1 {
		list = append(list, list[1])
	}
	serials, err := Serials(list)
	if err != nil {
		t.Fatal(err)
	}
	var texts []string
	columnOf(t, serials, "serials", &texts)
	same(t, "serials", texts[:2], []string{"0J9RP9K29T1644501", ""})
	days, err := Days(list)
	if err != nil {
		t.Fatal(err)
	}
	var numbers []int
	columnOf(t, days, "days", &numbers)
	same(t, "days", numbers[:2], []int{739894, 0}) // Python's datetime.date(2026, 10, 6).toordinal() is 739895; it counts from 1
	files, err := Details(list)
	if err != nil || len(files) != 2 {
		t.Fatalf("%v, %d files of details", err, len(files))
	}
	var first, last []detail
	columnOf(t, files[0], "details0", &first)
	columnOf(t, files[1], "details1", &last)
	same(t, "details", []int{len(first), len(last)}, []int{detailsOf, 1})
	// 500 lb are 226.796 kg.
	same(t, "cautions", first[0].Cautions, [][2]string{{"The tongue takes 500 lb.", "The tongue takes 227 kg."}})
	for i, f := range first[0].Figures {
		if f[0] == "" || f[1] == "" && !strings.HasSuffix(f[0], " degrees") {
			t.Errorf("there is no %s in the details: %q", comparedFigures[i].name, f)
		}
	}
}
