package oracle_test

import (
	"math"
	"math/rand/v2"
	"slices"
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

// TestPullAgainstSimplex holds the largest load behind a truck against gonum's simplex method
// on 10,000 random combinations. The program is stated from the free bodies (forces and
// moments of trailer and truck), not from the formulas of the package.
func TestPullAgainstSimplex(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 1))
	within := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	closest := map[string]int{}
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
		gcwr, hr = max(gcwr, gvwr), max(hr, ht) // less is refused as a contradiction

		lb := func(kips float64) compute.Result[measure.Pounds] { return lb(kips * 1000) }
		in := func(ft float64) compute.Result[measure.Inches] { return in(ft * 12) }
		towed := compute.Towed{Empty: lb(e), TongueEmpty: lb(t0), GVWR: lb(e + own), Axles: in(a), Center: in(xc), Payload: lb(own)}
		truck := oracle.Truck{GVWR: lb(gvwr), Weight: lb(w), RearRating: lb(rr), RearWeight: lb(w * rearShare), GCWR: lb(gcwr),
			HitchRating: lb(hr), BallRating: lb(br), HitchTongue: lb(ht), Wheelbase: in(base), BallBehind: in(behind)}
		got := oracle.Pull(towed, truck, nil)
		if !got.Most.Known {
			t.Fatalf("%d: %s", i, got.Text)
		}
		most := float64(got.Most.Value)

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
			// No load at all fits: the empty trailer is over. A tongue that only lightens with the
			// load (xc behind A) is over while it is empty.
			never++
			if most > 1e-6 {
				t.Fatalf("%d: infeasible, ours carries %v", i, most)
			}
			continue
		case err != nil:
			t.Fatalf("%d: %v", i, err)
		case most == 0 && xc > a:
			continue // too heavy empty, and lighter on the hitch with every pound
		case math.Abs(-best*1000-most) > 1e-3:
			t.Fatalf("%d: simplex %v, ours %v (%s)", i, -best*1000, most, got.Text)
		}
		// With just that load the closest limit is reached, and no limit is broken by more
		// than the sums' own error.
		tongue := e*1000*(t0/e) + most*(1-xc/a)
		at := oracle.Pull(towed, truck, &oracle.On{Load: got.Most.Value, Tongue: compute.Result[measure.Pounds]{Value: measure.Pounds(max(tongue, 0)), Known: true}})
		left := math.Inf(1)
		name := ""
		for _, l := range at.Limits {
			if l.Rating-l.Used < left {
				left, name = l.Rating-l.Used, l.Key
			}
		}
		if tongue < 1e-6 {
			left, name = 0, "lift"
		}
		if math.Abs(left) > 1e-3 {
			t.Fatalf("%d: with %v on it %s still has %v", i, most, name, left)
		}
		closest[name]++
	}
	for _, name := range []string{"trailer", "gcwr", "hitch", "ball", "gvwr", "tongue", "rear", "lift"} {
		if closest[name] < combinations/500 {
			t.Errorf("%s was the closest only %d times: %v", name, closest[name], closest)
		}
	}
	if never < combinations/100 {
		t.Errorf("only %d combinations were impossible", never)
	}
}

func FuzzPull(f *testing.F) {
	f.Add(7040.0, 1610.0, 306.0, 258.0, 12960.0, 14000.0, 8200.0, 9900.0, 3400.0, 35000.0, 176.0, -4.0, uint32(0xfffff))
	f.Add(0.0, -1.0, 1e-300, math.Inf(1), math.NaN(), 1e300, 5e-324, -1e308, 1.0, 1.0, 1.0, -1.0, uint32(0x0f0f0))
	f.Fuzz(func(t *testing.T, e, t0, a, xc, own, gvwr, w, rr, rw, gcwr, base, behind float64, known uint32) {
		bit := func(i int) bool { return known>>i&1 == 1 }
		p := func(i int, v float64) compute.Result[measure.Pounds] {
			return compute.Result[measure.Pounds]{Value: measure.Pounds(v), Known: bit(i)}
		}
		l := func(i int, v float64) compute.Result[measure.Inches] {
			return compute.Result[measure.Inches]{Value: measure.Inches(v), Known: bit(i)}
		}
		kind := ""
		if bit(18) {
			kind = "receiver"
		}
		v := oracle.Pull(
			compute.Towed{Empty: p(0, e), TongueEmpty: p(1, t0), Axles: l(2, a), Center: l(3, xc), Payload: p(4, own), GVWR: p(4, own), SurgeTruck: p(4, own), Unbraked: bit(17)},
			oracle.Truck{Kind: kind, GVWR: p(5, gvwr), Weight: p(6, w), RearRating: p(7, rr), RearWeight: p(8, rw), GCWR: p(9, gcwr), GCWROnLabel: bit(9),
				HitchRating: p(10, gcwr), HitchTongue: p(11, rr), BallRating: p(12, gcwr), Wheelbase: l(13, base), BallBehind: l(14, behind), FrontRating: p(15, rr),
				Sticker: p(16, rr), People: p(19, rw)}, nil)
		if v.Text == "" || !slices.Contains([]string{"yes", "no", "unknown"}, v.Is) {
			t.Errorf("no answer: %+v", v)
		}
		if v.Is == "yes" && (len(v.Needs) > 0 || slices.ContainsFunc(v.Limits, func(l oracle.Checked) bool { return l.Over })) {
			t.Errorf("a yes that is none: %+v", v)
		}
		for _, l := range v.Limits {
			if !measure.Finite(measure.Pounds(l.Rating)) || !measure.Finite(measure.Pounds(l.Used)) {
				t.Fatalf("not finite: %+v", l)
			}
		}
		if v.Most.Known && !(v.Most.Value >= 0 && measure.Finite(v.Most.Value)) {
			t.Errorf("the most is %v", v.Most.Value)
		}
	})
}

func BenchmarkPull(b *testing.B) {
	towed := compute.Towed{Empty: lb(7040), TongueEmpty: lb(1610), GVWR: lb(20000), Axles: in(306), Center: in(258), Payload: lb(12960)}
	truck := oracle.Truck{GVWR: lb(14000), Weight: lb(8200), RearRating: lb(9900), RearWeight: lb(3400), GCWR: lb(35000),
		HitchRating: lb(30000), HitchTongue: lb(7500), BallRating: lb(30000), Wheelbase: in(176), BallBehind: in(-4)}
	b.ReportAllocs()
	for b.Loop() {
		if v := oracle.Pull(towed, truck, nil); v.Text == "" {
			b.Fatal("nothing")
		}
	}
}
