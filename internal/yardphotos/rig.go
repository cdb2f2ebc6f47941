package main

import (
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/kinds"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// A rig is a trailer to draw, in inches. Where the unit gives no dimension, a usual one of
// the drawing takes its place (common practice, no source).
type rig struct {
	*scene
	u    *unit.Unit
	kind kinds.Kind

	space                       string
	front, long, wide, floor    float64
	center, spacing, tire, rim  float64
	outer                       float64 // from the trailer's middle to the outside of its tires
	axles                       int
	dual, between, overTheTruck bool
	paint                       paint
}

var (
	steel  = paint{0.62, 0.64, 0.66}
	dark   = paint{0.14, 0.14, 0.15}
	rubber = paint{0.10, 0.10, 0.11}
	wood   = paint{0.72, 0.55, 0.36}
	red    = paint{0.85, 0.08, 0.07}
	amber  = paint{0.98, 0.62, 0.08}
	white  = paint{0.93, 0.93, 0.92}
)

// colors are the words of the key color, the first one in a text counts.
var colors = map[string]paint{
	"black": {0.19, 0.19, 0.20}, "charcoal": {0.29, 0.31, 0.34}, "gray": {0.45, 0.47, 0.49}, "silver": {0.68, 0.70, 0.73},
	"white": white, "red": {0.72, 0.13, 0.11}, "yellow": {0.95, 0.76, 0.10}, "green": {0.13, 0.42, 0.22},
	"blue": {0.12, 0.28, 0.62}, "galvanized": {0.58, 0.61, 0.62}, "aluminum": {0.67, 0.70, 0.73}, "orange": {0.90, 0.43, 0.08}, "tan": {0.78, 0.68, 0.50},
}

func paintOf(text string) paint {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' }) {
		if c, ok := colors[word]; ok {
			return c
		}
	}
	return steel
}

// or is the unit's length, or the usual one.
func or(l unit.Length, usual float64) float64 {
	if l.Given() {
		return float64(l.Value)
	}
	return usual
}

func rigOf(w *compute.Work) *rig {
	u := w.Unit
	r := &rig{scene: &scene{}, u: u, kind: kinds.Of(u.Kind.Value), space: w.Space.Name, paint: paintOf(u.Color.Value)}
	r.overTheTruck = u.Hitch.Kind.Value == "gooseneck" || u.Hitch.Kind.Value == "fifth-wheel"
	r.front, r.long = or(w.Space.Front, 56), or(w.Space.Length, max(float64(r.kind.Usual), 120))
	r.wide, r.floor = or(w.Space.Width, 76), or(w.Space.Floor, float64(r.kind.Floor))
	r.tire, r.rim = 28, 15
	if size, err := tables.ParseTireSize(u.Tires.Size.Value); err == nil {
		d, _ := size.Diameter()
		r.tire, r.rim = float64(d), float64(size.Rim)
	}
	r.axles, r.dual = max(u.Axles.Count.Value, 1), u.Tires.PerAxle.Value == 4
	r.spacing = or(u.Axles.Spacing, r.tire+4)
	r.center = or(u.Axles.Center, r.front+float64(r.long*0.58))
	r.between = !r.kind.OverWheels && r.kind.Name != "lowboy" && (u.Deck.Between.Given() || r.floor < r.tire+4 || u.Frame.Fenders.Value == "fixed")
	switch {
	case r.between && u.OverallWidth.Given():
		r.outer = float64(u.OverallWidth.Value)/2 - 1
	case r.between:
		r.outer = r.half() + 11
	default:
		r.outer = max(r.half()-1, 38)
	}
	if r.arched() {
		r.outer = r.wall() + 0.8
	}
	return r
}

func (r *rig) rear() float64 { return r.front + r.long }

// half is half the width of the trailer's body.
func (r *rig) half() float64 { return r.wide / 2 }

// build adds the whole trailer.
func (r *rig) build() {
	if r.overTheTruck {
		r.neck()
	} else {
		r.tongue()
	}
	r.wheels()
	builders[r.space](r)
	r.lamps()
}

