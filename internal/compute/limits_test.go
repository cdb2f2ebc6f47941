package compute

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// The rows of the component table by the rating of one axle: a row holds up to its last
// figure, which is how the parts are sold (common practice, no source).
func TestAxleRow(t *testing.T) {
	for _, c := range []struct {
		rating measure.Pounds
		dual   bool
		want   string
	}{
		{1, false, "3,500 lb"}, {2000, false, "3,500 lb"}, {3500, false, "3,500 lb"}, {3501, false, "5,200-6,000 lb"}, {6000, false, "5,200-6,000 lb"},
		{6001, false, "7,000 lb"}, {7000, false, "7,000 lb"}, {7001, false, "8,000 lb"}, {8000, true, "8,000 lb"}, {8001, false, "10,000 lb general duty"},
		{8001, true, "10,000 lb heavy duty dual"}, {10000, true, "10,000 lb heavy duty dual"}, {10000, false, "10,000 lb general duty"},
		{10001, true, "12,000-15,000 lb"}, {15000, false, "12,000-15,000 lb"}, {15001, true, "an axle over 15,000 lb"},
	} {
		if got := axleRow(c.rating, c.dual, true); !strings.HasSuffix(got, c.want) {
			t.Errorf("an axle of %s, dual %v, is %q, want %q", c.rating, c.dual, got, c.want)
		}
	}
	// Light axles are also sold without brakes.
	for rating, want := range map[measure.Pounds]string{2000: "without brakes, 2,000 lb", 2001: "without brakes, 3,500 lb", 3500: "without brakes, 3,500 lb", 3501: "axle complete 5,200-6,000 lb"} {
		if got := axleRow(rating, false, false); !strings.HasSuffix(got, want) {
			t.Errorf("an axle of %s without brakes is %q, want %q", rating, got, want)
		}
	}
}

// A square foot of floor against sums by hand: plate by the table of plates (AISC, ASTM
// A786; aluminum from memory), lumber of 1-1/2 and 3/4 in by the densities of
// solid_densities.csv (southern pine treated 38 to 42 lb/cu ft, dry 34 to 38).
func TestFloorOf(t *testing.T) {
	for _, c := range []struct {
		words     string
		low, high float64 // 0 for none
	}{
		{"treated pine 2x6", 1.5 / 12 * 38, 1.5 / 12 * 42},
		{"Treated Pine 1 x 8", 0.75 / 12 * 38, 0.75 / 12 * 42},
		{"pine 2x8", 1.5 / 12 * 34, 1.5 / 12 * 38},
		{"2x6", 0, 0},
		{"pine", 0, 0},
		{"pine 3x6", 0, 0},
		{"treated 2x6", 0, 0},
		{"plywood", 0, 0},
		{"1/8 in steel plate", 5.10, 5.10},
		{"3/8 plate", 15.31, 15.31},
		{"1/8 in steel tread plate", 6.16, 6.16},
		{"3/16 in diamond plate", 8.71, 8.71},
		{"1/4 in floor plate", 11.26, 11.26},
		{"1/8 in aluminum tread", 1.85, 1.85},
		{"3/16 in aluminum diamond plate", 2.75, 2.75},
		{"1/2 in aluminum tread", 0, 0},
		{"1/2 in steel tread plate", 0, 0},
		{"1/8 in aluminum plate", 0, 0},
		{"steel tread plate", 0, 0},
		{"11 ga steel", 0, 0},
	} {
		low, high, cited, err := floorOf(c.words)
		if math.Abs(low-c.low) > 1e-9 || math.Abs(high-c.high) > 1e-9 || (err != nil) != (c.low == 0) || (cited.Source == "") != (c.low == 0) {
			t.Errorf("a square foot of %q weighs %v to %v lb (%+v, %v), by hand %v to %v", c.words, low, high, cited, err, c.low, c.high)
		}
		if err != nil && !strings.Contains(err.Error(), c.words) {
			t.Errorf("%q is refused with %v", c.words, err)
		}
	}
	// Oak and apitong are wood, not pine: heavier than the pine of the same thickness.
	pine, _, _, _ := floorOf("pine 2x6")
	for _, words := range []string{"oak 2x6", "apitong 2x6", "keruing 2x6"} {
		if low, _, _, err := floorOf(words); err != nil || low <= pine {
			t.Errorf("%q weighs %v lb/sq ft (%v), pine %v", words, low, err, pine)
		}
	}
}

