package measure

import "fmt"

// String writes a quantity as its parser must read it back.
func (w Written[U]) String() string {
	s := fmt.Sprint(w.Value)
	if w.About {
		s = "about " + s
	}
	if from := w.From.String(); from != "" {
		s += " (" + from + ")"
	}
	return s
}
