package elevation

import (
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// given reads a unit file from a few lines of front matter. Every measure of a two-axle
// bumper-pull is there; edits replace them, "old => new".
func given(t *testing.T, body string, edits ...string) facts {
	t.Helper()
	text := "---\nstock: SB-1\nhitch:\n  kind: bumper-pull\n" + body + "axles:\n  count: 2\n  center: 14 ft\n  spacing: 35 in\ntires:\n  size: ST235/80R16\n  per-axle: 2\n---\n"
	for _, e := range edits {
		from, to, _ := strings.Cut(e, " => ")
		if !strings.Contains(text, from) {
			t.Fatalf("no %q in\n%s", from, text)
		}
		text = strings.Replace(text, from, to, 1)
	}
	u, problems := unit.ReadUnit("content/units/case.md", []byte(text))
	for _, p := range problems {
		if p.Rule == "unknown-key" || p.Rule == "value-unreadable" {
			t.Fatalf("%s: %s", p.At, p.Message)
		}
	}
	f, ok := factsOf(compute.Unit(u, compute.SettingsOf(&unit.Yard{})))
	if !ok {
		t.Fatalf("nothing to draw in\n%s", text)
	}
	return f
}

// What each kind carries, with every measure that its drawing uses.
var whole = map[string]string{
	"dump":              "kind: dump\nbed:\n  length: 14 ft\n  front: 5 ft\n  floor: 30 in\n  height: 24 in\n",
	"enclosed":          "kind: enclosed\nbox:\n  length: 14 ft\n  front: 5 ft\n  floor: 20 in\n  height: 76 in\n",
	"livestock":         "kind: livestock\nbox:\n  length: 14 ft\n  front: 5 ft\n  floor: 18 in\n  height: 76 in\n",
	"fuel-tank":         "kind: fuel-tank\ntank:\n  length: 14 ft\n  front: 5 ft\n  floor: 30 in\n  height: 42 in\n",
	"boat":              "kind: boat\nhull:\n  length: 14 ft\n  front: 5 ft\n  floor: 24 in\n  bunk-length: 8 ft\n  winch-stand: fixed\n",
	"roll-off":          "kind: roll-off\nbin:\n  length: 14 ft\n  front: 5 ft\n  floor: 33 in\n  system: hooklift\n  hook-height: 36 in\n",
	"log":               "kind: log\nbunks:\n  length: 14 ft\n  front: 5 ft\n  floor: 42 in\n  count: 3\n  stakes: 48 in\n",
	"container-chassis": "kind: container-chassis\nchassis:\n  length: 14 ft\n  front: 5 ft\n  floor: 40 in\n  twist-locks: 4\n",
	"tow-dolly":         "kind: tow-dolly\ndolly:\n  length: 14 ft\n  front: 5 ft\n  floor: 12 in\n",
}

// above draws what a kind has above its frame.
func above(f facts) []shape {
	d := &drawing{}
	f.shape.above(d, &f)
	return d.shapes
}

// TestWhatIsMeasuredIsFull: with every measure nothing above the frame is dashed. Take one away
// and all of it is, except for what comes and goes with the load: a hull or a bin.
func TestWhatIsMeasuredIsFull(t *testing.T) {
	for kind, body := range whole {
		for _, s := range above(given(t, body)) {
			if s.layer == guess {
				t.Errorf("%s: %v is dashed, and everything was measured", kind, s.at)
			}
		}
		takes := []string{"  front: 5 ft\n => "}
		for line := range strings.Lines(body) {
			switch key, _, _ := strings.Cut(strings.TrimSpace(line), ":"); key {
			case "floor", "height", "stakes":
				takes = append(takes, line+" => ")
			}
		}
		for _, take := range takes {
			shapes := above(given(t, body, take))
			if len(shapes) == 0 {
				t.Errorf("%s without %q: nothing is drawn", kind, take)
			}
			for _, s := range shapes {
				if s.layer != guess && s.layer != swing && s.layer != trim {
					t.Errorf("%s without %q: %v is drawn as measured", kind, take, s.at)
				}
			}
		}
	}
}

// bounds are the corners of what is drawn: the leftmost and so on.
func bounds(shapes []shape) (left, right, low, top measure.Inches) {
	left, low = 1e6, 1e6
	for _, s := range shapes {
		for _, p := range s.at {
			left, right, low, top = min(left, p.x), max(right, p.x), min(low, p.y), max(top, p.y)
		}
	}
	return left, right, low, top
}

// TestAboveTheFrame: what is above the frame begins at the front (60 in), ends at the rear
// (228 in), begins at the floor and is as high as the unit says. What reaches farther says why.
func TestAboveTheFrame(t *testing.T) {
	for _, c := range []struct {
		kind                   string
		left, right, low, high measure.Inches
	}{
		{"dump", 60, 228, 30, 24},
		{"enclosed", 60, 228, 20, 76},
		{"livestock", 60, 228, 18, 76},
		{"fuel-tank", 60, 228, 30, 42 + 4},            // the manhole
		{"boat", 60 - 3, 228, 24, 3 + 30},             // the winch stand; a usual hull of 30 in on its bunks
		{"roll-off", 60 - 12, 228, 33 - 4, 4 + 48},    // the arm; a usual bin of 48 in
		{"log", 60 - 1.5, 228 + 1.5, 42, 48},          // half a stake
		{"container-chassis", 60 + 3, 228 - 3, 40, 4}, // the locks
		{"tow-dolly", 60 - 6, 228 + 20, 0, 12 + 13},   // the stop; the ramps on the ground
	} {
		left, right, low, top := bounds(above(given(t, whole[c.kind])))
		if left != c.left || right != c.right || low != c.low || top-low != c.high {
			t.Errorf("%s: from %v to %v, %v high from %v; want %v to %v, %v high from %v", c.kind, left, right, top-low, low, c.left, c.right, c.high, c.low)
		}
	}
}

// TestCounts draws as many of a part as the unit counts, and none or one where that cannot be.
func TestCounts(t *testing.T) {
	const box, bed, log = "enclosed", "dump", "log"
	hopper := "kind: hopper\nbed:\n  length: 30 ft\n  front: 5 ft\n  floor: 44 in\n  height: 44 in\n  traps: 2\n"
	for _, c := range []struct {
		name  string
		facts facts
		count func(f *facts) int
		want  int
	}{
		{"no vents", given(t, whole[box]), (*facts).vents, 0},
		{"0 vents", given(t, whole[box]+"  roof-vents: 0\n"), (*facts).vents, 0},
		{"1 vent", given(t, whole[box]+"  roof-vents: 1\n"), (*facts).vents, 1},
		// 14 in each, as much air between them and at the ends: 4 need 10 x 14 = 140 in, 5 need 168.
		{"5 vents on 168 in", given(t, whole[box]+"  roof-vents: 5\n"), (*facts).vents, 5},
		{"5 vents on 167 in", given(t, whole[box]+"  roof-vents: 5\n", "14 ft => 167 in"), (*facts).vents, 0},
		{"8 vents", given(t, whole[box]+"  roof-vents: 8\n", "14 ft => 40 ft"), (*facts).vents, 8},
		{"9 vents", given(t, whole[box]+"  roof-vents: 9\n", "14 ft => 40 ft"), (*facts).vents, 0},
		{"2 traps", given(t, hopper, "center: 14 ft => center: 28 ft"), trapsOf, 2},
		{"1 trap", given(t, hopper, "traps: 2 => traps: 1", "center: 14 ft => center: 28 ft"), trapsOf, 1},
		{"nobody counted the traps", given(t, hopper, "  traps: 2\n => ", "center: 14 ft => center: 28 ft"), trapsOf, 1},
		{"0 traps", given(t, hopper, "traps: 2 => traps: 0", "center: 14 ft => center: 28 ft"), trapsOf, 1},
		// The first axle is at 168 - 17.5, the tire's front at 135.1: two traps of 20 in end 40 in ahead of 131.1.
		{"no place for two traps", given(t, hopper, "front: 5 ft => front: 92 in"), trapsOf, 0},
		{"place for two small ones", given(t, hopper, "front: 5 ft => front: 91 in"), trapsOf, 2},
		{"3 bunks", given(t, whole[log]), bunksOf, 3},
		{"2 bunks", given(t, whole[log], "count: 3 => count: 2"), bunksOf, 2},
		{"12 bunks", given(t, whole[log], "count: 3 => count: 12"), bunksOf, 12},
		{"13 bunks", given(t, whole[log], "count: 3 => count: 13"), bunksOf, 2},
		{"1 bunk", given(t, whole[log], "count: 3 => count: 1"), bunksOf, 2},
		{"4 locks", given(t, whole["container-chassis"]), aboveOf, 2},
		{"8 locks", given(t, whole["container-chassis"], "locks: 4 => locks: 8"), aboveOf, 2},
		{"no locks", given(t, whole["container-chassis"], "  twist-locks: 4\n => "), aboveOf, 0},
		{"1 axle", given(t, whole[bed], "count: 2 => count: 1"), axlesOf, 1},
		{"6 axles", given(t, whole[bed], "count: 2 => count: 6"), axlesOf, 6},
		{"7 axles", given(t, whole[bed], "count: 2 => count: 7"), axlesOf, 2},
		{"0 axles", given(t, whole[bed], "count: 2 => count: 0"), axlesOf, 2},
		{"a winch stand", given(t, whole["boat"]), aboveOf, 3},
		{"no winch stand", given(t, whole["boat"], "stand: fixed => stand: none"), aboveOf, 2},
		{"a hook", given(t, whole["roll-off"]), aboveOf, 4},
		{"a cable, not a hook", given(t, whole["roll-off"], "system: hooklift => system: cable"), aboveOf, 1},
		{"a hook that was not measured", given(t, whole["roll-off"], "  hook-height: 36 in\n => "), aboveOf, 1},
	} {
		if got := c.count(&c.facts); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}

func aboveOf(f *facts) int { return len(above(*f)) }
func axlesOf(f *facts) int { return f.axles }

// A trap is a funnel and the gate under it; a bunk is a bar and a stake.
func trapsOf(f *facts) int {
	d := &drawing{}
	d.traps(f, 36)
	return len(d.shapes) / 2
}
func bunksOf(f *facts) int { return len(above(*f)) / 2 }

// TestTailAndWheels: the limits at which a measure is a typing mistake, and what is drawn then.
func TestTailAndWheels(t *testing.T) {
	deck := "kind: equipment\ndeck:\n  length: 20 ft\n  front: 5 ft\n  height: 25 in\n  flat: 17 ft\n  tail: 3 ft\n  tail-end: 16 in\n  tail-kind: fixed dovetail\n"
	f := given(t, deck)
	if f.tail.Inches != 36 || f.hinge() != 264 || f.tailEnd.Inches != 16 || f.tailEnd.guess || f.tailKind != "fixed dovetail" {
		t.Errorf("tail %v from %v down to %v", f.tail, f.hinge(), f.tailEnd)
	}
	// Only the flat was measured: the tail is the rest.
	if f := given(t, deck, "  tail: 3 ft\n => "); f.tail.Inches != 36 || f.tail.guess || f.tailKind == "" {
		t.Errorf("a tail of %v", f.tail)
	}
	if f := given(t, deck, "  tail: 3 ft\n => ", "flat: 17 ft => flat: 20 ft"); f.tailKind != "" || !f.tailUnknown {
		t.Errorf("a flat as long as the deck leaves a tail %v", f.tail)
	}
	// The deck is higher than the tail's end by a usual 9 in; the usual floor is 24 in.
	for end, want := range map[string]measure.Inches{"20 in": 29, "15 in": 24, "14 in": 24, "97 in": 24} {
		if f := given(t, deck, "  height: 25 in\n => ", "tail-end: 16 in => tail-end: "+end); !f.floor.guess || f.floor.Inches != want {
			t.Errorf("a tail's end at %s makes a floor of %v, want %v", end, f.floor, want)
		}
	}
	// No end was measured: 9 in lower, or at half the height of a very low deck.
	for floor, want := range map[string]measure.Inches{"25 in": 16, "18 in": 9, "12 in": 6} {
		if f := given(t, deck, "  tail-end: 16 in\n => ", "height: 25 in => height: "+floor); !f.tailEnd.guess || f.tailEnd.Inches != want {
			t.Errorf("a floor at %s makes a tail's end of %v, want %v", floor, f.tailEnd, want)
		}
	}
	// Three axles 35 in apart reach 35 in to each side of their middle.
	three := []string{"count: 2 => count: 3", "center: 14 ft => center: 35 in"}
	if f := given(t, deck, three...); f.center.guess || f.axle(0) != 0 || f.axle(2) != 70 {
		t.Errorf("axles from %v", f.axle(0))
	}
	three[1] = "center: 14 ft => center: 34 in"
	if f := given(t, deck, three...); !f.center.guess || f.center.odd == "" || !f.spacing.guess || !f.wheelGuess() {
		t.Errorf("an axle ahead of the ball is drawn: %v", f.center)
	}
	// Behind the rear edge at 300 in.
	for at, guessed := range map[string]bool{"300 in": false, "301 in": true} {
		if f := given(t, deck, "center: 14 ft => center: "+at); f.center.guess != guessed {
			t.Errorf("axles at %s: a guess is %v", at, f.center.guess)
		}
	}
}

// TestUsualCenter: where nobody measured the wheels, an even load puts 12% on a bumper hitch and
// 20% on a gooseneck: share = 1 - middle/center, worked by hand.
func TestUsualCenter(t *testing.T) {
	for hitch, share := range map[string]float64{"bumper-pull": 0.12, "pintle": 0.12, "gooseneck": 0.20, "fifth-wheel": 0.20} {
		f := given(t, "kind: flatbed\ndeck:\n  length: 20 ft\n  front: 5 ft\n  height: 25 in\n", "  center: 14 ft\n => ", "bumper-pull => "+hitch)
		if got := 1 - 180/float64(f.center.Inches); !f.center.guess || got < share-1e-9 || got > share+1e-9 {
			t.Errorf("%s: %v on the hitch, want %v", hitch, got, share)
		}
	}
}
