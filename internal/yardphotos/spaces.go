package main

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// deck adds a deck of planks with its rails, tail, ramps and sides.
func (r *rig) deck() {
	d, h := r.u.Deck, r.floor
	tail, end := 0.0, h
	if k := d.TailKind.Value; k == "fixed dovetail" || k == "hydraulic dovetail" {
		tail = or(d.Tail, 24)
	}
	if d.TailKind.Value == "fixed dovetail" {
		end = or(d.TailEnd, h-9)
	}
	hinge := r.rear() - tail
	slope := func(x float64) float64 {
		if x <= hinge || tail == 0 {
			return h
		}
		return h - float64((x-hinge)/tail*(h-end))
	}
	if r.kind.Name == "lowboy" {
		r.lowboy()
		return
	}
	r.planks(hinge, slope)
	y := r.half()
	for _, part := range [][2]float64{{r.front, hinge}, {hinge, r.rear()}} {
		if part[1] <= part[0] {
			continue
		}
		a, b := slope(part[0]), slope(part[1])
		rail := []vec{{part[0], 0, a - 6}, {part[1], 0, b - 5}, {part[1], 0, b + 1.5}, {part[0], 0, a + 1.5}}
		r.prism(rail, y-2, y, r.paint)
		r.prism(rail, -y, 2-y, r.paint)
	}
	r.box(r.front, r.front+2.5, -y, y, h-6, h+1.5, r.paint)
	r.box(r.rear()-2.5, r.rear(), -y, y, end-6, end+1, r.paint)
	if r.kind.OverWheels || r.overTheTruck {
		r.both(r.front, hinge-10, 16, 20, h-16, h-5, r.paint.times(0.9))
	}
	if d.TailKind.Value == "tilt" {
		cut := r.rear() - or(d.Tail, r.long)
		r.both(cut-1, cut+1, y-2, y+0.4, h-6.5, h+2, dark)
		r.bars(vec{r.center - 20, 10, h - 10}, vec{r.center + 30, 10, h - 5}, 4, steel)
	}
	r.sides()
	r.ramps(end)
	r.carries()
}

// planks adds the floor, with every other plank a little darker.
func (r *rig) planks(hinge float64, slope func(float64) float64) {
	tint := wood
	switch floor := r.u.Frame.Floor.Value; {
	case strings.Contains(floor, "plywood"):
		tint = paint{0.80, 0.68, 0.50}
	case strings.Contains(floor, "steel"):
		tint = paint{0.44, 0.45, 0.46}
	case r.u.Frame.Material.Value == "aluminum":
		tint = paint{0.74, 0.76, 0.78}
	}
	y := r.half() - 2
	n := math.Ceil(2 * y / 7.5)
	for i := range int(n) {
		a, b := float64(2*y*float64(i)/n)-y, float64(2*y*float64(i+1)/n)-y
		t := tint.times([]float64{1, 0.9}[i%2])
		r.quad(vec{r.front, a, slope(r.front)}, vec{hinge, a, slope(hinge)}, vec{hinge, b, slope(hinge)}, vec{r.front, b, slope(r.front)}, t)
		r.quad(vec{hinge, a, slope(hinge)}, vec{r.rear(), a, slope(r.rear())}, vec{r.rear(), b, slope(r.rear())}, vec{hinge, b, slope(hinge)}, t.times(0.92))
	}
}

// sides adds the rails or the mesh around an open deck.
func (r *rig) sides() {
	if !r.u.Sides.Kind.Given() {
		return
	}
	top, y := r.floor+or(r.u.Sides.Height, 14), r.half()-1.5
	r.bars(vec{r.front, y, top}, vec{r.rear(), y, top}, 2, r.paint)
	r.bar(vec{r.front + 1, -y, top}, vec{r.front + 1, y, top}, 2, r.paint)
	posts := math.Ceil(r.long / 40)
	for i := range int(posts) + 1 {
		x := r.front + 1 + float64((r.long-2)*float64(i)/posts)
		r.bars(vec{x, y, r.floor}, vec{x, y, top}, 2, r.paint)
	}
	if r.u.Sides.Kind.Value == "solid" {
		r.both(r.front, r.rear(), y-0.5, y+0.5, r.floor, top, r.paint)
	}
	if k := r.u.Sides.Kind.Value; k == "expanded metal" || k == "wire mesh" {
		r.mesh(y, top)
	}
}

// mesh adds crossing wires along both sides.
func (r *rig) mesh(y, top float64) {
	step := 6.0
	for x := r.front; x+step <= r.rear(); x += step {
		r.bars(vec{x, y, r.floor}, vec{x + step, y, top}, 0.5, r.paint)
		r.bars(vec{x + step, y, r.floor}, vec{x, y, top}, 0.5, r.paint)
	}
}

// ramps adds what stands or lies at the rear. Slide-in ramps are out of sight, except for
// their ends.
func (r *rig) ramps(end float64) {
	long, wide, at, y := or(r.u.Ramps.Length, 60), or(r.u.Ramps.Width, 18), r.rear()-1, r.half()
	switch r.u.Ramps.Kind.Value {
	case "stand-up":
		for _, side := range []float64{-1, 1} {
			out := side * (y - 4)
			in := out - side*wide
			r.bar(vec{at, out, end}, vec{at + 6, out, end + long}, 2.5, r.paint)
			r.bar(vec{at, in, end}, vec{at + 6, in, end + long}, 2.5, r.paint)
			for z := 6.0; z < long; z += 9 {
				x := at + float64(6*z/long)
				r.bar(vec{x, in, end + z}, vec{x, out, end + z}, 2, r.paint)
			}
		}
	case "gate":
		r.bars(vec{at, y - 2, end}, vec{at, y - 2, end + long}, 2, r.paint)
		for i := range 9 {
			h := end + float64(long*float64(i)/8)
			r.bar(vec{at, 2 - y, h}, vec{at, y - 2, h}, []float64{2, 0.7}[i%8&1], r.paint)
		}
		for i := 1.0; i < 12; i++ {
			r.bar(vec{at, y - 2 - float64((2*y-4)*i/12), end}, vec{at, y - 2 - float64((2*y-4)*i/12), end + long}, 0.7, r.paint)
		}
	case "fold-over":
		r.flipped(long, wide, end)
	case "slide-in":
		r.both(at-2, at+2, 8, 8+wide, end-5, end-2, steel)
	}
}

