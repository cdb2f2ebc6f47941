package oracle

import (
	"math"

	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

// CrestUnder is how far a crest reaches up between two wheels that are equally far from it: the
// chord of their places is the wheelbase, and the two planes meet at the angle. It is the ramp
// breakover angle of SAE J1100 turned around: angle = 2 arctan(2 x clearance / wheelbase).
func CrestUnder(wheelbase measure.Inches, angle measure.Degrees) measure.Inches {
	return measure.Inches(float64(wheelbase) / 2 * math.Tan(float64(angle)*math.Pi/360))
}

// FootUnder is how far a slope of the angle rises below an overhang of the given length whose
// wheel is at its foot: the approach and departure angles of SAE J1100 turned around.
func FootUnder(overhang measure.Inches, angle measure.Degrees) measure.Inches {
	return measure.Inches(float64(overhang) * math.Tan(float64(angle)*math.Pi/180))
}

// grade is the rise of a slope as a share of its run.
func grade(angle measure.Degrees) measure.Share {
	return measure.Share(math.Tan(float64(angle) * math.Pi / 180))
}

// Wheels are what is known of a machine's clearances. A machine on tracks has no wheelbase.
type Wheels struct {
	// Base is its wheelbase, Under the clearance at the lowest place between the wheels.
	Base, Under inches
	// Over is its longest overhang, Tip the clearance under the end of that.
	Over, Tip inches
}

// A Climbed verdict says whether a machine drags on the way up to the deck.
type Climbed struct {
	Is    string // yes, no or unknown
	Texts []string
}

// Climb answers whether a machine drags on a way up of that many degrees: its belly where the way
// up meets the deck, its end at the foot of it. ok is false where the angle is not known or is not a
// way up.
func Climb(angle measure.Degrees, w Wheels, in measure.System) (v Climbed, ok bool) {
	if !(angle > 0 && angle < 60) {
		return v, false
	}
	v.Is = "unknown"
	v.Texts = append(v.Texts, phrases.English.Say("climb way", angle.Near(), grade(angle).Near()))
	clears := func(key string, long, has inches, needs func(measure.Inches, measure.Degrees) measure.Inches) {
		if !long.Known || !has.Known || !(long.Value > 0 && has.Value >= 0 && measure.Sensible(long.Value) && measure.Sensible(has.Value)) {
			return
		}
		need := needs(long.Value, angle)
		if !measure.NotOver(need, has.Value) {
			v.Is, key = "no", key+" drags"
		} else if v.Is == "unknown" {
			v.Is = "yes"
		}
		v.Texts = append(v.Texts, phrases.English.Say("climb "+key, in.AtLeast(need), in.AtMost(has.Value)))
	}
	clears("crest", w.Base, w.Under, CrestUnder)
	clears("foot", w.Over, w.Tip, FootUnder)
	if v.Is == "unknown" {
		v.Texts = append(v.Texts, phrases.English.Say("climb asks"))
	}
	return v, true
}
