package unit

import (
	"strings"
	"testing"
	"testing/fstest"
)

// TestNotUnits holds that each row of notUnits knows its own example, that a file of such a
// name is named and stops nothing, and that a hidden file and a folder are not units either.
func TestNotUnits(t *testing.T) {
	root := fstest.MapFS{"content/units/sb-1.md": {Data: []byte("x")}, "content/units/SB-2.MD": {Data: []byte("x")},
		"content/units/.hidden.md": {}, "content/units/sold/sb-3.md": {}}
	for i := range notUnits {
		row := &notUnits[i]
		if got := passedOver(row.example); got != row {
			t.Errorf("%q is %v, want %q", row.example, got, row.what)
		}
		root["content/units/"+row.example] = &fstest.MapFile{}
	}
	names, problems, err := markdownFiles(root, "content/units")
	if err != nil || strings.Join(names, " ") != "content/units/SB-2.MD content/units/sb-1.md" {
		t.Errorf("%v are read (%v)", names, err)
	}
	if len(problems) != len(notUnits)+1 {
		t.Errorf("%d files are named, want %d", len(problems), len(notUnits)+1)
	}
	for _, p := range problems {
		if p.Rule != FileIgnored || p.Remedy == "" {
			t.Errorf("%s: rule %s, remedy %q", p.At.File, p.Rule, p.Remedy)
		}
	}
}
