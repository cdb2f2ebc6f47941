package elevation

import (
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// The longest measures that are drawn. A longer one is a slip of the pen: it would
// shrink everything else to a line, so it is treated as not measured and said. The
// federal rules know no trailer near these sizes.
const (
	longestDeck  measure.Inches = 100 * 12
	longestFront measure.Inches = 40 * 12
	highest      measure.Inches = 16 * 12
)

// Usual measures, for what nobody measured. Common practice, no source; each is drawn
// dashed and said. The usual height of the floor depends on the kind and is in its table.
var usualFront = map[string]measure.Inches{"gooseneck": 84, "fifth-wheel": 84, "bumper-pull": 54, "pintle": 60}

const (
	usualTire      measure.Inches = 29
	usualRim       measure.Inches = 16
	usualBedSides  measure.Inches = 24
	usualBoxHeight measure.Inches = 78
	usualRamp      measure.Inches = 48
	// usualTireGap is the room between two tires of a group.
	usualTireGap measure.Inches = 4
	// usualTailDrop is how far a fixed dovetail comes down.
	usualTailDrop measure.Inches = 9
)

// A length is a measure to draw: the unit's own, or a usual one in its place.
type length struct {
	measure.Inches
	about bool
	// guess reports that this is no measure of the unit's.
	guess bool
	// odd is a measure that stands in the unit file and cannot be drawn.
	odd string
}

func (l length) text() string { return l.said(l.Near()) }

// inches prints what the trade states in inches: heights and the spacing of axles.
func (l length) inches() string { return l.said(l.InInches()) }

func (l length) said(text string) string {
	if l.about {
		return "about " + text
	}
	return text
}

// String is the length as it was written where that is short; a length worked out to
// many decimals is given to a quarter of an inch.
func (l length) String() string {
	if s := l.Inches.String(); len(s) <= 15 {
		return s
	}
	return l.InFeet()
}

// lengthOf takes the unit's measure, or the usual one if there is none or it is longer
// than most.
func lengthOf(f unit.Length, usual, most measure.Inches) length {
	switch {
	case !f.Given():
		return length{Inches: usual, guess: true}
	case !measure.Finite(f.Value) || f.Value <= 0 || f.Value > most:
		return length{Inches: usual, guess: true, odd: f.Value.InInches()}
	}
	return length{Inches: f.Value, about: f.About}
}

// facts are what the drawing is made from.
type facts struct {
	// pivotBack is from a tilting deck\'s pivot back to its rear edge, where it was measured.
	pivotBack unit.Length
	unit      *unit.Unit
	kind      kinds.Kind
	shape     silhouette
	hitch     string
	// hitchGuess reports that nobody says how it couples.
	hitchGuess bool

	space                 string // deck, bed or box
	length, front, floor  length
	sides                 length // of a bed or a box
	flat, tail, tailEnd   length // tail is 0 where there is none
	tailKind              string
	tailUnknown           bool // there is a dovetail and nobody measured it
	center, spacing, tire length
	rim                   measure.Inches
	tireText              string // the size as written, empty if it does not read
	axles                 int
	axlesGuess            bool
	dual                  bool
	ramps                 string // empty where none are seen
	ramp                  length
	fenders               bool
	beam                  measure.Inches
}

// factsOf gathers them. It reports false where there is no length to draw.
func factsOf(w *compute.Work) (f facts, ok bool) {
	if w == nil || w.Unit == nil {
		return f, false
	}
	u := w.Unit
	f.unit, f.kind, f.hitch, f.space = u, kinds.Of(u.Kind.Value), u.Hitch.Kind.Value, w.Space.Name
	if !f.kind.Known() {
		f.kind = kinds.Of("other")
	}
	if f.length = lengthOf(w.Space.Length, 0, longestDeck); f.length.guess {
		return f, false
	}
	if usualFront[f.hitch] == 0 {
		f.hitch, f.hitchGuess = "bumper-pull", true
	}
	f.front = lengthOf(w.Space.Front, usualFront[f.hitch], longestFront)
	f.floor = lengthOf(w.Space.Floor, f.kind.Floor, highest.Half())
	f.tailOf(u.Deck)
	f.shape = silhouetteOf(f.kind, f.space)
	if f.shape.sides != nil {
		f.sides = f.shape.sides(&f)
	}
	f.wheelsOf(u)
	switch ramps := u.Ramps.Kind.Value; ramps {
	case "stand-up", "gate", "fold-over":
		// The others ride out of sight; a box's ramp door is its rear wall.
		if f.space != "box" {
			f.ramps = ramps
		}
	}
	f.ramp = lengthOf(u.Ramps.Length, usualRamp, highest.Half())
	f.fenders = f.between(w.Space.Width)
	f.beam = beamOf(u, f.hitch)
	return f, true
}

// rear is where the deck, bed or box ends.
func (f *facts) rear() measure.Inches { return f.front.Inches + f.length.Inches }

// hinge is where the flat part ends and the tail begins.
func (f *facts) hinge() measure.Inches { return f.rear() - f.tail.Inches }

func (f *facts) tailOf(d unit.Deck) {
	f.pivotBack = d.Pivot
	if f.space != "deck" {
		return
	}
	switch kind := d.TailKind.Value; kind {
	case "hydraulic dovetail", "fixed dovetail", "tilt":
		f.tailKind = kind
	}
	f.tail = lengthOf(d.Tail, 0, f.length.Inches)
	f.flat = lengthOf(d.Flat, 0, f.length.Inches)
	if f.tail.guess && !f.flat.guess && f.tailKind != "" && f.flat.Inches < f.length.Inches {
		f.tail = length{Inches: f.length.Inches - f.flat.Inches, about: f.flat.about || f.length.about}
	}
	// Without a length of its own a tilting deck tilts whole, and a dovetail cannot be
	// drawn at all.
	if f.tail.guess {
		if f.tailKind == "tilt" {
			f.tail = length{Inches: f.length.Inches, guess: true}
		} else {
			f.tailKind, f.tailUnknown = "", f.tailKind != ""
		}
	}
	// Where only the tail's end was measured, the deck stands higher than that.
	if end := d.TailEnd; f.floor.guess && end.Given() && end.Value > 0 && end.Value < highest.Half() {
		f.floor.Inches = max(f.floor.Inches, end.Value+usualTailDrop)
	}
	usual := max(f.floor.Inches-usualTailDrop, f.floor.Half())
	f.tailEnd = lengthOf(d.TailEnd, usual, f.floor.Inches)
}

func (f *facts) wheelsOf(u *unit.Unit) {
	f.tire, f.rim = length{Inches: usualTire, guess: true}, usualRim
	if u.Tires.Size.Given() {
		if size, err := tables.ParseTireSize(u.Tires.Size.Value); err == nil {
			d, exact := size.Diameter()
			if d > size.Rim && d < highest.Half() {
				f.tire, f.rim, f.tireText = length{Inches: d, about: !exact}, size.Rim, size.String()
			} else {
				f.tire.odd = size.String()
			}
		} else {
			f.tire.odd = u.Tires.Size.Value
		}
	}
	f.dual = u.Tires.PerAxle.Value == 4
	f.axles = u.Axles.Count.Value
	// Six is the most axles that the inspection lets pass.
	if !u.Axles.Count.Given() || f.axles < 1 || f.axles > 6 {
		f.axles, f.axlesGuess = 2, true
	}
	f.spacing = lengthOf(u.Axles.Spacing, f.tire.Inches+usualTireGap, longestFront)
	f.center = lengthOf(u.Axles.Center, f.usualCenter(), longestDeck+longestFront)
	// Axles that stand behind the trailer, or of which one stands before the ball, are
	// no drawing; the inspection stops them.
	if reach := f.spacing.Times(f.axles - 1).Half(); !f.center.guess &&
		(f.center.Inches > f.rear() && !f.front.guess || f.center.Inches < reach) {
		f.center = length{Inches: f.usualCenter(), guess: true, odd: f.center.String()}
		f.spacing = length{Inches: f.tire.Inches + usualTireGap, guess: true}
	}
}

// usualCenter is where the axles would stand for an evenly loaded deck to put a usual
// share on the truck: 20% of it for a gooseneck or a fifth-wheel, 12% for the others.
// The tongue is w(1 - xc/A), so A = xc / (1 - share). Common practice, no source.
func (f *facts) usualCenter() measure.Inches {
	share := measure.Share(1 / (1 - 0.12))
	if f.overTruck() {
		share = 1 / (1 - 0.20)
	}
	return min(share.OfLength(f.front.Inches+f.length.Half()), f.rear())
}

// overTruck reports a hitch that stands in the truck's bed.
func (f *facts) overTruck() bool { return f.hitch == "gooseneck" || f.hitch == "fifth-wheel" }

// point is what x = 0 is called.
func (f *facts) point() string {
	switch f.hitch {
	case "fifth-wheel":
		return "kingpin"
	case "pintle":
		return "eye"
	}
	return "ball"
}

// between reports that the wheels stand beside the deck and not under it, so that
// fenders cover them: the floor is lower than the tire's top, or it is narrow (within
// 102 in there is room for two tires beside a deck below 96 in) and leaves the tire too
// little room to rise. Common practice, no source.
func (f *facts) between(width unit.Length) bool {
	const room = 4 // inches that a tire rises on its springs
	switch {
	case f.kind.OverWheels:
		return false
	case f.unit.Deck.Between.Given() && f.space == "deck":
		return true
	case f.floor.Inches < f.tire.Inches:
		return true
	}
	return width.Given() && width.Value < 96 && f.floor.Inches < f.tire.Inches+room
}

// beamOf is the depth of the main beams: of the shape the unit names, else a usual one.
func beamOf(u *unit.Unit, hitch string) measure.Inches {
	if name := u.Frame.Beam; name.Given() {
		if s, err := tables.Section(name.Value); err == nil {
			return s.Depth
		}
	}
	if hitch == "gooseneck" || hitch == "fifth-wheel" {
		return 10
	}
	return 8
}

// axle is where the i-th axle stands, the front one being 0.
func (f *facts) axle(i int) measure.Inches {
	return f.center.Inches - f.spacing.Times(f.axles-1).Half() + f.spacing.Times(i)
}

// wheelGuess reports that the wheels' place or size is none of the unit's measures.
func (f *facts) wheelGuess() bool {
	return f.center.guess || f.tire.guess || f.axlesGuess || f.axles > 1 && f.spacing.guess
}

// name is what stands in ids: the stock number, or the file where there is none.
func (f *facts) name() string {
	name := f.unit.Stock.Value
	if name == "" {
		name = f.unit.File
	}
	var b strings.Builder
	for _, c := range []byte(strings.ToLower(name)) {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9', c == '-':
			b.WriteByte(c)
		default:
			// Any other byte is spelled out, so that two names never share an id.
			b.WriteByte('_')
			b.WriteString(string("0123456789abcdef"[c>>4]) + string("0123456789abcdef"[c&15]))
		}
	}
	return b.String()
}
