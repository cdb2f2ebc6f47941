package unit

import (
	"strings"
	"testing"
)

// A line with too few or too many blanks in front is named itself, with how to write it.
func TestMisplacedLine(t *testing.T) {
	for _, c := range []struct {
		name, file string
		line       int32
		remedy     string
	}{
		{"too few", "---\nstock: A-1\nweights:\ngvwr: 7,000 lb (tag)\n  empty: 1,900 lb\n---\n", 4, "write the line like this, with 2 blanks in front:   gvwr: 7,000 lb (tag)"},
		{"too many", "---\nstock: A-1\ncolor: black\n  year: 2026\n---\n", 4, "write the line like this: year: 2026"},
		{"too many in a section", "---\nstock: A-1\nweights:\n  gvwr: 7,000 lb (tag)\n    empty: 1,900 lb\n---\n", 5, "write the line like this, with 2 blanks in front:   empty: 1,900 lb"},
		{"first of a section", "---\nstock: A-1\ndeck:\n length: 12 ft\n  width: 76 in\n  height: 24 in\naxles:\n  count: 1\n---\n", 4, "write the line like this, with 2 blanks in front:   length: 12 ft"},
		{"first of two", "---\nstock: A-1\ndeck:\n length: 12 ft\n  width: 76 in\n---\n", 4, "write the line like this, with 2 blanks in front:   length: 12 ft"},
		{"a key of two words", "---\nstock: A-1\ntires:\n  size: ST205/75R15\nload range: C\n  per-axle: 2\n---\n", 5, "write the line like this, with 2 blanks in front:   load range: C"},
	} {
		_, problems := ReadUnit("a.md", []byte(c.file))
		if len(problems) != 1 || problems[0].At.Line != c.line || problems[0].Remedy != c.remedy || strings.Contains(problems[0].Message, "YAML") {
			t.Errorf("%s: %v", c.name, problems)
		}
	}
	for _, sound := range []string{"---\nstock: A-1\nweights:\n  gvwr: 7,000 lb\n---\n", "---\nstock: A-1\nphotos:\n  - file: media/a.jpg\n    alt: A side\n---\n"} {
		if _, problems := ReadUnit("a.md", []byte(sound)); len(problems) > 0 {
			t.Errorf("%s: %v", sound, problems)
		}
	}
}