// flipped adds ramps that are folded over: from their hinge at the rear they lie on the end of
// the deck, each a frame of two channels with rungs between them, and a foot where the tail
// slopes away under them.
func (r *rig) flipped(long, wide, end float64) {
	h, hinge := r.floor, r.rear()-or(r.u.Deck.Tail, 0)
	at := r.rear() - 2
	// The line from the hinge over the highest point of the tail.
	rise := (h + 0.6 - end) / (at - hinge)
	if at-hinge < 1 {
		rise = 0
	}
	z := func(x float64) float64 { return end + 0.8 + float64((at-x)*rise) }
	tip := at - long
	low, high := z(tip), z(tip)+3.4
	if low < h+3 {
		low, high = h-0.2, h+1.6 // the thin end lies on the deck
	}
	r.bar(vec{at, 6 - r.half(), end + 2}, vec{at, r.half() - 6, end + 2}, 2.4, steel)
	for _, side := range []float64{-1, 1} {
		out := side * (r.half() - 5)
		for _, y := range []float64{out, out - side*wide} {
			r.prism([]vec{{tip, 0, low}, {at, 0, z(at)}, {at, 0, z(at) + 3.4}, {tip + 12, 0, z(tip+12) + 3.4}, {tip, 0, high}}, y-1, y+1, r.paint)
			if low > h {
				r.box(tip, tip+2, y-1, y+1, h, low+1, r.paint)
			}
		}
		for x := tip + 10; x < at-2; x += 8 {
			r.bar(vec{x, out - side*wide, z(x) + 2.4}, vec{x, out, z(x) + 2.4}, 2, r.paint.times(1.15))
		}
	}
}

// carries adds what tells a kind with a deck from the others.
func (r *rig) carries() {
	h, y := r.floor, r.half()
	switch r.kind.Name {
	case "motorcycle":
		for _, at := range []float64{-y * 0.62, 0, y * 0.62} {
			for _, edge := range []float64{-4, 4} {
				r.box(r.front+8, r.rear()-2, at+edge-0.5, at+edge+0.5, h, h+2, steel)
			}
			r.box(r.front+6, r.front+30, at-4, at-2.5, h, h+18, steel)
			r.box(r.front+6, r.front+30, at+2.5, at+4, h, h+18, steel)
			r.bar(vec{r.front + 8, at - 3, h + 18}, vec{r.front + 8, at + 3, h + 18}, 2, steel)
		}
	case "landscape":
		r.box(r.front+2, r.front+26, -y+3, y-3, h, h+30, paint{0.82, 0.84, 0.86})
		for i := range 3 {
			x := r.front + 50 + float64(i)*20
			r.bar(vec{x, y - 4, h}, vec{x, y - 4, h + 50}, 1.5, amber)
		}
	case "atv-snowmobile":
		r.prism([]vec{{r.front, 0, h}, {r.front + 3, 0, h}, {r.front - 4, 0, h + 26}, {r.front - 7, 0, h + 26}}, -y, y, white)
		for _, at := range []float64{-y * 0.72, -y * 0.28, y * 0.28, y * 0.72} {
			r.box(r.front+6, r.rear()-4, at-2, at+2, h, h+0.6, dark)
		}
		// A bar over the skis of the sled that is not there, and an ATV on the right.
		r.box(r.front+34, r.front+37, 4, y-4, h+7, h+9, steel)
		for _, at := range []float64{4, y - 6} {
			r.box(r.front+34, r.front+37, at, at+2, h, h+8, steel)
		}
		r.atv(r.front+34, -y/2, h)
		// A strap from each corner of its racks down to the deck.
		for _, at := range [][2]float64{{46, 22}, {94, 118}} {
			for _, side := range []float64{-1, 1} {
				a, b := vec{r.front + at[0], -y/2 + side*15, h + 34}, vec{r.front + min(at[1], r.long-5), -y/2 + side*19, h + 0.5}
				r.bar(a, b, 1.5, amber)
				r.box(b.x-2, b.x+2, b.y-2, b.y+2, h, h+1.2, steel)
			}
		}
	}
}

// atv adds an ATV that begins at x, with its middle at y, on a floor at z.
func (r *rig) atv(x, y, z float64) {
	body, seat := paint{0.72, 0.13, 0.11}, dark
	for _, at := range []float64{x + 12, x + 60} {
		for _, side := range []float64{-1, 1} {
			r.disk(at, z+12, 12, y+side*12, y+side*22, rubber)
			r.disk(at, z+12, 6, y+side*13, y+side*22.4, steel)
			r.box(at-12, at+12, y+min(side*9, side*22), y+max(side*9, side*22), z+25, z+27, body)
		}
		r.box(at-12, at+12, y-16, y+16, z+33, z+34.5, dark)
	}
	r.box(x+6, x+66, y-8, y+8, z+10, z+26, body.times(0.8))
	r.box(x+2, x+22, y-9, y+9, z+24, z+33, body)
	r.box(x+28, x+60, y-6, y+6, z+26, z+34, seat)
	r.bar(vec{x + 22, y, z + 30}, vec{x + 27, y, z + 43}, 3, dark)
	r.bar(vec{x + 27, y - 15, z + 43}, vec{x + 27, y + 15, z + 43}, 2, dark)
}

