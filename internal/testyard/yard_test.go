package testyard_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/testyard"
	"tarepage/internal/unit"
)

// The package promises sound units of every kind, some with models and cautions, and notes of
// 150 to 900 words.
func TestYardIsSound(t *testing.T) {
	const n = 260
	root := fstest.MapFS{}
	for _, f := range testyard.Yard(n) {
		root[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	stock, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	findings := inspect.Stock(stock, compute.Stock(stock), problems)
	for _, f := range findings {
		if f.Severity == inspect.Stop {
			t.Fatalf("%s: %s [%s]", f.At, f.Message, f.Rule.Name)
		}
	}
	cautions := inspect.Count(findings, inspect.Caution)
	if cautions < n/2 {
		t.Errorf("%d cautions in %d units, want more", cautions, n)
	}
	count := map[string]int{}
	models, least, most, all := 0, 1<<30, 0, 0
	for _, u := range stock.Units {
		count[u.Kind.Value]++
		if u.Model.Given() {
			models++
		}
		words := len(bytes.Fields(u.Body.Source))
		least, most, all = min(least, words), max(most, words), all+words
	}
	// cmd/build's TestEveryKindGoesAllTheWay has a unit of every kind; this yard has many.
	if len(count) < 10 {
		t.Errorf("the units are of %d kinds only", len(count))
	}
	if models == 0 || least < 150 || most > 900 || most < 600 {
		t.Errorf("%d units with a model; notes of %d to %d words", models, least, most)
	}
	t.Logf("%d cautions, %d words a unit", cautions, all/n)
}

// The yard is the same on every computer, today and next year. Benchmarks and notes compare
// numbers from one yard, so a change of its bytes has to be on purpose.
func TestYardIsTheSame(t *testing.T) {
	const want = "906799a0e33833a90dc94ef5fc5ae459e6c385343fbaa0d4113cc8051370572a"
	dir := t.TempDir()
	if err := testyard.Write(dir, 260); err != nil {
		t.Fatal(err)
	}
	sum := sha256.New()
	files := testyard.Yard(260)
	for _, f := range files {
		fmt.Fprintf(sum, "%s %d\n%s", f.Name, len(f.Data), f.Data)
		if got, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(f.Name))); err != nil || !bytes.Equal(got, f.Data) {
			t.Errorf("%s was written as %d bytes, want %d (%v)", f.Name, len(got), len(f.Data), err)
		}
	}
	if got := fmt.Sprintf("%x", sum.Sum(nil)); got != want {
		t.Errorf("the digest of 260 units is %s, want %s; enter the new one if the yard was changed on purpose", got, want)
	}
	if !slices.IsSortedFunc(files, func(a, b testyard.File) int { return strings.Compare(a.Name, b.Name) }) {
		t.Error("the files are not in the order of their paths")
	}
	if got := files[len(testyard.Yard(0))-1+7]; got.Name != testyard.UnitFile(7) || !bytes.Equal(got.Data, testyard.Unit(7)) {
		t.Error("unit 7 is another one in a larger yard")
	}
}

// A folder that cannot be made is an error, and so is a file that cannot be written.
func TestWriteFails(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "file"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := testyard.Write(filepath.Join(dir, "file"), 1); err == nil {
		t.Error("a yard was written below a file")
	}
	if err := os.MkdirAll(filepath.Join(dir, "content", "yard.md"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := testyard.Write(dir, 1); err == nil {
		t.Error("yard.md was written over a folder")
	}
}

// TestSerialsAreNobodys: every VIN in the demo, the docs and the tests begins with 0, which
// is given to no maker.
func TestSerialsAreNobodys(t *testing.T) {
	vin := regexp.MustCompile(`\b[0-9A-HJ-NPR-Z]{8}[0-9X][0-9A-HJ-NPR-Z]{4}[0-9]{4}\b`)
	n := 0
	for _, glob := range []string{"../../content/*/*.md", "../../docs/*.md", "../starter/content/*/*.md", "../inspect/*.txtar", "../../testdata/wrong/content/*/*.md"} {
		files, err := filepath.Glob(glob)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %d files, %v", glob, len(files), err)
		}
		for _, name := range files {
			src, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range vin.FindAllString(string(src), -1) {
				n++
				if v[0] != '0' {
					t.Errorf("%s: the serial %s can be somebody's", name, v)
				}
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d serials were found", n)
	}
}

// TestWriteYard writes 1,000 units into the folder TAREPAGE_YARD, for .ci/compare.
func TestWriteYard(t *testing.T) {
	dir := os.Getenv("TAREPAGE_YARD")
	if dir == "" {
		t.Skip("set TAREPAGE_YARD to the folder of the yard; .ci/compare does")
	}
	if err := testyard.Write(dir, 1000); err != nil {
		t.Fatal(err)
	}
}
