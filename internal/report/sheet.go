package report

import (
	"fmt"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/spreadsheet"
)

// Planned prints what a sheet does to the yard: which column is which key, the new units, the
// changes, and the cells that are not taken. Program, from and file are how the command was
// called, for the hint.
func Planned(w io.Writer, p *spreadsheet.Plan, applied bool, program, from, file string) error {
	var b strings.Builder
	columns(&b, p.Columns)
	newFiles(&b, p)
	for _, e := range p.Edits {
		was := e.Old
		if was == "" {
			was = "nothing"
		}
		fmt.Fprintf(&b, "row %d: %s %s: %s becomes %s\n", e.Row, e.Stock, e.Path, was, e.Value)
	}
	held(&b, p, command(program, "sheet "+shellWord(filepath.ToSlash(file)), from))
	lacking(&b, p)
	faults(&b, p.Faults)
	what, flags := "new unit", " -apply"
	if p.Models {
		what, flags = "new model", " -models -apply"
	}
	done := "nothing written; to do it: " + command(program, "sheet "+shellWord(filepath.ToSlash(file))+flags, from)
	switch {
	case len(p.New)+len(p.Edits) == 0:
		done = "nothing to change"
	case applied:
		done = "written"
		if len(p.Edits) > 0 {
			done += "; what the files were before is in earlier/"
		}
	}
	fmt.Fprintf(&b, "%s, %s, %d as before, %s: %s\n", count(len(p.New), what), count(len(p.Edits), "change"), p.Same, fmt.Sprintf("%d not taken", len(p.Faults)), done)
	_, err := io.WriteString(w, visibleLines(b.String()))
	return err
}

// columns says which column is taken for which key. The columns that are not taken are named too: a
// few next to the others, many on a line of their own at the end.
func columns(b *strings.Builder, list []spreadsheet.Column) {
	const few = 8
	var out []string
	for _, c := range list {
		if c.Key == "" && strings.TrimSpace(c.Header) != "" {
			out = append(out, strings.Join(strings.Fields(c.Header), " "))
		}
	}
	b.WriteString("columns:\n")
	for _, c := range list {
		header := strings.Join(strings.Fields(c.Header), " ") // a name may have two lines
		switch {
		case header == "", c.Key == "" && len(out) > few:
		case c.Key == "":
			fmt.Fprintf(b, "  %-24s not taken\n", header)
		case c.Since:
			fmt.Fprintf(b, "  %-24s the day of %s\n", header, c.Key)
		default:
			fmt.Fprintf(b, "  %-24s %s\n", header, c.Key)
		}
	}
	if len(out) > few {
		fmt.Fprintf(b, "  not taken: %s\n", strings.Join(out, ", "))
	}
}

// held names what the yard keeps against the sheet, and how the sheet's is taken all the same.
func held(b *strings.Builder, p *spreadsheet.Plan, again string) {
	if len(p.Held) == 0 {
		return
	}
	b.WriteString("kept as the yard has it:\n")
	var sold, stocks []string
	for _, k := range p.Held {
		fmt.Fprintf(b, "  row %d: %s %s stays %s, the sheet has %s: %s\n", k.Row, k.Stock, k.Path, k.Old, k.Value, k.Why)
		stocks = append(stocks, k.Stock)
		if k.Path == "availability" && strings.HasPrefix(k.Old, "sold") {
			sold = append(sold, k.Stock)
		}
	}
	// A command that takes them all is copied without a look, and a sold trailer is for sale again.
	stocks = slices.DeleteFunc(stocks, func(s string) bool { return slices.Contains(sold, s) })
	if len(stocks) == 0 {
		b.WriteString("  put the sheet right\n")
		return
	}
	fmt.Fprintf(b, "  put the sheet right; or, to take what the sheet has for a unit, name it, as in %s\n", again+" -apply -anyway "+shellWord(stocks[0]))
}

// lacking says that a sheet adds nothing to a file that is there, and which values that concerns.
func lacking(b *strings.Builder, p *spreadsheet.Plan) {
	if n := len(p.Lacking); n > 0 && !p.Models {
		fmt.Fprintf(b, "%s without a value that the sheet has (%s): %s\n", count(n, "unit"), strings.Join(p.LackedKeys, ", "), strings.Join(p.Lacking, ", "))
		b.WriteString("  a sheet does not add it to a file that is there, also after columns.txt is put right: write it into the file; or delete the file, if nothing was changed in it, and read the sheet again\n")
	}
}

// newFiles names the new units or models: a few with the files that they get, many on one line.
func newFiles(b *strings.Builder, p *spreadsheet.Plan) {
	const few = 5
	list, what, folder := p.New, "unit", "content/units"
	if p.Models {
		what, folder = "model", "content/models"
	}
	if len(list) > few {
		var names []string
		for _, n := range list {
			names = append(names, n.Stock)
		}
		fmt.Fprintf(b, "new %ss, each with a file in %s: %s\n", what, folder, strings.Join(names, ", "))
		return
	}
	for _, n := range list {
		fmt.Fprintf(b, "row %d: new %s %s, %s\n", n.Row, what, n.Stock, n.File)
	}
}

// faults prints what is not taken. The same fault of one column is printed once, with the rows of
// the others.
func faults(b *strings.Builder, list []spreadsheet.Fault) {
	rows := map[string][]string{}
	key := func(f spreadsheet.Fault) string { return f.Column + "\x00" + quoted.ReplaceAllString(f.Reason, "") }
	for _, f := range list {
		rows[key(f)] = append(rows[key(f)], strconv.Itoa(f.Row))
	}
	for _, f := range list {
		same := rows[key(f)]
		if len(same) == 0 {
			continue
		}
		at := fmt.Sprintf("row %d", f.Row)
		if f.Column != "" {
			at += ", column " + f.Column
		}
		fmt.Fprintf(b, "%s: not taken: %s\n", at, f.Reason)
		if len(same) < leastFolded {
			rows[key(f)] = same[1:]
			continue
		}
		fmt.Fprintf(b, "    the same in %s: %s\n", count(len(same)-1, "more row"), strings.Join(same[1:], ", "))
		delete(rows, key(f))
	}
}

// quoted matches what a cell has, as a reason quotes it.
var quoted = regexp.MustCompile(`"[^"]*"|\b[0-9]+[- ][0-9]+/[0-9]+`)

// visibleLines is Visible for each line of a text.
func visibleLines(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = Visible(l)
	}
	return strings.Join(lines, "\n")
}
