package spreadsheet

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/xuri/excelize/v2"

	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

const paper = `Quillfern Trailers,,,,,,,,
,,,,,,,,
Stock #,Type,Year,GVWR,Weight (lbs),Length (ft),Price,Status,Date In,Dealer Cost
SB-1,dump,2026,"14,000",4200,14,"$11,450",in stock,11/5/2026,8700
SB-2,utility,2025,2990 lb,,,2495.5,sale pending,2026-10-02,1900
`

func plan(t *testing.T, name string, data []byte, yard []*unit.Unit) Plan {
	t.Helper()
	table, err := Read(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return Make(table, Match(table.Header, nil), &unit.Stock{Units: yard}, nil)
}

// TestNewRows makes unit files of rows, and never takes a column that it does not know.
func TestNewRows(t *testing.T) {
	p := plan(t, "sheet.csv", []byte(paper), nil)
	if len(p.New) != 2 || len(p.Edits) != 0 || len(p.Faults) != 0 {
		t.Fatalf("%d new, %d edits, faults %v", len(p.New), len(p.Edits), p.Faults)
	}
	const want = `---
title: 14 ft dump trailer
stock: SB-1
kind: dump
year: 2026
availability: on the yard
price: $11,450
arrived: 2026-11-05
bed:
  length: 14 ft (yard's sheet)
weights:
  gvwr: 14,000 lb (yard's sheet)
  empty: 4,200 lb (yard's sheet)
---

## First look
`
	if got := string(p.New[0].Text); got != want || p.New[0].File != "content/units/sb-1.md" {
		t.Errorf("%s is\n%s\nwant\n%s", p.New[0].File, got, want)
	}
	if got := string(p.New[1].Text); !strings.Contains(got, "price: $2,495.50\navailability") && !strings.Contains(got, "price: $2,495.50") || !strings.Contains(got, "spoken for") {
		t.Errorf("the second row is\n%s", got)
	}
	for _, n := range p.New {
		if strings.Contains(string(n.Text), "8700") || strings.Contains(string(n.Text), "1900") {
			t.Errorf("what the yard paid is in the file:\n%s", n.Text)
		}
		if _, problems := unit.ReadUnit(n.File, n.Text); len(problems) > 0 {
			t.Errorf("%s does not read: %v", n.File, problems)
		}
	}
	if c := p.Columns[9]; c.Header != "Dealer Cost" || c.Key != "" {
		t.Errorf("the column of costs is taken as %q", c.Key)
	}
}

// TestLongCell: a quotation mark that is never closed makes one cell of all that follows it.
func TestLongCell(t *testing.T) {
	text := func(n int) []byte { return []byte("Stock,Words\nSB-1,\"" + strings.Repeat("9", n) + "\"\n") }
	if _, err := Read("most.csv", text(maxCell)); err != nil {
		t.Error(err)
	}
	if _, err := Read("long.csv", text(maxCell+1)); err == nil || !strings.Contains(err.Error(), "long.csv: the cell in row 2, column 2 holds 131073 bytes") {
		t.Errorf("%v", err)
	}
}

// TestFaults names bad rows and cells by row and column; the others go in.
func TestFaults(t *testing.T) {
	p := plan(t, "sheet.csv", []byte("Stock,Price,Length,Year,Date In\nSB-1,call me,20,2026,31/12/2026\n,5000,,,\nSB-1,$5,,,\nSB 2?,,,,\n"), nil)
	var got []string
	for _, f := range p.Faults {
		got = append(got, fmt.Sprintf("%d %s: %s", f.Row, f.Column, f.Reason))
	}
	want := []string{`2 Price: price "call me" cannot be read: "call me" is not a number; write $18,450; or leave the cell empty, and the page asks to call`, `2 Length: "20" has no unit; name the column Length (ft) or Length (in)`, "2 Date In: date \"31/12/2026\" does not read",
		"3 : it has no stock number", `4 : stock number "SB-1" is in row 2 too`, `5 : stock number "SB 2?" cannot name a page`}
	if len(got) != len(want) {
		t.Fatalf("faults are\n%s", strings.Join(got, "\n"))
	}
	for i := range want {
		if !strings.HasPrefix(got[i], want[i]) {
			t.Errorf("fault %d is %s, want %s", i, got[i], want[i])
		}
	}
	if len(p.New) != 1 || !strings.Contains(string(p.New[0].Text), "year: 2026") {
		t.Errorf("the good cells are not taken: %v", p.New)
	}
}

// yard reads a yard of made-up units.
func yard(t *testing.T, n int) []*unit.Unit {
	t.Helper()
	root := fstest.MapFS{}
	for _, f := range testyard.Yard(n) {
		root[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	stock, _, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	return stock.Units
}

// TestEdits changes a price and an availability of units that the yard has, and reports what
// it would change in what was read off the trailer.
func TestEdits(t *testing.T) {
	units := yard(t, 3)
	text := "stock,price,status,sold date,gvwr\n" +
		testyard.Stock(0) + ",\"$1,234\",,,\n" +
		strings.ToLower(testyard.Stock(1)) + ",,SOLD,2026-11-21,\n" +
		testyard.Stock(2) + ",,,,99999\n"
	p := plan(t, "sheet.csv", []byte(text), units)
	if len(p.New) != 0 || len(p.Edits) != 2 || len(p.Faults) != 1 {
		t.Fatalf("%+v", p)
	}
	if e := p.Edits[0]; e.Path != "price" || e.Value != "$1,234" || e.File != testyard.UnitFile(0) || e.Old == "" {
		t.Errorf("the price is %+v", e)
	}
	if e := p.Edits[1]; e.Path != "availability" || e.Value != "sold (since 2026-11-21)" {
		t.Errorf("the sale is %+v", e)
	}
	if f := p.Faults[0]; f.Column != "gvwr" || !strings.Contains(f.Reason, "a sheet does not change it") {
		t.Errorf("the rating is %+v", f)
	}
}

// TestWorkbook reads the same rows from a workbook, in which days and prices are numbers.
func TestWorkbook(t *testing.T) {
	f := excelize.NewFile()
	day := time.Date(2026, 11, 5, 0, 0, 0, 0, time.UTC)
	style, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	if err != nil {
		t.Fatal(err)
	}
	for cell, value := range map[string]any{"A1": "Stock", "B1": "Price", "C1": "Date In", "D1": "Empty (lb)", "A2": "SB-7", "B2": 11450.5, "C2": day, "D2": 4200} {
		if err := f.SetCellValue("Sheet1", cell, value); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SetCellStyle("Sheet1", "C2", "C2", style); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	p := plan(t, "stock.xlsx", b.Bytes(), nil)
	if len(p.New) != 1 || len(p.Faults) != 0 {
		t.Fatalf("%+v", p)
	}
	for _, want := range []string{"price: $11,450.50\n", "arrived: 2026-11-05\n", "empty: 4,200 lb (yard's sheet)\n"} {
		if !strings.Contains(string(p.New[0].Text), want) {
			t.Errorf("there is no %q in\n%s", want, p.New[0].Text)
		}
	}
}

// TestBlankCells: a small workbook whose rows all end in the last column that there is would take
// four gigabytes of blank cells.
func TestBlankCells(t *testing.T) {
	f := excelize.NewFile()
	rows, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	for n := range 620 {
		cell, values := "A1", []any{"Stock", "Price"}
		if n > 0 {
			cell, values = fmt.Sprintf("XFD%d", n+1), []any{" "}
		}
		if err := rows.SetRow(cell, values); err != nil {
			t.Fatal(err)
		}
	}
	var b bytes.Buffer
	if err := errors.Join(rows.Flush(), f.Write(&b)); err != nil {
		t.Fatal(err)
	}
	if _, err := Read("stock.xlsx", b.Bytes()); err == nil || !strings.Contains(err.Error(), "more than 10000000 cells up to row 612; copy the rows and columns") {
		t.Errorf("%v", err)
	}
}

// TestHostileWorkbook: a small file that unpacks to more than is read is refused by its cause, and so is one
// with more rows than are read. Neither takes memory for what it claims to hold. Before a push the bound is
// MaxUnpacked, and otherwise a lower one.
func TestHostileWorkbook(t *testing.T) {
	most := int64(8 << 20)
	read := func(data []byte) error {
		_, err := workbook(data, most)
		return err
	}
	if thorough.BeforePush() {
		most = MaxUnpacked
		read = func(data []byte) error {
			_, err := Read("a.xlsx", data)
			return err
		}
	}
	f := excelize.NewFile()
	var sound bytes.Buffer
	if err := f.Write(&sound); err != nil {
		t.Fatal(err)
	}
	in, err := zip.NewReader(bytes.NewReader(sound.Bytes()), int64(sound.Len()))
	if err != nil {
		t.Fatal(err)
	}
	// with writes the workbook again, with another first sheet.
	with := func(sheet func(w io.Writer)) []byte {
		var b bytes.Buffer
		out := zip.NewWriter(&b)
		for _, file := range in.File {
			w, err := out.Create(file.Name)
			if err != nil {
				t.Fatal(err)
			}
			if file.Name == "xl/worksheets/sheet1.xml" {
				sheet(w)
				continue
			}
			r, err := file.Open()
			if err != nil {
				t.Fatal(err)
			}
			if _, err := io.Copy(w, r); err != nil {
				t.Fatal(err)
			}
		}
		if err := out.Close(); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	const head = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>`
	for name, c := range map[string]struct {
		sheet func(w io.Writer)
		want  string
	}{
		"blanks": {func(w io.Writer) {
			blank := bytes.Repeat([]byte(" "), 1<<20)
			_, _ = io.WriteString(w, head)
			for range most>>20 + 1 {
				_, _ = w.Write(blank)
			}
			_, _ = io.WriteString(w, `</sheetData></worksheet>`)
		}, "a tag or a text in it is too long"},
		"blanks between tags": {func(w io.Writer) {
			blank := append(bytes.Repeat([]byte(" "), 1<<20), "<b/>"...)
			_, _ = io.WriteString(w, head)
			for range most>>20 + 1 {
				_, _ = w.Write(blank)
			}
			_, _ = io.WriteString(w, `</sheetData></worksheet>`)
		}, "does not open as a workbook"},
		// Two million elements in 7 KB took 15 seconds and 258 MB when all of them were kept open.
		"deep": {func(w io.Writer) {
			_, _ = w.Write(bytes.Repeat([]byte("<a>"), 2_000_000))
		}, "sheet1.xml\": its elements are nested more than 64 deep"},
		"attributes": {func(w io.Writer) {
			_, _ = io.WriteString(w, `<worksheet`)
			_, _ = w.Write(bytes.Repeat([]byte(` b=">"`), 1_000_000))
			_, _ = io.WriteString(w, `/>`)
		}, "a tag or a text in it is too long"},
		"in another writing": {func(w io.Writer) {
			_, _ = io.WriteString(w, `<?xml version="1.0" encoding="windows-1252"?>`+head+`</sheetData></worksheet>`)
		}, `not written in UTF-8 but in: "windows-1252"`},
		"rows": {func(w io.Writer) {
			_, _ = io.WriteString(w, head)
			for i := range maxRows + 1 {
				fmt.Fprintf(w, `<row r="%d"><c r="A%d"><v>1</v></c><c r="B%d"><v>1</v></c></row>`, i+1, i+1, i+1)
			}
			_, _ = io.WriteString(w, `</sheetData></worksheet>`)
		}, "more than 20000 rows"},
		"a row far below": {func(w io.Writer) {
			_, _ = io.WriteString(w, head+`<row r="1048576"><c r="A1048576"><v>1</v></c></row></sheetData></worksheet>`)
		}, "more than 20000 rows"},
	} {
		data := with(c.sheet)
		if len(data) > 2<<20 {
			t.Errorf("%s: the file has %d bytes; it should be small", name, len(data))
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		err := read(data)
		runtime.ReadMemStats(&after)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
		if grown := after.TotalAlloc - before.TotalAlloc; grown > 3*MaxUnpacked {
			t.Errorf("%s took %d MB", name, grown>>20)
		}
	}
}

// TestUnreadable refuses what is not a sheet, by its cause.
func TestUnreadable(t *testing.T) {
	for name, c := range map[string]struct{ data, want string }{
		"sheet.pdf":  {"%PDF", "is not a sheet"},
		"bad.xlsx":   {"PK\x03\x04 not really", "does not open as a workbook"},
		"old.xlsx":   {"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 more", "it is an older workbook (.xls) with another ending, or it has a password; open it in the program that made it, and save it again as .xlsx or .csv, without a password"},
		"text.xlsx":  {"Stock,Price\n", "it is not a workbook, although its name says so; open it in the program that made it, and save it again as .xlsx or .csv"},
		"half.xlsx":  {"PK\x03\x04", "it may be damaged or half copied: copy it again, or open it"},
		"empty.csv":  {"", "no row with the names of the columns"},
		"wide.csv":   {strings.Repeat("stock,", maxColumns) + "price\n", "row 1 has something in column 501; at most 500 columns are read"},
		"far.csv":    {"stock,price\nA-1" + strings.Repeat(",", maxColumns) + "x\n", "row 2 has something in column 501"},
		"blank.csv":  {strings.Repeat(strings.Repeat(",", maxCells/1000)+"\n", 1001), "more than 10000000 cells up to row 1000; copy"},
		"narrow.csv": {"one\ntwo\n", "no row with the names of the columns"},
	} {
		if _, err := Read(name, []byte(c.data)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestUnheaded: a sheet without headings is told once which row was taken for them, and what to do.
func TestUnheaded(t *testing.T) {
	const rows = "T-1,dump,$11450\nT-2,utility,$2450\nT-3,dump,$9000\n"
	p := plan(t, "a.csv", []byte(",,\n"+rows), nil)
	if len(p.Faults) != 1 || p.Faults[0].Row != 2 || !strings.Contains(p.Faults[0].Reason, "this row was taken for the headings, and none of them is the column of the stock number") {
		t.Errorf("%+v", p.Faults)
	}
	if p := plan(t, "a.csv", []byte("Stock,Type,Price\n"+rows), nil); len(p.Faults) != 0 || len(p.New) != 3 {
		t.Errorf("with headings: %v", p.Faults)
	}
	table, err := Read("a.csv", []byte(rows))
	if err != nil {
		t.Fatal(err)
	}
	if p := Models(table, Match(table.Header, nil), new(unit.Stock), nil); len(p.Faults) != 1 || !strings.Contains(p.Faults[0].Reason, "the column of the model") {
		t.Errorf("a maker's: %v", p.Faults)
	}
}

// TestSeparators reads the same cells between commas, semicolons and tabs.
func TestSeparators(t *testing.T) {
	for _, mark := range []string{",", ";", "\t"} {
		text := "\ufeff" + strings.ReplaceAll("Stock|Price|Color\n\nSB-1|100|red\n", "|", mark)
		table, err := Read("a.csv", []byte(text))
		if err != nil || len(table.Header) != 3 || len(table.Rows) != 1 || table.Rows[0].Number != 3 || table.Rows[0].Cell(2) != "red" {
			t.Errorf("%q: %+v, %v", mark, table, err)
		}
	}
}

// TestMatch holds that each word is for one key that exists, and that units and numbers are
// read from headers.
func TestMatch(t *testing.T) {
	keys, seen := keyDocs(), map[string]string{}
	for key, names := range words {
		if _, ok := keys[key]; !ok {
			t.Errorf("there is no key %s", key)
		}
		for _, n := range names {
			if seen[n] != "" {
				t.Errorf("%q is for %s and for %s", n, seen[n], key)
			}
			seen[n] = key
		}
	}
	got := Match([]string{"Stk #", "GVWR (lbs.)", "deck-length-ft", "Price", "Our price", "price-since", "Floor plan", "Width, in"}, map[string]string{"Floor plan": "color", "Width, in": "-"})
	want := []Column{{"Stk #", "stock", "", false}, {"GVWR (lbs.)", "weights.gvwr", "lb", false}, {"deck-length-ft", "deck.length", "ft", false}, {"Price", "price", "", false},
		{"Our price", "", "", false}, {"price-since", "price", "", true}, {"Floor plan", "color", "", false}, {"Width, in", "", "in", false}}
	if !slices.Equal(got, want) {
		t.Errorf("columns are\n%v\nwant\n%v", got, want)
	}
}

// TestKept reads back what was kept, and names the line of a wrong key.
func TestKept(t *testing.T) {
	columns := Match([]string{"Stock", "Price -> cash", "Dealer Cost", "price since"}, nil)
	columns[1].Key = "price"
	kept, err := ParseKept(KeptName, keepColumns(columns, map[string]string{"Floor plan": "color"}))
	if err != nil || len(kept) != 4 || kept["Floor plan"] != "color" || kept["Price -> cash"] != "price" || kept["Dealer Cost"] != "-" {
		t.Errorf("%v, %v", kept, err)
	}
	for text, want := range map[string]string{"Stock": "no arrow", "Stock -> stok": "did you mean stock?", "A -> weights": `no key "weights"`} {
		if _, err := ParseKept(KeptName, []byte("# x\n"+text)); err == nil || !strings.Contains(err.Error(), "columns.txt:2: ") || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// TestHeadingWithANumberSign: "# Axles" is a column, also as its owner corrects it; a comment is not.
func TestHeadingWithANumberSign(t *testing.T) {
	columns := Match([]string{"Stock", "# Axles", "# in yard"}, nil)
	text := string(keepColumns(columns, nil)) + "# a note -> of the owner\n#\n"
	kept, err := ParseKept(KeptName, []byte(strings.Replace(text, "# in yard -> -", "# in yard -> color", 1)))
	if err != nil || len(kept) != 3 || kept["# Axles"] != "axles.count" || kept["# in yard"] != "color" {
		t.Errorf("%v, %v", kept, err)
	}
	if c := Match([]string{"# in yard"}, kept); c[0].Key != "color" {
		t.Errorf("the corrected column is %+v", c)
	}
	if _, err := ParseKept(KeptName, []byte("# Axles -> axels.count")); err == nil || !strings.Contains(err.Error(), "did you mean axles.count?") {
		t.Errorf("%v", err)
	}
}

// TestLacks: a column that is put right later fills nothing in a file that is there, and that is said.
func TestLacks(t *testing.T) {
	u, problems := unit.ReadUnit("content/units/t-1.md", []byte("---\nstock: T-1\nkind: dump\nprice: $9,000\nbed:\n  length: 14 ft\n---\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p := plan(t, "a.csv", []byte("Stock,Make,Length (ft),Width (in),Price,Status,Type\nT-1,Oxbow,14,83,9000,lot,dump\n"), []*unit.Unit{u})
	if !slices.Equal(p.Lacking, []string{"T-1"}) || !slices.Equal(p.LackedKeys, []string{"bed.width", "make"}) || len(p.Edits) != 1 || len(p.Faults) != 0 {
		t.Errorf("%+v", p)
	}
}

// BenchmarkFiveHundredRows reads and plans a sheet of 500 new rows.
func BenchmarkFiveHundredRows(b *testing.B) {
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	_ = w.Write([]string{"Stock", "Type", "Year", "GVWR", "Weight", "Price", "Status", "Date In"})
	for i := range 500 {
		_ = w.Write([]string{fmt.Sprintf("SB-%d", i), "dump", "2026", "14000", "4200", "$11,450", "in stock", "11/5/2026"})
	}
	w.Flush()
	for b.Loop() {
		table, err := Read("a.csv", text.Bytes())
		if err != nil {
			b.Fatal(err)
		}
		if p := Make(table, Match(table.Header, nil), new(unit.Stock), nil); len(p.New) != 500 {
			b.Fatal(p.Faults)
		}
	}
}

// One column of a sheet holds what people call a trailer.
func TestKindIn(t *testing.T) {
	for cell, want := range map[string]string{
		"Gooseneck deck over": "deck-over", "Tandem Axle Dump Trailer": "dump", "Low-profile dump": "dump", "Utility": "utility",
		"bumper pull car hauler": "car-hauler", "Enclosed Cargo": "enclosed", "Trailer": "", "gooseneck": "", "lawn mower": "",
		"low boy": "lowboy", "Stock Trailer": "livestock", "ATV": "atv-snowmobile",
	} {
		if got := kindIn(cell); got != want {
			t.Errorf("%q is %q, want %q", cell, got, want)
		}
	}
}

// Everyday words of the unit file name columns too, but never for words or prices, and a column
// that only resembles a key leaves it to one that names it.
func TestEverydayColumns(t *testing.T) {
	header := []string{"Coupler", "Coupler Rating", "Spare Size", "Payload", "Cash", "Notes", "Tires per axle", "Breakaway", "Hold", "Amount", "Floor"}
	want := []string{"", "hitch.rating", "", "claimed.payload", "", "", "tires.per-axle", "brakes.breakaway", "", "", ""}
	for i, c := range Match(header, nil) {
		if c.Key != want[i] {
			t.Errorf("%s is %q, want %q", c.Header, c.Key, want[i])
		}
	}
}

// A ball is named by its inches, whatever its column is called.
func TestBalls(t *testing.T) {
	for cell, want := range map[string]string{"2-5/16": "2-5/16 in", "2 5/16": "2-5/16 in", "2": "2 in", "2-5/16 in": "2-5/16 in", "2-5/16\"": "2-5/16\""} {
		p := plan(t, "a.csv", []byte("Stock,Ball\nSB-1,\""+strings.ReplaceAll(cell, `"`, `""`)+"\"\n"), nil)
		if len(p.New) != 1 || len(p.Faults) > 0 || !strings.Contains(string(p.New[0].Text), "ball: "+want) {
			t.Errorf("%s: %v\n%s", cell, p.Faults, p.New[0].Text)
		}
	}
}

// A unit that has its model by the maker's name takes its values from the maker's sheet; a model
// that is there is not changed, and what differs is named.
func TestModels(t *testing.T) {
	root := fstest.MapFS{
		"content/yard.md":         {Data: []byte("---\nname: A\n---\n")},
		"content/units/a.md":      {Data: []byte("---\nstock: SB-1\nmodel: DT-14\n---\n")},
		"content/units/b.md":      {Data: []byte("---\nstock: SB-2\nmodel: RG-35\n---\n")},
		"content/models/eq-20.md": {Data: []byte("---\nkind: equipment\nweights:\n  gvwr: 14,000 lb (maker's sheet)\n---\n")},
	}
	stock, _, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	table, err := Read("a.csv", []byte("Model,Type,GVWR,Stock,Price\nDT-14,dump,14000,X-1,9999\nEQ 20,equipment,15000,,8888\n#,dump,1,,\nDT 14,dump,14000,,\n"))
	if err != nil {
		t.Fatal(err)
	}
	p := Models(table, Match(table.Header, nil), stock, nil)
	if len(p.New) != 1 || p.New[0].File != "content/models/dt-14.md" || strings.Contains(string(p.New[0].Text), "9,999") || strings.Contains(string(p.New[0].Text), "stock") {
		t.Errorf("new are %+v", p.New)
	}
	if len(p.Edits) != 1 || p.Edits[0].File != "content/units/a.md" || p.Edits[0].Path != "model" || p.Edits[0].Value != "dt-14" {
		t.Errorf("edits are %+v", p.Edits)
	}
	want := []string{"weights.gvwr is 14,000 lb in content/models/eq-20.md and 15,000 lb in the sheet", `model "#" cannot name a file`, `model "DT 14" is in row 2 too`}
	if len(p.Faults) != len(want) {
		t.Fatalf("faults are %+v", p.Faults)
	}
	for i, f := range p.Faults {
		if !strings.HasPrefix(f.Reason, want[i]) {
			t.Errorf("fault %d is %q, want %q", i, f.Reason, want[i])
		}
	}
}

// Many yards write the load range after the size of the tire.
func TestSizeAndLoadRange(t *testing.T) {
	for cell, want := range map[string]string{"ST235/80R16 E": "E", "ST235/80R16 LRE": "E", "ST235/80R16 (G)": "G", "ST235/80R16 load range f": "F", "ST235/80R16": "",
		"ST235/80R16 10 ply": ""} {
		p := plan(t, "a.csv", []byte("Stock,Tires\nSB-1,"+cell+"\n"), nil)
		text := string(p.New[0].Text)
		split := strings.Contains(text, "  size: ST235/80R16\n") && strings.Contains(text, "  load-range: "+want+"\n")
		if want != "" && !split || want == "" && strings.Contains(text, "load-range") {
			t.Errorf("%s makes\n%s", cell, text)
		}
	}
}

// TestPriceIn: a unit at the end of a header fits the kind of the key. What the yard paid is not
// its price in inches.
func TestPriceIn(t *testing.T) {
	for header, want := range map[string]string{
		"Price in": "", "Price In": "", "Price (in)": "", "GVWR ft": "", "Title lb": "", "Deck length psi": "",
		"Price ($)": "price", "GVWR (lb)": "weights.gvwr", "Deck length in": "deck.length", "Date In": "arrived",
	} {
		if got := Match([]string{header}, nil)[0].Key; got != want {
			t.Errorf("%q is taken as %q, want %q", header, got, want)
		}
	}
}
