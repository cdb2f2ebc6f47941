package spreadsheet

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"tarepage/internal/amend"
	"tarepage/internal/unit"
)

// A day at a yard: what is done, in order, and what the yard has after it. A step is a sheet's row,
// "stock.csv status=on the yard price=2445", or what a phone does, "phone price=$2,395 (since 2026-11-30)".
var days = []struct {
	name  string
	steps []string
	price string
	state string
	held  int // of the last sheet
}{
	{"a price by phone, and the sheet of before again", []string{"stock.csv price=2445", "phone price=$2,395", "stock.csv price=2445"}, "$2,395", "on the yard", 1},
	{"the same without an earlier sheet: the phone gave a day", []string{"phone price=$2,395 (since 2026-11-30)", "stock.csv price=2445"}, "$2,395 (since 2026-11-30)", "on the yard", 1},
	{"without a day and an earlier sheet nobody can know", []string{"phone price=$2,395", "stock.csv price=2445"}, "$2,445", "on the yard", 0},
	{"the sheet has an earlier day", []string{"phone price=$2,395 (since 2026-11-30)", "stock.csv price=2445 since=2026-11-29"}, "$2,395 (since 2026-11-30)", "on the yard", 1},
	{"the sheet has a later day", []string{"phone price=$2,395 (since 2026-11-30)", "stock.csv price=2350 since=2026-12-01"}, "$2,350 (since 2026-12-01)", "on the yard", 0},
	{"the sheet changes what it gave", []string{"stock.csv price=2445", "stock.csv price=2350"}, "$2,350", "on the yard", 0},
	{"both were changed", []string{"stock.csv price=2445", "phone price=$2,395", "stock.csv price=2350"}, "$2,395", "on the yard", 1},
	{"the sheet changes after it was told of the phone", []string{"stock.csv price=2445", "phone price=$2,395", "stock.csv price=2445", "stock.csv price=2350"}, "$2,350", "on the yard", 0},
	{"another sheet in between", []string{"stock.csv price=2445", "prices.csv price=2350", "stock.csv price=2445"}, "$2,350", "on the yard", 1},
	{"a sheet by another name", []string{"stock.csv price=2445", "phone price=$2,395", "stock2.csv price=2445"}, "$2,395", "on the yard", 1},
	{"a sale by phone", []string{"stock.csv status=in stock", "phone availability=sold", "stock.csv status=in stock"}, "$2,000", "sold", 1},
	{"a sale by phone, without an earlier sheet", []string{"phone availability=sold", "stock.csv status=spoken for"}, "$2,000", "sold", 1},
	{"a sale by a sheet, taken back by it", []string{"stock.csv status=sold", "stock.csv status=in stock"}, "$2,000", "sold", 1},
	{"spoken for by phone, and sold by the sheet", []string{"stock.csv status=in stock", "phone availability=spoken for (since 2026-11-30)", "stock.csv status=sold"}, "$2,000", "sold", 0},
	{"sold by a sheet, back by phone, and the sheet again", []string{"stock.csv status=sold", "phone availability=on the yard", "stock.csv status=sold"}, "$2,000", "on the yard", 1},
	{"a deal that fell through, in one sheet", []string{"stock.csv status=in stock", "stock.csv status=sale pending", "stock.csv status=in stock"}, "$2,000", "on the yard", 0},
}

// TestPast: a sheet never undoes what was changed in the yard after it, and never takes a trailer
// back from sold; with Anyway it does.
func TestPast(t *testing.T) {
	for _, d := range days {
		dir := t.TempDir()
		file := filepath.Join(dir, "content", "units", "ab-1.md")
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte("---\nstock: AB-1\navailability: on the yard\nprice: $2,000\n---\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "content", "yard.md"), []byte("---\nname: A yard\n---\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		var last Plan
		for _, step := range d.steps {
			if set, ok := strings.CutPrefix(step, "phone "); ok {
				key, value, _ := strings.Cut(set, "=")
				set1(t, file, key, value)
				continue
			}
			last = rowOf(t, dir, step)
			if err := last.Write(dir); err != nil {
				t.Fatalf("%s: %v", d.name, err)
			}
		}
		text, _ := os.ReadFile(file)
		if !strings.Contains(string(text), "\nprice: "+d.price+"\n") || !strings.Contains(string(text), "\navailability: "+d.state) || len(last.Held) != d.held {
			t.Errorf("%s: held %v; the file is\n%s", d.name, last.Held, text)
		}
		if d.held == 0 {
			continue
		}
		again := rowOf(t, dir, d.steps[len(d.steps)-1])
		if err := again.Anyway([]string{"ab-1"}); err != nil || len(again.Held) != 0 || len(again.Edits) != d.held {
			t.Errorf("%s: anyway %v: %+v", d.name, err, again)
		}
		if err := again.Anyway([]string{"AB-2"}); err == nil || !strings.Contains(err.Error(), "-anyway AB-2: nothing of it is kept") {
			t.Errorf("a unit of which nothing was kept: %v", err)
		}
	}
}

// set1 changes a value in a file, as a phone does.
func set1(t *testing.T, file, key, value string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if text, err = amend.Apply(text, []amend.Change{{Path: key, Value: value}}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// rowOf is the plan of a sheet with one row for AB-1.
func rowOf(t *testing.T, dir, step string) Plan {
	t.Helper()
	name, rest, _ := strings.Cut(step, " ")
	header, row := "Stock", "AB-1"
	for _, key := range []string{"status", "price", "since"} {
		if _, after, ok := strings.Cut(rest, key+"="); ok {
			after, _, _ = strings.Cut(after, " since=")
			header, row = header+","+strings.Replace(key, "since", "price since", 1), row+","+after
		}
	}
	table, err := Read(name, []byte(header+"\n"+row+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	stock, _, err := unit.Read(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	p, err := For(dir, table, stock, false)
	if err != nil || len(p.Faults) > 0 {
		t.Fatalf("%s: %v %v", step, p.Faults, err)
	}
	return p
}

// TestParsePast: a broken file of the past is an error that says what to do.
func TestParsePast(t *testing.T) {
	for _, bad := range []string{"", "a,b\n", "sheet,stock,key,value\nx\n", "\""} {
		if _, err := ParsePast([]byte(bad)); err == nil || !strings.Contains(err.Error(), "put back a copy of it, or delete it") {
			t.Errorf("%q: %v", bad, err)
		}
	}
}

// TestPastRunsNothing: a sheet's name and what it says are text in the kept file, and read back as
// they were.
func TestPastRunsNothing(t *testing.T) {
	p := Past{}
	p.say("=cmd|calc.csv", "@sb-1", "price", "-1+1")
	text, err := p.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.SplitSeq(string(text), "\n") {
		for cell := range strings.SplitSeq(line, ",") {
			if strings.ContainsAny(cell[:min(1, len(cell))], "=+-@") {
				t.Errorf("a spreadsheet runs the cell %q", cell)
			}
		}
	}
	if got, err := ParsePast(text); err != nil || !reflect.DeepEqual(got, p) {
		t.Errorf("%v became %v, %v", p, got, err)
	}
}
