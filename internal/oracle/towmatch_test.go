package oracle_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/oracle"
)

func lb(v float64) compute.Result[measure.Pounds] {
	return compute.Result[measure.Pounds]{Value: measure.Pounds(v), Known: true}
}

func in(v float64) compute.Result[measure.Inches] {
	return compute.Result[measure.Inches]{Value: measure.Inches(v), Known: true}
}

// Published cases of a load on a two-axle truck.
func TestAxleEffects(t *testing.T) {
	for _, c := range []struct {
		name                      string
		tongue, wheelbase, behind float64
		front, rear               float64
		within                    float64
	}{
		// Check values 8.11 and 8.12, worked by hand from the equilibrium of a beam.
		{"8.11 ball behind the axle", 1000, 140, 50, -357.1, 1357.1, 0.05},
		{"8.12 gooseneck ball ahead of it", 3000, 160, -4, 75, 2925, 1e-9},
		// 8.16, a truck maker's body-builder manual, Appendix B: wheelbase 214 in, load at
		// 133 in from the front axle. The manual prints 62.15 and 38.86; the second is a
		// slip, because the two must add up to the 100 lb in the manual.
		{"8.16", 100, 214, 133 - 214, 37.85, 62.15, 0.005},
	} {
		front, rear := oracle.AxleEffects(measure.Pounds(c.tongue), measure.Inches(c.wheelbase), measure.Inches(c.behind))
		if !nearly(front, c.front, c.within) || !nearly(rear, c.rear, c.within) {
			t.Errorf("%s: front %v rear %v, want %v and %v", c.name, front, rear, c.front, c.rear)
		}
		if !nearly(front+rear, c.tongue, 1e-9) {
			t.Errorf("%s: front and rear add up to %v", c.name, front+rear)
		}
	}
	if front, _ := oracle.AxleEffects(100, 214, 133-214); nearly(front, 38.86, 0.5) {
		t.Error("8.16: the manual's slip is reproduced")
	}
}

// Check value 8.9, a statics textbook's problem 6.95: a 2,400-lb trailer behind a
// 2,900-lb pickup. Statement from the textbook; its dimensions and printed answers (982,
// 935 and 733 lb a wheel, +291 and -72.7) from memory, and they fit each other.
func TestTextbookPickup(t *testing.T) {
	rig := compute.Rig{Empty: 2400, Tongue: measure.Pounds(2400 * 2.0 / 11), Axles: 11 * 12}
	tongue, axles := rig.Standing(nil)
	front, rear := oracle.AxleEffects(tongue, 9*12, 3*12)
	truckRear, truckFront := 2900*4.0/9, 2900*5.0/9
	for _, c := range []struct {
		what string
		got  float64
		want float64
		off  float64
	}{
		{"trailer", float64(axles) / 2, 982, 0.5},
		{"truck rear", (truckRear + float64(rear)) / 2, 935, 0.5},
		{"truck front", (truckFront + float64(front)) / 2, 733, 0.5},
		{"change at the rear", float64(rear) / 2, 291, 0.5},
		{"change at the front", float64(front) / 2, -72.7, 0.05},
	} {
		if math.Abs(c.got-c.want) > c.off {
			t.Errorf("%s: %.2f lb a wheel, the book has %v", c.what, c.got, c.want)
		}
	}
}

