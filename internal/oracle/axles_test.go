package oracle_test

import (
	"math"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/oracle"
)

// Published cases of a load on a two-axle truck.
func TestAxleEffects(t *testing.T) {
	for _, c := range []struct {
		name                      string
		tongue, wheelbase, behind float64
		front, rear               float64
		within                    float64
	}{
		// Check values 8.11 and 8.12, worked by hand from the equilibrium of a beam.
		{"8.11 ball behind the axle", 1000, 140, 50, -357.1, 1357.1, 0.05},
		{"8.12 gooseneck ball ahead of it", 3000, 160, -4, 75, 2925, 1e-9},
		// 8.16, a truck maker's body-builder manual, Appendix B: wheelbase 214 in, load at
		// 133 in from the front axle. The manual prints 62.15 and 38.86; the second is a
		// slip, because the two must add up to the 100 lb in the manual.
		{"8.16", 100, 214, 133 - 214, 37.85, 62.15, 0.005},
	} {
		front, rear := oracle.AxleEffects(measure.Pounds(c.tongue), measure.Inches(c.wheelbase), measure.Inches(c.behind))
		if !nearly(front, c.front, c.within) || !nearly(rear, c.rear, c.within) {
			t.Errorf("%s: front %v rear %v, want %v and %v", c.name, front, rear, c.front, c.rear)
		}
		if !nearly(front+rear, c.tongue, 1e-9) {
			t.Errorf("%s: front and rear add up to %v", c.name, front+rear)
		}
	}
	if front, _ := oracle.AxleEffects(100, 214, 133-214); nearly(front, 38.86, 0.5) {
		t.Error("8.16: the manual's slip is reproduced")
	}
}

// Check value 8.9, a statics textbook's problem 6.95: a 2,400-lb trailer behind a
// 2,900-lb pickup. Statement from the textbook; its dimensions and printed answers (982,
// 935 and 733 lb a wheel, +291 and -72.7) from memory, and they fit each other.
func TestTextbookPickup(t *testing.T) {
	rig := compute.Rig{Empty: 2400, Tongue: measure.Pounds(2400 * 2.0 / 11), Axles: 11 * 12}
	tongue, axles := rig.Standing(nil)
	front, rear := oracle.AxleEffects(tongue, 9*12, 3*12)
	truckRear, truckFront := 2900*4.0/9, 2900*5.0/9
	for _, c := range []struct {
		what string
		got  float64
		want float64
		off  float64
	}{
		{"trailer", float64(axles) / 2, 982, 0.5},
		{"truck rear", (truckRear + float64(rear)) / 2, 935, 0.5},
		{"truck front", (truckFront + float64(front)) / 2, 733, 0.5},
		{"change at the rear", float64(rear) / 2, 291, 0.5},
		{"change at the front", float64(front) / 2, -72.7, 0.05},
	} {
		if math.Abs(c.got-c.want) > c.off {
			t.Errorf("%s: %.2f lb a wheel, the book has %v", c.what, c.got, c.want)
		}
	}
}

// Check value 8.10: the same pickup with a weight-distributing moment of 1,945.9 lb-ft, an
// ideal couple at the ball, so that its four wheels gain equally. The couple lifts the ball
// by moment / 11 ft and moves moment / 9 ft from the rear axle to the front one (beam
// statics); what the ball then bears goes through AxleEffects. Answers of the check value,
// computed there and not the textbook's chain geometry.
func TestTextbookPickupWithACouple(t *testing.T) {
	const couple = 1945.9
	ball := 2400*2.0/11 - couple/11
	if !nearly(measure.Pounds(ball), 259.5, 0.1) {
		t.Errorf("the ball bears %.1f lb, want 259.5", ball)
	}
	front, rear := oracle.AxleEffects(measure.Pounds(ball), 9*12, 3*12)
	perFront := (2900*5.0/9 + float64(front) + couple/9) / 2
	perRear := (2900*4.0/9 + float64(rear) - couple/9) / 2
	perTrailer := (2400 - ball) / 2
	for what, c := range map[string][2]float64{
		"trailer": {perTrailer, 1070.3}, "rear": {perRear, 709.3}, "front": {perFront, 870.4},
		"all wheels": {2 * (perTrailer + perRear + perFront), 5300},
	} {
		if !nearly(measure.Pounds(c[0]), c[1], 0.1) {
			t.Errorf("%s: %.1f lb a wheel, want %v", what, c[0], c[1])
		}
	}
	if gain := perFront - 2900*5.0/18; !nearly(measure.Pounds(gain), perRear-2900*4.0/18, 0.1) {
		t.Errorf("the front gains %.1f lb a wheel, the rear does not", gain)
	}
}

// Check value 8.8, an Army manual's percentage method: 14, 21, 21, 22 and 22% of 96,500 lb.
func TestPercentageMethod(t *testing.T) {
	var sum measure.Pounds
	for i, c := range []struct {
		share measure.Share
		want  measure.Pounds
	}{{0.14, 13510}, {0.21, 20265}, {0.21, 20265}, {0.22, 21230}, {0.22, 21230}} {
		got := c.share.Of(96500)
		if got != c.want {
			t.Errorf("axle %d: %s, want %s", i+1, got, c.want)
		}
		sum += got
	}
	if sum != 96500 {
		t.Errorf("the axles add up to %s", sum)
	}
}
