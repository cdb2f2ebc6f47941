package spreadsheet

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"tarepage/internal/unit"
)

// KeptName is the file below content/ that keeps which column of the yard's sheet is which key. A maker's sheet has other columns, which are kept in the second file.
const (
	KeptName       = "columns.txt"
	ModelsKeptName = "maker-columns.txt"
)

const (
	arrow    = " -> "
	notTaken = "-"
)

const keptHead = `# Which column of a sheet is which key of a unit file. A column with - is not taken.
# Change the right side if a column was understood wrongly. A line with an arrow is a column, even with # in front.
`

// keepColumns writes what was made of the columns, for the next time, and after them what is known from
// before of columns that this sheet does not have.
func keepColumns(columns []Column, before map[string]string) []byte {
	var b strings.Builder
	b.WriteString(keptHead)
	here := map[string]bool{}
	for _, c := range columns {
		here[c.Header] = true
	}
	for _, c := range columns {
		key := c.Key
		if key == "" {
			key = notTaken
		}
		if c.Header != "" && !c.Since {
			fmt.Fprintf(&b, "%s%s%s\n", c.Header, arrow, key)
		}
	}
	for _, header := range slices.Sorted(maps.Keys(before)) {
		if !here[header] {
			fmt.Fprintf(&b, "%s%s%s\n", header, arrow, before[header])
		}
	}
	return []byte(b.String())
}

// ParseKept reads the file that keepColumns wrote, as its owner may have changed it. The error
// names the line and what would be right.
func ParseKept(name string, text []byte) (map[string]string, error) {
	keys := keyDocs()
	out := map[string]string{}
	for i, line := range strings.Split(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n") {
		if line = strings.TrimSpace(line); line == "" || comment(line) {
			continue
		}
		at := strings.LastIndex(line, arrow)
		if at < 0 {
			return nil, fmt.Errorf("%s:%d: %q has no arrow; write Column%skey", name, i+1, line, arrow)
		}
		header, key := strings.TrimSpace(line[:at]), strings.TrimSpace(line[at+len(arrow):])
		doc, known := keys[key]
		if key != notTaken && (!known || doc.Kind == "section" || doc.Kind == "list") {
			near := ""
			if n := unit.Nearest(key, paths()); n != "" {
				near = fmt.Sprintf("; did you mean %s?", n)
			}
			return nil, fmt.Errorf("%s:%d: there is no key %q%s", name, i+1, key, near)
		}
		out[header] = key
	}
	return out, nil
}

// comment reports whether a line is a comment. The heading of a column may begin with # too, as in
// "# Axles -> axles.count": no key has a blank in it.
func comment(line string) bool {
	at := strings.LastIndex(line, arrow)
	return line[0] == '#' && (at < 0 || strings.Contains(strings.TrimSpace(line[at+len(arrow):]), " "))
}

func paths() (out []string) {
	for _, k := range unit.Keys() {
		out = append(out, k.Path)
	}
	return out
}
