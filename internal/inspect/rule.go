package inspect

import (
	"fmt"
	"sort"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// Severity says what follows from a finding.
type Severity int

const (
	// Stop keeps the unit from being published.
	Stop Severity = iota
	// Caution is published on the unit's pages.
	Caution
	// Remark is for the owner only.
	Remark
)

func (s Severity) String() string { return [...]string{"stop", "caution", "remark"}[s] }

// Practice is the source of a rule that has no other.
const Practice = "common practice, no source"

// A Rule is one thing that is checked on a unit.
type Rule struct {
	// Name is kebab-case, unique and stable.
	Name string
	// Title is one line: what the rule asks.
	Title string
	// Why says what happens to somebody where the rule is broken.
	Why string
	// Source is document, clause and edition, or Practice.
	Source string
	// Remedy is what to do, in the imperative, where a finding does not say it better.
	Remedy   string
	Severity Severity

	// check looks at one unit; checkYard at all of them. A rule that reading
	// enforces has neither.
	check     func(*Case, *Findings)
	checkYard func(*Yard, *Findings)
}

// A Case is what a rule looks at: one unit and its work.
type Case struct {
	*unit.Unit
	Work *compute.Work
	// Media are the files that the unit names.
	Media []unit.Media

	givens   []unit.Given // once somebody has asked
	passages []unit.Passage
	texts    []writing
	words    []walkaround.Prose // of the passages
}

// Givens are the values that the unit gives.
func (c *Case) Givens() []unit.Given {
	if c.givens == nil {
		c.givens = c.Unit.Givens()
	}
	return c.givens
}

// Passages are what the notes say, checked figures filled in.
func (c *Case) Passages() []unit.Passage {
	if c.passages == nil {
		for _, b := range c.Bodies() {
			c.passages = append(c.passages, b.Passages(c.filled)...)
		}
	}
	return c.passages
}

// notes are the words of a passage.
func (c *Case) notes(i int) walkaround.Prose {
	if c.words == nil {
		for _, p := range c.Passages() {
			c.words = append(c.words, walkaround.ReadProse(p.Text))
		}
	}
	return c.words[i]
}

// A Yard is what a rule about several units looks at.
type Yard struct {
	Stock *unit.Stock
	Cases []*Case
}

// A Finding is one place at which a rule is broken.
type Finding struct {
	Rule     *Rule
	Severity Severity
	// At is what to change.
	At unit.Pos
	// Unit is the file of the unit it concerns.
	Unit string
	// Message is one lower-case clause with the bad value and the limit.
	Message string
	// Value and Limit are the two numbers in conflict as text, where there are two.
	Value, Limit string
	// Related are the other places that matter.
	Related []unit.Place
	// Source is the rule's, or a clause that fits this unit better.
	Source string
	Remedy string
	// First puts a caution before the others of its unit: it is the one that hurts people.
	First bool
}

// Findings gathers what one rule finds in one case.
type Findings struct {
	rule *Rule
	file string
	list []Finding
}

// add makes a finding at a place. Chain the rest: f.add(at, "...").also(...).
func (f *Findings) add(at unit.Pos, format string, args ...any) *Finding {
	f.list = append(f.list, Finding{
		Rule: f.rule, Severity: f.rule.Severity, At: at, Unit: f.file,
		Message: fmt.Sprintf(format, args...), Source: f.rule.Source, Remedy: f.rule.Remedy,
	})
	return &f.list[len(f.list)-1]
}

// also names another place that matters. An unknown place is left out.
func (f *Finding) also(at unit.Pos, what string) *Finding {
	if at.Known() && at != f.At {
		f.Related = append(f.Related, unit.Place{At: at, What: what})
	}
	return f
}

// figures names the value and the limit.
func (f *Finding) figures(value, limit string) *Finding {
	f.Value, f.Limit = value, limit
	return f
}

// by names the clause that fits this unit.
func (f *Finding) by(source string) *Finding {
	f.Source = source
	return f
}

// only gives this one finding a lower severity than the rule has.
func (f *Finding) only(s Severity) *Finding {
	f.Severity = s
	return f
}

// fix says what to do about this one.
func (f *Finding) fix(format string, args ...any) *Finding {
	f.Remedy = fmt.Sprintf(format, args...)
	return f
}

// Lookup finds a rule by its name.
func Lookup(name string) *Rule {
	for _, r := range All {
		if r.Name == name {
			return r
		}
	}
	return nil
}

// Called finds a rule by its name, as somebody typed it. The error says which name comes near.
func Called(name string) (*Rule, error) {
	if r := Lookup(name); r != nil {
		return r, nil
	}
	near := "; rule without a name lists them all"
	if n := unit.Nearest(name, Names()); n != "" {
		near = fmt.Sprintf("; did you mean %q?", n)
	}
	return nil, fmt.Errorf("there is no rule %q%s", name, near)
}

// Names are the names of all rules, sorted.
func Names() []string {
	var out []string
	for _, r := range All {
		out = append(out, r.Name)
	}
	sort.Strings(out)
	return out
}
