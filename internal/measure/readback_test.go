package measure_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tarepage/internal/measure"
)

var notes = []string{"", "tag", "coupler plate", "axle tag", "sidewall", "stamp", "tape", "maker's sheet", "estimate",
	"said", "said 0:45", "said 1:02:03", "said by the owner", "scale ticket", "scale ticket 2026-11-03", "the old ticket, smudged"}

// readsBack checks that what a quantity prints is read back as the very same quantity.
func readsBack[U measure.Unit](parse func(string) (measure.Written[U], error), draw func(*rapid.T) float64) func(*rapid.T) {
	return func(t *rapid.T) {
		w := measure.Written[U]{
			Value: U(draw(t)),
			About: rapid.Bool().Draw(t, "about"),
			From:  measure.ParseProvenance(rapid.SampledFrom(notes).Draw(t, "note")),
		}
		if back, err := parse(w.String()); err != nil || back != w {
			t.Fatalf("%#v prints as %q, which reads as %#v, %v", w, w, back, err)
		}
	}
}

// awkward draws what rounding and printing are most likely to get wrong: zero, whole
// numbers, halves, tenths, sixty-fourths, metric conversions, the very large, any.
func awkward(t *rapid.T) float64 {
	switch rapid.IntRange(0, 7).Draw(t, "kind") {
	case 0:
		return 0
	case 1:
		return float64(rapid.IntRange(0, 1e9).Draw(t, "whole"))
	case 2:
		return float64(rapid.IntRange(0, 1e6).Draw(t, "sixty-fourths")) / 64
	case 3:
		return float64(rapid.IntRange(0, 1e6).Draw(t, "tenths")) / 10
	case 4:
		return float64(rapid.IntRange(0, 1e6).Draw(t, "mm")) / 25.4
	case 5:
		return float64(rapid.IntRange(0, 1e5).Draw(t, "kg")) / 0.45359237
	case 6:
		return float64(rapid.IntRange(0, 1000).Draw(t, "thirds")) / 3
	}
	return rapid.Float64Range(0, 1e9).Filter(func(v float64) bool { return v == 0 || v >= 1e-6 }).Draw(t, "any")
}

func TestEveryQuantityReadsBack(t *testing.T) {
	t.Run("weight", rapid.MakeCheck(readsBack(measure.ParseWeight, awkward)))
	t.Run("length", rapid.MakeCheck(readsBack(measure.ParseLength, awkward)))
	t.Run("pressure", rapid.MakeCheck(readsBack(measure.ParsePressure, awkward)))
	t.Run("money", rapid.MakeCheck(readsBack(measure.ParseMoney, func(t *rapid.T) float64 {
		return math.Round(awkward(t)*100) / 100 // whole cents; nothing else is money
	})))
	t.Run("angle", rapid.MakeCheck(readsBack(measure.ParseAngle, awkward)))
	t.Run("area", rapid.MakeCheck(readsBack(measure.ParseArea, awkward)))
	t.Run("share", rapid.MakeCheck(readsBack(measure.ParseShare, func(t *rapid.T) float64 {
		// A share is read from a percentage.
		return awkward(t) / 100
	})))
}

// The working's own writing of an exact length is read back too.
func TestInchesAloneReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := measure.Inches(float64(rapid.IntRange(0, 1e6).Draw(t, "sixty-fourths")) / 64)
		if back, err := measure.ParseLength(v.InInches()); err != nil || back.Value != v {
			t.Fatalf("%v prints as %q, which reads as %v, %v", float64(v), v.InInches(), float64(back.Value), err)
		}
	})
}

// fuzz holds what every parser promises of any text: it never panics, accepts only
// finite numbers that are not below zero and not past 1e9, its error is one line, and
// what it accepted prints as something that it reads back as the same.
func fuzz[U measure.Unit](f *testing.F, parse func(string) (measure.Written[U], error), seeds ...string) {
	for _, s := range append(seeds, "", "about", "(tag)", "5 (", "½", "1/2", "-1", "1,00", "99999999999", "5 +", "~", ".5", "\xff", "'", "5 ''", "1 000") {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w, err := parse(s)
		if err != nil {
			if text := err.Error(); strings.TrimSpace(text) == "" || strings.Contains(text, "\n") || strings.HasSuffix(text, ".") && !strings.HasSuffix(s, ".") {
				t.Fatalf("%q: error %q is not one plain line", s, text)
			}
			return
		}
		if v := float64(w.Value); math.IsNaN(v) || math.IsInf(v, 0) || v < 0 || v > 1e9 || v > 0 && v < 1e-9 {
			t.Fatalf("%q reads as %v", s, v)
		}
		printed := fmt.Sprint(w)
		if len(printed) > 200 {
			return // sums and notes of nearly two hundred characters can print longer than a parser takes
		}
		if back, err := parse(printed); err != nil || back != w {
			t.Fatalf("%q reads as %#v, prints as %q, reads back as %#v, %v", s, w, printed, back, err)
		}
	})
}

func FuzzWeight(f *testing.F) {
	fuzz(f, measure.ParseWeight, "24,000 lb", "24k lb", "10,886 kg", "about 7,040 lb (scale ticket 2026-11-03)", "5#", "333-1/3 lb", "7 lb + 5 kg")
}

func FuzzLength(f *testing.F) {
	fuzz(f, measure.ParseLength, "28 ft", `8'6"`, `8'-6"`, "8 ft 6 in", "2-5/16 in", "812 mm", "9.75 m", "20 ft + 8 ft", "2½ in", "8′6″")
}

func FuzzPressure(f *testing.F) {
	fuzz(f, measure.ParsePressure, "80 psi", "550 kPa", "5.5 bar", "80 psi (tag)")
}

func FuzzMoney(f *testing.F) {
	fuzz(f, measure.ParseMoney, "$18,450", "$18,450.50", "$18.5k", "18,450 USD", "$1/3", "$1½", "about $5 (plus tax)", "$1000001k")
}

func FuzzAngle(f *testing.F) { fuzz(f, measure.ParseAngle, "12 degrees", "12.5°", "about 12 deg") }

func FuzzShare(f *testing.F) { fuzz(f, measure.ParseShare, "5%", "12.5 percent", "33-1/3 %", "1000%") }

func FuzzArea(f *testing.F) { fuzz(f, measure.ParseArea, "238 sq ft", "22 sq m", "238 ft2") }

// FuzzProvenance: a note, once read, is written so that it reads the same again, and a
// note that says "said" is never taken for anything better.
func FuzzProvenance(f *testing.F) {
	for _, n := range notes {
		f.Add(n)
	}
	f.Add("SAID 1:02")
	f.Add("said  99:99")
	f.Fuzz(func(t *testing.T, s string) {
		p := measure.ParseProvenance(s)
		if back := measure.ParseProvenance(p.String()); back != p {
			t.Fatalf("%q reads as %#v, prints as %q, reads back as %#v", s, p, p, back)
		}
		if words := strings.Fields(strings.ToLower(s)); len(words) > 0 && words[0] == "said" && p.Origin != measure.Said {
			t.Fatalf("%q reads as %#v", s, p)
		}
	})
}

func FuzzClock(f *testing.F) {
	for _, s := range []string{"6:12", "1:02:03", "0:00", "6", "6:60", "999:59:59", ":", "+1:00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		n, err := measure.ParseClock(s)
		if err != nil {
			return
		}
		if back, err := measure.ParseClock(measure.Clock(n)); n < 0 || err != nil || back != n {
			t.Fatalf("%q is %d s, prints as %q, reads back as %d, %v", s, n, measure.Clock(n), back, err)
		}
	})
}
