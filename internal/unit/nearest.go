package unit

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// Nearest returns the name that a mistyped word most probably meant, or "" if none is
// close: at most a third of the letters may differ, two where they were swapped. Ties go to the first name.
func Nearest(word string, names []string) string {
	best, distance := "", min((len([]rune(word))+2)/3, 4)+1
	low := strings.ToLower(word)
	for _, name := range names {
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
