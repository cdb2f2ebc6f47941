package compute

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// The rows of the component table by the rating of one axle: a row holds up to its last
// figure, which is how the parts are sold (common practice, no source).
func TestAxleRow(t *testing.T) {
	for _, c := range []struct {
		rating measure.Pounds
		dual   bool
		want   string
	}{
		{2000, false, "3,500 lb"}, {3500, false, "3,500 lb"}, {3501, false, "5,200-6,000 lb"}, {6000, false, "5,200-6,000 lb"},
		{6001, false, "7,000 lb"}, {7000, false, "7,000 lb"}, {7001, false, "8,000 lb"}, {8000, true, "8,000 lb"}, {8001, false, "10,000 lb general duty"},
		{8001, true, "10,000 lb heavy duty dual"}, {10000, true, "10,000 lb heavy duty dual"}, {10000, false, "10,000 lb general duty"},
		{10001, true, "12,000-15,000 lb"}, {15000, false, "12,000-15,000 lb"}, {15001, true, "an axle over 15,000 lb"},
	} {
		if got := axleRow(c.rating, c.dual); !strings.HasSuffix(got, c.want) {
			t.Errorf("an axle of %s, dual %v, is %q, want %q", c.rating, c.dual, got, c.want)
		}
	}
}

// A square foot of floor against sums by hand: plate by the table of plates (AISC, ASTM
// A786; aluminum from memory), lumber of 1-1/2 and 3/4 in by the densities of
// solid_densities.csv (southern pine treated 38 to 42 lb/cu ft, dry 34 to 38).
func TestFloorOf(t *testing.T) {
	for _, c := range []struct {
		words     string
		low, high float64 // 0 for none
	}{
		{"treated pine 2x6", 1.5 / 12 * 38, 1.5 / 12 * 42},
		{"Treated Pine 1 x 8", 0.75 / 12 * 38, 0.75 / 12 * 42},
		{"pine 2x8", 1.5 / 12 * 34, 1.5 / 12 * 38},
		{"2x6", 0, 0},
		{"pine", 0, 0},
		{"pine 3x6", 0, 0},
		{"treated 2x6", 0, 0},
		{"plywood", 0, 0},
		{"1/8 in steel plate", 5.10, 5.10},
		{"3/8 plate", 15.31, 15.31},
		{"1/8 in steel tread plate", 6.16, 6.16},
		{"3/16 in diamond plate", 8.71, 8.71},
		{"1/4 in floor plate", 11.26, 11.26},
		{"1/8 in aluminum tread", 1.85, 1.85},
		{"3/16 in aluminum diamond plate", 2.75, 2.75},
		{"1/2 in aluminum tread", 0, 0},
		{"1/2 in steel tread plate", 0, 0},
		{"1/8 in aluminum plate", 0, 0},
		{"steel tread plate", 0, 0},
		{"11 ga steel", 0, 0},
	} {
		low, high, cited, err := floorOf(c.words)
		if math.Abs(low-c.low) > 1e-9 || math.Abs(high-c.high) > 1e-9 || (err != nil) != (c.low == 0) || (cited.Source == "") != (c.low == 0) {
			t.Errorf("a square foot of %q weighs %v to %v lb (%+v, %v), by hand %v to %v", c.words, low, high, cited, err, c.low, c.high)
		}
		if err != nil && !strings.Contains(err.Error(), c.words) {
			t.Errorf("%q is refused with %v", c.words, err)
		}
	}
	// Oak and apitong are wood, not pine: heavier than the pine of the same thickness.
	pine, _, _, _ := floorOf("pine 2x6")
	for _, words := range []string{"oak 2x6", "apitong 2x6", "keruing 2x6"} {
		if low, _, _, err := floorOf(words); err != nil || low <= pine {
			t.Errorf("%q weighs %v lb/sq ft (%v), pine %v", words, low, err, pine)
		}
	}
}

