package oracle

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// The least and the most that a measure of a tow match may be, each by itself.
func TestSenselessTow(t *testing.T) {
	lb := func(v float64) compute.Result[measure.Pounds] {
		return compute.Result[measure.Pounds]{Value: measure.Pounds(v), Known: true}
	}
	in := func(v float64) compute.Result[measure.Inches] {
		return compute.Result[measure.Inches]{Value: measure.Inches(v), Known: true}
	}
	weights := map[string]struct {
		at    func(*compute.Towed, *Truck) *compute.Result[measure.Pounds]
		least float64
	}{
		"the trailer's empty weight":         {func(r *compute.Towed, _ *Truck) *compute.Result[measure.Pounds] { return &r.Empty }, 1},
		"the trailer's GVWR":                 {func(r *compute.Towed, _ *Truck) *compute.Result[measure.Pounds] { return &r.GVWR }, 1},
		"the trailer's payload":              {func(r *compute.Towed, _ *Truck) *compute.Result[measure.Pounds] { return &r.Payload }, 0},
		"the truck its surge brakes ask for": {func(r *compute.Towed, _ *Truck) *compute.Result[measure.Pounds] { return &r.SurgeTruck }, 0},
		"the truck's GVWR":                   {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.GVWR }, 1},
		"the truck's weight":                 {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.Weight }, 1},
		"the rear axle's rating":             {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.RearRating }, 1},
		"the weight on the rear axle":        {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.RearWeight }, 0},
		"the front axle's rating":            {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.FrontRating }, 1},
		"the truck's GCWR":                   {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.GCWR }, 1},
		"the hitch's rating":                 {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.HitchRating }, 1},
		"the hitch's tongue limit":           {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.HitchTongue }, 1},
		"the ball's rating":                  {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.BallRating }, 1},

		"the truck's limit for trailers without brakes": {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Pounds] { return &k.Unbraked }, 1},
	}
	for name, c := range weights {
		for v, want := range map[float64]bool{c.least: true, c.least - 0.5: false, 1e12: false, math.NaN(): false} {
			var r compute.Towed
			var k Truck
			*c.at(&r, &k) = lb(v)
			why := senselessTow(r, k)
			if (why == "") != want || !want && !strings.HasPrefix(why, name+" cannot be ") {
				t.Errorf("%s of %v: %q, want sense %v", name, v, why, want)
			}
			// What is not known says nothing, whatever stands in it.
			c.at(&r, &k).Known = false
			if why := senselessTow(r, k); why != "" {
				t.Errorf("%s of %v, not known: %q", name, v, why)
			}
		}
	}
	lengths := map[string]struct {
		at    func(*compute.Towed, *Truck) *compute.Result[measure.Inches]
		least float64
	}{
		"the distance from the ball to the trailer's axles":    {func(r *compute.Towed, _ *Truck) *compute.Result[measure.Inches] { return &r.Axles }, 1},
		"the distance from the ball to the middle of the deck": {func(r *compute.Towed, _ *Truck) *compute.Result[measure.Inches] { return &r.Center }, 0},
		"the truck's wheelbase":                                {func(_ *compute.Towed, k *Truck) *compute.Result[measure.Inches] { return &k.Wheelbase }, 1},
	}
	for name, c := range lengths {
		for v, want := range map[float64]bool{c.least: true, c.least - 0.5: false, 1e12: false, math.NaN(): false} {
			var r compute.Towed
			var k Truck
			*c.at(&r, &k) = in(v)
			why := senselessTow(r, k)
			if (why == "") != want || !want && !strings.HasPrefix(why, name+" cannot be ") {
				t.Errorf("%s of %v: %q, want sense %v", name, v, why, want)
			}
			c.at(&r, &k).Known = false
			if why := senselessTow(r, k); why != "" {
				t.Errorf("%s of %v, not known: %q", name, v, why)
			}
		}
	}
	none := compute.Result[measure.Pounds]{}
	for _, c := range []struct {
		tongue, empty, rear, weight compute.Result[measure.Pounds]
		behind, base                compute.Result[measure.Inches]
		says                        string
	}{
		{tongue: lb(500), empty: lb(500)},
		{tongue: lb(-500), empty: lb(500)},
		{tongue: lb(501), empty: lb(500), says: "the tongue cannot weigh 501 lb, the whole trailer weighs 500 lb"},
		{tongue: lb(-501), empty: lb(500), says: "the tongue cannot weigh -501 lb"},
		{tongue: lb(501), empty: none},
		{tongue: compute.Result[measure.Pounds]{Value: 501, Known: false}, empty: lb(500)},
		{tongue: lb(math.Inf(-1)), says: "the tongue weight cannot be"},
		{tongue: compute.Result[measure.Pounds]{Value: measure.Pounds(math.NaN()), Known: false}},
		{rear: lb(500), weight: lb(500)},
		{rear: lb(501), weight: lb(500), says: "the rear axle cannot carry 501 lb, the whole truck weighs 500 lb"},
		{rear: lb(501)},
		{behind: in(-99), base: in(100)},
		{behind: in(-100), base: in(100), says: "the ball cannot be 8 ft 4 in ahead of the rear axle, the wheelbase is 8 ft 4 in"},
		{behind: in(-100)},
		{behind: compute.Result[measure.Inches]{Value: -100, Known: false}, base: in(100)},
		{behind: in(1e12), says: "the ball cannot be"},
	} {
		why := senselessTow(compute.Towed{Empty: c.empty, TongueEmpty: c.tongue}, Truck{RearWeight: c.rear, Weight: c.weight, BallBehind: c.behind, Wheelbase: c.base})
		if (why == "") != (c.says == "") || !strings.HasPrefix(why, c.says) {
			t.Errorf("%+v: %q, want %q", c, why, c.says)
		}
	}
}

