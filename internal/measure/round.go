package measure

import "math"

// This file is the only place where a figure is rounded. A limit or a payload goes
// down, a load or a need goes up: whichever way the last pound falls, it falls on
// the side of the person under the load.

// slack is how close to a whole step a value counts as that step, in steps. Sums of
// exact inputs can miss a whole pound by the last bit of a float64 (about 1e-12 of
// the value); without it 12,960 lb worked in two orders would print as 12,959 and
// 12,960. A millionth of a step is far below anything a scale can show.
const slack = 1e-6

// Down is v rounded down to a whole number of steps.
func Down[U ~float64](v, step U) U {
	n := float64(v) / float64(step)
	if r := math.Round(n); math.Abs(n-r) <= slack {
		return U(r * float64(step))
	}
	return U(math.Floor(n) * float64(step))
}

// Up is v rounded up to a whole number of steps.
func Up[U ~float64](v, step U) U {
	n := float64(v) / float64(step)
	if r := math.Round(n); math.Abs(n-r) <= slack {
		return U(r * float64(step))
	}
	return U(math.Ceil(n) * float64(step))
}

// Nearest is v rounded to the nearest whole number of steps, halves away from zero.
// It is for descriptions (an angle, an area), never for limits.
func Nearest[U ~float64](v, step U) U {
	n := float64(v) / float64(step)
	return U(math.Round(n) * float64(step))
}

// lastBits is how far two roads to the same number may part, as a part of it: sums of
// a dozen float64 products part by about 1e-15 of the largest.
const lastBits = 1e-9

// NotOver reports whether v is at most limit, a clause's limit being inclusive: where
// the two differ only in the last bits of a float64 they count as equal. Twenty
// thousand pounds have two hundred-thousandths of a pound of grace, which no scale shows.
func NotOver[U ~float64](v, limit U) bool {
	if v <= limit {
		return true
	}
	return float64(v)-float64(limit) <= lastBits*math.Max(math.Abs(float64(v)), math.Abs(float64(limit)))
}

// WholeFeet is how many whole feet the length holds.
func (in Inches) WholeFeet() int { return int(Down(in, InchesPerFoot) / InchesPerFoot) }
