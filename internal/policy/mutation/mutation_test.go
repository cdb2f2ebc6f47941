package main

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const sample = "./testdata/hitch"

// What is not noticed in the sample, worked out by hand from its tests; everything else is.
var open = []string{
	// Nobody asks at the limit.
	"hitch/hitch.go Open: load > limit => load >= limit",
	// Nobody calls it.
	"hitch/hitch.go Unasked: 1 => 1 less",
	"hitch/hitch.go Unasked: 1 => 1 more",
	"hitch/hitch.go Unasked: load + 1 => load - 1",
	"hitch/hitch.go Unasked: return load + 1 => nothing",
	// Nobody asks for the share of what is not known.
	"hitch/hitch.go Share: 0 => 1",
	"hitch/hitch.go Share: false => true",
	// The lower number of the test is never zero, the higher well above two.
	"hitch/hitch.go Rungs: 2 => 1 less",
	"hitch/hitch.go Rungs: 2 => 1 more",
	"hitch/hitch.go Rungs: b > 0 => b >= 0",
	// Nobody asks how a load rounds.
	"hitch/hitch.go Weight.Load: 'b' + int(w) => 'b' - int(w)",
	"hitch/hitch.go Weight.Load: return string(rune('b' + int(w))) => nothing",
}

// The changes of the sample are those of the list, and what its tests leave open is found,
// and nothing else.
func TestSample(t *testing.T) {
	none := ""
	var list, out strings.Builder
	if _, err := check(options{list: true, equivalent: &none}, []string{sample}, &list); err != nil {
		t.Fatal(err)
	}
	var names strings.Builder
	for line := range strings.Lines(list.String()) {
		_, name, _ := strings.Cut(line, ": ")
		names.WriteString(name)
	}
	want, err := os.ReadFile("testdata/changes.txt")
	if err != nil {
		t.Fatal(err)
	}
	if names.String() != string(want) {
		t.Errorf("the changes are\n%swant\n%s", names.String(), want)
	}
	// One of the changes is listed as equivalent: then it does not count.
	equivalent := open[0] + "\n  for the test's sake\nhitch/hitch.go Gone: 1 => 2\n  the code went away\n"
	low, err := check(options{least: 0.999, equivalent: &equivalent}, []string{sample}, &out)
	if err != nil {
		t.Fatal(err)
	}
	if got := slices.Sorted(maps.Keys(unnoticed(out.String()))); !slices.Equal(got, slices.Sorted(slices.Values(open[1:]))) {
		t.Errorf("not noticed:\n%s", strings.Join(got, "\n"))
	}
	if !low {
		t.Error("less than everything was noticed, and that is enough")
	}
	for _, part := range []string{
		"testdata/hitch/hitch.go:12:37: not reached: hitch/hitch.go Unasked: load + 1 => load - 1\n",
		"equivalent.txt names a change that is not there: hitch/hitch.go Gone: 1 => 2\n",
	} {
		if !strings.Contains(out.String(), part) {
			t.Errorf("the report lacks %q:\n%s", part, out.String())
		}
	}
	// What an earlier report says was open can be asked again, by itself.
	report := filepath.Join(t.TempDir(), "report.txt")
	if err := os.WriteFile(report, []byte(out.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	var again strings.Builder
	if _, err := check(options{list: true, equivalent: &none, again: report}, []string{sample}, &again); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(again.String(), "\n"); n != len(open)-1 {
		t.Errorf("%d changes are asked again, want %d", n, len(open)-1)
	}
}

// A sample is the same each time, in the order of the files, and leaves out what is
// equivalent.
func TestChoose(t *testing.T) {
	p := &planted{}
	for i := range 100 {
		p.changes = append(p.changes, &change{id: i, name: strings.Repeat("x", i+1)})
	}
	same := equivalents{"x": "reason"}
	a, b := choose(options{sample: 30, seed: 5}, p, same, nil), choose(options{sample: 30, seed: 5}, p, same, nil)
	if len(a) != 30 || !slices.Equal(a, b) || slices.Equal(a, choose(options{sample: 30, seed: 6}, p, same, nil)) {
		t.Error("a sample is not its seed's")
	}
	if !slices.IsSortedFunc(a, func(a, b *change) int { return a.id - b.id }) {
		t.Error("a sample is out of order")
	}
	if all := choose(options{}, p, same, nil); len(all) != 99 || all[0].name == "x" {
		t.Errorf("%d changes beside the equivalent one", len(all))
	}
}

// What was not begun in time says nothing, and is no share that passes.
func TestNothingBegun(t *testing.T) {
	for _, c := range []struct {
		r    report
		want float64
	}{{report{}, 1}, {report{left: 60}, 0}, {report{tried: 4, noticed: 3, left: 56}, 0.75}} {
		if got := c.r.share(); got != c.want {
			t.Errorf("%+v: %v, want %v", c.r, got, c.want)
		}
	}
}

func TestEquivalentList(t *testing.T) {
	got, err := readEquivalent("# words\n\na: 1 => 2\nb: 1 => 2\n  one reason\n  in two lines\nc: 1 => 2\n  another\n")
	want := equivalents{"a: 1 => 2": "one reason in two lines", "b: 1 => 2": "one reason in two lines", "c: 1 => 2": "another"}
	if err != nil || !maps.Equal(got, want) {
		t.Errorf("%v, %v", got, err)
	}
	for _, bad := range []string{"  a reason first\n", "a change\n", "a\n r\na\n r\n"} {
		if _, err := readEquivalent(bad); err == nil {
			t.Errorf("%q reads", bad)
		}
	}
	if _, err := readEquivalent(equivalentText); err != nil {
		t.Error(err)
	}
}