// The parts that hang on a threshold: the row of a jack by its rating, of the coupler by
// its ball, of the springs by the axle, and ramps that are carried along.
func TestPartsAtTheirLimits(t *testing.T) {
	has := func(front, part string) bool {
		w := trailerFor(t, front, "")
		if len(w.Parts) == 0 {
			t.Fatalf("no parts: %+v", w.Absent)
		}
		return slices.ContainsFunc(w.Parts, func(p Part) bool { return p.Name == part })
	}
	swap := func(pairs ...string) string {
		out := heavy
		for i := 0; i < len(pairs); i += 2 {
			if !strings.Contains(out, pairs[i]) {
				t.Fatalf("%q is not there", pairs[i])
			}
			out = strings.Replace(out, pairs[i], pairs[i+1], 1)
		}
		return out
	}
	jack := func(count, rating string) string {
		return heavy + "jack:\n  count: " + count + "\n  rating: " + rating + "\n"
	}
	for _, c := range []struct {
		front, part string
		want        bool
	}{
		{jack("1", "2,000 lb"), "jack 2k topwind", true},
		{jack("1", "2,001 lb"), "jack 2k topwind", false},
		{jack("1", "2,001 lb"), "jack 7k drop-leg", true},
		{jack("2", "7,000 lb"), "2 x jack 7k drop-leg", true},
		{jack("2", "7,001 lb"), "2 x jack 7k drop-leg", false},
		{jack("2", "7,001 lb"), "twin 12k two-speed jacks set", true},
		{jack("1", "12,000 lb"), "twin 12k two-speed jacks set", false},
		{jack("1", "12,000 lb"), "jack 10-12k drop-leg", true},
		{jack("3", "12,000 lb"), "3 x jack 10-12k drop-leg", true},
		{heavy + "jack:\n  rating: 12,000 lb\n", "jack 10-12k drop-leg", false},
		{heavy + "jack:\n  count: 1\n", "jack 2k topwind", false},
		{swap("kind: gooseneck", "kind: fifth-wheel"), "gooseneck coupler 20-30k", true},
		{swap("kind: gooseneck", "kind: pintle"), "pintle ring and bracket", true},
		{swap("kind: gooseneck", "kind: bumper-pull"), "A-frame coupler 2-5/16 in 14k-21k", true},
		{swap("kind: gooseneck", "kind: bumper-pull", "  ball: 2-5/16 in\n", "  ball: 2 in\n"), "A-frame coupler 2 in", true},
		{swap("kind: gooseneck", "kind: bumper-pull", "  ball: 2-5/16 in\n", ""), "A-frame coupler 2 in", true},
		{swap("rating: 12,000 lb", "rating: 3,500 lb", "suspension: leaf spring", "suspension: torsion"), "leaf springs of 2 axles", false},
		{heavy + "ramps:\n  kind: slide-in\n", "2 x ramp, 5 ft slide-in", true},
		{heavy + "ramps:\n  kind: stand-up\n", "2 x ramp, 5 ft slide-in", true},
		{heavy + "ramps:\n  kind: fold-over\n", "2 x ramp, 5 ft slide-in", true},
		{heavy + "ramps:\n  kind: gate\n", "2 x ramp, 5 ft slide-in", false},
	} {
		if got := has(c.front, c.part); got != c.want {
			t.Errorf("%q is a part: %v, want %v\n%s", c.part, got, c.want, c.front)
		}
	}
	// Springs by the table: 110 to 150 lb for two axles of 3,500 lb, 180 to 250 above.
	for rating, low := range map[string]float64{"3,500 lb": 110, "3,501 lb": 180} {
		w := trailerFor(t, swap("rating: 12,000 lb", "rating: "+rating), "")
		i := slices.IndexFunc(w.Parts, func(p Part) bool { return strings.HasPrefix(p.Name, "leaf springs") })
		if i < 0 || float64(w.Parts[i].Low) != low {
			t.Errorf("the springs of axles of %s: %+v, want %v lb", rating, w.Parts, low)
		}
	}
	// What is missing is asked for, one thing at a time; and nothing is a part then.
	for key, gone := range map[string]string{
		"frame.crossmember": "  crossmember: C3x4.1\n", "frame.crossmember-spacing": "  crossmember-spacing: 18 in\n", "frame.floor": "  floor: treated pine 2x6\n",
		"tires.size": "  size: ST235/80R16\n", "tires.per-axle": "  per-axle: 4\n", "axles.count": "  count: 2\n", "axles.rating": "  rating: 12,000 lb\n",
		"axles.center": "  center: 25 ft 6 in\n",
	} {
		w := trailerFor(t, swap(gone, ""), "")
		if w.Parts != nil || w.EstimatedEmpty.Known || !asks(w, "estimated-empty", key) {
			t.Errorf("without %s: %+v", key, w.Absent)
		}
	}
}

// asks reports that an absent figure asks for a key.
func asks(w *Work, name, key string) bool {
	for _, a := range w.Absent {
		if a.Name == name {
			return slices.ContainsFunc(a.Needs, func(n Need) bool { return n.Key == key })
		}
	}
	return false
}

// 23 CFR 658.17(e): two consecutive tandems of which the first and last axle stand 36 ft
// apart or more. 658.5: a tandem spans more than 40 in and not more than 96.
func TestTwoTandems(t *testing.T) {
	at := func(places ...float64) (out []StandingAxle) {
		for _, p := range places {
			out = append(out, StandingAxle{At: measure.Inches(p), Weight: 17000})
		}
		return out
	}
	for _, c := range []struct {
		name  string
		axles []StandingAxle
		want  bool
	}{
		{"36 ft", at(0, 48, 384, 432), true},
		{"an inch less", at(0, 48, 383, 431), false},
		{"40 in counts as one axle", at(0, 40, 384, 432), false},
		{"41 in is a tandem", at(0, 41, 384, 432), true},
		{"40 in in the rear", at(0, 48, 400, 440), false},
		{"96 in is a tandem", at(0, 96, 384, 480), true},
		{"97 in is none", at(0, 97, 384, 480), false},
		{"97 in in the rear", at(0, 96, 384, 481), false},
		{"three and two", at(0, 48, 96, 384, 432), true},
		{"two and three", at(0, 48, 384, 432, 480), true},
		{"three axles", at(0, 48, 432), false},
	} {
		if got := twoTandems(c.axles); got != c.want {
			t.Errorf("%s: two tandems %v, want %v", c.name, got, c.want)
		}
	}
	// The runs come front to rear, and what was given stays as it was given.
	given := at(100, 0, 50)
	runs := AxleRuns(given)
	if given[0].At != 100 || given[1].At != 0 || len(runs) != 6 || runs[1].Span != 50 {
		t.Errorf("given %v, runs %+v", given, runs)
	}
}

func TestGroupRunsNeedTheirMeasures(t *testing.T) {
	full := func() *unit.Unit {
		u := &unit.Unit{}
		at := unit.Pos{File: "a.md", Line: 1, Column: 1}
		u.Axles.Count = unit.Count{Value: 2, Pos: at}
		u.Axles.Rating = unit.Weight{Value: 12000, Pos: at}
		u.Axles.Spacing = unit.Length{Value: 40, Pos: at}
		u.Weights.GVWR = unit.Weight{Value: 22000, Pos: at}
		return u
	}
	for name, c := range map[string]struct {
		change func(*unit.Unit)
		runs   int
		each   measure.Pounds
	}{
		"all":               {func(*unit.Unit) {}, 3, 11000},
		"no count":          {func(u *unit.Unit) { u.Axles.Count.Pos = unit.Pos{} }, 0, 0},
		"no rating":         {func(u *unit.Unit) { u.Axles.Rating.Pos = unit.Pos{} }, 0, 0},
		"a rating of zero":  {func(u *unit.Unit) { u.Axles.Rating.Value = 0 }, 0, 0},
		"no axle":           {func(u *unit.Unit) { u.Axles.Count.Value = 0 }, 0, 0},
		"40 axles":          {func(u *unit.Unit) { u.Axles.Count.Value = 40 }, 820, 550},
		"41 axles":          {func(u *unit.Unit) { u.Axles.Count.Value = 41 }, 0, 0},
		"no spacing":        {func(u *unit.Unit) { u.Axles.Spacing.Pos = unit.Pos{} }, 0, 0},
		"a rating of 1":     {func(u *unit.Unit) { u.Axles.Rating.Value = 1 }, 3, 1},
		"a gvwr of 1":       {func(u *unit.Unit) { u.Weights.GVWR.Value = 1 }, 3, 0.5},
		"a spacing of 1":    {func(u *unit.Unit) { u.Axles.Spacing.Value = 1 }, 3, 11000},
		"a spacing of zero": {func(u *unit.Unit) { u.Axles.Spacing.Value = 0 }, 0, 0},
		"one axle":          {func(u *unit.Unit) { u.Axles.Count.Value, u.Axles.Spacing.Pos = 1, unit.Pos{} }, 1, 12000},
		"no gvwr":           {func(u *unit.Unit) { u.Weights.GVWR = unit.Weight{} }, 3, 12000},
		"gvwr not stated":   {func(u *unit.Unit) { u.Weights.GVWR.Pos = unit.Pos{} }, 3, 12000},
		"a gvwr of zero":    {func(u *unit.Unit) { u.Weights.GVWR.Value = 0 }, 3, 12000},
	} {
		u := full()
		c.change(u)
		runs := (&Work{Unit: u}).GroupRuns()
		if len(runs) != c.runs || c.runs > 0 && runs[0].Weight != c.each {
			t.Errorf("%s: %d runs %+v, want %d of %v", name, len(runs), runs[:min(len(runs), 1)], c.runs, c.each)
		}
	}
}

