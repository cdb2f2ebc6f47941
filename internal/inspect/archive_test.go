package inspect_test

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/report"
	"tarepage/internal/tables"
)

var update = flag.Bool("update", false, "rewrite the want sections of the archives from what the cases give")

// examplesOf are a rule's examples, run once for all tests, which only read them.
var examplesOf = func() func(*testing.T, *inspect.Rule) []inspect.Example {
	known := map[*inspect.Rule][]inspect.Example{}
	return func(t *testing.T, r *inspect.Rule) []inspect.Example {
		t.Helper()
		if known[r] == nil {
			list, err := inspect.CasesOf(r)
			if err != nil {
				t.Fatal(err)
			}
			known[r] = list
		}
		return known[r]
	}
}()

// TestArchives runs every case of every rule's archive and compares the findings, all
// of them, with the archive's want section.
func TestArchives(t *testing.T) {
	unused := maps.Clone(alsoStops)
	for _, r := range inspect.All {
		t.Run(r.Name, func(t *testing.T) {
			examples := examplesOf(t, r)
			breaks, holds := false, false
			got := map[string]string{}
			for _, ex := range examples {
				if ex.Title == "" {
					t.Errorf("case %s has no title", ex.Case)
				}
				broken := slices.ContainsFunc(ex.Findings, func(f inspect.Finding) bool { return f.Rule == r })
				breaks, holds = breaks || broken, holds || !broken
				var b strings.Builder
				if err := report.Findings(&b, ex.Findings); err != nil {
					t.Fatal(err)
				}
				got[ex.Case+"/want"] = b.String()
				if b.String() != ex.Want && !*update {
					t.Errorf("case %s gives\n%s\nwant\n%s", ex.Case, b.String(), ex.Want)
				}
				for _, f := range ex.Findings {
					if f.Rule == r || f.Severity != inspect.Stop || !broken {
						continue
					}
					if name := r.Name + "/" + ex.Case; alsoStops[name] {
						delete(unused, name)
					} else {
						t.Errorf("case %s also stops at %s: an example breaks one rule", ex.Case, f.Rule.Name)
					}
				}
			}
			if !breaks || !holds {
				t.Errorf("the archive needs a case that breaks the rule and one that holds it (breaks %v, holds %v)", breaks, holds)
			}
			if *update {
				rewrite(t, strings.ReplaceAll(r.Name, "-", "_")+".txtar", got)
			}
		})
	}
	if run := flag.Lookup("test.run").Value.String(); !strings.Contains(run, "/") { // with it, only some rules ran
		for name := range unused {
			t.Errorf("alsoStops lists %s, which no other rule stops; take it off", name)
		}
	}
}

// notInWords lists the rules whose message does not print one of its two numbers.
var notInWords = map[string]string{
	"measure-impossible": "more axles than six are more than a trailer has; six is not said",
	"empty-too-light":    "a twentieth of the gvwr is said as that",
	"license-class":      "the words name the truck, the numbers are the trailer's",
	"tire-old":           "five years are the rule's title",
	"chains-missing":     "the counts are said in words",
}