// The parts that hang on a threshold: the row of a jack by its rating, of the coupler by
// its ball, of the springs by the axle, and ramps that are carried along.
func TestPartsAtTheirLimits(t *testing.T) {
	has := func(front, part string) bool {
		w := trailerFor(t, front, "")
		if len(w.Parts) == 0 {
			t.Fatalf("no parts: %+v", w.Absent)
		}
		return slices.ContainsFunc(w.Parts, func(p Part) bool { return p.Name == part })
	}
	swap := func(pairs ...string) string {
		out := heavy
		for i := 0; i < len(pairs); i += 2 {
			if !strings.Contains(out, pairs[i]) {
				t.Fatalf("%q is not there", pairs[i])
			}
			out = strings.Replace(out, pairs[i], pairs[i+1], 1)
		}
		return out
	}
	jack := func(count, rating string) string {
		return heavy + "jack:\n  count: " + count + "\n  rating: " + rating + "\n"
	}
	for _, c := range []struct {
		front, part string
		want        bool
	}{
		{jack("1", "2,000 lb"), "jack 2k topwind", true},
		{jack("1", "2,001 lb"), "jack 2k topwind", false},
		{jack("1", "2,001 lb"), "jack 7k drop-leg", true},
		{jack("2", "7,000 lb"), "2 x jack 7k drop-leg", true},
		{jack("2", "7,001 lb"), "2 x jack 7k drop-leg", false},
		{jack("2", "7,001 lb"), "twin 12k two-speed jacks set", true},
		{jack("1", "12,000 lb"), "twin 12k two-speed jacks set", false},
		{jack("1", "12,000 lb"), "jack 10-12k drop-leg", true},
		{jack("3", "12,000 lb"), "3 x jack 10-12k drop-leg", true},
		{heavy + "jack:\n  rating: 12,000 lb\n", "jack 10-12k drop-leg", false},
		{heavy + "jack:\n  count: 1\n", "jack 2k topwind", false},
		{swap("kind: gooseneck", "kind: fifth-wheel"), "gooseneck coupler 20-30k", true},
		{swap("kind: gooseneck", "kind: pintle"), "pintle ring and bracket", true},
		{swap("kind: gooseneck", "kind: bumper-pull"), "A-frame coupler 2-5/16 in 14k-21k", true},
		{swap("kind: gooseneck", "kind: bumper-pull", "  ball: 2-5/16 in\n", "  ball: 2 in\n"), "A-frame coupler 2 in", true},
		{swap("kind: gooseneck", "kind: bumper-pull", "  ball: 2-5/16 in\n", ""), "A-frame coupler 2 in", true},
		{swap("rating: 12,000 lb", "rating: 3,500 lb", "suspension: leaf spring", "suspension: torsion"), "leaf springs of 2 axles", false},
		{heavy + "ramps:\n  kind: slide-in\n", "2 x ramp, 5 ft slide-in", true},
		{heavy + "ramps:\n  kind: stand-up\n", "2 x ramp, 5 ft slide-in", true},
		{heavy + "ramps:\n  kind: fold-over\n", "2 x ramp, 5 ft slide-in", true},
		{heavy + "ramps:\n  kind: gate\n", "2 x ramp, 5 ft slide-in", false},
	} {
		if got := has(c.front, c.part); got != c.want {
			t.Errorf("%q is a part: %v, want %v\n%s", c.part, got, c.want, c.front)
		}
	}
	// Springs by the table: 110 to 150 lb for two axles of 3,500 lb, 180 to 250 above.
	for rating, low := range map[string]float64{"3,500 lb": 110, "3,501 lb": 180} {
		w := trailerFor(t, swap("rating: 12,000 lb", "rating: "+rating), "")
		i := slices.IndexFunc(w.Parts, func(p Part) bool { return strings.HasPrefix(p.Name, "leaf springs") })
		if i < 0 || float64(w.Parts[i].Low) != low {
			t.Errorf("the springs of axles of %s: %+v, want %v lb", rating, w.Parts, low)
		}
	}
	// What is missing is asked for, one thing at a time; and nothing is a part then.
	for key, gone := range map[string]string{
		"frame.crossmember": "  crossmember: C3x4.1\n", "frame.crossmember-spacing": "  crossmember-spacing: 18 in\n", "frame.floor": "  floor: treated pine 2x6\n",
		"tires.size": "  size: ST235/80R16\n", "tires.per-axle": "  per-axle: 4\n", "axles.count": "  count: 2\n", "axles.rating": "  rating: 12,000 lb\n",
		"axles.center": "  center: 25 ft 6 in\n",
	} {
		w := trailerFor(t, swap(gone, ""), "")
		if w.Parts != nil || w.EstimatedEmpty.Known || !asks(w, "estimated-empty", key) {
			t.Errorf("without %s: %+v", key, w.Absent)
		}
	}
}

