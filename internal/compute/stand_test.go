package compute_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// held is one limit as a test expects it: what it is, what comes on it, what is left.
type held struct {
	by                compute.Constraint
	limit, used, left float64
	over              bool
}

func standsAs(t *testing.T, name string, s compute.Stand, want []held) {
	t.Helper()
	if len(s.Margins) != len(want) {
		t.Fatalf("%s: %d limits, want %d: %+v", name, len(s.Margins), len(want), s.Margins)
	}
	for i, w := range want {
		m := s.Margins[i]
		if m.By != w.by || !near(float64(m.Limit), w.limit, 1e-6) || !near(float64(m.Used), w.used, 1e-6) || !near(float64(m.Left), w.left, 1e-6) || m.Over != w.over {
			t.Errorf("%s: limit %d is %+v, want %+v", name, i, m, w)
		}
	}
}

// cargo is the trailer of a worked free body: 2,000 lb with its
// center of gravity 10 ft behind the ball, the axle at 12 ft, so T0 = 2,000 / 6.
var cargo = compute.Rig{
	Empty: 2000, Tongue: 2000.0 / 6, Axles: 144, Front: 60, Length: 216,
	GVWR: 7000, Hold: 6200, HoldBy: compute.WheelHold, Holds: [3]measure.Pounds{7000, 6500, 6200},
	TongueMost: 1050, Coupler: 7000, Ball: 7500, Least: 0.10, Most: 0.15,
}

func fiveThousand(feet float64) compute.Placed {
	return compute.Placed{Load: compute.Load{Weight: 5000, Length: 96}, Behind: measure.Feet(feet).Inches() - cargo.Front}
}

// Check values 8.13: hitch 958.3 lb (13.7% of 7,000), axles 6,041.7; 8.14: the same cargo
// two feet back leaves 125 lb (1.8%) on the hitch and 6,875 on the axles.
func TestStandByHand(t *testing.T) {
	s := cargo.Stand(fiveThousand(10.5))
	tongue, axles := 11500.0/12, 7000-11500.0/12
	if !s.Keeps || s.Total != 7000 || !near(float64(s.Tongue), tongue, 1e-9) || !near(float64(s.Axles), axles, 1e-9) || !near(s.Share.Percent(), 13.69, 0.001) {
		t.Errorf("8.13: %+v", s)
	}
	standsAs(t, "8.13", s, []held{
		{compute.BandLeast, 700, tongue, tongue - 700, false},
		{compute.BandMost, 1050, tongue, 1050 - tongue, false},
		{compute.TongueMost, 1050, tongue, 1050 - tongue, false},
		{compute.AxleHold, 7000, axles, 7000 - axles, false},
		{compute.TireHold, 6500, axles, 6500 - axles, false},
		{compute.WheelHold, 6200, axles, 6200 - axles, false},
		{compute.WithinGVWR, 7000, 7000, 0, false},
		{compute.WithinCoupler, 7000, 7000, 0, false},
		{compute.WithinBall, 7500, 7000, 500, false},
	})
	s = cargo.Stand(fiveThousand(12.5))
	if s.Keeps || !near(float64(s.Tongue), 125, 1e-9) || !near(s.Share.Percent(), 1.786, 0.001) {
		t.Errorf("8.14: %+v", s)
	}
	standsAs(t, "8.14", s, []held{
		{compute.BandLeast, 700, 125, -575, true},
		{compute.BandMost, 1050, 125, 925, false},
		{compute.TongueMost, 1050, 125, 925, false},
		{compute.AxleHold, 7000, 6875, 125, false},
		{compute.TireHold, 6500, 6875, -375, true},
		{compute.WheelHold, 6200, 6875, -675, true},
		{compute.WithinGVWR, 7000, 7000, 0, false},
		{compute.WithinCoupler, 7000, 7000, 0, false},
		{compute.WithinBall, 7500, 7000, 500, false},
	})
	// A pound more is over gvwr and coupler, whose limits are inclusive.
	p := fiveThousand(10.5)
	p.Weight++
	over := map[compute.Constraint]bool{}
	for _, m := range cargo.Stand(p).Margins {
		over[m.By] = m.Over
	}
	if !over[compute.WithinGVWR] || !over[compute.WithinCoupler] || over[compute.WithinBall] {
		t.Errorf("7,001 lb breaks %v", over)
	}
}

