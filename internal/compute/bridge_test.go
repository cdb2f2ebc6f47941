package compute_test

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// The federal bridge table, 23 USC 127(a)(2), 23 CFR 658.5: pounds by whole feet L and
// number of axles N, as it is printed; zero where nothing is printed. Rows 4 to 32 and
// "more than 8" as Wash. RCW 46.44.041 reproduces them; rows 33 to 60 were worked by the
// same rule, for the FHWA booklet was not at hand.
// The columns are N = 2 to 7.
var bridgeTable = map[int][6]int{
	4: {34000}, 5: {34000}, 6: {34000}, 7: {34000}, 8: {34000, 34000},
	9: {39000, 42500}, 10: {40000, 43500}, 11: {0, 44000},
	12: {0, 45000, 50000}, 13: {0, 45500, 50500}, 14: {0, 46500, 51500}, 15: {0, 47000, 52000},
	16: {0, 48000, 52500, 58000}, 17: {0, 48500, 53500, 58500}, 18: {0, 49500, 54000, 59000}, 19: {0, 50000, 54500, 60000},
	20: {0, 51000, 55500, 60500, 66000}, 21: {0, 51500, 56000, 61000, 66500}, 22: {0, 52500, 56500, 61500, 67000},
	23: {0, 53000, 57500, 62500, 68000}, 24: {0, 54000, 58000, 63000, 68500, 74000},
	25: {0, 54500, 58500, 63500, 69000, 74500}, 26: {0, 55500, 59500, 64000, 69500, 75000},
	27: {0, 56000, 60000, 65000, 70000, 75500}, 28: {0, 57000, 60500, 65500, 71000, 76500},
	29: {0, 57500, 61500, 66000, 71500, 77000}, 30: {0, 58500, 62000, 66500, 72000, 77500},
	31: {0, 59000, 62500, 67500, 72500, 78000}, 32: {0, 60000, 63500, 68000, 73000, 78500},
	33: {0, 0, 64000, 68500, 74000, 79000}, 34: {0, 0, 64500, 69000, 74500, 80000},
	35: {0, 0, 65500, 70000, 75000, 80500}, 36: {0, 0, 66000, 70500, 75500, 81000},
	37: {0, 0, 66500, 71000, 76000, 81500}, 38: {0, 0, 67500, 71500, 77000, 82000},
	39: {0, 0, 68000, 72500, 77500, 82500}, 40: {0, 0, 68500, 73000, 78000, 83500},
	41: {0, 0, 69500, 73500, 78500, 84000}, 42: {0, 0, 70000, 74000, 79000, 84500},
	43: {0, 0, 70500, 75000, 80000, 85000}, 44: {0, 0, 71500, 75500, 80500, 85500},
	45: {0, 0, 72000, 76000, 81000, 86000}, 46: {0, 0, 72500, 76500, 81500, 87000},
	47: {0, 0, 73500, 77500, 82000, 87500}, 48: {0, 0, 74000, 78000, 83000, 88000},
	49: {0, 0, 74500, 78500, 83500, 88500}, 50: {0, 0, 75500, 79000, 84000, 89000},
	51: {0, 0, 76000, 80000, 84500, 89500}, 52: {0, 0, 76500, 80500, 85000, 90500},
	53: {0, 0, 77500, 81000, 86000, 91000}, 54: {0, 0, 78000, 81500, 86500, 91500},
	55: {0, 0, 78500, 82500, 87000, 92000}, 56: {0, 0, 79500, 83000, 87500, 92500},
	57: {0, 0, 80000, 83500, 88000, 93000}, 58: {0, 0, 80500, 84000, 89000, 94000},
	59: {0, 0, 81500, 85000, 89500, 94500}, 60: {0, 0, 82000, 85500, 90000, 95000},
}

