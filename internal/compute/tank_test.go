package compute_test

import (
	"math"
	"testing"
)

// TestTank compares a tank with the definition of the kilogram as a liter of water, and with NIST
// Special Publication 811 (2008), B.8: a US gallon is 3.785 412 L, a pound 0.453 592 37 kg. The
// trailer of this package's tests carries 12,960 lb by its label (20,000 - 7,040).
func TestTank(t *testing.T) {
	const pounds = 3.785412 / 0.45359237 // of a gallon of water
	for _, c := range []struct {
		tank       string
		full, most float64
	}{
		{`tank: {length: 8 ft, volume: "1,000 gal", liquid: water}`, 1000 * pounds, 1000},
		{`tank: {length: 8 ft, volume: "3,785 L", liquid: water}`, 3785 / 0.45359237, 3785 / 3.785412},
		{`tank: {length: 8 ft, volume: "2,000 gal", liquid: water}`, 2000 * pounds, 12960 / pounds},
	} {
		w := work(t, lines(c.tank, `weights: {gvwr: "20,000 lb", empty: "7,040 lb"}`))
		if !w.TankFull.Known || math.Abs(float64(w.TankFull.Value)-c.full) > 0.0005*c.full {
			t.Errorf("%s: full it weighs %v, want %.1f lb", c.tank, w.TankFull.Value, c.full)
		}
		if !w.TankMost.Known || math.Abs(float64(w.TankMost.Value)-c.most) > 0.1 {
			t.Errorf("%s: fill to %v, want %.1f gal", c.tank, w.TankMost.Value, c.most)
		}
	}
	if w := work(t, lines(`deck: {length: 20 ft}`)); w.TankFull.Known || w.Figure("tank-full") != nil {
		t.Error("a trailer without a tank has one")
	}
}
