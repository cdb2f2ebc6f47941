package tables

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"tarepage/internal/measure"
)

// A Form is the system a tire size is written in.
type Form int

// The forms.
const (
	Metric    Form = iota // ST235/80R16: section width in mm / aspect, rim in inches
	Flotation             // 20.5x8.0-10: overall diameter x section width - rim, inches
	Numeric               // 4.80-8: section width - rim, inches
)

// A Class is the family a tire is rated in. It decides the exponent of load against
// pressure, the share a dual carries, and whether the load is divided by 1.10 on a
// trailer (49 CFR 571.120 S5.1.2: passenger tires).
type Class string

// The classes.
const (
	SpecialTrailer Class = "special trailer" // ST prefix
	LightTruck     Class = "light truck"     // LT before or after the size, radial flotation
	Passenger      Class = "passenger"       // P prefix, and unprefixed metric radials on whole-inch rims
	Truck          Class = "truck"           // rims of 17.5, 19.5, 22.5 in, and C-metric
	BiasTrailer    Class = "bias trailer"    // 4.80-8, 20.5x8.0-10, 205/65-10, 8-14.5
)

// TireSize is a tire size taken apart.
type TireSize struct {
	Form   Form
	Prefix string // "ST", "P", "LT" or empty
	// Width is the section width. Millimeters is the number a metric size prints, else 0.
	Width       measure.Inches
	Millimeters int
	// Aspect is section height in percent of width; 0 when the size does not say.
	Aspect int
	// Construction is "R" radial, "D" diagonal, or "-" as written in older sizes (diagonal).
	Construction string
	Rim          measure.Inches
	Suffix       string // "C", "LT", "LP/MH", "LP", "MH" or empty
	// Overall is the overall diameter that a flotation size prints, else 0.
	Overall measure.Inches
	text    string
}

// String is the size in the table's writing: no spaces, capitals, a small x.
func (t TireSize) String() string { return t.text }

const rimForm = `(\d{1,2}(?:\.5)?)`

var (
	metricForm    = regexp.MustCompile(`^(ST|LT|P)?(\d{3})(?:/(\d{2,3})?)?(Z?R|D|-)` + rimForm + `(C|LT)?$`)
	flotationForm = regexp.MustCompile(`^(ST|LT)?(\d{2}(?:\.\d{1,2})?)X(\d{1,2}(?:\.\d{1,2})?)(R|D|-)` + rimForm + `(LT)?$`)
	numericForm   = regexp.MustCompile(`^(ST|LT)?(\d{1,2}(?:\.\d{1,2})?)(?:/\d{1,2}\.\d{2})?(R|D|-)` + rimForm + `(LT|LP/MH|LP|MH)?$`)
)

// ParseTireSize takes a tire size apart: ST235/80R16, P205/75R15, LT235/85R16,
// 225/75R16C, 215/75R17.5, 20.5x8.0-10, 4.80-8, 4.80/4.00-8, 7.50-16LT, 8-14.5. Spaces
// and capitals do not matter. The load range is not a part of the size.
//
// The error names the size and what one looks like.
func ParseTireSize(s string) (TireSize, error) {
	const examples = "write it as on the sidewall: ST235/80R16, LT235/85R16, 215/75R17.5, 20.5x8.0-10 or 4.80-8"
	name := plainName(s)
	if name == "" {
		return TireSize{}, fmt.Errorf("tire size is empty; %s", examples)
	}
	if len(name) > longest {
		return TireSize{}, fmt.Errorf("tire size is too long to be one; %s", examples)
	}
	t := TireSize{text: name}
	refuse := func(what string) (TireSize, error) {
		return TireSize{}, fmt.Errorf("tire size %q %s; %s", s, what, examples)
	}
	// The forms admit only digits and one point, so these cannot fail.
	inches := func(s string) measure.Inches {
		v, _ := strconv.ParseFloat(s, 64)
		return measure.Inches(v)
	}
	if m := metricForm.FindStringSubmatch(name); m != nil {
		t.Form, t.Prefix, t.Construction, t.Rim, t.Suffix = Metric, m[1], strings.TrimPrefix(m[4], "Z"), inches(m[5]), m[6]
		t.Millimeters, _ = strconv.Atoi(m[2])
		t.Aspect, _ = strconv.Atoi(m[3])
		t.Width = measure.FromMillimeters(float64(t.Millimeters))
		if m[3] != "" && (t.Aspect < 20 || t.Aspect > 100) {
			return refuse(fmt.Sprintf("has an aspect of %s; it lies between 20 and 100", m[3]))
		}
		if t.Millimeters < 100 || t.Millimeters > 500 {
			return refuse(fmt.Sprintf("has a width of %s mm; it lies between 100 and 500", m[2]))
		}
	} else if m := flotationForm.FindStringSubmatch(name); m != nil {
		t.Form, t.Prefix, t.Overall, t.Width = Flotation, m[1], inches(m[2]), inches(m[3])
		t.Construction, t.Rim, t.Suffix = m[4], inches(m[5]), m[6]
		t.text = strings.Replace(name, "X", "x", 1)
		if t.Overall <= t.Rim {
			return refuse("is no larger than its rim")
		}
	} else if m := numericForm.FindStringSubmatch(name); m != nil {
		t.Form, t.Prefix, t.Width, t.Construction, t.Rim, t.Suffix = Numeric, m[1], inches(m[2]), m[3], inches(m[4]), m[5]
	} else {
		return refuse("does not read")
	}
	if t.Width < 2 || t.Width > 24 {
		return refuse("has a width outside 2 to 24 in")
	}
	if t.Rim < 4 || t.Rim > 30 {
		return refuse("has a rim outside 4 to 30 in")
	}
	return t, nil
}

// Diameter is the tire's overall diameter, unloaded. For a metric size it is rim + 2 x
// width x aspect, for a flotation size the first number; both follow from the size and
// exact is true. For a numeric size, and for a metric one that gives no aspect, it is
// only an estimate from common proportions (section height 0.9 or 0.8 of the width,
// common practice, no source) and exact is false.
func (t TireSize) Diameter() (d measure.Inches, exact bool) {
	height := func(share measure.Share) measure.Inches { return share.OfLength(t.Width).Times(2) }
	switch {
	case t.Form == Flotation:
		return t.Overall, true
	case t.Form == Metric && t.Aspect > 0:
		return t.Rim + height(measure.Share(float64(t.Aspect)/100)), true
	case t.Form == Metric:
		return t.Rim + height(0.8), false
	}
	return t.Rim + height(0.9), false
}

// Radial reports whether the size is written as a radial.
func (t TireSize) Radial() bool { return t.Construction == "R" }

// halfInchRim reports a rim of 17.5, 19.5, 22.5 in: the tubeless rims of heavy tires.
// An unprefixed metric tire on an 18 or 20 in rim is a passenger one, whose load must be
// divided by 1.10, so the rim's size alone does not make a truck tire.
func (t TireSize) halfInchRim() bool { return t.Rim >= 17 && t.Rim != measure.Inches(int(t.Rim)) }

// Class is the family the size belongs to, from its writing alone.
func (t TireSize) Class() Class {
	switch {
	case t.Prefix == "ST":
		return SpecialTrailer
	case t.Prefix == "LT", t.Suffix == "LT":
		return LightTruck
	case t.Prefix == "P":
		return Passenger
	case t.Suffix == "C", t.halfInchRim(), t.Form == Numeric && t.Rim >= 17:
		return Truck
	case !t.Radial():
		return BiasTrailer
	case t.Form == Metric:
		return Passenger
	}
	return LightTruck
}
