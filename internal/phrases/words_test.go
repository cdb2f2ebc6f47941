package phrases

import (
	"regexp"
	"slices"
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

// aboutPickups are phrases that keep their camioneta on a trailer's page behind a tractor, or that
// are never on one: what is loaded, the page of many trailers, and brakes that no tractor works.
var aboutPickups = regexp.MustCompile(`^(load/|choice/|working/tiedowns|text/cars and light|text/most give|no scripts yard$|only pull$|yard fits$|count |asked |link list$|keep |card surge|figure/tongue-by-foot)`)

// TestBehindTractor: no sentence on the page of a trailer behind a tractor calls the truck a pickup. In
// Mexico it is a tractocamión, and it couples with a quinta rueda (NOM-012-SCT-2-2017, from memory).
func TestBehindTractor(t *testing.T) {
	own := map[string][]string{}
	for _, l := range lines(t, tractor) {
		own[l[0]] = l
		switch line := table()[l[0]]; {
		case line == nil:
			t.Errorf("tractor.csv has %q, which the table lacks", l[0])
		case line[1] != l[1]:
			t.Errorf("%s is %q in the table and %q in tractor.csv", l[0], line[1], l[1])
		case !slices.Equal(found(blank, l[1]), found(blank, l[2])):
			t.Errorf("%s: %q has other blanks than %q", l[0], l[2], l[1])
		}
		if pickup.MatchString(l[2]) {
			t.Errorf("%s says %q", l[0], l[2])
		}
	}
	behind := Spanish.BehindTractor()
	for key, line := range table() {
		if aboutPickups.MatchString(key) {
			continue
		}
		if pickup.MatchString(line[2]) && own[key] == nil {
			t.Errorf("%s says %q; give tractor.csv the sentence for a trailer behind a tractor", key, line[2])
		}
		if out, ok := behind.Of(line[1]); ok && own[key] != nil && pickup.MatchString(out) {
			t.Errorf("%q becomes %q", line[1], out)
		}
	}
	if got := behind.With([]glossary.Word{{From: "eje", To: "flecha"}}).Say("bring truck"); got != "Mi tractocamión" {
		t.Error(got)
	}
	if English.BehindTractor() != English {
		t.Error("English is changed")
	}
}

// pickup is the word for a pickup, or a tractor in the wrong gender.
var pickup = regexp.MustCompile(`(?i)camioneta|\b(la|una|esta|ninguna) tractocam|tractocamión (completa|sola|misma|estacionada)`)
