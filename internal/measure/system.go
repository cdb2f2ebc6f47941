package measure

import "math"

// A System is the system of units that somebody wants to read. Each value is rounded once,
// from the exact value. Nothing is converted from a rounded text.
type System int

// The two systems: pounds with feet and inches, kilograms with meters.
const (
	American System = iota
	Metric
)

// Weight writes a weight to a tenth of a pound, which is finer than a scale, or to a whole
// kilogram, one below 10 kg to a tenth of a kilogram.
func (s System) Weight(p Pounds) string {
	if s == Metric {
		return p.InKilograms().Near()
	}
	return p.Near()
}

// Rating writes a rating that somebody stated. It is like Weight, but rounds down, so that it
// never shows more than was stated.
func (s System) Rating(p Pounds) string {
	if s == Metric {
		return p.InKilograms().Limit()
	}
	return trimmed(float64(Down(p, 0.1)), 1, " lb")
}

// Limit writes a limit or a payload: whole pounds or kilograms, rounded down.
func (s System) Limit(p Pounds) string {
	if s == Metric {
		return p.InKilograms().Limit()
	}
	return p.Limit()
}

// Load writes a load or a need: whole pounds or kilograms, rounded up.
func (s System) Load(p Pounds) string {
	if s == Metric {
		return p.InKilograms().Load()
	}
	return p.Load()
}

// Limit prints a limit or a payload: whole kilograms, rounded down.
func (kg Kilograms) Limit() string { return fixed(float64(Down(kg, 1)), 0, " kg") }

// Load prints a load or a need: whole kilograms, rounded up.
func (kg Kilograms) Load() string { return fixed(float64(Up(kg, 1)), 0, " kg") }

// Near prints a weight to a whole kilogram, one below 10 kg to a tenth.
func (kg Kilograms) Near() string {
	if math.Abs(float64(kg)) < 10 {
		return trimmed(float64(Nearest(kg, 0.1)), 1, " kg")
	}
	return fixed(float64(Nearest(kg, 1)), 0, " kg")
}

// Length writes a length that somebody gave: in feet and inches to 1/64 in, or in meters to
// the centimeter. A length that was given in the other system is rounded, so that it does
// not show the decimals of its conversion.
func (s System) Length(in Inches) string {
	if s == Metric {
		return meters(Nearest(in.InMillimeters(), 10), 2)
	}
	if math.Abs(float64(in)) > most {
		return in.String()
	}
	return feetAndInches(float64(Nearest(in, 1.0/64)))
}

// AtLeast writes the first place where something may begin, rounded up to the quarter inch or
// the centimeter.
func (s System) AtLeast(in Inches) string {
	if s == Metric {
		return meters(Up(in.InMillimeters(), 10), 2)
	}
	return in.AtLeast()
}

// AtMost writes the last place where something may end, rounded down to the quarter inch or
// the centimeter.
func (s System) AtMost(in Inches) string {
	if s == Metric {
		return meters(Down(in.InMillimeters(), 10), 2)
	}
	return in.AtMost()
}

// Stretch writes a range of places, rounded inward to quarter inches or centimeters. A range
// that is too short for that is rounded to 1/64 in or to millimeters.
func (s System) Stretch(first, last Inches) string {
	if s == Metric {
		return stretch(first.InMillimeters(), last.InMillimeters(), 10, 1, Millimeters.meters)
	}
	return stretch(first, last, 0.25, 1.0/64, Inches.String)
}

// Whole is Stretch in whole inches or centimeters, for what nobody places more finely.
func (s System) Whole(first, last Inches) string {
	if s == Metric {
		return s.Stretch(first, last)
	}
	return stretch(first, last, 1, 1.0/64, Inches.String)
}

func stretch[U ~float64](first, last, coarse, fine U, write func(U) string) string {
	from, to := Up(first, coarse), Down(last, coarse)
	if from > to {
		from, to = Up(first, fine), Down(last, fine)
	}
	switch {
	case from > to:
		return "only at " + write(Nearest(first, fine))
	case from == to:
		return "only at " + write(from)
	}
	return write(from) + " to " + write(to)
}

// Millimeters is a length in millimeters, as a type that can be rounded.
type Millimeters float64

// InMillimeters returns the length in millimeters, as a type that can be rounded.
func (in Inches) InMillimeters() Millimeters { return Millimeters(in.Millimeters()) }

// meters writes a length in meters: with two decimals if it is whole centimeters, and
// otherwise with three.
func (mm Millimeters) meters() string {
	if Nearest(mm, 10) == mm {
		return meters(mm, 2)
	}
	return meters(mm, 3)
}

// meters writes a length that is already rounded, in meters with n decimals.
func meters(mm Millimeters, n int) string {
	return fixed(float64(mm)/1000, n, " m")
}