// Check value 8.10: the same pickup with a weight-distributing moment of 1,945.9 lb-ft, an
// ideal couple at the ball, so that its four wheels gain equally. The couple lifts the ball
// by moment / 11 ft and moves moment / 9 ft from the rear axle to the front one (beam
// statics); what the ball then bears goes through AxleEffects. Answers of the check value,
// computed there and not the textbook's chain geometry.
func TestTextbookPickupWithACouple(t *testing.T) {
	const couple = 1945.9
	ball := 2400*2.0/11 - couple/11
	if !nearly(measure.Pounds(ball), 259.5, 0.1) {
		t.Errorf("the ball bears %.1f lb, want 259.5", ball)
	}
	front, rear := oracle.AxleEffects(measure.Pounds(ball), 9*12, 3*12)
	perFront := (2900*5.0/9 + float64(front) + couple/9) / 2
	perRear := (2900*4.0/9 + float64(rear) - couple/9) / 2
	perTrailer := (2400 - ball) / 2
	for what, c := range map[string][2]float64{
		"trailer": {perTrailer, 1070.3}, "rear": {perRear, 709.3}, "front": {perFront, 870.4},
		"all wheels": {2 * (perTrailer + perRear + perFront), 5300},
	} {
		if !nearly(measure.Pounds(c[0]), c[1], 0.1) {
			t.Errorf("%s: %.1f lb a wheel, want %v", what, c[0], c[1])
		}
	}
	if gain := perFront - 2900*5.0/18; !nearly(measure.Pounds(gain), perRear-2900*4.0/18, 0.1) {
		t.Errorf("the front gains %.1f lb a wheel, the rear does not", gain)
	}
}

// Check value 8.8, an Army manual's percentage method: 14, 21, 21, 22 and 22% of 96,500 lb.
func TestPercentageMethod(t *testing.T) {
	var sum measure.Pounds
	for i, c := range []struct {
		share measure.Share
		want  measure.Pounds
	}{{0.14, 13510}, {0.21, 20265}, {0.21, 20265}, {0.22, 21230}, {0.22, 21230}} {
		got := c.share.Of(96500)
		if got != c.want {
			t.Errorf("axle %d: %s, want %s", i+1, got, c.want)
		}
		sum += got
	}
	if sum != 96500 {
		t.Errorf("the axles add up to %s", sum)
	}
}

// pickup and deckOver are invented; the figures behind TestTowMatch are worked by hand.
func pickup() oracle.Truck {
	return oracle.Truck{
		GVWR: lb(14000), Weight: lb(8200), RearRating: lb(9900), RearWeight: lb(3400), GCWR: lb(35000),
		HitchRating: lb(30000), HitchTongue: lb(7500), BallRating: lb(30000),
		Wheelbase: in(176), BallBehind: in(-4),
	}
}

func deckOver() compute.Towed {
	return compute.Towed{
		Empty: lb(7040), TongueEmpty: lb(1610), GVWR: lb(20000), Axles: in(306), Center: in(258), Payload: lb(12960),
	}
}