var builders = map[string]func(*rig){
	"deck": (*rig).deck, "bed": (*rig).bed, "box": (*rig).boxed, "tank": (*rig).tank, "hull": (*rig).hull,
	"bin": (*rig).bin, "bunks": (*rig).bunks, "chassis": (*rig).chassis, "dolly": (*rig).dolly,
}

// wheels adds the tires, the axles and the fenders.
func (r *rig) wheels() {
	outer, radius, inside := r.outer, r.tire/2, 0.0
	if r.between && !r.arched() {
		inside = r.wall()
	}
	for i := range r.axles {
		x := r.center + float64(r.spacing*(float64(i)-float64(r.axles-1)/2))
		if r.space != "dolly" {
			r.box(x-2, x+2, -outer+4, outer-4, radius-2, radius+2, dark)
		}
		if under := r.underFrame(); under > radius+2 && r.kind.Name != "lowboy" {
			r.hanger(x, min(r.frame(), outer-14), radius+2, under)
		}
		pairs := 1
		if r.dual {
			pairs = 2
		}
		for k := range pairs {
			out := outer - float64(k)*10
			for _, side := range []float64{-1, 1} {
				r.tread(x, radius, max(out-8, inside), out, side)
				r.disk(x, radius, r.rim/2, side*(out-7), side*(out+0.3), paint{0.80, 0.81, 0.82})
				r.disk(x, radius, 2.6, side*(out-2), side*(out+2), dark)
			}
		}
	}
	switch {
	case r.arched():
		r.arches()
	case r.between && r.u.Frame.Fenders.Value != "none":
		r.fenders(outer)
	}
}

// tread adds a tire from its inner to its outer side wall. One of a pair has shoulders and a
// tread in a lighter gray, so that the gap between the two shows.
func (r *rig) tread(x, radius, inner, outer, side float64) {
	if !r.dual {
		r.disk(x, radius, radius, side*inner, side*outer, rubber)
		return
	}
	r.disk(x, radius, radius-2.4, side*(inner+0.2), side*outer, rubber)
	r.disk(x, radius, radius-0.8, side*(inner+0.7), side*(outer-0.5), rubber.times(1.5))
	r.disk(x, radius, radius, side*(inner+1.6), side*(outer-1.4), rubber.times(2.4))
}

// hanger adds the spring that carries the frame on an axle at x, and its two hangers.
func (r *rig) hanger(x, y, axle, under float64) {
	reach := r.spacing * 0.42
	r.both(x-2.5, x+2.5, y-1.6, y+1.6, axle-1, axle+2.5, dark)
	for _, end := range []float64{x - reach, x + reach} {
		r.bars(vec{x, y, axle + 1}, vec{end, y, (axle + under + 1) / 2}, 1.8, dark)
		r.both(end-1.5, end+1.5, y-1.6, y+1.6, (axle+under)/2-1, under+0.5, dark)
	}
}

// arched says that a box reaches out over the wheels, so they turn in openings of its walls.
func (r *rig) arched() bool { return r.space == "box" && r.between && r.outer < r.wall()+5 }

// arches adds the dark opening for the wheels in each side wall, and its trim.
func (r *rig) arches() {
	reach, y, top, low := r.wheelsReach(), r.wall(), r.tire+4, min(r.floor-5, r.tire*0.6)
	a, b := r.center-reach, r.center+reach
	outline := []vec{{a, 0, low}, {b, 0, low}, {b, 0, top - 8}, {b - 8, 0, top}, {a + 8, 0, top}, {a, 0, top - 8}}
	for _, side := range []float64{-1, 1} {
		r.prism(outline, side*(y-0.2), side*(y+0.5), dark)
		trim := append(outline[1:], outline[0])
		for i, p := range trim[:5] {
			q := trim[i+1]
			p.y, q.y = side*y, side*y
			r.bar(p, q, 2.2, steel)
		}
	}
}

