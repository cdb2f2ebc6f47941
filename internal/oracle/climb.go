package oracle

import (
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

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
	v.Texts = append(v.Texts, phrases.Say("climb way", angle.Near(), measure.Grade(angle).Near()))
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
		v.Texts = append(v.Texts, phrases.Say("climb "+key, in.AtLeast(need), in.AtMost(has.Value)))
	}
	clears("crest", w.Base, w.Under, measure.CrestUnder)
	clears("foot", w.Over, w.Tip, measure.FootUnder)
	if v.Is == "unknown" {
		v.Texts = append(v.Texts, phrases.Say("climb asks"))
	}
	return v, true
}
