package inspect

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// TestCheckDigitOfEveryLetter compares 49 CFR 565.15(c), Tables III and IV, with where the
// values come from: the value of a letter is the low half of its EBCDIC code (A is C1, J
// is D1, S is E2; common practice, no source), which golang.org/x/text knows by itself.
// The weights are typed from Table IV: 8 down to 2, then 10, none, and 9 down to 2.
func TestCheckDigitOfEveryLetter(t *testing.T) {
	weights := []int{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2}
	for _, letter := range "ABCDEFGHJKLMNPRSTUVWXYZ0123456789" {
		code, ok := charmap.CodePage037.EncodeRune(letter)
		if !ok {
			t.Fatalf("no code for %c", letter)
		}
		for at := range 17 {
			vin := []byte(strings.Repeat("0", 17))
			vin[at] = byte(letter)
			want := byte('X')
			if r := int(code&15) * weights[at] % 11; r < 10 {
				want = byte('0' + r)
			}
			if got, err := CheckDigit(string(vin)); err != nil || got != want {
				t.Fatalf("%s: check digit %c (%v), by the tables %c", vin, got, err, want)
			}
		}
	}
	for _, bad := range []string{"I", "O", "Q", "a", "/", ":", " "} {
		vin := strings.Repeat("0", 16) + bad
		if got, err := CheckDigit(vin); err == nil || got != 0 || !strings.Contains(err.Error(), "position 17") {
			t.Errorf("%q: check digit %c, %v", vin, got, err)
		}
	}
	for _, n := range []int{16, 18} {
		if got, err := CheckDigit(strings.Repeat("0", n)); err == nil || got != 0 {
			t.Errorf("%d characters have a check digit, %c", n, got)
		}
	}
}

// 49 CFR 565.15(d), Table VII: the letters repeat after thirty years; A was 1980 and 2010.
func TestNearestYear(t *testing.T) {
	for _, c := range []struct{ stated, code, want int }{
		{2026, 2011, 2011},
		{2024, 2010, 2010}, {2026, 2010, 2040}, {1996, 2010, 2010}, {1994, 2010, 1980},
		{1964, 2010, 1950}, {2056, 2010, 2070},
		// As far from the one as from the other: it stays where the letters began.
		{2025, 2010, 2010}, {1995, 2010, 2010},
	} {
		if got := nearestYear(c.stated, c.code); got != c.want {
			t.Errorf("the year nearest to %d of a code of %d is %d, want %d", c.stated, c.code, got, c.want)
		}
	}
}

// A sentence goes from the end of the one before to its own end.
func TestAround(t *testing.T) {
	const text = "It is long! Is it? The axles are 6,000 lb. Tires are new. And wide"
	for _, c := range []struct{ quote, want string }{
		{"long", "It is long"}, {"Is", "Is it"}, {"6,000 lb", "The axles are 6,000 lb"},
		{"6", "The axles are 6,000 lb"}, {"Tires", "Tires are new"}, {"wide", "And wide"}, {"It", "It is long"},
	} {
		from, to := around(text, strings.Index(text, c.quote), len(c.quote))
		if got := text[from:to]; got != c.want {
			t.Errorf("around %q stands %q, want %q", c.quote, got, c.want)
		}
	}
}

// A sentence's end right before or right after what is quoted is its end too.
func TestAroundItsEnds(t *testing.T) {
	for _, c := range []struct {
		text, quote, want string
	}{{". Go on. ", "Go", "Go on"}, {"Go. On", "Go", "Go"}, {"Go on", "Go on", "Go on"}} {
		from, to := around(c.text, strings.Index(c.text, c.quote), len(c.quote))
		if got := c.text[from:to]; got != c.want {
			t.Errorf("around %q in %q stands %q, want %q", c.quote, c.text, got, c.want)
		}
	}
}

// A sentence without an end is as much as is near, in whole letters.
func TestAroundEndlessly(t *testing.T) {
	text := strings.Repeat("ñ", 40_000)
	for at := 0; at < len(text); at += 2 {
		if from, to := around(text, at, 2); from > at || to < at+2 || to-from > 2*mostSentence+4 || !utf8.ValidString(text[from:to]) {
			t.Fatalf("around byte %d stands %d to %d", at, from, to)
		}
	}
	if from, to := around(text+". "+text, len(text)+2, 2); from != len(text)+2 || to != len(text)+4+mostSentence {
		t.Errorf("after a sentence's end stands %d to %d", from, to)
	}
}

