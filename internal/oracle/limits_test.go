package oracle

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// The least and the most that a measure may be, each by itself.
func TestContradiction(t *testing.T) {
	why := func(r compute.Towed, k Truck) string {
		v := Pull(r, k, nil)
		if bad, ok := strings.CutPrefix(v.Text, "CANNOT SAY YET: "); ok && len(v.Needs) == 0 && len(v.Limits) == 0 {
			return bad
		}
		return ""
	}
	for name, c := range map[string]struct {
		at    func(*compute.Towed, *Truck) *pounds
		least measure.Pounds
	}{
		"the trailer's empty weight":                      {func(r *compute.Towed, _ *Truck) *pounds { return &r.Empty }, 1},
		"the trailer's GVWR":                              {func(r *compute.Towed, _ *Truck) *pounds { return &r.GVWR }, 1},
		"the trailer's payload":                           {func(r *compute.Towed, _ *Truck) *pounds { return &r.Payload }, 0},
		"the truck that its surge brakes ask for":         {func(r *compute.Towed, _ *Truck) *pounds { return &r.SurgeTruck }, 0},
		"the truck's GVWR":                                {func(_ *compute.Towed, k *Truck) *pounds { return &k.GVWR }, 1},
		"the payload on the door sticker":                 {func(_ *compute.Towed, k *Truck) *pounds { return &k.Sticker }, 1},
		"the weight of people and gear, driver included,": {func(_ *compute.Towed, k *Truck) *pounds { return &k.People }, 75},
		"the tow rating":                                  {func(_ *compute.Towed, k *Truck) *pounds { return &k.Tow }, 1},
		"the truck's weight":                              {func(_ *compute.Towed, k *Truck) *pounds { return &k.Weight }, 1},
		"the rear axle's rating":                          {func(_ *compute.Towed, k *Truck) *pounds { return &k.RearRating }, 1},
		"the weight on the rear axle":                     {func(_ *compute.Towed, k *Truck) *pounds { return &k.RearWeight }, 0},
		"the front axle's rating":                         {func(_ *compute.Towed, k *Truck) *pounds { return &k.FrontRating }, 1},
		"the truck's GCWR":                                {func(_ *compute.Towed, k *Truck) *pounds { return &k.GCWR }, 1},
		"the hitch's rating":                              {func(_ *compute.Towed, k *Truck) *pounds { return &k.HitchRating }, 1},
		"the hitch's tongue rating":                       {func(_ *compute.Towed, k *Truck) *pounds { return &k.HitchTongue }, 1},
		"the ball's rating":                               {func(_ *compute.Towed, k *Truck) *pounds { return &k.BallRating }, 1},
		"what the rear tires carry":                       {func(_ *compute.Towed, k *Truck) *pounds { return &k.RearTires }, 1},
		"the truck's limit for trailers without brakes":   {func(_ *compute.Towed, k *Truck) *pounds { return &k.Unbraked }, 1},
	} {
		for v, want := range map[measure.Pounds]bool{c.least: true, c.least - 0.5: false, 1e12: false, measure.Pounds(math.NaN()): false} {
			var r compute.Towed
			var k Truck
			*c.at(&r, &k) = lb(v)
			bad := why(r, k)
			if (bad == "") != want || !want && !strings.HasPrefix(bad, name+" cannot be ") {
				t.Errorf("%s of %v: %q, want sense %v", name, v, bad, want)
			}
			// What is not known says nothing, whatever its field holds.
			c.at(&r, &k).Known = false
			if bad := why(r, k); bad != "" {
				t.Errorf("%s of %v, not known: %q", name, v, bad)
			}
		}
	}
	for name, c := range map[string]struct {
		at    func(*compute.Towed, *Truck) *inches
		least measure.Inches
	}{
		"the distance from the ball to the trailer's axles":    {func(r *compute.Towed, _ *Truck) *inches { return &r.Axles }, 1},
		"the distance from the ball to the middle of the deck": {func(r *compute.Towed, _ *Truck) *inches { return &r.Center }, 0},
		"the truck's wheelbase":                                {func(_ *compute.Towed, k *Truck) *inches { return &k.Wheelbase }, 1},
	} {
		for v, want := range map[measure.Inches]bool{c.least: true, c.least - 0.5: false, 1e12: false, measure.Inches(math.NaN()): false} {
			var r compute.Towed
			var k Truck
			*c.at(&r, &k) = in(v)
			bad := why(r, k)
			if (bad == "") != want || !want && !strings.HasPrefix(bad, name+" cannot be ") {
				t.Errorf("%s of %v: %q, want sense %v", name, v, bad, want)
			}
			c.at(&r, &k).Known = false
			if bad := why(r, k); bad != "" {
				t.Errorf("%s of %v, not known: %q", name, v, bad)
			}
		}
	}
	for _, c := range []struct {
		towed compute.Towed
		truck Truck
		says  string
	}{
		{compute.Towed{TongueEmpty: lb(500), Empty: lb(500)}, Truck{}, ""},
		{compute.Towed{TongueEmpty: lb(-500), Empty: lb(500)}, Truck{}, ""},
		{compute.Towed{TongueEmpty: lb(501), Empty: lb(500)}, Truck{}, "the tongue cannot weigh 501 lb, the whole trailer weighs 500 lb"},
		{compute.Towed{TongueEmpty: lb(-501), Empty: lb(500)}, Truck{}, "the tongue cannot weigh -501 lb"},
		{compute.Towed{TongueEmpty: lb(501)}, Truck{}, ""},
		{compute.Towed{TongueEmpty: pounds{Value: 501}, Empty: lb(500)}, Truck{}, ""},
		{compute.Towed{TongueEmpty: lb(measure.Pounds(math.Inf(-1)))}, Truck{}, "the trailer's tongue weight cannot be"},
		{compute.Towed{TongueEmpty: pounds{Value: measure.Pounds(math.NaN())}}, Truck{}, ""},
		{compute.Towed{}, Truck{RearWeight: lb(500), Weight: lb(500)}, ""},
		{compute.Towed{}, Truck{RearWeight: lb(501), Weight: lb(500)}, "the rear axle cannot carry 501 lb, the whole truck weighs 500 lb"},
		{compute.Towed{}, Truck{RearWeight: lb(501)}, ""},
		{compute.Towed{}, Truck{Sticker: lb(6999), GVWR: lb(7000)}, ""},
		{compute.Towed{}, Truck{Sticker: lb(7000), GVWR: lb(7000)}, "the payload on the door sticker cannot be 7,000 lb"},
		{compute.Towed{}, Truck{GVWR: lb(7000), GCWR: lb(7000)}, ""},
		{compute.Towed{}, Truck{GVWR: lb(7001), GCWR: lb(7000)}, "the GCWR cannot be 7,000 lb, the truck alone is rated 7,001 lb"},
		{compute.Towed{}, Truck{HitchTongue: lb(500), HitchRating: lb(500)}, ""},
		{compute.Towed{}, Truck{HitchTongue: lb(501), HitchRating: lb(500)}, "the hitch's tongue rating cannot be 501 lb"},
		{compute.Towed{}, Truck{TongueWD: lb(501), HitchWD: lb(500)}, "the hitch's tongue rating cannot be 501 lb"},
		{compute.Towed{}, Truck{BallBehind: in(-99), Wheelbase: in(100)}, ""},
		{compute.Towed{}, Truck{BallBehind: in(-100), Wheelbase: in(100)}, "the ball cannot be 8 ft 4 in ahead of the rear axle, the wheelbase is 8 ft 4 in"},
		{compute.Towed{}, Truck{BallBehind: in(-100)}, ""},
		{compute.Towed{}, Truck{BallBehind: inches{Value: -100}, Wheelbase: in(100)}, ""},
		{compute.Towed{}, Truck{BallBehind: in(1e12)}, "the distance from the rear axle to the ball cannot be"},
	} {
		if bad := why(c.towed, c.truck); (bad == "") != (c.says == "") || !strings.HasPrefix(bad, c.says) {
			t.Errorf("%+v: %q, want %q", c, bad, c.says)
		}
	}
}

