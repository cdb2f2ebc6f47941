package measure

import (
	"fmt"
	"regexp"
	"strings"
)

// Moving and stopping. All lengths are in inches. A speed is in miles an hour, as on signs
// and in stopping tests.

type (
	// MilesPerHour is a speed.
	MilesPerHour float64
	// FeetPerSecondSquared is a deceleration.
	FeetPerSecondSquared float64
	// Years is an age.
	Years float64
)

func (MilesPerHour) Symbol() string { return "mph" }

const (
	// MillimetersPerMile: "mile (mi) to meter (m) 1.609 344 E+03", exact (NIST SP 811, B.8).
	MillimetersPerMile = 1609344
	// StandardGravity is 9.806 65 m/s2 (NIST SP 811, B.8), in feet per second squared.
	StandardGravity FeetPerSecondSquared = 9806.65 / (MillimetersPerInch * InchesPerFoot)
	// daysPerYear is the mean year of the Gregorian calendar: 365 + 97/400.
	daysPerYear = 365.2425
)

// FromKilometersPerHour returns the speed of kmh kilometers an hour.
func FromKilometersPerHour(kmh int) MilesPerHour {
	return MilesPerHour(float64(kmh) * 1e6 / MillimetersPerMile)
}

// YearsOf converts an age in days to years.
func YearsOf(days int) Years { return Years(float64(days) / daysPerYear) }

// MeanDeceleration is v squared over 2 d: the deceleration that stops a vehicle from speed
// v over the distance d. The distance must not be zero.
func MeanDeceleration(v MilesPerHour, d Inches) FeetPerSecondSquared {
	// A mile an hour is 5,280 ft in 3,600 s: 22/15 ft/s.
	fps := float64(v) * 22 / 15
	return FeetPerSecondSquared(fps * fps * InchesPerFoot / (2 * float64(d)))
}

// Gravities is the deceleration as a share of standard gravity.
func (a FeetPerSecondSquared) Gravities() Share { return Share(a / StandardGravity) }

// StoppingFrom is the distance from speed v at the mean deceleration that stops from
// v0 over d: d (v / v0) squared. The speed v0 must not be zero.
func StoppingFrom(v, v0 MilesPerHour, d Inches) Inches {
	return Inches(float64(d) * (float64(v) * float64(v)) / (float64(v0) * float64(v0)))
}

// A Stopping is a stopping distance with the speed it is stated for.
type Stopping struct {
	Distance Inches
	From     MilesPerHour
}

func (s Stopping) String() string { return fmt.Sprintf("%s at %s", s.Distance, s.From) }

func (v MilesPerHour) String() string { return number(float64(v), " mph") }

// Limit prints a speed limit: whole miles an hour, rounded down.
func (v MilesPerHour) Limit() string { return fixed(float64(Down(v, 1)), 0, " mph") }

// Near prints the deceleration to a tenth.
func (a FeetPerSecondSquared) Near() string { return trimmed(float64(Nearest(a, 0.1)), 1, " ft/s2") }

// Near prints the age to a tenth of a year.
func (y Years) Near() string { return trimmed(float64(Nearest(y, 0.1)), 1, " years") }

var stoppingForm = regexp.MustCompile(`^(.+?)\s+(?:at|from)\s+([0-9]{1,3}(?:\.[0-9])?)\s*(mph|MPH|km/h|kph)$`)

// ParseStopping reads "200 ft at 60 mph", "about 61 m from 97 km/h (maker's sheet)".
func ParseStopping(s string) (Written[Stopping], error) {
	const example = "200 ft at 60 mph"
	body, about, from, err := peel(s, "stopping distance", example)
	if err != nil {
		return Written[Stopping]{}, err
	}
	m := stoppingForm.FindStringSubmatch(strings.TrimSpace(body))
	if m == nil {
		return Written[Stopping]{}, fmt.Errorf("stopping distance %q is not a stopping distance; write a length and a speed, such as %s", s, example)
	}
	d, err := ParseLength(m[1])
	if err != nil {
		return Written[Stopping]{}, err
	}
	v, _, err := readNumber(m[2])
	if err != nil {
		return Written[Stopping]{}, err
	}
	speed := MilesPerHour(v)
	if m[3] != "mph" && m[3] != "MPH" {
		speed = MilesPerHour(v * 1e6 / MillimetersPerMile)
	}
	if d.Value <= 0 || speed <= 0 {
		return Written[Stopping]{}, fmt.Errorf("stopping distance %q has a speed or a length of zero; write one such as %s", s, example)
	}
	return Written[Stopping]{Stopping{d.Value, speed}, about, from}, nil
}
