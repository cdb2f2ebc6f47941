package inspect

import (
	"unicode"

	"tarepage/internal/unit"
)

// Its check is set in init because it looks rules up in the list that it is part of.
var waiverUnknown = &Rule{
	Name: "waiver-unknown", Severity: Stop,
	Title:  "a waiver names a stop that can be waived, a reason and a last day",
	Why:    "Somebody who writes a waiver that does not work believes that it does.",
	Source: "the unit file's format, docs/unit-file.md: waive",
	Remedy: "name the rule as the finding prints it in brackets",
}

func init() {
	waiverUnknown.check = func(c *Case, f *Findings) {
		for _, w := range c.Waive {
			if m := incomplete(w); m != "" {
				f.add(w.At, "a waiver has no %s", m).fix("write rule:, reason: and until: with the last day, as in until: 2026-12-15")
				continue
			}
			r := Lookup(w.Rule.Value)
			switch {
			case r == nil:
				fd := f.add(w.Rule.Pos, "there is no rule %q to waive", w.Rule.Value)
				if near := unit.Nearest(w.Rule.Value, Names()); near != "" {
					fd.fix("did you mean %q?", near)
				}
			case r.Severity != Stop:
				f.add(w.Rule.Pos, "%s is a %s and not a stop, so there is nothing to waive", r.Name, r.Severity).fix("take the waiver out")
			case !explains(w.Reason.Value):
				f.add(w.Reason.Pos, "the waiver's reason %q tells customers nothing", w.Reason.Value).fix("say in words why the unit is published all the same; the page prints them")
			case c.Work.Settings.AsOf.Known() && w.Until.Value.Days()-c.Work.Settings.AsOf.Days() > longestWaiver:
				f.add(w.Until.Pos, "the waiver holds until %s, more than a year after %s, when the stock was walked", w.Until.Value, c.Work.Settings.AsOf).
					figures(w.Until.Value.String(), c.Work.Settings.AsOf.String()).
					fix("write a day within a year, and look at it again then")
			case !waivable(r):
				f.add(w.Rule.Pos, "%s cannot be waived", r.Name).fix("fix what it finds and take the waiver out")
			}
		}
	}
}

// longestWaiver is how many days ahead a waiver may run: whoever wrote it has to look at the
// trailer again. Common practice, no source.
const longestWaiver = 366

// explains reports whether a reason has words that can be seen: two letters in a row at least
// once, and not only fillers, which Unicode counts among the letters.
func explains(reason string) bool {
	seen := 0
	for _, r := range reason {
		switch {
		case unicode.Is(unicode.Latin, r):
			seen++
		case seen < 2:
			seen = 0
		}
	}
	return seen >= 2
}

// incomplete is the first of a waiver's keys that is missing. One that is there and does
// not read has its own finding.
func incomplete(w unit.Waiver) string {
	switch {
	case !w.Rule.Given() && !w.Rule.Spoiled:
		return "rule"
	case !w.Reason.Given() && !w.Reason.Spoiled:
		return "reason"
	case !w.Until.Given() && !w.Until.Spoiled:
		return "until"
	}
	return ""
}