// lowboy adds the well, the slope after it and the rear deck over the wheels.
func (r *rig) lowboy() {
	h, y, over := r.floor, r.half(), r.tire+5
	well := r.front + or(r.u.Deck.Well, r.long*0.65)
	up := min(well+24, r.rear()-12)
	height := func(x float64) float64 {
		return h + float64((over-h)*max(0, min(1, (x-well)/(up-well))))
	}
	for _, part := range [][2]float64{{r.front, well}, {well, up}, {up, r.rear()}} {
		a, b := height(part[0]), height(part[1])
		r.quad(vec{part[0], 2 - y, a}, vec{part[1], 2 - y, b}, vec{part[1], y - 2, b}, vec{part[0], y - 2, a}, wood)
		thick := 10.0
		if part[0] >= up {
			thick = 4
		}
		rail := []vec{{part[0], 0, a - 10}, {part[1], 0, b - thick}, {part[1], 0, b + 1.5}, {part[0], 0, a + 1.5}}
		if part[0] >= up {
			rail[0].z = a - thick
		}
		r.prism(rail, y-2, y, r.paint)
		r.prism(rail, -y, 2-y, r.paint)
	}
	r.box(r.rear()-3, r.rear(), -y, y, over-6, over+1.5, r.paint)
	r.both(up, r.rear(), 14, 20, r.tire*0.5, over-1, r.paint.times(0.8))
	// The foot of the neck, which comes off in front of the well.
	r.prism([]vec{{r.front - 12, 0, h - 10}, {r.front, 0, h - 10}, {r.front, 0, h + 6}, {r.front - 12, 0, h + 22}}, -y, y, r.paint)
	r.box(r.front-1.2, r.front+0.4, -y-0.3, y+0.3, h-10, h+2, dark)
}

// bed adds the sides of a dump bed, its gate and its hoist, or a hopper's.
func (r *rig) bed() {
	h, y, end := r.floor, r.half()+2, r.rear()
	top := h + or(r.u.Bed.Height, 24)
	r.both(r.front, end, y-2, y, h, top, r.paint)
	r.box(r.front, r.front+2, -y, y, h, top+4, r.paint)
	r.box(r.front, end, -y+2, y-2, h-1, h+1, r.paint.times(0.75))
	r.both(r.front, end, y-2.5, y+1.5, top-3, top, r.paint.times(1.12))
	for n, i := math.Ceil(r.long/28), 0.0; i <= n; i++ {
		x := r.front + float64((r.long-3)*i/n)
		r.both(x, x+3, y, y+2, h, top, r.paint.times(1.12))
	}
	if r.overTheTruck {
		beam := r.neckBeam()
		r.both(r.front-2, end-6, beam-3, beam+3, h-12, h, r.paint)
	} else {
		r.both(r.front-6, end-6, 14, 19, h-9, h-2, dark)
	}
	if r.kind.Name == "hopper" {
		// The traps are in front of the wheels.
		n := max(r.u.Bed.Traps.Value, 1)
		from := r.center - float64(r.spacing*float64(r.axles-1))/2 - r.tire/2 - 4
		wide := min(72, (from-r.front)/float64(n))
		for i := range n {
			at := from - wide/2 - float64(wide*float64(i))
			r.prism([]vec{{at - wide/2, 0, h}, {at + wide/2, 0, h}, {at + wide/8, 0, 20}, {at - wide/8, 0, 20}}, -y+12, y-12, r.paint)
			r.box(at-wide/8-1, at+wide/8+1, -y+14, y-14, 17, 20, steel)
			r.bar(vec{at + 4, y - 14, 19}, vec{at + 4, y + 2, 19}, 1.5, steel)
		}
		r.box(end-2, end, -y, y, h, top, r.paint)
		return
	}
	// The hoist: a cylinder and its arms between frame and bed.
	r.bar(vec{r.front + r.long*0.25, 0, h - 12}, vec{r.front + r.long*0.5, 0, h - 3}, 5, steel)
	r.box(r.front-26, r.front-10, -10, 10, h-6, h+8, dark)
	gap := 0.4
	for _, side := range []float64{-1, 1} {
		r.box(end-1, end+1, side*gap, side*(y-0.5), h+1, top, r.paint.times(1.05))
		r.box(end+1, end+2, side*(gap+1), side*(gap+3), h, top, steel)
		r.box(end+0.5, end+1.8, side*4, side*(y-4), (h+top)/2-1.5, (h+top)/2+1.5, r.paint.times(1.2))
	}
}

// boxed adds a box with its nose, doors, vents or slats.
func (r *rig) boxed() {
	h, y, end := r.floor, r.half()+1.5, r.rear()
	top := h + or(r.u.Box.Height, 78) + 3
	nose := 0.0
	if r.u.Box.Nose.Value == "V-nose" {
		nose = or(r.u.Box.NoseLength, 24)
	}
	outline := []vec{{r.front, y, 0}, {r.front - nose, y * 0.12, 0}, {r.front - nose, -y * 0.12, 0}, {r.front, -y, 0}, {end, -y, 0}, {end, y, 0}}
	r.upright(outline, h-5, h, dark)
	if lean := r.lean(); lean > 0 {
		r.leaning(h, y, top, lean)
		r.doors(h, y, top)
		return
	}
	r.upright(outline, top, top+1, white)
	if r.kind.Name == "livestock" {
		r.slats(h, y, top)
		return
	}
	r.upright(outline, h, top, r.paint)
	r.both(r.front, end, y, y+0.4, h, h+4, steel)
	r.both(r.front, end, y, y+0.4, top-3, top, steel)
	r.upright([]vec{{r.front - nose - 0.5, y*0.12 + 0.5, 0}, {r.front - nose - 0.5, -y*0.12 - 0.5, 0}, {r.front - nose/2, -y * 0.56, 0}, {r.front - nose/2, y * 0.56, 0}}, h, h+24, steel)
	r.doors(h, y, top)
	for i := range r.u.Box.Vents.Value {
		x := r.front + float64(r.long*(float64(i)+1)/float64(r.u.Box.Vents.Value+1))
		r.box(x-7, x+7, -7, 7, top+1, top+5, white)
	}
}

