package measure

import "math"

// This file is the only place that rounds figures. A limit or a payload rounds down, a load
// or a need rounds up: both ways are the safe side for the person who loads the trailer.

// slack is how far a value may be from a whole step and still count as that step, in steps.
// Sums of exact inputs can miss a whole pound by the last bit of a float64 (about 1e-12 of
// the value). Without slack, 12,960 lb added up in two orders could print as 12,959 and
// 12,960. A millionth of a step is far below anything that a scale shows.
const slack = 1e-6

// Down returns v rounded down to a whole number of steps.
func Down[U ~float64](v, step U) U {
	n := float64(v) / float64(step)
	if r := math.Round(n); math.Abs(n-r) <= slack {
		return U(r * float64(step))
	}
	return U(math.Floor(n) * float64(step))
}

// Up returns v rounded up to a whole number of steps.
func Up[U ~float64](v, step U) U {
	n := float64(v) / float64(step)
	if r := math.Round(n); math.Abs(n-r) <= slack {
		return U(r * float64(step))
	}
	return U(math.Ceil(n) * float64(step))
}

// Nearest returns v rounded to the nearest whole number of steps, halves away from zero.
// It is for descriptions (an angle, an area), never for limits.
func Nearest[U ~float64](v, step U) U {
	n := float64(v) / float64(step)
	return U(math.Round(n) * float64(step))
}

// lastBits is how far two ways to compute the same number may differ, as a share of it. Sums
// of a dozen float64 products differ by about 1e-15 of the largest.
const lastBits = 1e-9

// NotOver reports whether v is at most limit; the limit of a clause is inclusive. The two
// count as equal where they differ only in the last bits of a float64. For 20,000 lb that
// allows two hundred-thousandths of a pound, which a scale does not show.
func NotOver[U ~float64](v, limit U) bool {
	if v <= limit {
		return true
	}
	return float64(v)-float64(limit) <= lastBits*math.Max(math.Abs(float64(v)), math.Abs(float64(limit)))
}

// WholeFeet returns the number of whole feet in the length.
func (in Inches) WholeFeet() int { return int(Down(in, InchesPerFoot) / InchesPerFoot) }
