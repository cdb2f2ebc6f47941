package tables

import "slices"

// A Table is one table as a page shows it.
type Table struct {
	Name    string // for links: "tires"
	Title   string
	File    string // "tires.csv"
	Columns []string
	Rows    int
	// Edition is the beginning of the SHA-256 of the file, in hex: two programs with the
	// same editions work with the same numbers.
	Edition string
	// Records are the rows as written in the file, cell by cell, in the file's order.
	Records [][]string
	// Sources are the different sources of the rows, in the file's order.
	Sources []string
	// Graded is the column that Grades counts. Where the figures of a row are graded
	// one by one, it is the grade of the principal one.
	Graded string
	// Grades counts the rows of each grade that occurs, the strongest first.
	Grades []GradeCount
}

// GradeCount is how many rows of a table have a grade.
type GradeCount struct {
	Grade Grade
	Rows  int
}

// anySheet is a sheet whatever its rows are.
type anySheet interface {
	table() (Table, error)
}

func (s *sheet[R]) table() (Table, error) {
	c, err := s.once()
	if err != nil {
		return Table{}, err
	}
	t := Table{Name: s.name, Title: s.title, File: s.file, Columns: slices.Clone(s.columns),
		Rows: len(c.rows), Graded: s.graded, Edition: c.edition}
	// The loader accepts columns in any order; the embedded files keep the declared one,
	// which a test holds, so that a cell is found by its declared column.
	source, graded := slices.Index(s.columns, "source"), slices.Index(s.columns, s.graded)
	counts := map[Grade]int{}
	for _, cells := range c.cells {
		t.Records = append(t.Records, slices.Clone(cells))
		if !slices.Contains(t.Sources, cells[source]) {
			t.Sources = append(t.Sources, cells[source])
		}
		counts[Grade(cells[graded])]++
	}
	for _, g := range Grades() {
		if counts[g] > 0 {
			t.Grades = append(t.Grades, GradeCount{g, counts[g]})
		}
	}
	return t, nil
}

// sheets lists every table in the order a page shows them.
var sheets = []anySheet{
	tireSheet, loadRangeSheet, loadIndexSheet, speedSheet, exponentSheet, loadPointSheet, dualShareSheet,
	hitchBallSheet, tongueBandSheet, torqueSheet,
	sectionSheet, plateSheet, solidSheet, componentSheet, emptyBandSheet,
	bulkSheet, liquidSheet, cargoSheet,
	exciseSheet, stateBrakesSheet, stateRuleSheet, clauseSheet,
}

// All returns every table that loads, in a fixed order. Tables with a fault are left
// out; a test reads every table and names every fault.
func All() []Table {
	var out []Table
	for _, s := range sheets {
		if t, err := s.table(); err == nil {
			out = append(out, t)
		}
	}
	return out
}
