package compute

import (
	"math"
	"strings"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// handRig has numbers that are easy by hand: 1,000 lb that balance 90 in back, axles at
// 100, a deck from 20 to 180, no band and no ratings but gvwr and what the axles hold.
func handRig() Rig {
	return Rig{Empty: 1000, Tongue: 100, Axles: 100, Front: 20, Length: 160, GVWR: 5000, Hold: 4000, HoldBy: AxleHold}
}

// Every measure of a rig at the end of what can be, and just beyond it.
func TestSensibleRig(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Rig)
		want   bool
	}{
		"by hand":                   {func(*Rig) {}, true},
		"no weight":                 {func(r *Rig) { r.Empty, r.Tongue = 0, 0 }, false},
		"half a pound":              {func(r *Rig) { r.Empty, r.Tongue = 0.5, 0 }, true},
		"axles at the ball":         {func(r *Rig) { r.Axles = 0 }, false},
		"axles half an inch back":   {func(r *Rig) { r.Axles = 0.5 }, true},
		"no deck":                   {func(r *Rig) { r.Length = 0 }, false},
		"half an inch of deck":      {func(r *Rig) { r.Length = 0.5 }, true},
		"no gvwr":                   {func(r *Rig) { r.GVWR = 0 }, false},
		"half a pound of gvwr":      {func(r *Rig) { r.GVWR = 0.5 }, true},
		"nothing held":              {func(r *Rig) { r.Hold = 0 }, false},
		"half a pound held":         {func(r *Rig) { r.Hold = 0.5 }, true},
		"all of it on the tongue":   {func(r *Rig) { r.Tongue = 1000 }, true},
		"more than that":            {func(r *Rig) { r.Tongue = 1000.5 }, false},
		"as much lifting":           {func(r *Rig) { r.Tongue = -1000 }, true},
		"more than that lifting":    {func(r *Rig) { r.Tongue = -1000.5 }, false},
		"no tongue limit":           {func(r *Rig) { r.TongueMost = 0 }, true},
		"a tongue limit below zero": {func(r *Rig) { r.TongueMost = -0.5 }, false},
		"a coupler below zero":      {func(r *Rig) { r.Coupler = -0.5 }, false},
		"a ball below zero":         {func(r *Rig) { r.Ball = -0.5 }, false},
		"a band from nothing":       {func(r *Rig) { r.Least, r.Most = 0, 0.5 }, true},
		"a band from below nothing": {func(r *Rig) { r.Least, r.Most = -0.01, 0.5 }, false},
		"a band of one share":       {func(r *Rig) { r.Least, r.Most = 0.5, 0.5 }, true},
		"a band upside down":        {func(r *Rig) { r.Least, r.Most = 0.51, 0.5 }, false},
		"a band up to the whole":    {func(r *Rig) { r.Least, r.Most = 0.5, 1 }, true},
		"a band past the whole":     {func(r *Rig) { r.Least, r.Most = 0.5, 1.01 }, false},
		"a front ahead of the ball": {func(r *Rig) { r.Front = -50 }, true},
		"an endless front":          {func(r *Rig) { r.Front = measure.Inches(math.Inf(1)) }, false},
		"an endless weight":         {func(r *Rig) { r.Empty = measure.Pounds(math.Inf(1)) }, false},
		"axles without end":         {func(r *Rig) { r.Axles = measure.Inches(math.Inf(1)) }, false},
		"an endless deck":           {func(r *Rig) { r.Length = measure.Inches(math.Inf(1)) }, false},
		"an endless gvwr":           {func(r *Rig) { r.GVWR = measure.Pounds(math.Inf(1)) }, false},
		"an endless hold":           {func(r *Rig) { r.Hold = measure.Pounds(math.Inf(1)) }, false},
		"an endless tongue limit":   {func(r *Rig) { r.TongueMost = measure.Pounds(math.Inf(1)) }, false},
		"an endless coupler":        {func(r *Rig) { r.Coupler = measure.Pounds(math.Inf(1)) }, false},
		"an endless ball":           {func(r *Rig) { r.Ball = measure.Pounds(math.Inf(1)) }, false},
		"no number on the tongue":   {func(r *Rig) { r.Tongue = measure.Pounds(math.NaN()) }, false},
	} {
		r := handRig()
		c.change(&r)
		if got := r.sensible(); got != c.want {
			t.Errorf("%s: sensible %v, want %v", name, got, c.want)
		}
	}
	for _, c := range []struct {
		load Load
		want bool
	}{{Load{1, 0}, true}, {Load{0.99, 0}, false}, {Load{1, -0.5}, false}, {Load{1, 0.5}, true}, {Load{measure.Pounds(math.Inf(1)), 0}, false}, {Load{1, measure.Inches(math.Inf(1))}, false}} {
		if got := c.load.sensible(); got != c.want {
			t.Errorf("%+v: sensible %v, want %v", c.load, got, c.want)
		}
	}
}

