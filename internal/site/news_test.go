package site

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/inspect"
	"tarepage/internal/render"
	"tarepage/internal/stockfile"
	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// TestManyGone walks along both limits.
func TestManyGone(t *testing.T) {
	for _, c := range []struct {
		gone, listed int
		want         bool
	}{
		{0, 0, false},
		{2, 2, false}, // two may be a good week of a small yard
		{3, 9, false}, // a third
		{3, 8, true},  // over a third
		{9, 60, false},
		{10, 60, true},
	} {
		if got := manyGone(c.gone, c.listed); got != c.want {
			t.Errorf("%d of %d gone: %v", c.gone, c.listed, got)
		}
	}
}

// TestAllowGone gives the number that -fewer needs, one less and one more.
func TestAllowGone(t *testing.T) {
	m := stockfile.Moves{Listed: 12, Gone: strings.Fields("A-1 A-2 A-3 A-4 A-5 A-6 A-7 A-8 A-9 A-10 A-11 A-12")}
	for fewer, allowed := range map[int]bool{0: false, 11: false, 12: true, 13: false} {
		_, err := loss{}.allow(&Options{Fewer: fewer}, m)
		if (err == nil) != allowed {
			t.Errorf("-fewer %d: %v", fewer, err)
		}
		if err != nil && (!strings.Contains(err.Error(), "-fewer 12") || !strings.Contains(err.Error(), "A-12")) {
			t.Errorf("-fewer %d: the error does not name the units and the number: %v", fewer, err)
		}
	}
	m.Gone = append(m.Gone, "A-13")
	if _, err := (loss{}).allow(&Options{}, m); err == nil || !strings.Contains(err.Error(), "and 1 more") {
		t.Errorf("thirteen gone: %v", err)
	}
}

// TestFresh holds that a finding is new by what it says, and not by the line where it is.
func TestFresh(t *testing.T) {
	rule := inspect.Lookup("price-missing")
	found := func(line int32, message string) inspect.Finding {
		return inspect.Finding{Rule: rule, At: unit.Pos{File: "content/units/a.md", Line: line}, Message: message}
	}
	before := &note{findings: []inspect.Finding{found(3, "one"), found(4, "two")}}
	got := before.fresh([]inspect.Finding{found(9, "one"), found(4, "two"), found(5, "two"), found(6, "three")})
	if len(got) != 2 || got[0].At.Line != 5 || got[1].Message != "three" {
		t.Errorf("new are %v", got)
	}
	if got := (*note)(nil).fresh([]inspect.Finding{found(1, "one")}); got != nil {
		t.Errorf("a first build has news: %v", got)
	}
}

