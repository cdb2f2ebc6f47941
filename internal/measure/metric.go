package measure

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// This file finds the quantities in a text that is written in pounds, feet and inches, so
// that a page can show the same text in kilograms and meters.

// Further conversion factors of NIST Special Publication 811 (2008), Appendix B.8, each
// exact: foot 3.048 E-01 m, mile 1.609 344 E+03 m.
const (
	metersPerFoot     = MillimetersPerInch * InchesPerFoot / 1000
	cubicMetersPerCuY = 27 * metersPerFoot * metersPerFoot * metersPerFoot
	kilometersPerMile = 1.609344
	// newtonMetersPerPoundFoot is a pound-force under the standard acceleration, 9.806 65 m/s2.
	newtonMetersPerPoundFoot = KilogramsPerPound * 9.80665 * metersPerFoot
)

// A Quantity is a quantity in a text, with the same in metric units.
type Quantity struct {
	Start, End int // its place in the text, in bytes
	Metric     string
}

// Dimension writes a dimension of a part. In metric, it uses millimeters below a meter (to
// a tenth below 100 mm), and meters to the centimeter above that.
func (s System) Dimension(in Inches) string {
	if s == American {
		return in.Near()
	}
	mm := in.InMillimeters()
	switch whole := Nearest(mm, 1); {
	case math.Abs(float64(mm)) < 100:
		return trimmed(float64(Nearest(mm, 0.1)), 1, " mm")
	case math.Abs(float64(whole)) < 1000:
		return fixed(float64(whole), 0, " mm")
	default:
		return meters(Nearest(mm, 10), 2)
	}
}

// Torques writes a span of torques in pound-feet as whole newton meters that lie within it.
func Torques(low, high float64) string {
	return fixed(Up(low*newtonMetersPerPoundFoot, 1), 0, " to ") + fixed(Down(high*newtonMetersPerPoundFoot, 1), 0, "")
}

// metricWritings lists each unit that our texts use and how to write it in metric. A longer
// name comes before a name that it begins with.
var metricWritings = []struct {
	name  string
	write func(float64) string
}{
	{"lb/cu yd", func(v float64) string {
		return trimmed(Nearest(v*KilogramsPerPound/cubicMetersPerCuY, 1), 0, " kg/cu m")
	}},
	{"lb/ft", func(v float64) string { return trimmed(Nearest(v*KilogramsPerPound/metersPerFoot, 0.01), 2, " kg/m") }},
	// a moment, divided by a weight to make an arm
	{"lb-ft /", func(v float64) string { return trimmed(Nearest(v*KilogramsPerPound*metersPerFoot, 1), 0, " kg-m /") }},
	{"lb-ft", func(v float64) string { return trimmed(Nearest(v*newtonMetersPerPoundFoot, 1), 0, " N m") }},
	{"lbs", func(v float64) string { return Metric.Weight(Pounds(v)) }},
	{"lb", func(v float64) string { return Metric.Weight(Pounds(v)) }},
	{"pounds", func(v float64) string { return Metric.Weight(Pounds(v)) }},
	// A tire's pressure is a limit: nobody may fill in more, so it goes down, to what a gauge shows.
	{"psi", func(v float64) string { return fixed(Down(PSI(v).Kilopascals(), 5), 0, " kPa") }},
	{"lb/gal", func(v float64) string {
		return trimmed(Nearest(v*KilogramsPerPound/Gallons(1).Liters(), 0.001), 3, " kg/L")
	}},
	{"gal", func(v float64) string { return trimmed(Nearest(Gallons(v).Liters(), 1), 0, " L") }},
	{"gallons", func(v float64) string { return trimmed(Nearest(Gallons(v).Liters(), 1), 0, " L") }},
	{"sq ft", func(v float64) string { return trimmed(Nearest(v*metersPerFoot*metersPerFoot, 0.1), 1, " sq m") }},
	{"cu yd", func(v float64) string { return trimmed(Nearest(v*cubicMetersPerCuY, 0.1), 1, " cu m") }},
	{"ft/s2", func(v float64) string { return trimmed(Nearest(v*metersPerFoot, 0.01), 2, " m/s2") }},
	{"ft/s", func(v float64) string { return trimmed(Nearest(v*metersPerFoot, 0.01), 2, " m/s") }},
	{"ft", func(v float64) string { return Metric.Dimension(Feet(v).Inches()) }},
	{"foot", func(v float64) string { return Metric.Dimension(Feet(v).Inches()) }},
	{"feet", func(v float64) string { return Metric.Dimension(Feet(v).Inches()) }},
	{"in", func(v float64) string { return Metric.Dimension(Inches(v)) }},
	{"inches", func(v float64) string { return Metric.Dimension(Inches(v)) }},
	{"inch", func(v float64) string { return Metric.Dimension(Inches(v)) }},
	{"mph", func(v float64) string { return trimmed(Nearest(v*kilometersPerMile, 0.1), 1, " km/h") }},
	{"miles", func(v float64) string { return trimmed(Nearest(v*kilometersPerMile, 0.1), 1, " km") }},
	// Spanish
	{"millas", func(v float64) string { return trimmed(Nearest(v*kilometersPerMile, 0.1), 1, " km") }},
	{"galones", func(v float64) string { return trimmed(Nearest(Gallons(v).Liters(), 1), 0, " L") }},
}

