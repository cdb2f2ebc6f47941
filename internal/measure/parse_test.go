package measure_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"tarepage/internal/measure"
)

// reading is what a parser makes of one writing.
type reading struct {
	Value float64
	About bool
	From  measure.Provenance
}

func read[U measure.Unit](parse func(string) (measure.Written[U], error)) func(string) (reading, error) {
	return func(s string) (reading, error) {
		w, err := parse(s)
		return reading{float64(w.Value), w.About, w.From}, err
	}
}

// parsers are all parsers by the word their errors begin with.
var parsers = map[string]func(string) (reading, error){
	"weight":   read(measure.ParseWeight),
	"length":   read(measure.ParseLength),
	"pressure": read(measure.ParsePressure),
	"price":    read(measure.ParseMoney),
	"angle":    read(measure.ParseAngle),
	"share":    read(measure.ParseShare),
	"area":     read(measure.ParseArea),
}

// The writings that docs/design.md lists, and other spellings that yards use.
// The values are typed by hand in pounds, inches, psi, dollars.
func TestWritings(t *testing.T) {
	for _, c := range []struct {
		what, text string
		want       float64
	}{
		{"weight", "24,000 lb", 24000},
		{"weight", "24000 lbs", 24000},
		{"weight", "24k lb", 24000},
		{"weight", "24K lb", 24000},
		{"weight", "3.5k lb", 3500},
		{"weight", "10,886 kg", 10886 / 0.45359237},
		{"weight", "  7,040   pounds ", 7040},
		{"weight", "7040#", 7040},
		{"weight", "333-1/3 lb", 1000.0 / 3},
		{"weight", ".5 lb", 0.5},
		{"weight", "0 lb", 0},
		{"weight", "7,000 lb + 40 lb", 7040},
		{"weight", "1,000,000,000 lb", 1e9},

		{"length", "28 ft", 336},
		{"length", "83 in", 83},
		{"length", "8 ft 6 in", 102},
		{"length", `8'6"`, 102},
		{"length", `8' 6"`, 102},
		{"length", `8'-6"`, 102},
		{"length", `8'6''`, 102},
		{"length", "8’6”", 102},
		{"length", "8′6″", 102},
		{"length", "8 FT 6 IN", 102},
		{"length", "8 Feet 6 Inches", 102},
		{"length", "8 ft. 6 in.", 102},
		{"length", "8ft6in", 102},
		{"length", "2-5/16 in", 2.3125},
		{"length", "2 5/16 in", 2.3125},
		{"length", "1-3/4 in", 1.75},
		{"length", "5/16 in", 0.3125},
		{"length", "2½ in", 2.5},
		{"length", "⅞ in", 0.875},
		{"length", "8 ft 11-15/16 in", 107.9375},
		{"length", "812 mm", 812 / 25.4},
		{"length", "81.2 cm", 812 / 25.4},
		{"length", "9.75 m", 9750 / 25.4},
		{"length", "20 ft + 8 ft", 336},
		{"length", "20 ft + 7 ft 6 in + 6 in", 336},

		{"pressure", "80 psi", 80},
		{"pressure", "80 PSI", 80},
		// 1 psi = 6.894757 kPa, NIST SP 811 (2008) B.8.
		{"pressure", "550 kPa", 550 / 6.894757},
		{"pressure", "5.5 bar", 550 / 6.894757},

		{"price", "$18,450", 18450},
		{"price", "$ 18,450", 18450},
		{"price", "$18,450.50", 18450.5},
		{"price", "$18.5k", 18500},
		{"price", "18,450 USD", 18450},
		{"price", "18450 dollars", 18450},
		{"price", "$0", 0},

		{"angle", "12 degrees", 12},
		{"angle", "12.5 deg", 12.5},
		{"angle", "12°", 12},
		{"share", "5%", 0.05},
		{"share", "12.5 percent", 0.125},
		{"area", "238 sq ft", 238},
		{"area", "238 square feet", 238},
		{"area", "238 ft2", 238},
		// 1 ft = 0.3048 m exactly, NIST SP 811 (2008) B.8.
		{"area", "22 sq m", 22 / (0.3048 * 0.3048)},
		// 1 lb/ft = 1.488164 kg/m, NIST SP 811 (2008) B.8.
	} {
		got, err := parsers[c.what](c.text)
		// The NIST figures are printed to seven digits.
		if err != nil || !near(got.Value, c.want, 2e-7) || got.About || got.From != (measure.Provenance{}) {
			t.Errorf("%s %q reads as %+v, %v; want %v", c.what, c.text, got, err, c.want)
		}
	}
}

