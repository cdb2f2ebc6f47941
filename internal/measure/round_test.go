package measure_test

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	_ "tarepage/internal/fixedseed"
	"tarepage/internal/measure"
)

// whole is v worked exactly to a whole number of steps, by big.Rat and not by floats.
func whole(v, step float64, up bool) *big.Rat {
	s := new(big.Rat).SetFloat64(step)
	q := new(big.Rat).Quo(new(big.Rat).SetFloat64(v), s)
	n := new(big.Int)
	r := new(big.Int)
	n.DivMod(q.Num(), q.Denom(), r)
	if up && r.Sign() != 0 {
		n.Add(n, big.NewInt(1))
	}
	return new(big.Rat).Mul(new(big.Rat).SetInt(n), s)
}

// Limits go down and loads go up, by less than a step; what is within a millionth of a
// step counts as the step; rounding twice changes nothing.
func TestRoundingHoldsItsDirection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.SampledFrom([]float64{1, 100, 0.25, 0.1, 0.01}).Draw(t, "step")
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		const slack = 2e-6
		down, up := measure.Down(v, step), measure.Up(v, step)
		if down > v+slack*step || down <= v-(1+slack)*step {
			t.Fatalf("Down(%v, %v) = %v", v, step, down)
		}
		if up < v-slack*step || up >= v+(1+slack)*step {
			t.Fatalf("Up(%v, %v) = %v", v, step, up)
		}
		if again := measure.Down(down, step); again != down {
			t.Fatalf("Down twice: %v, then %v", down, again)
		}
		if again := measure.Up(up, step); again != up {
			t.Fatalf("Up twice: %v, then %v", up, again)
		}
		if n := measure.Nearest(v, step); math.Abs(n-v) > step*(0.5+slack) {
			t.Fatalf("Nearest(%v, %v) = %v", v, step, n)
		}
		if -measure.Up(-v, step) != down {
			t.Fatalf("down of %v is %v, up of its negative %v", v, down, measure.Up(-v, step))
		}
	})
}

// Away from the slack the whole pounds are the ones that exact arithmetic gives.
func TestRoundingAgainstExactArithmetic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(0, 1e7).Draw(t, "v")
		if math.Abs(v-math.Round(v)) < 2e-6 {
			return
		}
		if want, _ := whole(v, 1, false).Float64(); float64(measure.Down(measure.Pounds(v), 1)) != want {
			t.Fatalf("Down(%v) = %v, want %v", v, measure.Down(v, 1), want)
		}
		if want, _ := whole(v, 1, true).Float64(); float64(measure.Up(measure.Pounds(v), 1)) != want {
			t.Fatalf("Up(%v) = %v, want %v", v, measure.Up(v, 1), want)
		}
	})
}

func TestRounding(t *testing.T) {
	for _, c := range []struct{ v, step, down, up, nearest float64 }{
		{12960, 1, 12960, 12960, 12960},
		{12959.4, 1, 12959, 12960, 12959},
		{12959.5, 1, 12959, 12960, 12960},
		{12959.999, 1, 12959, 12960, 12960},
		{12959.9999995, 1, 12960, 12960, 12960}, // within the slack: it is the step
		{12960.0000005, 1, 12960, 12960, 12960},
		{12959.99999, 1, 12959, 12960, 12960}, // outside it
		{12960.00001, 1, 12960, 12961, 12960},
		{-0.5, 1, -1, 0, -1},
		{-2532.2, 1, -2533, -2532, -2532},
		{12312, 100, 12300, 12400, 12300},
		{0, 1, 0, 0, 0},
	} {
		if got := measure.Down(c.v, c.step); got != c.down {
			t.Errorf("Down(%v, %v) = %v, want %v", c.v, c.step, got, c.down)
		}
		if got := measure.Up(c.v, c.step); got != c.up {
			t.Errorf("Up(%v, %v) = %v, want %v", c.v, c.step, got, c.up)
		}
		if got := measure.Nearest(c.v, c.step); got != c.nearest {
			t.Errorf("Nearest(%v, %v) = %v, want %v", c.v, c.step, got, c.nearest)
		}
	}
}

