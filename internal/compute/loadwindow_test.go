package compute_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// Published problems of a trailer on two supports. 8.1 is a physics textbook's (kg and m
// stand for lb and in, the ratio being the same), 8.2 to 8.4 another's, whose statement
// was read and whose answers were worked by hand; 8.13 and 8.14 were worked by hand.
func TestStandingPublished(t *testing.T) {
	const g = 9.8
	rig := compute.Rig{Empty: 2500, Tongue: 2500 * 2.5 / 8, Axles: 8}
	tongue, axles := rig.Standing(nil)
	if math.Abs(float64(axles)*g-16844) > 0.5 || math.Abs(float64(tongue)*g-7656) > 0.5 {
		t.Errorf("8.1: %.1f N and %.1f N, the book has 16,844 and 7,656", float64(axles)*g, float64(tongue)*g)
	}
	if share := float64(tongue) / 2500; math.Abs(share-0.3125) > 1e-12 {
		t.Errorf("8.1: %v on the hitch, want 31.25%%", share)
	}

	const g2 = 9.81
	rig = compute.Rig{Empty: 220, Tongue: 220 * (2.15 - 1.85) / 2.15, Axles: 2.15}
	tongue, axles = rig.Standing(nil)
	if math.Abs(float64(tongue)*g2-301.1) > 0.05 || math.Abs(float64(axles)*g2-1857.1) > 0.05 {
		t.Errorf("8.2: %.2f N and %.2f N, want 301.1 and 1,857.1", float64(tongue)*g2, float64(axles)*g2)
	}
	tongue, axles = rig.Standing([]compute.Placed{{Load: compute.Load{Weight: 540}, Behind: 3.3}})
	if math.Abs(float64(tongue)*g2+2532) > 0.5 || math.Abs(float64(axles)*g2-9988) > 1 {
		t.Errorf("8.3: %.1f N and %.1f N, want -2,532 (the tongue lifts) and 9,988", float64(tongue)*g2, float64(axles)*g2)
	}
	// 8.4 asks where the 540 kg bring the hitch to zero: the rear end of the window of a rig
	// without a band, whose tongue only must not lift.
	rig.Length, rig.GVWR, rig.Hold, rig.HoldBy = 4, 2000, 2000, compute.AxleHold
	w := rig.Window(compute.Load{Weight: 540})
	if math.Abs(float64(w.Last.FromBall)-2.272) > 0.0005 || w.Last.By != compute.BandLeast {
		t.Errorf("8.4: %+v, want 2.272 m from the coupler", w.Last)
	}

	rig = compute.Rig{Empty: 2000, Tongue: 2000 * 2.0 / 12, Axles: 144}
	for _, c := range []struct{ feet, tongue, axles float64 }{
		{10.5, 958.3, 6041.7}, // 8.13: 13.7% of 7,000
		{12.5, 125, 6875},     // 8.14: 1.8%
	} {
		tongue, axles = rig.Standing([]compute.Placed{{Load: compute.Load{Weight: 5000}, Behind: measure.Feet(c.feet).Inches()}})
		if !nearly(tongue, c.tongue, 0.05) || !nearly(axles, c.axles, 0.05) {
			t.Errorf("cargo at %v ft: %v and %v, want %v and %v", c.feet, tongue, axles, c.tongue, c.axles)
		}
	}
}

// deckRig is the invented gooseneck of docs/design.md, without a limit that its even load
// would meet first.
func deckRig() compute.Rig {
	return compute.Rig{
		Empty: 7040, Tongue: 1610, Axles: 306, Front: 90, Length: 336, GVWR: 20000,
		Hold: 20000, HoldBy: compute.AxleHold, TongueMost: 7500, Coupler: 30000, Least: 0.15, Most: 0.25,
	}
}

