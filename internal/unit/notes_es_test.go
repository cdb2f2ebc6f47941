package unit

import (
	"strings"
	"testing"
)

// TestNotesInSpanish: the notes under notes-es are Markdown with times and checked figures, at their own
// lines of the file, and are not one of the unit's values.
func TestNotesInSpanish(t *testing.T) {
	src := "---\ntitle: a\nnotes-es: |\n  ## Piso\n\n  0:04 Le caben [?](worked:payload).\n\n  Es de *madera*.\nstock: SB-1\n---\n\n0:04 The floor.\n"
	u, problems := ReadUnit("content/units/sb-1.md", []byte(src))
	if len(problems) > 0 {
		t.Fatalf("%v", problems)
	}
	b := u.Spanish()
	if b == nil || len(b.Notes) != 1 || len(b.Figures) != 1 || b.Headings != 1 {
		t.Fatalf("the notes in Spanish are %+v", b)
	}
	if b.Notes[0].Pos.Line != 6 || b.Figures[0].Pos.Line != 6 || b.Notes[0].At != 4 {
		t.Errorf("the note is at %v, the figure at %v", b.Notes[0].Pos, b.Figures[0].Pos)
	}
	if u.Stock.Value != "SB-1" || len(u.Body.Notes) != 1 || len(u.Bodies()) != 2 {
		t.Errorf("the rest is %q, %d notes, %d texts", u.Stock.Value, len(u.Body.Notes), len(u.Bodies()))
	}
	for _, g := range u.Givens() {
		if g.Path == notesES {
			t.Error("the notes in Spanish are among the values")
		}
	}
	if u, _ := ReadUnit("content/units/sb-1.md", []byte("---\ntitle: a\nnotes-es: Piso de madera.\n---\n")); u.Spanish().Line != 3 {
		t.Errorf("one line begins at line %d", u.Spanish().Line)
	}
	for name, text := range map[string]string{
		"long":     strings.Repeat("piso ", MostWords/5+1),
		"brackets": strings.Repeat("[", mostBrackets+1),
	} {
		u, problems := ReadUnit("content/units/sb-1.md", []byte("---\ntitle: a\nnotes-es: |\n  "+text+"\n---\n"))
		if len(problems) == 0 || u.Spanish() != nil {
			t.Errorf("%s: %v, and the notes are read", name, problems)
		}
	}
}
