package stockfile_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"io/fs"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"tarepage/internal/compute"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// bare is a trailer with few values, and with words that a spreadsheet would run.
const bare = `---
title: '=HYPERLINK("https://bad.example","7 ft, ""wide""")'
stock: EX-1
kind: utility
make: "@SUM(A1)"
color: "-1+1"
condition: used
availability: on the yard
hitch:
  kind: bumper-pull
axles:
  count: 1
  rating: 1,588 kg
tires:
  size: ST205/75R15
  per-axle: 2
weights:
  gvwr: about 2,990 lb (tag)
  empty: 700.5 lb
deck:
  width: 2-5/16 in (tape)
tie-downs:
  - stake pockets: 6
  - d-rings: 4 at 3,333 lb (stamp)
lights:
  clearance: 0
  conspicuity: no
relabeled: 2026-11-05
withhold: it is only a test
---
`

// yard is a stock as it is published.
type yard struct {
	Yard  *unit.Yard
	Units []stockfile.Unit
}

// written is one of the files of a stock.
func written(l *yard, path string) ([]byte, error) {
	if path == stockfile.SchemaPath {
		return stockfile.Schema()
	}
	files := map[string]*bytes.Buffer{}
	w, err := stockfile.NewWriter(l.Yard, func(path string) (io.Writer, error) {
		files[path] = new(bytes.Buffer)
		return files[path], nil
	})
	if err != nil {
		return nil, err
	}
	for i := range l.Units {
		lines, err := w.Lines(&l.Units[i])
		if err != nil {
			return nil, err
		}
		if _, err := w.Add(lines); err != nil {
			return nil, err
		}
	}
	err = w.End()
	return files[path].Bytes(), err
}

func read(t *testing.T, root fs.FS) *yard {
	t.Helper()
	stock, _, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	l := &yard{Yard: stock.Yard}
	for _, w := range compute.Stock(stock) {
		l.Units = append(l.Units, stockfile.Unit{Work: w, Page: "u/" + strings.ToLower(w.Unit.Stock.Value) + ".html", Cautions: []string{"wide, \"very\"\nwide"}})
	}
	return l
}

func example(t *testing.T) *yard {
	return read(t, fstest.MapFS{
		"content/yard.md":       {Data: []byte("---\nname: Example & Sons\nas-of: 2026-11-20\n---\n")},
		"content/units/ex-1.md": {Data: []byte(bare)},
	})
}

// TestSchemaTakesTheStock validates stock.json against its schema with an independent validator,
// github.com/santhosh-tekuri/jsonschema, which also checks formats: the demo, and a trailer
// with few values. Then it makes mistakes, and the schema has to refuse them.
func TestSchemaTakesTheStock(t *testing.T) {
	for name, l := range map[string]*yard{"demo": read(t, os.DirFS("../..")), "bare": example(t)} {
		text, err := written(l, "stock.schema.json")
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		c := jsonschema.NewCompiler()
		c.AssertFormat()
		if err := c.AddResource("https://schema.example/stock", doc); err != nil {
			t.Fatal(err)
		}
		schema, err := c.Compile("https://schema.example/stock")
		if err != nil {
			t.Fatal(err)
		}
		stock, err := written(l, "stock.json")
		if err != nil {
			t.Fatal(err)
		}
		valid := func(text []byte) error {
			v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
			if err != nil {
				t.Fatal(err)
			}
			return schema.Validate(v)
		}
		if err := valid(stock); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, wrong := range [][2]string{
			{`"weights.gvwr":{"value":`, `"weights.gvwr":{"value":0,"was":`},
			{`"unit":"lb"`, `"unit":"kg"`},
			{`"from":"worked out"`, `"from":"guessed"`},
			{`"condition":"used"`, `"condition":"worn"`},
			{`"as-of": "2026-11-20"`, `"as-of": "November"`},
			{`"stated":{`, `"stated":{"axels.count":{"value":2},`},
		} {
			if bad := strings.Replace(string(stock), wrong[0], wrong[1], 1); bad == string(stock) {
				t.Errorf("%s: %s is not in it", name, wrong[0])
			} else if valid([]byte(bad)) == nil {
				t.Errorf("%s: the schema takes %s", name, wrong[1])
			}
		}
		again, _ := written(l, "stock.json")
		if !bytes.Equal(stock, again) {
			t.Errorf("%s: two writings differ", name)
		}
	}
}

