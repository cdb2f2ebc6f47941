package schemaorg_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"

	"tarepage/internal/compute"
	"tarepage/internal/schemaorg"
	"tarepage/internal/unit"
)

var update = flag.Bool("update", false, "write testdata/stated.txtar again")

const yardFile = `---
name: Example <Yard>
phone: 555-0100
email: yard@yard.example
street: 1 Example Road
town: Dunnock Gap
address: https://yard.example/a/
video-link: https://video.example/{id}?t={s}
as-of: 2026-11-20
---
`

const unitFile = `---
title: 7,000 lb equipment trailer
stock: EX-1
kind: equipment
make: Example Works
year: 2026
serial: 0J9RP1A35T1644345
condition: new
color: black
availability: on the yard
price: $5,200.50 (since 2026-11-12)
recording:
  id: walk-1
  length: 3:00
hitch:
  kind: bumper-pull
  ball: 2-5/16 in
  rating: 7,000 lb (stamped)
deck:
  length: 18 ft
  width: 82 in
  between-fenders: 80 in
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
  empty: about 2,000 lb (scale)
  tongue-empty: 260 lb (scale)
---

0:45 The **coupler** is tight; it is new.

1:10 It carries [?](worked:payload) on the deck

0:50 Back in time.

2:00 The rest. And more.

5:00 After the end.
`

// trailers are what the tests state: each is a change to unitFile and to what its page shows.
var trailers = []struct {
	name  string
	pairs []string
	page  func(*schemaorg.Trailer)
}{
	{"as it is", nil, func(t *schemaorg.Trailer) {
		t.Photos, t.Card = []string{"p/1.jpg", "p/2 b.jpg", "p/3.jpg", "p/4.jpg", "p/5.jpg"}, "s/card.jpg"
	}},
	{"video of its own", []string{"  id: walk-1\n", "  video: media/walk 1.mp4\n"}, func(t *schemaorg.Trailer) {
		t.Video, t.Poster = "media/walk 1.mp4", "p/1.jpg"
	}},
	{"sold, used, a serial of another form", []string{"on the yard", "sold", "condition: new", "condition: used", "0J9RP1A35T1644345", "TX-12 (state-assigned)"}, nil},
	{"on order, without a price or a recording", []string{"on the yard", "on order", "price: $5,200.50 (since 2026-11-12)\n", "arrived: 2026-12-15\n", "recording:\n  id: walk-1\n  length: 3:00\n", ""}, nil},
	{"expected", []string{"on the yard", "on order", "price: $5,200.50 (since 2026-11-12)\n", "price: $5,200\narrived: 2026-12-15\n"}, nil},
	{"enclosed", []string{"kind: equipment", "kind: enclosed", "deck:\n  length: 18 ft\n  width: 82 in\n  between-fenders: 80 in\n  height: 24 in\n  front: 5 ft\n",
		"box:\n  length: 16 ft\n  width: 82 in\n  height: 84 in\n  floor: 21 in\n  front: 4 ft\n"}, nil},
	{"a ball limits it", []string{"ball: 2-5/16 in\n", "ball: 2 in\n  ball-rating: 6,000 lb\n"}, nil},
	{"nearly nothing", []string{"make: Example Works\n", "", "year: 2026\n", "", "color: black\n", "", "serial: 0J9RP1A35T1644345\n", "", "  ball: 2-5/16 in\n", "", "  rating: 7,000 lb (stamped)\n", "",
		"  empty: about 2,000 lb (scale)\n", "", "  height: 24 in\n", "", "price: $5,200.50 (since 2026-11-12)\n", ""}, nil},
}

// read reads a yard with one unit.
func read(t *testing.T, yard, text string) (schemaorg.Yard, *schemaorg.Trailer) {
	t.Helper()
	stock, problems, err := unit.Read(fstest.MapFS{"content/yard.md": {Data: []byte(yard)}, "content/units/ex-1.md": {Data: []byte(text)},
		"content/media/walk 1.mp4": {Data: []byte("x")}})
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	return schemaorg.Yard{Yard: stock.Yard}, &schemaorg.Trailer{Unit: stock.Units[0], Work: compute.Stock(stock)[0], Terms: "as of today"}
}

