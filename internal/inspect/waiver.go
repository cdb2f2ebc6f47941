package inspect

import (
	"fmt"
	"slices"
	"strings"

	"tarepage/internal/unit"
)

// waivable reports whether a unit file may waive a rule. It must be a stop that somebody
// can answer for. What does not read, what is missing and what would break the pages
// cannot be waived.
func waivable(r *Rule) bool {
	if r.Severity != Stop {
		return false
	}
	switch r {
	case yardMissing, unitMissing, stockTaken, stockForm, measureImpossible, figureUnknown, waiverUnknown, proofPublished, wordsPrivate, notesUnread:
		return false
	}
	// A rule that reading enforces has no check of its own.
	return r.check != nil || r.checkYard != nil
}

// holds reports whether the waiver is whole, names a rule that may be waived and has not
// run out on the day the stock was walked; its last day is included.
func holds(w unit.Waiver, asOf unit.Day) bool {
	r := Lookup(w.Rule.Value)
	return r != nil && waivable(r) && w.Reason.Given() && explains(w.Reason.Value) && w.Until.Given() && asOf.Known() && !asOf.After(w.Until.Value)
}

// tellsWithheld reports whether a message has the name of a photo that is kept off the site. A
// customer would read it.
func (c *Case) tellsWithheld(message string) bool {
	return slices.ContainsFunc(c.Media, func(m unit.Media) bool { return m.Withheld && strings.Contains(message, m.Name) })
}

// waive turns the stops that a unit file waives into published cautions with the reason
// shown, and finds waivers that no stop needed.
func waive(y *Yard, list []Finding) []Finding {
	for _, c := range y.Cases {
		for _, w := range c.Waive {
			if !holds(w, c.Work.Settings.AsOf) {
				continue
			}
			used := false
			for i := range list {
				f := &list[i]
				if f.Unit != c.File || f.Rule.Name != w.Rule.Value {
					continue
				}
				used = true
				if f.Severity == Stop && !c.tellsWithheld(f.Message) {
					f.Severity = Caution
					f.Message += fmt.Sprintf(" (published all the same until %s: %s)", w.Until.Value, w.Reason.Value)
					f.also(w.Rule.Pos, "waived here")
				}
			}
			if !used {
				f := &Findings{rule: waiverUnused, file: c.File}
				f.add(w.Rule.Pos, "%s is waived, but the unit does not break it", w.Rule.Value)
				list = append(list, f.list...)
			}
		}
	}
	return list
}