func TestBridgeTable(t *testing.T) {
	cells := 0
	for feet, row := range bridgeTable {
		for i, want := range row {
			n := i + 2
			got := compute.AxleGroupMost(n, measure.Feet(feet).Inches()).Most
			if want == 0 {
				// Not printed for 2 and 3 axles: there 20,000 lb an axle is less than the formula.
				if n == 2 && feet >= 11 && got != 40000 || n == 3 && feet >= 33 && got != 60000 {
					t.Errorf("N=%d L=%d: %v, want the cap of 20,000 lb an axle", n, feet, got)
				}
				continue
			}
			cells++
			if feet > 8 && compute.BridgeFormula(n, feet) != measure.Pounds(want) {
				t.Errorf("N=%d L=%d: the formula gives %v, the table has %d", n, feet, compute.BridgeFormula(n, feet), want)
			}
			// The table prints 80,500 and more for four axles from 58 ft; 20,000 lb an axle
			// (658.17(c)) leaves them 80,000.
			if most := measure.Pounds(min(want, 20000*n)); got != most {
				t.Errorf("N=%d L=%d: %v, want %v", n, feet, got, most)
			}
		}
	}
	// 57 rows: 7 cells for two axles, 25 for three, 49, 45, 41 and 37 for four to seven.
	if cells != 7+25+49+45+41+37 {
		t.Errorf("compared %d cells", cells)
	}
	// The row "more than 8 feet" (RCW 46.44.041): any span over 8 ft and under 9.
	for _, span := range []measure.Inches{96.25, 100, 102, 107.75} {
		if two, three := compute.AxleGroupMost(2, span).Most, compute.AxleGroupMost(3, span).Most; two != 38000 || three != 42000 {
			t.Errorf("%v: %v and %v, want 38,000 and 42,000", span, two, three)
		}
	}
}

// TestBridgeFormulaRationally holds the whole-number rounding against math/big: W to the
// nearest 500, halves down, for many more axles and feet than any table.
func TestBridgeFormulaRationally(t *testing.T) {
	for n := 2; n <= 30; n++ {
		for feet := 0; feet <= 200; feet++ {
			exact := big.NewRat(int64(500*feet*n), int64(n-1))
			exact.Add(exact, big.NewRat(int64(500*(12*n+36)), 1))
			got := new(big.Rat)
			got.SetFloat64(float64(compute.BridgeFormula(n, feet)))
			// got - exact must lie in [-250, 250): a tie at +250 would have gone up.
			diff := new(big.Rat).Sub(got, exact)
			if diff.Cmp(big.NewRat(-250, 1)) < 0 || diff.Cmp(big.NewRat(250, 1)) >= 0 {
				t.Fatalf("N=%d L=%d: %s against exactly %s", n, feet, got.FloatString(0), exact.FloatString(3))
			}
			if new(big.Rat).Quo(got, big.NewRat(500, 1)).IsInt() == false {
				t.Fatalf("N=%d L=%d: %s is not a multiple of 500", n, feet, got.FloatString(0))
			}
		}
	}
}

// Check values 5.1 to 5.13 of 23 CFR 658.17 and 658.5; 5.2 and 5.3 as RCW 46.44.041
// prints them, 5.6 by the FHWA's own words ("66,000 to 67,500 on tandems spaced 36 to 38
// feet"), 5.13 by the FHWA's FAQ on size and weight.
func TestAxleGroupMost(t *testing.T) {
	ft := func(f float64) measure.Inches { return measure.Feet(f).Inches() }
	for _, c := range []struct {
		name string
		n    int
		span measure.Inches
		want measure.Pounds
	}{
		{"one axle, 658.17(c)", 1, 0, 20000},
		{"5.1", 2, ft(4), 34000},
		{"5.2: not the formula's 38,000", 2, ft(8), 34000},
		{"5.3", 3, ft(8), 34000},
		{"5.4", 3, ft(20), 51000},
		{"5.5", 4, ft(35), 65500},
		{"5.6", 4, ft(36), 66000},
		{"5.6", 4, ft(37), 66500},
		{"5.6", 4, ft(38), 67500},
		{"5.7", 5, ft(51), 80000},
		{"5.8", 5, ft(48), 78000},
		{"5.9", 4, ft(57), 80000},
		{"5.9", 6, ft(43), 80000},
		{"5.9", 7, ft(34), 80000},
		{"5.13: not the formula's 40,125", 3, 66, 34000},
		{"40 in is one axle (658.5)", 2, 40, 20000},
		{"more than 40 in is a tandem (658.5)", 2, 40.25, 34000},
		{"812.8 mm twice is 64 in", 3, measure.FromMillimeters(1625.6), 34000},
		{"2,438.4 mm is 96 in and no more", 2, measure.FromMillimeters(2438.4), 34000},
		{"a part of a foot is not counted", 4, ft(35.9), 65500},
	} {
		if got := compute.AxleGroupMost(c.n, c.span).Most; got != c.want {
			t.Errorf("%s: N=%d span %v: %v, want %v", c.name, c.n, c.span, got, c.want)
		}
	}
	if one, none, back := compute.BridgeFormula(1, 20), compute.AxleGroupMost(0, 20).Most, compute.BridgeFormula(3, -1); one != 0 || none != 0 || back != 0 {
		t.Errorf("one axle %v, no axle %v, three over less than nothing %v: want no formula", one, none, back)
	}
	if got := compute.AxleGroupMost(3, measure.Inches(math.NaN())).Most; got != 20000 {
		t.Errorf("a span that is not a number allows %v, want the least", got)
	}
	for feet := 33; feet < 57; feet++ {
		if compute.BridgeFormula(4, feet) >= 80000 {
			t.Errorf("5.9: N=4 reaches 80,000 before 57 ft, at %d", feet)
		}
	}
}