// TestNothingGoesSilently follows a yard of eight units: a first build, a price, a sale, one
// deleted file, four deleted files, and an emptied folder.
func TestNothingGoesSilently(t *testing.T) {
	thorough.Only(t)
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	dir := t.TempDir()
	if err := testyard.Write(dir, 8); err != nil {
		t.Fatal(err)
	}
	o := Options{From: dir, To: filepath.Join(dir, "public")}
	file := func(i int) string { return filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(i))) }
	edit := func(i int, old, new string) {
		text, err := os.ReadFile(file(i))
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(string(text), "\n")
		for j, line := range lines {
			if strings.HasPrefix(line, old) {
				lines[j] = new
			}
		}
		if err := os.WriteFile(file(i), []byte(strings.Join(lines, "\n")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	remove := func(units ...int) {
		for _, i := range units {
			if err := os.Remove(file(i)); err != nil {
				t.Fatal(err)
			}
		}
	}
	build := func() *Result {
		r, err := Build(o)
		if err != nil || !r.Published {
			t.Fatalf("nothing was published: %v, %v", err, r.Findings)
		}
		return r
	}

	if r := build(); r.Moves != nil || r.Before || r.Fresh != nil {
		t.Errorf("a first build tells of another before it: %v %v", r.Moves, r.Fresh)
	}
	edit(0, "price:", "price: $9,999")
	edit(1, "availability:", "availability: sold")
	want := stockfile.Moves{Listed: 8, AsBefore: 6, Sold: []string{testyard.Stock(1)}}
	r := build()
	if p := r.Moves.Prices; len(p) != 1 || p[0].Stock != testyard.Stock(0) || p[0].To != "$9,999" {
		t.Errorf("one price is %+v", p)
	}
	r.Moves.Prices, r.Moves.Jumps = nil, nil
	if !reflect.DeepEqual(*r.Moves, want) {
		t.Errorf("one price and one sale are %+v", r.Moves)
	}
	remove(7)
	if r := build(); r.Moves == nil || !slices.Equal(r.Moves.Gone, []string{testyard.Stock(7)}) {
		t.Errorf("one deleted file is %+v", r.Moves)
	}
	remove(3, 4, 5)
	if r, err := Build(o); err == nil || r.Published || !strings.Contains(err.Error(), testyard.Stock(4)) {
		t.Errorf("three of seven units went, and the build said %v", err)
	}
	o.Fewer = 3
	if r := build(); !r.Published || len(r.Moves.Gone) != 3 {
		t.Errorf("with the right number: %+v", r.Moves)
	}
	o.Fewer = 4
	remove(0, 1, 2, 6)
	if r, err := Build(o); !errors.Is(err, errEmpty) || r.Published {
		t.Errorf("an emptied folder: %v", err)
	}
}

// TestSlowLoss: a unit that goes with each build is noticed too, at the same limits, and a unit
// that was sold or came back does not count.
func TestSlowLoss(t *testing.T) {
	thorough.Only(t)
	step := func(l loss, fewer, listed int, gone ...string) (loss, error) {
		return l.allow(&Options{Fewer: fewer}, stockfile.Moves{Listed: listed, Gone: gone, Unsold: gone})
	}
	var l loss
	var err error
	for i := range 9 {
		if l, err = step(l, 0, 40-i, string(rune('A'+i))); err != nil {
			t.Fatalf("unit %d: %v", i+1, err)
		}
	}
	refused, err := step(l, 0, 31, "J")
	if err == nil || !strings.Contains(err.Error(), "-fewer 10") || !strings.Contains(err.Error(), "A, B, C") || len(refused.Lost) != 10 {
		t.Errorf("the tenth: %v", err)
	}
	if _, err := step(l, 9, 31, "J"); err == nil {
		t.Error("nine of ten were enough")
	}
	after, err := step(l, 10, 31, "J")
	if err != nil || len(after.Lost) != 0 || after.Start != 30 {
		t.Errorf("said: %+v, %v", after, err)
	}
	if after, err = step(after, 0, 30, "K"); err != nil || len(after.Lost) != 1 {
		t.Errorf("the count does not begin again: %+v, %v", after, err)
	}
	// Three of a yard of seven, one at a time.
	small, _ := step(loss{}, 0, 7, "A")
	small, _ = step(small, 0, 6, "B")
	if _, err := step(small, 0, 5, "C"); err == nil {
		t.Error("three of seven went unnoticed")
	}
	// One came back, and one was sold before it went.
	m := stockfile.Moves{Listed: 5, New: []string{"A"}, Gone: []string{"C", "D"}, Unsold: []string{"C"}}
	if l, err := small.allow(&Options{}, m); err != nil || strings.Join(l.Lost, " ") != "B C" {
		t.Errorf("%+v, %v", l, err)
	}
	if was := strings.Join(small.Lost, " "); was != "A B" {
		t.Errorf("what was known became %s", was)
	}
}

// TestWrongFolder: a trailer whose file somebody moved where no unit is read does not leave the site
// without a word.
func TestWrongFolder(t *testing.T) {
	stock := &unit.Stock{Strays: map[string]string{"A-2": "content/models/a-2.md"}}
	for _, c := range []struct {
		gone   string
		fewer  int
		refuse bool
	}{{"A-1", 0, false}, {"A-1 A-2", 0, true}, {"A-1 A-2", 1, true}, {"A-1 A-2", 2, false}, {"", 0, false}} {
		err := inWrongFolder(&Options{Fewer: c.fewer}, stock, stockfile.Moves{Gone: strings.Fields(c.gone)})
		if (err != nil) != c.refuse || err != nil && !strings.Contains(err.Error(), "A-2 would be gone from the site, because its file is in content/models/a-2.md") {
			t.Errorf("%+v: %v", c, err)
		}
	}
	stock.Strays["A-2"] = "content/units/a-2.md.txt"
	const renamed = "A-2 would be gone from the site, because its file is now called a-2.md.txt: name it so that it ends in .md; if it is meant to go, add -fewer 1; nothing was published"
	if err := inWrongFolder(&Options{}, stock, stockfile.Moves{Gone: []string{"A-2"}}); err == nil || err.Error() != renamed {
		t.Errorf("renamed: %v", err)
	}
	// The build asks about it, with what was on the site before.
	u, problems := unit.ReadUnit("content/units/a-2.md", []byte("---\nstock: A-2\navailability: on the yard\n---\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	r := &Result{Yard: &Yard{listed: stockfile.OffersOf([]*unit.Unit{u})}}
	if err := compare(&Options{}, render.Input{Stock: stock}, r, nil); err == nil || !strings.Contains(err.Error(), "A-2 would be gone") {
		t.Errorf("the build: %v", err)
	}
}

// TestPricesAreDatedBeforeInspection: in the build that publishes another price, the trailer is not
// called one without a new price; the one next to it is.
func TestPricesAreDatedBeforeInspection(t *testing.T) {
	dir := t.TempDir()
	o := Options{From: dir, To: filepath.Join(dir, "public")}
	if err := testyard.Write(dir, 2); err != nil {
		t.Fatal(err)
	}
	edit := func(i int, lines map[string]string) {
		t.Helper()
		at := filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(i)))
		text, err := os.ReadFile(at)
		if err != nil {
			t.Fatal(err)
		}
		for key, value := range lines {
			text = regexp.MustCompile("(?m)^"+key+":.*").ReplaceAll(text, []byte(key+": "+value))
		}
		if err := os.WriteFile(at, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for i := range 2 {
		edit(i, map[string]string{"price": "$$9,000", "availability": "on the yard", "arrived": "2020-01-01"})
	}
	due := func() (files []string) {
		r, err := Build(o)
		if err != nil || !r.Published {
			t.Fatalf("nothing was published: %v, %v", err, r.Findings)
		}
		for _, f := range r.Findings {
			if f.Rule.Name == "look-again-due" {
				files = append(files, f.Unit)
			}
		}
		return files
	}
	if got := due(); len(got) != 2 {
		t.Errorf("before the new price, %v are due", got)
	}
	edit(0, map[string]string{"price": "$$9,100"})
	for _, when := range []string{"in the build with", "after"} {
		if got := due(); !slices.Equal(got, []string{testyard.UnitFile(1)}) {
			t.Errorf("%s the new price, %v are due", when, got)
		}
	}
}