// Each case was worked by hand: x = A (T0 + w - T) / w for a tongue T, and
// x = A (hold - E + T0) / w for the axles; behind is x - 90.
func TestWindowByHand(t *testing.T) {
	const front, rear = compute.DeckFront, compute.DeckRear
	for _, c := range []struct {
		name        string
		change      func(*compute.Rig)
		weight      measure.Pounds
		length      measure.Inches
		first, last float64 // from the ball
		firstBy     compute.Constraint
		lastBy      compute.Constraint
		room        bool
	}{
		// 15 and 25% of 19,340 are 2,901 and 4,835.
		{"band and band", nil, 12300, 168, 306 * (1610 + 12300 - 4835) / 12300.0, 306 * (1610 + 12300 - 2901) / 12300.0, compute.BandMost, compute.BandLeast, true},
		// A light load hardly moves the tongue: 1,610 of 7,140 is 22.5%; the deck's ends bound it.
		{"the deck's ends", nil, 100, 120, 150, 366, front, rear, true},
		{"a load as long as the deck", nil, 100, 336, 258, 258, front, rear, true},
		{"longer than the deck by a quarter inch", nil, 100, 336.25, 258.125, 257.875, front, rear, false},
		{"tongue limit", func(r *compute.Rig) { r.TongueMost = 4000 }, 12300, 120, 306 * (1610 + 12300 - 4000) / 12300.0, 306 * (1610 + 12300 - 2901) / 12300.0, compute.TongueMost, compute.BandLeast, true},
		{"axles", func(r *compute.Rig) { r.Hold, r.HoldBy = 16000, compute.TireHold }, 12300, 120, 306 * (1610 + 12300 - 4835) / 12300.0, 306 * (16000 - 5430) / 12300.0, compute.BandMost, compute.TireHold, true},
		// 20% of 19,340 is 3,868, so the axles must carry at least 15,472: exactly one place.
		{"one place", func(r *compute.Rig) { r.Most, r.Hold = 0.2, 15472 }, 12300, 120, 306 * (15472 - 5430) / 12300.0, 306 * (15472 - 5430) / 12300.0, compute.BandMost, compute.AxleHold, true},
		{"a pound less on the axles", func(r *compute.Rig) { r.Most, r.Hold = 0.2, 15471 }, 12300, 120, 306 * (15472 - 5430) / 12300.0, 306 * (15471 - 5430) / 12300.0, compute.BandMost, compute.AxleHold, false},
		{"tongue limit against the band", func(r *compute.Rig) { r.TongueMost = 2900 }, 12300, 120, 306 * (1610 + 12300 - 2900) / 12300.0, 306 * (1610 + 12300 - 2901) / 12300.0, compute.TongueMost, compute.BandLeast, false},
		{"axles too far back for the deck", func(r *compute.Rig) { r.Axles, r.Length = 600, 100 }, 12300, 100, 600 * (1610 + 12300 - 4835) / 12300.0, 140, compute.BandMost, rear, false},
	} {
		rig := deckRig()
		if c.change != nil {
			c.change(&rig)
		}
		w := rig.Window(compute.Load{Weight: c.weight, Length: c.length})
		if w.Room != c.room || w.First.By != c.firstBy || w.Last.By != c.lastBy ||
			math.Abs(float64(w.First.FromBall)-c.first) > 1e-9 || math.Abs(float64(w.Last.FromBall)-c.last) > 1e-9 {
			t.Errorf("%s: %+v\n%s\nwant %v by %v to %v by %v, room %v", c.name, w, w.Text(), c.first, c.firstBy, c.last, c.lastBy, c.room)
		}
		if w.First.Behind != w.First.FromBall-90 {
			t.Errorf("%s: %v behind the deck's front, %v from the ball", c.name, w.First.Behind, w.First.FromBall)
		}
		if !c.room && w.Against != [2]compute.Constraint{c.firstBy, c.lastBy} {
			t.Errorf("%s: against %v", c.name, w.Against)
		}
	}
}