// Quantities finds the quantities in a text that are in pounds, feet, inches and the like,
// and writes each in metric units, converted from the number in the text. The map exact
// holds the metric form of numbers that were rounded for the text: "3,643 lb" then becomes
// 1,652 kg, converted from the exact value and not from the rounded pounds. Quantities
// leaves out a quantity that has its metric form next to it ("102 in (2.6 m)").
func Quantities(text string, exact map[string]string) []Quantity {
	var out []Quantity
	for i := 0; i < len(text); {
		if !isDigit(text[i]) {
			i++
			continue
		}
		if i > 0 && partOfName(text[:i]) {
			i = endOfName(text, i)
			continue
		}
		q, end := quantityAt(text, i, exact)
		if q.Metric != "" && !saidInMetric(text, q) {
			out = append(out, q)
		}
		i = max(end, i+1)
	}
	return out
}

// InMetric returns the text with all its quantities in metric units.
func InMetric(text string, exact map[string]string) string {
	var b strings.Builder
	from := 0
	for _, q := range Quantities(text, exact) {
		b.WriteString(text[from:q.Start])
		b.WriteString(q.Metric)
		from = q.End
	}
	b.WriteString(text[from:])
	return b.String()
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' || c >= utf8.RuneSelf }

// mark reports whether a text begins with a character for private use (U+E000 to U+E03F), with which
// internal/phrases marks where a phrase begins and ends. It is not a letter.
func mark(text string) bool { return strings.HasPrefix(text, "\xee\x80") }

// partOfName reports whether a number that follows this text belongs to a name: W10 of
// W10x22, the 4.1 of C3x4.1, the 16 of ST235/80R16. A no-break space does not count as a
// letter.
func partOfName(before string) bool {
	last := before[len(before)-1]
	if last == '.' || last == '/' || last == '$' || last == '#' {
		return true
	}
	return isLetter(last) && !strings.HasSuffix(before, nbsp) && !strings.HasSuffix(before, "\u2212") && !mark(before[max(len(before)-3, 0):])
}

// endOfName returns where such a name ends.
func endOfName(text string, i int) int {
	for i < len(text) && (isDigit(text[i]) || isLetter(text[i]) || text[i] == '.' || text[i] == '/') {
		i++
	}
	return i
}

const nbsp = "\u00a0"

// afterSpace skips one space, which may be a no-break space.
func afterSpace(text string, i int) int {
	if i < len(text) && text[i] == ' ' {
		return i + 1
	}
	if strings.HasPrefix(text[i:], nbsp) {
		return i + len(nbsp)
	}
	return i
}

// quantityAt reads the quantity that begins at a digit, and returns where to continue.
func quantityAt(text string, i int, exact map[string]string) (Quantity, int) {
	v, at := numberAt(text, i)
	write, end := unitAt(text, at)
	if write != nil {
		name := text[afterSpace(text, at):end]
		if name == "ft" {
			// feet and inches
			if k := afterSpace(text, end); k > end && k < len(text) && isDigit(text[k]) {
				if rest, after := numberAt(text, k); rest < InchesPerFoot {
					if w, all := unitAt(text, after); w != nil && text[afterSpace(text, after):all] == "in" {
						in := Inches(rest) + Feet(v).Inches()
						return found(text, i, all, exact, Metric.Dimension(in)), all
					}
				}
			}
		}
		return found(text, i, end, exact, write(v)), end
	}
	// 12,000-15,000 lb, 20 to 25 ft: both numbers have the second one's unit.
	for _, between := range []string{" to ", "-", "\u2013"} {
		if !strings.HasPrefix(text[at:], between) {
			continue
		}
		if k := at + len(between); k < len(text) && isDigit(text[k]) {
			to, after := numberAt(text, k)
			if w, all := unitAt(text, after); w != nil {
				return Quantity{i, all, w(v) + " to " + w(to)}, all
			}
		}
	}
	return Quantity{}, max(at, endOfName(text, at))
}

func found(text string, i, end int, exact map[string]string, metric string) Quantity {
	if m, ok := exact[strings.ReplaceAll(text[i:end], nbsp, " ")]; ok {
		metric = m
	}
	return Quantity{i, end, metric}
}

// numberAt reads 24,000, 7.5, 24k, 5/16 or 2-5/16.
func numberAt(text string, i int) (float64, int) {
	from := i
	for i < len(text) && inNumber(text, i) {
		i++
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(text[from:i], ",", ""), 64)
	if err != nil {
		return 0, i
	}
	switch {
	case i < len(text) && text[i] == '/':
		if den, end := wholeAt(text, i+1); den > 0 {
			return v / den, end
		}
	case i < len(text) && text[i] == '-':
		num, end := wholeAt(text, i+1)
		if num > 0 && end < len(text) && text[end] == '/' {
			if den, end := wholeAt(text, end+1); den > 0 {
				return v + num/den, end
			}
		}
	case i+1 < len(text) && text[i] == 'k' && (text[i+1] == ' ' || strings.HasPrefix(text[i+1:], nbsp)):
		return float64(v * 1000), i + 1
	}
	return v, i
}

// inNumber reports whether the number goes on at i: with a digit, or with a comma or a point
// before one.
func inNumber(text string, i int) bool {
	return isDigit(text[i]) || (text[i] == ',' || text[i] == '.') && i+1 < len(text) && isDigit(text[i+1])
}

func wholeAt(text string, i int) (float64, int) {
	v := 0.0
	for ; i < len(text) && isDigit(text[i]); i++ {
		v = float64(v*10) + float64(text[i]-'0')
	}
	return v, i
}

// unitAt reads the unit after a number, and returns where it ends.
func unitAt(text string, i int) (func(float64) string, int) {
	k := afterSpace(text, i)
	if k == i && strings.HasPrefix(text[i:], "-") {
		k++ // a 28-ft deck
	}
	for _, u := range metricWritings {
		if !strings.HasPrefix(text[k:], u.name) {
			continue
		}
		end := k + len(u.name)
		if end < len(text) && (isLetter(text[end]) && !strings.HasPrefix(text[end:], nbsp) && !mark(text[end:]) || isDigit(text[end]) || text[end] == '/') {
			continue
		}
		if u.name == "in" && aPreposition(text[end:]) {
			return nil, i
		}
		return u.write, end
	}
	return nil, i
}

// aPreposition tells "2 in the neck" from "2 in thick" by the word that follows. In Spanish the
// word "a" is "to": "13 ft 6 in a 14 ft", "19 ft 8 in a donde se equilibra".
func aPreposition(after string) bool {
	rest, spaced := strings.CutPrefix(after, " ")
	word, rest, _ := strings.Cut(rest, " ")
	if word == "a" && (rest != "" && isDigit(rest[0]) || strings.HasPrefix(rest, "donde ")) {
		return false
	}
	switch word {
	case "a", "an", "the", "all", "each", "every", "this", "that", "one", "its", "our", "stock", "total":
		return spaced
	}
	return false
}

// saidInMetric reports whether the text already gives the quantity in metric: 102 in (2.6 m),
// 3,350 lb = 1,519.53 kg, 1,519 kg = 3,349 lb, 1,519 kilograms or 3,349 pounds.
func saidInMetric(text string, q Quantity) bool {
	before := strings.TrimRight(text[:q.Start], " =")
	before = strings.TrimSuffix(before, " or")
	for _, unit := range []string{" kg", " kilograms", " mm", " m", " km/h"} {
		if len(before) < q.Start && strings.HasSuffix(before, unit) {
			return true
		}
	}
	rest, ok := strings.CutPrefix(text[q.End:], " (")
	if !ok {
		rest, ok = strings.CutPrefix(text[q.End:], " = ")
	}
	if !ok || rest == "" || !isDigit(rest[0]) {
		return false
	}
	_, at := numberAt(rest, 0)
	for _, unit := range []string{" kg", " mm", " m)", " m ", " km/h", " kPa"} {
		if strings.HasPrefix(rest[at:], unit) {
			return true
		}
	}
	return false
}