// What the ratings of the whole trailer leave, and which of them is lowest: the first of
// equal ones in the order gvwr, coupler, ball.
func TestLeaves(t *testing.T) {
	for _, c := range []struct {
		coupler, ball measure.Pounds
		want          measure.Pounds
		by            Constraint
	}{
		{0, 0, 4000, WithinGVWR}, {5000, 5000, 4000, WithinGVWR}, {4999, 0, 3999, WithinCoupler}, {0, 4999, 3999, WithinBall},
		{4999, 4999, 3999, WithinCoupler}, {4999, 4998, 3998, WithinBall}, {0.5, 0, -999.5, WithinCoupler}, {0, 0.5, -999.5, WithinBall},
	} {
		r := handRig()
		r.Coupler, r.Ball = c.coupler, c.ball
		if got, by := r.leaves(); got != c.want || by != c.by {
			t.Errorf("coupler %v, ball %v: leaves %v by %v, want %v by %v", c.coupler, c.ball, got, by, c.want, c.by)
		}
	}
}

// The ends of windows by hand: a load w at x puts w (1 - x / 100) on the tongue next to
// 100 lb, and w x / 100 on axles that carry 900 lb empty.
func TestWindowEndsByHand(t *testing.T) {
	for _, c := range []struct {
		name        string
		change      func(*Rig)
		load        Load
		first, last measure.Inches // from the ball
		by          [2]Constraint
	}{
		{"the deck's ends", func(*Rig) {}, Load{100, 20}, 30, 170, [2]Constraint{DeckFront, DeckRear}},
		// G = 900 + 2,000 x / 100 <= 2,900: x <= 100.
		{"the axles", func(r *Rig) { r.Hold = 2900 }, Load{2000, 20}, 30, 100, [2]Constraint{DeckFront, AxleHold}},
		// T = 100 + 2,000 (1 - x / 100) >= 10% of 3,000: x <= 90; <= 15%: x >= 82.5.
		{"the band", func(r *Rig) { r.Least, r.Most = 0.10, 0.15 }, Load{2000, 20}, 82.5, 90, [2]Constraint{BandMost, BandLeast}},
		// T <= 300: x >= 90.
		{"the tongue limit", func(r *Rig) { r.TongueMost = 300 }, Load{2000, 20}, 90, 105, [2]Constraint{TongueMost, BandLeast}},
		// Without a band the tongue must not lift: x <= 105; nor the axles: x >= -45.
		{"lifting", func(r *Rig) { r.Front = -100; r.Length = 300 }, Load{2000, 20}, -45, 105, [2]Constraint{BandMost, BandLeast}},
	} {
		r := handRig()
		c.change(&r)
		w := r.Window(c.load)
		if !w.Room || math.Abs(float64(w.First.FromBall-c.first)) > 1e-9 || math.Abs(float64(w.Last.FromBall-c.last)) > 1e-9 ||
			w.First.Behind != w.First.FromBall-r.Front || w.Last.Behind != w.Last.FromBall-r.Front || [2]Constraint{w.First.By, w.Last.By} != c.by {
			t.Errorf("%s: %+v, want %v to %v by %v", c.name, w, c.first, c.last, c.by)
		}
	}
	// The working of each end, with the numbers in it.
	r := handRig()
	r.Least, r.Most, r.TongueMost = 0.1, 0.15, 300
	w := Window{Load: Load{2000.4, 24}}
	for by, want := range map[Constraint]string{
		DeckFront:  "2 ft / 2",
		DeckRear:   "13 ft 4 in - 2 ft / 2",
		BandMost:   "8 ft 4 in x (100 lb + 2,000.4 lb - 15% of 3,000.4 lb) / 2,000.4 lb - 1 ft 8 in",
		BandLeast:  "8 ft 4 in x (100 lb + 2,000.4 lb - 10% of 3,000.4 lb) / 2,000.4 lb - 1 ft 8 in",
		TongueMost: "8 ft 4 in x (100 lb + 2,000.4 lb - 300 lb) / 2,000.4 lb - 1 ft 8 in",
		AxleHold:   "8 ft 4 in x (4,000 lb - 1,000 lb + 100 lb) / 2,000.4 lb - 1 ft 8 in",
		TireHold:   "8 ft 4 in x (4,000 lb - 1,000 lb + 100 lb) / 2,000.4 lb - 1 ft 8 in",
	} {
		if got := r.endWorking(End{By: by}, w); got != want {
			t.Errorf("the working of %v is %q, want %q", by, got, want)
		}
	}
	// What a rating leaves goes down.
	r.GVWR = 2000.7
	if got := r.Window(Load{1001, 10}).Text(); got != "nowhere: 1,001 lb is more than the 1,000 lb that GVWR leaves for a load" {
		t.Errorf("%q", got)
	}
}

