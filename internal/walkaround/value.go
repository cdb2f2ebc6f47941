package walkaround

import (
	"fmt"
	"strconv"

	"tarepage/internal/measure"
)

// A Value is what was said, in its unit: one of measure.Pounds, measure.Inches,
// measure.PSI, measure.Dollars, measure.Degrees, or Count, Year, Word, Section of this
// package. Its String is exact.
type Value interface{ String() string }

// Count is a number of things.
type Count int

func (c Count) String() string { return measure.Count(int(c)) }

// Year is a model year.
type Year int

func (y Year) String() string { return strconv.Itoa(int(y)) }

// Word is a figure that is not a quantity: a tire size, a load range, a date code, as a
// unit file writes it.
type Word string

func (w Word) String() string { return string(w) }

// Section is a rolled section as far as it was named: a beam by its depth, its weight
// per length, or both.
type Section struct {
	Shape   string // "W", "S", "C", "MC", "M" if the letter was said, else empty
	Depth   measure.Inches
	PerFoot measure.PoundsPerFoot
}

// String writes the designation where the letter was said, else what is known.
func (s Section) String() string {
	depth, per := s.Depth.InInches(), s.PerFoot.String()
	switch {
	case s.Shape != "" && s.Depth > 0 && s.PerFoot > 0:
		return fmt.Sprintf("%s%sx%s", s.Shape, measure.Number(float64(s.Depth), 3), measure.Number(float64(s.PerFoot), 3))
	case s.Depth > 0 && s.PerFoot > 0:
		return depth + " " + per
	case s.PerFoot > 0:
		return per
	}
	return depth
}

// A Role is the key in the unit file that a figure belongs to.
type Role string

// The roles. Their names are the key paths of the unit file; under tie-downs, which is
// a list there, the entry's name follows.
const (
	GVWR         Role = "weights.gvwr"
	Empty        Role = "weights.empty"
	TongueEmpty  Role = "weights.tongue-empty"
	Payload      Role = "claimed.payload"
	AxleCount    Role = "axles.count"
	AxleRating   Role = "axles.rating"
	AxleSpacing  Role = "axles.spacing"
	Ball         Role = "hitch.ball"
	HitchRating  Role = "hitch.rating"
	DeckLength   Role = "deck.length"
	DeckFlat     Role = "deck.flat"
	DeckTail     Role = "deck.tail"
	DeckWidth    Role = "deck.width"
	DeckHeight   Role = "deck.height"
	BedLength    Role = "bed.length"
	BedWidth     Role = "bed.width"
	BedHeight    Role = "bed.height"
	BoxLength    Role = "box.length"
	BoxWidth     Role = "box.width"
	BoxHeight    Role = "box.height"
	TireSize     Role = "tires.size"
	LoadRange    Role = "tires.load-range"
	Ply          Role = "tires.ply"
	Pressure     Role = "tires.pressure"
	TireMade     Role = "tires.made"
	Price        Role = "price"
	ModelYear    Role = "year"
	Beam         Role = "frame.beam"
	Crossmember  Role = "frame.crossmember"
	CrossSpacing Role = "frame.crossmember-spacing"
	JackCount    Role = "jack.count"
	JackRating   Role = "jack.rating"
	RampLength   Role = "ramps.length"
	RampWidth    Role = "ramps.width"
	DRings       Role = "tie-downs.d-rings"
	DRingRating  Role = "tie-downs.d-rings.rating"
	StakePockets Role = "tie-downs.stake-pockets"

	ChainsBreaking Role = "hitch.chains.breaking"
	ChainsCount    Role = "hitch.chains.count"
	RampRating     Role = "ramps.rating"
	TireSingle     Role = "tires.sidewall.single"
	TireDual       Role = "tires.sidewall.dual"
	WheelRating    Role = "tires.wheel"
	DeckBetween    Role = "deck.between-fenders"
	DeckPivot      Role = "deck.pivot"
	DeckFront      Role = "deck.front"
	DeckTailEnd    Role = "deck.tail-end"
	BedFloor       Role = "bed.floor"
	BoxFloor       Role = "box.floor"
	AxleCenter     Role = "axles.center"
	OverallWidth   Role = "overall-width"
	BrakeAxles     Role = "brakes.axles"
	SidewallPSI    Role = "tires.sidewall.pressure"
	PerAxle        Role = "tires.per-axle"
)

// A Comparison says how the value was meant.
type Comparison string

// The comparisons.
const (
	Equal   Comparison = "="
	About   Comparison = "~"
	Under   Comparison = "<"
	Over    Comparison = ">"
	UpTo    Comparison = "<="
	AtLeast Comparison = ">="
	Range   Comparison = "range"
)

// A Candidate is one spoken figure. A person accepts it or not.
type Candidate struct {
	// Role is what the figure is of; empty when that is doubtful, and then Doubt says why.
	Role  Role
	Doubt string
	// Value is the figure; of a range its lower end, and High is the upper. High is nil
	// otherwise.
	Value, High Value
	// UnitInferred reports that no unit was said and the part decided it.
	UnitInferred bool
	Compare      Comparison
	// Tolerance is what "give or take" names, or nil.
	Tolerance Value
	// Count is of how many parts the figure is the rating of each, where that was said;
	// otherwise 0. The count is a Candidate of its own too, where it has a role.
	Count int
	// Quote is the speaker's own words. In captions Start and End are when they are shown,
	// in seconds. Offset is where the quote stands: in the text given to ReadProse, in bytes.
	Quote      string
	Start, End float64
	Offset     int
	// Contested reports that it would have the role of its first alternative, had that not
	// been said otherwise elsewhere.
	Contested bool
	// Alternatives is what else it could have been, likeliest first.
	Alternatives []Alternative
	// Confidence runs from 0 to 1. It orders a list; it is not a probability.
	Confidence float64
}

// An Alternative is another reading of the same words.
type Alternative struct {
	Role  Role
	Value Value
}

// Written is the figure as a unit file writes it, with "about" and, in captions, the
// time it was said: "about 6,200 lb (said 1:42)". A range is written by its lower end
// if it is a limit and its upper if it is a load, so that the side it errs on is safe.
func (c Candidate) Written(timed bool) string {
	v := c.Value
	if c.High != nil {
		switch c.Role {
		case Empty, TongueEmpty, DeckHeight, Price:
			v = c.High
		}
	}
	text := v.String()
	if in, ok := v.(measure.Inches); ok {
		switch c.Role {
		case DeckLength, DeckFlat, DeckTail, BedLength, BoxLength, RampLength:
			text = in.InFeet()
		default:
			text = in.InInches()
		}
	}
	if c.Compare != Equal {
		text = "about " + text
	}
	if timed {
		text += " (said " + measure.Clock(int(c.Start)) + ")"
	}
	return text
}
