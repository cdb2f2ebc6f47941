// Package hitch is a sample for the test of the mutation command. Its tests leave some
// lines open on purpose.
package hitch

// Held is tested below, at and above the limit.
func Held(load, limit float64) bool { return load > limit }

// Open is not tested at the limit.
func Open(load, limit float64) bool { return load > limit }

// Unasked is never called.
func Unasked(load int) int { return load + 1 }

// Steps counts down, and would not end if it did not.
func Steps(n int) (steps int) {
	for n > 0 {
		n--
		steps++
	}
	return steps
}

// Half is half of v.
func Half[N ~int | ~float64](v N, known bool) (N, bool) {
	if !known {
		return 0, false
	}
	return v / 2, true
}

// Ratings are made before any test begins. Nobody asks about the large one.
var Ratings = map[string]weight{"small": 2000, "large": 3500}

type weight float64

// Shadowed cannot spell out the type of its number, so that change does not compile.
func Shadowed(w weight) weight {
	type weight string
	return w + 3
}
