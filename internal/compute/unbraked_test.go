package compute

import (
	"strings"
	"testing"

	"tarepage/internal/measure"
)

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

// The two halves of 49 CFR 393.42(b)(3) behind a truck, by hand: 2,000 lb empty with 200 lb
// on the tongue are 1,800 lb on the axle; a truck of 4,300 lb carries 4,500 lb with the
// tongue, and 1,800 / 4,500 is 40 percent.
func TestUnbrakedInCommerce(t *testing.T) {
	known := func(v measure.Pounds) Result[measure.Pounds] { return Result[measure.Pounds]{v, true} }
	trailer := Towed{Empty: known(2000), TongueEmpty: known(200), GVWR: known(2990), Payload: known(0), Unbraked: true,
		Axles: Result[measure.Inches]{120, true}, Center: Result[measure.Inches]{120, true}}
	said := func(r Towed, truck Truck) string { return strings.Join(TowMatch(r, truck).Notes, "; ") }
	if got := said(trailer, Truck{Weight: known(4300)}); strings.Contains(got, "commercial use") {
		t.Errorf("at 40 percent: %s", got)
	}
	if got := said(trailer, Truck{Weight: known(4299)}); !strings.Contains(got, "here they carry 1,800 lb, and the truck's 4,499 lb") {
		t.Errorf("above 40 percent: %s", got)
	}
	braked := trailer
	braked.Unbraked = false
	if got := said(braked, Truck{Weight: known(2000)}); strings.Contains(got, "commercial use") {
		t.Errorf("with brakes: %s", got)
	}
	heavy := trailer
	heavy.GVWR = known(3001)
	if got := said(heavy, Truck{Weight: known(9000)}); !strings.Contains(got, "over 3,000 lb must have brakes") {
		t.Errorf("over 3,000 lb: %s", got)
	}
	// The truck maker's limit is on the whole trailer, and a braked one does not have it.
	loaded := trailer
	loaded.Payload = known(900)
	if m := TowMatch(loaded, Truck{Unbraked: known(2500)}); m.Most != 500 || m.Limits[0].Name != "unbraked" {
		t.Errorf("limit of 2,500 lb: %s, %s", m.Most, m.Limits[0].Name)
	}
	if m := TowMatch(loaded, Truck{Unbraked: known(1999)}); !m.EmptyOver {
		t.Errorf("limit of 1,999 lb: %s", m.Text())
	}
	loaded.Unbraked = false
	if m := TowMatch(loaded, Truck{Unbraked: known(1999)}); m.Most != 900 {
		t.Errorf("with brakes: %s", m.Most)
	}
}