// Check value 8.15: a loaded trailer of 7,000 lb with 700 or 1,050 lb on the tongue is
// within 10 to 15%, with 699 or 1,051 it is not.
func TestBandIsInclusive(t *testing.T) {
	for _, c := range []struct {
		tongue measure.Pounds
		room   bool
	}{{699, false}, {700, true}, {1050, true}, {1051, false}} {
		// A load over the axles leaves the tongue alone, and the deck is as long as the load.
		rig := compute.Rig{Empty: 2000, Tongue: c.tongue, Axles: 186, Front: 126, Length: 120, GVWR: 7000,
			Hold: 7000, HoldBy: compute.AxleHold, Least: 0.10, Most: 0.15}
		if w := rig.Window(compute.Load{Weight: 5000, Length: 120}); w.Room != c.room {
			t.Errorf("%v of 7,000: %s", c.tongue, w.Text())
		}
	}
}

func TestWindowRefuses(t *testing.T) {
	type cons = [2]compute.Constraint
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name   string
		change func(*compute.Rig, *compute.Load)
		want   cons
		words  string
	}{
		{"at gvwr", func(_ *compute.Rig, l *compute.Load) { l.Weight = 12960 }, cons{}, "behind the deck's front"},
		{"a pound over gvwr", func(_ *compute.Rig, l *compute.Load) { l.Weight = 12961 }, cons{compute.TheLoad, compute.WithinGVWR}, "12,961 lb is more than the 12,960 lb that GVWR leaves"},
		{"over the coupler", func(r *compute.Rig, l *compute.Load) { r.Coupler = 19000 }, cons{compute.TheLoad, compute.WithinCoupler}, "the 11,960 lb that the coupler leaves"},
		{"over the ball", func(r *compute.Rig, l *compute.Load) { r.Ball = 6000 }, cons{compute.TheLoad, compute.WithinBall}, "the 0 lb that the ball leaves"},
		{"a pound", func(_ *compute.Rig, l *compute.Load) { l.Weight = 1 }, cons{}, "behind the deck's front"},
		{"less than a pound", func(_ *compute.Rig, l *compute.Load) { l.Weight = 0.99 }, cons{compute.TheLoad, compute.TheLoad}, "not a load"},
		{"no weight", func(_ *compute.Rig, l *compute.Load) { l.Weight = 0 }, cons{compute.TheLoad, compute.TheLoad}, "not a load"},
		{"weight below zero", func(_ *compute.Rig, l *compute.Load) { l.Weight = -5 }, cons{compute.TheLoad, compute.TheLoad}, "not a load"},
		{"no number", func(_ *compute.Rig, l *compute.Load) { l.Weight = measure.Pounds(nan) }, cons{compute.TheLoad, compute.TheLoad}, "not a load"},
		{"length below zero", func(_ *compute.Rig, l *compute.Load) { l.Length = -1 }, cons{compute.TheLoad, compute.TheLoad}, "not a load"},
		{"endless", func(_ *compute.Rig, l *compute.Load) { l.Length = measure.Inches(inf) }, cons{compute.TheLoad, compute.TheLoad}, "not a load"},
		{"longer than the deck", func(_ *compute.Rig, l *compute.Load) { l.Length = 337 }, cons{compute.DeckFront, compute.DeckRear}, "longer than the room between the deck's front edge and the deck's rear edge"},
		{"no axles", func(r *compute.Rig, _ *compute.Load) { r.Axles = 0 }, cons{compute.TheTrailer, compute.TheTrailer}, "measure the trailer again"},
		{"axles in front of the ball", func(r *compute.Rig, _ *compute.Load) { r.Axles = -10 }, cons{compute.TheTrailer, compute.TheTrailer}, "measure the trailer again"},
		{"tongue over the trailer", func(r *compute.Rig, _ *compute.Load) { r.Tongue = 7041 }, cons{compute.TheTrailer, compute.TheTrailer}, "measure the trailer again"},
		{"no hold", func(r *compute.Rig, _ *compute.Load) { r.Hold = 0 }, cons{compute.TheTrailer, compute.TheTrailer}, "measure the trailer again"},
		{"band upside down", func(r *compute.Rig, _ *compute.Load) { r.Least = 0.3 }, cons{compute.TheTrailer, compute.TheTrailer}, "measure the trailer again"},
		{"a front that is not a number", func(r *compute.Rig, _ *compute.Load) { r.Front = measure.Inches(nan) }, cons{compute.TheTrailer, compute.TheTrailer}, "measure the trailer again"},
	} {
		rig, load := deckRig(), compute.Load{Weight: 12300, Length: 120}
		c.change(&rig, &load)
		w := rig.Window(load)
		if w.Against != c.want || w.Room != (c.want == cons{}) || !strings.Contains(w.Text(), c.words) {
			t.Errorf("%s: %v, %q", c.name, w.Against, w.Text())
		}
	}
}

