package compute_test

import (
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// TestCommonLoads: what a trailer's page offers to choose from is what the table of
// loads says of it, the typical weight and the longest length, placed as the same load typed
// in would be. The pickup by hand is the table's row (weight: DOE Fact 621, class 2a).
func TestCommonLoads(t *testing.T) {
	w := compute.Unit(example(t), settings())
	rig, needs := compute.RigOf(w)
	if len(needs) > 0 {
		t.Fatal(needs)
	}
	got := map[string]compute.CommonLoad{}
	for _, l := range w.CommonLoads() {
		if _, twice := got[l.Name()]; twice {
			t.Errorf("%s stands there twice", l.Name())
		}
		got[l.Name()] = l
		if want := rig.Window(l.Load); l.Window != want {
			t.Errorf("%s: %v, typed in it is %v", l.Name(), l.Window, want)
		}
	}
	if len(got) != 7 {
		t.Errorf("%d loads, want the seven that are listed", len(got))
	}
	want := compute.Load{Weight: 5300, Length: measure.Inches(20.5 * 12)}
	if l := got["pickup truck, half-ton"]; l.Load != want {
		t.Errorf("half-ton pickup: %v, the table says %v", l.Load, want)
	}
	if l := work(t, "weights:\n  gvwr: 20,000 lb\n").CommonLoads(); l != nil {
		t.Errorf("a trailer that was not measured places %d loads", len(l))
	}
}