// Gaps between loads that stand already: front to back, none of nothing, whatever their
// order, and a load that hangs over the front takes the front away.
func TestGaps(t *testing.T) {
	r := handRig()
	at := func(behind, length measure.Inches) Placed { return Placed{Load{100, length}, behind} }
	type gap struct{ from, to measure.Inches }
	for _, c := range []struct {
		name   string
		others []Placed
		want   []gap
	}{
		{"none", nil, []gap{{0, 160}}},
		{"one", []Placed{at(80, 40)}, []gap{{0, 60}, {100, 160}}},
		{"in another order", []Placed{at(120, 20), at(40, 20)}, []gap{{0, 30}, {50, 110}, {130, 160}}},
		{"at the front", []Placed{at(20, 40)}, []gap{{40, 160}}},
		{"at the rear", []Placed{at(140, 40)}, []gap{{0, 120}}},
		{"touching", []Placed{at(60, 40), at(100, 40)}, []gap{{0, 40}, {120, 160}}},
		{"one within another", []Placed{at(80, 80), at(80, 20)}, []gap{{0, 40}, {120, 160}}},
		{"one within another's front", []Placed{at(25, 10), at(55, 90)}, []gap{{0, 10}, {100, 160}}},
		{"the same, the other way", []Placed{at(55, 90), at(25, 10)}, []gap{{0, 10}, {100, 160}}},
		{"the whole deck", []Placed{at(80, 160)}, []gap{{160, 160}}},
		{"over the rear", []Placed{at(150, 40)}, []gap{{0, 130}}},
		{"behind the deck", []Placed{at(300, 40)}, []gap{{0, 160}}},
	} {
		var got []gap
		for _, g := range r.gaps(c.others) {
			got = append(got, gap{g[0].Behind, g[1].Behind})
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: %v, want %v", c.name, got, c.want)
			}
		}
	}
	// Without room anywhere the longest gap says why; the first of equal ones.
	long := Load{100, 200}
	w := r.WindowsAmong(long, []Placed{at(60, 20)})
	if len(w) != 1 || w[0].Room || w[0].Against != [2]Constraint{LoadAhead, DeckRear} {
		t.Errorf("the longest gap is the rear one: %+v", w)
	}
	if w = r.WindowsAmong(long, []Placed{at(80, 20)}); w[0].Against != [2]Constraint{DeckFront, LoadBehind} {
		t.Errorf("of two equal gaps the first says why: %+v", w)
	}
	// Loads that cannot be, and loads that put the whole off its feet.
	for name, bad := range map[string]Placed{"no load": at(10, -1), "nowhere": at(measure.Inches(math.NaN()), 10), "too heavy to mean": {Load{1e12, 10}, 80}} {
		if w := r.WindowsAmong(Load{100, 10}, []Placed{bad}); len(w) != 1 || w[0].Against != [2]Constraint{TheOthers, TheOthers} || w[0].Room || w[0].Load != (Load{100, 10}) {
			t.Errorf("%s: %+v", name, w)
		}
	}
	if w := (Rig{}).WindowsAmong(Load{100, 10}, nil); len(w) != 1 || w[0].Against != [2]Constraint{TheTrailer, TheTrailer} {
		t.Errorf("no trailer: %+v", w)
	}
}