// What the rig does not know does not limit it.
func TestStandOnWhatIsKnown(t *testing.T) {
	bare := compute.Rig{Empty: 2000, Tongue: 2000.0 / 6, Axles: 144, Front: 60, Length: 216, GVWR: 9000, Hold: 8000, HoldBy: compute.TireHold}
	tongue, axles := 11500.0/12, 7000-11500.0/12
	for _, c := range []struct {
		by   compute.Constraint
		want []held
	}{
		{compute.AxleHold, []held{{compute.AxleHold, 8000, axles, 8000 - axles, false}}},
		{compute.TireHold, []held{{compute.TireHold, 8000, axles, 8000 - axles, false}}},
		{compute.WheelHold, []held{{compute.WheelHold, 8000, axles, 8000 - axles, false}}},
		{compute.WithinGVWR, nil},
		{compute.TongueMost, nil},
	} {
		bare.HoldBy = c.by
		s := bare.Stand(fiveThousand(10.5))
		want := append([]held{{compute.BandLeast, 0, tongue, tongue, false}, {compute.BandMost, 7000, tongue, 7000 - tongue, false}}, c.want...)
		standsAs(t, c.by.String(), s, append(want, held{compute.WithinGVWR, 9000, 7000, 2000, false}))
		if !s.Keeps {
			t.Errorf("held by %s: %+v", c.by, s)
		}
	}
	// Without a band the tongue must not lift.
	bare.HoldBy = compute.AxleHold
	if s := bare.Stand(fiveThousand(14)); s.Keeps || s.Tongue >= 0 || !s.Margins[0].Over {
		t.Errorf("a tongue that lifts: %+v", s)
	}
	// Half a load over an end of the deck does not count as on it.
	light := compute.Load{Weight: 100, Length: 96}
	for behind, keeps := range map[measure.Inches]bool{48: true, 47.5: false, 168: true, 168.5: false} {
		if s := bare.Stand(compute.Placed{Load: light, Behind: behind}); s.Keeps != keeps {
			t.Errorf("at %s of a deck of 18 ft: keeps %v", behind, s.Keeps)
		}
	}
	for name, s := range map[string]compute.Stand{
		"a load of nothing":         bare.Stand(compute.Placed{Load: compute.Load{Weight: 0.5, Length: 96}, Behind: 60}),
		"a rig that cannot be":      func() compute.Stand { r := bare; r.TongueMost = -1; return r.Stand(fiveThousand(10.5)) }(),
		"a rig that weighs nothing": compute.Rig{Axles: 144}.Stand(compute.Placed{}),
		"axles at the ball":         compute.Rig{Empty: 2000}.Stand(fiveThousand(10.5)),
		"no number":                 compute.Rig{Empty: measure.Pounds(math.NaN()), Axles: 144}.Stand(fiveThousand(10.5)),
	} {
		if s.Keeps {
			t.Errorf("%s keeps every limit: %+v", name, s)
		}
	}
	for _, s := range []compute.Stand{{}, compute.Rig{Empty: 2000}.Stand(fiveThousand(10.5)), compute.Rig{Empty: 1, Axles: 144}.Stand(compute.Placed{Load: compute.Load{Weight: -1}})} {
		if len(s.Margins) > 0 {
			t.Errorf("it stands nowhere and has limits: %+v", s)
		}
	}
}

// What is left goes down, by how much it is broken up; a kilogram is 1 / 0.45359237 lb
// (NIST SP 811).
func TestMarginInWords(t *testing.T) {
	for _, c := range []struct {
		m          compute.Margin
		us, metric string
	}{
		{compute.Margin{By: compute.TongueMost, Left: 258.9}, "258 lb left", "117 kg left"},
		{compute.Margin{By: compute.TongueMost, Left: -10.2, Over: true}, "11 lb over", "5 kg over"},
		{compute.Margin{By: compute.BandLeast, Left: -10.2, Over: true}, "11 lb short", "5 kg short"},
		{compute.Margin{By: compute.BandLeast, Left: 10.2}, "10 lb left", "4 kg left"},
		{compute.Margin{By: compute.WithinGVWR, Left: -1e-7}, "0 lb left", "0 kg left"},
	} {
		if us, metric := c.m.In(measure.American), c.m.In(measure.Metric); us != c.us || metric != c.metric {
			t.Errorf("%+v is %q and %q, want %q and %q", c.m, us, metric, c.us, c.metric)
		}
	}
}

