package spreadsheet

import (
	"strings"
	"testing"

	"tarepage/internal/unit"
)

// TestAlike: a number that differs in marks or zeros from one that is there makes no second page of
// one trailer. Another number makes a file.
func TestAlike(t *testing.T) {
	u, problems := unit.ReadUnit("content/units/d-105.md", []byte("---\nstock: D-105\n---\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p := plan(t, "sheet.csv", []byte("Stock,Price\nD105,1900\nD-106,1900\nd106,1900\n00204,1900\n204,1900\nD-107,1900\nD-1070,1900\n"), []*unit.Unit{u})
	var made, refused []string
	for _, n := range p.New {
		made = append(made, n.Stock)
	}
	for _, f := range p.Faults {
		refused = append(refused, f.Reason)
	}
	if got := strings.Join(made, " "); got != "D-106 00204 D-107 D-1070" {
		t.Errorf("files are made of %s", got)
	}
	if len(refused) != 3 {
		t.Fatalf("refused are %q", refused)
	}
	for i, want := range []string{`"D105" is like D-105`, `"d106" is like D-106`, `"204" is like 00204`} {
		if !strings.Contains(refused[i], want) {
			t.Errorf("refusal %d is %s, want %s", i, refused[i], want)
		}
	}
}

// TestKnownNumberIsEdited: a row whose number is written as the yard writes it edits, as before, also
// where the yard has two numbers that are alike.
func TestKnownNumberIsEdited(t *testing.T) {
	var units []*unit.Unit
	for _, stock := range []string{"D-105", "D105"} {
		u, _ := unit.ReadUnit("content/units/"+strings.ToLower(stock)+".md", []byte("---\nstock: "+stock+"\nprice: $1,500\n---\n"))
		units = append(units, u)
	}
	p := plan(t, "sheet.csv", []byte("Stock,Price\nD105,1900\nd-105,1800\n"), units)
	if len(p.Edits) != 2 || len(p.New)+len(p.Faults) != 0 {
		t.Errorf("%d edits, %d new, faults %v", len(p.Edits), len(p.New), p.Faults)
	}
}

// TestPapersAreNotATitle: a column Title that is about papers never becomes what customers read first.
func TestPapersAreNotATitle(t *testing.T) {
	for _, cell := range []string{"In hand", "At bank", "MSO", "mso", "Clear title", "Title", "with lender", "Applied for", "yes", "No title", "in the safe", "Lost", "pending"} {
		if _, err := (Column{Key: "title"}).value(cell, docOf(t, "title")); err == nil || !strings.Contains(err.Error(), "about the paper") {
			t.Errorf("%q is a title: %v", cell, err)
		}
	}
	for _, cell := range []string{"76 in x 12 ft utility trailer", "Clean 14 ft dump trailer", "7x14 dump, title in hand", "Mason's trailer", "No ramp utility", "Utility"} {
		if got, err := (Column{Key: "title"}).value(cell, docOf(t, "title")); err != nil || got != cell {
			t.Errorf("%q is not a title: %v", cell, err)
		}
	}
	p := plan(t, "sheet.csv", []byte("Stock,Title,Type,Length (ft)\nE-1,In hand,dump,14\n"), nil)
	if len(p.New) != 1 || !strings.Contains(string(p.New[0].Text), "title: 14 ft dump trailer\n") || len(p.Faults) != 1 {
		t.Errorf("the file is %v, faults %v", p.New, p.Faults)
	}
}
