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
	yard *unit.Yard
	cols []column
	n    int
	to   [3]io.Writer // in the order of LinePaths
	at   [3]int       // how many bytes each has
}

// Lines are the parts of the files for one trailer, in the order of LinePaths.
type Lines [3][]byte

// Places are where the Lines of one trailer are in the files.
type Places [3]Place

// A Place is a part of a file: where it begins, and how many bytes it has.
type Place struct{ At, Bytes int }

// LinePaths are the files of which each trailer has a part.
func LinePaths() [3]string { return [3]string{JSONPath, csvPath, spreadsheetPath} }

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
	for i, path := range LinePaths() {
		if w.to[i], err = open(path); err != nil {
			return nil, err
		}
		if err := w.write(i, [...]string{string(top), string(row), "\xef\xbb\xbf" + string(row)}[i]); err != nil {
			return nil, err
		}
	}
	return w, nil
}

func (w *Writer) write(file int, text string) error {
	n, err := io.WriteString(w.to[file], text)
	w.at[file] += n
	return err
}

// Lines writes the lines of a trailer. It may be called by several at a time.
func (w *Writer) Lines(u *Unit) (l Lines, err error) {
	if l[0], err = json.Marshal(rowOf(u)); err != nil {
		return l, fmt.Errorf("stock.json: %s: %w", u.Work.Unit.File, err)
	}
	row := cells(w.yard, u, w.cols)
	if l[1], err = record(row); err != nil {
		return l, err
	}
	for i := range row {
		row[i] = Safe(row[i])
	}
	l[2], err = record(row)
	return l, err
}

// Add adds the lines of the next trailer, and returns where they are.
func (w *Writer) Add(l Lines) (at Places, err error) {
	before := "\n  "
	if w.n++; w.n > 1 {
		before = ",\n  "
	}
	err = w.write(0, before)
	for i, text := range l {
		at[i] = Place{w.at[i], len(text)}
		if err == nil {
			err = w.write(i, string(text))
		}
	}
	return at, err
}

// End completes the files.
func (w *Writer) End() error {
	return w.write(0, closing)
}
