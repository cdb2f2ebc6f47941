package elevation

import "tarepage/internal/measure"

// Usual shapes, for parts without a key in the unit file. Common practice, no source. The
// words next to the drawing say that they are not measured.
const (
	reveal     measure.Inches = 0.8 // the light line between two pieces of steel
	railDepth  measure.Inches = 4   // the rail around a deck over the wheels
	frameDepth measure.Inches = 6   // the frame of a deck between the wheels
	clearance  measure.Inches = 8   // the least clearance under a frame

	bedSides  measure.Inches = 56 // the height of a neck that clears a truck's bed sides
	neckDepth measure.Inches = 11
	ballTop   measure.Inches = 38 // of the ball in a truck's bed
	plate     measure.Inches = 48 // of a fifth-wheel's plate in a truck's bed
	coupler   measure.Inches = 19 // middle of a bumper-pull coupler
	pintleEye measure.Inches = 26
)

// draw draws the whole trailer.
func draw(f *facts) *drawing {
	d := &drawing{}
	bottom := d.frame(f)
	if f.overTruck() {
		d.neck(f, bottom)
	} else {
		d.tongue(f, bottom)
	}
	if f.shape.above != nil && (f.shape.sides == nil || f.sides.Inches > 0) {
		f.shape.above(d, f)
	}
	d.boxDetails(f)
	d.deckSides(f)
	d.bedDetails(f, bottom)
	d.hoist(f, bottom)
	d.stow(f)
	d.wheels(f, bottom)
	return d
}

// frame draws the deck's rail or the floor's frame, the beams under it and the tail. It
// returns the height of the frame's lower edge at the front.
func (d *drawing) frame(f *facts) (bottom measure.Inches) {
	if bottom, ok := d.lowboy(f); ok {
		return bottom
	}
	h, from, to := f.floor.Inches, f.front.Inches, f.rear()
	guessed := f.floor.guess || f.front.guess || f.length.guess
	depth := railDepth
	if f.fenders || f.space == "box" {
		depth = frameDepth
	}
	depth = min(depth, h.Half())
	bottom = h - depth
	rail := bottom
	if beam := min(f.beam, rail-reveal-clearance); !f.fenders && f.space != "box" && beam > 2 {
		bottom = rail - reveal - beam
	}
	end := to
	if f.tailKind == "hydraulic dovetail" || f.tailKind == "fixed dovetail" {
		end = f.hinge()
	}
	switch f.tailKind {
	case "hydraulic dovetail":
		d.box(body, guessed, from, end, rail, h)
		if end > from {
			d.box(body, guessed, from, end, bottom, rail-reveal)
		}
		// The tail is a wedge. It hinges at the deck's top and goes down to the ground.
		hinge := max(end, from) + reveal
		d.add(tail, guessed, point{hinge, h}, point{to, h}, point{to, h - min(3, depth)}, point{hinge, bottom})
		if run, ok := measure.Run(h, f.tail.Inches); ok {
			d.add(swing, false, point{end, h}, point{end + run, 0}, point{end, bottom})
		}
		return bottom
	case "fixed dovetail":
		d.box(body, guessed, from, end, rail, h)
		low := f.tailEnd.Inches
		d.add(tail, guessed || f.tailEnd.guess, point{end, h}, point{to, low},
			point{to, low - min(depth, low.Half())}, point{end, rail})
	case "tilt":
		d.box(body, guessed, from, f.hinge()-reveal, rail, h)
		d.box(tail, guessed, f.hinge(), to, rail, h)
		d.tilted(f, rail)
	default:
		d.box(body, guessed, from, to, rail, h)
	}
	if bottom < rail {
		// The beams end ahead of the rear rail and taper toward it.
		cut := min(f.beam, (end - from).Half())
		d.add(body, guessed, point{from, rail - reveal}, point{end, rail - reveal}, point{end - cut, bottom}, point{from, bottom})
	}
	return bottom
}

// tilted draws the tilted position of a tilting deck: turned about its pivot, with the rear
// edge on the ground. If nobody measured the pivot, it is drawn over the axles, and the
// words say so.
func (d *drawing) tilted(f *facts, under measure.Inches) {
	h, to, pivot := f.floor.Inches, f.rear(), f.pivot()
	run, ok := measure.Run(h, to-pivot)
	if !ok {
		return
	}
	ahead := measure.ShareOfLength(max(pivot-f.hinge(), 0), to-pivot)
	rear := point{pivot + run, 0}
	head := point{pivot - ahead.OfLength(run), h + ahead.OfLength(h)}
	thick := h - under
	d.add(swing, false, head, rear, point{rear.x - thick, 0}, point{head.x, head.y - thick})
}

// pivot is the place of a tilting deck's pivot: where it was measured, or else over the
// middle of the axles, or at the front edge of the tilting part if that is farther back.
func (f *facts) pivot() measure.Inches {
	if f.pivotGiven() {
		return f.rear() - f.pivotBack.Value
	}
	return max(f.center.Inches, f.hinge())
}

// pivotGiven reports whether the pivot was measured and is within the tilting part.
func (f *facts) pivotGiven() bool {
	return f.pivotBack.Given() && f.pivotBack.Value > 0 && f.pivotBack.Value <= f.tail.Inches
}