// The words round inward: a quarter inch that is told is a quarter inch that is allowed.
func TestWindowText(t *testing.T) {
	end := func(behind float64) compute.End { return compute.End{Behind: measure.Inches(behind)} }
	for _, c := range []struct {
		first, last float64
		want        string
	}{
		{74, 132, "6 ft 2 in to 11 ft behind the deck's front"},
		{74.01, 131.99, "6 ft 2-1/4 in to 10 ft 11-3/4 in behind the deck's front"},
		{74.1, 74.2, "6 ft 2-7/64 in to 6 ft 2-3/16 in behind the deck's front"},
		{74, 74, "only at 6 ft 2 in behind the deck's front"},
		{74.1, 74.1, "only at 6 ft 2-3/32 in behind the deck's front"},
	} {
		if got := (compute.Window{Room: true, First: end(c.first), Last: end(c.last)}).Text(); got != c.want {
			t.Errorf("%v to %v: %q, want %q", c.first, c.last, got, c.want)
		}
	}
}

func nearly(got measure.Pounds, want, within float64) bool {
	return math.Abs(float64(got)-want) <= within
}

// part is f times v.
func part[U measure.Unit](v U, f float64) U { return U(float64(v) * f) }

// randomRig is a trailer that a yard might have, or nearly.
func randomRig(r *rand.Rand) compute.Rig {
	within := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	e := within(1000, 9000)
	gvwr := e + within(1000, 16000)
	front := within(20, 120)
	length := within(100, 480)
	rig := compute.Rig{
		Empty: measure.Pounds(e), Tongue: measure.Pounds(e * within(0.03, 0.35)),
		Front: measure.Inches(front), Length: measure.Inches(length), Axles: measure.Inches(front + length*within(0.45, 0.85)),
		GVWR: measure.Pounds(gvwr), Hold: measure.Pounds(gvwr * within(0.7, 1.2)), HoldBy: compute.AxleHold,
		Least: measure.Share(within(0.05, 0.2)), TongueMost: measure.Pounds(gvwr * within(0.1, 0.4)),
	}
	rig.Most = rig.Least + measure.Share(within(0.01, 0.15))
	if r.IntN(4) == 0 {
		rig.TongueMost = 0
	}
	if r.IntN(4) == 0 {
		rig.Least, rig.Most = 0, 0
	}
	return rig
}

