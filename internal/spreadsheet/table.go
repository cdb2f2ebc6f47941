package spreadsheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"tarepage/internal/stockfile"
)

// MaxBytes is the largest file that is read. MaxUnpacked is the most that a workbook, which
// is packed, may unpack to, and maxRows and maxColumns how many rows and columns are read.
// maxCells counts blank cells too: a workbook of 100 KB can hold 300 million of them.
const (
	MaxBytes    = 32 << 20
	MaxUnpacked = 128 << 20
	maxRows     = 20_000
	maxColumns  = 500
	maxCells    = maxRows * maxColumns
	// maxText is how many bytes all cells hold together. A workbook stores a text once and names
	// it in many cells, so a small file can hold gigabytes.
	maxText = 16 << 20
	// maxCell is how many bytes one cell holds: 32,767 letters, the most in a workbook, of four bytes.
	maxCell = 128 << 10
)

// A Table is a sheet: the names of its columns, and its rows.
type Table struct {
	Name   string // of its file
	Header []string
	// HeaderRow is the number of the row with the names.
	HeaderRow int
	Rows      []Row
}

// A Row is one row with its number in the sheet, which begins at 1.
type Row struct {
	Number int
	Cells  []string
}

// Read reads a sheet by the ending of its name: .csv, .tsv or .xlsx, of which the first sheet
// counts. The first row with two texts or more is the header.
func Read(name string, data []byte) (*Table, error) {
	var rows [][]string
	var err error
	switch strings.ToLower(filepath.Ext(name)) {
	case ".csv", ".tsv":
		rows, err = separated(data)
	case ".xlsx":
		rows, err = workbook(data, MaxUnpacked)
	default:
		return nil, fmt.Errorf("%q is not a sheet; save it as .xlsx or .csv", name)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	t := &Table{Name: name}
	for i, cells := range rows {
		for j := range cells {
			cells[j] = stockfile.Plain(strings.TrimSpace(strings.ReplaceAll(cells[j], "\u00a0", " ")))
		}
		if filled := count(cells); t.Header == nil && filled < 2 || filled == 0 {
			continue
		}
		if t.Header == nil {
			t.Header, t.HeaderRow = cells, i+1
			continue
		}
		t.Rows = append(t.Rows, Row{i + 1, cells})
	}
	if t.Header == nil {
		return nil, fmt.Errorf("%s: there is no row with the names of the columns", name)
	}
	return t, nil
}

func count(cells []string) (n int) {
	for _, c := range cells {
		if c != "" {
			n++
		}
	}
	return n
}

// Cell is the text of a row in a column; empty for a row that ends before it.
func (r Row) Cell(column int) string {
	if column >= len(r.Cells) {
		return ""
	}
	return r.Cells[column]
}

// separated reads values between commas, or between semicolons or tabs where the first line
// has more of those.
func separated(data []byte) ([][]string, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	first, _, _ := bytes.Cut(data, []byte("\n"))
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.LazyQuotes = -1, true
	for _, mark := range ";\t" {
		if bytes.Count(first, []byte(string(mark))) > bytes.Count(first, []byte(string(r.Comma))) {
			r.Comma = mark
		}
	}
	var rows [][]string
	var all extent
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, fmt.Errorf("it does not read as CSV: %w", err)
		}
		line, _ := r.FieldPos(0)
		if line > maxRows {
			return nil, fmt.Errorf("it has more than %d rows", maxRows)
		}
		// A row keeps the number of its line, although the reader skips blank lines.
		for len(rows) < line-1 {
			rows = append(rows, nil)
		}
		if cells, err = fitting(cells, line, &all); err != nil {
			return nil, err
		}
		rows = append(rows, cells)
	}
}

// An extent counts cells and the bytes of their texts.
type extent struct{ cells, bytes int }

// fitting is a copy of a row without the blank cells at its end, if the sheet is of a size that
// is read. All counts the cells of all rows, and their bytes.
func fitting(cells []string, row int, all *extent) ([]string, error) {
	for i, c := range cells {
		if all.bytes += len(c); len(c) > maxCell {
			return nil, fmt.Errorf("the cell in row %d, column %d holds %d bytes of text; at most %d are read: a quotation mark that is never closed can join many rows", row, i+1, len(c), maxCell)
		}
	}
	if all.bytes > maxText {
		return nil, fmt.Errorf("its cells hold more than %d MB of text up to row %d; copy the columns that you need into a new sheet", maxText>>20, row)
	}
	if all.cells += len(cells); all.cells > maxCells {
		return nil, fmt.Errorf("it has more than %d cells up to row %d; copy the rows and columns that hold something into a new sheet", maxCells, row)
	}
	n := len(cells)
	for n > 0 && strings.TrimSpace(cells[n-1]) == "" {
		n--
	}
	if n > maxColumns {
		return nil, fmt.Errorf("row %d has something in column %d; at most %d columns are read", row, n, maxColumns)
	}
	return slices.Clone(cells[:n]), nil
}

// notAWorkbook says why a file does not open, and what to do. Older workbooks begin with the marks of
// a compound file ([MS-CFB] 2.2), and so do workbooks with a password.
func notAWorkbook(data []byte, err error) error {
	const again = "open it in the program that made it, and save it again as .xlsx or .csv"
	switch {
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")):
		return errors.New("it is an older workbook (.xls) with another ending, or it has a password; " + again + ", without a password")
	case !bytes.HasPrefix(data, []byte("PK")):
		return errors.New("it is not a workbook, although its name says so; " + again)
	}
	return fmt.Errorf("it does not open as a workbook (%w); it may be damaged or half copied: copy it again, or %s", err, again)
}

// workbook reads the first sheet of a workbook that unpacks to most bytes or fewer. Cells are as they
// are stored: a day is a number there, and Column.value knows it.
func workbook(data []byte, most int64) (rows [][]string, err error) {
	if err := shapely(data, most); err != nil {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true, UnzipSizeLimit: most, UnzipXMLSizeLimit: most})
	if err != nil {
		return nil, notAWorkbook(data, err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	names := f.GetSheetList()
	if len(names) == 0 {
		return nil, errors.New("the workbook has no sheet")
	}
	all, err := f.Rows(names[0])
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, all.Close()) }()
	var many extent
	for all.Next() {
		cells, err := all.Columns()
		if err == nil {
			cells, err = fitting(cells, len(rows)+1, &many)
		}
		if err != nil {
			return nil, err
		}
		if rows = append(rows, cells); len(rows) > maxRows {
			return nil, fmt.Errorf("it has more than %d rows", maxRows)
		}
	}
	return rows, all.Error()
}
