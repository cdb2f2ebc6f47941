package measure_test

import (
	"math"
	"strings"
	"testing"

	"github.com/bcicen/go-units"

	"tarepage/internal/measure"
)

// The factors against NIST Special Publication 811 (2008 edition), Appendix B.8, typed
// here from the publication's own writing.
func TestFactorsAgainstNIST(t *testing.T) {
	for _, c := range []struct {
		what      string
		got, want float64
		relative  float64
	}{
		{"pound (avoirdupois) to kilogram: 4.535 924 E-01", measure.Pounds(1).Kilograms(), 4.535924e-01, 1.5e-7},
		{"pound, footnote 22, exactly 0.453 592 37 kg", measure.Pounds(1).Kilograms(), 0.45359237, 0},
		{"inch to millimeter: 2.54 E+01, exact", measure.Inches(1).Millimeters(), 25.4, 0},
		{"foot to meter: 3.048 E-01, exact", measure.Feet(1).Inches().Millimeters(), 304.8, 1e-15},
		{"yard to meter: 9.144 E-01, exact", measure.Feet(3).Inches().Millimeters(), 914.4, 1e-15},
		{"pound-force per square inch (psi) to kilopascal: 6.894 757 E+00", measure.PSI(1).Kilopascals(), 6.894757, 1e-7},
		{"bar to kilopascal: 1.0 E+02, exact", pressure(t, "1 bar").Kilopascals(), 100, 1e-15},
		{"square foot to square meter: 9.290 304 E-02, exact", 1 / area(t, "1 sq m"), 9.290304e-02, 1e-14},
	} {
		if !near(c.got, c.want, c.relative) {
			t.Errorf("%s: got %v, want %v", c.what, c.got, c.want)
		}
	}
}

func pressure(t *testing.T, s string) measure.PSI {
	w, err := measure.ParsePressure(s)
	if err != nil {
		t.Fatal(err)
	}
	return w.Value
}

func area(t *testing.T, s string) float64 {
	w, err := measure.ParseArea(s)
	if err != nil {
		t.Fatal(err)
	}
	return float64(w.Value)
}

// The conversions against a general library of units, github.com/bcicen/go-units, which
// keeps its own table. Its bar is left out: it holds 98,000 Pa, which NIST SP 811 B.8
// gives as 100,000; TestFactorsAgainstNIST checks ours against the latter.
func TestConversionsAgainstALibrary(t *testing.T) {
	for _, v := range []float64{1, 3.5, 812, 2313, 24000, 1e6} {
		for _, c := range []struct {
			what     string
			got      float64
			from, to units.Unit
			relative float64
		}{
			{"lb to kg", measure.Pounds(v).Kilograms(), units.Pound, units.KiloGram, 1e-12},
			{"kg to lb", float64(measure.FromKilograms(v)), units.KiloGram, units.Pound, 1e-12},
			{"in to mm", measure.Inches(v).Millimeters(), units.Inch, units.MilliMeter, 1e-12},
			{"mm to in", float64(measure.FromMillimeters(v)), units.MilliMeter, units.Inch, 1e-12},
			{"ft to in", float64(measure.Feet(v).Inches()), units.Foot, units.Inch, 1e-12},
			{"in to ft", float64(measure.Inches(v).Feet()), units.Inch, units.Foot, 1e-12},
			// The library's psi has seven digits.
			{"psi to kPa", measure.PSI(v).Kilopascals(), units.Psi, units.KiloPascal, 1e-7},
			{"kPa to psi", float64(measure.FromKilopascals(v)), units.KiloPascal, units.Psi, 1e-7},
		} {
			want, err := units.ConvertFloat(v, c.from, c.to)
			if err != nil {
				t.Fatal(err)
			}
			if !near(c.got, want.Float(), c.relative) {
				t.Errorf("%v %s: %v, the library says %v", v, c.what, c.got, want.Float())
			}
		}
	}
}

