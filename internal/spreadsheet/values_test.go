package spreadsheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/unit"
)

func docOf(t *testing.T, key string) unit.KeyDoc {
	t.Helper()
	for _, d := range unit.Keys() {
		if d.Path == key {
			return d
		}
	}
	t.Fatalf("there is no key %s", key)
	return unit.KeyDoc{}
}

// TestValues: cells of each kind as a unit file has them, and the cells that are refused. A
// workbook counts days from 1900: 32874 is January 1, 1990, 45000 is March 15, 2023 and 73051 is
// January 1, 2100 (ECMA-376 part 1, 18.17.4.1).
func TestValues(t *testing.T) {
	for _, c := range []struct{ key, unit, cell, want string }{
		{"price", "", "5200", "$5,200"},
		{"price", "", "$1,234.567", "$1,234.57"},
		{"price", "", "999", "$999"},
		{"price", "", "1000000.5", "$1,000,000.50"},
		{"price", "", "100", "$100"},
		{"price", "", "99", "! very little for a trailer's price; write it in full, 99,000"},
		{"price", "", "1", "! very little"}, // a workbook keeps yes as 1
		{"price", "", "2.190,50", "! commas or points in the wrong places"},
		{"price", "", "1,5", "! commas or points in the wrong places"},
		{"price", "", "$18,45", "! commas or points in the wrong places"},
		{"price", "", "2,190.50", "$2,190.50"},
		{"price", "", "12,190", "$12,190"},
		{"price", "", "1.2E4", "! shortened"},
		{"price", "", "1e400", "! shortened"},
		{"weights.gvwr", "", "14,00", "! commas or points in the wrong places"},
		{"weights.gvwr", "", "14.000,5 kg", "! commas or points in the wrong places"},
		{"weights.gvwr", "", "14,000 lb", "14,000 lb"},
		{"deck.length", "ft", "6,5", "! commas or points in the wrong places"},
		{"axles.count", "", "2,0", "! commas or points in the wrong places"},
		{"serial", "", "1.23456789012346E+16", "! shortened; make the column text"},
		{"serial", "", "1.23456789012346e+16", "! shortened; make the column text"},
		{"serial", "", "0J9RP3C12T2644207", "0J9RP3C12T2644207"},
		{"color", "", "red, white", "red, white"},
		{"price", "", "2.300", "! write 2,300 with a comma"},
		{"price", "", "$12.950", "! write 12,950 with a comma"},
		{"price", "", "230.30", "$230.30"},
		{"condition", "", "demo", "! write new or used"},
		{"condition", "", "Like new", "! write new or used"},
		{"condition", "", "Pre-owned", "used"},
		{"condition", "", "NEW", "new"},
		{"price", "", "0", "0"},
		{"price", "", "call", "call"},
		{"weights.gvwr", "", "14000", "14,000 lb"},
		{"weights.gvwr", "kg", "3500", "3,500 kg"},
		{"weights.gvwr", "", "7,000.25", "7,000.25 lb"},
		{"weights.gvwr", "", "14", "! very little"},
		{"weights.gvwr", "kg", "45.4", "! very little"},
		{"weights.gvwr", "kg", "46", "46 kg"}, // 101.4 lb (NIST SP 811: 1 lb is 0.45359237 kg)
		{"weights.gvwr", "", "99", "! write 99 lb"},
		{"weights.gvwr", "", "100", "100 lb"},
		{"axles.count", "", "2", "2"},
		{"axles.count", "", "2.0", "2"},
		{"deck.length", "ft", "18", "18 ft"},
		{"deck.length", "ft", "18.25", "18.25 ft"},
		{"deck.length", "in", "82 1/2", "82-1/2 in"},
		{"deck.length", "", "18", "! has no unit"},
		{"deck.length", "", "18 ft", "18 ft"},
		{"hitch.ball", "", "2-5/16", "2-5/16 in"},
		{"hitch.ball", "", "2", "2 in"},
		{"arrived", "", "45000", "2023-03-15"},
		{"arrived", "", "45000.75", "2023-03-15"},
		{"arrived", "", "32874", "1990-01-01"},
		{"arrived", "", "32873", "!"},
		{"arrived", "", "73050", "2099-12-31"},
		{"arrived", "", "73051", "!"},
		{"arrived", "", "2026-11-05", "2026-11-05"},
		{"arrived", "", "2026-11-05T00:00:00", "2026-11-05"},
		{"arrived", "", "11/5/2026", "2026-11-05"},
		{"arrived", "", "soon", "!"},
		{"kind", "", "Gooseneck dump trailer", "dump"},
		{"kind", "", "spaceship", "spaceship"},
		{"condition", "", "NEW", "new"},
		{"color", "", "Plum", "Plum"},
	} {
		got, err := Column{Header: "H", Key: c.key, Unit: c.unit}.value(c.cell, docOf(t, c.key))
		if want, refused := strings.CutPrefix(c.want, "!"); refused {
			if err == nil || !strings.Contains(err.Error(), strings.TrimSpace(want)) {
				t.Errorf("%s %q: %q, %v", c.key, c.cell, got, err)
			}
		} else if err != nil || got != c.want {
			t.Errorf("%s %q: %q, %v, want %q", c.key, c.cell, got, err, c.want)
		}
	}
	for v, want := range map[float64]string{0: "0", 12: "12", 999: "999", 1000: "1,000", 1234567: "1,234,567", 1234.5: "1,234.50", 999999.99: "999,999.99"} {
		if got := thousands(v); got != want {
			t.Errorf("%v is written %s", v, got)
		}
	}
	for _, c := range []struct{ key, value, want string }{{"year", "2024", ""}, {"year", "soon", "!"}, {"weights.gvwr", "unknown: no label", "! is not a value for weights.gvwr"}, {"no-such-key", "1", "!"}} {
		g, err := parsed(c.key, c.value)
		if want, refused := strings.CutPrefix(c.want, "!"); refused != (err != nil) || refused && !strings.Contains(err.Error(), strings.TrimSpace(want)) {
			t.Errorf("%s %q: %+v, %v", c.key, c.value, g, err)
		}
	}
}