// What a match says of the truck's axles, by hand: a tongue of 1,000 lb 50 in behind the
// rear axle of a wheelbase of 100 takes 500 lb off the front and puts 1,500 on the rear;
// 50 in ahead of it, as a gooseneck's ball, it puts 500 on each.
func TestEffectsInWords(t *testing.T) {
	lb := func(v measure.Pounds) compute.Result[measure.Pounds] {
		return compute.Result[measure.Pounds]{Value: v, Known: true}
	}
	in := func(v measure.Inches) compute.Result[measure.Inches] {
		return compute.Result[measure.Inches]{Value: v, Known: true}
	}
	match := func(behind measure.Inches, change func(*compute.Towed, *Truck)) Match {
		r := compute.Towed{Empty: lb(4000), TongueEmpty: lb(1000), GVWR: lb(9000), Axles: in(200), Center: in(200), Payload: lb(5000)}
		k := Truck{GVWR: lb(11000), Weight: lb(7000), RearWeight: lb(3000), RearRating: lb(7000), GCWR: lb(25000),
			HitchRating: lb(20000), HitchTongue: lb(3000), BallRating: lb(20000), Wheelbase: in(100), BallBehind: in(behind)}
		if change != nil {
			change(&r, &k)
		}
		return TowMatch(r, k)
	}
	said := func(m Match, part string) bool { return strings.Contains(strings.Join(m.Notes, "; "), part) }
	m := match(50, nil)
	if m.Front != lb(-500) || m.Rear != lb(1500) || m.Tongue != lb(1000) || m.FrontLeft != lb(3500) || !said(m, "the front axle loses 500 lb") || said(m, "gains") || m.Incomplete {
		t.Errorf("behind the axle: %+v", m)
	}
	m = match(-50, nil)
	if m.Front != lb(500) || m.Rear != lb(500) || m.FrontLeft != lb(4500) || !said(m, "the front axle gains 500 lb") || said(m, "loses") {
		t.Errorf("ahead of the axle: %+v", m)
	}
	m = match(0, nil)
	if m.Front.Value != 0 || !m.Front.Known || said(m, "loses") || said(m, "gains") {
		t.Errorf("over the axle: %+v", m)
	}
	// The front axle holds 4,000 of the 7,000 lb; 8,000 x 50 / 100 is all of it.
	if m = match(50, func(r *compute.Towed, k *Truck) { r.TongueEmpty, r.Empty = lb(8000), lb(9000) }); m.FrontLeft != lb(0) || said(m, "would lift") {
		t.Errorf("the front axle just stands: %+v", m)
	}
	if m = match(50, func(r *compute.Towed, k *Truck) { r.TongueEmpty, r.Empty = lb(8002), lb(9000) }); m.FrontLeft != lb(-1) || !said(m, "would lift") {
		t.Errorf("the front axle lifts: %+v", m)
	}
	for truck, want := range map[measure.Pounds]bool{11000: false, 11001: true} {
		if m = match(50, func(r *compute.Towed, _ *Truck) { r.SurgeTruck = lb(truck) }); said(m, "surge brakes") != want {
			t.Errorf("surge brakes that ask for %v: %q", truck, m.Notes)
		}
	}
	if m = match(50, func(r *compute.Towed, _ *Truck) {
		r.SurgeTruck = compute.Result[measure.Pounds]{Value: 99999, Known: false}
	}); said(m, "surge") {
		t.Errorf("no surge brakes: %q", m.Notes)
	}
	if m = match(50, func(r *compute.Towed, k *Truck) {
		r.SurgeTruck, k.GVWR = lb(5000), compute.Result[measure.Pounds]{}
	}); said(m, "surge") {
		t.Errorf("a truck not rated: %q", m.Notes)
	}
	if m = match(50, func(_ *compute.Towed, k *Truck) { k.Wheelbase.Known = false }); m.Front.Known || !m.Tongue.Known || m.FrontLeft.Known {
		t.Errorf("no wheelbase: %+v", m)
	}
	if m = match(50, func(_ *compute.Towed, k *Truck) { k.BallBehind.Known = false }); m.Front.Known || m.Rear.Known {
		t.Errorf("no ball: %+v", m)
	}
	if m = match(50, func(_ *compute.Towed, k *Truck) { k.Weight.Known = false }); !m.Front.Known || m.FrontLeft.Known {
		t.Errorf("no weight: %+v", m)
	}
	if m = match(50, func(r *compute.Towed, _ *Truck) { r.Center.Known = false }); m.Tongue.Known || m.Front.Known {
		t.Errorf("no center: %+v", m)
	}
	// What is lost, gained or asked for goes up: 1,000.5 x 50 / 100 is 500.25.
	half := func(r *compute.Towed, _ *Truck) { r.TongueEmpty = lb(1000.5) }
	if m = match(50, half); !said(m, "loses 501 lb") || !said(m, "evenly spread over the deck; a load farther forward") {
		t.Errorf("%q", m.Notes)
	}
	if m = match(-50, half); !said(m, "gains 501 lb") {
		t.Errorf("%q", m.Notes)
	}
	if m = match(50, func(r *compute.Towed, _ *Truck) { r.SurgeTruck = lb(11000.5) }); !said(m, "rated 11,001 lb or more") {
		t.Errorf("%q", m.Notes)
	}
	// A tongue that lifts 200 lb empty, and the less the more is loaded ahead of the axles,
	// is over before any load; one of nothing does not lift.
	if m = match(50, func(r *compute.Towed, _ *Truck) { r.TongueEmpty = lb(-200) }); !m.EmptyOver || m.Limits[0].Name != "hitch-lift" || m.Limits[0].Margin != -200 || m.Limits[0].Used != 200 {
		t.Errorf("a tongue that lifts: %+v", m.Limits)
	}
	for _, tongue := range []measure.Pounds{0, 0.5} {
		if m = match(50, func(r *compute.Towed, _ *Truck) { r.TongueEmpty = lb(tongue) }); slices.ContainsFunc(m.Limits, func(l TowLimit) bool { return l.Name == "hitch-lift" }) {
			t.Errorf("a tongue of %v lifts: %+v", tongue, m.Limits)
		}
	}
	// What no load reaches comes last, what the empty trailer is over comes first and the
	// farther over the sooner.
	m = match(50, func(r *compute.Towed, k *Truck) {
		k.HitchTongue, k.BallRating, r.Payload = lb(900), lb(3000), lb(10)
	})
	var order []string
	for _, l := range m.Limits {
		order = append(order, l.Name)
	}
	if s := strings.Join(order, " "); !strings.HasPrefix(s, "ball hitch-tongue trailer ") || !strings.HasSuffix(s, "truck-gvwr rear-axle") {
		t.Errorf("the limits in their order: %s", s)
	}
	// In words: the limit goes down, what it is over by goes up.
	if m = match(50, func(r *compute.Towed, _ *Truck) { r.Payload = lb(4000.7) }); m.Text() != "up to 4,000 lb, evenly spread; what governs is the trailer's own payload" || m.Governing() == nil || !m.Limits[0].Governs || m.Limits[1].Governs {
		t.Errorf("%q %+v", m.Text(), m.Governing())
	}
	if m = match(50, func(_ *compute.Towed, k *Truck) { k.HitchTongue = lb(999.5) }); !m.EmptyOver || !strings.HasPrefix(m.Text(), "by these figures the empty trailer is over the tongue limit of the hitch on the truck by 1 lb:") {
		t.Errorf("%q", m.Text())
	}
	if (&Match{}).Governing() != nil {
		t.Error("an empty match has a limit that governs")
	}
}

