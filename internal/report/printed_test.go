package report

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"golang.org/x/tools/txtar"

	"tarepage/internal/amend"
	"tarepage/internal/captions"
	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/intake"
	"tarepage/internal/measure"
	"tarepage/internal/spreadsheet"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

var update = flag.Bool("update", false, "write what the printers print into testdata/printed.txtar")

var (
	stopRule   = &inspect.Rule{Name: "tires-under-axle", Severity: inspect.Stop}
	otherRule  = &inspect.Rule{Name: "ball-under-gvwr", Severity: inspect.Stop}
	remarkRule = &inspect.Rule{Name: "price-missing", Severity: inspect.Remark}
)

var ignoredFile = finding(&inspect.Rule{Name: unit.FileIgnored, Severity: inspect.Remark}, 1, "\"ex-2.md.txt\" is not a Markdown file and is not read")

func finding(r *inspect.Rule, line int32, message string, related ...unit.Place) inspect.Finding {
	at := unit.Pos{File: "content/units/ex-1.md", Line: line, Column: 9}
	return inspect.Finding{Rule: r, Severity: r.Severity, At: at, Unit: at.File, Message: message, Related: related,
		Source: "49 CFR 571.120 S5.1.2", Remedy: "fit load range F"}
}

var findings = []inspect.Finding{
	finding(otherRule, 7, "the ball carries 3,000 lb, the trailer may weigh 7,000 lb"),
	finding(stopRule, 12, "tires carry 11,320 lb, axle is rated 12,000 lb", unit.Place{At: unit.Pos{File: "content/units/ex-1.md", Line: 3, Column: 2}, What: "the axle's rating"}),
	finding(stopRule, 20, "a name with \x1b[31m color and a line\nend"),
	finding(&inspect.Rule{Name: "wide-load", Severity: inspect.Caution}, 21, "103 in is wider than 102 in"),
	finding(remarkRule, 1, "no price is given"),
}

// sheetFindings are what five rows of a sheet leave out, and one number that differs.
func sheetFindings() (out []inspect.Finding) {
	for i := range 5 {
		at := unit.Pos{File: fmt.Sprintf("content/units/sb-%d.md", i+1), Line: 21, Column: 1}
		f := inspect.Finding{Rule: stopRule, Severity: inspect.Stop, At: at, Unit: at.File, Message: "tires.per-axle is missing", Source: "a source", Remedy: "give it"}
		out = append(out, f)
		f.Message, f.Value = fmt.Sprintf("no brakes are given, and gvwr is %d,000 lb", 7+i/4), fmt.Sprintf("%d,000 lb", 7+i/4)
		out = append(out, f)
		f.Rule, f.Severity, f.Message, f.Value = remarkRule, inspect.Remark, "no price is given", ""
		if i < 2 {
			out = append(out, f) // of two units only, so each is printed
		}
	}
	return out
}

// manyFindings are several stops in each of so many units.
func manyFindings(units int) (out []inspect.Finding) {
	missing := &inspect.Rule{Name: "unit-missing", Severity: inspect.Stop}
	for i := range units {
		at := unit.Pos{File: fmt.Sprintf("content/units/sb-%d.md", i+1), Line: 21, Column: 1}
		f := inspect.Finding{Rule: missing, Severity: inspect.Stop, At: at, Unit: at.File, Source: "a source", Remedy: "give it"}
		for j, what := range []string{"condition is empty", "axles.rating is empty", "title is missing", "the price was only said at 0:06: $2,495", "2 values to read off the tire were only said: tire size 205/75R15, load range C", "gvwr was only said: 2,990 lb"} {
			if (i/3+j)%4 != 0 {
				f.Message, f.Remedy = what, "give the "+what
				out = append(out, f)
			}
		}
	}
	return out
}

