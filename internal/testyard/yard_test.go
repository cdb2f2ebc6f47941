package testyard_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/testyard"
	"tarepage/internal/unit"
)

// What the package promises: sound units of every kind, some with cautions, notes of
// 150 to 900 words, models among them.
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

func TestYardIsTheSame(t *testing.T) {
	sum := sha256.New()
	small := testyard.Yard(40)
	for _, f := range small {
		fmt.Fprintf(sum, "%s %d\n%s", f.Name, len(f.Data), f.Data)
	}
	if !slices.IsSortedFunc(small, func(a, b testyard.File) int { return strings.Compare(a.Name, b.Name) }) {
		t.Error("the files are not in the order of their paths")
	}
	again := sha256.New()
	for _, f := range testyard.Yard(40) {
		fmt.Fprintf(again, "%s %d\n%s", f.Name, len(f.Data), f.Data)
	}
	if !bytes.Equal(sum.Sum(nil), again.Sum(nil)) {
		t.Error("two yards of one size differ")
	}
	if !bytes.Equal(testyard.Yard(100)[len(testyard.Yard(0))-1+7].Data, testyard.Unit(7)) {
		t.Error("a unit is another one in a larger yard")
	}
}
