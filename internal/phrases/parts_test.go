package phrases

import (
	"slices"
	"testing"
)

const saidMark, toldMark = string(said), string(told)

// TestRuns cuts texts at their marks.
func TestRuns(t *testing.T) {
	for _, c := range []struct {
		text  string
		in    bool
		want  []Run
		after bool
	}{
		{"zero" + saidMark + "uno" + toldMark + "two", false, []Run{{"zero", false}, {"uno", true}, {"two", false}}, false},
		{"uno" + toldMark + "two" + saidMark, true, []Run{{"uno", true}, {"two", false}}, true},
		{saidMark + "uno", false, []Run{{"uno", true}}, true},
		{"", true, nil, true},
	} {
		got, after := Runs(c.text, c.in)
		if !slices.Equal(got, c.want) || after != c.after {
			t.Errorf("%q: %v %v, want %v %v", c.text, got, after, c.want, c.after)
		}
	}
	if got := Unmarked("zero" + saidMark + "uno" + toldMark); got != "zerouno" {
		t.Errorf("without marks it is %q", got)
	}
	if got := Spanish.Plain(saidMark + "uno" + toldMark + " qqq. "); got != "uno qqq. " {
		t.Errorf("plain it is %q", got)
	}
	if got := Spanish.Told("qqq zzz"); got != "qqq zzz" {
		t.Errorf("a text that the table lacks becomes %q", got)
	}
	if got, ok := Spanish.Around(" , "); got != " , " || !ok {
		t.Errorf("nothing among commas becomes %q %v", got, ok)
	}
}

// TestSentences: the period of a short form does not end a sentence.
func TestSentences(t *testing.T) {
	for text, want := range map[string][]string{
		"One. Two": {"One. ", "Two"}, "See p. 16. Then go.": {"See p. 16. ", "Then go."}, "Tex. Code. Yes": {"Tex. Code. ", "Yes"}, "": {""},
	} {
		if got := Sentences(text); !slices.Equal(got, want) {
			t.Errorf("%q: %q", text, got)
		}
	}
}

// TestBrackets finds the parentheses that end a text, and the members outside of parentheses.
func TestBrackets(t *testing.T) {
	for text, want := range map[string]int{"axle (rear)": 4, "axle(rear)": -1, "(rear)": -1, "a (b (c))": 1, "a (b) c": -1, "axle": -1} {
		if got := opened(text); got != want {
			t.Errorf("%q: opened at %d, want %d", text, got, want)
		}
	}
	if got := outside("a; b (c; d); e", "; "); !slices.Equal(got, []string{"a", "b (c; d)", "e"}) {
		t.Errorf("%q", got)
	}
	for text, want := range map[string]string{"2,000 lb. 3 ft.": "2,000 lb. 3 ft.", "2,000 lb. 3 ft": "2,000 lb. 3 ft", "2,000 lb; 3 ft": "2,000 lb; 3 ft", "2,000 lb; qqq": ""} {
		if got := Spanish.listed(text, 0); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestNeutral: numbers with units, abbreviations, parts of laws and addresses are the same in every
// language; words are not, and a unit without a number is a word.
func TestNeutral(t *testing.T) {
	for text, want := range map[string]bool{
		"2,000 lb": true, "'2 lb.'": true, "lb": false, "A": true, "a": false, "GVWR": true, "CFR.": true, "of": false, "Axle": false,
		"49 CFR 393.43(d)": true, "I-b": true, "https://yard.example/en": true, "6 x 4": true, "x 4": false, "205/75R15": true,
	} {
		if got := neutral(text); got != want {
			t.Errorf("%q is neutral: %v", text, got)
		}
	}
}

// TestForms: the word by which a form is found is whole in it, and a blank is never empty.
func TestForms(t *testing.T) {
	for want, texts := range map[string][]string{
		"pounds": {"Has ", " pounds at", "xle"}, "longest": {"It ", "xle longest"}, "Weighs": {"Weighs ", " a"}, "It": {"It has", " x"}, "": {"", ""},
	} {
		if got := (&form{texts: texts}).word(); got != want {
			t.Errorf("%q: the word is %q, want %q", texts, got, want)
		}
	}
	f := &form{texts: []string{"a ", " b ", ""}}
	for text, want := range map[string][]string{"a 1 b 2": {"1", "2"}, "a  b 2": nil, "a 1 b ": nil, "a 1": nil, "1 b 2": nil, "a 1 b 2 b 3": {"1", "2 b 3"}} {
		if got := f.match(text); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