// manyRemarks are two cautions and a remark of each of eight rules, of two units.
func manyRemarks() (out []inspect.Finding) {
	for i, name := range []string{"a-rule", "b-rule", "c-rule", "d-rule", "e-rule", "f-rule", "g-rule", "h-rule"} {
		r := &inspect.Rule{Name: name, Severity: inspect.Remark}
		if i%3 == 0 {
			r.Severity = inspect.Caution
		}
		for unit := range 2 + i%2 {
			f := finding(r, int32(i+1), strings.Repeat(fmt.Sprintf("%s says %d; ", name, unit), 2+8*(i%2)))
			f.At.File = fmt.Sprintf("content/units/ex-%d.md", unit+1)
			f.Unit = f.At.File
			out = append(out, f)
		}
	}
	return out
}

// sameStop is one stop, found in so many units.
func sameStop(units int) (out []inspect.Finding) {
	for i := range units {
		f := finding(stopRule, 12, "the tires carry less than the axle is rated for")
		f.At.File = fmt.Sprintf("content/units/ex-%d.md", i+1)
		f.Unit = f.At.File
		out = append(out, f)
	}
	return out
}

// What a yard's own sheet and a maker's sheet would do.
var (
	yardSheet = &spreadsheet.Plan{
		Columns: []spreadsheet.Column{{Header: "Stock #", Key: "stock"}, {Header: "Our cost"}, {Header: " "}, {Header: "In since", Key: "arrived", Since: true}},
		New:     []spreadsheet.New{{Row: 2, Stock: "EX-9", File: "content/units/ex-9.md"}, {Row: 3, Stock: "EX-\x1b[1m10", File: "content/units/ex-10.md"}},
		Edits: []spreadsheet.Edit{
			{Row: 4, Stock: "EX-1", Old: "$5,200", Change: amend.Change{Path: "price", Value: "$4,900"}},
			{Row: 5, Stock: "EX-2", Change: amend.Change{Path: "color", Value: "black"}},
		},
		Held: []spreadsheet.Held{
			{Edit: spreadsheet.Edit{Row: 6, Stock: "EX-3", Old: "$3,100", Change: amend.Change{Path: "price", Value: "$3,000"}}, Why: "the yard changed it later"},
			{Edit: spreadsheet.Edit{Row: 6, Stock: "EX-3", Old: "sold", Change: amend.Change{Path: "availability", Value: "on the yard"}}, Why: "the yard changed it later"},
			{Edit: spreadsheet.Edit{Row: 7, Stock: "EX-4", Old: "sold", Change: amend.Change{Path: "availability", Value: "on the yard"}}, Why: "the yard changed it later"},
		},
		Faults: []spreadsheet.Fault{
			{Row: 8, Column: "Price", Reason: `"call" is not a price`},
			{Row: 9, Reason: "the row has no stock number"},
			{Row: 10, Column: "GVWR", Reason: `"heavy" is not a weight`},
			{Row: 11, Column: "GVWR", Reason: `"light" is not a weight`},
			{Row: 12, Column: "GVWR", Reason: `"none" is not a weight`},
			{Row: 13, Column: "Price", Reason: `"ask" is not a price`},
		},
		Lacking: []string{"EX-1", "EX-2"}, LackedKeys: []string{"vin", "color"}, Same: 3,
	}
	makersSheet = &spreadsheet.Plan{
		Models: true,
		Columns: []spreadsheet.Column{{Header: "Model", Key: "model"}, {Header: "a"}, {Header: "b"}, {Header: "c"}, {Header: "d"}, {Header: "e"}, {Header: "f"}, {Header: "g"}, {Header: "h"},
			{Header: "Dealer\nnet"}},
		New: []spreadsheet.New{{Stock: "A1"}, {Stock: "A2"}, {Stock: "A3"}, {Stock: "A4"}, {Stock: "A5"}, {Stock: "A6"}},
		// A maker's sheet adds no value to a file that is there, and nobody has to be told.
		Lacking: []string{"A7"}, LackedKeys: []string{"gvwr"},
	}
)