// Every figure in kilograms and meters, worked from the exact pounds with 1 lb = 0.45359237
// kg and 1 ft = 0.3048 m (NIST SP 811), limits down and loads up.
func TestMetricOfFigures(t *testing.T) {
	heavy := strings.Replace(gooseneck, "brakes:\n  kind: electric\n", "frame:\n  beam: W10x22\n  crossmember: C3x4.1\n  crossmember-spacing: 18 in\n  floor: treated pine 2x6\nbrakes:\n  kind: electric\n  stopping: 200 ft at 60 mph\n", 1)
	w := worked(t, heavy, "  sidewall:\n    dual: 3,080 lb\n", "  service: 124/120M\n  sidewall:\n    dual: 3,080 lb\n", "  front: 7 ft 6 in\n", "  front: 7 ft 6 in\n  tail: 8 ft\n  tail-kind: hydraulic dovetail\n  height: 35 in\n")
	for name, want := range map[string]string{
		"tag-payload":       "5,878 kg",  // 12,960 lb = 5,878.56 kg
		"payload":           "5,878 kg",  //
		"working-payload":   "5,579 kg",  // 12,300 lb = 5,579.19
		"tongue-at-gvwr":    "1,653 kg",  // 1,610 + 12,960 x 48 / 306 = 3,642.94 lb = 1,652.41
		"axle-load-at-gvwr": "7,420 kg",  // 16,357.06 lb = 7,419.44
		"tie-down-need":     "2,940 kg",  // 6,480 lb = 2,939.28
		"deck-length":       "8.53 m",    // 28 x 0.3048
		"deck-area":         "22.1 sq m", // 238 x 0.09290304 = 22.11
		"tire-speed":        "130 km/h",  // UN R54: M is 130 km/h
		"mean-deceleration": "5.9 m/s2",  // 88 x 88 / 400 = 19.36 ft/s2 = 5.90
		"stopping-at-45":    "34.29 m",   // 112.5 ft
		"loading-angle":     "",          // degrees are degrees
		"tie-down-count":    "",          //
		// 12,300 lb: a quarter on the tongue at 306 (13,910 - 4,835) / 12,300 - 90 = 135.77 in =
		// 3.449 m, 15% at 183.88 in = 4.671 m.
		"load-window": "3.45 m to 4.05 m behind the deck's front",
		// Two beams 1,562 lb, 20 crossmembers, floor and the rest as TestEstimate adds them: 6,289.5 lb
		// is 2,852.9 kg, to the nearest five.
		"estimated-empty": "about 2,855 kg",
	} {
		f := w.Figure(name)
		if f == nil {
			t.Errorf("%s is not worked: %+v", name, w.Absent)
			continue
		}
		if got := w.Metric(f); got != want {
			t.Errorf("%s: %s is %q, want %q", name, f.Text, got, want)
		}
	}
	// The rungs go down, each from its own exact pounds: 306 x (20,000 - 5,430) / 258 is
	// 17,280.7 lb or 7,838.4 kg.
	for label, want := range map[string]string{
		"the GVWR": "5,878 kg", "the axles, even load": "7,838 kg", "the tires, even load": "10,334 kg", "the coupler": "10,414 kg", "the tongue limit, even load": "17,031 kg",
	} {
		i := slices.IndexFunc(w.Ladder, func(r compute.Rung) bool { return r.Label == label })
		if i < 0 || w.Ladder[i].Metric() != want {
			t.Errorf("%s: %+v, want %s", label, w.Ladder, want)
		}
	}
	// A text about the unit is turned by what was rounded; what was not speaks for itself, but
	// a limit and a stated rating go down: 12,960 lb are 5,878.56 kg, 20,000 lb 9,071.847.
	of := w.MetricOf()
	for text, want := range map[string]string{
		"16,358 lb": "7,420 kg", "3,643 lb": "1,653 kg", "6,290 lb": "2,855 kg", "17,280 lb": "7,838 kg", "113 ft": "34.29 m", "22,783 lb": "10,334 kg",
		"12,960 lb": "5,878 kg", "20,000 lb": "9,071 kg", "28 ft": "", "22,960 lb": "", "about 6,290 lb": "", "2 tie-downs": "",
	} {
		if of[text] != want {
			t.Errorf("%s is turned to %q, want %q", text, of[text], want)
		}
	}
	rough := worked(t, gooseneck, "empty: 7,040 lb", "empty: about 7,040 lb")
	if got := rough.Metric(rough.Figure("tag-payload")); got != "about 5,878 kg" || rough.Ladder[0].Metric() != "about 5,878 kg" {
		t.Errorf("about: %q and %q", got, rough.Ladder[0].Metric())
	}
	if f := rough.Figure("tie-down-count"); f == nil || rough.Metric(f) != "" {
		t.Errorf("tie-downs in metric: %+v", f)
	}
	// An estimate to ten pounds is one to five kilograms.
	guessed := worked(t, heavy, "  tongue-empty: 1,610 lb\n", "")
	if f := guessed.Figure("estimated-tongue"); f == nil || guessed.Metric(f) != fmt.Sprintf("about %s kg", measure.Number(math.Round(f.Value*0.45359237/5)*5, 0)) {
		t.Errorf("the estimated tongue: %+v is %q", f, guessed.Metric(f))
	}
	// The placard prints whole kilograms (49 CFR 571.110 S4.3.5), and so does its figure:
	// check values 2.8, 4,987 lb = 2,262 kg, and 2.9, 1,003 lb = 454 kg.
	for empty, want := range map[string]string{"2,013 lb": "2,262 kg", "5,997 lb": "454 kg"} {
		light := worked(t, gooseneck, "gvwr: 20,000 lb", "gvwr: 7,000 lb", "empty: 7,040 lb", "empty: "+empty, "tongue-empty: 1,610 lb", "tongue-empty: 900 lb")
		if f := light.Figure("cargo-placard"); f == nil || light.Metric(f) != want {
			t.Errorf("the placard of %s empty: %+v is %q, want %s", empty, f, light.Metric(f), want)
		}
	}
}
