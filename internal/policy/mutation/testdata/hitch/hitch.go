// Package hitch is what the mutation check is tested on. What its tests hold and what
// they leave open is on purpose.
package hitch

// Held is tested below, at and above the limit.
func Held(load, limit float64) bool { return load > limit }

// Open is not tested at the limit.
func Open(load, limit float64) bool { return load > limit }

// Unasked is never called.
func Unasked(load int) int { return load + 1 }

// Steps counts down, and would not end without it.
func Steps(n int) (steps int) {
	for n > 0 {
		n--
		steps++
	}
	return steps
}

// Rungs are at least 2, the lower of the two first.
func Rungs(a, b int) []int {
	var out []int
	out = append(out, min(a, b))
	if ok := a != b; ok && b > 0 {
		out = append(out, max(a, b, 2))
	}
	return out
}

// Share is a half of it.
func Share[N ~int | ~float64](v N, known bool) (N, bool) {
	if !known {
		return 0, false
	}
	return v / 2, true
}

// A Weight rounds like one.
type Weight float64

// Limit goes down.
func (w Weight) Limit() string { return string(rune('a' + int(w))) }

// Load goes up.
func (w Weight) Load() string { return string(rune('b' + int(w))) }

// Text is a limit.
func (w Weight) Text() string { return w.Limit() }