// 49 CFR 571.110 S3, S10: trailers of 10,000 lb or less.
func TestRelabelAtItsEnds(t *testing.T) {
	for _, c := range []struct {
		gvwr, limit measure.Pounds
		known       bool
	}{
		{-1, 0, false}, {0, 0, false}, {0.5, 0.0075, true}, {6666, 99.99, true}, {6667, 100, true}, {10000, 100, true}, {10000.154, 100, true}, {10000.5, 0, false},
	} {
		got, known := RelabelAt(c.gvwr)
		if math.Abs(float64(got-c.limit)) > 1e-9 || known != c.known {
			t.Errorf("on %v lb %v may be added (%v), want %v (%v)", float64(c.gvwr), float64(got), known, float64(c.limit), c.known)
		}
	}
}

// A yard's own allowance and band hold below the whole of it, and not from there on.
func TestSettingsAtTheirEnds(t *testing.T) {
	at := unit.Pos{File: "yard.md", Line: 3, Column: 1}
	y := &unit.Yard{}
	for v, want := range map[measure.Share]measure.Share{0: 0, 0.999: 0.999, 1: DefaultAllowance, 1.5: DefaultAllowance} {
		y.Allowance = unit.Field[measure.Share]{Value: v, Pos: at}
		if got := SettingsOf(y).Allowance; got != want {
			t.Errorf("an allowance of %v is %v, want %v", v, got, want)
		}
	}
	table, _ := tables.TongueBand("pintle")
	for _, c := range []struct {
		least, most measure.Share
		own         bool
	}{{0.05, 0.20, true}, {0.10, 0.10, false}, {0.20, 0.10, false}, {0.05, 0.999, true}, {0.05, 1, false}, {0.05, 1.5, false}} {
		y.Bands.Pintle = unit.Band{Least: unit.Field[measure.Share]{Value: c.least, Pos: at}, Most: unit.Field[measure.Share]{Value: c.most, Pos: at}}
		b := SettingsOf(y).Bands["pintle"]
		if own := b.Least == c.least && b.Most == c.most && b.At == at; own != c.own {
			t.Errorf("a band of %v to %v is %+v, want the yard's own %v", c.least, c.most, b, c.own)
		}
		y.Bands.Pintle.Least.Pos = unit.Pos{}
		if half := SettingsOf(y).Bands["pintle"]; half.At.Known() || half.Most != table.High {
			t.Errorf("a band with one end: %+v", half)
		}
		y.Bands.Pintle = unit.Band{Most: unit.Field[measure.Share]{Value: c.most, Pos: at}}
		if half := SettingsOf(y).Bands["pintle"]; half.Least != table.Low || half.Most != table.High {
			t.Errorf("a band with the most of it alone: %+v", half)
		}
		if !c.own && (b.Least != table.Low || b.Most != table.High || b.At.Known()) {
			t.Errorf("a band of %v to %v is %+v, want the table's", c.least, c.most, b)
		}
	}
}

// The rule that is named where two of them come to the same, and where the whole vehicle's
// 80,000 lb comes before the formula (23 CFR 658.17(b), (e)).
func TestWhichBridgeRule(t *testing.T) {
	feet := func(v float64) measure.Inches { return measure.Feet(v).Inches() }
	// N = 2, L = 10: 500 (20 + 24 + 36) = 40,000, which is 20,000 an axle as well.
	if l := AxleGroupMost(2, feet(10)); l.Most != 40000 || !strings.Contains(l.Rule, "bridge formula") {
		t.Errorf("two axles over 10 ft: %+v", l)
	}
	if l := AxleGroupMost(2, feet(11)); l.Most != 40000 || !strings.Contains(l.Rule, "20,000 lb each") {
		t.Errorf("two axles over 11 ft: %+v", l)
	}
	for _, span := range []float64{math.Inf(1), math.NaN(), -1, 0, 0.5, 1} {
		if l := AxleGroupMost(3, measure.Inches(span)); l.Most != 20000 {
			t.Errorf("three axles over %v in: %+v", span, l)
		}
	}
	run := func(n int, places ...float64) AxleRun {
		var axles []StandingAxle
		for _, p := range places {
			axles = append(axles, StandingAxle{At: feet(p), Weight: 10000})
		}
		for _, r := range AxleRuns(axles) {
			if r.First == 0 && r.Last == n-1 {
				return r
			}
		}
		return AxleRun{}
	}
	// N = 4, L = 39: 500 (52 + 48 + 36) = 68,000, which is two tandems as well.
	for _, c := range []struct {
		run  AxleRun
		most measure.Pounds
		rule string
	}{
		{run(4, 0, 4, 34, 38), 68000, "two tandems"}, // the formula gives 67,500
		{run(4, 0, 4, 35, 39), 68000, "bridge formula"},
		{run(4, 0, 4, 36, 40), 68500, "bridge formula"},
		{run(5, 0, 12, 24, 36, 51), 80000, "bridge formula"}, // 79,875, to the nearest 500
		{run(5, 0, 12, 24, 36, 52), 80000, "whole vehicle"},  // 80,500
		{run(6, 0, 12, 24, 36, 48, 60), 80000, "whole vehicle"},
	} {
		if c.run.Limit.Most != c.most || !strings.Contains(c.run.Limit.Rule, c.rule) {
			t.Errorf("%d axles over %s: %+v, want %s by %q", c.run.Axles(), c.run.Span, c.run.Limit, c.most, c.rule)
		}
	}
}

