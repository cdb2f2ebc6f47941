package elevation

import (
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// The largest dimensions that are drawn. A larger one is a typing mistake. It would shrink
// everything else to a line, so it counts as not measured, and the words say so. Federal
// rules do not allow a trailer near these sizes.
const (
	longestDeck  measure.Inches = 100 * 12
	longestFront measure.Inches = 40 * 12
	highest      measure.Inches = 16 * 12
)

// Usual dimensions, for parts that nobody measured. Common practice, no source. Each is drawn
// dashed, and the words name it. The usual height of the floor depends on the kind and is in
// the table of kinds.
var usualFront = map[string]measure.Inches{"gooseneck": 84, "fifth-wheel": 84, "bumper-pull": 54, "pintle": 60}

const (
	usualTire      measure.Inches = 29
	usualRim       measure.Inches = 16
	usualBedSides  measure.Inches = 24
	usualBoxHeight measure.Inches = 78
	usualRamp      measure.Inches = 48
	// usualTireGap is the gap between two tires of a group.
	usualTireGap measure.Inches = 4
	// usualTailDrop is how far a fixed dovetail goes down.
	usualTailDrop measure.Inches = 9
)

// A length is a dimension to draw: the unit's own, or a usual one in its place.
type length struct {
	measure.Inches
	about bool
	// guess reports that the unit does not give this length.
	guess bool
	// odd is a length in the unit file that cannot be drawn.
	odd string
}

func (l length) text() string { return l.said(l.Near()) }

// inches prints a length that the trade states in inches: a height or an axle spacing.
func (l length) inches() string { return l.said(l.InInches()) }

func (l length) said(text string) string {
	if l.about {
		return "about " + text
	}
	return text
}

// String is the length as it was written if that is short. It rounds a computed length with
// many decimals to a quarter of an inch.
func (l length) String() string {
	if s := l.Inches.String(); len(s) <= 15 {
		return s
	}
	return l.InFeet()
}

// lengthOf returns the unit's length. It returns the usual one if the unit gives none or one
// longer than most.
func lengthOf(f unit.Length, usual, most measure.Inches) length {
	switch {
	case !f.Given():
		return length{Inches: usual, guess: true}
	case !measure.Finite(f.Value) || f.Value <= 0 || f.Value > most:
		return length{Inches: usual, guess: true, odd: f.Value.InInches()}
	}
	return length{Inches: f.Value, about: f.About}
}

// facts has everything that the drawing needs.
type facts struct {
	// pivotBack is from a tilting deck\'s pivot to its rear edge, if it was measured.
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
	flat, tail, tailEnd   length // tail is 0 if there is none
	tailKind              string
	tailUnknown           bool // there is a dovetail and nobody measured it
	center, spacing, tire length
	rim                   measure.Inches
	tireText              string // the size as written, empty if it cannot be read
	axles                 int
	axlesGuess            bool
	dual                  bool
	ramps                 string // empty if none are visible
	ramp                  length
	fenders               bool
	beam                  measure.Inches
}

// factsOf collects the facts of a unit. It returns false if there is no length to draw.
func factsOf(w *compute.Work) (f facts, ok bool) {
	if w == nil || w.Unit == nil {
		return f, false
	}
	u := w.Unit
	f.unit, f.kind, f.hitch, f.space = u, kinds.Of(u.Kind.Value), u.Hitch.Kind.Value, w.Space.Name
	if !f.kind.Known() {
		f.kind = kinds.Of("other")
	}
	if f.length = lengthOf(w.Space.Length, f.kind.Usual, longestDeck); f.length.Inches == 0 {
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
		// Other ramps are out of sight, and the ramp door of a box is its rear wall.
		if f.space != "box" {
			f.ramps = ramps
		}
	}
	f.ramp = lengthOf(u.Ramps.Length, usualRamp, highest.Half())
	f.fenders = f.between(w.Space.Width) && u.Frame.Fenders.Value != "none" && !(f.kind.Name == "lowboy" && u.Deck.Well.Given())
	f.beam = beamOf(u, f.hitch)
	return f, true
}

// rear is the rear end of the deck, bed or box.
func (f *facts) rear() measure.Inches { return f.front.Inches + f.length.Inches }

// hinge is the place where the flat part ends and the tail begins.
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
	// If the length of the tail is missing, a tilting deck tilts as a whole, and a dovetail
	// cannot be drawn.
	if f.tail.guess {
		if f.tailKind == "tilt" {
			f.tail = length{Inches: f.length.Inches, guess: true}
		} else {
			f.tailKind, f.tailUnknown = "", f.tailKind != ""
		}
	}
	// If only the tail's end was measured, the deck is higher than that.
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
	// The inspection does not allow more than six axles.
	if !u.Axles.Count.Given() || f.axles < 1 || f.axles > 6 {
		f.axles, f.axlesGuess = 2, true
	}
	f.spacing = lengthOf(u.Axles.Spacing, f.tire.Inches+usualTireGap, longestFront)
	f.center = lengthOf(u.Axles.Center, f.usualCenter(), longestDeck+longestFront)
	// Axles behind the trailer or ahead of the ball are not drawn; the inspection stops them.
	if reach := f.spacing.Times(f.axles - 1).Half(); !f.center.guess &&
		(f.center.Inches > f.rear() && !f.front.guess || f.center.Inches < reach) {
		f.center = length{Inches: f.usualCenter(), guess: true, odd: f.center.String()}
		f.spacing = length{Inches: f.tire.Inches + usualTireGap, guess: true}
	}
}

// usualCenter is the place of the axles at which an evenly loaded deck puts a usual share of
// its load on the truck: 20% for a gooseneck or a fifth-wheel, 12% for other hitches.
// The tongue is w(1 - xc/A), so A = xc / (1 - share). Common practice, no source.
func (f *facts) usualCenter() measure.Inches {
	share := measure.Share(1 / (1 - 0.12))
	if f.overTruck() {
		share = 1 / (1 - 0.20)
	}
	return min(share.OfLength(f.front.Inches+f.length.Half()), f.rear())
}

// overTruck reports whether the hitch is in the truck's bed.
func (f *facts) overTruck() bool { return f.hitch == "gooseneck" || f.hitch == "fifth-wheel" }

// point is the name of x = 0.
func (f *facts) point() string {
	switch f.hitch {
	case "fifth-wheel":
		return "kingpin"
	case "pintle":
		return "eye"
	}
	return "ball"
}

// between reports whether the wheels are next to the deck and not under it, so that fenders
// cover them. Then the floor is lower than the top of the tire, or the deck is narrow (below
// 96 in, two tires fit next to it within 102 in) and too low for the tire to rise. Common
// practice, no source.
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

// beamOf is the depth of the main beams: of the shape that the unit names, or a usual one.
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

// axle is the place of axle i. The front axle is 0.
func (f *facts) axle(i int) measure.Inches {
	return f.center.Inches - f.spacing.Times(f.axles-1).Half() + f.spacing.Times(i)
}

// wheelGuess reports whether the unit does not give the wheels' place or their size.
func (f *facts) wheelGuess() bool {
	return f.center.guess || f.tire.guess || f.axlesGuess || f.axles > 1 && f.spacing.guess
}

// name is the unit's name in ids: the stock number, or the file if there is none.
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
			// Any other byte becomes two hex digits, so that two names never share an id.
			b.WriteByte('_')
			b.WriteString(string("0123456789abcdef"[c>>4]) + string("0123456789abcdef"[c&15]))
		}
	}
	return b.String()
}
