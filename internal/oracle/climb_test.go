package oracle

import (
	"math"
	"strings"
	"testing"

	"tarepage/internal/measure"
)

// TestClimbByConstruction builds the crest and the foot in coordinates, independent of the
// formulas: the clearances that SAE J1100 calls ramp breakover, approach and departure angle
// (the definitions from memory) are the distances between points and lines there.
func TestClimbByConstruction(t *testing.T) {
	for _, c := range []struct{ base, over, angle float64 }{{100, 30, 21.4}, {60, 45, 12}, {110, 10, 5}, {48, 20, 30}} {
		a := c.angle * math.Pi / 180
		// Two wheels, each s from the crest at (0, 0), one on the deck and one on the slope.
		s := c.base / 2 / math.Cos(a/2)
		fx, fy, rx, ry := s, 0.0, -s*math.Cos(a), -s*math.Sin(a)
		if d := math.Hypot(fx-rx, fy-ry); math.Abs(d-c.base) > 1e-9 {
			t.Fatalf("the wheels are %v apart", d)
		}
		crest := math.Abs(fx*ry-fy*rx) / math.Hypot(fx-rx, fy-ry)
		if got := CrestUnder(measure.Inches(c.base), measure.Degrees(c.angle)); math.Abs(float64(got)-crest) > 1e-9 {
			t.Errorf("the crest reaches %v into the wheelbase, want %v", got, crest)
		}
		// A wheel on level ground at the foot; the overhang reaches over the slope.
		if got := FootUnder(measure.Inches(c.over), measure.Degrees(c.angle)); math.Abs(math.Atan2(float64(got), c.over)-a) > 1e-12 {
			t.Errorf("an overhang of %v needs %v", c.over, got)
		}
	}
}

func TestClimb(t *testing.T) {
	need := CrestUnder(100, 20) // 8.816 in
	for _, c := range []struct {
		name   string
		angle  measure.Degrees
		wheels Wheels
		is     string
		says   string
	}{
		{"nothing known", 20, Wheels{}, "unknown", "The way up is 20 degrees, a grade of 36.4%."},
		{"at the limit", 20, Wheels{Base: in(100), Under: in(need)}, "yes", "its belly needs 9 in and has 8-3/4 in"},
		{"below it", 20, Wheels{Base: in(100), Under: in(need - 0.1)}, "no", "It drags where the way up meets the deck: its belly needs 9 in and has 8-1/2 in"},
		{"an end that drags", 20, Wheels{Over: in(40), Tip: in(12)}, "no", "It drags at the foot of the way up: its end needs 1 ft 2-3/4 in and has 1 ft"},
		{"one drags, one does not", 20, Wheels{Base: in(100), Under: in(6), Over: in(40), Tip: in(20)}, "no", "At the foot of the way up its end needs"},
		{"half known", 20, Wheels{Base: in(100)}, "unknown", "To see whether it drags, fill in"},
	} {
		v, ok := Climb(c.angle, c.wheels, measure.American)
		if !ok || v.Is != c.is || !strings.Contains(strings.Join(v.Texts, " "), c.says) {
			t.Errorf("%s: %s %q, want %s %q", c.name, v.Is, v.Texts, c.is, c.says)
		}
	}
	for _, a := range []measure.Degrees{0, -3, 60, 90, measure.Degrees(math.NaN())} {
		if _, ok := Climb(a, Wheels{}, measure.American); ok {
			t.Errorf("%v degrees is a way up", a)
		}
	}
}
