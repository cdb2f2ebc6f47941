package spreadsheet

import (
	"strings"
	"testing"
)

// Each short form of a cell is written as its row says, in its column only.
func TestCellForms(t *testing.T) {
	for _, f := range cellForms {
		if got := (Column{Key: f.key}).plainCell(f.example, f.kind); got != f.made {
			t.Errorf("%s is %q, want %q", f.example, got, f.made)
		}
		if got := (Column{Key: "color"}).plainCell(f.example, "text"); got != f.example {
			t.Errorf("%s in a column of colors is %q", f.example, got)
		}
	}
}

// What a whole row of short cells under short headings becomes.
func TestShortRow(t *testing.T) {
	text := "Stk No.,Type,N/U,Yr,Mfr,Wid (in),Lgth (ft),GVW,Wt empty,# Axles,Axle lb,Brakes,Where,In\n" +
		"T-1,Utility,N,'26,Oxbow,76,12,14K,1180#,2,7K,elec,lot,11/2/26\n"
	p := plan(t, "a.csv", []byte(text), nil)
	if len(p.New) != 1 || len(p.Faults) != 0 {
		t.Fatalf("%v", p.Faults)
	}
	file := string(p.New[0].Text)
	for _, want := range []string{"condition: new\n", "year: 2026\n", "make: Oxbow\n", "width: 76 in", "length: 12 ft", "gvwr: 14,000 lb", "empty: 1180#",
		"count: 2 ", "rating: 7,000 lb", "kind: electric\n", "availability: on the yard\n", "arrived: 2026-11-02\n"} {
		if !strings.Contains(file, want) {
			t.Errorf("there is no %q in\n%s", want, file)
		}
	}
}

// A number is not taken for pounds if it is likely thousands, a day is not guessed at, and a row of
// sums is not a trailer. What has a unit, or is at the limit, is taken.
func TestAskedCells(t *testing.T) {
	for row, want := range map[string]string{
		"GVW;14":              `"14" is very little for weights.gvwr; if it is thousands, write 14,000; if it is right, write 14 lb`,
		"GVWR (kg);6.3":       `"6.3" is very little for weights.gvwr`,
		"GVWR (kg);14K":       "14K",
		"GVW;99":              "very little",
		"GVW;100":             "",
		"GVW;14 lb":           "",
		"GVW;14K":             "",
		"Axle lb;3.5":         "very little for axles.rating",
		"Tongue weight;14":    "",
		"Tongue weight;9":     "very little for weights.tongue-empty",
		"Date in;13/5/26":     `date "13/5/26" does not read`,
		"Yr;'45":              "is not a count",
		"Where;Smithville":    "is not one of its values",
		"Stock;TOTAL":         `"TOTAL" is a row of sums`,
		"Stock;Grand total:":  "is a row of sums",
		"Stock;SUBTOTAL":      "is a row of sums",
		"Stock;TOTAL-1":       "",
		"Stock;Total Trailer": "cannot name a page",
	} {
		header, cell, _ := strings.Cut(row, ";")
		text := "Stock," + header + "\nSB-1," + cell + "\n"
		if header == "Stock" {
			text = "Stock,Price\n" + cell + ",412300\n"
		}
		p := plan(t, "a.csv", []byte(text), nil)
		switch {
		case want == "" && (len(p.Faults) > 0 || len(p.New) != 1):
			t.Errorf("%s: %v", row, p.Faults)
		case want != "" && (len(p.Faults) != 1 || !strings.Contains(p.Faults[0].Reason, want)):
			t.Errorf("%s: %v, want %s", row, p.Faults, want)
		}
	}
}

// TestWorkedOutColumns reads the columns of the spreadsheet that the site gives away: a payload that
// this program worked out is not what the maker claims. In a maker's sheet it is.
func TestWorkedOutColumns(t *testing.T) {
	for header, want := range map[string]string{"stock,payload-lb,payload-from": "", "Stock,payload-lb": "claimed.payload", "Stock,Payload,payload-from": "claimed.payload"} {
		if got := Match(strings.Split(header, ","), nil)[1].Key; got != want {
			t.Errorf("%s: the payload is taken for %q, want %q", header, got, want)
		}
	}
}
