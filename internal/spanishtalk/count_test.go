package spanishtalk

import (
	"strings"
	"testing"
)

// TestThousands reads numerals as a Spanish grammar writes them (accents are gone by then). What
// follows the numeral is not taken: "sesenta y" has no unit, and "y diez" is not one of it.
func TestThousands(t *testing.T) {
	for text, want := range map[string][2]int{
		"sesenta": {60, 1}, "setenta y dos": {72, 3}, "cuatrocientos": {400, 1}, "cuatrocientas treinta y nueve": {439, 4}, "novecientos": {900, 1},
		"novecientas noventa y nueve": {999, 4}, "sesenta y": {60, 1}, "treinta y diez": {30, 1}, "treinta y cero": {30, 1}, "cero": {0, 1}, "un": {1, 1}, "uno": {1, 1},
		"mil": {1000, 1}, "dos mil": {2000, 2}, "siete mil quinientas": {7500, 3}, "doce mil trescientos cuarenta y cinco": {12345, 6}, "libras": {0, 0},
	} {
		var tokens []token
		for _, w := range strings.Fields(text) {
			tokens = append(tokens, token{norm: w})
		}
		if v, n := thousands(tokens); v != want[0] || n != want[1] {
			t.Errorf("%q: %d in %d words, want %v", text, v, n, want)
		}
	}
}