// asks reports that an absent figure asks for a key.
func asks(w *Work, name, key string) bool {
	for _, a := range w.Absent {
		if a.Name == name {
			return slices.ContainsFunc(a.Needs, func(n Need) bool { return n.Key == key })
		}
	}
	return false
}

// 23 CFR 658.17(e): two consecutive tandems of which the first and last axle stand 36 ft
// apart or more. 658.5: a tandem spans more than 40 in and not more than 96.
func TestTwoTandems(t *testing.T) {
	at := func(places ...float64) (out []StandingAxle) {
		for _, p := range places {
			out = append(out, StandingAxle{At: measure.Inches(p), Weight: 17000})
		}
		return out
	}
	for _, c := range []struct {
		name  string
		axles []StandingAxle
		want  bool
	}{
		{"36 ft", at(0, 48, 384, 432), true},
		{"an inch less", at(0, 48, 383, 431), false},
		{"40 in counts as one axle", at(0, 40, 384, 432), false},
		{"41 in is a tandem", at(0, 41, 384, 432), true},
		{"40 in in the rear", at(0, 48, 400, 440), false},
		{"96 in is a tandem", at(0, 96, 384, 480), true},
		{"97 in is none", at(0, 97, 384, 480), false},
		{"97 in in the rear", at(0, 96, 384, 481), false},
		{"three and two", at(0, 48, 96, 384, 432), true},
		{"two and three", at(0, 48, 384, 432, 480), true},
		{"three axles", at(0, 48, 432), false},
	} {
		if got := twoTandems(c.axles); got != c.want {
			t.Errorf("%s: two tandems %v, want %v", c.name, got, c.want)
		}
	}
	// The runs come front to rear, and what was given stays as it was given.
	given := at(100, 0, 50)
	runs := AxleRuns(given)
	if given[0].At != 100 || given[1].At != 0 || len(runs) != 6 || runs[1].Span != 50 {
		t.Errorf("given %v, runs %+v", given, runs)
	}
}

func TestGroupRunsNeedTheirMeasures(t *testing.T) {
	full := func() *unit.Unit {
		u := &unit.Unit{}
		at := unit.Pos{File: "a.md", Line: 1, Column: 1}
		u.Axles.Count = unit.Count{Value: 2, Pos: at}
		u.Axles.Rating = unit.Weight{Value: 12000, Pos: at}
		u.Axles.Spacing = unit.Length{Value: 40, Pos: at}
		u.Weights.GVWR = unit.Weight{Value: 22000, Pos: at}
		return u
	}
	for name, c := range map[string]struct {
		change func(*unit.Unit)
		runs   int
		each   measure.Pounds
	}{
		"all":               {func(*unit.Unit) {}, 3, 11000},
		"no count":          {func(u *unit.Unit) { u.Axles.Count.Pos = unit.Pos{} }, 0, 0},
		"no rating":         {func(u *unit.Unit) { u.Axles.Rating.Pos = unit.Pos{} }, 0, 0},
		"a rating of zero":  {func(u *unit.Unit) { u.Axles.Rating.Value = 0 }, 0, 0},
		"no axle":           {func(u *unit.Unit) { u.Axles.Count.Value = 0 }, 0, 0},
		"40 axles":          {func(u *unit.Unit) { u.Axles.Count.Value = 40 }, 820, 550},
		"41 axles":          {func(u *unit.Unit) { u.Axles.Count.Value = 41 }, 0, 0},
		"no spacing":        {func(u *unit.Unit) { u.Axles.Spacing.Pos = unit.Pos{} }, 0, 0},
		"a spacing of zero": {func(u *unit.Unit) { u.Axles.Spacing.Value = 0 }, 0, 0},
		"one axle":          {func(u *unit.Unit) { u.Axles.Count.Value, u.Axles.Spacing.Pos = 1, unit.Pos{} }, 1, 12000},
		"no gvwr":           {func(u *unit.Unit) { u.Weights.GVWR = unit.Weight{} }, 3, 12000},
		"gvwr not stated":   {func(u *unit.Unit) { u.Weights.GVWR.Pos = unit.Pos{} }, 3, 12000},
		"a gvwr of zero":    {func(u *unit.Unit) { u.Weights.GVWR.Value = 0 }, 3, 12000},
	} {
		u := full()
		c.change(u)
		runs := (&Work{Unit: u}).GroupRuns()
		if len(runs) != c.runs || c.runs > 0 && runs[0].Weight != c.each {
			t.Errorf("%s: %d runs %+v, want %d of %v", name, len(runs), runs[:min(len(runs), 1)], c.runs, c.each)
		}
	}
}

