package tables

import "tarepage/internal/measure"

// ExciseRow is the federal excise tax on trailers or on parts fitted soon after, as it
// holds between two days. Law changes: the row says when it was looked at.
type ExciseRow struct {
	Part string        // "trailer" or "later parts"
	Rate measure.Share // of the price at the first retail sale
	// Over is the gross weight that must be passed: a trailer of just this much is free.
	Over measure.Pounds
	// Floor is what parts fitted within Months of the first use may cost together
	// without tax; once it is passed, all of it is taxed. Zero for the trailer itself.
	Floor  measure.Dollars
	Months int
	// From and Ends are days, yyyy-mm-dd: the first on which the row holds, empty if it
	// has held for long, and the first on which it no longer does.
	From, Ends string
	Checked    string
	Cited
}

var exciseSheet = newSheet(sheet[ExciseRow]{
	name: "excise", title: "Federal excise tax on trailers", file: "excise.csv",
	columns: []string{"part", "percent", "over_lb", "floor_usd", "months", "from", "ends", "checked", "source", "grade", "note"},
	row: func(r *row) ExciseRow {
		e := ExciseRow{r.must("part"), percent(r.positive("percent")), measure.Pounds(r.positive("over_lb")), measure.Dollars(r.number("floor_usd")),
			r.whole("months"), r.text("from"), r.must("ends"), r.must("checked"), r.cited()}
		for _, column := range []string{"from", "ends", "checked"} {
			if day := r.text(column); day != "" && !isoDay.MatchString(day) {
				r.fail(r.line, "column %s: %q is not a date; write it as 2026-11-25", column, day)
			}
		}
		return e
	},
	key: func(e ExciseRow) string { return "excise on " + e.Part + " ending " + e.Ends },
})

// Excise returns the row for a part ("trailer", "later parts") that holds on a day
// written yyyy-mm-dd. It reports false where none does: before the first, or once the tax
// has ended.
func Excise(part, day string) (ExciseRow, bool) {
	for _, e := range exciseSheet.all() {
		if e.Part == part && day >= e.From && day < e.Ends {
			return e, true
		}
	}
	return ExciseRow{}, false
}

// StateRuleRow is one rule of one state, as data and for reading only: no figure and no
// finding rests on it. A state that is not here was not looked at.
type StateRuleRow struct {
	State   string // two letters
	Subject string // "brakes", "width"
	Value   float64
	Unit    string // lb, ft, in, min
	// Condition says on what the value depends, in words.
	Condition string
	Cite      string
	Checked   string // the day it was looked at, yyyy-mm-dd
	Cited
}

var stateUnits = map[string]bool{"lb": true, "ft": true, "in": true, "min": true, "%": true, "mph": true}

var stateRuleSheet = newSheet(sheet[StateRuleRow]{
	name: "state-rules", title: "State rules: a few samples, nothing is checked against them", file: "state_rule.csv",
	columns: []string{"state", "subject", "value", "unit", "condition", "cite", "checked", "source", "grade", "note"},
	row: func(r *row) StateRuleRow {
		s := StateRuleRow{r.must("state"), r.must("subject"), r.positive("value"), r.must("unit"), r.text("condition"),
			r.must("cite"), r.must("checked"), r.cited()}
		if len(s.State) != 2 || s.State[0] < 'A' || s.State[0] > 'Z' || s.State[1] < 'A' || s.State[1] > 'Z' {
			r.fail(r.line, "column state: %q is not a state; write two capitals, TX", s.State)
		}
		if !stateUnits[s.Unit] {
			r.fail(r.line, "column unit: %q is none of lb, ft, in, min, %%, mph", s.Unit)
		}
		if !isoDay.MatchString(s.Checked) {
			r.fail(r.line, "column checked: %q is not a date; write it as 2026-11-25", s.Checked)
		}
		return s
	},
	key: func(s StateRuleRow) string { return s.State + " " + s.Subject + " " + s.Condition },
})

// StateRules returns the state rules that were looked at, in the file's order. They are
// shown to say what was not checked; ask the state.
func StateRules() []StateRuleRow { return clone(stateRuleSheet) }
