package crosscheck

import (
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/walkaround"
)

// TestRounder has figures that people round another one to, and figures that are as exact as the
// other one. A person decided each from how round the two are.
func TestRounder(t *testing.T) {
	for _, c := range []struct {
		said, right float64
		want        bool
	}{
		{16000, 15960, true}, {15960, 16000, false}, {58050, 58550, false},
		{17000, 15000, true}, // two whole thousands
		{1500, 1600, true}, {1700, 1750, true}, {1650, 1660, true}, {1710, 1705, true},
		{1750, 1500, false}, {1600, 1200, false}, {1703, 1702.4, true}, {1703.5, 1702.4, false},
	} {
		if got := rounder(c.said, c.right); got != c.want {
			t.Errorf("%v for %v is rounder: %v", c.said, c.right, got)
		}
	}
}

// TestComesOut is at, below and above each limit: half a pound, a thousandth for a word that was
// heard as a part of the figure, 2.5% for "about" and for what is rounded down.
func TestComesOut(t *testing.T) {
	for _, c := range []struct {
		said, right float64
		how         walkaround.Comparison
		want        bool
	}{
		{100.4, 100, "", true}, {100.5, 100, "", false}, {99.6, 100, "", true}, {99.5, 100, "", false},
		{10010, 10000, "", true}, {10011, 10000, "", false},
		{5, -5, walkaround.About, false}, {5, 0, walkaround.About, false},
		{10250, 10000, walkaround.About, true}, {10251, 10000, walkaround.About, false},
		{9750, 10000, walkaround.About, true}, {9749, 10000, walkaround.About, false},
		{15000, 15380, "", true}, {15000, 15390, "", false}, {15000, 15380, walkaround.AtLeast, false},
		{5000, 10000, walkaround.Over, true}, {11000, 10000, walkaround.Under, true}, {11001, 10000, walkaround.Under, false},
	} {
		if got := comesOut(c.said, c.right, c.how); got != c.want {
			t.Errorf("%s %v for %v comes out: %v", c.how, c.said, c.right, got)
		}
	}
}

// TestWorked works out claims of which a person knows the result: 7,000 - 5,000, 14,000 - 3,000, and
// 10 ft x 6 ft x 3 ft / 27 = 6.67 cubic yards.
func TestWorked(t *testing.T) {
	of := func(terms ...float64) (out [][]float64) {
		for _, v := range terms {
			out = append(out, []float64{v})
		}
		return out
	}
	for _, c := range []struct {
		name    string
		claim   walkaround.Claim
		payload measure.Pounds
		want    Verdict
		right   float64
	}{
		{"twice too much", walkaround.Claim{Operation: walkaround.Less, Terms: of(7000, 5000), Result: []float64{4000}}, 0, Differs, 2000},
		{"more is not understood", walkaround.Claim{Operation: walkaround.Less, Terms: of(7000, 5000), Result: []float64{4001}}, 0, Unstated, 0},
		{"half of it", walkaround.Claim{Operation: walkaround.Less, Terms: of(7000, 5000), Result: []float64{1000}}, 0, Differs, 2000},
		{"less is not understood", walkaround.Claim{Operation: walkaround.Less, Terms: of(7000, 5000), Result: []float64{999}}, 0, Unstated, 0},
		{"the nearest reading is last", walkaround.Claim{Operation: walkaround.Less, Terms: [][]float64{{7000, 7400}, {5000}}, Result: []float64{2300}}, 0, Differs, 2400},
		{"the nearest reading is first", walkaround.Claim{Operation: walkaround.Less, Terms: [][]float64{{7400, 7000}, {5000}}, Result: []float64{2300}}, 0, Differs, 2400},
		{"a nearest one that is larger", walkaround.Claim{Operation: walkaround.Less, Terms: [][]float64{{7400, 6900}, {5000}}, Result: []float64{2100}}, 0, Differs, 1900},
		{"a volume, rounded", walkaround.Claim{Operation: walkaround.Volume, Terms: of(10, 6, 3, 27), Result: []float64{7}}, 0, Agrees, 180.0 / 27},
		{"a volume of another box", walkaround.Claim{Operation: walkaround.Volume, Terms: of(10, 6, 3, 27), Result: []float64{8}}, 0, Differs, 180.0 / 27},
		{"to spare after the first figure", walkaround.Claim{Operation: walkaround.Leaves, Spare: true, Terms: of(3000, 9000, 14000), Result: []float64{6500}}, 0, Differs, 11000},
		{"left of the whole", walkaround.Claim{Operation: walkaround.Leaves, Terms: of(9000, 14000), Result: []float64{4000}}, 0, Differs, 5000},
		{"a whole that was said after its part", walkaround.Claim{Operation: walkaround.Leaves, Terms: of(14000, 9000), Result: []float64{4000}}, 0, Unstated, 0},
		{"just under, within a tenth", walkaround.Claim{Operation: walkaround.Holds, Load: true, Compare: walkaround.Under, Result: []float64{11000}}, 10000, Agrees, 10000},
		{"just under, beyond a tenth", walkaround.Claim{Operation: walkaround.Holds, Load: true, Compare: walkaround.Under, Result: []float64{11112}}, 10000, Differs, 10000},
		{"a load of the payload", walkaround.Claim{Operation: walkaround.Holds, Load: true, Result: []float64{10000}}, 10000, Agrees, 10000},
		{"a pound more", walkaround.Claim{Operation: walkaround.Holds, Load: true, Result: []float64{10001}}, 10000, Differs, 10000},
		{"taken back", walkaround.Claim{Operation: walkaround.Holds, Load: true, Retracted: true, Result: []float64{10001}}, 10000, Unstated, 0},
	} {
		if got := Work(c.claim, c.payload); got.Verdict != c.want || got.Right != c.right {
			t.Errorf("%s: %+v, want %v and %v", c.name, got, c.want, c.right)
		}
	}
}