// lean is how far back the top of a rounded or slanted nose leans.
func (r *rig) lean() float64 {
	switch r.u.Box.Nose.Value {
	case "rounded":
		return 16
	case "slanted":
		return 26
	}
	return 0
}

// leaning adds the walls and the roof of a box whose front leans back.
func (r *rig) leaning(h, y, top, lean float64) {
	end := r.rear()
	profile := []vec{{r.front, 0, h}, {end, 0, h}, {end, 0, top}, {r.front + lean, 0, top}, {r.front + lean*0.25, 0, top - lean*0.7}, {r.front, 0, top - lean*1.9}}
	r.prism(profile, -y, y, r.paint)
	r.both(r.front, end, y, y+0.4, h, h+4, steel)
	r.box(r.front+lean, end, -y, y, top, top+0.8, white)
	if r.kind.Name == "camper" {
		r.bottles()
		r.prism([]vec{{r.front + lean*0.2, 0, top - lean*0.85}, {r.front - 0.3, 0, top - lean*1.8}, {r.front - 0.8, 0, top - lean*1.8}, {r.front + lean*0.2 - 0.6, 0, top - lean*0.8}}, -y+14, y-14, paint{0.24, 0.30, 0.36})
	}
}

// bottles adds the two propane bottles and the battery on the tray over a camper's tongue.
func (r *rig) bottles() {
	z, x := 22.5, r.front-12
	r.box(x-8, x+8, -15, 22, z-1, z, dark)
	for _, y := range []float64{-8, 5} {
		r.post(x, y, z, z+17, 6, white)
		r.post(x, y, z+17, z+19, 4.6, white)
		r.post(x, y, z+19, z+22, 3.2, steel)
	}
	r.box(x-1, x+1, -2.5, -0.5, z, z+20, steel)
	r.box(x-5, x+5, 13, 21, z, z+9, black)
	r.box(x-5.4, x+5.4, 12.6, 21.4, z+9, z+10.5, dark)
}

// doors adds the side door, the rear doors and the openings of a concession trailer or camper.
func (r *rig) doors(h, y, top float64) {
	end, line := r.rear(), r.paint.times(0.62)
	if side := r.u.Box.Side.Value; side == "right" || side == "left" || side == "both" {
		at := r.front + or(r.u.Box.SideAt, 24)
		wide, tall := or(r.u.Box.SideWidth, 32), or(r.u.Box.SideHeight, top-h-8)
		for _, s := range []float64{-1, 1} {
			if side == "both" || (side == "left") == (s > 0) {
				r.box(at-1, at+wide+1, s*y, s*(y+0.3), h+1, h+3+tall, line)
				r.box(at, at+wide, s*(y+0.3), s*(y+0.8), h+2, h+2+tall, r.paint.times(1.04))
				r.box(at+wide-5, at+wide-3, s*(y+0.8), s*(y+2), h+tall*0.42, h+tall*0.55, dark)
			}
		}
	}
	r.openings(h, y, top)
	if strings.Contains(r.u.Box.Door.Value, "none at the rear") {
		return
	}
	r.box(end, end+0.4, -y+3, y-3, h+1, top-4, line)
	r.box(end+0.4, end+1, -y+4, y-4, h+2, top-5, r.paint.times(1.04))
	if r.u.Ramps.Kind.Value != "ramp door" {
		r.box(end+1, end+1.3, -0.6, 0.6, h+2, top-5, line)
		r.both(end+1, end+2.2, 3, 4.4, h+6, top-10, steel)
	} else {
		r.both(end+1, end+2.4, y-9, y-7, h+20, h+44, steel)
	}
}

// openings adds the serving window of a concession trailer or the windows of a camper.
func (r *rig) openings(h, y, top float64) {
	switch r.kind.Name {
	case "concession":
		// Customers stand on the curb, the right side in the direction of travel (common practice,
		// no source).
		r.box(r.center-36, r.center+30, -y-0.6, -y, h+40, h+72, dark)
		from := len(r.faces)
		r.window(r.center-36, r.center+30, y, h)
		r.flip(from)
	case "camper":
		glass := paint{0.24, 0.30, 0.36}
		r.both(r.center-50, r.center-14, y, y+0.7, h+40, h+62, glass)
		r.both(r.center+24, r.center+56, y, y+0.7, h+40, h+62, glass)
		r.both(r.front, r.rear(), y, y+0.5, h+26, h+32, paint{0.16, 0.36, 0.52})
		r.box(r.center-12, r.center+14, -13, 13, top+0.8, top+10, white)
		r.box(r.rear(), r.rear()+0.6, -y+16, y-16, h+40, h+62, glass)
	}
}

