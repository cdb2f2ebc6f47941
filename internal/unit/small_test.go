package unit

import (
	"strings"
	"testing"
)

// TestWrittenWeight: the weights that titles give, in the ways that people write them. A kilogram
// is 1 / 0.45359237 lb (NIST SP 811).
func TestWrittenWeight(t *testing.T) {
	for words, want := range map[string]float64{
		"26,500 lbs": 26500, "26500#": 26500, "16K": 16000, "16-k lb": 16000, "7.5k": 7500, "14,000 Pounds": 14000,
		"1000 kg": 1000 / 0.45359237, "1,000 KG": 1000 / 0.45359237,
	} {
		w, ok := writtenWeight(words)
		if d := float64(w) - want; !ok || d > 1e-9 || d < -1e-9 {
			t.Errorf("%q is %v lb (%v), want %v", words, float64(w), ok, want)
		}
	}
	for _, words := range []string{"", "heavy", "16 tons", "1,0,0 lb"} {
		if w, ok := writtenWeight(words); ok {
			t.Errorf("%q is %v", words, w)
		}
	}
}

// TestArticle: "an" before a vowel, and none before a plural or what is not counted.
func TestArticle(t *testing.T) {
	for word, want := range map[string]string{
		"tarp": "a tarp", "awning_frame": "an awning frame", "awning": "awning", "outlet": "an outlet", "ramps": "ramps", "glass": "a glass",
		"gas": "a gas", "AC": "AC", "spare-tire": "a spare tire", "Ice box": "an Ice box",
	} {
		if got := article(word); got != want {
			t.Errorf("%q is %q, want %q", word, got, want)
		}
	}
}

// TestYearsOfADay: 1950 to 2099 are years of a trailer's papers; anything else is a slip. The
// order of days is that of the calendar, and their distance is counted (1900 was not a leap year).
func TestYearsOfADay(t *testing.T) {
	for s, ok := range map[string]bool{"1949-12-31": false, "1950-01-01": true, "2099-12-31": true, "2100-01-01": false, "2026-02-29": false, " 2026-11-02 ": true} {
		if _, err := ParseDay(s); (err == nil) != ok {
			t.Errorf("%s: %v", s, err)
		}
	}
	day := func(s string) Day {
		d, err := ParseDay(s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	if n := (Day{1900, 3, 1}).Days() - (Day{1900, 2, 28}).Days(); n != 1 {
		t.Errorf("%d days", n)
	}
	if n := (Day{1, 1, 2}).Days(); n != 1 {
		t.Errorf("the second day is %d days after the first", n)
	}
	if !day("2026-11-02").After(day("2026-10-31")) || day("2026-11-02").After(day("2026-11-02")) {
		t.Error("the order of days")
	}
}

// TestNested: what CommonMark 0.31 counts as a mark of a quote or a list item (5.1 and 5.2), and
// what is a thematic break (4.1).
func TestNested(t *testing.T) {
	for line, want := range map[string]int{
		"words": 0, "> quoted": 1, "> > twice": 2, "- one": 1, "* + both": 2, "1. first": 1, "12) twelfth": 1, "12 trailers": 0,
		"12x. no": 0, "---": 0, "* * *": 0, "> - 3. deep": 3,
	} {
		if got := nested([]byte(line)); got != want {
			t.Errorf("%q: %d marks, want %d", line, got, want)
		}
	}
}

// TestStatedLeavesOut: the list of stated values has what was written, in its own words and with
// its source, and not what a page shows in other places.
func TestStatedLeavesOut(t *testing.T) {
	u, problems := ReadUnit("content/units/a.md", []byte("---\nstock: A\ntitle: a dump\ncondition: new\nmake: Works\nweights:\n  gvwr: 14,000 lb (tag)\n  empty: unknown (the scale was closed)\n---\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	text := ""
	for _, g := range u.Stated() {
		if len(g.Rows) == 0 {
			t.Errorf("a group %q without rows", g.Path)
		}
		for _, r := range g.Rows {
			text += r.Path + ": " + r.Text + " (" + r.From + ")\n"
		}
	}
	for _, want := range []string{"Works", "14,000 lb (tag)", "not known: the scale was closed"} {
		if !strings.Contains(text, want) {
			t.Errorf("it lacks %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "a dump") || strings.Contains(text, "stock:") {
		t.Errorf("it repeats the title or the number:\n%s", text)
	}
}
