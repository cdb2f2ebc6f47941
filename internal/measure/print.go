package measure

import (
	"bytes"
	"math"
	"strconv"
	"strings"
)

// There are two ways to print. String is exact: the parser reads back the same number.
// Limit, Load and Near are for people: they round once, here, in the direction that their
// names promise.

// number prints v exactly, with separated thousands and as few decimals as possible,
// followed by its unit.
func number(v float64, unit string) string {
	var room [48]byte
	return group(strconv.AppendFloat(room[:0], v, 'f', -1, 64), unit)
}

// fixed prints v with exactly n decimals and separated thousands, followed by its unit.
func fixed(v float64, n int, unit string) string {
	if v == 0 {
		v = 0 // a negative zero prints as zero
	}
	var room [48]byte
	return group(strconv.AppendFloat(room[:0], v, 'f', n, 64), unit)
}

// trimmed prints v with at most n decimals, followed by its unit.
func trimmed(v float64, n int, unit string) string {
	var room [48]byte
	s := strconv.AppendFloat(room[:0], v, 'f', n, 64)
	if bytes.IndexByte(s, '.') >= 0 {
		s = bytes.TrimRight(bytes.TrimRight(s, "0"), ".")
	}
	if string(s) == "-0" {
		s = s[1:]
	}
	return group(s, unit)
}

// group separates the thousands of a number in digits and puts its unit after it. The
// number may have a sign and decimals.
func group(s []byte, unit string) string {
	digits := s
	if len(digits) > 0 && digits[0] == '-' {
		digits = digits[1:]
	}
	whole := len(digits)
	if i := bytes.IndexByte(digits, '.'); i >= 0 {
		whole = i
	}
	var room [64]byte
	out := append(room[:0], s[:len(s)-len(digits)]...)
	for i, d := range digits {
		if i > 0 && i < whole && (whole-i)%3 == 0 {
			out = append(out, ',')
		}
		out = append(out, d)
	}
	return string(append(out, unit...))
}

// Count prints a whole number with separated thousands.
func Count(n int) string {
	var room [24]byte
	return group(strconv.AppendInt(room[:0], int64(n), 10), "")
}

// String prints pounds if they are whole tenths, kilograms if those are whole grams, and
// otherwise pounds with all decimals. So a weight that was written in kilograms stays short.
func (p Pounds) String() string {
	v := float64(p)
	if tenths := float64(v * 10); tenths != math.Trunc(tenths) && math.Abs(v) <= most {
		if kg := math.Round(v*KilogramsPerPound*1000) / 1000; FromKilograms(kg) == p {
			return number(kg, " kg")
		}
	}
	return number(v, " lb")
}

// Limit prints a limit or a payload: whole pounds, rounded down.
func (p Pounds) Limit() string { return fixed(float64(Down(p, 1)), 0, " lb") }

// Load prints a load or a need: whole pounds, rounded up.
func (p Pounds) Load() string { return fixed(float64(Up(p, 1)), 0, " lb") }

// Near prints a weight for the reader of a working, to a tenth of a pound.
func (p Pounds) Near() string { return trimmed(float64(Nearest(p, 0.1)), 1, " lb") }

// String prints feet and inches if that is exact, millimeters if those are, and otherwise
// inches with all decimals.
func (in Inches) String() string {
	v := float64(in)
	if sixtyFourths := float64(v * 64); sixtyFourths == math.Trunc(sixtyFourths) && math.Abs(v) <= most {
		return feetAndInches(v)
	}
	if mm := math.Round(v*MillimetersPerInch*100) / 100; mm <= most && Inches(mm/MillimetersPerInch) == in {
		return number(mm, " mm")
	}
	return number(v, " in")
}

// Near prints a length for the reader of a working or a message. A length that a person can
// write is exact; any other is rounded to a tenth of a millimeter. For 20 ft and 2,440 mm
// together, Near prints 8,536 mm, and String has fourteen decimals of an inch.
func (in Inches) Near() string {
	if whole := Nearest(in, 1.0/64); NotOver(in, whole) && NotOver(whole, in) {
		return whole.String()
	}
	if s := in.String(); !strings.HasSuffix(s, " in") {
		return s
	}
	return trimmed(float64(Nearest(in.InMillimeters(), 0.1)), 1, " mm")
}

// feetAndInches prints a length of whole sixty-fourths of an inch as the trade writes
// it: 28 ft, 8 ft 6 in, 2-5/16 in.
func feetAndInches(v float64) string {
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	feet := math.Floor(v / InchesPerFoot)
	rest := v - float64(feet*InchesPerFoot)
	switch {
	case feet == 0 || v == 0:
		return sign + fraction(rest) + " in"
	case rest == 0:
		return sign + number(feet, " ft")
	default:
		return sign + number(feet, " ft ") + fraction(rest) + " in"
	}
}