// deckOver and pickup are invented. What full TestPullByHand says of them is worked by hand.
func deckOver() compute.Towed {
	return compute.Towed{Empty: lb(7040), TongueEmpty: lb(1610), GVWR: lb(20000), Axles: in(306), Center: in(258), Payload: lb(12960), Kind: "gooseneck"}
}

func pickup() Truck {
	return Truck{
		Kind: "gooseneck", GVWR: lb(14000), Weight: lb(8200), RearRating: lb(9900), RearWeight: lb(3400), GCWR: lb(35000),
		HitchRating: lb(30000), HitchTongue: lb(7500), BallRating: lb(30000), Wheelbase: in(176), BallBehind: in(-4),
	}
}

// Tongue by hand: 1,610 + p x 48/306, with 12,960 lb on it 3,642.94 lb. The truck's GVWR leaves
// 5,800 lb for it and the GCWR 19,760 lb for the load. The rear axle carries 172/176 of the
// tongue, because the ball is 4 in ahead of it.
func TestPullByHand(t *testing.T) {
	const tongue = 1610 + 12960*48.0/306
	left := func(v Pulled, key string) float64 {
		for _, l := range v.Limits {
			if l.Key == key {
				return l.Rating - l.Used
			}
		}
		t.Fatalf("%s has no limit %s", v.Text, key)
		return 0
	}
	v := Pull(deckOver(), pickup(), nil)
	if v.Is != "yes" || v.Most != lb(12960) || v.License != ClassA || !v.LicenseKnown || !v.MayBeCommercial {
		t.Fatalf("%+v", v)
	}
	for key, want := range map[string]float64{
		"gcwr": 35000 - 8200 - 20000, "hitch": 10000, "ball": 10000, "gvwr": 5800 - tongue, "tongue": 7500 - tongue, "rear": 6500 - tongue*172/176,
	} {
		if got := left(v, key); math.Abs(got-want) > 1e-6 {
			t.Errorf("left of %s: %v, want %v", key, got, want)
		}
	}
	// A smaller truck: the rear axle decides, and it is inclusive to the pound.
	small := pickup()
	small.RearRating = lb(3400 + 172.0/176*(1610+48.0/306*3060))
	if v = Pull(deckOver(), small, nil); v.Is != "no" || measure.American.Limit(v.Most.Value) != "3,060 lb" || !strings.HasSuffix(v.Text, "Not full: up to 3,060 lb of load, evenly spread.") {
		t.Errorf("rear axle: %s", v.Text)
	}
	// GCWR exactly what truck and loaded trailer weigh.
	small = pickup()
	small.GCWR = lb(8200 + 20000)
	if v = Pull(deckOver(), small, nil); v.Is != "yes" || v.Most != lb(12960) || left(v, "gcwr") != 0 {
		t.Errorf("an inclusive GCWR: %s", v.Text)
	}
	// The ball is ahead of the rear axle: the front axle carries 4,800 lb and gains 4/176 of
	// the tongue.
	small = pickup()
	small.FrontRating = lb(4800 + 4.0/176*(1610+48.0/306*3060))
	if v = Pull(deckOver(), small, nil); v.Is != "no" || measure.American.Limit(v.Most.Value) != "3,060 lb" || v.Limits[0].Key != "front" {
		t.Errorf("front axle: %s", v.Text)
	}
	// A load right over the axles adds nothing to the truck: only the whole weight counts.
	over := deckOver()
	over.Center = over.Axles
	if v = Pull(over, pickup(), nil); left(v, "tongue") != 7500-1610 || v.Most != lb(12960) {
		t.Errorf("a load over the axles: %s", v.Text)
	}
	// Too heavy empty: no load at all, and the limit that is farthest over comes first.
	small = pickup()
	small.GVWR, small.HitchTongue, small.HitchRating = lb(9000), lb(1500), lb(7000)
	if v = Pull(deckOver(), small, nil); v.Is != "no" || v.Most != lb(0) || v.Limits[0].Key != "hitch" || strings.Contains(v.Text, "Not full") {
		t.Errorf("too heavy empty: %s", v.Text)
	}
}