func indented(t *testing.T, data []byte, err error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err == nil {
		err = json.Indent(&b, data, "", " ")
	}
	if err != nil {
		t.Fatal(err)
	}
	return append(b.Bytes(), '\n')
}

// TestStated holds what is stated, word for word. That the words are those of schema.org and
// that the page says the same is held in internal/render.
func TestStated(t *testing.T) {
	bare := strings.Replace(yardFile, "address: https://yard.example/a/\n", "", 1)
	got := new(txtar.Archive)
	add := func(name string, data []byte, err error) {
		got.Files = append(got.Files, txtar.File{Name: name, Data: indented(t, data, err)})
	}
	for _, y := range []struct{ name, file string }{{"", yardFile}, {", no address", bare}} {
		yard, _ := read(t, y.file, unitFile)
		data, err := yard.Page("how-we-figure.html", "How we figure")
		add("page"+y.name, data, err)
		data, err = yard.Page("", "Not here")
		add("page without a path"+y.name, data, err)
		data, err = yard.List("index.html", "Example", []string{"u/ex-1.html", "u/ex 2.html"})
		add("yard"+y.name, data, err)
		data, err = yard.List("kind-dump.html", "Dump", []string{"u/ex-1.html"})
		add("kind"+y.name, data, err)
		data, err = yard.List("kind-dump.html", "Dump", nil)
		add("empty kind"+y.name, data, err)
		list := trailers
		if y.file == bare {
			list = trailers[:2]
		}
		for _, c := range list {
			yard, one := read(t, y.file, strings.NewReplacer(c.pairs...).Replace(unitFile))
			if c.page != nil {
				c.page(one)
			}
			data, err := yard.Trailer(one)
			add(c.name+y.name, data, err)
		}
	}
	const file = "testdata/stated.txtar"
	if *update {
		if err := os.WriteFile(file, txtar.Format(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	held := map[string]string{}
	for _, f := range want.Files {
		held[f.Name] = string(f.Data)
	}
	for _, f := range got.Files {
		if held[f.Name] != string(f.Data) {
			t.Errorf("%s:\n%s\nwant\n%s", f.Name, f.Data, held[f.Name])
		}
	}
	if len(held) != len(got.Files) {
		t.Errorf("%d are held, %d are stated", len(held), len(got.Files))
	}
}

// What a page writes as a number becomes one only where nothing is lost (RFC 8259, 6: no
// leading zeros). The unit codes are those of UN/CEFACT Recommendation 20.
func TestNumbers(t *testing.T) {
	for text, want := range map[string]string{
		"8,500 lb (stamped)":    `"value":8500,"unitCode":"LBR","description":"stamped"`,
		"3,175 kg (stamped)":    `"value":3175,"unitCode":"KGM","description":"stamped"`,
		"about 7,000.5 lb":      `"value":7000.5,"unitCode":"LBR","description":"about"`,
		"about 7,000 lb (said)": `"value":7000,"unitCode":"LBR","description":"about, said"`,
		"7000 lbs":              `"value":7000,"unitCode":"LBR"`,
	} {
		yard, one := read(t, yardFile, strings.Replace(unitFile, "  rating: 7,000 lb (stamped)", "  rating: "+text, 1))
		data, err := yard.Trailer(one)
		if err != nil || !strings.Contains(string(data), `"name":"Coupler rating",`+want) {
			t.Errorf("%s: %v\n%s\nwant %s", text, err, data, want)
		}
	}
	for text, want := range map[string]string{"2-5/16 in": `"value":"2-5/16 in"}`, "50 mm": `"value":50,"unitCode":"MMT"}`} {
		yard, one := read(t, yardFile, strings.Replace(unitFile, "2-5/16 in", text, 1))
		data, _ := yard.Trailer(one)
		if !strings.Contains(string(data), `"name":"Ball",`+want) {
			t.Errorf("%s is not %s in %s", text, want, fmt.Sprintf("%.1500s", data))
		}
	}
}
