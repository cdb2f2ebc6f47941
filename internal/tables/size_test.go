package tables

import (
	"math"
	"strings"
	"testing"

	"tarepage/internal/measure"
)

func TestParseTireSize(t *testing.T) {
	for _, c := range []struct {
		in           string
		form         Form
		prefix       string
		mm, aspect   int
		construction string
		rim          measure.Inches
		suffix       string
		class        Class
	}{
		{"ST235/80R16", Metric, "ST", 235, 80, "R", 16, "", SpecialTrailer},
		{"st 225/75 d15", Metric, "ST", 225, 75, "D", 15, "", SpecialTrailer},
		{"ST145/R12", Metric, "ST", 145, 0, "R", 12, "", SpecialTrailer},
		{"P205/75R15", Metric, "P", 205, 75, "R", 15, "", Passenger},
		{"205/75R15", Metric, "", 205, 75, "R", 15, "", Passenger},
		{"225/45ZR17", Metric, "", 225, 45, "R", 17, "", Passenger},
		{"235/55R18", Metric, "", 235, 55, "R", 18, "", Passenger},
		{"LT235/85R16", Metric, "LT", 235, 85, "R", 16, "", LightTruck},
		{"225/75R16C", Metric, "", 225, 75, "R", 16, "C", Truck},
		{"185R14C", Metric, "", 185, 0, "R", 14, "C", Truck},
		{"215/75R17.5", Metric, "", 215, 75, "R", 17.5, "", Truck},
		{"285/70R19.5", Metric, "", 285, 70, "R", 19.5, "", Truck},
		{"205/65-10", Metric, "", 205, 65, "-", 10, "", BiasTrailer},
		{"20.5x8.0-10", Flotation, "", 0, 0, "-", 10, "", BiasTrailer},
		{"31x10.50R15LT", Flotation, "", 0, 0, "R", 15, "LT", LightTruck},
		{"4.80-8", Numeric, "", 0, 0, "-", 8, "", BiasTrailer},
		{"4.80/4.00-8", Numeric, "", 0, 0, "-", 8, "", BiasTrailer},
		{"7.50-16LT", Numeric, "", 0, 0, "-", 16, "LT", LightTruck},
		{"8-14.5", Numeric, "", 0, 0, "-", 14.5, "", BiasTrailer},
		{"8-14.5 LP/MH", Numeric, "", 0, 0, "-", 14.5, "LP/MH", BiasTrailer},
		{"9.00-20", Numeric, "", 0, 0, "-", 20, "", Truck},
		{"8R19.5", Numeric, "", 0, 0, "R", 19.5, "", Truck},
	} {
		got, err := ParseTireSize(c.in)
		if err != nil {
			t.Errorf("%s: %v", c.in, err)
			continue
		}
		if got.Form != c.form || got.Prefix != c.prefix || got.Millimeters != c.mm || got.Aspect != c.aspect ||
			got.Construction != c.construction || got.Rim != c.rim || got.Suffix != c.suffix || got.Class() != c.class {
			t.Errorf("%s: %+v, class %s", c.in, got, got.Class())
		}
	}
	for in, want := range map[string]string{
		"":                       "is empty",
		"ST235/80":               "does not read",
		"235":                    "does not read",
		"ST235/80R16E":           "does not read",
		"ST235/08R16":            "aspect",
		"ST999/80R16":            "width",
		"ST235/80R99":            "rim",
		"10.0x8.0-12":            "no larger than its rim",
		"40-8":                   "width outside",
		strings.Repeat("9", 200): "too long",
		"ST235/80R16\x00":        "does not read",
		"ST٢٣٥/80R16":            "does not read",
	} {
		if got, err := ParseTireSize(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %+v, %v, want %s", in, got, err, want)
		}
	}
}

func TestDiameter(t *testing.T) {
	for _, c := range []struct {
		size  string
		want  measure.Inches
		exact bool
	}{
		// 2 x 235 mm x 0.80 / 25.4 + 16 = 30.803 in and so on: the definition of the metric size
		// (ISO 4000-1), worked by hand.
		{"ST235/80R16", 30.803, true},
		{"ST225/75R15", 28.287, true},
		{"ST205/75R14", 26.106, true},
		{"LT235/85R16", 31.728, true},
		{"215/75R17.5", 30.197, true},
		{"20.5x8.0-10", 20.5, true},
		// Estimates, common practice, no source.
		{"4.80-8", 16.64, false},
		{"ST145/R12", 21.134, false},
	} {
		size, err := ParseTireSize(c.size)
		if err != nil {
			t.Fatal(err)
		}
		if got, exact := size.Diameter(); math.Abs(float64(got-c.want)) > 0.001 || exact != c.exact {
			t.Errorf("%s: %s (%t), want %s", c.size, got, exact, c.want)
		}
	}
	// The metric twin that the table gives for a flotation size is the same tire: the
	// diameters must agree within half an inch.
	for _, tire := range tireSheet.all() {
		size, _ := ParseTireSize(tire.Size)
		if size.Form != Flotation {
			continue
		}
		for _, other := range tire.others() {
			twin, _ := ParseTireSize(other)
			a, _ := size.Diameter()
			b, _ := twin.Diameter()
			if math.Abs(float64(a-b)) > 0.5 {
				t.Errorf("%s is %s, its twin %s %s", size, a, twin, b)
			}
		}
	}
}

func TestExponent(t *testing.T) {
	// tables.md, section 5.
	for size, want := range map[string]float64{"ST235/80R16": 0.585, "ST235/80D16": 0.585, "4.80-8": 0.585, "20.5x8.0-10": 0.585, "7.50-16LT": 0.585,
		"LT235/85R16": 0.70, "215/75R17.5": 0.70, "225/75R16C": 0.70, "9.00-20": 0.585, "P205/75R15": 0.5} {
		parsed, err := ParseTireSize(size)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := Exponent(parsed); !ok || got.Exponent != want {
			t.Errorf("%s: %v, want %v", size, got.Exponent, want)
		}
	}
}

func FuzzParseTireSize(f *testing.F) {
	for _, size := range Sizes() {
		f.Add(size)
	}
	for _, size := range []string{"", "st 235 / 80 d 16", "20.5×8.0-10", "P205/75R15", "31x10.50R15LT", "ST235/80R16E", "0/0R0", "00.0x0-1", "8-14.5LP/MH", "225/45ZR17"} {
		f.Add(size)
	}
	f.Fuzz(func(t *testing.T, s string) {
		size, err := ParseTireSize(s)
		if err != nil {
			if len(err.Error()) > 400+4*len(s) {
				t.Errorf("the error is longer than it need be: %v", err)
			}
			return
		}
		d, _ := size.Diameter()
		if !measure.Finite(d) || d <= size.Rim || d > 120 {
			t.Errorf("%q: diameter %s on a rim of %s", s, d, size.Rim)
		}
		if size.Class() == "" {
			t.Errorf("%q has no class", s)
		}
		if _, ok := Exponent(size); !ok {
			t.Errorf("%q of class %s has no exponent", s, size.Class())
		}
		again, err := ParseTireSize(size.String())
		if err != nil || again != size {
			t.Errorf("%q printed as %q reads back as %+v (%v)", s, size, again, err)
		}
		// The two ways to spell a name must agree, or a size that reads could not be found.
		key, ok := appendPlain(nil, s)
		if !ok || string(key) != plainName(size.String()) {
			t.Errorf("%q is looked up as %q, printed as %q", s, key, size)
		}
	})
}