func TestWrittenForPeople(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{measure.Pounds(12959.7).Limit(), "12,959 lb"},
		{measure.Pounds(12959.2).Load(), "12,960 lb"},
		{measure.Pounds(-0.4).Load(), "0 lb"},
		{measure.Pounds(-2532.2).Load(), "-2,532 lb"},
		{measure.Pounds(3080.04).Near(), "3,080 lb"},
		{measure.Pounds(3080.06).Near(), "3,080.1 lb"},
		{measure.Pounds(-0.04).Near(), "0 lb"},
		{measure.Inches(102).InInches(), "102 in"},
		{measure.Inches(2.3125).InInches(), "2-5/16 in"},
		{measure.Inches(812 / 25.4).InInches(), "32 in"},
		{measure.Inches(-3.5).InInches(), "-3.5 in"},
		{measure.Inches(258.1).InFeet(), "21 ft 6 in"},
		{measure.Inches(335.9).InFeet(), "28 ft"},
		{measure.Inches(-6.25).String(), "-6-1/4 in"},
		{measure.Inches(-102).String(), "-8 ft 6 in"},
		{measure.Inches(0).String(), "0 in"},
		{measure.Feet(23.4166).Near(), "23.42 ft"},
		{measure.PSI(79.7707).Near(), "79.8 psi"},
		{measure.Degrees(21.36).Near(), "21.4 degrees"},
		{measure.SquareFeet(238.04).Near(), "238 sq ft"},
		{measure.CubicYards(7.4444).Near(), "7.4 cu yd"},
		{measure.Share(0.13689).Near(), "13.7%"},
		{measure.Dollars(18450).String(), "$18,450"},
		{measure.Dollars(18450.5).String(), "$18,450.50"},
		{measure.Dollars(-3).String(), "-$3"},
		{measure.Count(1234567), "1,234,567"},
		{measure.Count(-1234), "-1,234"},
		{measure.Number(21.50001, 2), "21.5"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// 15% of 7,700 lb is exactly 1,155 lb, though 0.15 is not a binary number: a trailer
// whose tongue weighs just the band's end is inside it.
func TestShareOfIsExact(t *testing.T) {
	if got := measure.Share(0.15).Of(7700); got != 1155 {
		t.Errorf("15%% of 7,700 lb is %v", float64(got))
	}
	rapid.Check(t, func(t *rapid.T) {
		tenths := rapid.IntRange(0, 1000).Draw(t, "tenths of a percent")
		pounds := rapid.IntRange(0, 100000).Draw(t, "pounds")
		w, err := measure.ParseShare(measure.Number(float64(tenths)/10, 1) + "%")
		if err != nil {
			t.Fatal(err)
		}
		want, _ := big.NewRat(int64(tenths)*int64(pounds), 1000).Float64()
		if got := w.Value.Of(measure.Pounds(pounds)); float64(got) != want {
			t.Fatalf("%d/1000 of %d lb is %v, want %v", tenths, pounds, float64(got), want)
		}
	})
	if got := measure.Share(1.0 / 3).Of(300); !near(float64(got), 100, 1e-15) {
		t.Errorf("a third of 300 lb is %v", float64(got))
	}
}

// 1,925 lb / 1.10 is exactly 1,750 lb and passes an axle rated 3,500 lb: 49 CFR 571.110
// S4.2.2.2 is inclusive, and 1925 / 1.1 in binary is not 1750.
func TestPartIsExact(t *testing.T) {
	if got := measure.Pounds(1925).Part(10, 11); got != 1750 {
		t.Errorf("1,925 lb x 10/11 is %v", float64(got))
	}
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.IntRange(0, 10000).Draw(t, "p")
		want, _ := big.NewRat(int64(p)*10, 11).Float64()
		if got := measure.Pounds(p).Part(10, 11); float64(got) != want {
			t.Fatalf("%d x 10/11 is %v, want %v", p, float64(got), want)
		}
	})
}