type list struct {
	Units []struct {
		Stock, Title string
		Price        *struct {
			Amount float64
		}
		Stated  map[string]struct{ Value, Unit, Text, From, About any }
		Figures map[string]struct {
			Value         float64
			Unit, Working string
			From          string
			About         bool
		}
	}
}

func parsed(t *testing.T, l *yard) (out list) {
	t.Helper()
	text, err := written(l, "stock.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestMissingIsAbsent compares the numbers of one trailer with its file, and checks that nothing
// else is there: no price, no payload of an unknown kind, no zero.
func TestMissingIsAbsent(t *testing.T) {
	u := parsed(t, example(t)).Units[0]
	if u.Price != nil {
		t.Errorf("a price that nobody gave: %+v", u.Price)
	}
	if g := u.Stated["weights.gvwr"]; g.Value != 2990.0 || g.Unit != "lb" || g.From != "tag" || g.About != true || g.Text != "about 2,990 lb" {
		t.Errorf("gvwr %+v", g)
	}
	if g := u.Stated["weights.empty"]; g.Value != 700.5 || g.From != nil || g.About != nil {
		t.Errorf("empty %+v", g)
	}
	// 1,588 kg / 0.45359237 (NIST Handbook 44, Appendix C: exact).
	if v := u.Stated["axles.rating"].Value.(float64); math.Abs(v-1588/0.45359237) > 1e-6 || u.Stated["axles.rating"].Text != "1,588 kg" {
		t.Errorf("axle rating %+v", u.Stated["axles.rating"])
	}
	if v := u.Stated["deck.width"]; v.Value != 2.3125 || v.Unit != "in" || v.Text != "2-5/16 in" {
		t.Errorf("deck width %+v", v)
	}
	if v := u.Stated["tie-downs.d-rings.rating"]; v.Value != 3333.0 || v.From != "stamp" {
		t.Errorf("d-rings %+v", v)
	}
	// A zero and a no that somebody stated are values.
	if u.Stated["lights.clearance"].Value != 0.0 || u.Stated["lights.conspicuity"].Value != false {
		t.Errorf("lamps %+v, tape %+v", u.Stated["lights.clearance"], u.Stated["lights.conspicuity"])
	}
	if v := u.Stated["relabeled"].Value; v != "2026-11-05" {
		t.Errorf("relabeled %v", v)
	}
	for _, path := range []string{"weights.tongue-empty", "deck.length", "deck.height", "hitch.rating", "withhold", "title", "price"} {
		if v, ok := u.Stated[path]; ok {
			t.Errorf("%s is there: %+v", path, v)
		}
	}
	// 2,990 - 700.5 = 2,289.5, a limit: down to the pound (49 CFR 567.4(g)(3)).
	if f := u.Figures["tag-payload"]; f.Value != 2289 || !f.About || f.Working == "" || f.From != "worked out" {
		t.Errorf("tag-payload %+v", f)
	}
	for _, name := range []string{"deck-length", "tongue-at-gvwr", "loading-angle"} {
		if f, ok := u.Figures[name]; ok {
			t.Errorf("%s is there: %+v", name, f)
		}
	}
}

// TestTableReadsBack reads the table with encoding/csv and compares every number with
// stock.json: both forms of one stock say the same.
func TestTableReadsBack(t *testing.T) {
	for name, l := range map[string]*yard{"demo": read(t, os.DirFS("../..")), "bare": example(t)} {
		text, err := written(l, "stock.csv")
		if err != nil {
			t.Fatal(err)
		}
		// RFC 4180, 2: every line ends in CRLF, all have as many fields as the header.
		if bytes.Count(text, []byte("\r\n")) < len(l.Units)+1 || bytes.HasPrefix(text, []byte("\xef\xbb\xbf")) || !bytes.HasSuffix(text, []byte("\r\n")) {
			t.Errorf("%s: not the form of RFC 4180", name)
		}
		rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		if err != nil || len(rows) != len(l.Units)+1 {
			t.Fatalf("%s: %d rows, %v", name, len(rows), err)
		}
		at := map[string]int{}
		for i, c := range rows[0] {
			at[c] = i
		}
		stock := parsed(t, l)
		for i, u := range stock.Units {
			row := rows[i+1]
			if row[at["stock"]] != u.Stock || row[at["title"]] != u.Title {
				t.Errorf("%s: row %d is %s, %q", name, i, row[at["stock"]], row[at["title"]])
			}
			for column, path := range map[string]string{"gvwr-lb": "weights.gvwr", "empty-lb": "weights.empty", "axle-rating-lb": "axles.rating",
				"coupler-rating-lb": "hitch.rating", "ball-in": "hitch.ball", "deck-width-in": "deck.width", "deck-height-in": "deck.height", "axles-count": "axles.count"} {
				s, ok := u.Stated[path]
				same(t, u.Stock, column, row[at[column]], s.Value, ok)
			}
			for column, figure := range map[string]string{"payload-lb": "payload", "working-payload-lb": "working-payload",
				"tongue-at-gvwr-lb": "tongue-at-gvwr", "deck-length-ft": "deck-length", "loading-angle-degrees": "loading-angle"} {
				f, ok := u.Figures[figure]
				same(t, u.Stock, column, row[at[column]], f.Value, ok)
			}
			price := any(nil)
			if u.Price != nil {
				price = u.Price.Amount
			}
			same(t, u.Stock, "price-usd", row[at["price-usd"]], price, u.Price != nil)
			for c, i := range at {
				number, from := row[i], strings.HasSuffix(c, "-from")
				if from && (number == "") != (row[i-1] == "") {
					t.Errorf("%s: %s is %q next to %q: a number and its source go together", u.Stock, c, number, row[i-1])
				}
			}
		}
	}
}

func same(t *testing.T, stock, column, cell string, want any, there bool) {
	t.Helper()
	if !there {
		if cell != "" {
			t.Errorf("%s: %s is %q, and nobody knows it", stock, column, cell)
		}
		return
	}
	got, err := strconv.ParseFloat(cell, 64)
	if err != nil || got != want.(float64) {
		t.Errorf("%s: %s is %q, stock.json has %v", stock, column, cell, want)
	}
}

// TestSpreadsheetRunsNothing: no cell begins with what a spreadsheet takes for a formula
// (OWASP, CSV Injection), and without the apostrophes it is the same table.
func TestSpreadsheetRunsNothing(t *testing.T) {
	l := example(t)
	u := l.Units[0].Work.Unit
	u.Title.Value = "＝1+1"
	l.Units[0].Page = " =cmd"
	l.Units[0].Cautions = []string{"+1 ft", "x"}
	safe, err := written(l, "stock-spreadsheet.csv")
	if err != nil {
		t.Fatal(err)
	}
	text, _ := written(l, "stock.csv")
	rest, marked := bytes.CutPrefix(safe, []byte("\xef\xbb\xbf"))
	if !marked {
		t.Error("a spreadsheet does not know that it is UTF-8")
	}
	cells, err := csv.NewReader(bytes.NewReader(rest)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	as, _ := csv.NewReader(bytes.NewReader(text)).ReadAll()
	changed := 0
	for i := range cells {
		for j, c := range cells[i] {
			if _, err := strconv.ParseFloat(c, 64); err != nil && strings.ContainsAny(strings.TrimLeft(c, " ")[:min(1, len(strings.TrimLeft(c, " ")))], "=+-@\t\r") {
				t.Errorf("the cell %q runs", c)
			}
			if c != as[i][j] {
				changed++
				if c != "'"+as[i][j] {
					t.Errorf("the cell %q was %q", c, as[i][j])
				}
			}
		}
	}
	// Title, page, make, color and cautions.
	if changed != 5 {
		t.Errorf("%d cells were made safe, want 5", changed)
	}
}
