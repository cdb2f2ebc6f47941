package tables

import "tarepage/internal/measure"

// StateBrakesRow is the gross weight at which a state's law begins to ask for brakes on an
// ordinary trailer. Where sources differ the row has the lower weight.
type StateBrakesRow struct {
	State  string // two letters
	Weight measure.Pounds
	// From reports that brakes are due at the weight itself; otherwise only above it.
	From bool
	// Camper is the weight itself from which on the state asks for brakes on a camper, where
	// its law names one; otherwise 0.
	Camper measure.Pounds
	// Condition says what else the law depends on, in words, or nothing.
	Condition string
	Cite      string
	Checked   string // the day it was looked at, yyyy-mm-dd
	Cited
}

// ForCamper is the row as it holds for a camper.
func (s StateBrakesRow) ForCamper() StateBrakesRow {
	if s.Camper > 0 {
		s.Weight, s.From = s.Camper, true
	}
	return s
}

// Allows reports whether the row lets a trailer of this gross weight go without brakes.
// Only the law itself, an official page or two sources that agree may allow anything.
func (s StateBrakesRow) Allows(gross measure.Pounds) bool {
	return (s.Grade == Official || s.Grade == TwoSources) && !s.Asks(gross)
}

// Asks reports whether brakes are due at this gross weight.
func (s StateBrakesRow) Asks(gross measure.Pounds) bool {
	return gross > s.Weight || s.From && gross == s.Weight
}

var stateBrakesSheet = newSheet(sheet[StateBrakesRow]{
	name: "state-brakes", title: "Gross weight at which states ask for trailer brakes", file: "brake_state.csv",
	columns: []string{"state", "weight_lb", "at", "camper_lb", "condition", "cite", "checked", "source", "grade", "note"},
	row: func(r *row) StateBrakesRow {
		s := StateBrakesRow{State: r.must("state"), Weight: measure.Pounds(r.positive("weight_lb")), From: r.must("at") == "from",
			Condition: r.text("condition"), Cite: r.must("cite"), Checked: r.must("checked"), Cited: r.cited()}
		if r.text("camper_lb") != "" {
			s.Camper = measure.Pounds(r.positive("camper_lb"))
		}
		if at := r.text("at"); at != "from" && at != "above" {
			r.fail(r.line, "column at: %q is neither from nor above", at)
		}
		if len(s.State) != 2 || s.State[0] < 'A' || s.State[0] > 'Z' || s.State[1] < 'A' || s.State[1] > 'Z' {
			r.fail(r.line, "column state: %q is not a state; write two capitals, TX", s.State)
		}
		if !isoDay.MatchString(s.Checked) {
			r.fail(r.line, "column checked: %q is not a date; write it as 2026-11-25", s.Checked)
		}
		return s
	},
	key: func(s StateBrakesRow) string { return s.State },
})

// StateBrakes returns the row of a state, in two letters. It reports false for a state
// that has none.
func StateBrakes(state string) (StateBrakesRow, bool) {
	for _, s := range stateBrakesSheet.all() {
		if s.State == state {
			return s, true
		}
	}
	return StateBrakesRow{}, false
}