var talk = &intake.Talk{
	Name: "walk.vtt", Format: "WebVTT", Cues: 31, Length: 372,
	Taken: []intake.Taken{
		{Path: "weights.gvwr", Value: "20,000 lb (said 1:42)", At: 102, Quote: "twenty thousand", Remarks: []string{"no unit was said", "read the label"},
			Others: []intake.Other{{Value: "24,000 lb", At: 130, Quote: "twenty four thousand"}}},
		{Path: "deck.length", Value: "28 ft (said 0:07)", At: 7, Quote: "a twenty eight footer"},
	},
	Unclear: []walkaround.Candidate{{Quote: "about six", Start: 61.9, Doubt: "six of what?"}},
	Notes:   []walkaround.Note{{}, {}},
	Doubts:  []captions.Doubt{{Line: 12, Text: "a cue that ends before it begins"}},
}

func said(quote string, v measure.Pounds) walkaround.Candidate {
	return walkaround.Candidate{Role: walkaround.Empty, Value: v, Compare: walkaround.Equal, Quote: quote, Start: 65.2, Confidence: 1}
}

var (
	sheet     = intake.Sheet{LeftOut: 3725, Missing: []unit.KeyDoc{{Path: "weights.empty", Doc: "what the trailer weighs empty"}, {Path: "price", Doc: "the asking price"}}}
	given     = unit.Given{Path: "weights.empty", Text: "7,040 lb", Pos: unit.Pos{File: "content/units/ex-1.md", Line: 8, Column: 10}}
	different = intake.Comparison{
		Agrees:   []intake.Held{{Said: said("seventy forty empty", 7040), File: given}},
		Differs:  []intake.Held{{Said: said("seven thousand", 7000), File: given}},
		Unstated: talk.Taken[1:],
		Missing:  []unit.Missing{{Path: "price", Doc: "the asking price"}},
	}
	manyDoubts = &intake.Talk{Name: "walk.srt", Format: "SubRip", Cues: 1, Length: 1, Unclear: make([]walkaround.Candidate, 42)}
	moved      = []stockfile.PriceMove{{Stock: "A-1", From: "$3,995", To: "$39,950"}, {Stock: "A-2", From: "no price", To: "about $2,600"}}
	many       = []string{"A-1", "A-2", "A-3", "A-4", "A-5", "A-6", "A-7", "A-8", "A-9", "A-\u202e10"}
)