// window adds what a serving window has: a frame, a counter inside, a shelf outside, and the
// flap that is the awning, on its hinge along the window's head and two struts.
func (r *rig) window(a, b, y, h float64) {
	head, out, up := h+72.0, y+32, h+80.0
	r.box(a-2, b+2, y, y+1, head, head+2, steel)
	r.box(a-2, a, y, y+1, h+39, head, steel)
	r.box(b, b+2, y, y+1, h+39, head, steel)
	r.box(a+2, b-2, y+0.6, y+0.9, h+40, h+50, paint{0.45, 0.46, 0.47})
	r.box(a+8, a+26, y+0.9, y+1.1, h+50, h+62, steel.times(0.8))
	r.box(a, b, y, y+12, h+37, h+39, steel)
	for _, x := range []float64{a + 6, b - 6} {
		r.bar(vec{x, y + 0.5, h + 30}, vec{x, y + 11, h + 37}, 1.2, steel)
	}
	under := func(d float64) []vec {
		return []vec{{a, y, head + 2 + d}, {b, y, head + 2 + d}, {b, out, up + d}, {a, out, up + d}}
	}
	low, top := under(0), under(1.6)
	r.quad(low[0], low[1], low[2], low[3], r.paint.times(0.9))
	r.quad(top[0], top[1], top[2], top[3], r.paint)
	for i := range 4 {
		k := (i + 1) % 4
		r.quad(low[i], low[k], top[k], top[i], r.paint.times(1.1))
	}
	for _, x := range []float64{a + 1, b - 1} {
		r.bar(vec{x, y + 1, h + 46}, vec{x, out - 6, up - 1}, 1.3, zinc)
	}
}

// slats adds the solid lower walls and the open slats of a livestock trailer.
func (r *rig) slats(h, y, top float64) {
	end := r.rear()
	solid := h + float64((top-h)*0.45)
	low := r.paint
	if _, below, ok := strings.Cut(r.u.Color.Value, " over "); ok {
		low = paintOf(below)
	}
	r.both(r.front, end, y-1, y, h, solid, low)
	r.box(r.front, r.front+1, -y, y, h, solid, low)
	r.box(r.front, r.front+1, -y, y, solid, solid+12, r.paint)
	r.box(r.front, r.front+1, -y, y, top-10, top, r.paint)
	for i := range 3 {
		z := solid + 5 + float64((top-solid-6)*float64(i)/3)
		r.both(r.front, end, y-1, y, z, z+5, r.paint)
		r.box(end-1, end, -y, y, z, z+5, r.paint)
	}
	r.both(r.front, end, y-1, y, top-4, top, r.paint)
	r.box(end-1, end, -y, y, h, solid, low)
	r.box(end, end+1, -1, 1, h, top, dark)
	for n, i := math.Ceil(r.long/36), 0.0; i <= n; i++ {
		x := r.front + float64((r.long-2)*i/n)
		r.both(x-0.3, x+2.3, y-1.5, y+1, h, top, r.paint.times(0.85)) // no face in that of a wall
	}
	if r.u.Gate.Center.Value > 0 {
		r.box(r.front+r.long/2, r.front+r.long/2+2, -y+2, y-2, h+6, h+60, steel)
	}
}

// frame adds a bare frame of two beams with crossmembers.
func (r *rig) bareFrame(y, z float64) {
	r.both(r.front, r.rear(), y-2.5, y+2.5, z-8, z, r.paint)
	for _, x := range r.crossMembers() {
		r.box(x, x+4, -y, y, z-7, z-1, r.paint)
	}
}

// crossMembers are where the crossmembers of a bare frame begin.
func (r *rig) crossMembers() []float64 {
	var at []float64
	for n, i := math.Ceil(r.long/48), 0.0; i <= n; i++ {
		at = append(at, r.front+float64((r.long-4)*i/n))
	}
	return at
}

// tank adds a lying tank on a frame with its manhole, saddles and hose.
func (r *rig) tank() {
	tall := or(r.u.Tank.Height, 48)
	r.bareFrame(r.half()*0.6, r.floor)
	tint := r.paint
	if r.u.Tank.Made.Value == "polyethylene" {
		tint = paint{0.92, 0.92, 0.86}
	}
	mid := r.floor + tall/2
	r.tube(r.front+4, r.rear()-4, 0, mid, r.half()*0.94, tall/2, tint)
	for _, end := range [][2]float64{{r.front + 4, -1}, {r.rear() - 4, 1}} {
		r.dome(end[0], end[1]*6, mid, r.half()*0.94, tall/2, tint)
	}
	for i := range 4 {
		x := r.front + float64(r.long*(float64(i)+0.6)/4.2)
		r.tube(x-1.5, x+1.5, 0, mid, r.half()*0.96, tall/2+0.8, r.paint)
		r.box(x-2, x+2, -r.half()*0.8, r.half()*0.8, r.floor-1, r.floor+tall*0.2, r.paint)
	}
	// A low manhole with its lid, and a vent next to it.
	r.post(r.center, 0, r.floor+tall-2, r.floor+tall+2, 8, tint.times(0.92))
	r.post(r.center, 0, r.floor+tall+2, r.floor+tall+3.2, 9, dark)
	r.post(r.center+16, 0, r.floor+tall-2, r.floor+tall+3, 1.6, steel)
	r.pump(r.rear(), r.floor, r.frame())
}

// dome adds the round end of a tank: a quarter of an ellipse that far out of the end at x.
func (r *rig) dome(x, out, mid, wide, tall float64, tint paint) {
	const steps = 5
	for i := range steps {
		sin0, cos0 := math.Sincos(float64(i) * math.Pi / 2 / steps)
		sin1, cos1 := math.Sincos(float64(i+1) * math.Pi / 2 / steps)
		r.cone(x+float64(out*sin0), x+float64(out*sin1), 0, mid, wide*cos0, tall*cos0, max(cos1, 0.01)/cos0, tint)
	}
}

