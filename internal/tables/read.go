package tables

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"tarepage/internal/measure"
)

//go:embed data/*.csv
var files embed.FS

// A sheet is one CSV file: how it is read and what must hold in it.
type sheet[R any] struct {
	name    string // as a page links to it: "tires"
	title   string
	file    string
	columns []string
	// graded is the column whose grade counts for the row.
	graded string
	row    func(*row) R
	// key is what may be in the table only once.
	key func(R) string
	// rules holds what must be true of the rows together, or nil.
	rules func(rows []placed[R], fail failure)

	once func() (content[R], error)
}

// content is a sheet that has been read.
type content[R any] struct {
	rows  []R
	cells [][]string
	// edition is the beginning of the SHA-256 of the whole file.
	edition string
}

// placed is a row with its line.
type placed[R any] struct {
	line int
	is   R
}

// failure reports a fault at a line.
type failure func(line int, format string, args ...any)

func newSheet[R any](s sheet[R]) *sheet[R] {
	if s.graded == "" {
		s.graded = "grade"
	}
	s.once = sync.OnceValues(func() (content[R], error) {
		data, err := files.ReadFile("data/" + s.file)
		if err != nil {
			return content[R]{}, fmt.Errorf("%s: the table is missing from the program", s.file)
		}
		c, err := s.read(data)
		c.edition = fmt.Sprintf("%x", sha256.Sum256(data))[:12]
		return c, err
	})
	return &s
}

// all returns the rows, or none when the table has a fault.
func (s *sheet[R]) all() []R {
	c, err := s.once()
	if err != nil {
		return nil
	}
	return c.rows
}

// faults gathers what is wrong with one file.
type faults struct {
	file string
	list []error
}

func (f *faults) add(line int, format string, args ...any) {
	f.list = append(f.list, fmt.Errorf("%s:%d: %s", f.file, line, fmt.Sprintf(format, args...)))
}

// read reads a whole CSV and reports every fault in it.
func (s *sheet[R]) read(data []byte) (content[R], error) {
	found := &faults{file: s.file}
	in := csv.NewReader(bytes.NewReader(data))
	in.FieldsPerRecord = -1
	at := s.header(in, found)
	if found.list != nil {
		return content[R]{}, errors.Join(found.list...)
	}
	out, rows := s.rows(in, at, found)
	if len(rows) == 0 && found.list == nil {
		found.add(1, "the table has no rows")
	}
	// Rules over all rows would only repeat the faults of single ones.
	if found.list == nil && s.rules != nil {
		s.rules(rows, found.add)
	}
	if found.list != nil {
		return content[R]{}, errors.Join(found.list...)
	}
	return out, nil
}

// header reads the line of columns and returns where each of them is.
func (s *sheet[R]) header(in *csv.Reader, found *faults) map[string]int {
	header, err := in.Read()
	if err != nil {
		found.add(1, "the first line must name the columns %s", strings.Join(s.columns, ","))
		return nil
	}
	at := make(map[string]int, len(header))
	for i, name := range header {
		if !slices.Contains(s.columns, name) {
			found.add(1, "column %q is not one of %s", name, strings.Join(s.columns, ","))
		}
		if _, twice := at[name]; twice {
			found.add(1, "column %q is there twice", name)
		}
		at[name] = i
	}
	for _, name := range s.columns {
		if _, ok := at[name]; !ok {
			found.add(1, "column %q is missing", name)
		}
	}
	return at
}

// rows reads the lines after the header. A line with a fault is left out.
func (s *sheet[R]) rows(in *csv.Reader, at map[string]int, found *faults) (out content[R], rows []placed[R]) {
	first := map[string]int{}
	for {
		cells, err := in.Read()
		if err == io.EOF {
			return out, rows
		}
		var malformed *csv.ParseError
		if errors.As(err, &malformed) {
			found.add(malformed.Line, "the line does not read as CSV: %v", malformed.Err)
			return out, rows
		} else if err != nil {
			found.add(len(rows)+2, "the line does not read: %v", err)
			return out, rows
		}
		line, _ := in.FieldPos(0)
		if len(cells) != len(at) {
			found.add(line, "%d cells where the first line names %d columns", len(cells), len(at))
			continue
		}
		if i, ok := at["source"]; ok {
			cells[i] = public(cells[i])
		}
		before := len(found.list)
		r := s.row(&row{line: line, at: at, cells: cells, fail: found.add})
		if len(found.list) > before {
			continue
		}
		k := s.key(r)
		if earlier, twice := first[k]; twice {
			found.add(line, "%s is already at line %d", k, earlier)
			continue
		}
		first[k] = line
		rows = append(rows, placed[R]{line, r})
		out.rows = append(out.rows, r)
		out.cells = append(out.cells, cells)
	}
}

