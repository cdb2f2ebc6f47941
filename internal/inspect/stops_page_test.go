package inspect_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"tarepage/internal/inspect"
)

const stopsFile = "../../docs/stops.md"

// TestStopsPage compares docs/stops.md, the owner's list of what stops a unit, with the rules
// themselves.
func TestStopsPage(t *testing.T) {
	want := stopsPage(t)
	if *update {
		if err := os.WriteFile(stopsFile, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(stopsFile)
	if err != nil || string(got) != want {
		t.Errorf("docs/stops.md is not what the rules say (%v); run\n\tgo test ./internal/inspect -run StopsPage -update", err)
	}
}

// stopsPage is made from the rules' values and from the first case in each archive.
func stopsPage(t *testing.T) string {
	var b strings.Builder
	b.WriteString(`# What stops a unit, and how to clear it

This page is made from the rules themselves; a test fails when the two differ. Each part
names a rule, says what it asks and why, and shows a message and how to clear it. A message
ends with the name of its rule in brackets. ` + "`tarepage rule NAME`" + ` prints the same with the file
that gives the message.

Cautions and remarks stop nothing and are not listed here; ` + "`tarepage rule`" + ` lists them too.

`)
	sentence := func(s string) string {
		s = strings.ToUpper(s[:1]) + s[1:]
		if !strings.HasSuffix(s, ".") {
			s += "."
		}
		return s
	}
	for _, r := range inspect.All {
		if r.Severity != inspect.Stop {
			continue
		}
		ex, err := inspect.ExampleOf(r)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "## %s\n\n%s %s\n\n", r.Name, sentence(r.Title), sentence(r.Why))
		for _, f := range ex.Findings {
			if f.Rule == r {
				fmt.Fprintf(&b, "    %s: %s: %s\n        fix: %s\n\n", f.At, f.Severity, f.Message, f.Remedy)
				break
			}
		}
		fmt.Fprintf(&b, "To clear it: %s Source: %s.\n\n", sentence(r.Remedy), strings.TrimSuffix(r.Source, "."))
	}
	return strings.TrimRight(b.String(), "\n") + "\n"
}