// pump adds the frame's end behind a tank at x with the pump, its motor and the hose reel, the
// pipe from the tank to the pump, and the hose from the pump to the reel.
func (r *rig) pump(x, z, y float64) {
	r.both(x-2, x+20, y-2.5, y+2.5, z-8, z-3, r.paint)
	r.box(x+17, x+20, -y-2.5, y+2.5, z-8, z-3, r.paint)
	r.box(x-2, x+18, -y, y, z-4.5, z-3, steel)
	r.box(x+5, x+17, -12, 2, z-3, z+8, dark)
	r.box(x+7, x+15, -10, 0, z+8, z+12, red)
	r.both(x+9, x+11, 8, 9.6, z-3, z+9, steel)
	r.box(x+9, x+11, 19, 20.4, z-3, z+9, steel)
	r.disk(x+10, z+9, 8, 10, 18, paint{0.24, 0.24, 0.26})
	r.disk(x+10, z+9, 11, 9, 10, steel)
	r.disk(x+10, z+9, 11, 18, 19, steel)
	r.bar(vec{x - 5, -5, z + 3}, vec{x + 6, -5, z + 3}, 3, steel)
	// The hose goes under the reel's rim and comes up to its hub on the outside.
	hose := []vec{{x + 16, -1, z + 3}, {x + 19.5, 0, z + 2.5}, {x + 20.5, 4, z + 0.5}, {x + 20.5, 16, z - 1.5}, {x + 20, 21, z - 0.5}, {x + 16, 23, z + 3.5}, {x + 12, 22.5, z + 7.5}, {x + 10, 19, z + 9}}
	for i, a := range hose[:len(hose)-1] {
		r.bar(a, hose[i+1], 2, rubber)
	}
}

// hull adds the frame, the bunks and the winch stand of a boat or watercraft trailer.
func (r *rig) hull() {
	places, y, top := max(r.u.Hull.Places.Value, 1), r.narrow(), max(r.floor-10, 16)
	r.bareFrame(y, top)
	pairs := max(r.u.Hull.Bunks.Value/2/places, 1)
	for p := range places {
		mid := float64(p)*40 - float64(places-1)*20
		for i := range pairs {
			// The outer ones of a boat are higher, as the hull is.
			r.bunk(mid, 11+float64(i)*13, float64(i)*3, top)
		}
		// A beam across the frame carries the winch post.
		r.box(r.front+6, r.front+14, -y, y, top-6, top, r.paint)
		r.box(r.front+5, r.front+15, mid-4, mid+4, top, top+1.2, r.paint.times(0.9))
		r.bar(vec{r.front + 10, mid, top}, vec{r.front, mid, r.floor + 24}, 4, r.paint)
		r.box(r.front-1, r.front+5, mid-5, mid+5, r.floor+20, r.floor+26, dark)
		r.disk(r.front-3, r.floor+20, 4, mid-3, mid+3, steel)
	}
	// A bar across the rear holds the guide posts.
	r.bars(vec{r.rear() - 2, r.outer - 6, max(r.floor-14, 13)}, vec{r.rear() - 2, r.outer - 6, r.floor + 40}, 1.8, white)
	if r.kind.Name == "watercraft" {
		return
	}
	// A keel roller on each cross member ahead of the bunks, between two ears.
	for _, x := range r.crossMembers()[1:] {
		if x+8 > r.rear()-r.bunkLong() {
			break
		}
		r.both(x+0.5, x+3.5, 4.6, 5.6, top-1.5, top+4, steel)
		r.disk(x+2, top+2.4, 3, -4, 4, dark)
	}
}

// bunkLong is the length of a bunk.
func (r *rig) bunkLong() float64 { return or(r.u.Hull.Bunk, r.long*0.55) }

// bunk adds two bunks that far to each side of a hull's middle and up, with the beams across the
// frame and the posts that carry them.
func (r *rig) bunk(mid, off, up, top float64) {
	from, out := r.rear()-r.bunkLong(), math.Abs(mid)+off
	for _, at := range []float64{mid - off, mid + off} {
		r.box(from, r.rear(), at-2.5, at+2.5, r.floor-2+up, r.floor+2+up, paint{0.16, 0.24, 0.42})
		for _, x := range []float64{from + 8, r.rear() - 8} {
			r.box(x-1.2, x+1.2, at-1.2, at+1.2, top-1, r.floor-1+up, r.paint)
		}
	}
	for _, x := range []float64{from + 8, r.rear() - 8} {
		r.box(x-2, x+2, -max(out+1.5, r.narrow()), max(out+1.5, r.narrow()), top-4, top, r.paint)
	}
}

// bin adds the rails, the hook or cable arm, and a bin on them.
func (r *rig) bin() {
	z, y := r.floor, r.half()
	r.bareFrame(18, z)
	top, rust := z+52, paint{0.23, 0.38, 0.30}
	from, to := r.front+8, r.rear()-4
	for _, side := range []float64{-1, 1} {
		r.prism([]vec{{from, 0, z + 5}, {to, 0, z + 5}, {to, 0, top}, {from, 0, top}}, side*(y-2), side*y, rust)
		for x := from + 6; x < to; x += 24 {
			r.box(x, x+3, side*y, side*(y+2), z+5, top, rust.times(1.15))
		}
	}
	r.box(from, to, -y+2, y-2, z+4, z+6, rust.times(0.7))
	r.box(from-4, from, -y, y, z+5, top, rust)
	r.box(to-2, to, -y, y, z+5, top, rust)
	// The bar at the bin's front between two ribs, and the arm whose hook holds it.
	hook := z + 5 + or(r.u.Bin.Hook, 36)
	for _, at := range []float64{-9, 6} {
		r.box(from-9, from-4, at, at+3, hook-5, hook+5, rust.times(1.15))
	}
	r.bar(vec{from - 7, -8, hook}, vec{from - 7, 8, hook}, 2.6, zinc)
	arm := from - 18
	r.box(arm-3.5, arm+3.5, -3.5, 3.5, z-6, hook+4, r.paint)
	r.box(arm-3.5, from-4, -3, 3, hook+1.5, hook+5, r.paint)
	r.box(from-5.5, from-4.2, -2.5, 2.5, hook-3, hook+2, r.paint)
	r.box(arm-6, from, -18, 18, z-8, z-3, r.paint)
	r.box(arm, r.center, -4, 4, z-4, z+2, r.paint.times(0.85))
	r.bars(vec{arm + 8, 9, z - 4}, vec{r.center, 9, z - 4}, 4, zinc)
}

