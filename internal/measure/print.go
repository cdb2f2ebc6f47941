package measure

import (
	"bytes"
	"math"
	"strconv"
	"strings"
)

// Two ways to print. String is exact: what it prints, the parser reads back to the
// same number. Limit, Load and Near are for people: they round once, here, in the
// direction that their name promises.

// number prints v with thousands separated and as few decimals as are exact, and what
// stands behind it.
func number(v float64, behind string) string {
	var room [48]byte
	return group(strconv.AppendFloat(room[:0], v, 'f', -1, 64), behind)
}

// fixed prints v with exactly n decimals, thousands separated.
func fixed(v float64, n int, behind string) string {
	if v == 0 {
		v = 0 // a negative zero prints as zero
	}
	var room [48]byte
	return group(strconv.AppendFloat(room[:0], v, 'f', n, 64), behind)
}

// trimmed prints v with at most n decimals.
func trimmed(v float64, n int, behind string) string {
	var room [48]byte
	s := strconv.AppendFloat(room[:0], v, 'f', n, 64)
	if bytes.IndexByte(s, '.') >= 0 {
		s = bytes.TrimRight(bytes.TrimRight(s, "0"), ".")
	}
	if string(s) == "-0" {
		s = s[1:]
	}
	return group(s, behind)
}

// group writes a number of digits, with a sign and decimals where it has them, with its
// thousands separated, and behind it its unit.
func group(s []byte, behind string) string {
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
	return string(append(out, behind...))
}

// Count prints a whole number with thousands separated.
func Count(n int) string {
	var room [24]byte
	return group(strconv.AppendInt(room[:0], int64(n), 10), "")
}

// String prints pounds where they are whole tenths, else kilograms where those are whole
// grams, else pounds with all their decimals: a weight written in kilograms stays short.
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

// Near prints a weight for the reader of a working: as it is when it was written so,
// else to a tenth of a pound.
func (p Pounds) Near() string { return trimmed(float64(Nearest(p, 0.1)), 1, " lb") }

// String prints feet and inches where that is exact, else millimeters, else inches.
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

// Near prints a length for the reader of a working or a message: as it was written, or
// as the sum of such writings is; what no such writing is goes to a tenth of a millimeter.
// 20 ft and 2,440 mm make 8,536 mm, where String has fourteen decimals of an inch.
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
// it: 28 ft, 8 ft 6 in, 83 in, 2-5/16 in. Lengths under ten feet that are no whole
// feet stay in inches up to 120 in only where that is the shorter writing.
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

// fraction prints a number of whole sixty-fourths: 2-5/16, 7, 1/2.
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

// InInches prints the length in inches alone: 102 in, 2-5/16 in. A length that is no
// whole sixty-fourth is given to a tenth.
func (in Inches) InInches() string {
	v := float64(in)
	if s := float64(v * 64); s == math.Trunc(s) && v >= 0 && v < 1e9 {
		return fraction(v) + " in"
	}
	return trimmed(float64(Nearest(in, 0.1)), 1, " in")
}

// InFeet prints the length in feet and inches to the nearest 1/4 in, for people.
func (in Inches) InFeet() string { return feetAndInches(float64(Nearest(in, 0.25))) }

// AtLeast prints where something may begin: feet and inches, up to the quarter inch.
func (in Inches) AtLeast() string { return feetAndInches(float64(Up(in, 0.25))) }

// AtMost prints where something must end: feet and inches, down to the quarter inch.
func (in Inches) AtMost() string { return feetAndInches(float64(Down(in, 0.25))) }

func (ft Feet) String() string { return number(float64(ft), " ft") }

// Near prints the length to a hundredth of a foot.
func (ft Feet) Near() string { return trimmed(float64(Nearest(ft, 0.01)), 2, " ft") }

// String prints psi where they are whole tenths, else kilopascals where those are whole
// tenths, else psi with all their decimals: a pressure written in kPa or bar stays short.
// Kilopascals, because a US label prints them beside the psi, and no bar: 49 CFR 571.110
// S4.3.3 (2015) has "248 kPa (36 psi)".
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

// Limit prints a share that is left to use up: in percent, a tenth, rounded down.
func (s Share) Limit() string {
	return trimmed(float64(Down(Share(float64(s)*100), 0.1)), 1, "%")
}

// Number prints a bare number for a working: at most n decimals.
func Number(v float64, n int) string { return trimmed(v, n, "") }