// private is the part of a source that names the maker of a product: whoever checks the
// table needs it, and no page prints it.
var private = regexp.MustCompile(` ?\[[^\]]*\]`)

// public is a source as pages, cards and exports print it: "axle maker's manual, p. 16
// [Example Axle]" is "axle maker's manual, p. 16".
func public(source string) string { return private.ReplaceAllString(source, "") }

// A row reads the cells of one line by column.
type row struct {
	line  int
	at    map[string]int
	cells []string
	fail  failure
}

// text is the cell as written, blank allowed.
func (r *row) text(column string) string { return strings.TrimSpace(r.cells[r.at[column]]) }

// must is the cell as written, blank refused.
func (r *row) must(column string) string {
	s := r.text(column)
	if s == "" {
		r.fail(r.line, "column %s is blank", column)
	}
	return s
}

// number is the cell as a number, 0 when blank.
func (r *row) number(column string) float64 {
	s := r.text(column)
	if s == "" {
		return 0
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || strings.Trim(s, "0123456789.") != "" {
		r.fail(r.line, "column %s: %q is not a number; write digits, such as 3420 or 2.5", column, s)
		return 0
	}
	return v
}

// positive is the cell as a number above zero.
func (r *row) positive(column string) float64 {
	if r.must(column) == "" {
		return 0
	}
	v := r.number(column)
	if v == 0 && strings.Trim(r.text(column), "0.") == "" {
		r.fail(r.line, "column %s is zero", column)
	}
	return v
}

// whole is the cell as a whole number, 0 when blank.
func (r *row) whole(column string) int {
	v := r.number(column)
	if n := int(v); float64(n) == v {
		return n
	}
	r.fail(r.line, "column %s: %q is not a whole number", column, r.text(column))
	return 0
}

func (r *row) pounds(column string) measure.Pounds { return measure.Pounds(r.number(column)) }

// inches reads a size such as 5/16 or 1-3/4.
func (r *row) inches(column string) measure.Inches {
	w, err := measure.ParseLength(r.must(column) + " in")
	if err != nil {
		r.fail(r.line, "column %s: %v", column, err)
	}
	return w.Value
}

// span reads two columns as the ends of a range; both blank means that there is none.
func span[U ~float64 | ~int](r *row, low, high string) Span[U] {
	if r.text(low) == "" && r.text(high) == "" {
		return Span[U]{}
	}
	s := Span[U]{U(r.number(low)), U(r.positive(high))}
	if s.Low > s.High {
		r.fail(r.line, "column %s: %s is above %s in column %s", low, r.text(low), r.text(high), high)
	}
	return s
}

// percents reads two columns as the ends of a range of shares, written in percent.
func percents(r *row, low, high string) (measure.Share, measure.Share) {
	r.positive(low)
	s := span[float64](r, low, high)
	return percent(s.Low), percent(s.High)
}

func percent(v float64) measure.Share { return measure.Share(v / 100) }

// grade reads a grade column; needed says whether blank is refused.
func (r *row) grade(column string, needed bool) Grade {
	g := Grade(r.text(column))
	switch {
	case g == "" && needed:
		r.fail(r.line, "column %s is blank; write one of %s", column, gradeList())
	case g != "" && !g.Known():
		r.fail(r.line, "column %s: %q is not a grade; write one of %s", column, string(g), gradeList())
	}
	return g
}

// gradeFor reads the grade of one figure: needed when the figure is there, refused when
// it is not.
func (r *row) gradeFor(column string, figures ...string) Grade {
	there := false
	for _, f := range figures {
		there = there || r.text(f) != ""
	}
	g := r.grade(column, there)
	if g != "" && !there {
		r.fail(r.line, "column %s grades a figure that is blank", column)
	}
	return g
}

// cited reads source, grade and note.
func (r *row) cited() Cited {
	return Cited{Source: r.must("source"), Grade: r.grade("grade", true), Note: r.text("note")}
}

func gradeList() string {
	var names []string
	for _, g := range Grades() {
		names = append(names, string(g))
	}
	return strings.Join(names, ", ")
}

// Span is a range from Low to High, both included. The zero Span says nothing.
type Span[U ~float64 | ~int] struct{ Low, High U }

// Stated reports whether the row gives the range.
func (s Span[U]) Stated() bool { return s.High > 0 }

// Holds reports whether v is in the range.
func (s Span[U]) Holds(v U) bool { return v >= s.Low && v <= s.High }