func TestTowMatch(t *testing.T) {
	m := oracle.TowMatch(deckOver(), pickup())
	// Tongue by hand: 1,610 + p x 48/306. gvwr leaves 5,800 - 1,610 = 4,190, so p may be
	// 26,711.25. GCWR leaves 35,000 - 8,200 - 7,040 = 19,760. The trailer's own 12,960 governs.
	if m.Incomplete || m.Most != 12960 || m.Governing().Name != "trailer" {
		t.Fatalf("%+v", m)
	}
	if !nearly(m.Tongue.Value, 1610+12960*48.0/306, 1e-9) {
		t.Errorf("tongue %v", m.Tongue.Value)
	}
	margin := func(m oracle.Match, name string) measure.Pounds {
		for _, l := range m.Limits {
			if l.Name == name {
				return l.Margin
			}
		}
		t.Fatalf("no limit %s", name)
		return 0
	}
	for name, want := range map[string]float64{
		"trailer": 0, "gcwr": 35000 - 8200 - 20000, "hitch": 10000, "ball": 10000,
		"truck-gvwr": 5800 - 3642.9411764705883, "hitch-tongue": 7500 - 3642.9411764705883,
		"rear-axle": 6500 - 3642.9411764705883*172/176,
	} {
		if got := margin(m, name); !nearly(got, want, 1e-6) {
			t.Errorf("margin of %s: %v, want %v", name, got, want)
		}
	}
	if m.Front.Value <= 0 || !nearly(m.Front.Value, 3642.9411764705883*4/176, 1e-9) {
		t.Errorf("a gooseneck ball ahead of the axle adds to the front axle: %v", m.Front.Value)
	}
	if m.License != oracle.ClassA || !m.LicenseKnown || !m.MayBeCommercial {
		t.Errorf("14,000 + 20,000: %v", m.License)
	}

	// A smaller truck: the rear axle governs, and it is inclusive to the pound.
	small := pickup()
	small.RearRating = lb(3400 + 172.0/176*(1610+48.0/306*3060))
	m = oracle.TowMatch(deckOver(), small)
	if m.Governing().Name != "rear-axle" || m.Most.Limit() != "3,060 lb" {
		t.Errorf("rear axle: %s", m.Text())
	}
	// GCWR exactly what truck and loaded trailer weigh.
	small = pickup()
	small.GCWR = lb(8200 + 20000)
	m = oracle.TowMatch(deckOver(), small)
	if m.Most != 12960 || margin(m, "gcwr") != 0 {
		t.Errorf("an inclusive GCWR: %s", m.Text())
	}

	// A front axle rating counts where the ball stands ahead of the rear axle: the front
	// carries 4,800 lb and gains 4/176 of the tongue.
	small = pickup()
	small.FrontRating = lb(4800 + 4.0/176*(1610+48.0/306*3060))
	if m = oracle.TowMatch(deckOver(), small); m.Governing().Name != "front-axle" || m.Most.Limit() != "3,060 lb" {
		t.Errorf("front axle: %s", m.Text())
	}
	if !nearly(m.FrontLeft.Value, float64(small.FrontRating.Value), 1e-9) {
		t.Errorf("at its limit the front axle carries %v", m.FrontLeft.Value)
	}
	// A load right over the axles leaves the truck alone: only the whole weight counts.
	over := deckOver()
	over.Center = over.Axles
	m = oracle.TowMatch(over, pickup())
	for _, l := range m.Limits {
		if free := slices.Contains([]string{"truck-gvwr", "hitch-tongue", "rear-axle"}, l.Name); free != l.Free {
			t.Errorf("a load over the axles: %+v", l)
		}
	}
	if m.Tongue.Value != 1610 || m.Most != 12960 {
		t.Errorf("a load over the axles: %s", m.Text())
	}

	// Too heavy empty: never a flat no, and the worst limit first.
	small = pickup()
	small.GVWR, small.HitchRating = lb(9000), lb(7000)
	m = oracle.TowMatch(deckOver(), small)
	if !m.EmptyOver || m.Most != 0 || m.Governing().Name != "truck-gvwr" || !strings.Contains(m.Text(), "by 810 lb") || !strings.Contains(m.Text(), "weigh both") {
		t.Errorf("too heavy empty: %s", m.Text())
	}
}