// The next load range whose row carries the axle, by the table of tires: ST205/75R15 B
// 1,480, C 1,820 (dual 1,610), D 2,150 (1,870), E 2,400 (2,090); ST235/80R16 D 3,000 (no
// dual), E the lower of 3,420 (3,000) and 3,520, F from weak memory only, G 4,080 (3,640).
func TestNextLoadRange(t *testing.T) {
	for _, c := range []struct {
		size, letter string
		per          int
		axle         measure.Pounds
		want         string
	}{
		{"ST205/75R15", "B", 2, 3640, "C"}, {"ST205/75R15", "B", 2, 3641, "D"}, {"ST205/75R15", "C", 2, 3000, "D"},
		{"ST205/75R15", "C", 2, 4300, "D"}, {"ST205/75R15", "C", 2, 4301, "E"}, {"ST205/75R15", "C", 2, 4801, ""},
		{"ST205/75R15", "c", 2, 3000, "D"}, {"ST205/75R15", "E", 2, 3000, ""},
		{"ST205/75R15", "B", 4, 6440, "C"}, {"ST205/75R15", "B", 4, 6441, "D"},
		{"ST235/80R16", "D", 2, 6840, "E"}, {"ST235/80R16", "D", 2, 6841, "G"}, {"ST235/80R16", "E", 2, 7000, "G"}, {"ST235/80R16", "E", 2, 8161, ""},
		{"ST235/80R16", "C", 4, 10000, "E"}, {"ST235/80R16", "D", 4, 12000, "E"}, {"ST235/80R16", "D", 4, 12001, "G"}, {"ST235/80R16", "D", 6, 18000, "E"},
		{"ST205/75R15", "B", 3, 5460, "C"}, {"ST235/85R16", "E", 4, 14080, "F"}, {"ST235/85R16", "E", 4, 14081, ""}, {"ST235/85R16", "F", 4, 4000, ""},
		{"round", "D", 2, 3000, ""},
	} {
		u := &unit.Unit{}
		u.Tires.Size.Value, u.Tires.LoadRange.Value, u.Tires.PerAxle.Value, u.Axles.Rating.Value = c.size, c.letter, c.per, c.axle
		if got := nextLoadRange(&Case{Unit: u, Work: &compute.Work{Tire: compute.Tire{PerAxle: c.per}}}); got != c.want {
			t.Errorf("above %s %s, %d under an axle of %v: %q, want %q", c.size, c.letter, c.per, c.axle, got, c.want)
		}
	}
}

// What reading finds keeps its own remedy, or has the rule's.
func TestReadFindings(t *testing.T) {
	p := unit.Problem{Rule: "unknown-key", Message: "m", At: unit.Pos{File: "a.md", Line: 3, Column: 1}}
	if f := read(p); f.Remedy != unknownKey.Remedy || f.Rule != unknownKey || f.Message != "m" || f.Unit != "a.md" || f.Severity != Stop || f.Source != unknownKey.Source {
		t.Errorf("%+v", f)
	}
	p.Remedy = "did you mean axles?"
	if f := read(p); f.Remedy != p.Remedy {
		t.Errorf("its own remedy became %q", f.Remedy)
	}
}

