package main

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the README's table of flags")

// TestFlagsTable compares the README's table of flags with their declaration. With -update it
// writes the table.
func TestFlagsTable(t *testing.T) {
	const file = "../../README.md"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	readme := strings.ReplaceAll(string(text), "\r\n", "\n")
	from := strings.Index(readme, "| flag | |\n")
	if from < 0 {
		t.Fatal("README.md has no table of flags")
	}
	end := strings.Index(readme[from:], "\n\n")
	if got, want := readme[from:from+end+1], flagsTable(); got != want {
		if !*update {
			t.Fatalf("README.md has\n%s\nwant\n%s\nwrite it with: go test ./cmd/build -run FlagsTable -update", got, want)
		}
		if err := os.WriteFile(file, []byte(readme[:from]+want+readme[from+end+1:]), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestDeclarations: every flag names verbs that exist, sets one field of its own kind, and has
// its line in the help.
func TestDeclarations(t *testing.T) {
	help := usage()
	seen := map[any]string{}
	c := &command{}
	for _, f := range flags {
		field := f.is(c)
		if other := seen[field]; other != "" {
			t.Errorf("-%s and -%s set the same field", f.name, other)
		}
		seen[field] = f.name
		switch field.(type) {
		case *string, *int:
			if f.value == "" || f.lacks == "" {
				t.Errorf("-%s has a value, but does not say which", f.name)
			}
		case *bool:
			if f.value != "" || f.lacks != "" {
				t.Errorf("-%s has no value, but says which", f.name)
			}
		default:
			t.Errorf("-%s sets a %T", f.name, field)
		}
		for _, v := range f.verbs {
			if !slices.Contains(verbNames(), v) {
				t.Errorf("-%s is for %s, which is not a verb", f.name, v)
			}
		}
		if !strings.Contains(help, "\n  "+f.written()+" ") {
			t.Errorf("the help does not name %s:\n%s", f.written(), help)
		}
	}
	for line := range strings.Lines(help) {
		if len(line) > lastColumn+1 {
			t.Errorf("a line of the help has %d columns: %s", len(line)-1, line)
		}
	}
}

// flagsTable is the README's table of flags.
func flagsTable() string {
	var b strings.Builder
	b.WriteString("| flag | |\n| --- | --- |\n")
	for _, f := range flags {
		fmt.Fprintf(&b, "| `%s` | %s |\n", f.written(), f.help)
	}
	return b.String()
}
