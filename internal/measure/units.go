package measure

import "math"

// The units. Each type counts the unit in its name.
type (
	// Pounds is a weight in avoirdupois pounds, as labels and scales print it.
	Pounds float64
	// Inches is a length. All lengths are in inches, long ones too.
	Inches float64
	// Feet is a length in feet, only for figures that the trade states in feet.
	Feet float64
	// PSI is a cold inflation pressure in pounds-force per square inch.
	PSI float64
	// Dollars is an amount of US money.
	Dollars float64
	// Degrees is an angle.
	Degrees float64
	// PoundsPerFoot is the weight of a foot of beam, channel or rail.
	PoundsPerFoot float64
	// PoundInches is the moment of a weight about the ball.
	PoundInches float64
	// SquareFeet is an area of deck.
	SquareFeet float64
	// CubicYards is a volume of loose material.
	CubicYards float64
	// Gallons is a volume in US liquid gallons of 231 cubic inches.
	Gallons float64
	// PoundsPerGallon is the density of a liquid.
	PoundsPerGallon float64
	// PoundsPerCubicYard is the density of loose material.
	PoundsPerCubicYard float64
	// Share is a part of a whole: 0.12 is twelve percent.
	Share float64
)

// A Unit is any of the types above.
type Unit interface {
	~float64
	// Symbol is the unit's name in figures and in JSON: "lb", "in", "psi".
	Symbol() string
	// String prints it exactly: the parser reads the same number back.
	String() string
}

func (Pounds) Symbol() string             { return "lb" }
func (Inches) Symbol() string             { return "in" }
func (Feet) Symbol() string               { return "ft" }
func (PSI) Symbol() string                { return "psi" }
func (Dollars) Symbol() string            { return "USD" }
func (Degrees) Symbol() string            { return "degrees" }
func (PoundsPerFoot) Symbol() string      { return "lb/ft" }
func (PoundInches) Symbol() string        { return "lb-in" }
func (SquareFeet) Symbol() string         { return "sq ft" }
func (CubicYards) Symbol() string         { return "cu yd" }
func (Gallons) Symbol() string            { return "gal" }
func (PoundsPerGallon) Symbol() string    { return "lb/gal" }
func (PoundsPerCubicYard) Symbol() string { return "lb/cu yd" }
func (Share) Symbol() string              { return "%" }

// Conversion factors. The first three are exact by definition; the source is
// NIST Special Publication 811 (2008), Appendix B.
const (
	// KilogramsPerPound: "pound (avoirdupois) (lb) to kilogram (kg) 4.535 923 7 E-01",
	// exact (NIST SP 811, B.8).
	KilogramsPerPound = 0.45359237
	// MillimetersPerInch: "inch (in) to millimeter (mm) 2.54 E+01", exact (NIST SP 811, B.8).
	MillimetersPerInch = 25.4
	// KilopascalsPerBar: "bar to kilopascal (kPa) 1.0 E+02", exact (NIST SP 811, B.8).
	KilopascalsPerBar = 100
	// KilopascalsPerPSI follows from the pound, the standard acceleration of free fall
	// 9.806 65 m/s2 and the inch; NIST SP 811, B.8 prints 6.894 757 E+00.
	KilopascalsPerPSI = KilogramsPerPound * 9.80665 / (0.0254 * 0.0254) / 1000
	// CubicInchesPerGallon: the US gallon is 231 cubic inches, and the US bushel (struck)
	// 2150.42 (NIST Handbook 44 (2024), Appendix C).
	CubicInchesPerGallon = 231
	CubicInchesPerBushel = 2150.42
	// InchesPerFoot is twelve.
	InchesPerFoot = 12
)

// Kilograms returns the weight in kilograms.
func (p Pounds) Kilograms() float64 { return float64(float64(p) * KilogramsPerPound) }

// Kilograms is a weight in kilograms. Labels print it next to the pounds.
type Kilograms float64

// InKilograms returns the weight in kilograms, as a type that can be rounded.
func (p Pounds) InKilograms() Kilograms { return Kilograms(p.Kilograms()) }

// FromKilograms returns the weight of kg kilograms.
func FromKilograms(kg float64) Pounds { return Pounds(kg / KilogramsPerPound) }

// Millimeters returns the length in millimeters.
func (in Inches) Millimeters() float64 { return float64(float64(in) * MillimetersPerInch) }

// FromMillimeters returns the length of mm millimeters.
func FromMillimeters(mm float64) Inches { return Inches(mm / MillimetersPerInch) }

// Liters returns the volume in liters.
func (g Gallons) Liters() float64 {
	const decimetersPerInch = MillimetersPerInch / 100
	return float64(float64(g) * CubicInchesPerGallon * decimetersPerInch * decimetersPerInch * decimetersPerInch)
}

// FromLiters returns the volume of that many liters.
func FromLiters(liters float64) Gallons { return Gallons(liters / Gallons(1).Liters()) }

// FromCubicInches returns the volume of that many cubic inches.
func FromCubicInches(v float64) Gallons { return Gallons(v / CubicInchesPerGallon) }

// CubicYards returns the same volume in cubic yards.
func (g Gallons) CubicYards() CubicYards {
	const yard = 3 * InchesPerFoot
	return CubicYards(float64(g) * CubicInchesPerGallon / (yard * yard * yard))
}

// Percent returns the share in percent: 12 for 0.12.
func (s Share) Percent() float64 { return float64(float64(s) * 100) }

// Feet returns the same length in feet.
func (in Inches) Feet() Feet { return Feet(in / InchesPerFoot) }

// Inches returns the same length in inches.
func (ft Feet) Inches() Inches { return Inches(ft * InchesPerFoot) }

// Kilopascals returns the pressure in kilopascals.
func (p PSI) Kilopascals() float64 { return float64(float64(p) * KilopascalsPerPSI) }

// FromKilopascals returns the pressure of kpa kilopascals.
func FromKilopascals(kpa float64) PSI { return PSI(kpa / KilopascalsPerPSI) }

// A pressure that is molded or printed in kPa is a rounded pressure in psi: 50 psi is
// printed as 340, 345 or 350 kPa, and 80 psi as 550 kPa. The steps are common practice, no
// source.
const (
	pressureStep     PSI = 10 / KilopascalsPerPSI  // the coarsest step it is rounded to
	halfPressureStep PSI = 2.5 / KilopascalsPerPSI // half the step of 5 kPa
)

// inOtherUnits reports whether one of the two is in whole psi and the other is not. The
// other was then written in kPa or bar.
func inOtherUnits(a, b PSI) bool {
	return (a == PSI(math.Trunc(float64(a)))) != (b == PSI(math.Trunc(float64(b))))
}

// PressureReaches reports whether p is at least the pressure full. If one of them is in kPa
// and the other in psi, p may be 2.5 kPa below: 550 kPa counts as 80 psi. That changes the
// load by at most half a percent.
func PressureReaches(p, full PSI) bool {
	return NotOver(full, p) || inOtherUnits(p, full) && full-p <= halfPressureStep
}

// PressureKeeps reports whether p is at most the pressure most. If one of them is in kPa and
// the other in psi, p may be less than 10 kPa above: 350 kPa is printed for 50 psi.
func PressureKeeps(p, most PSI) bool {
	return NotOver(p, most) || inOtherUnits(p, most) && p-most < pressureStep
}
