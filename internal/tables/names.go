package tables

import (
	"cmp"
	"slices"
	"strings"
)

// plainName is a size or shape as it is compared: no spaces, capitals, x for every
// multiplication sign.
func plainName(s string) string {
	if strings.IndexFunc(s, func(c rune) bool { return c <= ' ' || c > '~' || c >= 'a' && c <= 'z' }) < 0 {
		return s // as most are written
	}
	return strings.ToUpper(plainMarks.Replace(s))
}

var plainMarks = strings.NewReplacer(" ", "", "\t", "", "\u00a0", "", "×", "X")

// longest is the longest name that is looked at; no size or shape comes near it.
const longest = 40

// nearest returns up to three of names that take the fewest changed letters to become
// s, the nearest first, names at an equal distance in alphabetical order. Names more
// than three letters away do not help and are left out.
func nearest(s string, names []string) []string {
	s = plainName(s)
	if len(s) > longest {
		return nil
	}
	type near struct {
		name string
		far  int
	}
	var found []near
	for _, name := range names {
		if far := changes(s, plainName(name)); far <= 3 {
			found = append(found, near{name, far})
		}
	}
	slices.SortStableFunc(found, func(a, b near) int {
		return cmp.Or(cmp.Compare(a.far, b.far), cmp.Compare(a.name, b.name))
	})
	var out []string
	for _, n := range found[:min(3, len(found))] {
		out = append(out, n.name)
	}
	return out
}

// changes counts the letters to add, drop or replace to turn a into b (Levenshtein).
func changes(a, b string) int {
	prev := make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := range len(a) {
		diagonal := prev[0]
		prev[0] = i + 1
		for j := range len(b) {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = prev[j+1]
			prev[j+1] = min(cost, prev[j]+1, prev[j+1]+1)
		}
	}
	return prev[len(b)]
}

// orNearest ends a message about an unknown name with the names that come near.
func orNearest(near []string) string {
	if len(near) == 0 {
		return ""
	}
	return "; nearest are " + strings.Join(near, ", ")
}