// Several loads by hand: 100 lb on 20 in and 300 lb on 40 in balance 32.5 in from the
// row's front, and stand in the middle of what is allowed.
func TestArrangeByHand(t *testing.T) {
	r := handRig()
	got, w := r.Arrange([]Load{{100, 20}, {300, 40}})
	// (100 x 10 + 300 x 40) / 400 = 32.5; the row of 60 in may stand from 0 to 100 behind
	// the front, its center from 32.5 to 132.5, but the tongue lifts from 125 - 20 on.
	if !w.Room || w.First.Behind != 32.5 || w.Last.Behind != 105 || len(got) != 2 || got[0].Behind != 46.25 || got[1].Behind != 76.25 || w.Load != (Load{400, 60}) {
		t.Errorf("%+v %+v", got, w)
	}
	for name, loads := range map[string][]Load{"none": nil, "one that cannot be": {{100, 20}, {100, -1}}, "together too heavy to mean": {{1e9, 20}, {1e9, 20}}} {
		got, w := r.Arrange(loads)
		if got != nil || w.Room || w.Against[0] != TheLoad {
			t.Errorf("%s: %+v %+v", name, got, w)
		}
	}
	if got, w := r.Arrange([]Load{{100, 100}, {100, 100}}); got != nil || w.Against != [2]Constraint{DeckFront, DeckRear} || w.Load != (Load{200, 200}) {
		t.Errorf("longer than the deck: %+v %+v", got, w)
	}
	if got, w := r.Arrange(nil); got != nil || w.Against != [2]Constraint{TheLoad, TheLoad} {
		t.Errorf("none: %+v %+v", got, w)
	}
}

// The envelope of a rig that may carry only just a pound has a top there.
func TestEnvelopeAtItsEnds(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Rig)
		length measure.Inches
		want   bool
	}{
		"by hand":                  {func(*Rig) {}, 20, true},
		"a pound":                  {func(r *Rig) { r.GVWR = 1001 }, 20, true},
		"a pound and a half":       {func(r *Rig) { r.GVWR = 1001.5 }, 20, true},
		"half a pound":             {func(r *Rig) { r.GVWR = 1000.5 }, 20, false},
		"nothing":                  {func(r *Rig) { r.GVWR = 1000 }, 20, false},
		"no length":                {func(*Rig) {}, 0, true},
		"less than that":           {func(*Rig) {}, -1, false},
		"no number":                {func(*Rig) {}, measure.Inches(math.NaN()), false},
		"nearly the deck":          {func(r *Rig) { r.Hold = 9000 }, 159, true},
		"the whole deck":           {func(*Rig) {}, 160, false},
		"longer":                   {func(*Rig) {}, 161, false},
		"no trailer":               {func(r *Rig) { r.Axles = 0 }, 20, false},
		"no trailer and no length": {func(r *Rig) { r.Axles = 0 }, -1, false},
	} {
		r := handRig()
		c.change(&r)
		got := r.Envelope(c.length)
		if (got != nil) != c.want {
			t.Errorf("%s: %+v", name, got)
		}
		top := measure.Pounds(0)
		for _, v := range got {
			top = max(top, v.Weight)
		}
		if c.want && top != r.GVWR-r.Empty {
			t.Errorf("%s: the top is at %v", name, top)
		}
	}
}

