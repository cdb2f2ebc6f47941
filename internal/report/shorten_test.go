package report

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// TestOneFileIsShortened: what is printed about one file stays within 60 KB, its stops are
// printed first of all, what is not printed is counted, and other files are not shortened.
func TestOneFileIsShortened(t *testing.T) {
	rule := &inspect.Rule{Name: "some-rule"}
	var list []inspect.Finding
	add := func(file string, line int, s inspect.Severity) {
		list = append(list, inspect.Finding{Rule: rule, Severity: s, Unit: file, Message: strings.Repeat("m", 100), Source: "a source", Remedy: "a remedy",
			At: unit.Pos{File: file, Line: int32(line), Column: 1}, Related: []unit.Place{{At: unit.Pos{File: file, Line: 1, Column: 1}, What: "here"}}})
	}
	for i := range 15_000 {
		add("content/units/a.md", i+1, inspect.Remark)
	}
	add("content/units/a.md", 20_000, inspect.Stop)
	for i := range 50 {
		add("content/units/b.md", i+1, inspect.Caution)
	}
	var out bytes.Buffer
	if err := Findings(&out, list); err != nil {
		t.Fatal(err)
	}
	text := out.String()
	if n := len(text); n > 75_000 {
		t.Errorf("%d bytes", n)
	}
	if !strings.Contains(text, "content/units/a.md:20000:1: stop:") {
		t.Error("the stop is not printed")
	}
	shown := strings.Count(text, "a.md:") - strings.Count(text, "a.md:1:1: here") - 2
	if want := fmt.Sprintf("content/units/a.md: not printed, because there are too many: 0 stops, 0 cautions and %d remarks more; fix the ones above first\n", 15_000-strings.Count(text, ": remark: ")); !strings.HasSuffix(text, want) {
		t.Errorf("%d shown; the end is %q, want %q", shown, text[len(text)-200:], want)
	}
	if n := strings.Count(text, "b.md:"); n != 100 {
		t.Errorf("%d places of the other file, want 100", n)
	}
	out.Reset()
	if err := Findings(&out, list[len(list)-50:]); err != nil || strings.Contains(out.String(), "not printed") {
		t.Errorf("a short list is shortened (%v)", err)
	}
}
