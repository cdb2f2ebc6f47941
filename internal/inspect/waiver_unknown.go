package inspect

import "tarepage/internal/unit"

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
			case !waivable(r):
				f.add(w.Rule.Pos, "%s cannot be waived", r.Name).fix("fix what it finds and take the waiver out")
			}
		}
	}
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
