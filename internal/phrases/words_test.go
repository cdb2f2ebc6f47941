package phrases

import (
	"strings"
	"testing"

	"tarepage/internal/glossary"
)

// TestWith: a yard's word is in phrases by their keys and in those by their English, and a language
// without it is not changed.
func TestWith(t *testing.T) {
	for range 2 {
		l := Spanish.With([]glossary.Word{{From: "camioneta", To: "troca"}, {From: "acoplador", To: "cople"}})
		if got := l.Say("bring truck"); got != "Mi troca" {
			t.Error(got)
		}
		if got, _ := l.Of("On the truck at GVWR, even load"); got != "Sobre la troca al PBV (GVWR), con carga pareja" {
			t.Error(got)
		}
		if got, _ := Spanish.Of("On the truck at GVWR, even load"); got != "Sobre la camioneta al PBV (GVWR), con carga pareja" {
			t.Error(got)
		}
		if got := string(l.Script(`"bring truck"`)); !strings.Contains(got, "Mi troca") {
			t.Error(got)
		}
		if got := l.Marked().Say("bring truck"); Unmarked(got) != "Mi troca" {
			t.Error(got)
		}
	}
	if English.With([]glossary.Word{{From: "camioneta", To: "troca"}}) != English {
		t.Error("English is changed")
	}
}