func near(a, b, relative float64) bool {
	d := a - b
	if d < 0 {
		d = -d
	}
	if b < 0 {
		b = -b
	}
	return d <= relative*b
}

// What is a binary number stays one: an inclusive limit must stay inclusive.
func TestExactWritings(t *testing.T) {
	for text, want := range map[string]float64{
		"2-5/16 in": 2.3125, "8 ft 6-1/2 in": 102.5, "25 ft 6 in": 306, "10 ft 1/64 in": 120.015625, "20 ft + 8 ft": 336,
	} {
		if got, err := measure.ParseLength(text); err != nil || float64(got.Value) != want {
			t.Errorf("%q is %v, %v; want exactly %v", text, float64(got.Value), err, want)
		}
	}
}

func TestAboutAndProvenance(t *testing.T) {
	for _, c := range []struct {
		text  string
		about bool
		from  measure.Provenance
	}{
		{"7,040 lb", false, measure.Provenance{}},
		{"about 7,040 lb", true, measure.Provenance{}},
		{"About 7,040 lb", true, measure.Provenance{}},
		{"approx 7,040 lb", true, measure.Provenance{}},
		{"approx. 7,040 lb", true, measure.Provenance{}},
		{"approximately 7,040 lb", true, measure.Provenance{}},
		{"ca. 7,040 lb", true, measure.Provenance{}},
		{"~7,040 lb", true, measure.Provenance{}},
		{"7,040 lb (tag)", false, measure.Provenance{Origin: measure.Tag, Text: "tag"}},
		{"7,040 lb (Certification Label)", false, measure.Provenance{Origin: measure.Tag, Text: "tag"}},
		{"7,040 lb (coupler plate)", false, measure.Provenance{Origin: measure.CouplerPlate, Text: "coupler plate"}},
		{"7,040 lb (axle tag)", false, measure.Provenance{Origin: measure.AxleTag, Text: "axle tag"}},
		{"7,040 lb (sidewall)", false, measure.Provenance{Origin: measure.Sidewall, Text: "sidewall"}},
		{"7,040 lb (stamp)", false, measure.Provenance{Origin: measure.Stamp, Text: "stamp"}},
		{"about 7,040 lb (scale ticket 2026-11-03)", true, measure.Provenance{Origin: measure.ScaleTicket, Text: "scale ticket 2026-11-03"}},
		{"7,040 lb (scale ticket)", false, measure.Provenance{Origin: measure.ScaleTicket, Text: "scale ticket"}},
		{"7,040 lb (tape)", false, measure.Provenance{Origin: measure.Tape, Text: "tape"}},
		{"7,040 lb (maker's sheet)", false, measure.Provenance{Origin: measure.MakersSheet, Text: "maker's sheet"}},
		{"7,040 lb (maker’s sheet)", false, measure.Provenance{Origin: measure.MakersSheet, Text: "maker's sheet"}},
		{"7,040 lb (said 1:42)", false, measure.Provenance{Origin: measure.Said, Text: "said 1:42", At: 102, Timed: true}},
		{"7,040 lb (said 1:02:03)", false, measure.Provenance{Origin: measure.Said, Text: "said 1:02:03", At: 3723, Timed: true}},
		{"7,040 lb (said)", false, measure.Provenance{Origin: measure.Said, Text: "said"}},
		// Only said is only said, however it is written: it must be confirmed.
		{"7,040 lb (said by the owner)", false, measure.Provenance{Origin: measure.Said, Text: "said by the owner"}},
		{"7,040 lb (said 1:75)", false, measure.Provenance{Origin: measure.Said, Text: "said 1:75"}},
		{"7,040 lb (estimate)", false, measure.Provenance{Origin: measure.Estimate, Text: "estimate"}},
		{"7,040 lb ( the  old ticket )", false, measure.Provenance{Origin: measure.Other, Text: "the old ticket"}},
		{"7,040 lb ()", false, measure.Provenance{Origin: measure.Other}},
	} {
		got, err := measure.ParseWeight(c.text)
		if err != nil || got.Value != 7040 || got.About != c.about || got.From != c.from {
			t.Errorf("%q reads as %+v about %v, %v; want %+v about %v", c.text, got.From, got.About, err, c.from, c.about)
		}
	}
}