// bunks adds crossbars with stakes on a frame; a header trailer has a long rest instead.
func (r *rig) bunks() {
	z, y := r.floor, r.half()
	r.bareFrame(14, z-4)
	n := max(r.u.Bunks.Count.Value, 2)
	stake := or(r.u.Bunks.Stakes, 40)
	for i := range n {
		x := r.front + float64((r.long-6)*float64(i)/float64(n-1))
		r.box(x, x+6, -y, y, z-4, z+1, r.paint)
		if r.kind.Name == "header" {
			r.box(x, x+6, -y, -y+5, z, z+16, r.paint)
			r.box(x, x+6, y-14, y-10, z, z+24, r.paint)
			continue
		}
		r.both(x+1, x+5, y-3, y+1, z, z+stake, r.paint)
	}
	switch r.kind.Name {
	case "log":
		logs := [][2]float64{{-27, 9}, {-9, 9}, {9, 9}, {27, 9}, {-18, 25}, {0, 25}, {18, 25}}
		for i, c := range logs {
			from, to, tint := r.front-10+float64(i*3), r.rear()+16-float64(i*4), paint{0.46, 0.33, 0.22}.times(1+float64(i%3)*0.1)
			r.tube(from, to, c[0], z+c[1], 8.6, 8.6, tint)
			r.tube(from-0.2, to+0.2, c[0], z+c[1], 7.4, 7.4, paint{0.74, 0.58, 0.40})
		}
		r.tieDowns(logs, 8.6, n, true)
	case "pipe":
		var pipes [][2]float64
		for i := range 6 {
			at := float64(i)*12 - 30
			pipes = append(pipes, [2]float64{at, 7})
			r.tube(r.front-6, r.rear()+12, at, z+7, 5.6, 5.6, steel.times([]float64{1, 0.86}[i%2]))
			r.tube(r.front-6.2, r.rear()+12.2, at, z+7, 4.7, 4.7, paint{0.07, 0.07, 0.08})
		}
		r.tieDowns(pipes, 5.6, n, false)
	case "header":
		r.bar(vec{r.front, y - 12, z + 24}, vec{r.rear() + 6, y - 12, z + 24}, 4, r.paint)
		r.bar(vec{r.front, 2.5 - y, z + 16}, vec{r.rear() + 6, 2.5 - y, z + 16}, 4, r.paint)
		r.header(z + 18)
	}
}

// tieDowns adds a chain with a binder, or a strap, over a round load in every bay between the
// bunks. The load is y and height above the bunks of each log or pipe.
func (r *rig) tieDowns(load [][2]float64, radius float64, bunks int, chains bool) {
	y := r.half()
	line := []vec{{0, y, r.floor - 3}}
	for _, p := range over(load, radius+0.5) {
		line = append(line, vec{0, p.y, r.floor + p.z})
	}
	line = append(line, vec{0, -y, r.floor - 3})
	bay := (r.long - 6) / float64(bunks-1)
	for k := range bunks - 1 {
		x := r.front + 3 + float64(bay*(float64(k)+0.42))
		// A rail along the frame's bays holds the ends.
		r.both(x-4, x+4, r.frame(), y, r.floor-4.5, r.floor-2.5, r.paint)
		for i, a := range line[:len(line)-1] {
			b := line[i+1]
			a.x, b.x = x, x
			if chains {
				r.chain(a, b, 0)
				continue
			}
			r.quad(vec{x - 1.5, a.y, a.z}, vec{x - 1.5, b.y, b.z}, vec{x + 1.5, b.y, b.z}, vec{x + 1.5, a.y, a.z}, amber)
		}
		if chains {
			a, b := line[0], line[1]
			r.bar(vec{x + 1.5, float64((a.y + b.y) / 2), a.z + float64((b.z-a.z)*0.2)}, vec{x + 1.5, b.y, b.z}, 1.6, red)
		} else {
			r.box(x-2, x+2, y-1, y+1.5, r.floor-5, r.floor-1, dark)
		}
	}
}

// over is the tight line from left to right over circles in y and z.
func over(circles [][2]float64, radius float64) []vec {
	var at []vec
	for _, c := range circles {
		for i := range 19 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 18)
			at = append(at, vec{0, c[0] + float64(radius*cos), c[1] + float64(radius*sin)})
		}
	}
	slices.SortFunc(at, func(a, b vec) int { return cmp.Or(cmp.Compare(b.y, a.y), cmp.Compare(a.z, b.z)) })
	var line []vec
	for _, p := range at {
		for n := len(line); n > 1; n-- {
			a, b := line[n-2], line[n-1]
			if minus((b.y-a.y)*(p.z-a.z), (b.z-a.z)*(p.y-a.y)) > 0 {
				break
			}
			line = line[:n-1]
		}
		line = append(line, p)
	}
	return line
}

