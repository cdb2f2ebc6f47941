package inspect_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/kinds"
	"tarepage/internal/report"
	"tarepage/internal/unit"
)

const (
	wrongYard = "../../testdata/wrong"
	demoYard  = "../.."
)

// inspected reads, works out and inspects the yard below a folder.
func inspected(t *testing.T, dir string) (*unit.Stock, []inspect.Finding) {
	t.Helper()
	stock, problems, err := unit.Read(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	return stock, inspect.Stock(stock, compute.Stock(stock), problems)
}

// TestWrongYard inspects a yard in which every rule is broken at least once. Each line
// of want.txt was compared with the source printed under it when it was written.
// For a new rule: add a small unit that breaks it to testdata/wrong/content/units, run
// with -update, and review what changed like code.
func TestWrongYard(t *testing.T) {
	_, list := inspected(t, wrongYard)
	broken := map[*inspect.Rule]bool{}
	for _, f := range list {
		broken[f.Rule] = true
	}
	for _, r := range inspect.All {
		if !broken[r] {
			t.Errorf("no file in testdata/wrong breaks %s", r.Name)
		}
	}

	var got bytes.Buffer
	if err := report.Findings(&got, list); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(wrongYard, "want.txt")
	if *update {
		if err := os.WriteFile(name, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if got.String() == string(want) {
		return
	}
	g, w := strings.SplitAfter(got.String(), "\n"), strings.SplitAfter(string(want), "\n")
	for i := range max(len(g), len(w)) {
		var a, b string
		if i < len(g) {
			a = g[i]
		}
		if i < len(w) {
			b = w[i]
		}
		if a != b {
			t.Fatalf("testdata/wrong/want.txt:%d: the yard gives\n%q\nwant\n%q", i+1, a, b)
		}
	}
}

// TestWrongYardBytes checks the files whose bytes matter: git and editors like to fix
// them, and the yard would then be a little less wrong.
func TestWrongYardBytes(t *testing.T) {
	for name, part := range map[string]string{
		"utf-16.md":          "\xff\xfe-\x00", // RFC 2781, 3.2: little-endian byte order mark
		"windows-letters.md": "caf\xe9",
		"line-ends.md":       "---\r\nstock: W-26\r\n",
	} {
		src, err := os.ReadFile(filepath.Join(wrongYard, "content", "units", name))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(src, []byte(part)) {
			t.Errorf("%s no longer holds %q", name, part)
		}
	}
	if info, err := os.Stat(filepath.Join(wrongYard, "content", "units", "empty.md")); err != nil || info.Size() != 0 {
		t.Errorf("empty.md is no longer empty (%v)", err)
	}
}

// TestDemoYard checks what the demo is for: it can be published, it shows cautions, and
// a caution is not on every page.
func TestDemoYard(t *testing.T) {
	stock, list := inspected(t, demoYard)
	shown := map[string]bool{}
	marked := map[string]bool{}
	for _, f := range list {
		switch f.Severity {
		case inspect.Stop:
			t.Errorf("%s: %s [%s]", f.At, f.Message, f.Rule.Name)
		case inspect.Caution:
			shown[f.Rule.Name] = true
			marked[f.Unit] = true
		}
	}
	for _, f := range list {
		// What the demo says of itself is true; a rule that doubts it is at fault.
		switch f.Rule.Name {
		case "note-disagrees", "standard-or-option", "note-order", "note-twice", "said-not-confirmed":
			t.Errorf("%s: %s [%s]", f.At, f.Message, f.Rule.Name)
		}
	}
	if len(shown) < 5 {
		t.Errorf("the demo shows cautions of %d rules only", len(shown))
	}
	if len(marked) == len(stock.Units) {
		t.Error("every unit of the demo has a caution; nobody reads a warning that is everywhere")
	}
	there := map[string]bool{}
	for _, u := range stock.Units {
		there[u.Kind.Value], there[u.Availability.Value], there[u.Condition.Value] = true, true, true
	}
	for _, name := range append(kinds.Names(), "new", "used", "on the yard", "on order", "spoken for", "sold") {
		if !there[name] {
			t.Errorf("no unit of the demo is %q", name)
		}
	}
}

// TestDemoFigures compares figures of the demo with sums done by hand from the numbers
// in the unit files: 49 CFR 567.4(g)(3) for the payload, the beam on two supports for
// the tongue, the ratings on the sidewall for the tires.
func TestDemoFigures(t *testing.T) {
	stock, _ := inspected(t, demoYard)
	figures := map[string]*compute.Work{}
	for _, w := range compute.Stock(stock) {
		figures[w.Unit.Stock.Value] = w
	}
	for _, c := range []struct{ stock, figure, want string }{
		{"SB-1043", "tag-payload", "12,960 lb"},       // 20,000 - 7,040
		{"SB-1043", "tongue-at-gvwr", "3,643 lb"},     // 1,610 + 12,960 x 4 / 25.5 = 3,642.9, up
		{"SB-1043", "tire-reserve", "2,320 lb"},       // 4 x 3,080 - 10,000
		{"SB-1043", "working-payload", "12,300 lb"},   // 12,960 less 5% = 12,312, down to the hundred
		{"SB-1016", "tongue-at-gvwr", "2,518 lb"},     // 860 + 14,920 x 2.25 / 20.25 = 2,517.8, up
		{"SB-1016", "axle-load-at-gvwr", "19,483 lb"}, // 22,000 - 2,517.8 = 19,482.2, up
		{"SB-1027", "tire-reserve", "40 lb"},          // 2 x 3,520 - 7,000
		{"SB-1031", "tongue-share", "8.5%"},           // (440 + 10,520 x 16 / 204) / 14,900
		{"SB-1086", "tank-full", "8,345 lb"},          // 1,000 x 8.345
		{"SB-1088", "tank-full", "3,550 lb"},          // 500 x 7.1
		{"SB-1066", "payload", "2,900 lb"},            // the axle that the dolly may carry, not 3,490 - 580
		{"SB-1058", "tire-reserve", "0 lb"},           // 4 x 3,000 - 12,000: the lower of the two ratings sold
		{"SB-1058", "tag-payload", "about 18,400 lb"}, // 25,900 - about 7,500
	} {
		f := figures[c.stock].Figure(c.figure)
		if f == nil {
			t.Errorf("%s has no %s", c.stock, c.figure)
			continue
		}
		if f.Text != c.want {
			t.Errorf("%s: %s is %s, by hand it is %s", c.stock, c.figure, f.Text, c.want)
		}
	}
	// SB-1058 was never weighed at the tongue: what rests on its parts says so.
	if f := figures["SB-1058"].Figure("tongue-at-gvwr"); f == nil || !f.About || !f.Estimated || !strings.Contains(f.Working(), "estimated") {
		t.Errorf("SB-1058 was never weighed at the tongue, and its tongue-at-gvwr does not say so: %+v", f)
	}
}