// 49 CFR 571.110 S3, S10: trailers of 10,000 lb or less.
func TestRelabelAtItsEnds(t *testing.T) {
	for _, c := range []struct {
		gvwr, limit measure.Pounds
		known       bool
	}{
		{-1, 0, false}, {0, 0, false}, {0.5, 0.0075, true}, {6666, 99.99, true}, {6667, 100, true}, {10000, 100, true}, {10000.5, 0, false},
	} {
		got, known := RelabelAt(c.gvwr)
		if math.Abs(float64(got-c.limit)) > 1e-9 || known != c.known {
			t.Errorf("on %v lb %v may be added (%v), want %v (%v)", float64(c.gvwr), float64(got), known, float64(c.limit), c.known)
		}
	}
}

// The least and the most that a measure of a tow match may be, each by itself.
func TestSenselessTow(t *testing.T) {
	lb := func(v float64) Result[measure.Pounds] { return Result[measure.Pounds]{measure.Pounds(v), true} }
	in := func(v float64) Result[measure.Inches] { return Result[measure.Inches]{measure.Inches(v), true} }
	weights := map[string]struct {
		at    func(*Towed, *Truck) *Result[measure.Pounds]
		least float64
	}{
		"the trailer's empty weight":         {func(r *Towed, _ *Truck) *Result[measure.Pounds] { return &r.Empty }, 1},
		"the trailer's GVWR":                 {func(r *Towed, _ *Truck) *Result[measure.Pounds] { return &r.GVWR }, 1},
		"the trailer's payload":              {func(r *Towed, _ *Truck) *Result[measure.Pounds] { return &r.Payload }, 0},
		"the truck its surge brakes ask for": {func(r *Towed, _ *Truck) *Result[measure.Pounds] { return &r.SurgeTruck }, 0},
		"the truck's GVWR":                   {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.GVWR }, 1},
		"the truck's weight":                 {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.Weight }, 1},
		"the rear axle's rating":             {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.RearRating }, 1},
		"the weight on the rear axle":        {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.RearWeight }, 0},
		"the front axle's rating":            {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.FrontRating }, 1},
		"the truck's GCWR":                   {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.GCWR }, 1},
		"the hitch's rating":                 {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.HitchRating }, 1},
		"the hitch's tongue limit":           {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.HitchTongue }, 1},
		"the ball's rating":                  {func(_ *Towed, k *Truck) *Result[measure.Pounds] { return &k.BallRating }, 1},
	}
	for name, c := range weights {
		for v, want := range map[float64]bool{c.least: true, c.least - 0.5: false, 1e12: false, math.NaN(): false} {
			var r Towed
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
		at    func(*Towed, *Truck) *Result[measure.Inches]
		least float64
	}{
		"the distance from the ball to the trailer's axles":    {func(r *Towed, _ *Truck) *Result[measure.Inches] { return &r.Axles }, 1},
		"the distance from the ball to the middle of the deck": {func(r *Towed, _ *Truck) *Result[measure.Inches] { return &r.Center }, 0},
		"the truck's wheelbase":                                {func(_ *Towed, k *Truck) *Result[measure.Inches] { return &k.Wheelbase }, 1},
	}
	for name, c := range lengths {
		for v, want := range map[float64]bool{c.least: true, c.least - 0.5: false, 1e12: false, math.NaN(): false} {
			var r Towed
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
	none := Result[measure.Pounds]{}
	for _, c := range []struct {
		tongue, empty, rear, weight Result[measure.Pounds]
		behind, base                Result[measure.Inches]
		says                        string
	}{
		{tongue: lb(500), empty: lb(500)},
		{tongue: lb(-500), empty: lb(500)},
		{tongue: lb(501), empty: lb(500), says: "the tongue cannot weigh 501 lb, the whole trailer weighs 500 lb"},
		{tongue: lb(-501), empty: lb(500), says: "the tongue cannot weigh -501 lb"},
		{tongue: lb(501), empty: none},
		{tongue: Result[measure.Pounds]{501, false}, empty: lb(500)},
		{tongue: lb(math.Inf(-1)), says: "the tongue weight cannot be"},
		{tongue: Result[measure.Pounds]{measure.Pounds(math.NaN()), false}},
		{rear: lb(500), weight: lb(500)},
		{rear: lb(501), weight: lb(500), says: "the rear axle cannot carry 501 lb, the whole truck weighs 500 lb"},
		{rear: lb(501)},
		{behind: in(-99), base: in(100)},
		{behind: in(-100), base: in(100), says: "the ball cannot stand 8 ft 4 in ahead of the rear axle, the wheelbase is 8 ft 4 in"},
		{behind: in(-100)},
		{behind: Result[measure.Inches]{-100, false}, base: in(100)},
		{behind: in(1e12), says: "the ball cannot stand"},
	} {
		why := senselessTow(Towed{Empty: c.empty, TongueEmpty: c.tongue}, Truck{RearWeight: c.rear, Weight: c.weight, BallBehind: c.behind, Wheelbase: c.base})
		if (why == "") != (c.says == "") || !strings.HasPrefix(why, c.says) {
			t.Errorf("%+v: %q, want %q", c, why, c.says)
		}
	}
}

// What a match says of the truck's axles, by hand: a tongue of 1,000 lb 50 in behind the
// rear axle of a wheelbase of 100 takes 500 lb off the front and puts 1,500 on the rear;
// 50 in ahead of it, as a gooseneck's ball, it puts 500 on each.
func TestEffectsInWords(t *testing.T) {
	lb := func(v measure.Pounds) Result[measure.Pounds] { return Result[measure.Pounds]{v, true} }
	in := func(v measure.Inches) Result[measure.Inches] { return Result[measure.Inches]{v, true} }
	match := func(behind measure.Inches, change func(*Towed, *Truck)) Match {
		r := Towed{Empty: lb(4000), TongueEmpty: lb(1000), GVWR: lb(9000), Axles: in(200), Center: in(200), Payload: lb(5000)}
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
	if m = match(50, func(r *Towed, k *Truck) { r.TongueEmpty, r.Empty = lb(8000), lb(9000) }); m.FrontLeft != lb(0) || said(m, "would lift") {
		t.Errorf("the front axle just stands: %+v", m)
	}
	if m = match(50, func(r *Towed, k *Truck) { r.TongueEmpty, r.Empty = lb(8002), lb(9000) }); m.FrontLeft != lb(-1) || !said(m, "would lift") {
		t.Errorf("the front axle lifts: %+v", m)
	}
	for truck, want := range map[measure.Pounds]bool{11000: false, 11001: true} {
		if m = match(50, func(r *Towed, _ *Truck) { r.SurgeTruck = lb(truck) }); said(m, "surge brakes") != want {
			t.Errorf("surge brakes that ask for %v: %q", truck, m.Notes)
		}
	}
	if m = match(50, func(r *Towed, _ *Truck) { r.SurgeTruck = Result[measure.Pounds]{99999, false} }); said(m, "surge") {
		t.Errorf("no surge brakes: %q", m.Notes)
	}
	if m = match(50, func(r *Towed, k *Truck) { r.SurgeTruck, k.GVWR = lb(5000), Result[measure.Pounds]{} }); said(m, "surge") {
		t.Errorf("a truck not rated: %q", m.Notes)
	}
	if m = match(50, func(_ *Towed, k *Truck) { k.Wheelbase.Known = false }); m.Front.Known || !m.Tongue.Known || m.FrontLeft.Known {
		t.Errorf("no wheelbase: %+v", m)
	}
	if m = match(50, func(_ *Towed, k *Truck) { k.BallBehind.Known = false }); m.Front.Known || m.Rear.Known {
		t.Errorf("no ball: %+v", m)
	}
	if m = match(50, func(_ *Towed, k *Truck) { k.Weight.Known = false }); !m.Front.Known || m.FrontLeft.Known {
		t.Errorf("no weight: %+v", m)
	}
	if m = match(50, func(r *Towed, _ *Truck) { r.Center.Known = false }); m.Tongue.Known || m.Front.Known {
		t.Errorf("no center: %+v", m)
	}
	// In words: the limit goes down, what it is over by goes up.
	if m = match(50, func(r *Towed, _ *Truck) { r.Payload = lb(4000.7) }); m.Text() != "up to 4,000 lb, evenly spread; what governs is the trailer's own payload" || m.Governing() == nil || !m.Limits[0].Governs || m.Limits[1].Governs {
		t.Errorf("%q %+v", m.Text(), m.Governing())
	}
	if m = match(50, func(_ *Towed, k *Truck) { k.HitchTongue = lb(999.5) }); !m.EmptyOver || !strings.HasPrefix(m.Text(), "by these figures the empty trailer is over the tongue limit of the hitch on the truck by 1 lb:") {
		t.Errorf("%q", m.Text())
	}
	if (&Match{}).Governing() != nil {
		t.Error("an empty match has a limit that governs")
	}
}

// A license by ratings that are partly unknown: a class A found is certain (49 CFR 383.5).
func TestLicenseOfPartsKnown(t *testing.T) {
	lb := func(v measure.Pounds) Result[measure.Pounds] { return Result[measure.Pounds]{v, true} }
	for _, c := range []struct {
		name    string
		towed   Towed
		truck   Truck
		license License
		known   bool
	}{
		{"all", Towed{Payload: lb(0), GVWR: lb(15000)}, Truck{GVWR: lb(11001)}, ClassA, true},
		{"a pound less", Towed{Payload: lb(0), GVWR: lb(15000)}, Truck{GVWR: lb(11000)}, NoClass, true},
		{"no truck", Towed{Payload: lb(0), GVWR: lb(15000)}, Truck{}, NoClass, false},
		{"no truck, and a trailer that is enough", Towed{Payload: lb(0), GVWR: lb(26001)}, Truck{}, ClassA, true},
		{"no trailer's rating", Towed{Payload: lb(0)}, Truck{GVWR: lb(11001)}, NoClass, false},
		{"what it weighs with its load", Towed{Payload: lb(9000), Empty: lb(6000)}, Truck{GVWR: lb(11001)}, ClassA, true},
		{"what it weighs, a pound less", Towed{Payload: lb(8999), Empty: lb(6000)}, Truck{GVWR: lb(11001)}, NoClass, false},
		{"gcwr on the label", Towed{Payload: lb(0), GVWR: lb(10001)}, Truck{GVWR: lb(11000), GCWR: lb(26001), GCWROnLabel: true}, ClassA, true},
		{"gcwr in a manual", Towed{Payload: lb(0), GVWR: lb(10001)}, Truck{GVWR: lb(11000), GCWR: lb(26001)}, NoClass, true},
		{"a heavy truck", Towed{Payload: lb(0), GVWR: lb(3000)}, Truck{GVWR: lb(26001)}, ClassB, true},
	} {
		m := TowMatch(c.towed, c.truck)
		if m.License != c.license || m.LicenseKnown != c.known {
			t.Errorf("%s: %s (%v), want %s (%v)", c.name, m.License, m.LicenseKnown, c.license, c.known)
		}
	}
	for l, want := range map[License]string{NoClass: "none by weight", ClassA: "Class A", ClassB: "Class B"} {
		if l.String() != want || l != NoClass && !strings.Contains(l.Text(), want) || !strings.Contains(l.Text(), "ask your state") {
			t.Errorf("%d is %q: %q", l, l.String(), l.Text())
		}
	}
}

// A yard's own allowance and band hold below the whole of it, and not from there on.
func TestSettingsAtTheirEnds(t *testing.T) {
	at := unit.Pos{File: "yard.md", Line: 3, Column: 1}
	y := &unit.Yard{}
	for v, want := range map[measure.Share]measure.Share{0: 0, 0.999: 0.999, 1: DefaultAllowance, 1.5: DefaultAllowance} {
		y.Allowance = unit.Field[measure.Share]{Value: v, Pos: at}
		if got := SettingsOf(y).Allowance; got != want {
			t.Errorf("an allowance of %v is %v, want %v", v, got, want)
		}
	}
	table, _ := tables.TongueBand("pintle")
	for _, c := range []struct {
		least, most measure.Share
		own         bool
	}{{0.05, 0.20, true}, {0.10, 0.10, false}, {0.20, 0.10, false}, {0.05, 0.999, true}, {0.05, 1, false}, {0.05, 1.5, false}} {
		y.Bands.Pintle = unit.Band{Least: unit.Field[measure.Share]{Value: c.least, Pos: at}, Most: unit.Field[measure.Share]{Value: c.most, Pos: at}}
		b := SettingsOf(y).Bands["pintle"]
		if own := b.Least == c.least && b.Most == c.most && b.At == at; own != c.own {
			t.Errorf("a band of %v to %v is %+v, want the yard's own %v", c.least, c.most, b, c.own)
		}
		if !c.own && (b.Least != table.Low || b.Most != table.High || b.At.Known()) {
			t.Errorf("a band of %v to %v is %+v, want the table's", c.least, c.most, b)
		}
	}
}
