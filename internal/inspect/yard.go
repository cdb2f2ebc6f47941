package inspect

import (
	"fmt"
	"slices"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/parallel"
	"tarepage/internal/unit"
)

// Stock inspects everything: what reading found, each unit by each rule, and the
// rules about several units. The result is complete, sorted and without repetition.
func Stock(s *unit.Stock, works []*compute.Work, problems []unit.Problem) []Finding {
	found := make([][]Finding, len(s.Units))
	parallel.Each(len(s.Units), func(i int) {
		found[i] = Unit(s.Units[i], works[i], s.Media[s.Units[i].File])
	})
	return Complete(s, works, problems, append(found, Across(s, works))...)
}

// Unit checks one unit by each rule that looks at one unit. Whether the rule is
// waived or the unit withheld is left to Complete, which takes what it returns.
func Unit(u *unit.Unit, w *compute.Work, media []unit.Media) []Finding {
	if u.Broken {
		return nil
	}
	c := &Case{Unit: u, Work: w, Media: media}
	f := new(Findings) // for one rule after the other; what is found is copied
	var out []Finding
	for _, r := range All {
		if r.check == nil {
			continue
		}
		*f = Findings{rule: r, file: c.File, list: f.list[:0]}
		r.check(c, f)
		f.fold()
		for i := range f.list {
			fromModel(c, &f.list[i])
		}
		out = append(out, f.list...)
	}
	return out
}

// mostOfOne is how many findings of one rule are listed for one unit.
const mostOfOne = 20

// fold replaces the findings that nobody would read by one that says how many there are.
func (f *Findings) fold() {
	if len(f.list) <= mostOfOne+1 {
		return
	}
	rest := f.list[mostOfOne:]
	last := rest[0]
	for _, more := range rest {
		last.Severity = min(last.Severity, more.Severity) // the worst of them
	}
	last.Message, last.Value, last.Limit, last.Related = fmt.Sprintf("and %d more of this kind in this unit", len(rest)), "", "", nil
	last.Remedy = "fix those above, then look again"
	f.list = append(f.list[:mostOfOne], last)
}

// Across checks the yard by the rules that look at several units.
func Across(s *unit.Stock, works []*compute.Work) []Finding {
	yard := yardOf(s, works)
	var out []Finding
	f := new(Findings) // for one rule after the other; what is found is copied
	for _, r := range All {
		if r.checkYard != nil {
			*f = Findings{rule: r, file: s.Yard.File, list: f.list[:0]}
			r.checkYard(yard, f)
			out = append(out, f.list...)
		}
	}
	return out
}

// Complete is the whole list of findings: what reading found, and what Unit, PhotoFaults and
// Across found, with what is waived and what is withheld, sorted and without repetition. It
// leaves the lists that it is given as they are.
func Complete(s *unit.Stock, works []*compute.Work, problems []unit.Problem, found ...[]Finding) []Finding {
	n := len(problems)
	for _, list := range found {
		n += len(list)
	}
	out := make([]Finding, 0, n+n/8)
	for _, p := range problems {
		out = append(out, read(p))
	}
	for _, list := range found {
		for _, f := range list {
			// A waiver adds its place; what is kept for the next build has none.
			f.Related = slices.Clip(f.Related)
			out = append(out, f)
		}
	}
	yard := yardOf(s, works)
	out = waive(yard, out)
	withheld(yard, out)
	slices.SortFunc(out, compare)
	return slices.CompactFunc(out, func(a, b Finding) bool { return compare(a, b) == 0 })
}

func yardOf(s *unit.Stock, works []*compute.Work) *Yard {
	yard := &Yard{Stock: s}
	for i, u := range s.Units {
		if !u.Broken {
			yard.Cases = append(yard.Cases, &Case{Unit: u, Work: works[i], Media: s.Media[u.File]})
		}
	}
	return yard
}

// read makes a finding of what reading found.
func read(p unit.Problem) Finding {
	r := Lookup(p.Rule)
	if r == nil {
		panic("inspect: reading breaks a rule that is not in the list: " + p.Rule)
	}
	f := Finding{Rule: r, Severity: r.Severity, At: p.At, Unit: p.At.File, Message: p.Message,
		Related: p.Related, Source: r.Source, Remedy: p.Remedy}
	if f.Remedy == "" {
		f.Remedy = r.Remedy
	}
	return f
}

// fromModel names the unit if the place of a finding is in its model's file.
func fromModel(c *Case, f *Finding) {
	if c.FromModel(f.At) && c.Model.Given() && f.At.File != c.File {
		f.Related = append(f.Related, unit.Place{At: c.Model.Pos, What: "filled in for unit " + c.Stock.Value + " here"})
	}
}

// withheld turns the findings of units that are kept out on purpose into remarks:
// nobody is misled by a page that is not published.
func withheld(y *Yard, list []Finding) {
	kept := map[string]string{}
	for _, c := range y.Cases {
		if y.Stock.SetAside(c.Unit) {
			kept[c.File] = " (the example is left out)"
		}
		if c.Withheld() {
			kept[c.File] = " (the unit is withheld)"
			if c.Withhold.Given() {
				kept[c.File] = " (the unit is withheld: " + c.Withhold.Value + ")"
			}
		}
	}
	for i := range list {
		if reason, ok := kept[list[i].Unit]; ok && list[i].Severity != Remark && list[i].Rule != withholdReason {
			list[i].Message += reason
			list[i].Severity = Remark
		}
	}
}

// compare is a total order: file, line, column, rule, unit, text.
func compare(a, b Finding) int {
	if a.At != b.At {
		if a.At.Before(b.At) {
			return -1
		}
		return 1
	}
	if c := strings.Compare(a.Rule.Name, b.Rule.Name); c != 0 {
		return c
	}
	if c := strings.Compare(a.Unit, b.Unit); c != 0 {
		return c
	}
	return strings.Compare(a.Message, b.Message)
}

// Count counts the findings of one severity.
func Count(list []Finding, s Severity) int {
	n := 0
	for _, f := range list {
		if f.Severity == s {
			n++
		}
	}
	return n
}