// Axles, tires and wheels that hold alike: the axles are named.
func TestRigOfTies(t *testing.T) {
	const unitFile = "hitch:\n  kind: gooseneck\n  rating: 15,000 lb\n  ball-rating: 16,000 lb\n  tongue-limit: 3,000 lb\ndeck:\n  front: 5 ft\n  length: 20 ft\n" +
		"axles:\n  count: 2\n  rating: 7,000 lb\n  center: 18 ft\ntires:\n  size: ST235/80R16\n  load-range: E\n  per-axle: 2\n  wheel: 3,500 lb\n  sidewall:\n    single: 3,500 lb\n" +
		"weights:\n  gvwr: 14,000 lb\n  empty: 4,000 lb\n  tongue-empty: 600 lb\n"
	w := trailerFor(t, unitFile, "")
	r, needs := RigOf(w)
	if r.HoldBy != AxleHold || r.Hold != 14000 || r.Coupler != 15000 || r.Ball != 16000 || r.TongueMost != 3000 || len(needs) != 0 || r.Least != 0.20 || r.Most != 0.25 {
		t.Errorf("%+v %+v", r, needs)
	}
	r, needs = RigOf(trailerFor(t, strings.Replace(unitFile, "kind: gooseneck\n  rating: 15,000 lb\n  ball-rating: 16,000 lb\n  tongue-limit: 3,000 lb", "rating: 15,000 lb", 1), ""))
	if r.Ball != 0 || r.TongueMost != 0 || r.Most != 0 || len(needs) != 1 || needs[0].Key != "hitch.kind" {
		t.Errorf("%+v %+v", r, needs)
	}
	f := trailerFor(t, strings.Replace(unitFile, "  size: ST235/80R16\n", "", 1), "").Figure("load-window")
	if f == nil || !strings.Contains(strings.Join(f.Notes(), "; "), "not counted, for want of a rating: the tires") {
		t.Errorf("a window without tires: %+v", f)
	}
	if f := w.Figure("load-window"); strings.Contains(strings.Join(f.Notes(), "; "), "not counted") {
		t.Errorf("a window with tires: %+v", f)
	}
}

// 49 CFR 571.108 S4: the overall length begins at the foremost part of the coupler. 30 ft and
// more take intermediate lamps (Table I-b), and half of it is the tape (S8.2.3.2). How far a
// coupler reaches, and what walls add, is common practice where nobody measured it.
func TestOverallLength(t *testing.T) {
	for _, c := range []struct {
		hitch, space, want string
		intermediate       int
		tape               string // none up to 10,000 lb
	}{
		// 29 ft 11 in from the ball's center: with 6 in of a gooseneck's coupler 30 ft 5 in.
		{"kind: gooseneck", "deck:\n  front: 7 ft 11 in\n  length: 22 ft", "30 ft 5 in", 2, "15 ft 2-1/2 in"},
		{"kind: gooseneck\n  ahead: 1 in", "deck:\n  front: 7 ft 11 in\n  length: 22 ft", "30 ft", 2, "15 ft"},
		{"kind: gooseneck\n  ahead: 0.75 in", "deck:\n  front: 7 ft 11 in\n  length: 22 ft", "29 ft 11-3/4 in", 0, "15 ft"},
		{"kind: bumper-pull", "deck:\n  front: 5 ft\n  length: 24 ft 8 in", "30 ft", 2, "15 ft"},
		{"kind: bumper-pull", "deck:\n  front: 5 ft\n  length: 24 ft 7-1/2 in", "29 ft 11-1/2 in", 0, "14 ft 11-3/4 in"},
		{"kind: pintle", "deck:\n  front: 5 ft\n  length: 24 ft", "29 ft 4 in", 0, "14 ft 8 in"},
		{"kind: fifth-wheel", "deck:\n  front: 3 ft\n  length: 24 ft", "30 ft", 2, "15 ft"},
		// A box is measured inside: its walls add 4 in.
		{"kind: bumper-pull", "box:\n  front: 5 ft\n  length: 24 ft 4 in", "30 ft", 2, "15 ft"},
		{"kind: bumper-pull", "bed:\n  front: 4 ft\n  length: 14 ft", "18 ft 8 in", 0, "9 ft 4 in"},
	} {
		for _, gvwr := range []string{"10,000 lb", "10,001 lb"} {
			w := trailerFor(t, "kind: deck-over\noverall-width: 102 in\nhitch:\n  "+c.hitch+"\n"+c.space+"\nweights:\n  gvwr: "+gvwr+"\n", "")
			f := w.Figure("overall-length")
			if f == nil || f.Text != c.want || w.Lamps.Intermediate != c.intermediate {
				t.Errorf("%s, %s: %+v, %d intermediate lamps; want %s and %d", c.hitch, c.space, f, w.Lamps.Intermediate, c.want, c.intermediate)
				continue
			}
			if usual := strings.Contains(strings.Join(f.Notes(), "; "), "is taken to reach"); usual == strings.Contains(c.hitch, "ahead") {
				t.Errorf("%s: %q", c.hitch, f.Notes())
			}
			tape := "none"
			if f := w.Figure("tape-length"); f != nil {
				tape = f.Text
			}
			if want := map[string]string{"10,000 lb": "none", "10,001 lb": c.tape}[gvwr]; tape != want {
				t.Errorf("%s, %s at %s: tape %s, want %s", c.hitch, c.space, gvwr, tape, want)
			}
		}
	}
	// Just below 30 ft the coupler must be measured, if nobody has.
	for text, want := range map[string]bool{"  kind: gooseneck\n": true, "  kind: gooseneck\n  ahead: 6 in\n": false} {
		f := trailerFor(t, "kind: deck-over\nhitch:\n"+text+"deck:\n  front: 6 ft\n  length: 22 ft 6 in\n  width: 102 in\nweights:\n  gvwr: 9,000 lb\n", "").Figure("lamp-schedule")
		if got := f != nil && strings.Contains(strings.Join(f.Notes(), "; "), "measure how far the coupler reaches"); got != want {
			t.Errorf("%q: %+v", text, f)
		}
	}
	if f := trailerFor(t, "kind: deck-over\ndeck:\n  front: 6 ft\n  length: 22 ft 6 in\n", "").Figure("overall-length"); f != nil {
		t.Errorf("a length without a coupler: %+v", f)
	}
}

