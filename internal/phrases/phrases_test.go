package phrases

import (
	"encoding/csv"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

var languages = []Language{English, Spanish}

// terms are the rows of the glossary.
func terms(t *testing.T) [][]string {
	t.Helper()
	text, err := os.ReadFile("../glossary/glossary.csv")
	if err != nil {
		t.Fatal(err)
	}
	return lines(t, string(text))
}

func lines(t *testing.T, text string) [][]string {
	t.Helper()
	all, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatalf("%v; every line needs a field for each language", err)
	}
	return all[1:]
}

// TestTable: the table can take another language as it is. No key comes twice, no phrase is
// empty in a language, and what is counted has a phrase for one and a phrase for many with the
// same blanks.
func TestTable(t *testing.T) {
	all := map[string][]string{}
	for _, l := range lines(t, file) {
		if _, twice := all[l[0]]; twice {
			t.Errorf("%q is in the table twice", l[0])
		}
		all[l[0]] = l
		if strings.Contains(l[0], `"`) {
			t.Errorf("%q has a quotation mark", l[0])
		}
		if len(l) != 1+len(languages) {
			t.Errorf("%q has %d phrases for %d languages", l[0], len(l)-1, len(languages))
		}
		for i, text := range l[1:] {
			if strings.TrimSpace(text) == "" {
				t.Errorf("%q has no text in %v", l[0], languages[i].Tag)
			}
		}
	}
	for key, l := range all {
		if one, ok := strings.CutSuffix(key, " one"); ok {
			many := all[one+" many"]
			for i := range l[1:] {
				if len(many) != len(l) || !slices.Equal(found(blank, many[i+1]), found(blank, l[i+1])) {
					t.Errorf("%q is %q and for many %q", one, l, many)
				}
			}
		}
	}
	if got := English.Say("from to", "1", "2"); got != "1 to 2" {
		t.Errorf("got %q", got)
	}
	if got := Spanish.Say("from to", "1", "2"); got != "entre 1 y 2" {
		t.Errorf("got %q", got)
	}
	if got := English.Say("no such key", "1"); got != "no such key" {
		t.Errorf("got %q", got)
	}
}

var (
	blank = regexp.MustCompile(`\{\d\}`)
	// marks are what internal/render makes bold, a box to tick or a line to write on.
	marks  = regexp.MustCompile(`\*|\[|\]|____`)
	digits = regexp.MustCompile(`\d(?:[\d,.]*\d)?`)
	// onLabels are words that a customer compares with a label, and abbreviations of the law.
	onLabels = regexp.MustCompile(`GVWR|GCWR|GAWR RR|MAX LOAD|The combined weight of occupants and cargo should never exceed|CFR|psi|lb-ft`)
	familiar = regexp.MustCompile(`(?i)(^|\PL)(tú|tu|tus|te|ti|contigo|puedes|tienes|debes|vosotros|vuestr[oa])($|\PL)`)
)

func found(form *regexp.Regexp, text string) []string {
	out := form.FindAllString(text, -1)
	slices.Sort(out)
	return out
}

// TestSpanishSaysTheSame: a phrase in Spanish has the blanks, the marks and the numbers of the
// English one, and the words on labels in English next to the Spanish ones. Nobody is addressed
// with tú.
func TestSpanishSaysTheSame(t *testing.T) {
	for _, l := range lines(t, file) {
		key, english, spanish := l[0], l[1], l[2]
		for what, form := range map[string]*regexp.Regexp{"blanks": blank, "marks": marks} {
			if !slices.Equal(found(form, english), found(form, spanish)) {
				t.Errorf("%s: %q has other %s than %q", key, spanish, what, english)
			}
		}
		numbers := func(text string) []string { return found(digits, blank.ReplaceAllString(text, "")) }
		if !slices.Equal(numbers(english), numbers(spanish)) {
			t.Errorf("%s: %q has other numbers than %q", key, spanish, english)
		}
		for _, w := range found(onLabels, english) {
			if !strings.Contains(spanish, w) {
				t.Errorf("%s: %q lacks %q, which is on a label or in a law", key, spanish, w)
			}
		}
		if strings.Contains(spanish, "PBV") && !strings.Contains(spanish, "GVWR") {
			t.Errorf("%s: %q says PBV without GVWR", key, spanish)
		}
		if w := familiar.FindString(spanish); w != "" {
			t.Errorf("%s: %q says %q; a customer is usted", key, spanish, w)
		}
		if strings.HasPrefix(key, "verdict") && !strings.HasPrefix(spanish, "{1}:") {
			t.Errorf("%s: the scripts color the word that a verdict begins with, so %q must begin with {1}:", key, spanish)
		}
	}
}

