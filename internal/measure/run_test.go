package measure_test

import (
	"testing"

	"tarepage/internal/measure"
)

// Right triangles in whole numbers (Euclid, Elements X.29, lemma 1): the third side is
// exact, so Run must be too.
func TestRun(t *testing.T) {
	for _, c := range []struct {
		rise, ramp, want measure.Inches
		ok               bool
	}{
		{3, 5, 4, true}, {35, 37, 12, true}, {33, 65, 56, true}, {13, 85, 84, true},
		{0, 96, 96, true}, {40, 40, 0, true}, {41, 40, 0, false}, {-1, 40, 0, false}, {0, 0, 0, false},
	} {
		if got, ok := measure.Run(c.rise, c.ramp); got != c.want || ok != c.ok {
			t.Errorf("a ramp of %v that rises %v reaches %v, %v; want %v, %v", c.ramp, c.rise, got, ok, c.want, c.ok)
		}
	}
}
