package compute_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"tarepage/internal/compute"
)

// reactions solves the two equations of equilibrium with gonum's linear algebra: the
// forces on hitch (at 0) and axles (at a) add up to the weights, and their moments about
// the ball balance. It knows nothing of internal/compute.
func reactions(t *testing.T, a float64, weights, arms []float64) (hitch, axles float64) {
	var sum, moment float64
	for i := range weights {
		sum += weights[i]
		moment += weights[i] * arms[i]
	}
	var x mat.Dense
	err := x.Solve(mat.NewDense(2, 2, []float64{1, 1, 0, a}), mat.NewDense(2, 1, []float64{sum, moment}))
	if err != nil {
		t.Fatal(err)
	}
	return x.At(0, 0), x.At(1, 0)
}

// Ten thousand random trailers against gonum: what stands on hitch and axles, and every
// rung of the ladder: its load brings its part exactly to the limit, a little more goes
// past it, and the payload is the lowest.
func TestAgainstLinearAlgebra(t *testing.T) {
	const seed = 1043
	r := rand.New(rand.NewPCG(seed, seed))
	rungs := map[string]int{}
	trailers := many()
	for i := range trailers {
		tr := random(r)
		w := compute.Unit(tr.unit(), settings())
		// Where the empty trailer balances, from its hitch's share.
		xe := tr.center * (1 - tr.tongue/tr.empty)
		xc := tr.front + tr.length/2
		// The equations are linear: what a support carries with a load is what it carries empty
		// and the load's own part, each solved by itself.
		hitch0, axles0 := reactions(t, tr.center, []float64{tr.empty}, []float64{xe})
		hitch1, axles1 := reactions(t, tr.center, []float64{1000}, []float64{xc})
		with := func(load float64) (hitch, axles float64) {
			return hitch0 + load*hitch1/1000, axles0 + load*axles1/1000
		}
		off := 1e-9 * (tr.gvwr + 30000) * (1 + xc/tr.center)
		hitch, axles := with(tr.gvwr - tr.empty)
		if got := value(t, w, "tongue-at-gvwr"); !near(got, hitch, off) {
			t.Fatalf("trailer %d %+v: tongue %v, gonum %v", i, tr, got, hitch)
		}
		if got := value(t, w, "axle-load-at-gvwr"); !near(got, axles, off) {
			t.Fatalf("trailer %d %+v: axles %v, gonum %v", i, tr, got, axles)
		}
		if got := value(t, w, "tongue-share"); !near(got, 100*hitch/tr.gvwr, 1e-7) {
			t.Fatalf("trailer %d %+v: share %v, gonum %v", i, tr, got, 100*hitch/tr.gvwr)
		}
		// What each rung is about, and its limit.
		n, per := float64(tr.axles), float64(tr.perAxle)
		limits := map[string]struct {
			limit float64
			bears func(load float64) float64
		}{
			"tag":    {tr.gvwr, func(load float64) float64 { h, a := with(load); return h + a }},
			"axles":  {n * tr.rating, func(load float64) float64 { _, a := with(load); return a }},
			"tires":  {n * per * tr.tire, func(load float64) float64 { _, a := with(load); return a }},
			"wheels": {n * per * tr.wheel, func(load float64) float64 { _, a := with(load); return a }},
			"hitch":  {tr.hitch, func(load float64) float64 { h, a := with(load); return h + a }},
			"ball":   {tr.ball, func(load float64) float64 { h, a := with(load); return h + a }},
			"tongue": {tr.topLimit, func(load float64) float64 { h, _ := with(load); return h }},
			// The hitch stays down as long as it does not pull up.
			"hitch-down": {0, func(load float64) float64 { h, _ := with(load); return -h }},
		}
		wants := len(limits) - 1 // ahead of the axles no load lifts the hitch, to the rear of them none reaches the tongue's limit
		if xc == tr.center {
			wants--
		}
		if len(w.Ladder) != wants {
			t.Fatalf("trailer %d %+v: %d rungs, want %d", i, tr, len(w.Ladder), wants)
		}
		lowest := math.Inf(1)
		for k, rung := range w.Ladder {
			v := float64(rung.Value)
			l := limits[rung.Name]
			rungs[rung.Name]++
			lowest = math.Min(lowest, v)
			switch {
			case v == 0:
				if l.bears(0) < l.limit-off {
					t.Fatalf("trailer %d %+v: rung %s is 0, but empty it bears %v of %v", i, tr, rung.Name, l.bears(0), l.limit)
				}
			case !near(l.bears(v), l.limit, off):
				t.Fatalf("trailer %d %+v: at the %s rung, %v, it bears %v of %v", i, tr, rung.Name, v, l.bears(v), l.limit)
			case l.bears(v+1) <= l.limit:
				t.Fatalf("trailer %d %+v: a pound past the %s rung, %v, it still bears only %v of %v", i, tr, rung.Name, v, l.bears(v+1), l.limit)
			}
			if k > 0 && rung.Value < w.Ladder[k-1].Value {
				t.Fatalf("trailer %d: the ladder is not sorted", i)
			}
			if rung.Governs != (k == 0) {
				t.Fatalf("trailer %d: rung %d governs is %v", i, k, rung.Governs)
			}
		}
		if got := value(t, w, "payload"); got != lowest {
			t.Fatalf("trailer %d %+v: payload %v, lowest rung %v", i, tr, got, lowest)
		}
		// The even load that the axles carry, with the weaker of axles, tires and wheels.
		hold := n * math.Min(tr.rating, per*math.Min(tr.tire, tr.wheel))
		even := value(t, w, "even-load-payload")
		if _, a := with(even); even > 0 && !near(a, hold, off) {
			t.Fatalf("trailer %d %+v: the even load %v puts %v on axles that hold %v", i, tr, even, a, hold)
		}
		// Common practice, no source: written out from the words of docs/design.md.
		front := tr.center - tr.spacing*(n-1)/2
		if got, want := value(t, w, "tongue-by-foot"), tr.gvwr/100*front/12; front > 0 && !near(got, want, off) {
			t.Fatalf("trailer %d %+v: tongue by the foot %v, want %v", i, tr, got, want)
		}
	}
	for _, name := range []string{"tag", "axles", "tires", "wheels", "hitch", "ball", "tongue"} {
		if rungs[name] < trailers/10 {
			t.Errorf("rung %s was worked %d times only", name, rungs[name])
		}
	}
}