// Two lengths of which one is unknown are as far apart as they can be; two of zero are alike.
func TestLengthApart(t *testing.T) {
	at := unit.Pos{File: "a.md", Line: 1, Column: 1}
	given := func(v measure.Inches) unit.Length { return unit.Length{Value: v, Pos: at} }
	for _, c := range []struct {
		a, b unit.Length
		want measure.Share
	}{
		{given(100), given(100), 0}, {given(50), given(100), 0.5}, {given(0), given(100), 1}, {given(0), given(0), 0}, {given(0.5), given(1), 0.5},
		{unit.Length{Value: 100}, given(100), 1}, {given(100), unit.Length{Value: 100}, 1}, {given(-1), given(-1), 1}, {given(100), given(-100), 1}, {given(-100), given(100), 1},
	} {
		if got := lengthApart(c.a, c.b); got != c.want {
			t.Errorf("%v and %v stand %v apart, want %v", c.a.Value, c.b.Value, got, c.want)
		}
	}
}

// The trailers that come nearest, in an order that neither their stock numbers nor the
// order in which they are given tells: kind first, then length and payload, each as a
// share of the greater one, then the stock number.
func TestNearestInOrder(t *testing.T) {
	at := unit.Pos{File: "a.md", Line: 1, Column: 1}
	work := func(stock, kind, availability string, feet float64, payload measure.Pounds) *Work {
		u := &unit.Unit{}
		u.Stock.Value, u.Kind.Value, u.Availability.Value = stock, kind, availability
		return &Work{Unit: u, Space: Space{Length: unit.Length{Value: measure.Feet(feet).Inches(), Pos: at}}, Payload: Result[measure.Pounds]{payload, true}}
	}
	gone := work("GONE", "utility", "on the yard", 20, 5000)
	all := []*Work{
		work("Z", "utility", "on the yard", 20, 5000),   // as it was
		work("Y", "utility", "on the yard", 20, 4500),   // a tenth
		work("A", "utility", "on the yard", 16, 5000),   // a fifth
		work("K", "utility", "on the yard", 20, 4000),   // a fifth too, and a later number
		work("B", "utility", "on the yard", 16, 4000),   // two fifths
		work("C", "equipment", "on the yard", 20, 5000), // of another kind, as it was
		work("D", "flatbed", "on the yard", 10, 5000),   // of another kind, a half
		work("S", "utility", "sold", 20, 5000),
		work("O", "utility", "on order", 20, 5000),
		gone, nil,
	}
	for turn := range all {
		turned := append(append([]*Work{}, all[turn:]...), all[:turn]...)
		for most, want := range map[int]string{0: "", 1: "Z", 3: "Z Y A", 7: "Z Y A K B C D", 99: "Z Y A K B C D"} {
			var got []string
			for _, w := range Nearest(gone, turned, most) {
				got = append(got, w.Unit.Stock.Value)
			}
			if s := strings.Join(got, " "); s != want {
				t.Errorf("turned by %d, %d nearest: %s, want %s", turn, most, s, want)
			}
		}
	}
	known, other := Result[measure.Pounds]{5000, true}, Result[measure.Pounds]{2500, true}
	for _, c := range []struct {
		a, b Result[measure.Pounds]
		want measure.Share
	}{{known, known, 0}, {known, other, 0.5}, {known, Result[measure.Pounds]{5000, false}, 1}, {Result[measure.Pounds]{5000, false}, known, 1}, {Result[measure.Pounds]{}, Result[measure.Pounds]{}, 1}} {
		if got := payloadApart(c.a, c.b); got != c.want {
			t.Errorf("payloads %v and %v stand %v apart, want %v", c.a, c.b, got, c.want)
		}
	}
}

