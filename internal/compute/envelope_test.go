package compute_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// holds reports whether a point of place and weight lies in the polygon, by the even-odd
// rule.
func holds(polygon []compute.Vertex, x, w float64) bool {
	in := false
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		px, pw, qx, qw := float64(p.Behind), float64(p.Weight), float64(q.Behind), float64(q.Weight)
		if (pw > w) != (qw > w) && x < px+(qx-px)*(w-pw)/(qw-pw) {
			in = !in
		}
	}
	return in
}

// slice is where the polygon is cut at a weight: its first and last place.
func slice(polygon []compute.Vertex, w float64) (first, last float64, ok bool) {
	first, last = math.Inf(1), math.Inf(-1)
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		px, pw, qx, qw := float64(p.Behind), float64(p.Weight), float64(q.Behind), float64(q.Weight)
		if (pw > w) != (qw > w) {
			x := px + (qx-px)*(w-pw)/(qw-pw)
			first, last, ok = min(first, x), max(last, x), true
		}
	}
	return first, last, ok
}

// off is how far a vertex is from a constraint, in pounds on tongue, axles or scale,
// or in inches of the deck.
func off(rig compute.Rig, v compute.Vertex, c compute.Constraint, length float64) float64 {
	tongue, axles := rig.Standing([]compute.Placed{{Load: compute.Load{Weight: v.Weight}, Behind: v.Behind}})
	total := float64(rig.Empty + v.Weight)
	most := float64(rig.Most)
	if most == 0 {
		most = 1
	}
	d := map[compute.Constraint]float64{
		compute.DeckFront:  float64(v.Behind) - length/2,
		compute.DeckRear:   float64(rig.Length) - length/2 - float64(v.Behind),
		compute.BandLeast:  float64(tongue) - float64(rig.Least)*total,
		compute.BandMost:   most*total - float64(tongue),
		compute.TongueMost: float64(rig.TongueMost - tongue),
		compute.AxleHold:   float64(rig.Hold - axles),
		compute.WithinGVWR: float64(rig.GVWR) - total,
		compute.NoLoad:     float64(v.Weight),
	}
	return math.Abs(d[c])
}

// TestEnvelope throws random points at the envelopes of random trailers and asks the free
// body about each; holds its corners to the constraints that meet there; and cuts it at
// every height, where it must be the window of that weight.
func TestEnvelope(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	inside, outside, empty, points := 0, 0, 0, 0
	edges := map[compute.Constraint]int{}
	trailers := many() * 15 / 25
	for i := range trailers {
		rig := randomRig(r)
		length := part(rig.Length, r.Float64())
		polygon := rig.Envelope(length)
		grain := float64(rig.Length) / 4096
		points = max(points, len(polygon))
		if polygon == nil {
			empty++
		}
		for k, v := range polygon {
			edges[v.Edge]++
			before := polygon[(k+len(polygon)-1)%len(polygon)].Edge
			if v.Corner && (off(rig, v, v.Edge, float64(length)) > 1e-5 || off(rig, v, before, float64(length)) > 1e-5) {
				t.Fatalf("%d: corner %d %+v is not on %v and %v\n%+v", i, k, v, before, v.Edge, rig)
			}
			if v.Corner == (v.Edge == before) {
				t.Fatalf("%d: vertex %d %+v after an edge of %v", i, k, v, before)
			}
			if v.Behind != v.FromBall-rig.Front {
				t.Fatalf("%d: corner %+v", i, v)
			}
			load := compute.Placed{Load: compute.Load{Weight: v.Weight, Length: length}, Behind: v.Behind}
			if err := allowed(rig, []compute.Placed{load}, -1e-5); err != nil {
				t.Fatalf("%d: vertex %d %+v: %v", i, k, v, err)
			}
		}
		for range 60 {
			weight := 1 + r.Float64()*float64(rig.GVWR-rig.Empty)*1.1
			at := r.Float64() * float64(rig.Length)
			load := compute.Placed{Load: compute.Load{Weight: measure.Pounds(weight), Length: length}, Behind: measure.Inches(at)}
			if holds(polygon, at, weight) {
				inside++
				if err := allowed(rig, []compute.Placed{load}, -1e-6); err != nil {
					t.Fatalf("%d: (%v, %v) lies inside: %v\n%+v", i, at, weight, err, rig)
				}
				continue
			}
			outside++
			// Outside, but allowed, is only the sliver between a chord and its curve.
			near := holds(polygon, at-grain, weight) || holds(polygon, at+grain, weight)
			if err := allowed(rig, []compute.Placed{load}, 1e-6); err == nil && !near {
				w := rig.Window(load.Load)
				if float64(w.Last.Behind-w.First.Behind) > 2*grain {
					t.Fatalf("%d: (%v, %v) lies outside, but all is well\n%+v\n%+v", i, at, weight, rig, polygon)
				}
			}
		}
		for range 20 {
			weight := 1 + r.Float64()*float64(rig.GVWR-rig.Empty-1)
			w := rig.Window(compute.Load{Weight: measure.Pounds(weight), Length: length})
			first, last, ok := slice(polygon, weight)
			if ok != w.Room {
				if math.Abs(float64(w.Last.Behind-w.First.Behind)) > 2*grain {
					t.Fatalf("%d: at %v the envelope has room %v, the window %s\n%+v\n%+v", i, weight, ok, w.Text(), rig, polygon)
				}
				continue
			}
			if !ok {
				continue
			}
			for _, d := range []float64{first - float64(w.First.Behind), float64(w.Last.Behind) - last} {
				if d < -1e-6 || d > grain*1.01 {
					t.Fatalf("%d: at %v the envelope is %v to %v, the window %+v\n%+v", i, weight, first, last, w, rig)
				}
			}
		}
	}
	if inside < trailers*8/3 || outside < trailers*8/3 || empty > trailers*7/15 || points > 200 {
		t.Errorf("%d points inside, %d outside, %d empty envelopes, up to %d vertices", inside, outside, empty, points)
	}
	for _, c := range []compute.Constraint{compute.DeckFront, compute.DeckRear, compute.BandLeast, compute.BandMost, compute.TongueMost, compute.AxleHold, compute.WithinGVWR, compute.NoLoad} {
		if edges[c] < trailers/75 {
			t.Errorf("%v was an edge %d times only", c, edges[c])
		}
	}
}