func TestTowMatchMissing(t *testing.T) {
	m := oracle.TowMatch(deckOver(), oracle.Truck{})
	if !m.Incomplete || m.Most != 12960 || m.LicenseKnown {
		t.Errorf("a truck nobody knows: %+v", m)
	}
	for _, what := range []string{
		"the truck's GVWR", "the truck's weight as it is", "the truck's rear axle rating", "the weight on the truck's rear axle",
		"the truck's GCWR", "the hitch's trailer rating", "the hitch's tongue limit", "the ball's rating", "the truck's wheelbase",
		"how far the ball is from the rear axle",
	} {
		if !slices.Contains(m.Missing, what) {
			t.Errorf("%s is not named as missing: %q", what, m.Missing)
		}
	}
	if len(m.Missing) != 10 {
		t.Errorf("missing: %q", m.Missing)
	}
	m = oracle.TowMatch(compute.Towed{}, pickup())
	if m.Why == "" || !m.Incomplete || len(m.Limits) != 0 {
		t.Errorf("a trailer nobody knows: %+v", m)
	}
	// Not weighed on the tongue: what takes the whole weight still counts.
	tr := deckOver()
	tr.TongueEmpty.Known = false
	m = oracle.TowMatch(tr, pickup())
	if !slices.Equal(m.Missing, []string{"the trailer's tongue weight, empty"}) || m.Most != 12960 || m.Tongue.Known || m.Front.Known {
		t.Errorf("tongue not weighed: %+v", m)
	}
	// Without the wheelbase the axles' limits are left out, and the others stay.
	truck := pickup()
	truck.Wheelbase.Known = false
	m = oracle.TowMatch(deckOver(), truck)
	if slices.ContainsFunc(m.Limits, func(l oracle.TowLimit) bool { return l.Name == "rear-axle" }) || len(m.Limits) != 6 || m.Front.Known {
		t.Errorf("no wheelbase: %+v", m)
	}
	// A fifth-wheel has no ball to be rated.
	tr = deckOver()
	tr.NoBall = true
	truck = pickup()
	truck.BallRating.Known = false
	if m = oracle.TowMatch(tr, truck); m.Incomplete {
		t.Errorf("a fifth-wheel misses %q", m.Missing)
	}
	// Class A is certain from the weights even where the truck's GVWR is missing.
	truck = pickup()
	truck.GVWR.Known = false
	if m = oracle.TowMatch(deckOver(), truck); !m.LicenseKnown || m.License != oracle.ClassA {
		t.Errorf("8,200 lb and 20,000 lb on the scale: %v", m.License)
	}
	// A combination rating counts from the certification label only (49 CFR 383.5).
	light := deckOver()
	light.GVWR, light.Payload, light.TongueEmpty, light.Empty = lb(10500), lb(6000), lb(900), lb(4500)
	truck = pickup()
	truck.GVWR = lb(11000)
	if m = oracle.TowMatch(light, truck); m.License != oracle.NoClass {
		t.Errorf("a manual's GCWR counted: %v", m.License)
	}
	truck.GCWROnLabel = true
	if m = oracle.TowMatch(light, truck); m.License != oracle.ClassA {
		t.Errorf("the label's GCWR did not count: %v", m.License)
	}
	light.SurgeTruck = lb(12000)
	if m = oracle.TowMatch(light, truck); !strings.Contains(strings.Join(m.Notes, "\n"), "surge brakes ask for a truck rated 12,000 lb") {
		t.Errorf("surge brakes: %q", m.Notes)
	}
	light.SurgeTruck = truck.GVWR
	if m = oracle.TowMatch(light, truck); strings.Contains(strings.Join(m.Notes, "\n"), "surge brakes") {
		t.Errorf("exactly the truck its surge brakes ask for: %q", m.Notes)
	}
}

