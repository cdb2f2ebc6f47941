package compute

import "testing"

// 49 CFR 393.42(b)(3) worked by hand: 2,000 lb on the trailer's axle behind 5,000 lb on the
// truck's axles are 40.0%, and 2,001 lb are more.
func TestUnbrakedTruck(t *testing.T) {
	if got := UnbrakedTruck(2000); got != 5000 {
		t.Errorf("2,000 lb on the axle take a truck of %s, want 5,000 lb", got)
	}
	if got := UnbrakedTruck(2001); !(got > 5000) {
		t.Errorf("2,001 lb on the axle take a truck of %s, want more than 5,000 lb", got)
	}
	const unbraked = "brakes:\n  kind: none\nweights:\n  gvwr: 3,000 lb\n  empty: 1,000 lb\n  tongue-empty: 100 lb\ndeck:\n  front: 4 ft\n  length: 12 ft\naxles:\n  center: 10 ft\n"
	for _, c := range []struct{ name, text, want string }{
		// By hand: half of the load's lever is 10 of 10 ft, so 2,000 lb put nothing on the
		// tongue; 2,900 lb are on the axle, and 2,900 / 0.4 = 7,250.
		{"weighed", unbraked, "7,250 lb"},
		{"the tongue not weighed: 3,000 / 0.4", "brakes:\n  kind: none\nweights:\n  gvwr: 3,000 lb\n", "7,500 lb"},
		{"the clause's own kilograms: 3,000.4914 / 0.4", "weights:\n  gvwr: 1,361 kg\n", "7,502 lb"},
		{"a pound above", "weights:\n  gvwr: 3,001 lb\n", "none"},
		{"with brakes", "brakes:\n  kind: electric\nweights:\n  gvwr: 2,990 lb\n", "none"},
	} {
		got := "none"
		if f := trailerFor(t, c.text, "").Figure("unbraked-truck"); f != nil {
			got = f.Text
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}