// TestNumbers checks the two numbers in conflict, which go into the JSON and not into the
// printed finding. They are in the sentence that a seller reads, and in a list that is
// reviewed like code.
func TestNumbers(t *testing.T) {
	var got strings.Builder
	unused := maps.Clone(notInWords)
	for _, r := range inspect.All {
		for _, ex := range examplesOf(t, r) {
			for _, f := range ex.Findings {
				if f.Rule != r || f.Value+f.Limit == "" {
					continue
				}
				fmt.Fprintf(&got, "%s/%s: %s | %s\n", r.Name, ex.Case, f.Value, f.Limit)
				for _, n := range []string{f.Value, f.Limit} {
					if strings.Contains(f.Message, n) {
						continue
					}
					if delete(unused, r.Name); notInWords[r.Name] == "" {
						t.Errorf("%s/%s: %q is not in %q", r.Name, ex.Case, n, f.Message)
					}
				}
			}
		}
	}
	for name := range unused {
		t.Errorf("notInWords lists %s, whose messages have both numbers; take it off", name)
	}
	const name = "testdata/numbers.txt"
	if *update {
		if err := os.WriteFile(name, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	g, w := strings.Split(got.String(), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(g), len(w)) {
		if i >= len(g) || i >= len(w) || g[i] != w[i] {
			t.Fatalf("%s:%d: the findings give\n%q\nwant\n%q", name, i+1, g[min(i, len(g)-1)], w[min(i, len(w)-1)])
		}
	}
}

// alsoStops lists the cases in which another rule must stop too, with the reason.
var alsoStops = map[string]bool{
	// One bad file never hides the findings of the others.
	"file-unreadable/broken": true,
	// A load range that does not exist leaves the tire unknown.
	"load-range-and-ply/letter":         true,
	"load-range-and-ply/letter-and-ply": true,
	// With its axles that far back no load can be put where the tongue is light enough.
	"axles-behind-deck/lowboy-above": true,
	// A deck wider than the whole trailer is wide, and one of the two was misread.
	"wide-load/deck-wider": true,
	// A rating of zero is below everything it is compared with.
	"measure-impossible/zeros-of-the-rest": true,
	// A trailer with that much on its tongue is over the coupler's limit too.
	"measure-impossible/tongue": true,
	// A load above the payload in the words is a stop of its own, whatever else it contradicts.
	"note-disagrees/claims": true,
	// The words after a value are words of the page.
	"source-unknown/sister": true,
	// What reading finds is a stop too, and the waiver cannot waive it.
	"waiver-unknown/reading": true,
	// A waiver that has expired, or names another rule, does not lift the stop.
	"waiver-expired/above": true,
	"waiver-unused/other":  true,
}

func rewrite(t *testing.T, name string, want map[string]string) {
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	a := txtar.Parse(src)
	for i, f := range a.Files {
		if text, ok := want[f.Name]; ok {
			a.Files[i].Data = []byte(text)
		}
	}
	if err := os.WriteFile(name, txtar.Format(a), 0o644); err != nil {
		t.Fatal(err)
	}
}

// clauseForm is what looks like a clause of federal law.
var clauseForm = regexp.MustCompile(`[0-9]{3,4}\.[0-9]+(?:-[0-9]+)?|USC [0-9]+`)

// TestClausesAreListed compares the federal law that rules and figures cite with the table
// of clauses, which names the edition that was read and what has changed since.
func TestClausesAreListed(t *testing.T) {
	sources := map[string]string{}
	for _, r := range inspect.All {
		sources["rule "+r.Name] = r.Source
	}
	for _, d := range compute.All {
		sources["figure "+d.Name] = d.Source
	}
	for who, source := range sources {
		for _, clause := range clauseForm.FindAllString(source, -1) {
			if !slices.ContainsFunc(tables.AllClauses(), func(c tables.Clause) bool { return c.Mark == clause }) {
				t.Errorf("%s cites %s, which is not in internal/tables/data/clause.csv", who, clause)
			}
		}
	}
	used := map[string]bool{}
	for _, source := range sources {
		for _, c := range tables.Clauses(source) {
			used[c.Mark] = true
		}
	}
	for _, c := range tables.AllClauses() {
		if !used[c.Mark] {
			t.Logf("%s is cited by no rule and no figure", c.Mark)
		}
	}
}

// TestRulesAreWhole checks what every rule must have.
func TestRulesAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range inspect.All {
		if seen[r.Name] {
			t.Errorf("rule %s is in the list twice", r.Name)
		}
		seen[r.Name] = true
		for what, text := range map[string]string{"title": r.Title, "why": r.Why, "source": r.Source, "remedy": r.Remedy} {
			if text == "" {
				t.Errorf("rule %s has no %s", r.Name, what)
			}
		}
		if strings.HasSuffix(r.Title, ".") || !strings.HasSuffix(r.Why, ".") || strings.HasSuffix(r.Remedy, ".") {
			t.Errorf("rule %s: title and remedy have no full stop, why has one", r.Name)
		}
		stem := strings.ReplaceAll(r.Name, "-", "_")
		for _, ext := range []string{".go", ".txtar"} {
			if _, err := os.Stat(stem + ext); err != nil {
				t.Errorf("rule %s has no file %s", r.Name, stem+ext)
			}
		}
	}
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if stem, ok := strings.CutSuffix(f.Name(), ".txtar"); ok && !seen[strings.ReplaceAll(stem, "_", "-")] {
			t.Errorf("archive %s belongs to no rule", f.Name())
		}
	}
}