// TestTowMatchOneMissing takes one measure of the truck away at a time: it is named, and
// exactly the limits that rest on it are gone.
func TestTowMatchOneMissing(t *testing.T) {
	for name, c := range map[string]struct {
		take func(*oracle.Truck)
		gone []string
		left bool // what still stands on the front axle is known
	}{
		"the truck's GVWR":                       {func(k *oracle.Truck) { k.GVWR.Known = false }, []string{"truck-gvwr"}, true},
		"the truck's weight as it is":            {func(k *oracle.Truck) { k.Weight.Known = false }, []string{"truck-gvwr", "gcwr", "front-axle"}, false},
		"the truck's rear axle rating":           {func(k *oracle.Truck) { k.RearRating.Known = false }, []string{"rear-axle"}, true},
		"the weight on the truck's rear axle":    {func(k *oracle.Truck) { k.RearWeight.Known = false }, []string{"rear-axle", "front-axle"}, false},
		"the truck's GCWR":                       {func(k *oracle.Truck) { k.GCWR.Known = false }, []string{"gcwr"}, true},
		"the hitch's trailer rating":             {func(k *oracle.Truck) { k.HitchRating.Known = false }, []string{"hitch"}, true},
		"the hitch's tongue limit":               {func(k *oracle.Truck) { k.HitchTongue.Known = false }, []string{"hitch-tongue"}, true},
		"the ball's rating":                      {func(k *oracle.Truck) { k.BallRating.Known = false }, []string{"ball"}, true},
		"the truck's wheelbase":                  {func(k *oracle.Truck) { k.Wheelbase.Known = false }, []string{"rear-axle", "front-axle"}, false},
		"how far the ball is from the rear axle": {func(k *oracle.Truck) { k.BallBehind.Known = false }, []string{"rear-axle", "front-axle"}, false},
	} {
		truck := pickup()
		truck.FrontRating = lb(6000)
		c.take(&truck)
		m := oracle.TowMatch(deckOver(), truck)
		var there []string
		for _, l := range m.Limits {
			there = append(there, l.Name)
		}
		for _, l := range []string{"trailer", "gcwr", "hitch", "ball", "truck-gvwr", "hitch-tongue", "rear-axle", "front-axle"} {
			if slices.Contains(there, l) == slices.Contains(c.gone, l) {
				t.Errorf("without %s the limits are %q", name, there)
			}
		}
		if !slices.Equal(m.Missing, []string{name}) || !m.Incomplete || m.FrontLeft.Known != c.left {
			t.Errorf("without %s: missing %q, front axle %+v", name, m.Missing, m.FrontLeft)
		}
	}
}

func TestTowMatchSenseless(t *testing.T) {
	for name, change := range map[string]func(*compute.Towed, *oracle.Truck){
		"NaN":                        func(_ *compute.Towed, k *oracle.Truck) { k.GVWR = lb(math.NaN()) },
		"infinite":                   func(_ *compute.Towed, k *oracle.Truck) { k.GCWR = lb(math.Inf(1)) },
		"below zero":                 func(r *compute.Towed, _ *oracle.Truck) { r.Empty = lb(-7040) },
		"tongue over the trailer":    func(r *compute.Towed, _ *oracle.Truck) { r.TongueEmpty = lb(7041) },
		"rear axle over the truck":   func(_ *compute.Towed, k *oracle.Truck) { k.RearWeight = lb(8201) },
		"axles at the ball":          func(r *compute.Towed, _ *oracle.Truck) { r.Axles = in(0) },
		"no wheelbase":               func(_ *compute.Towed, k *oracle.Truck) { k.Wheelbase = in(0) },
		"ball ahead of the front":    func(_ *compute.Towed, k *oracle.Truck) { k.BallBehind = in(-176) },
		"a number too large to mean": func(_ *compute.Towed, k *oracle.Truck) { k.BallBehind = in(1e300) },
	} {
		tr, truck := deckOver(), pickup()
		change(&tr, &truck)
		if m := oracle.TowMatch(tr, truck); m.Why == "" || len(m.Limits) != 0 || m.Text() != m.Why {
			t.Errorf("%s: %+v", name, m)
		}
	}
}