// fraction prints a number that is a multiple of 1/64: 2-5/16, 7, 1/2.
func fraction(v float64) string {
	whole := math.Floor(v)
	num, den := int((v-whole)*64), 64
	if num == 0 {
		return number(whole, "")
	}
	for num%2 == 0 {
		num, den = num/2, den/2
	}
	frac := strconv.Itoa(num) + "/" + strconv.Itoa(den)
	if whole == 0 {
		return frac
	}
	return number(whole, "-") + frac
}

// InInches prints the length in inches: 102 in, 2-5/16 in. It rounds a length that is not
// a multiple of 1/64 in to a tenth.
func (in Inches) InInches() string {
	v := float64(in)
	if s := float64(v * 64); s == math.Trunc(s) && v >= 0 && v < 1e9 {
		return fraction(v) + " in"
	}
	return trimmed(float64(Nearest(in, 0.1)), 1, " in")
}

// InFeet prints the length in feet and inches to the nearest 1/4 in, for people.
func (in Inches) InFeet() string { return feetAndInches(float64(Nearest(in, 0.25))) }

// AtLeast prints the first place where something may begin: feet and inches, rounded up to
// the quarter inch.
func (in Inches) AtLeast() string { return feetAndInches(float64(Up(in, 0.25))) }

// AtMost prints the last place where something may end: feet and inches, rounded down to the
// quarter inch.
func (in Inches) AtMost() string { return feetAndInches(float64(Down(in, 0.25))) }

func (ft Feet) String() string { return number(float64(ft), " ft") }

// Near prints the length to a hundredth of a foot.
func (ft Feet) Near() string { return trimmed(float64(Nearest(ft, 0.01)), 2, " ft") }

// String prints psi if they are whole tenths, kilopascals if those are, and otherwise psi
// with all decimals. So a pressure that was written in kPa or bar stays short. A US label
// prints kilopascals and psi, not bar: 49 CFR 571.110 S4.3.3 (2015) has "248 kPa (36 psi)".
func (p PSI) String() string {
	v := float64(p)
	if tenths := float64(v * 10); tenths != math.Trunc(tenths) && math.Abs(v) <= most {
		kpa := p.Kilopascals()
		if tenth := math.Round(kpa*10) / 10; FromKilopascals(tenth) == p && tenth <= most {
			return number(tenth, " kPa")
		}
	}
	return number(v, " psi")
}

// Near prints the pressure to a tenth.
func (p PSI) Near() string { return trimmed(float64(Nearest(p, 0.1)), 1, " psi") }

func (d Dollars) String() string {
	sign, v := "", float64(d)
	if v < 0 {
		sign, v = "-", -v
	}
	if v == math.Trunc(v) {
		return sign + "$" + number(v, "")
	}
	if cents := math.Round(v*100) / 100; cents == v {
		return sign + "$" + fixed(v, 2, "")
	}
	return sign + "$" + number(v, "")
}

func (d Degrees) String() string { return number(float64(d), " degrees") }

// Near prints the angle to a tenth of a degree.
func (d Degrees) Near() string { return trimmed(float64(Nearest(d, 0.1)), 1, " degrees") }

func (w PoundsPerFoot) String() string { return number(float64(w), " lb/ft") }

func (m PoundInches) String() string { return number(float64(m), " lb-in") }

func (a SquareFeet) String() string { return number(float64(a), " sq ft") }

// Near prints the area to a tenth of a square foot.
func (a SquareFeet) Near() string { return trimmed(float64(Nearest(a, 0.1)), 1, " sq ft") }

func (v CubicYards) String() string { return number(float64(v), " cu yd") }

// Near prints the volume to a tenth of a cubic yard.
func (v CubicYards) Near() string { return trimmed(float64(Nearest(v, 0.1)), 1, " cu yd") }

func (g Gallons) String() string { return number(float64(g), " gal") }

// Near prints the volume to the gallon.
func (g Gallons) Near() string { return trimmed(float64(Nearest(g, 1)), 0, " gal") }

func (d PoundsPerGallon) String() string { return number(float64(d), " lb/gal") }

func (d PoundsPerCubicYard) String() string { return number(float64(d), " lb/cu yd") }

// String prints the share as a percentage that reads back to the same share.
func (s Share) String() string {
	v := s.Percent()
	for n := 0; n < 18; n++ {
		text := strconv.FormatFloat(v, 'f', n, 64)
		back, err := strconv.ParseFloat(text, 64)
		if err == nil && back/100 == float64(s) {
			return group([]byte(text), "%")
		}
	}
	return number(v, "%")
}

// Near prints the share as a percentage to a tenth.
func (s Share) Near() string {
	return trimmed(float64(Nearest(s.Percent(), 0.1)), 1, "%")
}

// Limit prints a share that is still free: in percent, rounded down to a tenth.
func (s Share) Limit() string {
	return trimmed(float64(Down(Share(float64(s)*100), 0.1)), 1, "%")
}

// Number prints a number without a unit for a working, with at most n decimals.
func Number(v float64, n int) string { return trimmed(v, n, "") }