// A key of a waiver that is given and cannot be read is not missing.
func TestIncompleteWaiver(t *testing.T) {
	at := unit.Pos{File: "a.md", Line: 3, Column: 1}
	whole := func() unit.Waiver {
		return unit.Waiver{Rule: unit.Text{Value: "a", Pos: at}, Reason: unit.Text{Value: "b", Pos: at}, Until: unit.Date{Pos: at}}
	}
	for _, c := range []struct {
		change func(*unit.Waiver)
		want   string
	}{
		{func(*unit.Waiver) {}, ""},
		{func(w *unit.Waiver) { w.Rule = unit.Text{} }, "rule"},
		{func(w *unit.Waiver) { w.Reason = unit.Text{} }, "reason"},
		{func(w *unit.Waiver) { w.Until = unit.Date{} }, "until"},
		{func(w *unit.Waiver) { w.Rule = unit.Text{Spoiled: true} }, ""},
		{func(w *unit.Waiver) { w.Reason = unit.Text{Spoiled: true} }, ""},
		{func(w *unit.Waiver) { w.Until = unit.Date{Spoiled: true} }, ""},
	} {
		w := whole()
		c.change(&w)
		if got := incomplete(w); got != c.want {
			t.Errorf("%+v lacks %q, want %q", w, got, c.want)
		}
	}
}

// Which figures in the notes are about something other than this trailer: common practice, no
// source.
func TestLoose(t *testing.T) {
	for text, want := range map[string]bool{
		"culvert weighs 1,200 lb":                          true,
		"it weighs 1,200 lb empty":                         false,
		"on the scale it is 1,200 lb. A bale weighs a lot": false,
		"axles of 6,000 lb with tires to match":            true,
		"axles of 6,000 lb":                                false,
		"axles of 6,000 lb. Tires to match":                false,
		"it carries 5,000 lb":                              true,
		"it carries 4,999 lb":                              true,
		"it carries 5,001 lb":                              false,
		"its payload is 4,000 lb":                          false,
		"gvwr is 7,000 lb":                                 false,
		"gvwr is 7,000 lb, scratch that":                   true,
		"scratch that, gvwr is 7,000 lb":                   false,
		"the deck is 20 ft":                                false,
	} {
		heard := 0
		for _, said := range walkaround.ReadProse(text).Figures() {
			heard++
			if said.Role == "" && want {
				continue // the ear gives it to nothing, which is as good
			}
			if got := loose(sentenceAt(text, said), said, 5000); got != want {
				t.Errorf("%q: %q (%v) is loose %v, want %v", text, said.Quote, said.Role, got, want)
			}
		}
		if heard == 0 {
			t.Logf("%q: nothing was heard", text)
		}
	}
}

func TestNamesOfItems(t *testing.T) {
	for _, c := range []struct {
		sentence, item string
		want           int
	}{
		{"Spare tire standard", "spare tire", 0},
		{"It comes with a spare tire", "spare tire", 16},
		{"It comes with a tire, a spare one", "a spare tire", 24},
		{"It comes with tires", "spare tire", -1},
		{"It comes with the rest", "the", -1},
		{"It comes with two spares", "spare", 18},
		{"It comes with a spare", "spares", 16},
		{"It comes with glass", "glass", 14},
		{"It comes with gla", "glass", -1},
		{"It comes with gas", "gas", 14},
		{"It comes with ga", "gas", -1},
		{"It comes with hub", "hubs", 14},
		{"It comes with a jack and a spare", "jack with spare", 16},
	} {
		if got := names(c.sentence, unit.Text{Value: c.item}); got != c.want {
			t.Errorf("%q names %q at %d, want %d", c.sentence, c.item, got, c.want)
		}
	}
	for _, c := range []struct{ w, want string }{{"hubs", "hub"}, {"gas", "gas"}, {"glass", "glass"}, {"bus", "bus"}, {"ss", "ss"}, {"deck", "deck"}, {"rods", "rod"}} {
		if got := singular(c.w); got != c.want {
			t.Errorf("one of the %s is a %s, want %s", c.w, got, c.want)
		}
	}
}

func TestClaimsStandard(t *testing.T) {
	for sentence, want := range map[string]bool{
		"The jack is standard": true, "It comes with a jack": true, "They come with a jack": true, "A jack is included": true,
		"A jack at no charge": true, "A jack at no extra charge": true, "A jack": false,
		"The jack is not standard": false, "Standard, with no extra jack": false, "A jack can be had, ramps are standard": false,
		"Standard or optional": false, "It comes with a jack unless ordered without": false, "substandard": false,
	} {
		if got := claimsStandard(sentence); got != want {
			t.Errorf("%q: claims standard %v, want %v", sentence, got, want)
		}
	}
}