// A license by ratings that are partly unknown: a class A found is certain (49 CFR 383.5).
func TestLicenseOfPartsKnown(t *testing.T) {
	lb := func(v measure.Pounds) compute.Result[measure.Pounds] {
		return compute.Result[measure.Pounds]{Value: v, Known: true}
	}
	for _, c := range []struct {
		name    string
		towed   compute.Towed
		truck   Truck
		license License
		known   bool
	}{
		{"all", compute.Towed{Payload: lb(0), GVWR: lb(15000)}, Truck{GVWR: lb(11001)}, ClassA, true},
		{"a pound less", compute.Towed{Payload: lb(0), GVWR: lb(15000)}, Truck{GVWR: lb(11000)}, NoClass, true},
		{"no truck", compute.Towed{Payload: lb(0), GVWR: lb(15000)}, Truck{}, NoClass, false},
		{"no truck, and a trailer that is enough", compute.Towed{Payload: lb(0), GVWR: lb(26001)}, Truck{}, ClassA, true},
		{"no trailer's rating", compute.Towed{Payload: lb(0)}, Truck{GVWR: lb(11001)}, NoClass, false},
		{"what it weighs with its load", compute.Towed{Payload: lb(9000), Empty: lb(6000)}, Truck{GVWR: lb(11001)}, ClassA, true},
		{"what it weighs, a pound less", compute.Towed{Payload: lb(8999), Empty: lb(6000)}, Truck{GVWR: lb(11001)}, NoClass, false},
		{"gcwr on the label", compute.Towed{Payload: lb(0), GVWR: lb(10001)}, Truck{GVWR: lb(11000), GCWR: lb(26001), GCWROnLabel: true}, ClassA, true},
		{"gcwr in a manual", compute.Towed{Payload: lb(0), GVWR: lb(10001)}, Truck{GVWR: lb(11000), GCWR: lb(26001)}, NoClass, true},
		{"a heavy truck", compute.Towed{Payload: lb(0), GVWR: lb(3000)}, Truck{GVWR: lb(26001)}, ClassB, true},
	} {
		m := TowMatch(c.towed, c.truck)
		if m.License != c.license || m.LicenseKnown != c.known {
			t.Errorf("%s: %s (%v), want %s (%v)", c.name, m.License, m.LicenseKnown, c.license, c.known)
		}
	}
	for l, want := range map[License]string{NoClass: "none by weight", ClassA: "Class A", ClassB: "Class B"} {
		if l.String() != want || (l == NoClass) != strings.HasPrefix(l.Text(), "below the federal weights") || (l != NoClass) != (l.Text() == "a federal "+want+" license may apply; ask your state") {
			t.Errorf("%d is %q: %q", l, l.String(), l.Text())
		}
	}
}

