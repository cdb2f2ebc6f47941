package compute_test

import (
	"math"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// Check values 4.1 to 4.4: 49 CFR 393.48(d)(1); 4.1 and 4.2 stand in a published summary
// too. The jump at 12,000 lb and the end at 20,001 lb are the traps.
func TestSurgeBrakes(t *testing.T) {
	for _, c := range []struct {
		trailer, truck measure.Pounds
		ok             bool
	}{
		{10500, 6000, true},
		{12000, 6857.142857142857, true}, // 4.3
		{12001, 9600.8, true},            // 4.3
		{20000, 16000, true},             // 4.4
		{20001, 0, false},                // 4.4
		{0, 0, false}, {-1, 0, false},
		{measure.Pounds(math.NaN()), 0, false},
	} {
		got, ok := compute.SurgeTruck(c.trailer)
		if ok != c.ok || math.Abs(float64(got-c.truck)) > 1e-9 {
			t.Errorf("trailer %v: %v %v, want %v %v", c.trailer, got, ok, c.truck, c.ok)
		}
	}
}