// TestPullOneMissing takes one measure of the truck away at a time: exactly the limits that
// rest on it are gone, and what decides is asked for.
func TestPullOneMissing(t *testing.T) {
	for name, c := range map[string]struct {
		take  func(*Truck)
		gone  []string
		needs string
	}{
		"GVWR":        {func(k *Truck) { k.GVWR.Known = false }, []string{"gvwr"}, "gvwr"},
		"weight":      {func(k *Truck) { k.Weight.Known = false }, []string{"gvwr", "front"}, "weight scale"},
		"rear rating": {func(k *Truck) { k.RearRating.Known = false }, []string{"rear"}, ""},
		"rear weight": {func(k *Truck) { k.RearWeight.Known = false }, []string{"rear", "front"}, ""},
		"GCWR":        {func(k *Truck) { k.GCWR.Known = false }, []string{"gcwr"}, "tow"},
		"hitch":       {func(k *Truck) { k.HitchRating.Known = false }, []string{"hitch"}, "hitch"},
		"tongue":      {func(k *Truck) { k.HitchTongue.Known = false }, []string{"tongue"}, "tongue-rating"},
		"ball":        {func(k *Truck) { k.BallRating.Known = false }, []string{"ball"}, "ball"},
		"wheelbase":   {func(k *Truck) { k.Wheelbase.Known = false }, []string{"rear", "front"}, ""},
		"ball behind": {func(k *Truck) { k.BallBehind.Known = false }, []string{"rear", "front"}, ""},
		"kind":        {func(k *Truck) { k.Kind = "" }, nil, "kind"},
	} {
		truck := pickup()
		truck.FrontRating = lb(6000)
		c.take(&truck)
		v := Pull(deckOver(), truck, nil)
		var there []string
		for _, l := range v.Limits {
			there = append(there, l.Key)
		}
		for _, l := range []string{"gcwr", "hitch", "ball", "gvwr", "tongue", "rear", "front"} {
			if slices.Contains(there, l) == slices.Contains(c.gone, l) {
				t.Errorf("without the %s the limits are %q", name, there)
			}
		}
		if needs := strings.Join(v.Needs, " "); needs != c.needs {
			t.Errorf("without the %s it needs %q, want %q", name, needs, c.needs)
		}
	}
}