// TestTowMatchAgainstSimplex holds the closed form against gonum's simplex method on
// 10,000 random combinations. The program is stated from the free bodies (forces and
// moments of trailer and truck), not from the formulas of the package.
func TestTowMatchAgainstSimplex(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 1))
	within := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	governed := map[string]int{}
	never := 0
	combinations := many()
	for i := range combinations {
		e := within(1, 9) // thousands of pounds and feet keep the simplex well scaled
		a := within(10, 30)
		t0 := e * within(0.02, 0.4)
		xc := a * within(0.7, 1.08)
		own := within(1, 20)
		w := within(5, 12)
		rearShare := within(0.3, 0.6)
		base, behind := within(9, 16), within(-1, 5)
		gvwr, rr := w+within(-0.2, 6), w*rearShare+within(-0.2, 7)
		gcwr, hr, br, ht := w+e+within(-0.3, 20), e+within(-0.2, 20), e+within(-0.2, 20), within(0.2, 8)

		lb := func(kips float64) compute.Result[measure.Pounds] { return lb(kips * 1000) }
		in := func(ft float64) compute.Result[measure.Inches] { return in(ft * 12) }
		got := oracle.TowMatch(
			compute.Towed{Empty: lb(e), TongueEmpty: lb(t0), GVWR: lb(e + own), Axles: in(a), Center: in(xc), Payload: lb(own)},
			oracle.Truck{GVWR: lb(gvwr), Weight: lb(w), RearRating: lb(rr), RearWeight: lb(w * rearShare), GCWR: lb(gcwr),
				HitchRating: lb(hr), BallRating: lb(br), HitchTongue: lb(ht), Wheelbase: in(base), BallBehind: in(behind)})
		if got.Why != "" {
			t.Fatalf("%d: %s", i, got.Why)
		}

		// Unknowns: load p; T on the ball and G on the trailer's axles; F (as F1 - F2, for it
		// may lift) and R on the truck's; then one slack for each limit.
		const p, T, G, F1, F2, R, slack = 0, 1, 2, 3, 4, 5, 6
		const limits = 7
		rows, b := [][]float64{}, []float64{}
		row := func(rhs float64, terms map[int]float64) {
			v := make([]float64, slack+limits)
			for k, c := range terms {
				v[k] = c
			}
			rows, b = append(rows, v), append(b, rhs)
		}
		row(e, map[int]float64{T: 1, G: 1, p: -1})                           // trailer, up and down
		row((e-t0)*a, map[int]float64{G: a, p: -xc})                         // trailer, about the ball
		row(w, map[int]float64{F1: 1, F2: -1, R: 1, T: -1})                  // truck, up and down
		row(w*rearShare*base, map[int]float64{R: base, T: -(base + behind)}) // truck, about its front axle
		for k, l := range []struct {
			of    int
			limit float64
		}{{p, own}, {p, gcwr - w - e}, {p, hr - e}, {p, br - e}, {T, gvwr - w}, {T, ht}, {R, rr}} {
			row(l.limit, map[int]float64{l.of: 1, slack + k: 1})
		}
		c := make([]float64, slack+limits)
		c[p] = -1
		flat := slices.Concat(rows...)
		best, _, err := lp.Simplex(c, mat.NewDense(len(rows), slack+limits, flat), b, 1e-10, nil)
		switch {
		case err == lp.ErrInfeasible:
			// No load at all fits: the empty trailer is over, and ours says so. A tongue that
			// only lightens with the load (xc behind A) is over while it is empty.
			never++
			if !got.EmptyOver && got.Most > 1e-6 {
				t.Fatalf("%d: infeasible, ours carries %v", i, got.Most)
			}
		case err != nil:
			t.Fatalf("%d: %v", i, err)
		case got.EmptyOver:
			if xc <= a && -best > 1e-6 {
				t.Fatalf("%d: simplex carries %v, ours is over empty (%s)", i, -best*1000, got.Text())
			}
		default:
			if math.Abs(-best*1000-float64(got.Most)) > 1e-3 {
				t.Fatalf("%d: simplex %v, ours %v (%s)", i, -best*1000, got.Most, got.Text())
			}
			governed[got.Governing().Name]++
		}
	}
	for _, name := range []string{"trailer", "gcwr", "hitch", "ball", "truck-gvwr", "hitch-tongue", "rear-axle", "hitch-lift"} {
		if governed[name] < combinations/500 {
			t.Errorf("%s governed only %d times: %v", name, governed[name], governed)
		}
	}
	if never < combinations/100 {
		t.Errorf("only %d combinations were impossible", never)
	}
}