// Figures at the ends of what they hold for: 383.5 (4,536 kg), 571.110 S3 (10,000 lb),
// 26 USC 4051 (26,000 lb is free; from 1 October 2028 everything is).
func TestFiguresAtTheirEnds(t *testing.T) {
	text := func(w *Work, name string) string {
		if f := w.Figure(name); f != nil {
			return f.Text
		}
		for _, a := range w.Absent {
			if a.Name == name {
				return "asks: " + a.Needs[0].Advice
			}
		}
		return "none"
	}
	for _, c := range []struct{ front, name, want string }{
		{"weights:\n  gvwr: 4,536 kg\n", "class-a-truck", "none"},
		{"weights:\n  gvwr: 10,000 lb\n", "class-a-truck", "none"},
		{"weights:\n  gvwr: 10,001 lb\n", "class-a-truck", "16,000 lb"},
		{"weights:\n  gvwr: 26,001 lb\n", "class-a-truck", "0 lb"},
		{"weights:\n  gvwr: 27,000 lb\n", "class-a-truck", "0 lb"},
		{"weights:\n  gvwr: 10,000 lb\n  empty: 9,000 lb\n", "cargo-placard", "999 lb"}, // 453.59 kg, down; 453 kg are 998.7 lb
		{"weights:\n  gvwr: 10,001 lb\n  empty: 9,000 lb\n", "cargo-placard", "none"},
		{"condition: new\ndealer-added: 10 lb\nweights:\n  gvwr: 4,000 lb\n", "relabel-limit", "60 lb"},
		{"condition: new\nweights:\n  gvwr: 4,000 lb\n", "relabel-limit", "none"},
		{"condition: used\ndealer-added: 10 lb\nweights:\n  gvwr: 4,000 lb\n", "relabel-limit", "none"},
		{"condition: new\ndealer-added: 10 lb\nweights:\n  gvwr: 10,001 lb\n", "relabel-limit", "none"},
		{"condition: new\ndealer-added: 10 lb\n", "relabel-limit", "asks: read the GVWR off the certification label"},
		{"condition: new\nprice: $40,001\nweights:\n  gvwr: 26,000 lb\n", "excise", "$0"},
		{"condition: new\nprice: $40,001\nweights:\n  gvwr: 26,001 lb\n", "excise", "$4,801"}, // 4,800.12, up
		{"condition: new\nweights:\n  gvwr: 26,001 lb\n", "excise", "asks: give the price"},
		{"condition: used\nprice: $40,001\nweights:\n  gvwr: 26,001 lb\n", "excise", "none"},
		{"deck:\n  height: 48 in\nramps:\n  length: 4 ft\n", "loading-angle", "90 degrees"},
		{"deck:\n  height: 49 in\nramps:\n  length: 4 ft\n", "loading-angle", "asks: measure again: the height to reach is more than the length of the ramps"},
		{"deck:\n  height: 40 in\n", "loading-angle", "none"},
		{"axles:\n  count: 2\n  rating: 3,500 lb\n", "wheel-capacity", "none"},
		{"tires:\n  wheel: 1,000 lb\n", "wheel-capacity", "asks: count the tires on one axle"},
		{"hitch:\n  kind: bumper-pull\n", "tongue-by-foot", "none"},
		{"hitch:\n  kind: gooseneck\n", "tongue-by-foot", "asks: read the GVWR off the certification label"},
		{"brakes:\n  kind: electric\n", "surge-truck", "none"},
		{"kind: livestock\n", "tie-down-need", "none"},
		{"kind: dump\n", "tie-down-count", "none"},
		{"tie-downs:\n  - d-rings: 4\n", "tie-down-points", "none"},
		{"deck:\n  length: 9 ft\n", "struck-volume", "none"},
		{"deck:\n  length: 9 ft\n", "heaped-volume", "none"},
		{"bed:\n  length: 9 ft\n", "heaped-volume", "asks: measure the bed's inside width"},
		{"weights:\n  gvwr: 9,000 lb\n", "tape-length", "none"},
		{"hitch:\n  kind: bumper-pull\nkind: flatbed\ndeck:\n  front: 4 ft\n  length: 20 ft\n  width: 80 in\nweights:\n  gvwr: 9,000 lb\n", "lamp-schedule", "18 lamps"},
		{"kind: flatbed\ndeck:\n  front: 4 ft\n  length: 20 ft\n  width: 79-3/4 in\nweights:\n  gvwr: 9,000 lb\n", "lamp-schedule", "asks: measure across the widest part, fenders included"},
		{"hitch:\n  kind: bumper-pull\nkind: deck-over\ndeck:\n  front: 4 ft\n  length: 20 ft\n  width: 76 in\nweights:\n  gvwr: 9,000 lb\n", "lamp-schedule", "11 lamps"},
		{"hitch:\n  kind: bumper-pull\nkind: deck-over\nyear: 1993\ndeck:\n  front: 4 ft\n  length: 20 ft\n  width: 96 in\nweights:\n  gvwr: 10,001 lb\n", "tape-length", "none"},
		{"hitch:\n  kind: bumper-pull\nkind: deck-over\nyear: 1994\ndeck:\n  front: 4 ft\n  length: 20 ft\n  width: 96 in\nweights:\n  gvwr: 10,001 lb\n", "tape-length", "12 ft 2 in"},
		{"hitch:\n  kind: bumper-pull\nkind: deck-over\ndeck:\n  front: 4 ft\n  length: 20 ft\n  width: 96 in\nweights:\n  gvwr: 10,000 lb\n", "tape-length", "none"},
		{"weights:\n  gvwr: 9,000 lb\n", "estimated-empty", "none"},
		{"weights:\n  gvwr: 9,000 lb\n", "estimated-tongue", "none"},
		{"weights:\n  gvwr: 9,000 lb\n", "beam-weight", "none"},
		{"frame:\n  beam: W99\n", "beam-weight", "asks: section \"W99\" is not listed; nearest are W8x10, W10x22, W12x14"},
		{"weights:\n  gvwr: 9,000 lb\n", "tire-age", "none"},
		{"tires:\n  made: week 48 2026\n", "tire-age", "none"}, // the yard was walked on the Friday before
		{"tires:\n  made: week 47 2026\n", "tire-age", "0 years"},
		{"weights:\n  gvwr: 9,000 lb\n", "tire-speed", "none"},
		{"weights:\n  gvwr: 9,000 lb\n", "wheel-torque", "none"},
		{"tires:\n  stud: 1/2-20 cone\n  per-axle: 2\n", "wheel-torque", "asks: read the size off the sidewall"},
		{"tires:\n  stud: 5/8-18 cone\n  size: ST235/80R16\n  per-axle: 4\n", "wheel-torque", "190 to 210 lb-ft"},
		{"tires:\n  stud: 5/8-18 cone\n  size: ST235/80R16\n  per-axle: 3\n", "wheel-torque", "asks: no torque is listed for stud \"5/8-18 cone\" on a 16 in rim; the maker's manual has it"},
		{"weights:\n  empty: 1,000 lb\n  tongue-empty: 1,000 lb\n", "empty-axle-load", "0 lb"},
		{"weights:\n  empty: 1,000 lb\n  tongue-empty: 1,001 lb\n", "empty-axle-load", "asks: weigh the tongue empty"},
		{"weights:\n  empty: 1,000 lb\n  tongue-empty: 0 lb\n", "empty-axle-load", "1,000 lb"},
		{"weights:\n  gvwr: 9,000 lb\n", "mean-deceleration", "none"},
		{"weights:\n  gvwr: 9,000 lb\n", "stopping-at-45", "none"},
	} {
		if got := text(trailerFor(t, c.front, ""), c.name); got != c.want && !(strings.HasPrefix(c.want, "asks: section") && strings.HasPrefix(got, "asks: section \"W99\" is not listed")) {
			t.Errorf("%q: %s is %q, want %q", c.front, c.name, got, c.want)
		}
	}
	if got := text(trailerFor(t, "tires:\n  service: 107I\n", ""), "tire-speed"); !strings.HasPrefix(got, "asks: ") || !strings.Contains(got, "I") {
		t.Errorf("no speed has the symbol I: %q", got)
	}
	// Made in the week that began on the day the stock was walked.
	u, _ := unit.ReadUnit("a.md", []byte("---\ntires:\n  made: week 47 2026\n---\n"))
	y, _ := unit.ReadYard("yard.md", []byte("---\nas-of: 2026-11-16\n---\n"))
	if got := text(Unit(u, SettingsOf(y)), "tire-age"); got != "0 years" {
		t.Errorf("made today: %q", got)
	}
	if w := trailerFor(t, "weights:\n  tongue-empty: 100 lb\n", ""); !asks(w, "empty-axle-load", "weights.empty") || asks(w, "empty-axle-load", "weights.tongue-empty") {
		t.Errorf("the tongue is weighed and the trailer is not: %+v", w.Absent)
	}
	// The tax ends on the day the law says (26 USC 4051(c)).
	for day, known := range map[string]bool{"2028-09-30": true, "2028-10-01": false} {
		u, _ := unit.ReadUnit("a.md", []byte("---\ncondition: new\nprice: $40,000\nweights:\n  gvwr: 27,000 lb\n---\n"))
		y, _ := unit.ReadYard("yard.md", []byte("---\nas-of: "+day+"\n---\n"))
		w := Unit(u, SettingsOf(y))
		if (w.Figure("excise") != nil) != known || w.Excise.Known != known || asks(w, "excise", "price") {
			t.Errorf("on %s: %+v", day, w.Excise)
		}
	}
	// Of equal ratings the label's comes first; one of zero is none, and 26,000 lb is free.
	e := trailerFor(t, "condition: new\nprice: $1\nweights:\n  gvwr: 26,000 lb\nclaimed:\n  gvwr: 26,000 lb\n", "").Excise
	if len(e.Ratings) != 2 || e.Highest().By != "on the label" || e.Passed || e.ByLabel {
		t.Errorf("two equal ratings: %+v", e)
	}
	for claimed, n := range map[string]int{"0 lb": 1, "1 lb": 2, "0.5 lb": 2} {
		if e := trailerFor(t, "condition: new\nprice: $1\nweights:\n  gvwr: 26,000 lb\nclaimed:\n  gvwr: "+claimed+"\n", "").Excise; len(e.Ratings) != n {
			t.Errorf("claimed %s: %+v", claimed, e.Ratings)
		}
	}
	if f := trailerFor(t, "condition: new\nprice: $100\nweights:\n  gvwr: 26,001.5 lb\n", "").Figure("excise"); f.Working() != "12% x $100, 26,001 lb being stated on the label" {
		t.Errorf("the working of the tax: %q", f.Working())
	}
}