// simplexWindow asks gonum's simplex method for the first and last place of a load: from
// the trailer's free body, with x, T and G unknown and a slack for every limit. Thousands
// of pounds and feet keep it well scaled.
func simplexWindow(rig compute.Rig, load compute.Load) (first, last float64, ok bool, err error) {
	e, t0, w := float64(rig.Empty)/1000, float64(rig.Tongue)/1000, float64(load.Weight)/1000
	a := float64(rig.Axles) / 12
	lo := (float64(rig.Front) + float64(load.Length)/2) / 12
	hi := (float64(rig.Front) + float64(rig.Length) - float64(load.Length)/2) / 12
	most, tongueMost := 1.0, 1e3
	if rig.Most > 0 {
		most = float64(rig.Most)
	}
	if rig.TongueMost > 0 {
		tongueMost = float64(rig.TongueMost) / 1000
	}
	const x, T, G, slack, limits = 0, 1, 2, 3, 6
	rows := []float64{}
	var b []float64
	row := func(rhs float64, terms map[int]float64) {
		v := make([]float64, slack+limits)
		sign := 1.0
		if rhs < 0 {
			sign = -1
		}
		for k, c := range terms {
			v[k] = c * sign
		}
		rows, b = append(rows, v...), append(b, rhs*sign)
	}
	row(e+w, map[int]float64{T: 1, G: 1})
	row((e-t0)*a, map[int]float64{G: a, x: -w})
	row(lo, map[int]float64{x: 1, slack: -1})
	row(hi, map[int]float64{x: 1, slack + 1: 1})
	row(float64(rig.Least)*(e+w), map[int]float64{T: 1, slack + 2: -1})
	row(most*(e+w), map[int]float64{T: 1, slack + 3: 1})
	row(tongueMost, map[int]float64{T: 1, slack + 4: 1})
	row(float64(rig.Hold)/1000, map[int]float64{G: 1, slack + 5: 1})
	m := mat.NewDense(len(b), slack+limits, rows)
	c := make([]float64, slack+limits)
	c[x] = 1
	first, _, err = lp.Simplex(c, m, b, 1e-10, nil)
	if err != nil {
		if err == lp.ErrInfeasible {
			err = nil
		}
		return 0, 0, false, err
	}
	c[x] = -1
	last, _, err = lp.Simplex(c, m, b, 1e-10, nil)
	return first * 12, -last * 12, err == nil, err
}

// TestWindowAgainstSimplex holds the closed form against a linear program on 10,000
// random trailers and loads.
func TestWindowAgainstSimplex(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 2))
	by := map[compute.Constraint]int{}
	rooms, nowhere := 0, 0
	trailers := many()
	for i := range trailers {
		rig := randomRig(r)
		load := compute.Load{
			Weight: part(rig.GVWR-rig.Empty, 0.05+0.95*r.Float64()),
			Length: part(rig.Length, r.Float64()),
		}
		w := rig.Window(load)
		first, last, ok, err := simplexWindow(rig, load)
		if err != nil {
			t.Fatalf("%d: %v: %+v %+v", i, err, rig, load)
		}
		if ok != w.Room {
			// On the edge itself the two may differ in the last bits.
			if gap := w.First.FromBall - w.Last.FromBall; math.Abs(float64(gap)) < 1e-5 {
				continue
			}
			t.Fatalf("%d: simplex %v to %v (%v), ours %s\n%+v %+v", i, first, last, ok, w.Text(), rig, load)
		}
		if !ok {
			nowhere++
			if w.First.FromBall <= w.Last.FromBall {
				t.Fatalf("%d: no room, but the ends do not cross: %+v", i, w)
			}
			continue
		}
		rooms++
		by[w.First.By]++
		by[w.Last.By]++
		if math.Abs(float64(w.First.FromBall)-first) > 1e-5 || math.Abs(float64(w.Last.FromBall)-last) > 1e-5 {
			t.Fatalf("%d: simplex %v to %v, ours %+v\n%+v %+v", i, first, last, w, rig, load)
		}
	}
	if rooms < trailers/5 || nowhere < trailers/5 {
		t.Errorf("%d with room, %d without: the sample says little", rooms, nowhere)
	}
	for _, c := range []compute.Constraint{compute.DeckFront, compute.DeckRear, compute.BandLeast, compute.BandMost, compute.TongueMost, compute.AxleHold} {
		if by[c] < trailers/100 {
			t.Errorf("%v bounded only %d windows", c, by[c])
		}
	}
}

