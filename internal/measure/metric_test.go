package measure

import (
	"math/big"
	"testing"
)

// kilograms converts pounds by NIST SP 811 (2008), Appendix B.8, in exact fractions, and
// writes them to n decimals, halves away from zero (big.Rat.FloatString).
func kilograms(pounds string, n int) string { return times(pounds, "0.45359237", n) }

func times(v, by string, n int) string {
	a, _ := new(big.Rat).SetString(v)
	b, _ := new(big.Rat).SetString(by)
	return a.Mul(a, b).FloatString(n)
}

// TestQuantities: what is a quantity of a text and what is none. The metric numbers are
// those of NIST SP 811 (2008), Appendix B.8, worked in exact fractions where they are not
// its own.
func TestQuantities(t *testing.T) {
	for text, want := range map[string]string{
		"704 lb":    kilograms("704", 0) + " kg",
		"20,000 lb": "9,072 kg", "24k lb": "10,886 kg", "1 lb": "0.5 kg",
		"102 in x 28 ft deck-over":                times("102", "0.0254", 2) + " m x " + times("336", "0.0254", 2) + " m deck-over",
		"8 ft 6 in":                               times("102", "0.0254", 2) + " m",
		"11 ft 3/4 in to 16 ft 3-3/4 in":          "3.37 m to 4.97 m",
		"2-5/16 in ball":                          "58.7 mm ball", // 58.7375
		"3/8 in plywood, 35 in high":              "9.5 mm plywood, 889 mm high",
		"a 28-ft deck":                            "a 8.53 m deck",
		"25\u00a0ft deck":                         "7.62 m deck",
		"80 psi":                                  "550 kPa", // SP 811: 6.894 757 E+00 kPa; down to 5 kPa
		"238 sq ft, 2.2 cu yd":                    "22.1 sq m, 1.7 cu m",
		"earth at 2,100 lb/cu yd":                 "earth at 1,246 kg/cu m",
		"22 lb/ft beam":                           "32.74 kg/m beam",
		"torque 90 to 120 lb-ft":                  "torque 122 N m to 163 N m",
		"131,960 lb-ft / 6,249.1 lb":              "18,244 kg-m / 2,835 kg",
		"12,000-15,000 lb axles":                  "5,443 kg to 6,804 kg axles",
		"tandem 2 x 10,000 lb":                    "tandem 2 x 4,536 kg",
		"beam W10x22 1,562 lb":                    "beam W10x22 709 kg",
		"from 45 mph":                             "from 72.4 km/h",
		"recheck at 50 miles":                     "recheck at 80.5 km",
		"-4 in behind":                            "-102 mm behind",
		"$18,450 and 2026, week 31 2026":          "$18,450 and 2026, week 31 2026",
		"ST235/80R16 load range E, C3x4.1, 2x6":   "ST235/80R16 load range E, C3x4.1, 2x6",
		"call 555-0142, serial 0J9RP1A35T1644345": "call 555-0142, serial 0J9RP1A35T1644345",
		"49 CFR 571.120 S5.1.2 (2015)":            "49 CFR 571.120 S5.1.2 (2015)",
		"put 2 in the neck and 4 in a box":        "put 2 in the neck and 4 in a box",
		"de 13 ft 6 in a 14 ft":                   "de 4.11 m a 4.27 m",
		"19 ft 8 in a donde se equilibra vacío":   "5.99 m a donde se equilibra vacío",
		"después de 10 millas, 119 galones":       "después de 16.1 km, 450 L",
		"490 lb/ft3":                              "490 lb/ft3",
		"102 in (2.6 m)":                          "102 in (2.6 m)",
		"3,350 lb = 1,519.53 kg, down":            "3,350 lb = 1,519.53 kg, down",
		"1,519 kg = 3,349 lb":                     "1,519 kg = 3,349 lb",
		"exceed 1,519 kilograms or 3,349 pounds":  "exceed 1,519 kilograms or 3,349 pounds",
		"3 axles, 4 tires, 22 stake pockets, 5%":  "3 axles, 4 tires, 22 stake pockets, 5%",
		"":                                        "",
		"9":                                       "9",
		"1/0 in":                                  "1/0 in",
		"999.96 mm is not ours, 39.37 in":         "999.96 mm is not ours, 1.00 m", // 999.998 mm
	} {
		if got := InMetric(text, nil); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
	if got := InMetric("puts 3,643 lb on the truck, of 20,000 lb", map[string]string{"3,643 lb": "1,653 kg"}); got != "puts 1,653 kg on the truck, of 9,072 kg" {
		t.Errorf("what was rounded is converted from the rounded writing: %q", got)
	}
}

// FuzzQuantities: whatever an owner writes, the places are within the text, in order, and
// nothing else of it is lost.
func FuzzQuantities(f *testing.F) {
	for _, s := range []string{"20 ft 6 in", "2-5/16 in", "9 ft 1-", "1\u00a0lb", "5/", "12-", "3 to ", "1e9 lb", "\xff1 lb\xff", "99999999999999999999999 lb"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		at := 0
		for _, q := range Quantities(text, nil) {
			if q.Start < at || q.End <= q.Start || q.End > len(text) || q.Metric == "" {
				t.Fatalf("%q: %+v after %d", text, q, at)
			}
			at = q.End
		}
	})
}
