package spreadsheet

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/testyard"
	"tarepage/internal/unit"
)

// TestWrite takes a new unit and a price into a yard's files, keeps the file of before next to
// content/, and writes nothing if a unit's file exists.
func TestWrite(t *testing.T) {
	dir := t.TempDir()
	if err := testyard.Write(dir, 2); err != nil {
		t.Fatal(err)
	}
	edited := filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(1)))
	was, err := os.ReadFile(edited)
	if err != nil {
		t.Fatal(err)
	}
	sheet := filepath.Join(dir, "sheet.csv")
	text := "Stock,Asking,Type\n" + testyard.Stock(1) + ",\"$12,345\",\nNEW-1,2995,utility\n"
	if err := os.WriteFile(sheet, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	kept := keptFile(dir, false)
	if err := os.WriteFile(kept, []byte("Asking -> price\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	table, err := ReadFile(sheet)
	if err != nil {
		t.Fatal(err)
	}
	stock, _, err := unit.Read(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	plan, err := For(dir, table, stock, false)
	if err != nil || len(plan.New) != 1 || len(plan.Edits) != 1 {
		t.Fatalf("%+v, %v", plan, err)
	}
	if err := plan.Write(dir); err != nil {
		t.Fatal(err)
	}
	read := func(name string) string { data, _ := os.ReadFile(name); return string(data) }
	if got := read(edited); !strings.Contains(got, "12,345") {
		t.Errorf("the price is not in the file:\n%s", got)
	}
	if got := read(filepath.Join(dir, "earlier", filepath.Base(edited))); got != string(was) {
		t.Errorf("the earlier file is\n%s\nwant\n%s", got, was)
	}
	if got := read(filepath.Join(dir, plan.New[0].File)); !strings.Contains(got, "stock: NEW-1") {
		t.Errorf("the new unit is\n%s", got)
	}
	if got := read(kept); !strings.Contains(got, "Asking -> price") || !strings.Contains(got, "Type -> kind") {
		t.Errorf("the columns are\n%s", got)
	}

	// The new unit's file exists now: the price of before stays too.
	now := read(edited)
	plan.Edits[0].Change.Value = "$1"
	if err := plan.Write(dir); err == nil || read(edited) != now {
		t.Errorf("%v; the file is\n%s", err, read(edited))
	}
}

func TestReadFileRefuses(t *testing.T) {
	big := filepath.Join(t.TempDir(), "big.csv")
	if err := os.WriteFile(big, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(big, MaxBytes+1); err != nil {
		t.Fatal(err)
	}
	for name, says := range map[string]string{big: "MB; save it without pictures", "nowhere.csv": `sheet "nowhere.csv"`} {
		if _, err := ReadFile(name); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %q in it", name, err, says)
		}
	}
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "content"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(keptFile(dir, false), []byte("no arrow"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := For(dir, &Table{}, new(unit.Stock), false); err == nil || !strings.Contains(err.Error(), "columns.txt:1") {
		t.Errorf("columns that do not read: %v", err)
	}
}

// TestWriteFollowsNoLink: nothing is written where a link leads out of the yard.
func TestWriteFollowsNoLink(t *testing.T) {
	for _, c := range []struct {
		link   string
		models bool
	}{{"content/models", true}, {"content/units", false}, {"content/" + PastName, false}, {"content/" + KeptName, false}, {"content/" + ModelsKeptName, true}} {
		dir, outside := t.TempDir(), t.TempDir()
		if err := testyard.Write(dir, 1); err != nil {
			t.Fatal(err)
		}
		stock, _, err := unit.Read(os.DirFS(dir))
		if err != nil {
			t.Fatal(err)
		}
		table, err := ReadFile(writeSheet(t, dir, "Stock,Model,Type\nNEW-1,EV-1,utility\n"))
		if err != nil {
			t.Fatal(err)
		}
		plan, err := For(dir, table, stock, c.models)
		if err != nil {
			t.Fatal(err)
		}
		link := filepath.Join(dir, filepath.FromSlash(c.link))
		if err := os.RemoveAll(link); err != nil {
			t.Fatal(err)
		}
		to := outside
		if filepath.Ext(link) != "" {
			to = filepath.Join(outside, "file")
		}
		if err := os.Symlink(to, link); err != nil {
			t.Skip(err)
		}
		if err := plan.Write(dir); err == nil || !strings.Contains(err.Error(), "is a link to another place") {
			t.Errorf("%s: %v", c.link, err)
		}
		if names, _ := os.ReadDir(outside); len(names) > 0 {
			t.Errorf("%s: %s is written outside", c.link, names[0].Name())
		}
	}
}

func writeSheet(t *testing.T, dir, text string) string {
	name := filepath.Join(dir, "sheet.csv")
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}