// chassis adds a frame for a container with its locks, or with outriggers for a floor.
func (r *rig) chassis() {
	z, y := r.floor, r.half()
	if r.kind.Name == "container-chassis" {
		r.bareFrame(18, z-3)
		for _, x := range []float64{r.front, r.rear() - 8} {
			r.box(x, x+8, -y, y, z-8, z, r.paint)
			r.both(x+2, x+6, y-6, y-1, z, z+4, amber)
		}
		return
	}
	r.bareFrame(20, z)
	for n, i := math.Ceil(r.long/40), 0.0; i <= n; i++ {
		x := r.front + float64((r.long-3)*i/n)
		r.box(x, x+3, -y, y, z-4, z-0.5, r.paint)
	}
	r.both(r.front, r.rear(), y-2, y, z-4, z, r.paint)
}

// header adds the harvester's header that lies on a header trailer: its sheet, its auger and
// its reel.
func (r *rig) header(z float64) {
	from, to, tint := r.front-8, r.rear()+10, paint{0.72, 0.14, 0.10}
	r.prism([]vec{{from, 0, z}, {to, 0, z}, {to, 0, z + 3}, {from, 0, z + 3}}, -34, 26, tint)
	r.box(from, to, -36, -33, z, z+38, tint)
	for _, x := range []float64{from, to - 3} {
		r.box(x, x+3, -36, 30, z, z+16, tint.times(1.1))
	}
	r.tube(from+3, to-3, -20, z+13, 8, 8, steel)
	for x := from + 8; x < to-12; x += 16 {
		r.tube(x, x+2, -20, z+13, 11, 11, steel.times(0.9))
	}
	// The reel: six bats around an axle.
	ring := circle(6, z+32, 17, 17)
	for i := 0; i < 28; i += 5 {
		p := ring[i]
		r.bar(vec{from + 6, p.x, p.z}, vec{to - 6, p.x, p.z}, 2.2, amber)
		for x := from + 6; x <= to-6; x += (to - from - 12) / 4 {
			r.bar(vec{x, 6, z + 32}, vec{x, p.x, p.z}, 1.4, amber)
		}
	}
	r.tube(from+4, to-4, 6, z+32, 2.2, 2.2, steel)
	r.box(from, from+3, -34, 8, z+30, z+34, tint)
	r.box(to-3, to, -34, 8, z+30, z+34, tint)
}

// dolly adds the crossbar and the two pans: trays with raised edges, a stop in front, a ramp
// behind, and the straps for the wheels, which lie in the empty pans. The axle goes under the
// pans; a torsion arm at each end reaches up to its wheel.
func (r *rig) dolly() {
	z, strap := r.floor, paint{0.95, 0.45, 0.05}
	widest := or(r.u.Dolly.Widest, 76) / 2
	narrowest := or(r.u.Dolly.Narrow, 42) / 2
	inner, out := narrowest-3, widest+1
	floor := func(x float64) float64 { return z - float64(3*(x-r.front)/r.long) }
	under := floor(r.center+3) - 1.2
	r.box(r.front-6, r.front, -out, out, z-5, z+1, r.paint)
	r.box(r.center-3, r.center+3, -out-2, out+2, under-4, under, dark)
	r.both(r.center-3, r.center+3, out, out+2, under-4, r.tire/2+2, dark)
	r.both(r.center-2, r.center+2, out, r.outer-4, r.tire/2-2, r.tire/2+2, dark)
	r.bars(vec{r.front - 3, inner - 2.2, z - 3}, vec{r.center, inner - 2.2, under - 2}, 4, r.paint)
	// Two posts on the pan's outer edge carry each fender.
	for _, x := range []float64{r.center - r.tire*0.32, r.center + r.tire*0.32} {
		r.both(x-1.5, x+1.5, out-1.5, out+0.5, floor(x), r.tire*0.8, r.paint)
	}
	for _, side := range []float64{-1, 1} {
		a, b := min(side*inner, side*out), max(side*inner, side*out)
		r.prism([]vec{{r.front, 0, z - 1}, {r.rear(), 0, z - 4}, {r.rear(), 0, z - 3}, {r.front, 0, z}}, a, b, steel)
		r.prism([]vec{{r.rear(), 0, z - 4}, {r.rear() + 20, 0, 0}, {r.rear() + 21, 0, 0}, {r.rear(), 0, z - 3}}, a+2, b-2, steel.times(0.9))
		for _, edge := range []float64{a, b - 1.5} {
			r.prism([]vec{{r.front, 0, z - 1}, {r.rear(), 0, z - 4}, {r.rear(), 0, z + 1}, {r.front, 0, z + 4}}, edge, edge+1.5, r.paint)
		}
		// The stop that the tire rolls against.
		r.prism([]vec{{r.front, 0, z}, {r.front + 4, 0, z}, {r.front - 3, 0, z + 13}, {r.front - 7, 0, z + 13}}, a, b, r.paint)
		for _, at := range []float64{a + 5, b - 7} {
			r.strap(at, at+2.2, []vec{{r.front - 5, 0, z + 13.4}, {r.front - 2.4, 0, z + 13.2}, {r.front + 4.6, 0, z + 0.6},
				{r.front + 8, 0, floor(r.front+8) + 0.5}, {r.rear() - 5, 0, floor(r.rear()-5) + 0.5}}, strap)
			r.box(r.rear()-8, r.rear()-3, at-0.6, at+2.8, floor(r.rear()-3), floor(r.rear()-3)+2, dark)
		}
	}
}

// strap adds flat webbing from y0 to y1 along a line in x and z.
func (r *rig) strap(y0, y1 float64, line []vec, tint paint) {
	for i, a := range line[:len(line)-1] {
		b := line[i+1]
		r.quad(vec{a.x, y0, a.z}, vec{b.x, y0, b.z}, vec{b.x, y1, b.z}, vec{a.x, y1, a.z}, tint)
	}
}
