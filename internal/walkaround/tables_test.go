package walkaround

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"
)

// TestRoleExamples hears the example of each role.
func TestRoleExamples(t *testing.T) {
	for _, r := range roleTable {
		if r.example == "" {
			continue
		}
		if !slices.ContainsFunc(ReadProse(r.example).Figures(), func(c Candidate) bool { return c.Role == r.role }) {
			t.Errorf("%s is not heard in %q: %+v", r.role, r.example, ReadProse(r.example).Figures())
		}
	}
}

// TestHedgeExamples hears how each example means its figure.
func TestHedgeExamples(t *testing.T) {
	for _, list := range [][]hedge{before, after} {
		for _, h := range list {
			if h.example == "" {
				continue
			}
			got := ReadProse(h.example).Figures()
			if len(got) != 1 || got[0].Compare != h.means {
				t.Errorf("%q: %+v, want %q", h.example, got, h.means)
			}
		}
	}
}

// TestRepairExamples: the second figure of each example is the one that counts.
func TestRepairExamples(t *testing.T) {
	for _, r := range repairs {
		var got []string
		for _, c := range ReadProse(r.example).Figures() {
			if c.Role != "" {
				got = append(got, c.Value.String())
			}
		}
		if len(got) != 1 || got[0] != "4,100 lb" && got[0] != "6 ft 10 in" {
			t.Errorf("%q: %q", r.example, got)
		}
	}
}

// TestTurns: a gooseneck is not heard where the talk has left the trailer, and is heard
// where it has come back.
func TestTurns(t *testing.T) {
	gooseneck := func(text string) bool {
		return slices.ContainsFunc(WordsText(text), func(c Candidate) bool { return c.Role == hitchKind })
	}
	for _, x := range slices.Concat(leaves, seconds) {
		if gooseneck(x.example) {
			t.Errorf("a gooseneck is heard in %q", x.example)
		}
	}
	for _, x := range slices.Concat(returns, comings) {
		if !gooseneck(x.example) {
			t.Errorf("no gooseneck is heard in %q", x.example)
		}
	}
}

