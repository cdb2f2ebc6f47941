package compute_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"gonum.org/v1/gonum/mat"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// gooseneck is the example of docs/design.md, as a file. Lines can be changed for a case.
const gooseneck = `---
title: 102 in x 28 ft gooseneck
stock: EX-1
kind: deck-over
condition: new
availability: on the yard
hitch:
  kind: gooseneck
  rating: 30,000 lb
  tongue-limit: 7,500 lb
deck:
  length: 28 ft
  width: 102 in
  front: 7 ft 6 in
axles:
  count: 2
  rating: 10,000 lb
  center: 25 ft 6 in
  spacing: 50 in
tires:
  size: ST235/80R16
  load-range: E
  per-axle: 4
  sidewall:
    dual: 3,080 lb
brakes:
  kind: electric
weights:
  gvwr: 20,000 lb
  empty: 7,040 lb
  tongue-empty: 1,610 lb
---
`

// worked reads one unit's text and works it, each pair of old and new replaced first.
func worked(t *testing.T, text string, pairs ...string) *compute.Work {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("the unit has no %q", pairs[i])
		}
	}
	stock, problems, err := unit.Read(fstest.MapFS{
		"content/yard.md":       {Data: []byte("---\nname: Example Trailer Yard\nas-of: 2026-11-20\n---\n")},
		"content/units/ex-1.md": {Data: []byte(strings.NewReplacer(pairs...).Replace(text))},
	})
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	return compute.Stock(stock)[0]
}

func text(w *compute.Work, name string) string {
	if f := w.Figure(name); f != nil {
		return f.Text
	}
	for _, a := range w.Absent {
		if a.Name == name {
			return "absent: " + a.Needs[0].Advice
		}
	}
	return "none"
}