// The envelope of the example gooseneck, its corners worked by hand for a load of no
// length: the empty tongue of 1,610 of 7,040 lb is 22.9%, within the band, so the whole
// deck is allowed for a light load.
func TestEnvelopeByHand(t *testing.T) {
	rig := deckRig()
	var corners []compute.Vertex
	for _, v := range rig.Envelope(0) {
		if v.Corner {
			corners = append(corners, v)
		}
	}
	want := []struct {
		behind, weight float64
		edge           compute.Constraint
	}{
		{0, 0, compute.DeckFront},
		// 25% at the deck's front: 1,610 + w (1 - 90/306) = 0.25 (7,040 + w), w = 150 / 0.455882.
		{0, 150 / (0.75 - 90.0/306), compute.BandMost},
		// 25% at gvwr: T = 5,000, x = 306 (1,610 + 12,960 - 5,000) / 12,960.
		{306*9570/12960.0 - 90, 12960, compute.WithinGVWR},
		// 15% at gvwr: T = 3,000.
		{306*11570/12960.0 - 90, 12960, compute.BandLeast},
		// 15% at the deck's rear: 1,610 + w (1 - 426/306) = 0.15 (7,040 + w).
		{336, (1610 - 1056) / (0.15 - 1 + 426.0/306), compute.DeckRear},
		{336, 0, compute.NoLoad},
	}
	if len(corners) != len(want) {
		t.Fatalf("corners %+v", corners)
	}
	for i, c := range want {
		got := corners[i]
		if math.Abs(float64(got.Behind)-c.behind) > 1e-9 || math.Abs(float64(got.Weight)-c.weight) > 1e-9 || got.Edge != c.edge {
			t.Errorf("corner %d: %+v, want %+v", i, got, c)
		}
	}
}

func TestEnvelopeOfNothing(t *testing.T) {
	for name, change := range map[string]func(*compute.Rig, *measure.Inches){
		"no payload":               func(r *compute.Rig, _ *measure.Inches) { r.GVWR = 7040 },
		"longer than the deck":     func(_ *compute.Rig, l *measure.Inches) { *l = 337 },
		"as long as the deck":      func(_ *compute.Rig, l *measure.Inches) { *l = 336 },
		"no length":                func(_ *compute.Rig, l *measure.Inches) { *l = measure.Inches(math.NaN()) },
		"no axles":                 func(r *compute.Rig, _ *measure.Inches) { r.Axles = 0 },
		"axles over before a load": func(r *compute.Rig, _ *measure.Inches) { r.Hold = 5000 },
	} {
		rig, length := deckRig(), measure.Inches(0)
		change(&rig, &length)
		if got := rig.Envelope(length); got != nil {
			t.Errorf("%s: %+v", name, got)
		}
	}
}
