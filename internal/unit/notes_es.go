package unit

import (
	"slices"
	"strings"
)

// notesES is the key of the notes in Spanish. Its value is Markdown, like the notes below the front
// matter, and is read as these are.
const notesES = "notes-es"

// most is how many bytes the value of a key may have.
func (k *key) most() int {
	if k.path == notesES {
		return MostWords
	}
	return mostValue
}

// firstLine is the line of the file at which a text begins: a block after | begins below its key.
func (f *Field[T]) firstLine() int {
	if strings.Contains(strings.TrimSuffix(f.Raw, "\n"), "\n") {
		return int(f.Pos.Line) + 1
	}
	return int(f.Pos.Line)
}

// Spanish are the notes in Spanish, or nil if the unit has none.
func (u *Unit) Spanish() *Body {
	if !u.NotesES.Given() {
		return nil
	}
	b := readBody(u.NotesES.Pos.File, []byte(u.NotesES.Raw), u.NotesES.firstLine())
	b.Spanish = true
	return &b
}

// Bodies are the notes in every language in which the unit has them.
func (u *Unit) Bodies() []*Body {
	out := []*Body{&u.Body}
	if b := u.Spanish(); b != nil {
		out = append(out, b)
	}
	return slices.Clip(out)
}