// By hand, for 12,300 lb on 14 ft: 306 (1,610 + 12,300 - 4,835) / 12,300 - 90 = 135.77 in
// and 306 (1,610 + 12,300 - 3,868) / 12,300 - 90 = 159.83 in.
func TestLoadWindowFigure(t *testing.T) {
	for _, c := range []struct {
		name  string
		pairs []string
		want  string
	}{
		{"as it stands", nil, "11 ft 4 in to 13 ft 3-3/4 in behind the deck's front"},
		{"about", []string{"tongue-empty: 1,610", "tongue-empty: about 1,610"}, "about 11 ft 4 in to 13 ft 3-3/4 in behind the deck's front"},
		{"tongue not weighed", []string{"  tongue-empty: 1,610 lb\n", ""}, "absent: weigh the tongue empty"},
		{"tongue over the trailer", []string{"tongue-empty: 1,610", "tongue-empty: 7,041"}, "absent: weigh the tongue empty"},
		{"deck not placed", []string{"  front: 7 ft 6 in\n", ""}, "absent: measure from the ball's center back to the deck's front edge"},
		// 306 (1,610 + 12,300 - 4,000) / 12,300 - 138 = 108.54 in. With its middle over the
		// axles the even load never meets the tongue limit, so the load is the same.
		{"tongue limit", []string{"tongue-limit: 7,500", "tongue-limit: 4,000", "front: 7 ft 6 in", "front: 11 ft 6 in"}, "9 ft 3/4 in to 9 ft 3-3/4 in behind the deck's front"},
	} {
		w := worked(t, gooseneck, c.pairs...)
		if got := text(w, "load-window"); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
	f := worked(t, gooseneck).Figure("load-window")
	if math.Abs(f.Value-135.76829268292684/12) > 1e-12 || f.Unit != "ft" {
		t.Errorf("value %v %s, want the front end in feet", f.Value, f.Unit)
	}
	if !strings.Contains(f.Working(), "(1,610 lb + 12,300 lb - 25% of 19,340 lb)") || !strings.Contains(f.Notes()[0], "from the ball: 18 ft 10 in to 20 ft 9-3/4 in") {
		t.Errorf("working %q, notes %q", f.Working(), f.Notes())
	}
	// Axles so far forward that no place gives the tongue enough.
	w := worked(t, gooseneck, "center: 25 ft 6 in", "center: 9 ft")
	if got := text(w, "load-window"); !strings.HasPrefix(got, "absent: nowhere: the deck's front edge allows its center no farther forward than 7 ft behind the deck's front") {
		t.Errorf("axles far forward: %s", got)
	}
	if w.LoadWindow.Room {
		t.Error("a window without a figure")
	}
}

// The axle group carries what axles, tires or wheels carry, whichever is least; a dump
// bed is called a bed.
func TestRigOf(t *testing.T) {
	for _, c := range []struct {
		name   string
		pairs  []string
		hold   measure.Pounds
		holdBy compute.Constraint
	}{
		{"axles", nil, 20000, compute.AxleHold},
		{"tires", []string{"dual: 3,080", "dual: 2,400"}, 19200, compute.TireHold},
		{"wheels", []string{"per-axle: 4", "per-axle: 4\n  wheel: 2,300 lb"}, 18400, compute.WheelHold},
		{"tires of an unknown size", []string{"    dual: 3,080 lb\n", "", "  sidewall:\n", "", "size: ST235/80R16", "size: ST999/80R16"}, 20000, compute.AxleHold},
	} {
		rig, needs := compute.RigOf(worked(t, gooseneck, c.pairs...))
		if len(needs) > 0 || rig.Hold != c.hold || rig.HoldBy != c.holdBy {
			t.Errorf("%s: %v by %v (%v), want %v by %v", c.name, rig.Hold, rig.HoldBy, needs, c.hold, c.holdBy)
		}
	}
	rig, _ := compute.RigOf(worked(t, gooseneck))
	want := deckRig()
	want.Least = 0.20                               // the tongue band table's advice for a gooseneck
	want.Holds = [3]measure.Pounds{20000, 24640, 0} // two axles of 10,000 lb; eight tires of 3,080 lb
	if rig != want {
		t.Errorf("%+v, want %+v", rig, want)
	}
	if _, needs := compute.RigOf(worked(t, gooseneck, "  tongue-empty: 1,610 lb\n", "", "  front: 7 ft 6 in\n", "")); len(needs) != 2 {
		t.Errorf("needs %v, want the tongue weight and the deck's front", needs)
	}
	dump := worked(t, gooseneck, "deck:\n  length: 28 ft\n  width: 102 in\n  front: 7 ft 6 in", "bed:\n  length: 28 ft\n  width: 83 in\n  front: 7 ft 6 in")
	if got := text(dump, "load-window"); !strings.HasSuffix(got, "behind the bed's front") {
		t.Errorf("a dump bed: %s", got)
	}
}

// TestRoom: a machine goes through the narrowest of what was measured, and over fenders that can be
// driven over.
func TestRoom(t *testing.T) {
	deck := "deck:\n  length: 28 ft\n  width: 102 in\n  front: 7 ft 6 in"
	for _, c := range []struct {
		space string
		want  measure.Inches
	}{
		{deck, 102},
		{deck + "\n  between-fenders: 83 in", 83},
		{deck + "\n  between-fenders: 83 in\n  over-fenders: 101 in", 101},
		{"bed:\n  length: 28 ft\n  width: 83 in\n  front: 7 ft 6 in", 83},
		{"box:\n  length: 28 ft\n  width: 97 in\n  door-width: 90 in\n  front: 7 ft 6 in", 90},
		{"deck:\n  length: 28 ft\n  front: 7 ft 6 in", 0},
	} {
		if got := compute.TowedOf(worked(t, gooseneck, deck, c.space)).Room; got.Value != c.want || got.Known != (c.want > 0) {
			t.Errorf("%s: %v", c.space, got)
		}
	}
}

func TestTowedOf(t *testing.T) {
	got := compute.TowedOf(worked(t, gooseneck))
	lb := func(v measure.Pounds) compute.Result[measure.Pounds] {
		return compute.Result[measure.Pounds]{Value: v, Known: true}
	}
	in := func(v measure.Inches) compute.Result[measure.Inches] {
		return compute.Result[measure.Inches]{Value: v, Known: true}
	}
	want := compute.Towed{Empty: lb(7040), TongueEmpty: lb(1610), GVWR: lb(20000), Axles: in(306), Center: in(258), Payload: lb(12960),
		Kind: "gooseneck", Least: 0.20, Most: 0.25, Room: in(102), NoWay: true} // the tongue band table's band
	if got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	got = compute.TowedOf(worked(t, gooseneck, "  tongue-empty: 1,610 lb\n", "", "kind: gooseneck", "kind: fifth-wheel"))
	if got := compute.TowedOf(worked(t, gooseneck, "tongue-empty: 1,610 lb", "tongue-empty: 1,610 lb (estimate)")); got.TongueEmpty.Known {
		t.Errorf("an estimated tongue: %+v", got)
	}
	if got := compute.TowedOf(worked(t, gooseneck, "empty: 7,040 lb", "empty: 7,040 lb (scale ticket 2026-11-03)", "weights:\n", "dealer-added: 60 lb (scale ticket 2026-11-04)\nweights:\n")); got.Empty.Value != 7100 {
		t.Errorf("with weight added after the ticket: %+v", got)
	}
	if got.TongueEmpty.Known || !got.NoBall {
		t.Errorf("%+v", got)
	}
	if got = compute.TowedOf(worked(t, gooseneck, "  front: 7 ft 6 in\n", "")); got.Center.Known {
		t.Errorf("a deck not placed has its middle at %v", got.Center.Value)
	}
}

func TestSurgeTruckFigure(t *testing.T) {
	surge := []string{"kind: electric", "kind: surge"}
	for _, c := range []struct{ gvwr, want string }{
		{"10,500", "6,000 lb"},  // check value 4.1
		{"12,000", "6,858 lb"},  // 4.3: 6,857.14, up
		{"12,001", "9,601 lb"},  // 4.3: 9,600.8, up
		{"20,000", "16,000 lb"}, // 4.4
		{"20,001", "none"},      // 4.4: never
	} {
		if got := text(worked(t, gooseneck, append(surge, "gvwr: 20,000", "gvwr: "+c.gvwr)...), "surge-truck"); got != c.want {
			t.Errorf("gvwr %s: %s, want %s", c.gvwr, got, c.want)
		}
	}
	if got := text(worked(t, gooseneck), "surge-truck"); got != "none" {
		t.Errorf("electric brakes: %s", got)
	}
	if got := text(worked(t, gooseneck, append(surge, "  gvwr: 20,000 lb\n", "")...), "surge-truck"); !strings.HasPrefix(got, "absent: read the GVWR") {
		t.Errorf("no gvwr: %s", got)
	}
}

func TestGroupRuns(t *testing.T) {
	for _, c := range []struct {
		name  string
		pairs []string
		runs  int
		over  int
	}{
		{"a tandem of 20,000", nil, 3, 0},
		// 658.5: within 40 in they count as one axle, which may weigh 20,000.
		{"40 in apart", []string{"spacing: 50 in", "spacing: 40 in"}, 3, 0},
		{"40 in apart, 22,000 together", []string{"spacing: 50 in", "spacing: 40 in", "gvwr: 20,000", "gvwr: 22,000", "rating: 10,000", "rating: 11,000"}, 3, 1},
		{"the same, rated above gvwr", []string{"spacing: 50 in", "spacing: 40 in", "rating: 10,000", "rating: 11,000"}, 3, 0},
		{"three axles 33 in apart", []string{"count: 2", "count: 3", "spacing: 50 in", "spacing: 33 in", "gvwr: 20,000", "gvwr: 30,000"}, 6, 0},
		// 5.13 allows three of them 34,000, but any two within 40 in still only 20,000.
		{"and 33,000", []string{"count: 2", "count: 3", "spacing: 50 in", "spacing: 33 in", "gvwr: 20,000", "gvwr: 33,000", "rating: 10,000", "rating: 11,000"}, 6, 2},
		{"one axle of 20,000", []string{"count: 2", "count: 1", "rating: 10,000", "rating: 20,000"}, 1, 0},
		{"one axle of 20,001", []string{"count: 2", "count: 1", "rating: 10,000", "rating: 20,001", "gvwr: 20,000", "gvwr: 21,000", "  spacing: 50 in\n", ""}, 1, 1},
		{"spacing not known", []string{"  spacing: 50 in\n", ""}, 0, 0},
		{"a slip of the pen", []string{"count: 2", "count: 20000"}, 0, 0},
	} {
		runs := worked(t, gooseneck, c.pairs...).GroupRuns()
		if len(runs) != c.runs || len(over(runs)) != c.over {
			t.Errorf("%s: %d runs, over are %v; want %d, %d", c.name, len(runs), over(runs), c.runs, c.over)
		}
	}
}

// TestStaticsAgainstEquations works 10,000 random trailers and holds every figure of the
// statics against the two equations of equilibrium, solved by gonum/mat: with the load p
// and its place xc the tongue T and the axle group G are unknown in
//
//	T + G = E + p    and    A G = E xe + xc p.
func TestStaticsAgainstEquations(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 6))
	within := func(lo, hi float64) float64 { return math.Round(lo + (hi-lo)*r.Float64()) }
	settings := compute.SettingsOf(&unit.Yard{})
	seen := map[string]int{}
	at := unit.Pos{File: "content/units/random.md", Line: 2, Column: 1}
	weight := func(v float64) unit.Weight { return unit.Weight{Value: measure.Pounds(v), Pos: at} }
	length := func(v float64) unit.Length { return unit.Length{Value: measure.Inches(v), Pos: at} }
	trailers := many()
	for i := range trailers {
		e := within(1000, 9000)
		t0 := within(0, e*0.4)
		gvwr := e + within(500, 16000)
		front, deck := within(20, 120), within(100, 480)
		a := within(front+deck*0.4, front+deck)
		n, each, tire := 1+r.IntN(3), within(2000, 12000), within(1200, 4000)
		u := &unit.Unit{}
		u.Hitch.Kind = unit.Text{Value: "gooseneck", Pos: at}
		u.Hitch.TongueLimit = weight(within(t0, gvwr*0.5))
		u.Deck.Front, u.Deck.Length = length(front), length(deck)
		u.Axles.Count, u.Axles.Rating, u.Axles.Center = unit.Count{Value: n, Pos: at}, weight(each), length(a)
		u.Axles.Spacing = length(within(30, 60))
		u.Tires.Size = unit.Text{Value: "ST235/80R16", Pos: at}
		u.Tires.PerAxle, u.Tires.Sidewall.Single = unit.Count{Value: 2, Pos: at}, weight(tire)
		u.Weights.GVWR, u.Weights.Empty, u.Weights.TongueEmpty = weight(gvwr), weight(e), weight(t0)
		w := compute.Unit(u, settings)

		xc, xe := front+deck/2, a*(1-t0/e)
		solve := func(m []float64, rhs ...float64) []float64 {
			var v mat.VecDense
			if err := v.SolveVec(mat.NewDense(len(rhs), len(rhs), m), mat.NewVecDense(len(rhs), rhs)); err != nil {
				t.Fatalf("%d: %v", i, err)
			}
			return v.RawVector().Data
		}
		beam := func(p float64) (tongue, axles float64) {
			v := solve([]float64{1, 1, 0, a}, e+p, e*xe+xc*p)
			return v[0], v[1]
		}
		hold := float64(n) * math.Min(each, 2*tire)
		want := map[string]float64{}
		tongue, axles := beam(gvwr - e)
		want["tongue-at-gvwr"], want["axle-load-at-gvwr"], want["tongue-share"] = tongue, axles, 100*tongue/gvwr
		_, want["empty-axle-load"] = beam(0)
		want["empty-center"] = xe / 12
		// For the even load the axles hold, p and T are unknown and G is given.
		even := solve([]float64{1, -1, 0, -xc}, e-hold, e*xe-a*hold)[1]
		want["even-load-payload"] = math.Max(even, 0)
		lowest := math.Min(gvwr-e, math.Max(even, 0))
		if limit := float64(u.Hitch.TongueLimit.Value); xc < a {
			// And for the tongue limit T is given, p and G are unknown.
			lowest = math.Min(lowest, math.Max(solve([]float64{1, -1, a, -xc}, e-limit, e*xe)[1], 0))
		}
		if xc > a {
			// And where the hitch lifts T is zero.
			lowest = math.Min(lowest, math.Max(solve([]float64{1, -1, a, -xc}, e, e*xe)[1], 0))
		}
		want["payload"] = lowest
		for name, v := range want {
			f := w.Figure(name)
			if f == nil {
				t.Fatalf("%d: no %s: %v", i, name, w.Absent)
			}
			if math.Abs(f.Value-v) > 1e-6*math.Max(1, math.Abs(v)) {
				t.Fatalf("%d: %s is %v, the equations give %v\n%s", i, name, f.Value, v, f.Working())
			}
			seen[name]++
		}
		// The window for any load of it keeps the same equations.
		if rig, needs := compute.RigOf(w); len(needs) == 0 {
			load := compute.Load{Weight: part(rig.GVWR-rig.Empty, r.Float64()), Length: part(rig.Length, r.Float64())}
			if win := rig.Window(load); win.Room {
				seen["window"]++
				for _, end := range []compute.End{win.First, win.Last} {
					if err := allowed(rig, []compute.Placed{{Load: load, Behind: end.Behind}}, -1e-5); err != nil {
						t.Fatalf("%d: %v", i, err)
					}
				}
			}
		}
	}
	if seen["payload"] != trailers || seen["window"] < trailers/5 {
		t.Errorf("%v", seen)
	}
}

func ExampleRig_Window() {
	rig := compute.Rig{
		Empty: 7040, Tongue: 1610, Axles: 306, Front: 90, Length: 336, GVWR: 20000,
		Hold: 20000, HoldBy: compute.AxleHold, TongueMost: 7500, Least: 0.15, Most: 0.25,
	}
	fmt.Println(rig.Window(compute.Load{Weight: 12300, Length: 168}).Text())
	fmt.Println(rig.Window(compute.Load{Weight: 13000, Length: 168}).Text())
	// Output:
	// 11 ft 4 in to 15 ft 3-3/4 in behind the deck's front
	// nowhere: 13,000 lb is more than the 12,960 lb that GVWR leaves for a load
}