func FuzzTowMatch(f *testing.F) {
	f.Add(7040.0, 1610.0, 306.0, 258.0, 12960.0, 14000.0, 8200.0, 9900.0, 3400.0, 35000.0, 176.0, -4.0, uint16(0xffff))
	f.Add(0.0, -1.0, 1e-300, math.Inf(1), math.NaN(), 1e300, 5e-324, -1e308, 1.0, 1.0, 1.0, -1.0, uint16(0x0f0f))
	f.Fuzz(func(t *testing.T, e, t0, a, xc, own, gvwr, w, rr, rw, gcwr, base, behind float64, known uint16) {
		bit := func(i int) bool { return known>>i&1 == 1 }
		p := func(i int, v float64) compute.Result[measure.Pounds] {
			return compute.Result[measure.Pounds]{Value: measure.Pounds(v), Known: bit(i)}
		}
		l := func(i int, v float64) compute.Result[measure.Inches] {
			return compute.Result[measure.Inches]{Value: measure.Inches(v), Known: bit(i)}
		}
		m := oracle.TowMatch(
			compute.Towed{Empty: p(0, e), TongueEmpty: p(1, t0), Axles: l(2, a), Center: l(3, xc), Payload: p(4, own), GVWR: p(4, own), SurgeTruck: p(4, own)},
			oracle.Truck{GVWR: p(5, gvwr), Weight: p(6, w), RearRating: p(7, rr), RearWeight: p(8, rw), GCWR: p(9, gcwr), GCWROnLabel: bit(9),
				HitchRating: p(10, gcwr), HitchTongue: p(11, rr), BallRating: p(12, gcwr), Wheelbase: l(13, base), BallBehind: l(14, behind), FrontRating: p(15, rr)})
		if m.Text() == "" {
			t.Error("no words")
		}
		if (m.Why == "") == (len(m.Limits) == 0) {
			t.Errorf("neither an answer nor a reason: %+v", m)
		}
		values := []measure.Pounds{m.Most, m.Tongue.Value, m.Front.Value, m.Rear.Value, m.FrontLeft.Value}
		for _, l := range m.Limits {
			values = append(values, l.Allows, l.Rating, l.Used, l.Margin)
			if !l.Empty && !l.Free && l.Allows < m.Most {
				t.Errorf("%s allows %v, below the answer %v", l.Name, l.Allows, m.Most)
			}
		}
		for _, v := range values {
			if !measure.Finite(v) {
				t.Fatalf("not finite: %+v", m)
			}
		}
		if m.Most < 0 {
			t.Errorf("below zero: %v", m.Most)
		}
	})
}

func BenchmarkTowMatch(b *testing.B) {
	tr, truck := deckOver(), pickup()
	b.ReportAllocs()
	for b.Loop() {
		if m := oracle.TowMatch(tr, truck); m.Most == 0 {
			b.Fatal("nothing")
		}
	}
}

func TestLaden(t *testing.T) {
	trailer := compute.Towed{}
	trailer.Empty = compute.Result[measure.Pounds]{Value: 2000, Known: true}
	trailer.TongueEmpty = compute.Result[measure.Pounds]{Value: 333, Known: true}
	trailer.Payload = compute.Result[measure.Pounds]{Value: 5200, Known: true}
	for _, c := range []struct{ weight, left measure.Pounds }{{5000, 200}, {5200, 0}, {6000, 0}} {
		p := fiveThousand(10.5)
		p.Weight = c.weight
		s := cargo.Stand(p)
		got := oracle.Laden(trailer, p.Load, s)
		if got.Empty.Value != 2000+c.weight || got.TongueEmpty.Value != s.Tongue || got.Payload.Value != c.left || !got.Payload.Known {
			t.Errorf("with %s on it: %+v", c.weight, got)
		}
	}
	if got := oracle.Laden(compute.Towed{}, compute.Load{Weight: 500}, cargo.Stand(fiveThousand(10.5))); got.Empty.Known || got.TongueEmpty.Known || got.Payload.Known {
		t.Errorf("what was not known is known now: %+v", got)
	}
}
