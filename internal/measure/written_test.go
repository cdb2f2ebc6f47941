package measure

import "fmt"

// String writes a quantity as its parser must read it back. Empty parentheses name no place, and
// they are not the same as none.
func (w Written[U]) String() string {
	s := fmt.Sprint(w.Value)
	if w.About {
		s = "about " + s
	}
	if w.From != (Provenance{}) {
		s += " (" + w.From.String() + ")"
	}
	return s
}