// What a verdict says of the truck's axles, by hand: a tongue of 1,000 lb 50 in behind the
// rear axle of a wheelbase of 100 takes 500 lb off the front and puts 1,500 on the rear;
// 50 in ahead of it, as a gooseneck's ball, it puts 500 on each.
func TestEffectsInWords(t *testing.T) {
	verdict := func(behind measure.Inches, change func(*compute.Towed, *Truck)) Pulled {
		r := compute.Towed{Empty: lb(4000), TongueEmpty: lb(1000), GVWR: lb(9000), Axles: in(200), Center: in(200), Payload: lb(5000)}
		k := Truck{GVWR: lb(11000), Weight: lb(7000), RearWeight: lb(3000), RearRating: lb(7000), GCWR: lb(25000),
			HitchRating: lb(20000), HitchTongue: lb(8500), BallRating: lb(20000), Wheelbase: in(100), BallBehind: in(behind)}
		if change != nil {
			change(&r, &k)
		}
		return Pull(r, k, nil)
	}
	tongue := func(p measure.Pounds) func(*compute.Towed, *Truck) {
		return func(r *compute.Towed, _ *Truck) { r.TongueEmpty, r.Empty = lb(p), lb(9000) }
	}
	surge := func(p measure.Pounds) func(*compute.Towed, *Truck) {
		return func(r *compute.Towed, _ *Truck) { r.SurgeTruck = lb(p) }
	}
	words := []string{"axle loses", "axle gains", "would lift", "surge brakes", "tongue weight alone"}
	for _, c := range []struct {
		name   string
		behind measure.Inches
		change func(*compute.Towed, *Truck)
		says   string // of the words, with what follows; empty for none
	}{
		{"behind the axle", 50, nil, "The front axle loses 500 lb, so"},
		{"ahead of the axle", -50, nil, "The front axle gains 500 lb."},
		{"over the axle", 0, nil, ""},
		// The front axle holds 4,000 of the 7,000 lb; 8,000 x 50 / 100 is all of it.
		{"the front axle just stands", 50, tongue(8000), "The front axle loses 4,000 lb, so"},
		{"the front axle lifts", 50, tongue(8002), "the front axle would lift"},
		{"surge brakes that ask for this truck", 0, surge(11000), ""},
		{"surge brakes that ask for more", 0, surge(11001), "Its surge brakes ask for a truck rated 11,001 lb or more"},
		{"surge brakes, rounded up", 0, surge(11000.5), "Its surge brakes ask for a truck rated 11,001 lb or more"},
		{"no surge brakes", 0, func(r *compute.Towed, _ *Truck) { r.SurgeTruck = pounds{Value: 99999} }, ""},
		{"a truck that is not rated", 0, func(r *compute.Towed, k *Truck) { r.SurgeTruck, k.GVWR = lb(5000), pounds{} }, ""},
		{"no wheelbase", 50, func(_ *compute.Towed, k *Truck) { k.Wheelbase.Known = false }, "rear axle counts the tongue weight alone"},
		{"no ball", 50, func(_ *compute.Towed, k *Truck) { k.BallBehind.Known = false }, "rear axle counts the tongue weight alone"},
		{"no weight", 50, func(_ *compute.Towed, k *Truck) { k.Weight.Known = false }, "The front axle loses 500 lb, so"},
		// What is lost and gained goes up: 1,000.5 x 50 / 100 is 500.25.
		{"loses, rounded up", 50, tongue(1000.5), "The front axle loses 501 lb, so"},
		{"gains, rounded up", -50, tongue(1000.5), "The front axle gains 501 lb."},
	} {
		all := strings.Join(verdict(c.behind, c.change).Notes, " ")
		if !strings.Contains(all, c.says) {
			t.Errorf("%s: %q", c.name, all)
		}
		for _, w := range words {
			if strings.Contains(all, w) && !strings.Contains(c.says, w) && !(w == "axle loses" && strings.Contains(c.says, "lift")) {
				t.Errorf("%s: %q says %q too", c.name, all, w)
			}
		}
	}
	// A tongue that lifts 200 lb empty is over before any load; one of nothing does not lift.
	if v := verdict(50, tongue(-200)); v.Is != "no" || v.Limits[0].Key != "lift" || v.Limits[0].Used != 200 || v.Most != lb(0) {
		t.Errorf("a tongue that lifts: %+v", v)
	}
	for _, p := range []measure.Pounds{0, 0.5} {
		if v := verdict(50, tongue(p)); slices.ContainsFunc(v.Limits, func(l Checked) bool { return l.Key == "lift" }) {
			t.Errorf("a tongue of %v lifts: %+v", p, v.Limits)
		}
	}
}