// Tires by the rows of their own size, or else by all of their rim, from the lightest to
// the heaviest (component_weights.csv, from memory); what no row has is asked for.
func TestTirePartsByRim(t *testing.T) {
	tires := func(size string) (Part, []Need) {
		p := &calc{Work: &Work{Unit: &unit.Unit{}}}
		p.Unit.Tires.Size.Value = size
		l := &list{p: p}
		l.tires(4, 200)
		if len(l.parts) == 0 {
			return Part{}, p.needs
		}
		return l.parts[0], p.needs
	}
	rows := map[measure.Inches][2]measure.Pounds{}
	for _, r := range tireRows() {
		own, needs := tires(r.size.String())
		if own.Low > r.Weight.Low.Times(4) || own.High < r.Weight.High.Times(4) || own.At != 200 || needs != nil || own.Source == "" {
			t.Errorf("%s: %+v, its row has %v", r.size, own, r.Weight)
		}
		b, there := rows[r.size.Rim]
		if !there {
			b = [2]measure.Pounds{r.Weight.Low, r.Weight.High}
		}
		rows[r.size.Rim] = [2]measure.Pounds{min(b[0], r.Weight.Low), max(b[1], r.Weight.High)}
	}
	if len(rows) < 2 {
		t.Fatalf("the table has tires of %d rims", len(rows))
	}
	for size, rim := range map[string]measure.Inches{"ST400/75R15": 15, "ST400/80R16": 16, "LT400/80R16": 16} {
		if got, needs := tires(size); got.Low != rows[rim][0].Times(4) || got.High != rows[rim][1].Times(4) || needs != nil || got.Name != "4 x tire and wheel "+size {
			t.Errorf("%s by its rim: %+v %+v, want 4 x %v", size, got, needs, rows[rim])
		}
	}
	for size, key := range map[string]string{"round": "tires.size", "11R22.5": "estimated-empty"} {
		if got, needs := tires(size); got.Name != "" || len(needs) != 1 || needs[0].Key != key {
			t.Errorf("%s: %+v %+v, want it asked for under %s", size, got, needs, key)
		}
	}
	p := &calc{Work: &Work{Unit: &unit.Unit{}}}
	l := &list{p: p}
	l.component("an axle over 15,000 lb", 2, 0)
	if len(l.parts) != 0 || len(p.needs) != 1 || p.needs[0].Advice != "no weight is listed for an axle over 15,000 lb" {
		t.Errorf("%+v %+v", l.parts, p.needs)
	}
}