func TestMaterialInWords(t *testing.T) {
	for material, want := range map[string]string{
		"sand": "sand", "earth, loose": "earth", "earth, loose dry": "earth (loose dry)", "scrap metal, loose light": "scrap metal (loose light)",
	} {
		if got := inWords(material); got != want {
			t.Errorf("%q is %q in words, want %q", material, got, want)
		}
	}
}

// Refused lists the units with stops, and the whole yard for a stop that has no unit.
func TestRefused(t *testing.T) {
	s := &unit.Stock{Yard: &unit.Yard{}}
	for _, name := range []string{"a", "b", "c", "d"} {
		u := &unit.Unit{File: name + ".md"}
		u.Stock.Value = strings.ToUpper(name)
		s.Units = append(s.Units, u)
	}
	s.Units[2].Stock.Value = ""
	find := func(file string, sev Severity) Finding { return Finding{Unit: file, Severity: sev} }
	h := Refused(s, []Finding{find("c.md", Stop), find("b.md", Caution), find("a.md", Stop), find("d.md", Remark), find("a.md", Stop)})
	if h.Yard || !slices.Equal(h.Names, []string{"A", "c.md"}) || len(h.Units) != 2 || !h.Units["a.md"] || !h.Units["c.md"] {
		t.Errorf("%+v", h)
	}
	if h := Refused(s, []Finding{find("models/x.md", Stop), find("b.md", Stop)}); !h.Yard || !slices.Equal(h.Names, []string{"B"}) {
		t.Errorf("a stop of no unit: %+v", h)
	}
	if h := Refused(s, []Finding{find("models/x.md", Caution)}); h.Yard || len(h.Names) != 0 || h.Units == nil {
		t.Errorf("a caution of no unit: %+v", h)
	}
}

// The order is total: place, rule, unit, text.
func TestOrderOfFindings(t *testing.T) {
	at := func(file string, line int) unit.Pos { return unit.Pos{File: file, Line: int32(line), Column: 1} }
	one, two := &Rule{Name: "one"}, &Rule{Name: "two"}
	sorted := []Finding{
		{At: at("a.md", 1), Rule: two, Unit: "z", Message: "z"},
		{At: at("a.md", 2), Rule: one, Unit: "y", Message: "y"},
		{At: at("a.md", 2), Rule: two, Unit: "w", Message: "x"},
		{At: at("a.md", 2), Rule: two, Unit: "x", Message: "v"},
		{At: at("a.md", 2), Rule: two, Unit: "x", Message: "w"},
		{At: at("b.md", 1), Rule: one, Unit: "a", Message: "a"},
	}
	for i, a := range sorted {
		for k, b := range sorted {
			got := compare(a, b)
			if got < 0 != (i < k) || got > 0 != (i > k) {
				t.Errorf("%d beside %d compares as %d", i, k, got)
			}
		}
	}
	if n := Count([]Finding{{Severity: Stop}, {Severity: Remark}, {Severity: Stop}}, Stop); n != 2 {
		t.Errorf("%d stops of 2", n)
	}
	if Stop.String() != "stop" || Caution.String() != "caution" || Remark.String() != "remark" {
		t.Error("a severity has another's name")
	}
}

func TestLookup(t *testing.T) {
	if Lookup("wide-load") != wideLoad || Lookup("no-rule") != nil {
		t.Error("Lookup finds another rule")
	}
	names := Names()
	if len(names) != len(All) || !slices.IsSorted(names) || !slices.Contains(names, "wide-load") {
		t.Errorf("the names are %v", names)
	}
	if r, err := Called("wide-load"); r != wideLoad || err != nil {
		t.Errorf("%v, %v", r, err)
	}
	for name, want := range map[string]string{
		"wide-lode": `there is no rule "wide-lode"; did you mean "wide-load"?`,
		"xyzzy":     `there is no rule "xyzzy"; rule without a name lists them all`,
	} {
		if r, err := Called(name); r != nil || err == nil || err.Error() != want {
			t.Errorf("%s: %v, %v", name, r, err)
		}
	}
}