// 49 CFR 393.48(d), 393.106 to 393.110 at their ends.
func TestSurgeAndTieDownsAtTheirEnds(t *testing.T) {
	for trailer, known := range map[measure.Pounds]bool{-1: false, 0: false, 0.5: true, 20000: true, 20000.5: true, 20001: false} {
		if _, got := SurgeTruck(trailer); got != known {
			t.Errorf("surge brakes on %v lb: %v, want %v", float64(trailer), got, known)
		}
	}
	for gvwr, want := range map[string]string{"12,000 lb": "12,000 lb / 1.75", "12,000.5 lb": "12,000.5 lb / 1.25", "12,001 lb": "12,001 lb / 1.25", "11,999.5 lb": "11,999.5 lb / 1.75"} {
		f := trailerFor(t, "brakes:\n  kind: surge\nweights:\n  gvwr: "+gvwr+"\n", "").Figure("surge-truck")
		if f == nil || f.Working() != want {
			t.Errorf("%s: %+v, want %q", gvwr, f, want)
		}
	}
	if n := LeastByLength(0, 500, true); n != 1 {
		t.Errorf("a blocked load of no length takes %d", n)
	}
	// One axle shares nothing.
	for count, want := range map[string]bool{"1": false, "2": true} {
		f := trailerFor(t, "hitch:\n  kind: bumper-pull\ndeck:\n  front: 4 ft\n  length: 12 ft\naxles:\n  count: "+count+"\n  rating: 3,500 lb\n  center: 11 ft\n  suspension: torsion\nweights:\n  gvwr: 3,000 lb\n  empty: 1,000 lb\n  tongue-empty: 150 lb\n", "").Figure("axle-load-at-gvwr")
		if f == nil || strings.Contains(strings.Join(f.Notes(), "; "), "share the load evenly") != want {
			t.Errorf("%s axles: %+v", count, f)
		}
	}
}