// The ladder where a measure is missing, zero or too little.
func TestLadderAtItsEnds(t *testing.T) {
	const whole = "hitch:\n  kind: gooseneck\n  rating: 15,000 lb\n  tongue-limit: 3,000 lb\ndeck:\n  front: 5 ft\n  length: 20 ft\n" +
		"axles:\n  count: 2\n  rating: 7,000 lb\n  center: 18 ft\ntires:\n  size: ST235/80R16\n  load-range: E\n  per-axle: 2\n  wheel: 3,500 lb\n" +
		"weights:\n  gvwr: 14,000 lb\n  empty: 4,000 lb\n  tongue-empty: 600 lb\n"
	for _, c := range []struct {
		from, to string
		rungs    string // in the order of the ladder
		note     string // in the payload's notes
		not      string
	}{
		{"", "", "wheels tires axles tag hitch tongue", "govern", "not counted"},
		{"tongue-limit: 3,000 lb", "tongue-limit: 0 lb", "", "for want of a rating: the tongue limit;", "measure"},
		{"tongue-limit: 3,000 lb", "tongue-limit: 0.5 lb", "", "", "the tongue limit;"},
		{"  center: 18 ft\n", "", "", "where the axles are was not measured, so the whole load is counted on them", "of a rating"},
		{"  front: 5 ft\n", "", "", "how far back the deck begins or ends was not measured, so the whole load is counted on the axles", "of a rating"},
		{"  tongue-empty: 600 lb\n", "", "", "nobody weighed the tongue, so the whole load is counted on the axles", "of a rating"},
		{"  tongue-empty: 600 lb\n", "  tongue-empty: 600 lb (estimate)\n", "", "nobody weighed the tongue, so the whole load is counted on the axles", "of a rating"},
		{"  kind: gooseneck\n", "", "", "govern", "not counted"},
		{"  rating: 15,000 lb\n", "  rating: 3,999 lb\n", "", "the coupler governs", ""},
		{"  wheel: 3,500 lb\n", "", "", "for want of a rating: the wheels;", "measure"},
	} {
		w := trailerFor(t, strings.Replace(whole, c.from, c.to, 1), "")
		f := w.Figure("payload")
		if f == nil {
			t.Fatalf("%q: no payload: %+v", c.to, w.Absent)
		}
		notes := strings.Join(f.Notes(), "; ")
		if !strings.Contains(notes, c.note) || c.not != "" && strings.Contains(notes, c.not) {
			t.Errorf("%q for %q: %q, want %q and not %q", c.to, c.from, notes, c.note, c.not)
		}
	}
	rung := func(from, to, name string) *Rung {
		w := trailerFor(t, strings.Replace(whole, from, to, 1), "")
		for i := range w.Ladder {
			if w.Ladder[i].Name == name {
				return &w.Ladder[i]
			}
		}
		return nil
	}
	if r := rung("  rating: 15,000 lb\n", "  rating: 3,999 lb\n", "hitch"); r == nil || r.Value != 0 || r.Text() != "0 lb" || !r.Governs {
		t.Errorf("a coupler below the empty weight: %+v", r)
	}
	// Without a place the axles carry all of the load, on top of 4,000 - 600 lb.
	if r := rung("  center: 18 ft\n", "", "axles"); r == nil || r.Text() != "10,600 lb" || r.Label != "the axles, the whole load on them" {
		t.Errorf("axles of unknown place: %+v", r)
	}
	// Without the tongue's weight they carry all of trailer and load, and of a load centered
	// to the rear of them more than it weighs: (14,000 - 4,000) x 18 / (9 + 10) at a deck from 9 ft on.
	if r := rung("  tongue-empty: 600 lb\n", "", "axles"); r == nil || r.Text() != "10,000 lb" {
		t.Errorf("axles without the tongue's weight: %+v", r)
	}
	behind := strings.Replace(whole, "front: 5 ft", "front: 9 ft", 1)
	for _, r := range trailerFor(t, strings.Replace(behind, "  tongue-empty: 600 lb\n", "", 1), "").Ladder {
		if r.Name == "hitch-down" || r.Name == "tongue" || r.Name == "axles" && r.Text() != "9,473 lb" {
			t.Errorf("a deck behind the axles, without the tongue's weight: %+v", r)
		}
	}
	// With it the hitch lifts at 600 x 18 / (19 - 18).
	if r := rung("front: 5 ft", "front: 9 ft", "hitch-down"); r == nil || r.Text() != "10,800 lb" || r.Label != "the load that would lift the hitch, even load" {
		t.Errorf("a deck behind the axles: %+v", r)
	}
	for _, front := range []string{"5 ft", "8 ft"} {
		if r := rung("front: 5 ft", "front: "+front, "hitch-down"); r != nil {
			t.Errorf("a deck from %s on: %+v", front, r)
		}
	}
	// Behind the axles no load reaches the tongue limit, and over them neither.
	for front, want := range map[string]bool{"7 ft 11 in": true, "8 ft": false, "8 ft 1 in": false} {
		if r := rung("front: 5 ft", "front: "+front, "tongue"); (r != nil) != want {
			t.Errorf("a deck from %s on: %+v", front, r)
		}
	}
}