// allowed asks the free body itself whether placed loads keep every limit, by a margin:
// above zero is asked for more than the limit, below zero for less. It shares nothing with
// the package but the numbers.
func allowed(rig compute.Rig, loads []compute.Placed, margin float64) error {
	e, a := float64(rig.Empty), float64(rig.Axles)
	total, moment := e, (e-float64(rig.Tongue))*a
	for _, p := range loads {
		total += float64(p.Weight)
		moment += float64(p.Weight) * (float64(rig.Front) + float64(p.Behind))
	}
	g := moment / a
	tongue := total - g
	least, most := float64(rig.Least), float64(rig.Most)
	if most == 0 {
		most = 1
	}
	check := func(what string, v, limit float64) error {
		if v > limit-margin {
			return fmt.Errorf("%s: %v over %v", what, v, limit)
		}
		return nil
	}
	for _, err := range []error{
		check("GVWR", total, float64(rig.GVWR)),
		check("axles", g, float64(rig.Hold)),
		check("least", least*total, tongue),
		check("most", tongue, most*total),
		check("tongue limit", tongue, cmpOr(float64(rig.TongueMost), math.Inf(1))),
	} {
		if err != nil {
			return err
		}
	}
	for i, p := range loads {
		if b := float64(p.Behind); b-float64(p.Length)/2 < margin || b+float64(p.Length)/2 > float64(rig.Length)-margin {
			return fmt.Errorf("load %d hangs over the deck: %+v", i, p)
		}
		for _, q := range loads[:i] {
			if math.Abs(float64(p.Behind-q.Behind)) < float64(p.Length+q.Length)/2+margin {
				return fmt.Errorf("loads overlap: %+v and %+v", p, q)
			}
		}
	}
	return nil
}

func cmpOr(v, other float64) float64 {
	if v == 0 {
		return other
	}
	return v
}

// TestWindowsAmong tries places all along the deck among loads that are there already, and
// asks the free body about each.
func TestWindowsAmong(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	inside, outside, several := 0, 0, 0
	trailers := many() * 6 / 25
	for i := range trailers {
		rig := randomRig(r)
		room := rig.GVWR - rig.Empty
		var others []compute.Placed
		for at := measure.Inches(0); len(others) < 3; {
			length := part(rig.Length, 0.05+0.2*r.Float64())
			at += part(rig.Length, 0.25*r.Float64())
			if at+length > rig.Length {
				break
			}
			others = append(others, compute.Placed{Load: compute.Load{Weight: part(room, 0.02+0.2*r.Float64()), Length: length}, Behind: at + length.Half()})
			at += length
		}
		r.Shuffle(len(others), func(i, j int) { others[i], others[j] = others[j], others[i] })
		load := compute.Load{Weight: part(room, 0.05+0.4*r.Float64()), Length: part(rig.Length, 0.2*r.Float64())}
		windows := rig.WindowsAmong(load, others)
		if len(windows) == 0 || len(windows) > 1 && !windows[0].Room {
			t.Fatalf("%d: %+v", i, windows)
		}
		if len(windows) > 1 {
			several++
		}
		for k := range 200 {
			at := part(rig.Length, float64(k)/199)
			all := append(others[:len(others):len(others)], compute.Placed{Load: load, Behind: at})
			in := false
			for _, w := range windows {
				in = in || w.Room && at >= w.First.Behind && at <= w.Last.Behind
			}
			if in {
				inside++
				if err := allowed(rig, all, -1e-6); err != nil {
					t.Fatalf("%d: at %v: %v\n%+v\n%+v", i, at, err, rig, windows)
				}
			} else {
				outside++
				if err := allowed(rig, all, 1e-6); err == nil {
					t.Fatalf("%d: at %v all is well, but no window holds it: %+v", i, at, windows)
				}
			}
		}
	}
	if inside < 8*trailers || outside < 8*trailers || several < trailers/30 {
		t.Errorf("%d inside, %d outside, %d with several windows", inside, outside, several)
	}
}

