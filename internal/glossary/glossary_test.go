package glossary

import (
	"strings"
	"testing"
)

// TestRead: a yard's word has the gender of the word in whose place it comes, and is not the name of something else.
func TestRead(t *testing.T) {
	for text, want := range map[string]string{
		"camioneta = troca":                          "troca",
		"Camioneta = la troca":                       "troca",
		"camioneta=la pick up":                       "pick up",
		"acoplador = cople":                          "cople",
		"freno de emergencia = freno de desenganche": "freno de desenganche",
		"correa = la eslinga":                        "eslinga",
	} {
		w, err := Read(text)
		if err != nil || w.To != want {
			t.Errorf("%s: %v, %v", text, w, err)
		}
	}
	for text, want := range map[string]string{
		"camioneta":                       "no =",
		"nave = troca":                    "is not a noun of the glossary",
		"jalar = remolcar":                "is not a noun of the glossary",
		"camioneta = el camión":           "another thing",
		"camioneta = el mueble":           "does not agree",
		"camioneta = mueble":              "needs its article: write camioneta = la mueble",
		"portabola = barra de tiro":       "does not agree",
		"camioneta = el troca":            "other gender",
		"peso bruto vehicular = el bruto": "stays",
		"placa = la lámina":               "stays",
		"camioneta = la <b>":              "not a word",
		"bola = la cadena de seguridad":   "another thing",
	} {
		if w, err := Read(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, %v; want %q", text, w, err, want)
		}
	}
}

func TestChanger(t *testing.T) {
	change := Changer([]Word{{"camioneta", "troca"}, {"acoplador", "cople"}, {"luz trasera", "calavera"}, {"freno de emergencia", "freno de desenganche"}, {"sillón", "tirón"}})
	for in, want := range map[string]string{
		"Su camioneta no puede.":                  "Su troca no puede.",
		"Camionetas y camionetitas":               "Trocas y camionetitas",
		"El acoplador (coupler), los acopladores": "El cople (coupler), los coples",
		"CAMIONETA":      "TROCA",
		"luces traseras": "calaveras",
		"Frenos de emergencia (breakaway) de la camioneta": "Frenos de desenganche (breakaway) de la troca",
		"sillones":                  "tirones",
		"ninguna de estas palabras": "ninguna de estas palabras",
	} {
		if got := change(in); got != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
	if got := Changer(nil)("camioneta"); got != "camioneta" {
		t.Error(got)
	}
}