// fenders adds a fender over the wheels of each side, outside the body: a flat top with sloping ends.
func (r *rig) fenders(outer float64) {
	reach := r.wheelsReach()
	top, inner := r.tire+3, max(outer-11, r.wall())
	a, b := r.center-reach, r.center+reach
	if r.wall() == 0 && r.space != "dolly" {
		// Two arms of the frame carry each fender that no wall is near.
		z := min(max(r.tire*0.62, r.underFrame()+2), r.underFrame()+6)
		for _, x := range []float64{a + 2, b - 2} {
			r.both(x-1.5, x+1.5, r.frame(), inner+1, z-2, z+1, r.paint)
			r.both(x-1.5, x+1.5, inner-0.8, inner+0.4, z-2, max(z+1, r.tire*0.75), r.paint)
		}
	}
	for _, side := range []float64{-1, 1} {
		y0, y1 := side*inner, side*(outer+1)
		r.prism([]vec{{a + 8, 0, top}, {b - 8, 0, top}, {b - 8, 0, top + 1.2}, {a + 8, 0, top + 1.2}}, y0, y1, r.paint.times(1.1))
		r.quad(vec{a + 8, y0, top}, vec{a, y0, r.tire * 0.62}, vec{a, y1, r.tire * 0.62}, vec{a + 8, y1, top}, r.paint)
		r.quad(vec{b - 8, y0, top}, vec{b, y0, r.tire * 0.62}, vec{b, y1, r.tire * 0.62}, vec{b - 8, y1, top}, r.paint)
		// The plate on the inside joins the fender and the body.
		r.prism([]vec{{a, 0, r.tire * 0.62}, {b, 0, r.tire * 0.62}, {b - 8, 0, top}, {a + 8, 0, top}}, y0, y0+side*0.3, r.paint)
		// The lip is what shows from the side.
		r.prism([]vec{{a + 8, 0, top - 2.5}, {b - 8, 0, top - 2.5}, {b - 8, 0, top + 1.2}, {a + 8, 0, top + 1.2}}, y1-side, y1, r.paint)
		r.bar(vec{a + 8, y1, top}, vec{a, y1, r.tire * 0.62}, 2.5, r.paint)
		r.bar(vec{b - 8, y1, top}, vec{b, y1, r.tire * 0.62}, 2.5, r.paint)
	}
}

// lamps adds lamps at the corners and, where the unit has it, the red and white tape. Where
// the frame is narrower than the trailer, a bar across the rear holds the lamps.
func (r *rig) lamps() {
	z := r.floor - 3
	if r.u.Deck.TailEnd.Given() {
		z = float64(r.u.Deck.TailEnd.Value) - 3
	}
	if r.kind.Name == "lowboy" {
		z = r.tire + 1
	}
	end, h, ahead := r.rear(), r.half(), r.half()
	switch r.space {
	case "dolly":
		end, h, z = r.center+r.tire/2+2, r.outer, r.tire*0.62
		r.both(end-1, end+1, h-9, h-2, z-2, z+5, red)
		return
	case "hull":
		z, h, ahead = max(r.floor-14, 13), r.outer-3, r.narrow()+2.5
		r.box(end-3, end-0.5, -h, h, z-2, z+2, r.paint)
	case "tank":
		// The pump and the reel are on the last 20 inches of the frame.
		end, ahead = end+21, r.narrow()+2.5
		r.box(end-3, end-0.5, -h, h, z-3, z+2, r.paint)
	case "bed":
		ahead = r.wall() + 2
		r.box(end-3, end-0.5, -h, h, z-3, z+2, r.paint)
		r.both(end-8, end-0.5, 14, 19, z-3, r.floor-1, dark)
	case "bin":
		h, ahead = 40, 20.5
		r.box(end-3, end-0.5, -h, h, z-4, z+1, r.paint)
	}
	r.both(end-0.5, end+0.7, h-10.5, h-0.5, z-3.6, z+3.6, black)
	r.both(end-0.5, end+1, h-9, h-2, z-2.5, z+2.5, red)
	for i := -1.0; i <= 1; i++ {
		r.box(end-0.5, end+1, i*7-1.5, i*7+1.5, z-1.2, z+1.2, red)
	}
	low := r.floor - 4
	if r.space == "hull" {
		low = max(r.floor-10, 16) - 5
	} else if r.space == "bed" {
		low = r.floor + 2
	}
	r.both(r.front+2, r.front+6, ahead-0.5, ahead+0.8, low, low+3, amber)
	if r.u.Lights.Conspicuity.Given() && r.u.Lights.Conspicuity.Value {
		r.tape(ahead, low)
	}
}

