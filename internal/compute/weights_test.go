package compute_test

import (
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// TestWeightsByHand: what a load eight feet long may weigh on the trailer of the fact sheet's
// check values 8.13 and 8.14, worked by hand from moments about the ball: with T0 = 1,000/3 lb,
// A = 12 ft and a load w at x, the tongue carries T0 + w (A - x)/A, the axles the rest.
func TestWeightsByHand(t *testing.T) {
	light := cargo
	light.TongueMost = 300
	for _, c := range []struct {
		name        string
		rig         compute.Rig
		feet        float64 // from the ball to the load's center
		least, most float64
		room        bool
		load        measure.Pounds
		says        string
	}{
		// 1,000/3 + w/8 <= 0.15 (2,000 + w) gives w >= 4,000/3; the gvwr and the coupler leave 5,000.
		{"before the axle", cargo, 10.5, 4000.0 / 3, 5000, true, 4000, "a load of its length may weigh 1,334 lb to 5,000 lb there; this one leaves 1,000 lb"},
		// 1,000/3 <= 0.15 (2,000 + w) gives w >= 2,000/9; 1,000/3 >= 0.10 (2,000 + w) gives w <= 4,000/3.
		{"over the axle", cargo, 12, 2000.0 / 9, 4000.0 / 3, true, 1400, "a load of its length may weigh 223 lb to 1,333 lb there; this one is 67 lb too heavy"},
		// 1,000/3 - w/24 >= 0.10 (2,000 + w) gives w <= 16,000/17, <= 0.15 (2,000 + w) gives w >= 4,000/23.
		{"behind the axle", cargo, 12.5, 4000.0 / 23, 16000.0 / 17, true, 100, "a load of its length may weigh 174 lb to 941 lb there; this one is 74 lb too light"},
		// Over the axle no load takes anything off a tongue that carries too much empty.
		{"a tongue too heavy empty", light, 12, 0, 0, false, 1000, "nothing of its length fits there"},
		// Its front edge would stand three inches before the deck, which begins 5 ft behind the ball.
		{"before the deck", cargo, 8.75, 0, 0, false, 1000, "nothing of its length fits there"},
		// At the deck's front edge the tongue takes a quarter of any load: 1,000/3 + w/4 is never
		// within 0.15 (2,000 + w).
		{"at the deck's front edge", cargo, 9, 0, 0, false, 1000, "nothing of its length fits there"},
	} {
		w := c.rig.Weights(96, measure.Feet(c.feet).Inches()-c.rig.Front)
		if w.Room != c.room {
			t.Errorf("%s: %+v", c.name, w)
		}
		if c.room && (!near(float64(w.Least), c.least, 1e-6) || !near(float64(w.Most), c.most, 1e-6)) {
			t.Errorf("%s: %+v, want %v to %v", c.name, w, c.least, c.most)
		}
		if says := w.In(measure.American, c.load); says != c.says {
			t.Errorf("%s says %q, want %q", c.name, says, c.says)
		}
	}
}