// TestSpanishNumbers holds CLDR's numbers for es-US, as golang.org/x/text has them, to what the
// scripts write in both languages: 1,234.5, and the singular for 1 alone.
func TestSpanishNumbers(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 999: "999", 1234.5: "1,234.5", 12345: "12,345", 1234567.25: "1,234,567.25", -1234.5: "-1,234.5"} {
		for _, l := range languages {
			if got := message.NewPrinter(l.Tag).Sprint(number.Decimal(v)); got != want {
				t.Errorf("%v writes %v as %s, and the pages as %s", l.Tag, v, got, want)
			}
		}
	}
	for n := range 2001 {
		for _, l := range languages {
			if one := plural.Cardinal.MatchPlural(l.Tag, n, 0, 0, 0, 0) == plural.One; one != (n == 1) {
				t.Errorf("%v: the singular for %d is %v", l.Tag, n, one)
			}
		}
	}
	for n, want := range map[int]string{0: "0 remolques", 1: "1 remolque", 2: "2 remolques", 5000: "5,000 remolques"} {
		if got := Spanish.Counted("count trailer", n); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// TestGlossary: every term has a source or is marked as from memory, and a gender, so that a
// yard can only put a word of the same gender in its place. No phrase uses the northern word.
func TestGlossary(t *testing.T) {
	all := terms(t)
	if len(all) < 120 {
		t.Errorf("the glossary has %d terms", len(all))
	}
	said := map[string]bool{}
	for _, l := range all {
		said[l[1]] = true
	}
	seen := map[string]bool{}
	for _, l := range all {
		english, spanish, gender, north, northGender, source := l[0], l[1], l[2], l[3], l[4], l[5]
		if seen[english] {
			t.Errorf("%q is in the glossary twice", english)
		}
		seen[english] = true
		if spanish == "" || source == "" || spanish == north {
			t.Errorf("%q: Spanish %q, north %q, source %q", english, spanish, north, source)
		}
		if (north == "") != (northGender == "") || !strings.Contains(" m f", " "+gender) || !strings.Contains(" m f", " "+northGender) {
			t.Errorf("%q: genders %q and %q", english, gender, northGender)
		}
		if !localOnly[north] {
			continue
		}
		whole := regexp.MustCompile(`(?i)(^|\PL)` + regexp.QuoteMeta(north) + `s?($|\PL)`)
		for _, p := range lines(t, file) {
			if whole.MatchString(p[2]) {
				t.Errorf("%s: %q says %q; the glossary has %q", p[0], p[2], north, spanish)
			}
		}
	}
}

// TestGlossaryPage: docs/spanish.md has each term of the glossary, with its source.
func TestGlossaryPage(t *testing.T) {
	page, err := os.ReadFile("../../docs/spanish.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range terms(t) {
		north := l[3]
		if north != "" {
			north += " (" + l[4] + ")"
		}
		if line := "| " + l[0] + " | " + l[1] + " (" + l[2] + ") | " + north + " | " + l[5] + " |\n"; !strings.Contains(string(page), line) {
			t.Errorf("docs/spanish.md lacks the line\n%s", line)
		}
	}
}

// localOnly are northern words that mean nothing else in the table.
var localOnly = map[string]bool{
	"troca": true, "tirón": true, "cople": true, "matraca": true, "calavera": true, "barandal": true,
	"barra de tiro": true, "clavija": true, "caja seca": true, "cola de pato": true, "mano de chango": true,
}
