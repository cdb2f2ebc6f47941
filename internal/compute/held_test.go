package compute_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// TestHeld: the ratings of the way up and of a short part of the deck, below, at and above each.
// Expected amounts are by hand: a machine of 24 ft puts half of itself on a part of 12 ft.
func TestHeld(t *testing.T) {
	part := []string{"deck:\n", "deck:\n  concentrated: 35,000 lb\n  concentrated-length: 12 ft\n"}
	ramps := []string{"weights:\n", "ramps:\n  kind: slide-in\n  rating: 4,000 lb\nweights:\n"}
	gate := []string{"weights:\n", "ramps:\n  kind: gate\n  rating: 1,500 lb\nweights:\n"}
	door := []string{"weights:\n", "ramps:\n  kind: ramp door\n  rating: 4,000 lb\nweights:\n"}
	set := func(w measure.Pounds, feet, at measure.Inches) compute.Set {
		return compute.Set{Machine: compute.Machine{Load: compute.Load{Weight: w, Length: feet * 12}}, At: at * 12}
	}
	one := func(w measure.Pounds, feet measure.Inches) []compute.Set { return []compute.Set{set(w, feet, 3)} }
	for _, c := range []struct {
		name string
		unit []string
		sets []compute.Set
		by   compute.Constraint
		used measure.Pounds
		over bool
	}{
		{"a pound below on a short part", part, one(34999, 11), compute.PartHold, 34999, false},
		{"at it", part, one(35000, 11), compute.PartHold, 35000, false},
		{"a pound over it", part, one(35001, 11), compute.PartHold, 35001, true},
		{"40,000 lb on 11 ft", part, one(40000, 11), compute.PartHold, 40000, true},
		{"just as long as the part", part, one(35001, 12), compute.PartHold, 35001, true},
		{"twice as long, at it", part, one(70000, 24), compute.PartHold, 35000, false},
		{"twice as long, over it", part, one(70002, 24), compute.PartHold, 35001, true},
		{"two of 6 ft next to each other", part, []compute.Set{set(20000, 6, 0), set(20000, 6, 6)}, compute.PartHold, 40000, true},
		{"two of 6 ft, 6 ft apart", part, []compute.Set{set(20000, 6, 0), set(20000, 6, 12)}, compute.PartHold, 20000, false},
		{"the second half on the part", part, []compute.Set{set(30000, 8, 0), set(10000, 8, 8)}, compute.PartHold, 35000, false},
		{"a part of unknown length", []string{"deck:\n", "deck:\n  concentrated: 35,000 lb\n"}, one(35001, 28), compute.PartHold, 35001, true},
		{"ramps, a pound below", ramps, one(3999, 10), compute.RampsHold, 3999, false},
		{"ramps, at it", ramps, one(4000, 10), compute.RampsHold, 4000, false},
		{"ramps, a pound over", ramps, one(4001, 10), compute.RampsHold, 4001, true},
		{"ramps, two that go up one by one", ramps, []compute.Set{set(3000, 10, 0), set(4000, 10, 10)}, compute.RampsHold, 4000, false},
		{"a gate", gate, one(1700, 10), compute.GateHold, 1700, true},
		{"a gate, at it", gate, one(1500, 10), compute.GateHold, 1500, false},
		{"a ramp door", door, one(6000, 15), compute.DoorHold, 6000, true},
		{"a ramp door, at it", door, one(4000, 15), compute.DoorHold, 4000, false},
	} {
		got := compute.TowedOf(worked(t, gooseneck, c.unit...)).Held(c.sets)
		if len(got) != 1 || got[0].By != c.by || got[0].Used != c.used || got[0].Over != c.over {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
	for _, unrated := range [][]string{nil, {"weights:\n", "ramps:\n  kind: gate\nweights:\n"}, {"deck:\n", "deck:\n  concentrated-length: 12 ft\n"}} {
		if got := compute.TowedOf(worked(t, gooseneck, unrated...)).Held(one(90000, 5)); got != nil {
			t.Errorf("%v: %+v of what nobody rated", unrated, got)
		}
	}
}

// TestHeldAnywhere: no part of that length, at an inch's steps, carries more than Held says.
func TestHeldAnywhere(t *testing.T) {
	c := rand.New(rand.NewPCG(3, 9))
	for range 300 {
		var sets []compute.Set
		at := measure.Inches(0)
		for range 1 + c.IntN(4) {
			at += measure.Inches(c.IntN(40))
			l := measure.Inches(10 + c.IntN(150))
			sets = append(sets, compute.Set{Machine: compute.Machine{Load: compute.Load{Weight: measure.Pounds(500 + c.IntN(9000)), Length: l}}, At: at})
			at += l
		}
		part := 12 + c.IntN(200)
		towed := compute.Towed{PartHolds: compute.Result[measure.Pounds]{Value: 1, Known: true}, Part: compute.Result[measure.Inches]{Value: measure.Inches(part), Known: true}}
		most := 0.0
		for from := -part; from <= int(at); from++ {
			all := 0.0
			for k := range part { // inch by inch
				for _, s := range sets {
					if x := measure.Inches(from + k); x >= s.At && x < s.At+s.Length {
						all += float64(s.Weight) / float64(s.Length)
					}
				}
			}
			most = max(most, all)
		}
		if got := float64(towed.Held(sets)[0].Used); math.Abs(got-most) > 1e-6*most {
			t.Fatalf("%v on a part of %d in, inch by inch %v: %+v", got, part, most, sets)
		}
	}
}

// TestCommonLoadsHeld: a machine that is too heavy for the ramps has no place in the list of
// common machines, and one that they hold keeps its place.
func TestCommonLoadsHeld(t *testing.T) {
	list := func(pairs ...string) map[string]compute.Window {
		out := map[string]compute.Window{}
		for _, l := range worked(t, gooseneck, pairs...).CommonLoads() {
			out[l.Name()] = l.Window
		}
		return out
	}
	free := list()
	rated := list("weights:\n", "ramps:\n  kind: ramp door\n  rating: 4,000 lb\nweights:\n")
	const pickup, light = "pickup truck, half-ton", "UTV side-by-side, 2-4 seat"
	if w := rated[pickup]; !free[pickup].Room || w.In(measure.American) != "nowhere: 5,300 lb is more than the 4,000 lb that the rating of the ramp door leaves for a load" {
		t.Errorf("%s: %s", pickup, w.In(measure.American))
	}
	if !rated[light].Room || rated[light] != free[light] {
		t.Errorf("%s: %s", light, rated[light].In(measure.American))
	}
	// 5,300 lb on 20 ft 6 in put 5,300 x 10 / 20.5 = 2,585.4 lb on 10 ft; 2,000 lb there are 4,100 lb in all.
	short := list("deck:\n", "deck:\n  concentrated: 2,000 lb\n  concentrated-length: 10 ft\n")
	if w := short[pickup]; w.In(measure.American) != "nowhere: 5,300 lb is more than the 4,100 lb that the rating of a short part of the deck leaves for a load" {
		t.Errorf("%s: %s", pickup, w.In(measure.American))
	}
	if unknown := list("deck:\n", "deck:\n  concentrated: 2,000 lb\n"); len(unknown) >= len(free) || unknown[pickup] != (compute.Window{}) {
		t.Errorf("a part of unknown length: %v", unknown)
	}
}
