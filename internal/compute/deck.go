package compute

import (
	"strings"

	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A Space is the place for the load: the deck of an open trailer, the bed of a dump
// trailer, the box of an enclosed one, and what package kinds has besides.
type Space struct {
	// Name is the section's key: deck, bed, box, tank.
	Name   string
	Length unit.Length
	Width  unit.Length
	Front  unit.Length
	// Floor is the height of the floor under the load.
	Floor unit.Length
	// Well reports that a lowboy gives its well and no other length.
	Well bool
}

// spaceOf returns the space of the unit's kind if its length is given. Otherwise it returns
// the first space with a length, then the kind's own, then a deck if the kind has none.
func spaceOf(u *unit.Unit) Space {
	deck := Space{Name: "deck", Length: u.Deck.Length, Width: u.Deck.Width, Front: u.Deck.Front, Floor: u.Deck.Height}
	if !u.Deck.Length.Given() && u.Deck.Well.Given() {
		// Where the well begins, and how long the trailer is, is not said by that.
		deck = Space{Name: "deck", Length: u.Deck.Well, Width: u.Deck.Width, Floor: u.Deck.WellUp, Well: true}
	}
	spaces := [...]Space{
		{Name: "bed", Length: u.Bed.Length, Width: u.Bed.Width, Front: u.Bed.Front, Floor: u.Bed.Floor},
		{Name: "box", Length: u.Box.Length, Width: u.Box.Width, Front: u.Box.Front, Floor: u.Box.Floor},
		{Name: "tank", Length: u.Tank.Length, Width: u.Tank.Width, Front: u.Tank.Front, Floor: u.Tank.Floor},
		{Name: "hull", Length: u.Hull.Length, Width: u.Hull.Beam, Front: u.Hull.Front, Floor: u.Hull.Floor},
		{Name: "bin", Length: u.Bin.Length, Width: u.Bin.Width, Front: u.Bin.Front, Floor: u.Bin.Floor},
		{Name: "bunks", Length: u.Bunks.Length, Width: u.Bunks.Width, Front: u.Bunks.Front, Floor: u.Bunks.Floor},
		{Name: "chassis", Length: u.Chassis.Length, Width: u.Chassis.Width, Front: u.Chassis.Front, Floor: u.Chassis.Floor},
		// The pans in which the vehicle's wheels stand. Their width is not the dolly's.
		{Name: "dolly", Length: u.Dolly.Length, Width: unit.Length{}, Front: u.Dolly.Front, Floor: u.Dolly.Floor},
		deck,
	}
	own := len(spaces) - 1
	for i := range spaces {
		if spaces[i].Name == string(kinds.Of(u.Kind.Value).Space) {
			own = i
		}
	}
	if spaces[own].Length.Given() {
		return spaces[own]
	}
	for i := range spaces {
		if spaces[i].Length.Given() {
			return spaces[i]
		}
	}
	return spaces[own]
}

// key is the path of one of its measures, or empty where the space has no such key.
func (s Space) key(leaf string) string {
	if s.Well {
		if k := wellKeys[leaf]; k != "" {
			return k
		}
	}
	for i := range spaceKeys {
		if k := &spaceKeys[i]; k.name == s.Name && k.leaf == leaf {
			return k.path
		}
	}
	return s.Name + "." + leaf
}

// wellKeys are the keys of a deck of which only the well was measured.
var wellKeys = map[string]string{"length": "deck.well", "front": "deck.length", "floor": "deck.well-height"}

// spaceKeys are the paths of the keys, made once because every unit needs them.
var spaceKeys = func() (out []spaceKey) {
	for _, name := range []string{"deck", "bed", "box", "tank", "hull", "bin", "bunks", "chassis"} {
		for _, leaf := range []string{"length", "front", "width", "height"} {
			path := name + "." + leaf
			if path == "hull.width" {
				path = "hull.beam"
			}
			out = append(out, spaceKey{name, leaf, path})
		}
	}
	return append(out, spaceKey{"dolly", "length", "dolly.length"}, spaceKey{"dolly", "front", "dolly.front"}, spaceKey{"dolly", "width", ""})
}()

type spaceKey struct{ name, leaf, path string }

var deckLength = &Definition{
	Name: "deck-length", Label: "Deck length",
	What:    "How long the deck is, flat and tail together; the bed of a dump trailer, the floor of an enclosed one.",
	Formula: "the stated length; flat + tail where both are stated",
	Unit:    "ft", Source: "the unit's own measures",
	work: func(p *calc) {
		p.label = spaceWord(p.Space.Name) + " length"
		length := need(p, p.Space.Length, p.Space.key("length"))
		if !p.ready() {
			return
		}
		working := say("%s", length)
		if d := p.Unit.Deck; p.Space.Name == "deck" && d.Flat.Given() && d.Tail.Given() {
			working = say("%s = %s flat + %s tail", length, d.Flat.Value, d.Tail.Value)
		}
		p.feet(length, working)
	},
}

var deckArea = &Definition{
	Name: "deck-area", Label: "Deck area",
	What:    "How much floor there is.",
	Formula: "length x width",
	Unit:    "sq ft", Source: "the unit's own measures",
	work: func(p *calc) {
		if !floored[p.Space.Name] {
			p.skip() // a hull or a tank is not floor to stand something on
			return
		}
		p.label = spaceWord(p.Space.Name) + " area"
		length := need(p, p.Space.Length, p.Space.key("length"))
		width := need(p, p.Space.Width, p.Space.key("width"))
		if !p.ready() {
			return
		}
		a := measure.Area(length, width)
		p.enter(float64(a), a.Near(), 0.1, say("%s x %s", length, inInches(width)))
	},
}

// floored are the spaces with a floor. The trailer ends where they end.
var floored = map[string]bool{"deck": true, "bed": true, "box": true}

// spaceWord is a space at the beginning of a label.
func spaceWord(name string) string { return strings.ToUpper(name[:1]) + name[1:] }

// aheadUsually is how far a coupler usually reaches ahead of the center of the ball or
// kingpin. Common practice, no source: measure it and give hitch.ahead.
var aheadUsually = map[string]measure.Inches{"bumper-pull": 4, "pintle": 4, "gooseneck": 6, "fifth-wheel": 36}

// wallsUsually is what the walls add to the inside length of a box or a bed: two of 2 in.
// Common practice, no source.
var wallsUsually = map[string]measure.Inches{"box": 4, "bed": 4}

// overall is the overall length, from the foremost part of the coupler to the rear edge.
func (p *calc) overall() (measure.Inches, words) {
	if all := p.Unit.OverallLength; all.Given() && all.Value > 0 {
		return need(p, all, "overall-length"), say("%s", all.Value)
	}
	if !floored[p.Space.Name] && p.Space.Name != "chassis" {
		// A boat reaches past its trailer, and a tank ends before it.
		p.lack("overall-length")
		return 0, words{}
	}
	front := need(p, p.Space.Front, p.Space.key("front"))
	length := need(p, p.Space.Length, p.Space.key("length"))
	ahead, kind := p.Unit.Hitch.Ahead, p.Unit.Hitch.Kind.Value
	reach, known := aheadUsually[kind]
	switch {
	case ahead.Given() && ahead.Value > 0:
		take(p, ahead, "hitch.ahead")
		reach = ahead.Value
	case !known:
		p.lack("hitch.kind")
	default:
		p.note("the coupler of a %s is taken to reach %s ahead of the ball's center: common practice, no source", kind, inInches(reach))
	}
	working := say("%s + %s + %s", inInches(reach), front, length)
	if walls := wallsUsually[p.Space.Name]; walls > 0 {
		p.note("the %s's length is an inside measure; its walls are taken to add %s: common practice, no source", p.Space.Name, inInches(walls))
		working = say("%s + %s", working, inInches(walls))
		length += walls
	}
	return reach + front + length, working
}

var overallLength = &Definition{
	Name: "overall-length", Label: "Overall length",
	What:    "From the foremost part of the coupler back to the rear edge of the deck, bed or box, tail raised. A neck counts as length.",
	Formula: "coupler ahead of the ball's center + ball to front edge + length",
	Unit:    "ft", Source: "49 CFR 571.108 S4 (overall length); NHTSA interpretation aiam5198 (1993): a gooseneck counts in the length",
	work: func(p *calc) {
		v, working := p.overall()
		if !p.ready() {
			return
		}
		p.feet(v, working)
	},
}

// center is xc: the middle of an evenly spread load, from the ball.
func (p *calc) center() measure.Inches {
	front := need(p, p.Space.Front, p.Space.key("front"))
	length := need(p, p.Space.Length, p.Space.key("length"))
	return front + length.Half()
}

var loadingAngle = &Definition{
	Name: "loading-angle", Label: "Loading angle",
	What:    "How steep the way up is, from the ground to the deck, on level ground and empty.",
	Formula: "arcsin(height / length along the ramp, the tail, or the tilting deck from its pivot back)",
	Unit:    "degrees", Source: "geometry",
	work: func(p *calc) {
		d, r := p.Unit.Deck, p.Unit.Ramps
		var rise, along measure.Inches
		var what string
		switch {
		case d.TailKind.Value == "hydraulic dovetail":
			what = "the tail"
			rise = need(p, d.Height, "deck.height")
			along = need(p, d.Tail, "deck.tail")
		case d.TailKind.Value == "tilt":
			// A tilting deck turns about its pivot, near the axles, not about the front
			// edge of what tilts: the way up is steeper than the tail's length says.
			what = "the tilting deck from its pivot back"
			rise = need(p, d.Height, "deck.height")
			along = need(p, d.Pivot, "deck.pivot")
		case d.TailKind.Value == "fixed dovetail" && r.Length.Given():
			what = "the ramps"
			rise = need(p, d.TailEnd, "deck.tail-end")
			along = need(p, r.Length, "ramps.length")
		case r.Length.Given():
			what = "the ramps"
			floor := p.Space.Floor
			key := p.Space.key("floor")
			if p.Space.Name == "deck" {
				key = "deck.height"
			}
			if p.Space.Name == "hull" || p.Space.Name == "dolly" {
				p.skip() // nothing is driven up into it
				return
			}
			rise = need(p, floor, key)
			along = need(p, r.Length, "ramps.length")
		default:
			p.skip()
			return
		}
		if !p.ready() {
			return
		}
		angle, ok := measure.Incline(rise, along)
		if !ok {
			p.needs = append(p.needs, Need{Key: "ramps.length", Advice: "measure again: the height to reach is more than the length of " + what})
			return
		}
		p.note("for %s, on level ground and empty", what)
		p.enter(float64(angle), angle.Near(), 0.1, say("arcsin(%s / %s)", inInches(rise), along))
		p.LoadingAngle = Result[measure.Degrees]{Value: angle, Known: true}
	},
}
