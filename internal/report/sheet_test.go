package report_test

import (
	"bytes"
	"strings"
	"testing"

	"tarepage/internal/report"
	"tarepage/internal/spreadsheet"
)

// TestColumnOfTwoLines: the name of a column, which the sheet's writer chose, makes no line of its
// own, which could pass for one of the program's.
func TestColumnOfTwoLines(t *testing.T) {
	plan := &spreadsheet.Plan{Columns: []spreadsheet.Column{{Header: "Price\r\nrow 2: EX-1 price: $1 becomes $2"}}}
	var out bytes.Buffer
	if err := report.Planned(&out, plan, false, "tarepage", ".", "stock.csv"); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), "\n  Price row 2: EX-1 price: $1 becomes $2 not taken\n") {
		t.Errorf("it prints\n%s", out.String())
	}
}
