package phrases

import (
	"cmp"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/kinds"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// spoken are the texts that customers read and that a package of values holds, by their keys in
// facts.csv: kinds, choices of keys, figures, cautions, loads, materials, tables and grades.
func spoken() (out [][2]string) {
	add := func(text string, key ...string) { out = append(out, [2]string{strings.Join(key, "/"), text}) }
	for _, k := range kinds.All() {
		add(k.Label, "kind", k.Name)
		add(k.Noun, "noun", k.Name)
		for i, c := range k.Cautions {
			if i == 0 {
				add(c.Text, "caution", k.Name)
			} else {
				add(c.Text, "caution", k.Name, fmt.Sprint(i+1))
			}
		}
	}
	for i, s := range compute.Safety {
		add(s, "safety", fmt.Sprint(i+1))
	}
	for _, d := range compute.All {
		add(d.Label, "figure", d.Name)
		add(d.What, "figure", d.Name, "what")
		add(d.Formula, "figure", d.Name, "formula")
	}
	for _, name := range inspect.Names() {
		if r := inspect.Lookup(name); r.Severity != inspect.Remark { // remarks are for the owner
			add(r.Title, "rule", name)
			add(r.Why, "rule", name, "why")
		}
	}
	for _, k := range unit.Keys() {
		if section, _, _ := strings.Cut(k.Path, "."); k.Kind != "section" && k.Kind != "list" && !ownersOnly[section] {
			add(label(k.Path), "key", k.Path)
		}
		for _, c := range k.Choices {
			if k.Path != "kind" {
				add(c, "choice", k.Path, c)
			}
		}
	}
	for _, c := range tables.Cargo() {
		add(compute.NameOf(c), "load", compute.NameOf(c))
	}
	for _, end := range ends() {
		add(end, "end", end)
	}
	for m := time.January; m <= time.December; m++ {
		add(m.String(), "month", fmt.Sprint(int(m)))
	}
	add("{1} {2}, {3}", "date", "day")
	add("{1} {2}", "date", "month")
	for _, m := range tables.BulkDensities() {
		add(m.Material, "material", m.Material)
	}
	for _, table := range tables.All() {
		add(table.Title, "table", table.Title)
	}
	for _, g := range tables.Grades() {
		add(g.Meaning(), "grade", string(g))
	}
	return out
}

// ends are what people call the two ends of a machine.
func ends() (out []string) {
	for _, c := range tables.Cargo() {
		out = append(out, c.Front, c.Rear)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// ownersOnly are the keys that no page names, by their section.
var ownersOnly = map[string]bool{"withhold": true, "example": true, "notes-es": true, "recording": true, "waive": true, "photos": true, "proof": true}

// inCode are the families of texts that code says and no list has.
var inCode = map[string]bool{"text": true, "found": true, "working": true, "advice": true, "origin": true}

// label is how pages name a key in English (internal/render).
func label(path string) string {
	trade := map[string]string{"gvwr": "GVWR", "led": "LED", "abs": "ABS"}
	parts := strings.Split(path, ".")
	for i, p := range parts {
		parts[i] = cmp.Or(trade[p], strings.ReplaceAll(p, "-", " "))
	}
	s := strings.Join(parts, ", ")
	return strings.ToUpper(s[:1]) + s[1:]
}

// TestFacts: what kinds, keys, figures and cautions say has Spanish in facts.csv, next to
// the English that the program really says.
func TestFacts(t *testing.T) {
	have := map[string][]string{}
	for _, l := range lines(t, facts) {
		if have[l[0]] != nil {
			t.Errorf("%q is in facts.csv twice", l[0])
		}
		have[l[0]] = l
	}
	for _, s := range spoken() {
		key, text := s[0], s[1]
		switch l := have[key]; {
		case l == nil:
			t.Errorf("facts.csv lacks %q, %q: add a line with its Spanish", key, text)
		case l[1] != text:
			t.Errorf("%q is %q, and in facts.csv %q: correct both languages", key, text, l[1])
		}
		delete(have, key)
	}
	for key := range have {
		if family, _, _ := strings.Cut(key, "/"); !inCode[family] {
			t.Errorf("facts.csv has %q, which nothing says", key)
		}
	}
}

// TestFoundSaysTheSame: what a caution says about a trailer, what is missing for a figure and
// where a value comes from are texts in the code of those packages.
func TestFoundSaysTheSame(t *testing.T) {
	for _, l := range lines(t, facts) {
		family, rest, _ := strings.Cut(l[0], "/")
		file := map[string]string{"advice": "../compute/figure.go", "origin": "../measure/provenance.go"}[family]
		name, _, _ := strings.Cut(rest, "/")
		switch family {
		case "found":
			file = "../inspect/" + strings.ReplaceAll(name, "-", "_") + ".go"
		case "working":
			file = "../compute/" + name + ".go"
		}
		if file == "" {
			continue
		}
		code, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		form := regexp.MustCompile(`"?\\\{\d\\\}"?`).ReplaceAllString(regexp.QuoteMeta(l[1]), `%[a-z]`)
		if !regexp.MustCompile(`"` + form + `"`).Match(code) {
			t.Errorf("%s does not say %q for %s: correct facts.csv in both languages", file, l[1], l[0])
		}
	}
}

// TestFactsInSpanish: a Spanish text has the blanks and the numbers of the English one, and
// nouns of kinds are masculine, so that new, used, sold and what else agrees with them has one form.
func TestFactsInSpanish(t *testing.T) {
	for _, l := range lines(t, facts) {
		key, english, spanish := l[0], l[1], l[2]
		if strings.TrimSpace(spanish) == "" {
			t.Errorf("%q has no Spanish", key)
		}
		if !slices.Equal(found(blank, english), found(blank, spanish)) {
			t.Errorf("%s: %q has other blanks than %q", key, spanish, english)
		}
		numbers := func(text string) []string { return slices.Compact(found(digits, blank.ReplaceAllString(text, ""))) }
		if !slices.Equal(numbers(english), numbers(spanish)) {
			t.Errorf("%s: %q has other numbers than %q", key, spanish, english)
		}
		if strings.Contains(strings.ToUpper(english), "GVWR") && !strings.Contains(spanish, "GVWR") {
			t.Errorf("%s: %q lacks GVWR, which is on the label", key, spanish)
		}
		if w := familiar.FindString(spanish); w != "" {
			t.Errorf("%s: %q says %q; a customer is usted", key, spanish, w)
		}
		if strings.HasPrefix(key, "noun/") && !regexp.MustCompile(`^(remolque|chasis|dolly)\b`).MatchString(spanish) {
			t.Errorf("%s: %q is not a masculine noun that the pages know", key, spanish)
		}
	}
}