// TestPrinted compares everything that the printers print with testdata/printed.txtar, which
// -update writes. Read it as the owner of a yard would.
func TestPrinted(t *testing.T) {
	none := Tally("tarepage", ".", 1, nil)
	one := Tally("tarepage", ".", 2, findings)
	took := 1234 * time.Millisecond
	site := Site{Pages: 40, To: "public", Written: 3, Unchanged: 37, Removed: 2, Address: "https://yard.example/trailers/", Undated: many[:8], Unsaid: many, LeftOut: many[7:], NewlyOut: many[8:], Withheld: many[3:4], Before: true,
		Moves: &stockfile.Moves{New: many[:2], Sold: many[2:3], Prices: moved, Jumps: moved[:1], Gone: many[4:5], Listed: 14, AsBefore: 3}}
	var got txtar.Archive
	for _, c := range []struct {
		name  string
		print func(w io.Writer) error
	}{
		{"findings", func(w io.Writer) error { return Findings(w, findings) }},
		{"findings in an inspection, by unit", func(w io.Writer) error { return Inspection(w, findings, ByUnit) }},
		{"findings in an inspection, by rule", func(w io.Writer) error { return Inspection(w, findings, ByRule) }},
		{"news of a build that publishes nothing", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: "my-yard", Found: Under("my-yard", findings), Fresh: Under("my-yard", findings[2:4]), Before: true})
		}},
		{"news of a first build", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: append(findings[1:4:4], ignoredFile), Published: true})
		}},
		{"news of a build", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: "my-yard", Found: Under("my-yard", append(findings[:5:5], ignoredFile)), Fresh: Under("my-yard", findings[2:4]), Before: true, Published: true})
		}},
		{"news of a build, quiet", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: append(findings[:5:5], ignoredFile), Fresh: findings[2:4], Before: true, Published: true, Quiet: true})
		}},
		{"news of a build, withheld", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: findings, Fresh: findings[3:], Before: true, Published: true, Aside: map[string]bool{findings[3].Unit: true}})
		}},
		{"news of a build, the same in several units", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: sheetFindings(), Fresh: sheetFindings(), Before: true, Published: true})
		}},
		{"news of a build, more than a screen", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: manyFindings(4)})
		}},
		{"news of a build, much more than a screen", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: manyFindings(20)})
		}},
		{"news of a build, two units with the same stops", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: manyFindings(2)})
		}},
		{"news of a build, three units with the same stops", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: manyFindings(8)})
		}},
		{"news of a build, remarks of many rules", func(w io.Writer) error {
			return News(w, Told{Program: "tarepage", From: ".", Found: manyRemarks(), Fresh: manyRemarks(), Before: true, Published: true})
		}},
		{"findings, one of more units than are named", func(w io.Writer) error { return Folded(w, sameStop(mostNamed+3)) }},
		{"findings, one of as many units as are named", func(w io.Writer) error { return Folded(w, sameStop(mostNamed+1)) }},
		{"cautions and remarks of more rules than fit", func(w io.Writer) error {
			Built(w, Tally("tarepage", "my-yard", 9, manyRemarks()), Site{Pages: 9, To: "public", Unchanged: 40, Before: true}, took)
			return nil
		}},
		{"a sheet of a yard, planned", func(w io.Writer) error {
			return Planned(w, yardSheet, false, "tarepage", "my yard", "their stock.csv")
		}},
		{"a sheet of a yard, applied", func(w io.Writer) error {
			return Planned(w, yardSheet, true, "tarepage", ".", "stock.csv")
		}},
		{"a sheet of new units only, applied", func(w io.Writer) error {
			return Planned(w, &spreadsheet.Plan{New: yardSheet.New, Faults: yardSheet.Faults[:1]}, true, "tarepage", ".", "stock.csv")
		}},
		{"a maker's sheet, planned", func(w io.Writer) error {
			return Planned(w, makersSheet, false, "tarepage", ".", "models.xlsx")
		}},
		{"a sheet that changes nothing", func(w io.Writer) error {
			return Planned(w, &spreadsheet.Plan{Same: 35}, true, "tarepage", ".", "stock.csv")
		}},
		{"quiet", func(w io.Writer) error { return Quiet(w, append(findings[1:3:3], ignoredFile)) }},
		{"inspected", func(w io.Writer) error { Inspected(w, one, took); return nil }},
		{"inspected, another folder", func(w io.Writer) error { Inspected(w, Tally("tarepage", "my yard", 2, findings), took); return nil }},
		{"inspected, nothing found", func(w io.Writer) error { Inspected(w, none, took); return nil }},
		{"inspected, many stops", func(w io.Writer) error {
			Inspected(w, Tally("tarepage", ".", 9, append(findings[:3:3], findings[:3]...)), took)
			return nil
		}},
		{"inspected, five stops", func(w io.Writer) error {
			Inspected(w, Tally("tarepage", ".", 9, append(findings[:3:3], findings[:2]...)), took)
			return nil
		}},
		{"refused", func(w io.Writer) error { Refused(w, one, "public", took); return nil }},
		{"refused, one unit", func(w io.Writer) error { Refused(w, Tally("tarepage", ".", 1, findings), "public", took); return nil }},
		{"built", func(w io.Writer) error { Built(w, none, site, took); return nil }},
		{"built, nothing changed, no address", func(w io.Writer) error {
			Built(w, none, Site{Pages: 1, To: "out", Unchanged: 40}, took)
			return nil
		}},
		{"built, only removed, at a host's root", func(w io.Writer) error {
			Built(w, none, Site{Pages: 40, To: "public", Removed: 1, Unchanged: 40, Address: "https://yard.example/"}, took)
			return nil
		}},
		{"built elsewhere than the yard's own site", func(w io.Writer) error {
			Built(w, none, Site{Pages: 1, To: "public", Written: 40, Address: "https://yard.example/", Instead: "my-yard/public"}, took)
			return nil
		}},
		{"built for the first time", func(w io.Writer) error {
			Built(w, none, Site{Pages: 1, To: "public", Written: 40, LeftOut: many[8:], Address: "https://yard.example/"}, took)
			return nil
		}},
		{"shown", func(w io.Writer) error { Shown(w, one, took); return nil }},
		{"opened", func(w io.Writer) error { Opened(w, []string{"http://127.0.0.1:2516/"}, nil); return nil }},
		{"first yard", func(w io.Writer) error {
			SetUp(w, []string{"my-yard/content/yard.md"}, "tarepage", "my-yard")
			return nil
		}},
		{"first yard, here", func(w io.Writer) error { SetUp(w, nil, "tarepage", "."); return nil }},
		{"editor help", func(w io.Writer) error {
			EditorHelp(w, []string{"editor-help/unit.schema.json", "editor-help/yard.schema.json"})
			return nil
		}},
		{"heard", func(w io.Writer) error { return Heard(w, talk, sheet, false) }},
		{"heard, quiet", func(w io.Writer) error { return Heard(w, talk, sheet, true) }},
		{"heard, nothing", func(w io.Writer) error { return Heard(w, manyDoubts, intake.Sheet{}, false) }},
		{"written", func(w io.Writer) error {
			Written(w, "my-yard/content/units/ex-1.md", "my-yard/content/media/walk.vtt", "tarepage", "my-yard")
			return nil
		}},
		{"written, here", func(w io.Writer) error { Written(w, "content/units/ex-1.md", "", "tarepage", "."); return nil }},
		{"compared", func(w io.Writer) error { return Compared(w, talk, different, false) }},
		{"compared, quiet", func(w io.Writer) error { return Compared(w, talk, different, true) }},
		{"compared, nothing", func(w io.Writer) error { return Compared(w, manyDoubts, intake.Comparison{}, true) }},
	} {
		var b bytes.Buffer
		if err := c.print(&b); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		got.Files = append(got.Files, txtar.File{Name: c.name, Data: b.Bytes()})
	}
	const file = "testdata/printed.txtar"
	text := txtar.Format(&got)
	if *update {
		if err := os.WriteFile(file, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	printed := txtar.Parse(text)
	if len(printed.Files) != len(want.Files) {
		t.Fatalf("%d texts, want %d; -update writes them", len(printed.Files), len(want.Files))
	}
	for i, f := range printed.Files {
		if f.Name != want.Files[i].Name || !bytes.Equal(f.Data, want.Files[i].Data) {
			t.Errorf("%s printed\n%s\nwant\n%s", f.Name, f.Data, want.Files[i].Data)
		}
	}
}

// A terminal obeys no byte of a file's name or of what a file says: controls are written as Go
// writes them, and so are the marks that turn text around (Unicode Standard Annex 9).
func TestVisible(t *testing.T) {
	for s, want := range map[string]string{
		"plain, ½ in × 3":       "plain, ½ in × 3",
		"no\u00a0break":         "no\u00a0break",
		"red \x1b[31m":          `red \x1b[31m`,
		"line\nend\ttab":        `line\nend\ttab`,
		"turned \u202eabc":      `turned \u202eabc`,
		"broken \xff\xfe bytes": `broken \xff\xfe bytes`,
		"the real \ufffd":       "the real \ufffd",
		"":                      "",
	} {
		if got := Visible(s); got != want {
			t.Errorf("Visible(%q) is %q, want %q", s, got, want)
		}
	}
}

// A rule is explained with its own example, and what the example gives is what the inspection
// says about it: a few rules, one of which has a photo. Every rule is listed once, stops first,
// by name.
func TestRulesAreExplained(t *testing.T) {
	for i, r := range inspect.All {
		if i%20 > 0 && r.Name != "photo-mislabeled" {
			continue
		}
		var b strings.Builder
		if err := Rule(&b, r); err != nil {
			t.Errorf("%s: %v", r.Name, err)
			continue
		}
		ex, err := inspect.ExampleOf(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range []string{r.Name + " (" + r.Severity.String() + ")\n" + r.Title + "\n", r.Why, r.Source, r.Remedy, ex.Title, "[" + r.Name + "]"} {
			if !strings.Contains(b.String(), part) {
				t.Errorf("%s: the explanation lacks %q", r.Name, part)
			}
		}
		for _, file := range ex.Files {
			first, _, _ := strings.Cut(file.Text, "\n")
			if file.Binary {
				first = fmt.Sprintf("(a file of %d bytes)", len(file.Text))
			}
			if !strings.Contains(b.String(), "\n  "+file.Name+"\n  | "+first+"\n") {
				t.Errorf("%s: the explanation lacks the file %s", r.Name, file.Name)
			}
		}
	}
	var b strings.Builder
	if err := Rules(&b); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(b.String()), "\n")
	if len(lines) != len(inspect.All) {
		t.Errorf("%d rules are listed, there are %d", len(lines), len(inspect.All))
	}
	order := map[string]string{"stop": "1", "caution": "2", "remark": "3"}
	before := ""
	for _, line := range lines {
		f := strings.Fields(line)
		if at := order[f[0]] + f[1]; at <= before {
			t.Errorf("%s %s is out of order", f[0], f[1])
		} else {
			before = at
		}
	}
}

// What cannot be written is an error, at whichever write it happens.
func TestWriteErrors(t *testing.T) {
	for name, print := range map[string]func(io.Writer) error{
		"findings": func(w io.Writer) error { return Findings(w, findings[1:2]) },
		"rules":    Rules,
		"rule":     func(w io.Writer) error { return Rule(w, inspect.All[0]) },
		"heard":    func(w io.Writer) error { return Heard(w, talk, sheet, false) },
		"compared": func(w io.Writer) error { return Compared(w, talk, different, false) },
		"quietly":  func(w io.Writer) error { return Compared(w, talk, different, true) },
		"json":     func(w io.Writer) error { return JSON(w, &unit.Stock{}, nil, nil) },
	} {
		for left := range 3 {
			w := &full{left: left}
			if err := print(w); err == nil && w.refused {
				t.Errorf("%s: a write failed after %d, and no error came back", name, left)
			} else if left == 0 && err == nil {
				t.Errorf("%s: nothing could be written, and no error came back", name)
			}
		}
	}
}

// full takes a few writes and then none.
type full struct {
	left    int
	refused bool
}

func (f *full) Write(p []byte) (int, error) {
	if f.left--; f.left < 0 {
		f.refused = true
		return 0, io.ErrShortWrite
	}
	return len(p), nil
}

const exampleUnit = `---
title: 83 in x 16 ft utility
stock: EX-1
kind: utility
condition: used
availability: on the yard
hitch:
  kind: bumper-pull
deck:
  length: 16 ft
axles:
  count: 2
  rating: 3,500 lb (tag)
tires:
  size: ST205/75R15
  per-axle: 2
weights:
  gvwr: about 7,000 lb (tag)
  empty: 1,860 lb (scale ticket 2026-10-06)
---
`

// TestJSON decodes what JSON prints and compares it with the values that went in. The label's
// payload is 7,000 - 1,860 = 5,140 lb (49 CFR 567.4(g)(3)).
func TestJSON(t *testing.T) {
	stock, problems, err := unit.Read(fstest.MapFS{
		"content/yard.md":       {Data: []byte("---\nname: Example\nas-of: 2026-11-20\n---\n")},
		"content/units/ex-1.md": {Data: []byte(exampleUnit)},
	})
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	works := compute.Stock(stock)
	elsewhere := finding(remarkRule, 1, "about the yard")
	elsewhere.Unit = "content/yard.md"
	withNumbers := findings[1]
	withNumbers.Value, withNumbers.Limit = "11,320 lb", "12,000 lb"
	var b bytes.Buffer
	if err := JSON(&b, stock, works, []inspect.Finding{withNumbers, elsewhere}); err != nil {
		t.Fatal(err)
	}
	if !bytes.HasSuffix(b.Bytes(), []byte("\n}\n")) {
		t.Error("the text does not end with a line end")
	}
	type place struct {
		File         string
		Line, Column int
		What         string
	}
	type jsonFound struct {
		place
		Rule, Severity, Message, Value, Limit, Source, Remedy string
		Related                                               []place
	}
	var got struct {
		Units []struct {
			Stock, File string
			Figures     map[string]struct {
				Value               float64
				Unit, Text, Working string
				Source              string
				About               bool
				Inputs              []map[string]any
			}
			Absent []struct {
				Name  string
				Needs []string
			}
			Findings []jsonFound
		}
		Findings []jsonFound
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Units) != 1 || got.Units[0].Stock != "EX-1" || got.Units[0].File != "content/units/ex-1.md" {
		t.Fatalf("units %+v", got.Units)
	}
	u := got.Units[0]
	if f := u.Figures["tag-payload"]; f.Value != 5140 || f.Unit != "lb" || f.Text != "about 5,140 lb" && f.Text != "5,140 lb" || !f.About || f.Working == "" || f.Source == "" || len(f.Inputs) == 0 {
		t.Errorf("tag-payload is %+v", f)
	}
	in := u.Figures["tag-payload"].Inputs[0]
	if fmt.Sprint(in["key"], in["file"], in["line"]) != "weights.gvwr content/units/ex-1.md 18" && fmt.Sprint(in["key"]) != "weights.gvwr" {
		t.Errorf("the first input is %v", in)
	}
	if len(u.Figures) != len(works[0].Figures) || len(u.Absent) != len(works[0].Absent) || len(u.Absent) == 0 {
		t.Errorf("%d figures of %d, %d absent of %d", len(u.Figures), len(works[0].Figures), len(u.Absent), len(works[0].Absent))
	}
	for _, a := range u.Absent {
		if a.Name == "" || len(a.Needs) == 0 {
			t.Errorf("absent is %+v, without what to weigh or measure", a)
		}
	}
	if len(u.Findings) != 1 || len(got.Findings) != 1 {
		t.Fatalf("%d findings with the unit and %d without", len(u.Findings), len(got.Findings))
	}
	f := u.Findings[0]
	if f.Rule != "tires-under-axle" || f.Severity != "stop" || f.Line != 12 || f.Column != 9 || f.Message != withNumbers.Message || f.Value != "11,320 lb" ||
		f.Limit != "12,000 lb" || f.Source != withNumbers.Source || f.Remedy != withNumbers.Remedy || len(f.Related) != 1 || f.Related[0] != (place{"content/units/ex-1.md", 3, 2, "the axle's rating"}) {
		t.Errorf("the finding is %+v", f)
	}
	// The figures keep their own order.
	at := -1
	for _, fig := range works[0].Figures {
		next := strings.Index(b.String(), `"`+fig.Name+`": {`)
		if next <= at {
			t.Errorf("%s is out of order", fig.Name)
		}
		at = next
	}
}
