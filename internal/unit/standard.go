package unit

import (
	"fmt"
	"slices"
	"strings"

	"tarepage/internal/measure"
)

// heardLists are the lists of equipment that a recording fills. An item that nobody has checked
// ends in the time at which it was said: spare tire and wheel (said 1:03).
var heardLists = map[string]bool{"standard": true, "options": true}

// heardItem takes the note that an item was only said off its words. Other words in parentheses
// are the owner's own.
func heardItem(t *Text) {
	if rest, _, from := peel(t.Value); from.Origin == measure.Said {
		t.Value, t.From = rest, from
	}
}

// addStandard makes what is standard of what the model has and of what the unit adds, without
// what the unit takes away. An item of standard-not that the model does not have is a mistake:
// what was meant to be taken away would stay on the page.
func (u *Unit) addStandard(own, model []Text) (problems []Problem) {
	has := func(list []Text, item Text) bool {
		return slices.ContainsFunc(list, func(t Text) bool { return strings.EqualFold(t.Value, item.Value) })
	}
	var out []Text
	for _, t := range model {
		if !has(u.StandardNot, t) && !has(own, t) {
			out = append(out, t)
		}
	}
	u.Standard = append(out, own...)
	for _, not := range u.StandardNot {
		switch {
		case has(own, not):
			problems = append(problems, Problem{Rule: ValueUnreadable, At: not.Pos,
				Message: fmt.Sprintf("%q is under standard and under standard-not", not.Value), Remedy: "keep one of the two"})
		case !has(model, not):
			var names []string
			for _, t := range model {
				names = append(names, t.Value)
			}
			p := Problem{Rule: ValueUnreadable, At: not.Pos,
				Message: fmt.Sprintf("%q is not standard on the model, so standard-not takes nothing away", not.Value),
				Remedy:  "leave it out; the model has nothing under standard"}
			if near := Nearest(not.Value, names); near != "" {
				p.Remedy = fmt.Sprintf("did you mean %q?", near)
			} else if len(names) > 0 {
				p.Remedy = "write one of these as the model has it: " + strings.Join(names, "; ")
			}
			problems = append(problems, p)
		}
	}
	return problems
}
