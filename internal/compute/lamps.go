package compute

import (
	"fmt"
	"strings"

	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

// Limits of 49 CFR 571.108 Table I-b and S8.2 (2015 annual edition).
const (
	// lampsWide is 2,032 mm (80 in) overall width, inclusive.
	lampsWide measure.Inches = 80
	// lampsNarrow is 30 in: below it one lamp does where two are asked.
	lampsNarrow measure.Inches = 30
	// tapeOver is the GVWR that must be passed for conspicuity tape (49 CFR 393.11(b)): over
	// 4,536 kg (10,000 lb).
	tapeOver = LightTrailer
)

var (
	// lampsLong is 30 ft overall, inclusive: FMVSS 108 says "30 feet or longer". 49 CFR
	// 393.11 says "more than" 30 ft; a trailer is built by the first.
	lampsLong = measure.Feet(30).Inches()
	// lampsShort is 6 ft (1,829 mm) overall, tongue included.
	lampsShort = measure.Feet(6).Inches()
)

// A LampSchedule is what 49 CFR 571.108 Table I-b and S8.2 require of a trailer. Lamps are
// counted by function; one housing may have several. Reflectors are not lamps and are
// apart.
type LampSchedule struct {
	Known bool

	Tail, Stop, Turn, Plate       int // rear: red, red, red or amber, white
	FrontSide, RearSide           int // side markers: amber, red
	Intermediate                  int // side markers near the middle, amber
	FrontClearance, RearClearance int // amber, red
	Identification                int // red, only at the rear
	// Reflectors counts reflex reflectors: front side, rear side, rear and intermediate.
	Reflectors int

	// Tape reports that red and white tape is asked for, and TapeSide the least of it
	// along each side: half the overall length. The whole width of the rear comes on top.
	Tape     bool
	TapeSide measure.Inches
}

// Lamps is the schedule for an overall width (fenders included), an overall length
// (tongue or neck included) and a GVWR, for a trailer built since December 1993.
func Lamps(width, length measure.Inches, gvwr measure.Pounds) LampSchedule {
	s := LampSchedule{Known: true, Tail: 2, Stop: 2, Turn: 2, Plate: 1, RearSide: 2, Reflectors: 4}
	if width < lampsNarrow {
		s.Tail, s.Stop, s.Reflectors = 1, 1, 3
	}
	if length >= lampsShort {
		s.FrontSide = 2
		s.Reflectors += 2
	}
	if length >= lampsLong {
		s.Intermediate = 2
		s.Reflectors += 2
	}
	if width >= lampsWide {
		s.FrontClearance, s.RearClearance, s.Identification = 2, 2, 3
		if gvwr > tapeOver {
			s.Tape, s.TapeSide = true, length.Half()
		}
	}
	return s
}

// Clearance is front and rear clearance lamps together, as a unit file counts them.
func (s LampSchedule) Clearance() int { return s.FrontClearance + s.RearClearance }

// SideMarkers is front and rear side marker lamps together, without the intermediate.
func (s LampSchedule) SideMarkers() int { return s.FrontSide + s.RearSide }

// Count is how many lamps there are by function.
func (s LampSchedule) Count() int {
	return s.Tail + s.Stop + s.Turn + s.Plate + s.SideMarkers() + s.Intermediate + s.Clearance() + s.Identification
}

// String lists the lamps: 2 tail, 2 stop, 2 turn ...
func (s LampSchedule) String() string {
	var out []string
	for _, l := range []struct {
		n    int
		what string
	}{
		{s.Tail, "tail"}, {s.Stop, "stop"}, {s.Turn, "turn"}, {s.Plate, "license plate"},
		{s.FrontSide, "front side marker"}, {s.RearSide, "rear side marker"}, {s.Intermediate, "intermediate side marker"},
		{s.FrontClearance, "front clearance"}, {s.RearClearance, "rear clearance"}, {s.Identification, "rear identification"},
	} {
		if l.n > 0 {
			out = append(out, fmt.Sprintf("%d %s", l.n, l.what))
		}
	}
	return strings.Join(out, ", ")
}

// tapeYear is the first model year that was all built after 1 December 1993, from which
// day S8.2 holds. A trailer of model year 1993 may be from either side of it.
const tapeYear = 1994

// overallWidth is the width that the lamps go by: what was measured across everything,
// or else a floor that reaches the limit by itself. Fixed fenders count (NHTSA letter
// nht93-4.12), so a narrower floor says nothing.
func (p *calc) overallWidth() measure.Inches {
	w := p.Unit.OverallWidth
	if !w.Given() {
		if s := p.Space.Width; s.Given() && s.Value >= lampsWide {
			return need(p, s, p.Space.key("width"))
		}
		// Where the floor is above the wheels, nothing sticks out at its sides.
		if kinds.Of(p.Unit.Kind.Value).OverWheels {
			return need(p, p.Space.Width, p.Space.key("width"))
		}
	}
	return need(p, w, "overall-width")
}

var lampSchedule = &Definition{
	Name: "lamp-schedule", Label: "Lamps asked for",
	What:    "How many lamps the federal standard asks of a trailer of this width, length and rating when it is built. It does not say that they work.",
	Formula: "by overall width (80 in and up), overall length with tongue or neck (6 ft and up; 30 ft and up) and GVWR (over 10,000 lb)",
	Unit:    "lamps", Source: "49 CFR 571.108 Table I-b, S8.2 (2015); 393.11(b)",
	work: func(p *calc) {
		width := p.overallWidth()
		overall, _ := p.overall()
		gvwr := need(p, p.Unit.Weights.GVWR, "weights.gvwr")
		if !p.ready() {
			return
		}
		s := Lamps(width, overall, gvwr)
		if y := p.Unit.Year; s.Tape && y.Given() && y.Value < tapeYear {
			s.Tape, s.TapeSide = false, 0
			p.note("the standard asks for tape on trailers built since 1 December 1993; 49 CFR 393.13 covers older ones in commerce (from memory)")
		}
		p.Lamps = s
		p.note("and %d reflectors; one housing may hold several", s.Reflectors)
		if below := lampsLong - overall; below > 0 && below <= 12 && !p.Unit.Hitch.Ahead.Given() {
			p.note("measure how far the coupler reaches ahead of the ball's center: at 30 ft overall it takes 2 intermediate side markers more")
		}
		p.enter(float64(s.Count()), measure.Count(s.Count())+" lamps", 1,
			say("%s wide, %s long, GVWR %s: %s", inInches(width), near{overall}, gvwr, s))
	},
}

var tapeLength = &Definition{
	Name: "tape-length", Label: "Red and white tape, each side",
	What:    "The least red and white tape along each side: half the overall length, strips added up. What a load hides does not count. The rear has it over the whole width besides.",
	Formula: "overall length / 2, where it is 80 in wide or more and GVWR is over 10,000 lb",
	Unit:    "ft", Source: "49 CFR 571.108 S8.2.3.2 (2015); 393.11(b); NHTSA interpretation aiam5198 (1993): the neck counts",
	work: func(p *calc) {
		if !p.Lamps.Tape {
			p.skip()
			return
		}
		p.inherit(p.Figure("lamp-schedule"))
		least := measure.Up(p.Lamps.TapeSide, 0.25)
		p.enter(float64(p.Lamps.TapeSide.Feet()), least.String(), 0.25/measure.InchesPerFoot,
			say("%s / 2", p.Lamps.TapeSide.Times(2)))
	},
}