func axlesAt(weight measure.Pounds, feet ...float64) []compute.StandingAxle {
	var out []compute.StandingAxle
	for _, f := range feet {
		out = append(out, compute.StandingAxle{At: measure.Feet(f).Inches(), Weight: weight})
	}
	return out
}

func over(runs []compute.AxleRun) (out [][2]int) {
	for _, r := range runs {
		if r.Over() {
			out = append(out, [2]int{r.First + 1, r.Last + 1})
		}
	}
	return out
}

func TestAxleRuns(t *testing.T) {
	// 5.10, the example of the FHWA's booklet (its layout from memory): 12,000 on the
	// steering axle and two tandems of 34,000; 1-3 is 20 ft, 1-5 is 51 ft, 2-5 is 35 ft.
	rig := func(steer float64) []compute.StandingAxle {
		return append(axlesAt(12000, steer), axlesAt(17000, 16, 20, 47, 51)...)
	}
	if got := over(compute.AxleRuns(rig(0))); !slices.Equal(got, [][2]int{{2, 5}}) {
		t.Errorf("5.10: over are %v, want axles 2 to 5 alone", got)
	}
	// 5.11: with 36 ft from 2 to 5 the exception of 658.17(e) holds.
	longer := append(axlesAt(12000, 0), axlesAt(17000, 15, 19, 47, 51)...)
	if got := over(compute.AxleRuns(longer)); got != nil {
		t.Errorf("5.11: over are %v, want none", got)
	}
	for _, r := range compute.AxleRuns(longer) {
		if r.First == 1 && r.Last == 4 && r.Limit.Most != 68000 {
			t.Errorf("5.11: the two tandems may carry %v, want 68,000", r.Limit.Most)
		}
		if r.First == 0 && r.Last == 4 && r.Limit.Most != 80000 {
			t.Errorf("5.10: the whole may weigh %v, want 80,000", r.Limit.Most)
		}
	}
	// The exception is for tandems: four single axles over 36 ft keep the formula.
	for _, r := range compute.AxleRuns(axlesAt(16600, 0, 12, 24, 36)) {
		if r.First == 0 && r.Last == 3 && (r.Limit.Most != 66000 || !r.Over()) {
			t.Errorf("four singles over 36 ft may weigh %v, want 66,000", r.Limit.Most)
		}
	}
	// 5.12: pickup and tandem gooseneck, nothing over.
	pickup := append(axlesAt(5000, 0), axlesAt(9500, 12)...)
	pickup = append(pickup, axlesAt(12000, 34, 38)...)
	runs := compute.AxleRuns(pickup)
	if got := over(runs); got != nil {
		t.Errorf("5.12: over are %v, want none", got)
	}
	for _, r := range runs {
		if r.First == 1 && r.Last == 3 && (r.Limit.Most != 55500 || r.Weight != 33500) {
			t.Errorf("5.12: drive to trailer %v of %v, want 33,500 of 55,500", r.Weight, r.Limit.Most)
		}
	}
	// 658.17(b): the formula allows seven axles over 60 ft 95,000 lb, the whole never
	// more than 80,000. 658.17(c): the order in which axles are given does not matter.
	wide := axlesAt(12000, 60, 0, 10, 20, 30, 40, 50)
	if got := over(compute.AxleRuns(wide)); !slices.Equal(got, [][2]int{{1, 7}}) {
		t.Errorf("84,000 lb on seven axles: over are %v, want all of them together", got)
	}
	if got := compute.AxleRuns(nil); got != nil {
		t.Errorf("no axles: %v", got)
	}
}
