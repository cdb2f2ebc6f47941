package inspect_test

import (
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var (
	exampleFile   = regexp.MustCompile("(?s)```yaml\n(.*?)```")
	exampleFigure = regexp.MustCompile(`(?m)^\| [^|]+ \| ([a-z]+-[a-z-]+) \| [^|]+ \| ([^|]+) \|$`)
	exampleWindow = regexp.MustCompile(`(?m)^\| ([0-9,]+ lb) \| ([^|]+) \|$`)
)

// TestWorkedExample works out every number that docs/worked-example.md prints. The sums on
// that page are plain statics (a beam on two supports), 49 CFR 567.4(g)(3) and 571.120
// S5.1.2, done by hand.
func TestWorkedExample(t *testing.T) {
	page, err := os.ReadFile("../../docs/worked-example.md")
	if err != nil {
		t.Fatal(err)
	}
	file := exampleFile.FindSubmatch(page)
	if file == nil {
		t.Fatal("docs/worked-example.md has no unit file in it")
	}
	stock, problems, err := unit.Read(fstest.MapFS{
		"content/yard.md":       {Data: []byte("---\nname: Example Yard\nphone: 555-0100\nas-of: 2026-11-20\n---\n")},
		"content/units/we-1.md": {Data: []byte("---\n" + string(file[1]) + "---\n")},
	})
	if err != nil {
		t.Fatal(err)
	}
	works := compute.Stock(stock)
	for _, f := range inspect.Stock(stock, works, problems) {
		if f.Severity == inspect.Stop {
			t.Errorf("the example does not publish: %s: %s [%s]", f.At, f.Message, f.Rule.Name)
		}
	}
	w := works[0]
	figures := exampleFigure.FindAllStringSubmatch(string(page), -1)
	for _, m := range figures {
		f := w.Figure(m[1])
		if f == nil {
			t.Errorf("the page names the figure %q, and there is none", m[1])
		} else if f.Text != m[2] {
			t.Errorf("%s is %s, the page says %s", m[1], f.Text, m[2])
		}
	}
	rig, _ := compute.RigOf(w)
	windows := exampleWindow.FindAllStringSubmatch(string(page), -1)
	for _, m := range windows {
		load, err := measure.ParseWeight(m[1])
		if err != nil {
			t.Fatal(err)
		}
		if got := rig.Window(compute.Load{Weight: load.Value}).Text(); strings.TrimSpace(m[2]) != got {
			t.Errorf("a load of %s may stand %s, the page says %s", m[1], got, m[2])
		}
	}
	if len(figures) != 10 || len(windows) != 2 {
		t.Errorf("the page has %d figures and %d loads, want 10 and 2", len(figures), len(windows))
	}
}