func TestWindowsAmongWords(t *testing.T) {
	rig := deckRig()
	machine := compute.Load{Weight: 6000, Length: 120}
	if got := rig.WindowsAmong(machine, nil); len(got) != 1 || got[0] != rig.Window(machine) {
		t.Errorf("among none: %+v", got)
	}
	full := []compute.Placed{{Load: compute.Load{Weight: 1000, Length: 100}, Behind: 50}, {Load: compute.Load{Weight: 1000, Length: 150}, Behind: 261}}
	got := rig.WindowsAmong(machine, full)
	if len(got) != 1 || got[0].Against != [2]compute.Constraint{compute.LoadAhead, compute.LoadBehind} || !strings.Contains(got[0].Text(), "longer than the room between the load ahead of it and the load behind it") {
		t.Errorf("no gap is long enough: %+v %s", got, got[0].Text())
	}
	heavy := []compute.Placed{{Load: compute.Load{Weight: 7000, Length: 20}, Behind: 20}}
	if got = rig.WindowsAmong(machine, heavy); got[0].Against != [2]compute.Constraint{compute.TheLoad, compute.WithinGVWR} || got[0].Leaves != 5960 {
		t.Errorf("gvwr leaves 5,960 beside 7,000: %+v", got)
	}
	for _, bad := range []compute.Placed{{}, {Load: machine, Behind: measure.Inches(math.NaN())}, {Load: compute.Load{Weight: 1e9, Length: 1}, Behind: -1e9}} {
		if got = rig.WindowsAmong(machine, []compute.Placed{bad}); len(got) != 1 || got[0].Room {
			t.Errorf("%+v beside it: %+v", bad, got)
		}
	}
	// A load longer than the deck, and hanging over it, leaves none.
	if got = rig.WindowsAmong(machine, []compute.Placed{{Load: compute.Load{Weight: 1000, Length: 800}, Behind: 100}}); len(got) != 1 || got[0].Against != [2]compute.Constraint{compute.LoadAhead, compute.DeckRear} {
		t.Errorf("beside a load that hangs over: %+v", got)
	}
	if got = rig.WindowsAmong(compute.Load{Weight: 10}, []compute.Placed{{Load: compute.Load{Weight: 10, Length: 400}, Behind: 168}}); got[0].Room {
		t.Errorf("on a full deck: %+v", got)
	}
}

// TestArrange holds placing several at once against the free body, and its refusals
// against a linear program over all places in the given order.
func TestArrange(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	placed, refused := 0, 0
	trailers := many() * 2 / 5
	for i := range trailers {
		rig := randomRig(r)
		var loads []compute.Load
		for range 1 + r.IntN(4) {
			loads = append(loads, compute.Load{
				Weight: part(rig.GVWR-rig.Empty, 0.02+0.25*r.Float64()),
				Length: part(rig.Length, 0.3*r.Float64()),
			})
		}
		got, w := rig.Arrange(loads)
		if w.Room != (len(got) == len(loads)) {
			t.Fatalf("%d: %+v %+v", i, got, w)
		}
		if w.Room {
			placed++
			if err := allowed(rig, got, -1e-6); err != nil {
				t.Fatalf("%d: %v", i, err)
			}
			continue
		}
		refused++
		// The row's common moment is all that tongue and axles feel, and a row can stand
		// with any moment from all forward to all back; so no place in order is allowed if
		// none on that stretch is.
		at, length := 0.0, 0.0
		var forward []compute.Placed
		for _, l := range loads {
			forward = append(forward, compute.Placed{Load: l, Behind: measure.Inches(at) + l.Length.Half()})
			at += float64(l.Length)
		}
		length = at
		for k := range 200 {
			shift := (float64(rig.Length) - length) * float64(k) / 199
			row := append([]compute.Placed(nil), forward...)
			for j := range row {
				row[j].Behind += measure.Inches(shift)
			}
			if allowed(rig, row, 1e-6) == nil {
				t.Fatalf("%d: refused (%s), but it stands well shifted by %v", i, w.Text(), shift)
			}
		}
	}
	if placed < trailers/10 || refused < trailers/10 {
		t.Errorf("%d placed, %d refused", placed, refused)
	}
	rig := deckRig()
	if _, w := rig.Arrange(nil); w.Room {
		t.Error("nothing was placed")
	}
	if _, w := rig.Arrange([]compute.Load{{Weight: 100}, {Weight: -1}}); w.Room || w.Against[0] != compute.TheLoad {
		t.Errorf("a load below zero: %+v", w)
	}
	// One load is placed at the middle of its window.
	one := compute.Load{Weight: 12300, Length: 120}
	got, _ := rig.Arrange([]compute.Load{one})
	w := rig.Window(one)
	if math.Abs(float64(got[0].Behind-(w.First.Behind+w.Last.Behind).Half())) > 1e-9 {
		t.Errorf("%+v, the window is %+v", got, w)
	}
}

