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
		truck, trailer measure.Pounds
	}{
		{6000, 10500},   // 4.1
		{15000, 18750},  // 4.2
		{8000, 12000},   // 1.75 x 8,000 is 14,000, but above 12,000 only 1.25 holds
		{9600, 12000},   // 1.25 x 9,600 is 12,000 exactly
		{9600.8, 12001}, // 4.3, from the other side
		{16000, 20000},  // 4.4
		{40000, 20000},  // 4.4: never 20,001
		{0, 0}, {-5000, 0},
	} {
		if got := compute.SurgeTrailer(c.truck); math.Abs(float64(got-c.trailer)) > 1e-9 {
			t.Errorf("behind %v: %v, want %v", c.truck, got, c.trailer)
		}
	}
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
	// The two functions are two readings of one clause.
	for trailer := measure.Pounds(100); trailer <= 20000; trailer += 100 {
		truck, _ := compute.SurgeTruck(trailer)
		if back := compute.SurgeTrailer(measure.Up(truck, 0.001)); back < trailer {
			t.Errorf("trailer %v wants a truck of %v, behind which only %v may stand", trailer, truck, back)
		}
		if back := compute.SurgeTrailer(truck - 1); back >= trailer {
			t.Errorf("trailer %v wants a truck of %v, but behind a pound less %v may stand", trailer, truck, back)
		}
	}
}