// Pairs that the Code of Federal Regulations and NHTSA's rule on rounding give.
func TestPairsOfTheRules(t *testing.T) {
	// 49 CFR 571.110 S4.3.3 prints both of these on its sample label.
	for kg, lb := range map[float64]float64{2441: 5381, 1299: 2864} {
		if got := math.Floor(float64(measure.FromKilograms(kg)) + 0.5); got != lb {
			t.Errorf("%v kg is %v lb, the rule prints %v", kg, got, lb)
		}
	}
	// 49 CFR 571.110 S9.3.2, 571.120 S10.4.2: to the kilogram first, then to the pound.
	kg := measure.Nearest(measure.Pounds(4987).Kilograms(), 1)
	if lb := measure.Nearest(measure.FromKilograms(kg), 1); kg != 2262 || lb != 4987 {
		t.Errorf("4,987 lb is %v kg and back %v lb; want 2,262 kg and 4,987 lb", kg, lb)
	}
	// A limit of 1,003 lb: the nearest kilogram is above it, so a limit goes down.
	exact := measure.Pounds(1003).Kilograms()
	if near := measure.Nearest(exact, 1); near != 455 || measure.FromKilograms(near) <= 1003 {
		t.Errorf("the nearest kilogram to 1,003 lb is %v, %v", near, measure.FromKilograms(near))
	}
	if down := measure.Down(exact, 1); down != 454 || measure.FromKilograms(down).Load() != "1,001 lb" {
		t.Errorf("1,003 lb goes down to %v kg, %v; want 454 kg, 1,001 lb", down, measure.FromKilograms(down).Load())
	}
	// The title of 49 CFR 571.110 prints 4,536 kg next to 10,000 lb.
	if kg := measure.Nearest(measure.Pounds(10000).Kilograms(), 1); kg != 4536 {
		t.Errorf("10,000 lb is %v kg, the title prints 4,536", kg)
	}
}

func TestSymbols(t *testing.T) {
	for want, u := range map[string]interface{ Symbol() string }{
		"lb": measure.Pounds(0), "in": measure.Inches(0), "ft": measure.Feet(0), "psi": measure.PSI(0),
		"USD": measure.Dollars(0), "degrees": measure.Degrees(0), "lb/ft": measure.PoundsPerFoot(0),
		"lb-in": measure.PoundInches(0), "sq ft": measure.SquareFeet(0), "cu yd": measure.CubicYards(0),
		"lb/cu yd": measure.PoundsPerCubicYard(0), "%": measure.Share(0),
	} {
		if got := u.Symbol(); got != want {
			t.Errorf("%T is %q, want %q", u, got, want)
		}
	}
}

// A weight that was written in kilograms prints as it was written, and a pound as a pound.
func TestWeightsPrintAsTheyWereWritten(t *testing.T) {
	for _, text := range []string{"24,000 lb", "10,886 kg", "3,193.5 kg", "1,610.5 lb", "0 lb", "-12 lb", "22.5 kg"} {
		v, err := measure.ParseWeight(strings.TrimPrefix(text, "-"))
		if err != nil {
			t.Fatal(err)
		}
		w := v.Value
		if strings.HasPrefix(text, "-") {
			w = -w
		}
		if got := w.String(); got != text {
			t.Errorf("%s prints as %s", text, got)
		}
	}
}

// TestVolumes compares volumes with NIST Special Publication 811 (2008), B.8: gallon (US, liquid)
// 3.785 412 E-03 m3, bushel (US) 3.523 907 E-02 m3, cubic foot 2.831 685 E-02 m3, cubic yard
// 7.645 549 E-01 m3.
func TestVolumes(t *testing.T) {
	for text, liters := range map[string]float64{
		"1 gal": 3.785412, "1,000 gallons": 3785.412, "1 bu": 35.23907, "450 bushels": 450 * 35.23907,
		"1 cu ft": 28.31685, "1 cu yd": 764.5549, "20 cubic yards": 20 * 764.5549, "3,785 L": 3785, "about 500 gal (maker's plate)": 500 * 3.785412,
	} {
		w, err := measure.ParseVolume(text)
		if got := w.Value.Liters(); err != nil || math.Abs(got-liters) > liters*1e-6 {
			t.Errorf("%s is %v L, want %v (%v)", text, got, liters, err)
		}
	}
	for _, text := range []string{"1,000", "1,000 lb", "20 cu", "450 tons"} {
		if w, err := measure.ParseVolume(text); err == nil {
			t.Errorf("%s reads as %v", text, w.Value)
		}
	}
	if got := measure.Gallons(201.974026).CubicYards(); math.Abs(float64(got)-1) > 1e-6 {
		t.Errorf("201.974 gal are %v", got)
	}
}
