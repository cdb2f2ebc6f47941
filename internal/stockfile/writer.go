package stockfile

import (
	"encoding/json"
	"fmt"
	"io"

	"tarepage/internal/unit"
)

// A Writer writes the files of a stock trailer by trailer. So the figures of one trailer can be
// dropped before those of the next are computed, and no file is in memory as a whole.
//
// stock.json has one trailer on a line. stock.csv is text/csv; charset=utf-8; header=present
// (RFC 4180), with CRLF after every row, numbers without thousands commas, and an empty field
// for a value that is not known. The file for spreadsheets is the same table with the mark by
// which they recognize UTF-8, and with an apostrophe in front of every text that they would take
// for a formula. Programs read stock.csv, which has none of that.
type Writer struct {
	yard             *unit.Yard
	cols             []column
	n                int
	json, csv, sheet io.Writer
}

// Lines are the parts of the files for one trailer.
type Lines struct{ json, csv, sheet []byte }

// NewWriter begins the files of a yard; each is written to what open returns for its path.
func NewWriter(y *unit.Yard, open func(path string) (io.Writer, error)) (*Writer, error) {
	w := &Writer{yard: y, cols: columns()}
	var names []string
	for _, c := range w.cols {
		names = append(names, c.name)
	}
	row, err := record(names)
	if err != nil {
		return nil, err
	}
	top, err := begin(y)
	if err != nil {
		return nil, err
	}
	for _, f := range []struct {
		path string
		to   *io.Writer
		text []byte
	}{
		{JSONPath, &w.json, top},
		{csvPath, &w.csv, row},
		{spreadsheetPath, &w.sheet, append([]byte("\xef\xbb\xbf"), row...)},
	} {
		if *f.to, err = open(f.path); err != nil {
			return nil, err
		}
		if _, err := (*f.to).Write(f.text); err != nil {
			return nil, err
		}
	}
	return w, nil
}

// Lines writes the lines of a trailer. It may be called by several at a time.
func (w *Writer) Lines(u *Unit) (l Lines, err error) {
	if l.json, err = json.Marshal(rowOf(u)); err != nil {
		return l, fmt.Errorf("stock.json: %s: %w", u.Work.Unit.File, err)
	}
	row := cells(w.yard, u, w.cols)
	if l.csv, err = record(row); err != nil {
		return l, err
	}
	for i := range row {
		row[i] = text(row[i])
	}
	l.sheet, err = record(row)
	return l, err
}

// Add adds the lines of the next trailer.
func (w *Writer) Add(l Lines) error {
	before := "\n  "
	if w.n++; w.n > 1 {
		before = ",\n  "
	}
	_, err := io.WriteString(w.json, before)
	for _, f := range []struct {
		to   io.Writer
		text []byte
	}{{w.json, l.json}, {w.csv, l.csv}, {w.sheet, l.sheet}} {
		if err == nil {
			_, err = f.to.Write(f.text)
		}
	}
	return err
}

// End completes the files.
func (w *Writer) End() error {
	_, err := io.WriteString(w.json, closing)
	return err
}