// Every message, whole: it names the bad value and what would be right.
// A paste from a sheet or a page brings other spaces along (names: Unicode 15, block
// Latin-1 Supplement and General Punctuation).
func TestPastedSpaces(t *testing.T) {
	for _, text := range []string{"14,000\u00a0lb", "14,000\u202flb (tag)", "about\u00a014,000\u2009lb"} {
		if w, err := measure.ParseWeight(text); err != nil || w.Value != 14000 {
			t.Errorf("%q reads as %v, %v", text, w.Value, err)
		}
	}
}

func TestMessages(t *testing.T) {
	const (
		weights   = "; write 24,000 lb or 10,886 kg"
		lengths   = "; write 28 ft, 83 in, 8 ft 6 in, 812 mm or 9.75 m"
		pressures = "; write 80 psi, 550 kPa or 5.5 bar"
		money     = "; write $18,450"
	)
	for _, c := range []struct{ what, text, want string }{
		{"weight", "", `weight is empty` + weights},
		{"weight", " \t", `weight is empty` + weights},
		{"weight", "7,040", `weight "7,040" has no unit; write 7,040 lb or 7,040 kg`},
		{"weight", "7,040 (tag)", `weight "7,040 (tag)" has no unit; write 7,040 lb or 7,040 kg`},
		{"weight", "-5 lb", `weight "-5 lb" cannot be read: "-5 lb" is below zero` + weights},
		{"weight", "−5 lb", `weight "−5 lb" cannot be read: "−5 lb" is below zero` + weights},
		{"weight", "1½5 lb", `weight "1½5 lb" cannot be read: "1½5 lb" has a digit right after a fraction` + weights},
		{"weight", "lots", `weight "lots" cannot be read: "lots" is not a number` + weights},
		{"weight", "NaN lb", `weight "NaN lb" cannot be read: "NaN lb" is not a number` + weights},
		{"weight", "Inf lb", `weight "Inf lb" cannot be read: "Inf lb" is not a number` + weights},
		{"weight", "24,00 lb", `weight "24,00 lb" cannot be read: "24,00" has its commas in the wrong places, or a digit is missing` + weights},
		{"weight", "1,2345 lb", `weight "1,2345 lb" cannot be read: "1,2345" has its commas in the wrong places, or a digit is missing` + weights},
		{"weight", "24,000, lb", `weight "24,000, lb" cannot be read: "24,000," has its commas in the wrong places, or a digit is missing` + weights},
		{"weight", "24.000.5 lb", `weight "24.000.5 lb" is in ".", which is not a unit of weight` + weights},
		{"weight", "24.5, lb", `weight "24.5, lb" cannot be read from ", lb" on` + weights},
		{"weight", "5 stone", `weight "5 stone" is in "stone", which is not a unit of weight` + weights},
		{"weight", "10 T", `weight "10 T" is in tons; which ton? One is 2,000 lb, the other 1,000 kg; write 20,000 lb or 10,000 kg`},
		{"weight", "7.5 tons (invoice)", `weight "7.5 tons (invoice)" is in tons; which ton? One is 2,000 lb, the other 1,000 kg; write 15,000 lb or 7,500 kg`},
		{"weight", "2 tonnes", `weight "2 tonnes" is in "tonnes", which is not a unit of weight` + weights},
		{"weight", "5 ft", `weight "5 ft" is in "ft", which is not a unit of weight` + weights},
		{"weight", "1e5 lb", `weight "1e5 lb" is in "e", which is not a unit of weight` + weights},
		{"weight", "24 k lb", `weight "24 k lb" is in "k", which is not a unit of weight` + weights},
		{"weight", "7,040 lb 5", `weight "7,040 lb 5" goes on after lb with "5"` + weights},
		{"weight", "2,000,000,000 lb", `weight "2,000,000,000 lb" cannot be read: "2,000,000,000" is too large` + weights},
		{"weight", "999999999 kg", `weight "999999999 kg" is larger than anything a yard weighs or measures`},
		{"weight", ".00000000001 lb", `weight ".00000000001 lb" is smaller than anything a yard weighs or measures`},
		{"weight", "5 lb +", `weight "5 lb +" has a + with nothing next to it` + weights},
		{"weight", "5/4 lb", `weight "5/4 lb" cannot be read: "5/4" is not a proper fraction` + weights},
		{"weight", "1/0 lb", `weight "1/0 lb" cannot be read: "1/0" is not a proper fraction` + weights},
		{"weight", "5/ lb", `weight "5/ lb" cannot be read: "5/ lb" is not a fraction` + weights},
		{"weight", "about", `weight "about" has no number` + weights},
		{"weight", "(tag)", `weight "(tag)" has no number` + weights},
		{"weight", "5 lb (tag", `weight "5 lb (tag" opens a parenthesis that does not close at the end`},
		{"weight", "5 lb (tag) new", `weight "5 lb (tag) new" opens a parenthesis that does not close at the end`},
		{"weight", "5 lb (tag (old))", `weight "5 lb (tag (old))" has a parenthesis inside a parenthesis; give one place where it comes from`},
		{"weight", strings.Repeat("5", 201), `weight "` + strings.Repeat("5", 40) + `..." is too long to be one` + weights},

		{"length", "28", `length "28" has no unit; write 28 ft, 28 in, 28 mm, 28 cm or 28 m`},
		{"length", "8 ft 6", `length "8 ft 6" has no unit after the feet; write 6 in`},
		{"length", "8-6", `length "8-6" cannot be read from "-6" on` + lengths},
		{"length", "2.5-5/16 in", `length "2.5-5/16 in" cannot be read from "-5/16 in" on` + lengths},
		{"length", "8 ft 12 in", `length "8 ft 12 in" has 12 inches after the feet; write fewer than 12 inches there`},
		{"length", "8 ft 6 mm", `length "8 ft 6 mm" has mm after feet; only inches can follow feet`},
		{"length", "8 ft 2 ft", `length "8 ft 2 ft" has ft after feet; only inches can follow feet`},
		{"length", "6 in 8 ft", `length "6 in 8 ft" goes on after in with "8 ft"` + lengths},
		{"length", "20 ft - 8 ft", `length "20 ft - 8 ft" cannot be read: "- 8 ft" is below zero` + lengths},
		{"length", "8 ft -6 in", `length "8 ft -6 in" cannot be read: "-6 in" is below zero` + lengths},
		{"length", "+ 20 ft", `length "+ 20 ft" has a + with nothing next to it` + lengths},
		{"length", "5 lb", `length "5 lb" is in "lb", which is not a unit of length` + lengths},

		{"pressure", "80", `pressure "80" has no unit; write 80 psi, 80 kPa or 80 bar`},
		{"pressure", "80 lb", `pressure "80 lb" is in "lb", which is not a unit of pressure` + pressures},
		{"pressure", "80 psi + 5 psi", `pressure "80 psi + 5 psi" goes on after psi with "+ 5 psi"` + pressures},

		{"price", "", `price is empty` + money},
		{"price", "$1½", `price "$1½" can be read two ways; write thousands with a comma, $18,450, and cents with two digits, $18,450.50`},
		{"price", "18,450", `price "18,450" has no currency` + money},
		{"price", "$", `price "$" cannot be read: "" is not a number` + money},
		{"price", "$-5", `price "$-5" cannot be read: "-5" is below zero` + money},
		{"price", "$18,45", `price "$18,45" cannot be read: "18,45" has its commas in the wrong places, or a digit is missing` + money},
		{"price", "$5 each", `price "$5 each" is not an amount of money; write it like $18,450`},
		{"price", "$.00000000001", `price "$.00000000001" is less than a cent` + money},
		{"price", "5 EUR", `price "5 EUR" is not an amount of money; write it like $18,450`},

		{"angle", "12", `angle "12" has no unit; write 12 degrees`},
		{"angle", "12 rad", `angle "12 rad" is in "rad", which is not a unit of angle; write 12 degrees`},
		{"share", "5", `share "5" has no unit; write 5%`},
		{"share", "5 lb", `share "5 lb" is in "lb", which is not a unit of share; write 5%`},
		{"area", "238", `area "238" has no unit; write 238 sq ft or 238 sq m`},
		{"area", "238 lb", `area "238 lb" is in "lb", which is not a unit of area; write 238 sq ft`},
	} {
		got, err := parsers[c.what](c.text)
		if err == nil {
			t.Errorf("%s %q reads as %v; want %s", c.what, c.text, got, c.want)
		} else if err.Error() != c.want {
			t.Errorf("%s %q says\n%s; want\n%s", c.what, c.text, err, c.want)
		}
	}
}

