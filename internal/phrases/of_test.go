package phrases

import (
	"strings"
	"testing"
)

// TestOf: a text of another package is found by its English, its numbers are the blanks, and what
// the table lacks stays English as a whole.
func TestOf(t *testing.T) {
	for text, want := range map[string]string{
		"":                         "",
		"7,000 lb":                 "7,000 lb",
		"ST235/80R16":              "ST235/80R16",
		"14 ft 10 in":              "14 ft 10 in",
		"49 CFR 567.4(g)(3)":       "49 CFR 567.4(g)(3)",
		"sold":                     "vendido",
		"Sold":                     "Vendido",
		"November 20, 2026":        "20 de noviembre de 2026",
		"about 7,000 lb":           "aprox. 7,000 lb",
		"week 12 2019":             "semana 12 de 2019",
		"the axles (tongue limit)": "", // "tongue limit" without its article is not a row
		"the tag governs":          "manda la etiqueta",
		"The tag governs.":         "Manda la etiqueta.",
		"the axles, even load":     "los ejes, con carga pareja",
		"spread evenly, 12% of the loaded trailer (1,200 lb) is on the truck; the tag governs": "repartida por igual, 12% del remolque cargado (1,200 lb) va sobre la camioneta; manda la etiqueta",
		"the lowest of 4,000 lb (the tag), 5,000 lb (the axles, even load)":                    "el más bajo de estos límites: 4,000 lb (la etiqueta), 5,000 lb (los ejes, con carga pareja)",
		"Side view to scale: deck-over, 28 ft deck":                                            "Vista lateral a escala: remolque de plataforma alta (deck-over), área de carga de 28 ft",
		"September 2026":                             "septiembre de 2026",
		"axle maker's owner manual, p. 16":           "manual del fabricante del eje, p. 16",
		"size-charts.com":                            "size-charts.com",
		"49 CFR 571.108, lamps, reflectors and tape": "49 CFR 571.108, luces, reflejantes y cinta",
		"Sawbuck Trailer Yard":                       "",
		"spare, kept dry":                            "",
		"in":                                         "", // a unit only after a number
		"the tag governs, maybe":                     "",
	} {
		got, ok := Spanish.Of(text)
		if !ok && want == "" && text != "" {
			continue
		}
		if got != want || !ok {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
	if got, ok := English.Of("the tag governs, maybe"); !ok || got != "the tag governs, maybe" {
		t.Errorf("English changed a text to %q", got)
	}
}

// TestOfEveryRow: each row of facts.csv that has no blanks is found by its own English, as it is
// or as another row with the same English says it.
func TestOfEveryRow(t *testing.T) {
	same := map[string][]string{}
	for _, l := range lines(t, facts) {
		same[l[1]] = append(same[l[1]], l[2])
	}
	for _, l := range lines(t, facts) {
		text := blank.ReplaceAllString(l[1], "1,234")
		got, ok := Spanish.Of(text)
		family, _, _ := strings.Cut(l[0], "/")
		switch {
		case family == "end" || strings.Contains(l[1], "}{"):
		case !ok && strings.Contains(l[1], "{") && !strings.ContainsAny(blank.ReplaceAllString(l[1], ""), "abcdefghijklmnopqrstuvwxyz"):
		case !ok:
			t.Errorf("%s: %q is not found", l[0], text)
		case !strings.Contains(l[1], "{") && !oneOf(got, same[l[1]]) && !strings.EqualFold(got, l[2]):
			t.Errorf("%s: %q is %q, want %q", l[0], text, got, l[2])
		}
	}
}

func oneOf(s string, list []string) bool {
	for _, one := range list {
		if one == s {
			return true
		}
	}
	return false
}

// TestMarks: Plain takes every mark out, and looks up what stands outside of a phrase.
func TestMarks(t *testing.T) {
	l := Spanish.Marked()
	text := l.Say("frame as of", "November 20, 2026")
	if !strings.ContainsRune(text, said) || !strings.ContainsRune(text, told) {
		t.Errorf("%q has no marks", text)
	}
	if got := l.Plain(text); strings.ContainsAny(got, string(said)+string(told)) || !strings.Contains(got, "20 de noviembre de 2026") {
		t.Errorf("%q", got)
	}
	if got := l.Plain("Oxbow Steelworks, " + l.Said("x")); got != "Oxbow Steelworks, x" {
		t.Errorf("%q", got)
	}
	if got := English.Marked().Say("frame as of", "x"); strings.ContainsAny(got, string(said)+string(told)) {
		t.Errorf("%q has marks", got)
	}
}

// TestWritten: the language of notes is told by their small words.
func TestWritten(t *testing.T) {
	for text, want := range map[string]bool{
		"0:20 The coupler. The plate with its rating is on the left side.":           false,
		"0:20 Dos ejes de cinco mil doscientas libras, con muelles.":                 true,
		"El remolque trae dos gatos, and the plate is en la lengua del lado derecho": true,
		"": false, "Duals, oil bath hubs.": false,
	} {
		if got := Written(text); got != want {
			t.Errorf("%q is Spanish: %v", text, got)
		}
	}
}