// Products and quotients against exact arithmetic: each is rounded once, to the
// nearest float64 of the exact result, or to its neighbor where two steps are taken.
func TestProductsAgainstExactArithmetic(t *testing.T) {
	rat := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	mul := func(a, b float64) float64 { f, _ := new(big.Rat).Mul(rat(a), rat(b)).Float64(); return f }
	quo := func(a, b float64) float64 { f, _ := new(big.Rat).Quo(rat(a), rat(b)).Float64(); return f }
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0.01, 1e5).Draw(t, "a")
		b := rapid.Float64Range(0.01, 1e5).Draw(t, "b")
		n := rapid.IntRange(0, 12).Draw(t, "n")
		check := func(what string, got, want, relative float64) {
			if !near(got, want, relative) {
				t.Fatalf("%s of %v and %v is %v, want %v", what, a, b, got, want)
			}
		}
		lb, in := measure.Pounds(a), measure.Inches(b)
		check("moment", float64(measure.Moment(lb, in)), mul(a, b), 0)
		check("weight at", float64(measure.WeightAt(measure.PoundInches(a), in)), quo(a, b), 0)
		check("arm of", float64(measure.ArmOf(measure.PoundInches(a), measure.Pounds(b))), quo(a, b), 0)
		check("share", float64(measure.ShareOf(lb, measure.Pounds(b))), quo(a, b), 0)
		check("share of length", float64(measure.ShareOfLength(measure.Inches(a), in)), quo(a, b), 0)
		check("share of pressure", float64(measure.ShareOfPressure(measure.PSI(a), measure.PSI(b))), quo(a, b), 0)
		check("of length", float64(measure.Share(a).OfLength(in)), mul(a, b), 0)
		check("times", float64(lb.Times(n)), mul(a, float64(n)), 0)
		check("times length", float64(measure.Inches(a).Times(n)), mul(a, float64(n)), 0)
		check("half", float64(in.Half()), quo(b, 2), 0)
		check("area", float64(measure.Area(measure.Inches(a), in)), quo(mul(a, b), 144), 4e-16)
		check("weight of length", float64(measure.WeightOfLength(in, measure.PoundsPerFoot(a))), quo(mul(a, b), 12), 4e-16)
		check("weight of volume", float64(measure.WeightOfVolume(measure.CubicYards(a), measure.PoundsPerCubicYard(b))), mul(a, b), 0)
	})
	// A cubic yard is 36 in a side: NIST SP 811 (2008) B.6, 1 yd = 36 in.
	if v := measure.Volume(168, 83, 24); !near(float64(v), 168.0*83*24/46656, 1e-15) {
		t.Errorf("the volume of a 14 ft x 83 in x 24 in bed is %v", v)
	}
	// A 3-4-5 triangle: a ramp of 5 ft to a height of 3 ft stands at 36.87 degrees
	// (Euclid I.47; the angle from any table of sines).
	if d, ok := measure.Incline(36, 60); !ok || math.Abs(float64(d)-36.8699) > 1e-4 {
		t.Errorf("3 ft over 5 ft is %v, %v", d, ok)
	}
	if d, ok := measure.Incline(30, 60); !ok || math.Abs(float64(d)-30) > 1e-12 {
		t.Errorf("half the ramp's length is %v, %v; want 30 degrees", d, ok)
	}
	for _, c := range [][2]measure.Inches{{61, 60}, {10, 0}, {-1, 60}} {
		if d, ok := measure.Incline(c[0], c[1]); ok {
			t.Errorf("a ramp of %v to a height of %v stands at %v", c[1], c[0], d)
		}
	}
	if got := measure.Share(0.25).Power(0.5); got != 0.5 {
		t.Errorf("the root of a quarter is %v", float64(got))
	}
}

func TestAgrees(t *testing.T) {
	for _, c := range []struct {
		written, worked, step float64
		about, want           bool
	}{
		{12960, 12960, 1, false, true},
		{12960, 12960.7, 1, false, true},
		{12961, 12960, 1, false, false},
		{12959, 12960, 1, false, false},
		{12960, 12960.0000000001, 1, false, true},
		// A whole step apart except for the last bits of a float64 is a whole step apart.
		{12961, 12960.0000001, 1, false, false},
		// The allowance of docs/design.md for "about": 2.5%, both ends inside.
		{12636, 12960, 1, true, true},
		{13284, 12960, 1, true, true},
		{12635, 12960, 1, true, false},
		{13285, 12960, 1, true, false},
	} {
		if got := measure.Agrees(c.written, c.worked, c.step, c.about); got != c.want {
			t.Errorf("%v for %v, step %v, about %v: %v", c.written, c.worked, c.step, c.about, got)
		}
	}
}

func TestFinite(t *testing.T) {
	for v, want := range map[float64]bool{0: true, -1e300: true, math.Inf(1): false, math.Inf(-1): false} {
		if measure.Finite(v) != want {
			t.Errorf("Finite(%v) is %v", v, !want)
		}
	}
	if measure.Finite(math.NaN()) {
		t.Error("not a number counts as one")
	}
}