// Points count with a number and a rating, and nothing without.
func TestTieDownPointsNeedBoth(t *testing.T) {
	at := unit.Pos{File: "a.md", Line: 1, Column: 1}
	for _, c := range []struct {
		name   string
		count  unit.Count
		rating unit.Weight
		want   string
	}{
		{"both", unit.Count{Value: 4, Pos: at}, unit.Weight{Value: 1000, Pos: at}, "2,000 lb"},
		{"no number", unit.Count{Value: 4}, unit.Weight{Value: 1000, Pos: at}, ""},
		{"no rating", unit.Count{Value: 4, Pos: at}, unit.Weight{Value: 1000}, ""},
		{"a rating of zero", unit.Count{Value: 4, Pos: at}, unit.Weight{Pos: at}, ""},
		{"a rating of a pound", unit.Count{Value: 4, Pos: at}, unit.Weight{Value: 1, Pos: at}, "2 lb"},
	} {
		u := &unit.Unit{TieDowns: []unit.TieDown{{Count: c.count, Rating: c.rating}}}
		got := ""
		if f := Unit(u, Settings{}).Figure("tie-down-points"); f != nil {
			got = f.Text
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// How many tires an axle has, and what is said where the rest is missing.
func TestTireOfItsParts(t *testing.T) {
	const tire = "tires:\n  size: ST235/80R16\n  load-range: E\n  pressure: 80 psi\n"
	for _, c := range []struct {
		front       string
		known, dual bool
		lack        string
	}{
		{tire + "  per-axle: 1\n", true, false, ""},
		{tire + "  per-axle: 2\n", true, false, ""},
		{tire + "  per-axle: 3\n", true, false, ""},
		{tire + "  per-axle: 4\n", true, true, ""},
		{tire + "  per-axle: 0\n", false, false, "the number of tires on an axle is not stated"},
		{tire, false, false, "the number of tires on an axle is not stated"},
		{"tires:\n  per-axle: 4\n  sidewall:\n    dual: 3,000 lb\n", false, true, "the size is not stated"},
		{"tires:\n  per-axle: 2\n  size: ST235/80R16\n", false, false, "the load range is not stated"},
		{"tires:\n  per-axle: 2\n  size: ST235/80R16\n  load-range: F\n", false, false, "there is no reliable table row for ST235/80R16 load range F, single"},
		{"tires:\n  per-axle: 4\n  size: ST235/80R16\n  load-range: D\n", false, true, "there is no reliable table row for ST235/80R16 load range D, dual"},
		{"tires:\n  per-axle: 4\n  size: ST235/80R16\n  load-range: E\n  sidewall:\n    single: 3,419 lb\n", false, true, "the molded single rating of 3,419 lb is below the table's 3,420 lb, so the table's dual rating does not hold for it"},
		{"tires:\n  per-axle: 4\n  size: ST235/80R16\n  load-range: E\n  sidewall:\n    single: 3,420 lb\n", true, true, ""},
		{"tires:\n  per-axle: 4\n  size: ST235/85R16\n  load-range: G\n", false, true, "this size and load range is also sold at 4,080 lb single, and no dual rating of that one was found"},
	} {
		got := trailerFor(t, c.front, "").Tire
		if got.Known != c.known || got.Dual != c.dual || got.Lack != c.lack {
			t.Errorf("%q: known %v, dual %v, lack %q; want %v, %v, %q", c.front, got.Known, got.Dual, got.Lack, c.known, c.dual, c.lack)
		}
	}
}

// A row is known no better than its rating, its load range and its pressure are; what is
// weak is not used, and the lowest rating comes first.
func TestUsableRows(t *testing.T) {
	const good, memory, weak = tables.Official, tables.Memory, tables.MemoryWeak
	row := func(single, dual measure.Pounds, s, d, r, p tables.Grade) tables.Tire {
		return tables.Tire{Single: single, Dual: dual, SingleGrade: s, DualGrade: d, RangeGrade: r, PressureGrade: p}
	}
	for _, c := range []struct {
		row          tables.Tire
		single, dual tables.Grade
	}{
		{row(1, 1, good, memory, good, good), good, memory},
		{row(1, 1, memory, good, good, good), memory, good},
		{row(1, 1, good, good, memory, good), memory, memory},
		{row(1, 1, good, good, good, memory), memory, memory},
		{row(1, 1, good, good, good, ""), good, good},
		{row(1, 1, good, weak, memory, ""), memory, weak},
	} {
		if s, d := gradeOf(c.row, false), gradeOf(c.row, true); s != c.single || d != c.dual {
			t.Errorf("%+v: grades %q and %q, want %q and %q", c.row, s, d, c.single, c.dual)
		}
	}
	rows := []tables.Tire{
		row(3000, 2000, good, good, good, good), row(1000, 0, good, "", good, good), row(2000, 1500, weak, good, good, good),
		row(2500, 2200, good, good, weak, good), row(900, 2100, good, weak, good, good), row(0.5, 0.5, good, good, good, good),
	}
	for dual, want := range map[bool][]measure.Pounds{false: {0.5, 900, 1000, 3000}, true: {0.5, 1500, 2000}} {
		var got []measure.Pounds
		for _, r := range usable(rows, dual) {
			got = append(got, rating(r, dual))
		}
		if !slices.Equal(got, want) {
			t.Errorf("usable, dual %v: %v, want %v", dual, got, want)
		}
	}
}

// Wheels rated below the tires cap them; a rating of zero is none.
func TestWheelsCapTires(t *testing.T) {
	at := unit.Pos{File: "a.md", Line: 1, Column: 1}
	u := &unit.Unit{}
	u.Tires.PerAxle, u.Tires.Size = unit.Count{Value: 2, Pos: at}, unit.Text{Value: "ST235/80R16", Pos: at}
	u.Tires.Sidewall.Single = unit.Weight{Value: 3000, Pos: at}
	for _, c := range []struct {
		wheel   unit.Weight
		want    measure.Pounds
		working string
	}{
		{unit.Weight{}, 6000, "2 x 3,000 lb"}, {unit.Weight{Value: 2000}, 6000, "2 x 3,000 lb"}, {unit.Weight{Pos: at}, 6000, "2 x 3,000 lb"},
		{unit.Weight{Value: 3000, Pos: at}, 6000, "2 x 3,000 lb"}, {unit.Weight{Value: 2999, Pos: at}, 5998, "2 x 2,999 lb, the wheel's rating being below the tire's 3,000 lb"},
		{unit.Weight{Value: 0.5, Pos: at}, 1, "2 x 0.5 lb, the wheel's rating being below the tire's 3,000 lb"},
	} {
		u.Tires.Wheel = c.wheel
		w := Unit(u, Settings{})
		if f := w.Figure("tire-capacity"); f == nil || w.TireCapacity.Value != c.want || f.Working() != c.working {
			t.Errorf("a wheel of %+v: %+v, want %v (%s)", c.wheel, f, c.want, c.working)
		}
	}
}

// Where a published load lies below the curve it counts, and the reader is told.
func TestPublishedLoadBelowTheCurve(t *testing.T) {
	found := 0
	for _, p := range loadPoints(t) {
		u := &unit.Unit{}
		at := unit.Pos{File: "a.md", Line: 1, Column: 1}
		per := 2
		if p.Dual {
			per = 4
		}
		u.Tires.PerAxle, u.Tires.Size, u.Tires.Pressure = unit.Count{Value: per, Pos: at}, unit.Text{Value: p.Size, Pos: at}, unit.Pressure{Value: p.Pressure, Pos: at}
		for _, letter := range tables.LoadRanges(p.Size) {
			u.Tires.LoadRange = unit.Text{Value: letter, Pos: at}
			got := tireOf(u)
			if !got.Known || !strings.Contains(got.formula.String(), "published at") {
				continue
			}
			found++
			if got.Each > p.Load || !strings.Contains(strings.Join(got.Notes, "; "), "the published load: ") || !strings.Contains(got.formula.String(), "being below the curve's") {
				t.Errorf("%s %s at %v: %v of %v, %q, %q", p.Size, letter, p.Pressure, got.Each, p.Load, got.formula.String(), got.Notes)
			}
		}
	}
	if found == 0 {
		t.Error("no published load lies below the curve; the test proves nothing")
	}
}

// A sidewall of no load is none; the load range is read before the table is.
func TestSidewallBeforeTable(t *testing.T) {
	at := unit.Pos{File: "a.md", Line: 1, Column: 1}
	u := &unit.Unit{}
	u.Tires.PerAxle, u.Tires.Size = unit.Count{Value: 2, Pos: at}, unit.Text{Value: "ST235/80R16", Pos: at}
	u.Tires.LoadRange = unit.Text{Value: "E", Pos: at}
	for _, c := range []struct {
		side   unit.Weight
		rating measure.Pounds
	}{
		{unit.Weight{}, 3420}, {unit.Weight{Pos: at}, 3420}, {unit.Weight{Value: 3000}, 3420}, {unit.Weight{Value: 3000, Pos: at}, 3000}, {unit.Weight{Value: 0.5, Pos: at}, 0.5},
	} {
		u.Tires.Sidewall.Single = c.side
		if got := tireOf(u); got.Rating != c.rating || !got.Known {
			t.Errorf("a sidewall of %+v: %+v, want %v", c.side, got, c.rating)
		}
	}
	u.Tires.Sidewall.Single = unit.Weight{}
	for _, letter := range []unit.Text{{}, {Pos: at}, {Value: "E"}} {
		u.Tires.LoadRange = letter
		if got := tireOf(u); got.Known || got.Lack != "the load range is not stated" {
			t.Errorf("a load range of %+v: %+v", letter, got)
		}
	}
	u.Tires.LoadRange = unit.Text{Value: "E", Pos: at}
	for _, per := range []unit.Count{{}, {Value: 2}, {Pos: at}} {
		u.Tires.PerAxle = per
		if got := tireOf(u); got.Known || got.Dual || got.Lack != "the number of tires on an axle is not stated" {
			t.Errorf("%+v on an axle: %+v", per, got)
		}
	}
	u.Tires.PerAxle = unit.Count{Value: 4, Pos: at}
	for _, size := range []unit.Text{{}, {Pos: at}, {Value: "ST235/80R16"}} {
		u.Tires.Size = size
		if got := tireOf(u); got.Known || !got.Dual || got.Lack != "the size is not stated" {
			t.Errorf("a size of %+v: %+v", size, got)
		}
	}
}

// Which pressure a rating is for and which one the tire may be set to: the sidewall's own
// for its own rating; of several that it may be for the highest; and the letter's usual
// one for special trailer tires of 13 in and more (ISO metric sizes).
func TestPressuresOfATire(t *testing.T) {
	at := unit.Pos{File: "a.md", Line: 1, Column: 1}
	for _, c := range []struct {
		name       string
		side       unit.Pressure
		rated      unit.Pos
		listed     []measure.PSI
		size       string
		letter     string
		forP, most measure.PSI
		note       string
	}{
		{"beside its own rating", unit.Pressure{Value: 70, Pos: at}, at, []measure.PSI{80}, "ST225/75R16", "E", 70, 70, ""},
		{"without its rating", unit.Pressure{Value: 70, Pos: at}, unit.Pos{}, []measure.PSI{80}, "ST225/75R16", "E", 80, 70, ""},
		{"without its rating, and higher", unit.Pressure{Value: 90, Pos: at}, unit.Pos{}, []measure.PSI{60, 80, 65}, "ST225/75R16", "E", 90, 90, ""},
		{"without a row", unit.Pressure{Value: 70, Pos: at}, unit.Pos{}, nil, "ST225/75R16", "E", 70, 70, ""},
		{"out of the table", unit.Pressure{}, at, []measure.PSI{60, 80, 65}, "ST225/75R16", "E", 80, 80, ""},
		{"a pressure of zero is none", unit.Pressure{Pos: at}, at, []measure.PSI{65}, "ST225/75R16", "E", 65, 65, ""},
		{"one that was not given is none", unit.Pressure{Value: 50}, at, []measure.PSI{65}, "ST225/75R16", "E", 65, 65, ""},
		{"half a psi is one", unit.Pressure{Value: 0.5, Pos: at}, at, []measure.PSI{65}, "ST225/75R16", "E", 0.5, 0.5, ""},
		{"half a psi of a row", unit.Pressure{}, at, []measure.PSI{0.5}, "ST225/75R16", "E", 0.5, 0.5, ""},
		{"usual", unit.Pressure{}, at, nil, "ST225/75R16", "E", 80, 0, "80 psi is usual for load range E"},
		{"usual on 13 in", unit.Pressure{}, at, nil, "ST175/80R13", "C", 50, 0, "50 psi is usual"},
		{"on 12 in nobody knows", unit.Pressure{}, at, nil, "ST145/80R12", "C", 0, 0, "at that pressure only"},
		{"of a truck tire nobody knows", unit.Pressure{}, at, nil, "LT235/85R16", "E", 0, 0, "at that pressure only"},
		{"of an old size nobody knows", unit.Pressure{}, at, nil, "7.00-15", "E", 0, 0, "at that pressure only"},
		{"of a flotation size nobody knows", unit.Pressure{}, at, nil, "ST20.5x8.0-13", "E", 0, 0, "at that pressure only"},
		{"without a letter nobody knows", unit.Pressure{}, at, nil, "ST225/75R16", "", 0, 0, "at that pressure only"},
		{"by a letter that is none nobody knows", unit.Pressure{}, at, nil, "ST225/75R16", "Z", 0, 0, "at that pressure only"},
	} {
		u := &unit.Unit{}
		u.Tires.Sidewall.Pressure = c.side
		if c.letter != "" {
			u.Tires.LoadRange = unit.Text{Value: c.letter, Pos: at}
		}
		var rows []tables.Tire
		for _, p := range c.listed {
			rows = append(rows, tables.Tire{Pressure: p})
		}
		s, err := tables.ParseTireSize(c.size)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		got := Tire{RatingAt: c.rated}
		got.pressures(u, s, rows)
		if got.MaxPressure != c.forP || got.MostPressure != c.most || !strings.Contains(strings.Join(got.Notes, "; "), c.note) || c.note == "" && got.Notes != nil ||
			(got.MostPressureAt == at) != (c.most > 0 && c.most == c.side.Value && c.side.Given()) {
			t.Errorf("%s: for %v, at most %v (@%v), %q; want %v, %v, %q", c.name, got.MaxPressure, got.MostPressure, got.MostPressureAt, got.Notes, c.forP, c.most, c.note)
		}
		if p, ok := usualPressure(u, s); ok != strings.Contains(c.note, "usual") && c.note != "" || ok && c.note != "" && p != c.forP {
			t.Errorf("%s: usual is %v (%v)", c.name, p, ok)
		}
	}
	if n, source := exponentOf(tables.TireSize{}); n != 1 || !strings.Contains(source, "in proportion") {
		// Every published exponent lies below 1, so that proportion leaves less.
		if _, known := tables.Exponent(tables.TireSize{}); !known {
			t.Errorf("for want of an exponent it is %v: %s", n, source)
		}
	}
}

// A tire of the same size and load range that is rated below and has no dual rating.
func TestWithoutDual(t *testing.T) {
	row := tables.Tire{Single: 4400, Dual: 3860}
	for _, c := range []struct {
		name string
		all  []tables.Tire
		want measure.Pounds
	}{
		{"one", []tables.Tire{row, {Single: 4080}}, 4080}, {"none", []tables.Tire{row}, 0}, {"with a dual", []tables.Tire{row, {Single: 4080, Dual: 3640}}, 0},
		{"as high", []tables.Tire{row, {Single: 4400}}, 0}, {"higher", []tables.Tire{{Single: 5000}, row}, 0}, {"the first", []tables.Tire{{Single: 4100}, {Single: 4080}, row}, 4100},
	} {
		if got, ok := withoutDual(c.all, row); got.Single != c.want || ok != (c.want > 0) {
			t.Errorf("%s: %+v %v, want %v", c.name, got, ok, c.want)
		}
	}
}

// Parts with their center to the rear of the axles would lift the tongue: then the scale is
// asked for. By hand the parts but the axles make 820,910 lb-in, and 2,465 lb go with the
// axles: with these at 20 ft all balance at 232.9 in, with these at 18 ft at 223.2.
func TestEstimatedTongueThatLifts(t *testing.T) {
	for center, lifts := range map[string]bool{"25 ft 6 in": false, "22 ft": false, "20 ft": false, "18 ft": true, "15 ft": true} {
		w := trailerFor(t, strings.Replace(heavy, "center: 25 ft 6 in", "center: "+center, 1), "")
		asked := asks(w, "estimated-tongue", "weights.tongue-empty")
		if asked != lifts || w.EstimatedTongue.Known == lifts || w.EstimatedTongue.Known && w.EstimatedTongue.Value <= 0 {
			t.Errorf("axles at %s: %+v, asks for the scale %v, want %v", center, w.EstimatedTongue, asked, lifts)
		}
	}
	for _, c := range []struct{ front, part string }{
		{strings.Replace(strings.Replace(heavy, "per-axle: 4", "per-axle: 3", 1), "rating: 12,000 lb", "rating: 10,000 lb", 1), "2 x axle complete 10,000 lb general duty"},
		{strings.Replace(heavy, "rating: 12,000 lb", "rating: 10,000 lb", 1), "2 x axle complete 10,000 lb heavy duty dual"},
	} {
		w := trailerFor(t, strings.Replace(c.front, "dual: 3,080 lb", "dual: 3,080 lb", 1), "")
		if !slices.ContainsFunc(w.Parts, func(p Part) bool { return p.Name == c.part }) {
			t.Errorf("no %s among %+v", c.part, w.Parts)
		}
	}
	if w := trailerFor(t, heavy+"jack:\n  count: 0\n  rating: 2,000 lb\n", ""); slices.ContainsFunc(w.Parts, func(p Part) bool { return strings.Contains(p.Name, "jack") }) {
		t.Errorf("no jack is a part: %+v", w.Parts)
	}
}

// The names come in the order of the figures.
func TestNames(t *testing.T) {
	names := Names()
	if len(names) != len(All) || names[0] != All[0].Name || names[len(names)-1] != All[len(All)-1].Name {
		t.Errorf("%v", names)
	}
}
