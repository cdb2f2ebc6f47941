package compute

import (
	"slices"
	"testing"

	"tarepage/internal/measure"
)

// TestSpotByHand: where the leading end of a machine may be. Its center must be between two
// places, its ends on the deck; the margin is kept from the places and not from the deck, whose
// ends anyone can see. All values were worked by hand.
func TestSpotByHand(t *testing.T) {
	const byFirst, byLast, front, rear = BandMost, BandLeast, DeckFront, DeckRear
	for _, c := range []struct {
		name                         string
		length, center, margin       measure.Inches
		first, last                  measure.Inches // where the center may be
		from, to                     measure.Inches // the room on the deck
		fit                          Fit
		wantFirst, wantLast, wantMid measure.Inches
		by                           [2]Constraint
	}{
		// The center 60 in behind the leading end may be from 100 to 140 in, less 6 in.
		{"bound by the weight", 120, 60, 6, 100, 140, 0, 240, Fits, 46, 74, 60, [2]Constraint{byFirst, byLast}},
		{"bound by the deck's front", 120, 60, 6, 40, 140, 0, 240, Fits, 0, 74, 37, [2]Constraint{front, byLast}},
		{"bound by the deck's rear", 120, 60, 6, 100, 220, 0, 200, Fits, 46, 80, 63, [2]Constraint{byFirst, rear}},
		{"both at once: the deck is named", 120, 60, 0, 60, 140, 0, 200, Fits, 0, 80, 40, [2]Constraint{front, rear}},
		// Without the margin there are 5 in, with 6 in on each side nothing.
		{"room only if the center is where it is said to be", 120, 60, 6, 100, 105, 0, 240, Close, 46, 39, 43, [2]Constraint{byFirst, byLast}},
		{"one place", 120, 60, 6, 100, 112, 0, 240, Fits, 46, 46, 46, [2]Constraint{byFirst, byLast}},
		// The deck has the machine's own length, and the center is in reach.
		{"the whole deck", 240, 120, 0, 100, 140, 0, 240, Fits, 0, 0, 0, [2]Constraint{front, rear}},
		{"an inch longer than the deck", 241, 120, 0, 100, 140, 0, 240, NoSpot, 0, 0, 0, [2]Constraint{front, rear}},
		{"the center out of reach", 120, 60, 0, 200, 210, 0, 180, NoSpot, 0, 0, 0, [2]Constraint{byFirst, rear}},
		// Rounded inward: from 46.5 to 73.5 in.
		{"half inches", 120, 60, 6, 100.5, 139.5, 0, 240, Fits, 47, 73, 60, [2]Constraint{byFirst, byLast}},
	} {
		m := Machine{Load: Load{Weight: 5000}, Center: c.center, Margin: c.margin}
		m.Length = c.length
		w := Window{Room: true, First: End{Behind: c.first, By: byFirst}, Last: End{Behind: c.last, By: byLast}}
		s := m.spot(w, End{Behind: c.from, By: front}, End{Behind: c.to, By: rear})
		if s.Fit != c.fit || s.First != c.wantFirst || s.Last != c.wantLast || c.fit != NoSpot && s.Best() != c.wantMid || s.By != c.by {
			t.Errorf("%s: %s from %v to %v, best %v, by %v", c.name, s.Fit, s.First, s.Last, s.Best(), s.By)
		}
	}
}

// TestCamperPaysNoExcise: 26 USC 4053(1) exempts house trailers from the tax of 4051, whatever
// they weigh. A flatbed of the same rating pays 12% of its price.
func TestCamperPaysNoExcise(t *testing.T) {
	const rest = "condition: new\nprice: $50,000\nweights:\n  gvwr: 27,000 lb\n"
	flat, camper := trailerFor(t, "kind: flatbed\n"+rest, ""), trailerFor(t, "kind: camper\n"+rest, "")
	if f := flat.Figure("excise"); f == nil || f.Value != 6000 || !flat.Excise.Passed {
		t.Errorf("a flatbed: %+v", flat.Excise)
	}
	if camper.Figure("excise") != nil || camper.Excise.Known {
		t.Errorf("a camper: %+v", camper.Excise)
	}
}

