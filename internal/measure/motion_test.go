package measure

import (
	"math"
	"testing"
)

// 60 mph is 88 ft/s exactly, and g is 32.174 ft/s2 (NIST SP 811, B.8: 9.806 65 m/s2),
// so a stop in 200 ft is 88 x 88 / 400 = 19.36 ft/s2 or 0.602 g.
func TestMeanDeceleration(t *testing.T) {
	a := MeanDeceleration(60, Feet(200).Inches())
	if math.Abs(float64(a)-19.36) > 1e-9 {
		t.Errorf("60 mph over 200 ft is %v, want 19.36", float64(a))
	}
	if g := a.Gravities(); math.Abs(float64(g)-0.6017) > 0.0001 {
		t.Errorf("that is %v g, want 0.6017", float64(g))
	}
	// The square of the speed: half the speed is a quarter of the distance.
	if d := StoppingFrom(30, 60, Feet(200).Inches()); d != Feet(50).Inches() {
		t.Errorf("from 30 mph it is %s, want 50 ft", d)
	}
}

// A J tire is good for 100 km/h, which the trade prints as 62 mph (UN R30, symbol J).
func TestKilometersPerHour(t *testing.T) {
	if got := FromKilometersPerHour(100).Limit(); got != "62 mph" {
		t.Errorf("100 km/h is %s, want 62 mph", got)
	}
}

func TestParseStopping(t *testing.T) {
	for _, c := range []struct {
		in   string
		d    Inches
		v    MilesPerHour
		fine bool
	}{
		{"200 ft at 60 mph", 2400, 60, true},
		{"about 300 ft from 60 mph (maker's sheet)", 3600, 60, true},
		{"200 ft", 0, 0, false},
		{"200 at 60 mph", 0, 0, false},
		{"0 ft at 60 mph", 0, 0, false},
		{"200 ft at 0 mph", 0, 0, false},
		{"200 ft at 60", 0, 0, false},
	} {
		w, err := ParseStopping(c.in)
		if (err == nil) != c.fine {
			t.Errorf("%q: error %v", c.in, err)
			continue
		}
		if c.fine && (w.Value.Distance != c.d || w.Value.From != c.v) {
			t.Errorf("%q reads as %s", c.in, w.Value)
		}
		if c.fine {
			if back, err := ParseStopping(w.String()); err != nil || back != w {
				t.Errorf("%q prints as %q, which reads back as %v, %v", c.in, w.String(), back, err)
			}
		}
	}
}
