package report

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"tarepage/internal/spreadsheet"
)

// Planned prints what a sheet does to the yard: which column is which key, the new units, the
// changes, and the cells that are not taken. Program, from and file are how the command was
// called, for the hint.
func Planned(w io.Writer, p *spreadsheet.Plan, applied bool, program, from, file string) error {
	var b strings.Builder
	b.WriteString("columns:\n")
	for _, c := range p.Columns {
		switch {
		case c.Header == "":
		case c.Key == "":
			fmt.Fprintf(&b, "  %-24s not taken\n", c.Header)
		case c.Since:
			fmt.Fprintf(&b, "  %-24s the day of %s\n", c.Header, c.Key)
		default:
			fmt.Fprintf(&b, "  %-24s %s\n", c.Header, c.Key)
		}
	}
	for _, n := range p.New {
		fmt.Fprintf(&b, "row %d: new unit %s, %s\n", n.Row, n.Stock, n.File)
	}
	for _, e := range p.Edits {
		was := e.Old
		if was == "" {
			was = "nothing"
		}
		fmt.Fprintf(&b, "row %d: %s %s: %s becomes %s\n", e.Row, e.Stock, e.Path, was, e.Value)
	}
	for _, f := range p.Faults {
		at := ""
		if f.Column != "" {
			at = ", column " + f.Column
		}
		fmt.Fprintf(&b, "row %d%s: not taken: %s\n", f.Row, at, f.Reason)
	}
	done := "nothing written; to do it: " + command(program, "sheet "+shellWord(filepath.ToSlash(file))+" -apply", from)
	switch {
	case len(p.New)+len(p.Edits) == 0:
		done = "nothing to change"
	case applied:
		done = "written; what the files were before is in earlier/"
	}
	fmt.Fprintf(&b, "%s, %s, %d as before, %s: %s\n", count(len(p.New), "new unit"), count(len(p.Edits), "change"), p.Same, fmt.Sprintf("%d not taken", len(p.Faults)), done)
	_, err := io.WriteString(w, visibleLines(b.String()))
	return err
}

// visibleLines is Visible for each line of a text.
func visibleLines(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = Visible(l)
	}
	return strings.Join(lines, "\n")
}