// A license by ratings that are partly unknown: a class A found is certain (49 CFR 383.5).
func TestLicenseOfPartsKnown(t *testing.T) {
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
		m := Pull(c.towed, c.truck, nil)
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
	trailer := func(change func(*compute.Towed)) compute.Towed {
		r := compute.Towed{Empty: lb(2000), TongueEmpty: lb(200), GVWR: lb(2990), Payload: lb(0), Unbraked: true, Axles: in(120), Center: in(120)}
		if change != nil {
			change(&r)
		}
		return r
	}
	for _, c := range []struct {
		name   string
		change func(*compute.Towed)
		weight measure.Pounds
		says   string
	}{
		{"at 40 percent", nil, 4300, ""},
		{"above 40 percent", nil, 4299, "puts 1,800 lb on its axles. In commercial use the truck's axles must then carry 4,500 lb or more (40%, 49 CFR 393.42(b)(3)); they carry 4,499 lb"},
		{"with brakes", func(r *compute.Towed) { r.Unbraked = false }, 2000, ""},
		{"over 3,000 lb", func(r *compute.Towed) { r.GVWR = lb(3001) }, 9000, "over 3,000 lb must have them"},
	} {
		v := Pull(trailer(c.change), Truck{Weight: lb(c.weight)}, nil)
		said := strings.Join(v.Notes, " ")
		if !strings.Contains(said, c.says) || strings.Contains(said, "commercial use") != (c.says != "") {
			t.Errorf("%s: %q", c.name, said)
		}
		// What the rule forbids is not a yes, and neither is what nobody knows the maker's limit of.
		if slices.Contains(v.Needs, "state") != (c.says != "") || slices.Contains(v.Needs, "unbraked") != (c.name != "with brakes") {
			t.Errorf("%s needs %q", c.name, v.Needs)
		}
	}
	// The truck maker's limit is on the whole trailer, and a trailer with brakes does not have it.
	loaded := trailer(func(r *compute.Towed) { r.Payload = lb(900) })
	for limit, most := range map[measure.Pounds]measure.Pounds{2500: 500, 1999: 0, 2900: 900} {
		if v := Pull(loaded, Truck{Unbraked: lb(limit)}, nil); v.Most != lb(most) || (v.Is == "no") != (most < 900) {
			t.Errorf("limit of %s: %s, %+v", limit, v.Text, v.Most)
		}
	}
	loaded.Unbraked = false
	if v := Pull(loaded, Truck{Unbraked: lb(1999)}, nil); v.Is != "unknown" || v.Most.Known {
		t.Errorf("with brakes: %s, %+v", v.Text, v.Most)
	}
}
