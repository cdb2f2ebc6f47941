package unit

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// Nearest returns the name that a mistyped word most likely means, or "" if none is close. At
// most a third of the letters may differ, or two if they were swapped. The first name wins a
// tie.
func Nearest(word string, names []string) string {
	if len(word) > 64 {
		return "" // no name is as long, and the comparison takes longer for long words
	}
	best, distance := "", min((len([]rune(word))+2)/3, 4)+1
	low := strings.ToLower(word)
	for _, name := range names {
		if swapped(low, strings.ToLower(name)) {
			return name // "atl" is "alt", not "at"
		}
		if d := levenshtein.ComputeDistance(low, strings.ToLower(name)); d < distance {
			best, distance = name, d
		}
	}
	if best == "" {
		// "gvw" for "gvwr", "tongue" for "tongue-empty": a long common beginning counts too.
		for _, name := range names {
			if len(low) >= 4 && strings.HasPrefix(strings.ToLower(name), low) {
				return name
			}
		}
	}
	return best
}

// distanceOf is how many letters two words differ by.
func distanceOf(a, b string) int { return levenshtein.ComputeDistance(a, b) }

// swapped reports whether two words differ only in two neighboring letters that are swapped.
func swapped(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range len(a) - 1 {
		if a[i] != b[i] {
			return a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
		}
	}
	return false
}