// TestMisheardSizes reads tire sizes that captions cut or mishear. Common practice, no source.
func TestMisheardSizes(t *testing.T) {
	for said, want := range map[string]string{
		"tires is 2 35 80 are 16 10 ply":              "235/80R16",
		"tires are to 35 80 or 16":                    "235/80R16",
		"tires s t too oh five 75 are 14":             "ST205/75R14",
		"tires one seventy five ate tea are thirteen": "175/80R13",
		"tires 2 by 35 foot":                          "",
		"two 35 inch wheels are 16 apart":             "",
	} {
		got := ""
		for _, c := range find(tokens(said)) {
			for _, o := range c.options {
				if roleTable[o.row].role == TireSize {
					got = o.value.String()
				}
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q", said, got, want)
		}
	}
}

// TestConditionExamples hears the condition in the example of each row.
func TestConditionExamples(t *testing.T) {
	for _, r := range conditionRows {
		if !slices.ContainsFunc(WordsText(r.example), func(c Candidate) bool { return c.Role == condition && c.Value == Value(Word(r.said)) }) {
			t.Errorf("%s is not heard in %q: %+v", r.said, r.example, WordsText(r.example))
		}
	}
}

// TestWordExamples hears every phrase of the table in a sentence of its own.
func TestWordExamples(t *testing.T) {
	for _, r := range wordTable {
		near, _, _ := strings.Cut(r.near, " ")
		said := strings.TrimSpace("this is the one with " + r.phrase + " " + near)
		heard := slices.ContainsFunc(WordsText(said), func(c Candidate) bool {
			return c.Role == r.role && (r.value == "" || c.Value == Value(r.value))
		})
		if heard == (r.value == "") {
			t.Errorf("%s %s is not heard in %q: %+v", r.role, r.value, said, WordsText(said))
		}
	}
}

// TestEquipmentExamples finds every way to say an item.
func TestEquipmentExamples(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(equipmentTable)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 151 {
		t.Errorf("%d items, at least 150 were promised", len(rows)-1)
	}
	for _, r := range rows[1:] {
		for said := range strings.SplitSeq(r[1], "|") {
			text := "we have a " + said + " on this one"
			if r[2] != "" {
				text = "you can get a " + said
			}
			if !slices.ContainsFunc(EquipmentText(text), func(i Item) bool { return i.Name == r[0] && i.Optional == (r[2] != "") }) {
				t.Errorf("%s is not found in %q: %+v", r[0], text, EquipmentText(text))
			}
		}
	}
	for _, s := range statements {
		got := EquipmentText(s.example)
		if s.means == absent && len(got) != 0 || s.means != absent && (len(got) != 1 || got[0].Optional != (s.means == optional)) {
			t.Errorf("%q: %+v", s.example, got)
		}
	}
}

// TestNeverAcrossParts: each of these gave a wrong value before.
func TestNeverAcrossParts(t *testing.T) {
	for said, want := range map[string]string{
		"ramps are rated I think seven thousand for the pair and you got d rings inside four of them": "ramps.rating 7,000 lb; tie-downs.d-rings 4",
		"coupler is rated fourteen k fifty two hundred pound axles":                                   "hitch.rating 14,000 lb; axles.rating 5,200 lb",
		"two in five sixteenth coupler":                                                               "hitch.ball 2-5/16 in",
		"eighty two inches between the fenders":                                                       "deck.between-fenders 6 ft 10 in",
		"twenty percent of that sits on the truck so that's twenty eight hundred":                     "",
		"measured the rear opening at 78 and a half high by 91 wide":                                  "",
		"Deck sits 24 inches off the ground":                                                          "deck.height 2 ft",
		"no seam down the middle of the floor the next one over has a seam and that's where they rot anyhow jack is rated ten thousand pounds": "jack.rating 10,000 lb",
		"tires are 2 35 80 are 16": "tires.size 235/80R16",
	} {
		var got []string
		for _, c := range ReadProse(said).Figures() {
			if c.Role != "" {
				got = append(got, string(c.Role)+" "+c.Value.String())
			}
		}
		if g := strings.ReplaceAll(strings.Join(got, "; "), "2.3125 in", "2-5/16 in"); g != want {
			t.Errorf("%q: %q, want %q", said, g, want)
		}
	}
}

// EquipmentText and WordsText find in a written sentence what Equipment and Words find in talk.
func EquipmentText(text string) []Item { return equipmentIn(text, tokens(text)) }

func WordsText(text string) []Candidate { return wordsIn(text, tokens(text)) }

// A kind that the list has no word for is heard by the phrases of internal/kinds, and the others
// only as the list says.
func TestNewKindsAreHeard(t *testing.T) {
	var got []string
	for _, w := range withNewKinds(slices.DeleteFunc(slices.Clone(wordTable), func(w spokenWord) bool { return w.value == "log" }))[len(wordTable)-2:] {
		got = append(got, string(w.role)+" "+string(w.value)+" "+w.phrase)
	}
	if want := []string{"kind log log trailer", "kind log logging trailer"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if more := len(withNewKinds(wordTable)) - len(wordTable); more != 0 {
		t.Errorf("%d rows are added for kinds that the list has", more)
	}
}

// TestLimitExamples says two figures that cannot be of one trailer: one of them is not taken.
func TestLimitExamples(t *testing.T) {
	for _, l := range limits {
		said := map[Role]bool{}
		tk := tokens(l.example)
		for _, c := range shipped().hear(l.example, tk, true) {
			said[c.Role] = true
		}
		if said[l.part] && said[l.whole] {
			t.Errorf("both %s and %s are taken from %q", l.part, l.whole, l.example)
		}
	}
}

// TestMixedDigits writes numbers as captions mix them, and says how they are read.
func TestMixedDigits(t *testing.T) {
	for said, want := range map[string]string{
		"26 hundred and 40":           "twenty six hundred and forty",
		"15 thousand 5 hundred and 7": "fifteen thousand five hundred and seven",
		"33 90 empty":                 "thirty three ninety empty",
		"twenty 25":                   "twenty twenty five",
		"two 05 75 15":                "two oh five seventy five fifteen",
		"235 80 16 ten ply":           "235 80 16 ten ply",
		"2 5/16 ball":                 "2 5 / 16 ball",
		"a 2 5 16 ball":               "a 2 5 16 ball",
		"14,000 and 7 000":            "14,000 and 7 000",
		"this one 16 foot":            "this one 16 foot",
	} {
		var got []string
		for _, x := range tokens(said) {
			got = append(got, x.text)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q is read as %q, want %q", said, strings.Join(got, " "), want)
		}
	}
}

// TestSources finds what speaks for and against the first figure of each example.
func TestSources(t *testing.T) {
	for _, s := range sources {
		toks := tokens(s.example)
		all := find(toks)
		first := all[slices.IndexFunc(all, func(c candidate) bool { return toks[c.from].text == "4,200" })]
		if got := (&hearing{t: toks}).credit(&decided{candidate: &first}); got != s.credit {
			t.Errorf("%q: the credit is %d, want %d", s.example, got, s.credit)
		}
	}
}

// TestUnsayings hears nothing of a word that is taken back at once.
func TestUnsayings(t *testing.T) {
	for _, u := range unsayings {
		for _, w := range wordsIn(u.example, tokens(u.example)) {
			switch w.Value.String() {
			case "torsion", "steel", "electric", "slide-in":
				t.Errorf("%q: heard %s", u.example, w.Value)
			}
		}
	}
}