func TestWindowAllocatesNothing(t *testing.T) {
	rig, load := deckRig(), compute.Load{Weight: 12300, Length: 168}
	if n := testing.AllocsPerRun(100, func() { window = rig.Window(load) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

var window compute.Window

func BenchmarkWindow(b *testing.B) {
	rig, load := deckRig(), compute.Load{Weight: 12300, Length: 168}
	b.ReportAllocs()
	for b.Loop() {
		window = rig.Window(load)
	}
}

func BenchmarkEnvelope(b *testing.B) {
	rig := deckRig()
	b.ReportAllocs()
	for b.Loop() {
		if rig.Envelope(168) == nil {
			b.Fatal("nothing")
		}
	}
}

func FuzzWindow(f *testing.F) {
	f.Add(7040.0, 1610.0, 306.0, 90.0, 336.0, 20000.0, 20000.0, 7500.0, 0.15, 0.25, 12300.0, 168.0, 50.0)
	f.Add(1e-300, -1.0, 5e-324, math.Inf(-1), math.NaN(), 1e300, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0)
	// Loads that reach past both ends of the deck leave no gap at all.
	f.Add(6083.0, 1521.0, 306.0, 41.0, 254.0, 19925.0, 18052.2, 7500.0, 0.15, 0.25, 1230.0, 1260.0, -36.5)
	f.Add(1.0, 0.0, 1e9, 1e9, 1e9, 1e9, 1e9, 0.0, 0.0, 1.0, 1.0, 1e9, 1e9)
	f.Add(1000.0, 100.0, 1e-9, -1e9, 1e-9, 1e9, 1e-9, 1e-9, 1e-9, 1e-9, 1e9, 0.0, -1e9)
	f.Fuzz(func(t *testing.T, e, t0, a, front, length, gvwr, hold, tongue, least, most, weight, long, behind float64) {
		rig := compute.Rig{Empty: measure.Pounds(e), Tongue: measure.Pounds(t0), Axles: measure.Inches(a), Front: measure.Inches(front),
			Length: measure.Inches(length), GVWR: measure.Pounds(gvwr), Hold: measure.Pounds(hold), HoldBy: compute.AxleHold,
			TongueMost: measure.Pounds(tongue), Least: measure.Share(least), Most: measure.Share(most)}
		load := compute.Load{Weight: measure.Pounds(weight), Length: measure.Inches(long)}
		other := compute.Placed{Load: load, Behind: measure.Inches(behind)}
		check := func(w compute.Window) {
			if w.Room == (w.Against != [2]compute.Constraint{}) {
				t.Fatalf("neither room nor a reason: %+v", w)
			}
			for _, e := range []compute.End{w.First, w.Last} {
				if !measure.Finite(e.Behind) || !measure.Finite(e.FromBall) {
					t.Fatalf("not finite: %+v", w)
				}
			}
			if w.Room && (w.First.Behind > w.Last.Behind || w.First.FromBall > w.Last.FromBall) {
				t.Fatalf("upside down: %+v", w)
			}
			if text := w.Text(); text == "" || strings.Contains(text, "NaN") && !math.IsNaN(weight) && !math.IsNaN(long) {
				t.Fatalf("%q", text)
			}
		}
		check(rig.Window(load))
		for _, w := range rig.WindowsAmong(load, []compute.Placed{other, other}) {
			check(w)
		}
		placed, w := rig.Arrange([]compute.Load{load, load})
		check(w)
		for _, p := range placed {
			if !measure.Finite(p.Behind) {
				t.Fatalf("not finite: %+v", placed)
			}
		}
		for _, v := range rig.Envelope(load.Length) {
			if !measure.Finite(v.Behind) || !measure.Finite(v.FromBall) || !measure.Finite(v.Weight) || v.Weight < 0 {
				t.Fatalf("not finite: %+v", v)
			}
		}
	})
}