// 49 CFR 383.5 and 390.5 at their ends: no trailer counts nothing, the label's GCWR counts
// only with one, and towing more than 10,000 lb is more than 4,536 kg.
func TestLicenseAtItsEnds(t *testing.T) {
	if v := (Vehicle{}).Counts(); v != 0 {
		t.Errorf("nothing counts %v", v)
	}
	if v := (Vehicle{Rating: -5, Actual: -7}).Counts(); v != 0 {
		t.Errorf("less than nothing counts %v", v)
	}
	if MayBeCommercial(Vehicle{Rating: 9000}, 26001) || MayBeCommercial(Vehicle{Rating: 9000}, 26001, Vehicle{}) || !MayBeCommercial(Vehicle{Rating: 9000}, 26001, Vehicle{Rating: 0.5}) {
		t.Error("the label's GCWR counts exactly while something is towed")
	}
	if got := LicenseClass(Vehicle{Rating: 20000}, 0, Vehicle{Rating: compute.ClassATowed}); got != NoClass {
		t.Errorf("towing 4,536 kg itself: %v", got)
	}
	if got := LicenseClass(Vehicle{Rating: 20000}, 0, Vehicle{Rating: compute.ClassATowed + 0.01}); got != ClassA {
		t.Errorf("towing more: %v", got)
	}
}

// The two halves of 49 CFR 393.42(b)(3) behind a truck, by hand: 2,000 lb empty with 200 lb
// on the tongue are 1,800 lb on the axle; a truck of 4,300 lb carries 4,500 lb with the
// tongue, and 1,800 / 4,500 is 40 percent.
func TestUnbrakedInCommerce(t *testing.T) {
	known := func(v measure.Pounds) compute.Result[measure.Pounds] {
		return compute.Result[measure.Pounds]{Value: v, Known: true}
	}
	trailer := compute.Towed{Empty: known(2000), TongueEmpty: known(200), GVWR: known(2990), Payload: known(0), Unbraked: true,
		Axles: compute.Result[measure.Inches]{Value: 120, Known: true}, Center: compute.Result[measure.Inches]{Value: 120, Known: true}}
	said := func(r compute.Towed, truck Truck) string {
		return strings.Join(TowMatch(r, truck).Notes, "; ")
	}
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

// A match names what it missed.
func TestMissing(t *testing.T) {
	m := TowMatch(compute.Towed{Payload: compute.Result[measure.Pounds]{Value: 5000, Known: true}}, Truck{})
	if !m.Incomplete || !strings.Contains(m.Text(), "incomplete, for want of the trailer's empty weight, the truck's weight as it is, ") {
		t.Errorf("%q", m.Text())
	}
}