func TestClock(t *testing.T) {
	for text, want := range map[string]int{"0:00": 0, "6:12": 372, "1:02:03": 3723, "00:45": 45, "75:00": 4500, "999:59": 59999} {
		got, err := measure.ParseClock(text)
		if err != nil || got != want {
			t.Errorf("%q is %d s, %v; want %d", text, got, err, want)
		}
		if back, err := measure.ParseClock(measure.Clock(got)); err != nil || back != got {
			t.Errorf("%q prints as %q, which reads as %d, %v", text, measure.Clock(got), back, err)
		}
	}
	for _, text := range []string{"", "6", "6:1", "6:60", "6:123", ":12", "6:", "-6:12", "-0:12", "+6:12", "6:+1", "1:2:03", "1:02:03:04", "1000:00", "six:12", "6:12 "} {
		want := fmt.Sprintf("time %q cannot be read; write minutes and seconds, 6:12, or hours too, 1:02:03", text)
		if got, err := measure.ParseClock(text); err == nil || err.Error() != want {
			t.Errorf("%q reads as %d, %v; want %s", text, got, err, want)
		}
	}
}

func TestRoundedBy(t *testing.T) {
	for text, millimeters := range map[string]float64{
		"8535 mm": 0.5, "8,535 mm (tape)": 0.5, "8535 millimeters": 0.5, "1 millimeter": 0.5,
		"853 cm": 5, "853.5 CM": 0.5, "1 centimeter": 5, "2 centimeters": 5,
		"8 m": 500, "8.5 m": 50, "about 8.53 m": 5, "8.535 m (tape)": 0.5, "1 meter": 500, "2.0 meters": 50,
		"28 ft": 0, "8 ft 6 in": 0, "102 in": 0, "28": 0, "6 m + 2 m": 0, "long": 0, "": 0,
	} {
		if got := measure.RoundedBy(text); math.Abs(float64(got-measure.FromMillimeters(millimeters))) > 1e-9 {
			t.Errorf("%q was rounded by %s, want %v mm", text, got, millimeters)
		}
	}
}