// TestMetricByHand: NIST SP 811 has the US gallon at 3.785 411 784 L and the pound at
// 0.453 592 37 kg. A limit is rounded down to whole liters and kilograms.
func TestMetricByHand(t *testing.T) {
	for gallons, want := range map[float64]string{100: "378 L", 1000: "3,785 L", 1001: "3,789 L", 0: "0 L"} {
		f := &Figure{Definition: &Definition{Unit: "gal"}, Value: gallons}
		if got := f.metric(); got != want {
			t.Errorf("%v gal: %s, want %s", gallons, got, want)
		}
	}
	out := map[string]string{}
	trailerFor(t, "weights:\n  gvwr: about 7,000 lb\nhitch:\n  rating: 8,000 lb\naxles:\n  rating: 3,500 lb\n", "").RatingsOf(out)
	for words, want := range map[string]string{"7,000 lb": "3,175 kg", "8,000 lb": "3,628 kg", "3,500 lb": "1,587 kg"} {
		if out[words] != want {
			t.Errorf("%s is %q, want %s (%v)", words, out[words], want, out)
		}
	}
}

// TestSpotsAmongOthers: a gap between other machines is a spot if the machine is no longer
// than it. The rig of handRig bears any of these weights, so that only the ends count.
func TestSpotsAmongOthers(t *testing.T) {
	set := func(at, length measure.Inches) Set {
		return Set{Machine{Load: Load{Weight: 100, Length: length}, Center: length / 2}, at}
	}
	m := Machine{Load: Load{Weight: 100, Length: 40}, Center: 20}
	type room struct{ first, last measure.Inches }
	for _, c := range []struct {
		name   string
		others []Set
		want   []room
	}{
		{"alone", nil, []room{{0, 120}}},
		{"before and after one", []Set{set(60, 40)}, []room{{0, 20}, {100, 120}}},
		{"written in the other order", []Set{set(100, 20), set(20, 20)}, []room{{40, 60}, {120, 120}}},
		{"a gap as long as it is", []Set{set(40, 120)}, []room{{0, 0}}},
		{"an inch too long for any", []Set{set(39, 82)}, nil},
		{"one over the other", []Set{set(40, 80), set(50, 10)}, []room{{0, 0}, {120, 120}}},
		{"one past the rear", []Set{set(100, 100)}, []room{{0, 60}}},
	} {
		var got []room
		spots := handRig().Spots(m, c.others)
		for _, s := range spots {
			if s.Fit != NoSpot {
				got = append(got, room{s.First, s.Last})
			}
		}
		if !slices.Equal(got, c.want) || len(spots) == 0 || c.want == nil && len(spots) != 1 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	// By hand: 100 lb with its center 20 + 20 = 40 in behind the ball put 100 x (1 - 40/100) = 60 lb
	// on it, next to the 100 lb of the empty trailer.
	if s, apart := handRig().Bear([]Set{set(0, 40)}); !apart || s.Total != 1100 || s.Tongue != 160 || s.Axles != 940 {
		t.Errorf("%+v, apart %v", s, apart)
	}
	for name, c := range map[string]struct {
		sets []Set
		want bool
	}{
		"touching": {[]Set{set(0, 40), set(40, 40)}, true}, "an inch over": {[]Set{set(0, 41), set(40, 40)}, false},
		"at the rear": {[]Set{set(120, 40)}, true}, "past the rear": {[]Set{set(121, 40)}, false}, "past the front": {[]Set{set(-1, 40)}, false},
		"one inside another": {[]Set{set(0, 80), set(10, 10), set(60, 10)}, false},
	} {
		if _, apart := handRig().Bear(c.sets); apart != c.want {
			t.Errorf("%s: apart is %v", name, apart)
		}
	}
}
