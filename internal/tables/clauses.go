package tables

import (
	"strings"
)

// A Clause is one document that figures and rules cite: in which edition it was read and
// what is known to have changed since.
type Clause struct {
	// Mark is how a source names it: 571.110, USC 4051, J684.
	Mark string
	// Document is its name and what it is about.
	Document string
	// Edition is the edition or copy that was read.
	Edition string
	// Changed says what is known of later changes, or nothing.
	Changed string
	Cited
}

// Since says what changed after the edition that was read. Where nothing is known it says
// that nobody looked.
func (c Clause) Since() string {
	if c.Changed != "" {
		return c.Changed
	}
	if c.Edition == "2015" {
		return "not checked since 2015"
	}
	return "not checked since"
}

var clauseSheet = newSheet(sheet[Clause]{
	name: "clauses", title: "Laws and standards that are cited, and the editions that were read", file: "clause.csv",
	columns: []string{"mark", "document", "edition", "since", "source", "grade", "note"},
	row: func(r *row) Clause {
		return Clause{r.must("mark"), r.must("document"), r.must("edition"), r.text("since"), r.cited()}
	},
	key: func(c Clause) string { return c.Mark },
})

// Clauses returns the documents that a source cites, in the table's order, each once.
func Clauses(source string) []Clause {
	var out []Clause
	for _, c := range clauseSheet.all() {
		if cites(source, c.Mark) {
			out = append(out, c)
		}
	}
	return out
}

// AllClauses returns every document in the table.
func AllClauses() []Clause { return clone(clauseSheet) }

// cites reports whether the mark is in the source and is not a part of a longer number:
// 393.13 is not in 393.130.
func cites(source, mark string) bool {
	for from := 0; ; {
		i := strings.Index(source[from:], mark)
		if i < 0 {
			return false
		}
		start, end := from+i, from+i+len(mark)
		if (start == 0 || !inNumber(source[start-1])) && (end == len(source) || source[end] < '0' || source[end] > '9') {
			return true
		}
		from = end
	}
}

func inNumber(c byte) bool { return c == '.' || c >= '0' && c <= '9' }