// neck draws the neck of a gooseneck or fifth-wheel over the truck's bed.
func (d *drawing) neck(f *facts, bottom measure.Inches) {
	guessed := f.hitchGuess || f.front.guess || f.floor.guess
	at, h := f.front.Inches, f.floor.Inches
	under := max(bedSides, h+14)
	top := under + neckDepth
	back := min(30, at.Half()) // how far the riser leans forward
	foot := min(12, at.Half())
	d.add(body, guessed, point{-8, under}, point{-8, top - 4}, point{-4, top}, point{at - back.Half(), top},
		point{at, h}, point{at, bottom}, point{at - foot, bottom}, point{at - foot, h - 2}, point{at - back, under})
	if f.hitch == "fifth-wheel" {
		d.add(body, guessed, point{-8, under - reveal}, point{-6, plate + 2}, point{-6, plate}, point{10, plate},
			point{10, plate + 2}, point{22, under - reveal})
		d.box(body, guessed, -1, 1, plate-3.5, plate)
	} else {
		d.box(body, guessed, -2.5, 2.5, ballTop+3, under)
		d.add(body, guessed, point{-3.5, ballTop + 4}, point{3.5, ballTop + 4}, point{3.5, ballTop - 2}, point{-3.5, ballTop - 2})
	}
	if jack := at - back - 10; jack > 16 {
		d.box(body, guessed, jack-2.2, jack+2.2, 20, under)
		d.box(body, guessed, jack-1.4, jack+1.4, 13, 20)
		d.box(body, guessed, jack-5, jack+5, 11.5, 13)
		d.box(body, guessed, jack-2.2, jack+2.2, top, top+3)
	}
}

// tongue draws a tongue with its coupler or eye, and the jack.
func (d *drawing) tongue(f *facts, bottom measure.Inches) {
	guessed := f.hitchGuess || f.front.guess || f.floor.guess
	at, mid := f.front.Inches, coupler
	if f.hitch == "pintle" {
		mid = pintleEye
	}
	nose := min(10, at.Half())
	top := min(bottom+5, f.floor.Inches)
	// The tongue has the coupler's height and rises to the frame over its last foot or so.
	knee := max(nose, at-max(12, max(mid-bottom, bottom-mid)))
	d.add(body, guessed, point{nose, mid + 2.5}, point{knee, mid + 2.5}, point{at, top}, point{at, bottom},
		point{knee, mid - 2.5}, point{nose, mid - 2.5})
	if f.hitch == "pintle" {
		d.rings = append(d.rings, ring{center: point{0, mid}, r: 3.2, rim: 1.7, guess: guessed})
		d.box(body, guessed, 2.8, nose, mid-1.6, mid+1.6)
	} else {
		// The coupler's socket is over the ball. Its center is at x = 0.
		d.add(body, guessed, point{-2.6, mid - 2}, point{-2.6, mid + 0.8}, point{-1.2, mid + 2.2}, point{1.6, mid + 2.2},
			point{4, mid + 1.4}, point{nose, mid + 1.8}, point{nose, mid - 1.4}, point{3, mid - 0.4}, point{2.4, mid - 2})
	}
	if jack := at.Half() - 4; jack > 12 {
		d.box(body, guessed, jack-1.2, jack+1.2, 10, mid+17)
		d.box(body, guessed, jack-4, jack+4, 8.5, 10)
		d.box(body, guessed, jack-5, jack+2, mid+17, mid+18.5)
	}
}

// stow draws the ramps in their stowed position.
func (d *drawing) stow(f *facts) {
	edge, to := f.floor.Inches, f.rear()
	guessed := f.floor.guess || f.front.guess || f.ramp.guess
	if f.tailKind == "fixed dovetail" {
		edge = f.tailEnd.Inches
		guessed = guessed || f.tailEnd.guess
	}
	switch f.ramps {
	case "stand-up", "gate":
		d.box(tail, guessed, to+1.6, to+4, edge-min(3, edge.Half()), edge+f.ramp.Inches)
		d.box(tail, guessed, to-1, to+1.6, edge-min(3, edge.Half()), edge) // the hinge
	case "fold-over":
		from := max(to-f.ramp.Inches, f.front.Inches)
		start := f.floor.Inches
		if f.tailKind == "fixed dovetail" && from > f.hinge() {
			start = edge + measure.ShareOfLength(to-from, f.tail.Inches).OfLength(f.floor.Inches-edge)
		}
		d.add(tail, guessed, point{from, start + reveal}, point{from, start + reveal + 2.4},
			point{to, edge + reveal + 2.4}, point{to, edge + reveal})
		d.box(tail, guessed, to-3, to, edge-1, edge+reveal) // the hinge
	}
}

// coupled is the height of the lower edge of the coupler, the eye or the kingpin.
func (f *facts) coupled() measure.Inches {
	switch f.hitch {
	case "gooseneck":
		return ballTop - 2
	case "fifth-wheel":
		return plate - 3.5
	case "pintle":
		return pintleEye - 3.2
	}
	return coupler - 2
}

// wheels draws the wheels on the ground and the fenders over them, which end at the bottom of
// the frame.
func (d *drawing) wheels(f *facts, bottom measure.Inches) {
	guessed := f.wheelGuess()
	r := f.tire.Half()
	rim := min(f.rim.Half(), r-1)
	for i := range f.axles {
		w := ring{center: point{f.axle(i), r}, r: r, rim: rim, hub: measure.Share(0.3).OfLength(rim), guess: guessed}
		if f.dual {
			w.hub, w.dish = measure.Share(0.42).OfLength(rim), measure.Share(0.74).OfLength(rim)
		}
		d.rings = append(d.rings, w)
		// The spring and its hanger carry a frame that is above the tires.
		if at := w.center.x; bottom > f.tire.Inches {
			d.add(body, guessed, point{at - 11, bottom}, point{at + 11, bottom}, point{at + 4, f.tire.Inches - 2}, point{at - 4, f.tire.Inches - 2})
		}
	}
	if !f.fenders {
		return
	}
	first, last := f.axle(0), f.axle(f.axles-1)
	d.fender(f, guessed, first, last, min(max(r, bottom), f.tire.Inches+3-min(r, 12)))
}