// TestFitting counts the cells of all rows, and the columns of each up to the last that holds
// something.
func TestFitting(t *testing.T) {
	row := func(n int) []string { return append(make([]string, n-1), "x") }
	var all extent
	if got, err := fitting(append(row(maxColumns), " ", "\t"), 3, &all); err != nil || len(got) != maxColumns || all.cells != maxColumns+2 {
		t.Errorf("%d cells of %d, %v", len(got), all.cells, err)
	}
	if _, err := fitting(row(maxColumns+1), 3, &all); err == nil || !strings.Contains(err.Error(), "row 3 has something in column") {
		t.Errorf("%v", err)
	}
	all = extent{cells: maxCells - 2}
	if _, err := fitting(row(2), 4, &all); err != nil {
		t.Errorf("as many cells as can be: %v", err)
	}
	if _, err := fitting(row(1), 5, &all); err == nil || !strings.Contains(err.Error(), "up to row 5") {
		t.Errorf("one more: %v", err)
	}
	if got, err := fitting([]string{" ", ""}, 1, new(extent)); err != nil || len(got) != 0 {
		t.Errorf("%q, %v", got, err)
	}
	all = extent{bytes: maxText - 3}
	if _, err := fitting([]string{"abc"}, 6, &all); err != nil {
		t.Errorf("as much text as can be: %v", err)
	}
	if _, err := fitting([]string{"a"}, 7, &all); err == nil || !strings.Contains(err.Error(), "up to row 7") {
		t.Errorf("a letter more: %v", err)
	}
}

// TestKeptFiles: a yard's sheet and a maker's sheet keep their columns in files of their own.
func TestKeptFiles(t *testing.T) {
	if a, b := keptFile("yard", false), keptFile("yard", true); a == b || !strings.HasSuffix(a, KeptName) || !strings.HasSuffix(b, ModelsKeptName) {
		t.Errorf("%s and %s", a, b)
	}
}

// TestKeptFileIsNoLink: columns are read from the yard's own file only.
func TestKeptFileIsNoLink(t *testing.T) {
	from := t.TempDir()
	if err := os.MkdirAll(filepath.Join(from, "content"), 0o755); err != nil {
		t.Fatal(err)
	}
	elsewhere := filepath.Join(t.TempDir(), "secret")
	if err := os.WriteFile(elsewhere, []byte("password"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{KeptName, ModelsKeptName, PastName} {
		file := filepath.Join(from, "content", name)
		if err := os.Symlink(elsewhere, file); err != nil {
			t.Skip("links cannot be made here")
		}
		if text, err := readKept(from, file); err == nil || !strings.Contains(err.Error(), "is a link") {
			t.Errorf("%s: %q, %v", name, text, err)
		}
	}
}