// An example of a rule is the first case that breaks it.
func TestExampleOf(t *testing.T) {
	all, err := CasesOf(wideLoad)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(all, func(ex Example) bool {
		return slices.ContainsFunc(ex.Findings, func(f Finding) bool { return f.Rule == wideLoad })
	})
	if ex, err := ExampleOf(wideLoad); err != nil || ex.Case != all[i].Case || i == 0 {
		t.Errorf("the example of wide-load is %q (%v), want %q", ex.Case, err, all[i].Case)
	}
	if _, err := ExampleOf(&Rule{Name: "no-rule"}); err == nil || !strings.Contains(err.Error(), "no-rule") {
		t.Errorf("a rule without an archive: %v", err)
	}
	if _, err := CasesOf(&Rule{Name: "no-rule"}); err == nil {
		t.Error("a rule without an archive has examples")
	}
	if ex, err := ExampleOf(&Rule{Name: "wide-load"}); err == nil || ex.Case != "" {
		t.Errorf("a rule that no case breaks has the example %q", ex.Case)
	}
}

// Units without a number have no number in common, and a blank serial is none.
func TestNumbersThatAreNone(t *testing.T) {
	at := func(line int) unit.Pos { return unit.Pos{File: "a.md", Line: int32(line), Column: 1} }
	yard := func(change func(*unit.Unit, int)) *Yard {
		y := &Yard{}
		for i := range 3 {
			u := &unit.Unit{File: "a.md"}
			change(u, i+1)
			y.Cases = append(y.Cases, &Case{Unit: u})
		}
		return y
	}
	for _, c := range []struct {
		name   string
		rule   *Rule
		change func(*unit.Unit, int)
		want   int
	}{
		{"stock numbers", stockTaken, func(u *unit.Unit, i int) { u.Stock = unit.Text{Value: "EX-1", Pos: at(i)} }, 2},
		{"no stock numbers", stockTaken, func(*unit.Unit, int) {}, 0},
		{"stock numbers not given", stockTaken, func(u *unit.Unit, _ int) { u.Stock.Value = "EX-1" }, 0},
		{"serials", serialTwice, func(u *unit.Unit, i int) { u.Serial = unit.Text{Value: "T 1", Pos: at(i)} }, 2},
		{"no serials", serialTwice, func(*unit.Unit, int) {}, 0},
		{"blank serials", serialTwice, func(u *unit.Unit, i int) { u.Serial = unit.Text{Value: " ", Pos: at(i)} }, 0},
	} {
		f := &Findings{rule: c.rule}
		c.rule.checkYard(yard(c.change), f)
		if len(f.list) != c.want {
			t.Errorf("%s: %d findings, want %d", c.name, len(f.list), c.want)
		}
		for _, found := range f.list {
			if len(found.Related) != 1 || found.Related[0].At != at(1) || found.Unit != "a.md" {
				t.Errorf("%s: %+v, want the first beside it", c.name, found)
			}
		}
	}
}

// A load range that cannot be read is not taken for another: nothing is compared with it.
func TestSidewallOfASpoiledRange(t *testing.T) {
	at := unit.Pos{File: "a.md", Line: 1, Column: 1}
	for name, c := range map[string]struct {
		size, letter unit.Text
		want         int
	}{
		"no letter":        {unit.Text{Value: "ST205/75R15", Pos: at}, unit.Text{}, 1},
		"a letter":         {unit.Text{Value: "ST205/75R15", Pos: at}, unit.Text{Value: "C", Pos: at}, 1},
		"a spoiled letter": {unit.Text{Value: "ST205/75R15", Pos: at}, unit.Text{Pos: at, Spoiled: true}, 0},
		"a spoiled size":   {unit.Text{Value: "ST205/75R15", Pos: at, Spoiled: true}, unit.Text{Value: "C", Pos: at}, 0},
	} {
		u := &unit.Unit{}
		u.Tires.Size, u.Tires.LoadRange = c.size, c.letter
		u.Tires.Sidewall.Single = unit.Weight{Value: 5000, Pos: at}
		f := &Findings{rule: sidewallOffTable}
		sidewallOffTable.check(&Case{Unit: u}, f)
		if len(f.list) != c.want {
			t.Errorf("%s: %d findings, want %d", name, len(f.list), c.want)
		}
	}
}