// tape adds the red and white tape to the side of the frame or the body, y from the middle. It
// leaves out the wheels.
func (r *rig) tape(y, low float64) {
	switch r.space {
	case "bunks", "chassis", "tank", "bin":
		if r.kind.Name != "camper-chassis" {
			y, low = r.frame()+2.5, r.underFrame()+3
		}
	case "bed":
		r.both(r.front, r.rear(), r.wall(), y, low-2, low+4, r.paint)
	}
	// Where no pair of pieces stays whole there is none.
	reach, end, next := r.wheelsReach()+1, r.rear()-4, 0.0
	if r.space == "deck" {
		end = r.rear() - 50 // a tail may slope away
	}
	for x := r.front + 8; x+20 < end; x += 4 {
		if x < next {
			continue
		}
		atWheels := x+20 > r.center-reach && x < r.center+reach
		if atWheels && (r.between && low < r.tire+4 || r.kind.Name == "lowboy") || r.atBunk(x, x+20) {
			continue
		}
		r.both(x, x+10, y-0.2, y+0.6, low, low+2, r.tapeRed())
		r.both(x+10, x+20, y-0.2, y+0.6, low, low+2, white)
		next = x + 40
	}
}

// tapeRed is the tape's red, darker where the paint is red too.
func (r *rig) tapeRed() paint {
	if r.paint[0] > 0.6 && r.paint[1] < 0.3 {
		return paint{0.42, 0.01, 0.05}
	}
	return red
}

// atBunk says that a crossbar or a stake is next to a place on the frame, so that it hides it
// from the front or the rear.
func (r *rig) atBunk(from, to float64) bool {
	n := max(r.u.Bunks.Count.Value, 2)
	for i := range n {
		x := r.front + float64((r.long-6)*float64(i)/float64(n-1))
		if r.space == "bunks" && to > x-14 && from < x+20 {
			return true
		}
	}
	return false
}

// wheelsReach is how far the wheels of all axles go from their center, to the front and to the rear.
func (r *rig) wheelsReach() float64 {
	return float64(r.spacing*float64(r.axles-1))/2 + r.tire/2 + 2
}

// wall is how far the outside of the body is from the trailer's middle, or 0 where nothing next
// to the wheels can touch them.
func (r *rig) wall() float64 {
	switch r.space {
	case "bed":
		return r.half() + 2
	case "box":
		return r.half() + 1.5
	case "deck":
		return r.half()
	}
	return 0
}

// frame is how far each of the two beams that carry the trailer is from its middle.
func (r *rig) frame() float64 {
	switch r.space {
	case "bunks":
		return 14
	case "bin":
		return 18
	case "chassis":
		if r.kind.Name == "container-chassis" {
			return 18
		}
		return 20
	case "bed":
		return 16.5
	case "tank", "hull":
		return r.narrow()
	}
	if r.kind.OverWheels || r.overTheTruck {
		return 18
	}
	return r.half() * 0.6
}

// underFrame is the height of the underside of these beams.
func (r *rig) underFrame() float64 {
	switch r.space {
	case "bunks":
		return r.floor - 12
	case "hull":
		return max(r.floor-10, 16) - 8
	case "chassis":
		if r.kind.Name == "container-chassis" {
			return r.floor - 11
		}
		return r.floor - 8
	case "bed":
		return r.floor - 9
	case "tank", "bin":
		return r.floor - 8
	case "box":
		return r.floor - 5
	}
	if r.kind.OverWheels || r.overTheTruck {
		return r.floor - 16
	}
	return r.floor - 6
}

// narrow is half the width of the frame under a tank or a hull.
func (r *rig) narrow() float64 {
	if r.space == "hull" {
		return min(r.half()*0.6, 30)
	}
	return r.half() * 0.6
}
