package main

import "math"

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
	if f := r.u.Frame.Material.Value; f == "aluminum" {
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
		for _, side := range []float64{-1, 1} {
			out := side * (y - 5)
			in := out - side*wide
			r.quad(vec{at, in, end + 4}, vec{at, out, end + 4}, vec{at - long, out, r.floor + 7}, vec{at - long, in, r.floor + 7}, r.paint)
			for k := 4.0; k < long; k += 8 {
				z := end + 5 + float64((r.floor+7-end-4)*k/long)
				r.bar(vec{at - k, in, z}, vec{at - k, out, z}, 2, r.paint.times(1.15))
			}
		}
	case "slide-in":
		r.both(at-2, at+2, 8, 8+wide, end-5, end-2, steel)
	}
}

// carries adds what tells a kind with a deck from the others.
func (r *rig) carries() {
	h, y := r.floor, r.half()
	switch r.kind.Name {
	case "motorcycle":
		for _, at := range []float64{-y / 2, y / 2} {
			r.both(r.front+8, r.rear(), at+2, at+3, h, h+3, steel)
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
		r.prism([]vec{{r.front, 0, h}, {r.front + 4, 0, h}, {r.front - 6, 0, h + 26}, {r.front - 9, 0, h + 26}}, -y, y, white)
	case "lowboy":
		r.both(r.front-16, r.front, y-6, y, h-4, h+14, r.paint)
		r.prism([]vec{{r.front - 20, 0, h + 6}, {r.front, 0, h - 6}, {r.front, 0, h + 10}, {r.front - 20, 0, h + 40}}, -y, y, r.paint)
	}
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
	r.both(r.front-6, end-6, 14, 19, h-9, h-2, dark)
	if r.kind.Name == "hopper" {
		r.prism([]vec{{r.center - 34, 0, h}, {r.center + 34, 0, h}, {r.center + 10, 0, 18}, {r.center - 10, 0, 18}}, -y+14, y-14, r.paint)
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
	r.box(end, end+0.4, -y+3, y-3, h+1, top-4, line)
	r.box(end+0.4, end+1, -y+4, y-4, h+2, top-5, r.paint.times(1.04))
	if r.u.Ramps.Kind.Value != "ramp door" {
		r.box(end+1, end+1.3, -0.6, 0.6, h+2, top-5, line)
		r.both(end+1, end+2.2, 3, 4.4, h+6, top-10, steel)
	} else {
		r.both(end+1, end+2.4, y-9, y-7, h+20, h+44, steel)
	}
	switch r.kind.Name {
	case "concession":
		r.box(r.center-36, r.center+30, y, y+0.6, h+40, h+72, dark)
		r.quad(vec{r.center - 36, y, h + 74}, vec{r.center + 30, y, h + 74}, vec{r.center + 30, y + 32, h + 82}, vec{r.center - 36, y + 32, h + 82}, r.paint)
		r.box(r.center-36, r.center+30, y, y+12, h+37, h+39, steel)
	case "camper":
		glass := paint{0.24, 0.30, 0.36}
		r.both(r.center-50, r.center-14, y, y+0.7, h+40, h+62, glass)
		r.both(r.center+24, r.center+56, y, y+0.7, h+40, h+62, glass)
		r.both(r.front, r.rear(), y, y+0.5, h+26, h+32, paint{0.16, 0.36, 0.52})
		r.box(r.center-12, r.center+14, -13, 13, top+1, top+10, white)
	}
}

// slats adds the solid lower walls and the open slats of a livestock trailer.
func (r *rig) slats(h, y, top float64) {
	end := r.rear()
	solid := h + float64((top-h)*0.45)
	r.both(r.front, end, y-1, y, h, solid, r.paint)
	r.box(r.front, r.front+1, -y, y, h, solid+12, r.paint)
	r.box(r.front, r.front+1, -y, y, top-10, top, r.paint)
	for i := range 3 {
		z := solid + 5 + float64((top-solid-6)*float64(i)/3)
		r.both(r.front, end, y-1, y, z, z+5, r.paint)
		r.box(end-1, end, -y, y, z, z+5, r.paint)
	}
	r.box(end-1, end, -y, y, h, solid, r.paint)
	r.box(end, end+1, -1, 1, h, top, dark)
	for n, i := math.Ceil(r.long/36), 0.0; i <= n; i++ {
		x := r.front + float64((r.long-2)*i/n)
		r.both(x, x+2, y-1.5, y+1, h, top, r.paint.times(0.85))
	}
	if r.u.Gate.Center.Value > 0 {
		r.box(r.front+r.long/2, r.front+r.long/2+2, -y+2, y-2, h+6, h+60, steel)
	}
}

// frame adds a bare frame of two beams with crossmembers.
func (r *rig) bareFrame(y, z float64) {
	r.both(r.front, r.rear(), y-2.5, y+2.5, z-8, z, r.paint)
	for n, i := math.Ceil(r.long/48), 0.0; i <= n; i++ {
		x := r.front + float64((r.long-4)*i/n)
		r.box(x, x+4, -y, y, z-7, z-1, r.paint)
	}
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
	r.tube(r.front, r.rear(), 0, mid, r.half()*0.94, tall/2, tint)
	for i := range 4 {
		x := r.front + float64(r.long*(float64(i)+0.5)/4)
		r.tube(x-1.5, x+1.5, 0, mid, r.half()*0.96, tall/2+0.8, r.paint)
		r.box(x-2, x+2, -r.half()*0.8, r.half()*0.8, r.floor-1, r.floor+tall*0.2, r.paint)
	}
	r.box(r.center-12, r.center+12, -12, 12, r.floor+tall-2, r.floor+tall+5, dark)
	r.box(r.rear(), r.rear()+20, -r.half()*0.5, r.half()*0.5, r.floor-6, r.floor-3, steel)
	r.box(r.rear()+3, r.rear()+17, -10, 10, r.floor-3, r.floor+14, red)
	r.both(r.center-30, r.center+30, r.half()-3, r.half()+6, r.tire+2, r.tire+3.5, r.paint)
}

// hull adds the frame, the bunks and the winch stand of a boat or watercraft trailer.
func (r *rig) hull() {
	z, places := r.floor-10, max(r.u.Hull.Places.Value, 1)
	y := min(r.half()*0.6, 30)
	r.bareFrame(y, max(z, 16))
	long := or(r.u.Hull.Bunk, r.long*0.55)
	carpet := paint{0.16, 0.24, 0.42}
	for p := range places {
		mid := float64(p)*44 - float64(places-1)*22
		for _, side := range []float64{-1, 1} {
			at := mid + side*14
			r.box(r.rear()-long, r.rear(), at-2.5, at+2.5, r.floor-2, r.floor+2, carpet)
			for _, x := range []float64{r.rear() - long + 8, r.rear() - 8} {
				r.box(x-1, x+1, at-1, at+1, max(z, 16)-2, r.floor, r.paint)
			}
		}
		r.bar(vec{r.front + 10, mid, max(z, 16)}, vec{r.front, mid, r.floor + 24}, 3, r.paint)
		r.box(r.front-1, r.front+5, mid-5, mid+5, r.floor+20, r.floor+26, dark)
		r.disk(r.front-3, r.floor+20, 4, mid-3, mid+3, steel)
	}
	outer := max(r.half(), 38)
	r.fenders(outer)
	r.bars(vec{r.rear() - 6, outer - 10, z}, vec{r.rear() - 6, outer - 10, r.floor + 40}, 1.8, white)
}

// bin adds the rails, the hook or cable arm, and a bin on them.
func (r *rig) bin() {
	z, y := r.floor, r.half()
	r.bareFrame(18, z)
	r.both(r.center-50, r.center+50, y-8, y, r.tire+2, r.tire+3.5, dark)
	top, rust := z+52, paint{0.23, 0.38, 0.30}
	from, to := r.front+8, r.rear()-4
	for _, side := range []float64{-1, 1} {
		r.prism([]vec{{from, 0, z + 5}, {to, 0, z + 5}, {to, 0, top}, {from - 6, 0, top}}, side*(y-2), side*y, rust)
		for x := from + 6; x < to; x += 24 {
			r.box(x, x+3, side*y, side*(y+2), z+5, top, rust.times(1.15))
		}
	}
	r.box(from, to, -y+2, y-2, z+4, z+6, rust.times(0.7))
	r.box(from-4, from, -y, y, z+5, top, rust)
	r.box(to-2, to, -y, y, z+5, top, rust)
	r.bar(vec{r.front - 14, 0, z}, vec{r.front - 14, 0, z + 44}, 7, r.paint)
	r.bar(vec{r.front - 14, 0, z + 44}, vec{r.front + 2, 0, z + 40}, 4, steel)
	r.bars(vec{r.front - 20, 6, z - 4}, vec{r.center, 6, z - 6}, 4, steel)
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
		for i, c := range [][2]float64{{-27, 9}, {-9, 9}, {9, 9}, {27, 9}, {-18, 25}, {0, 25}, {18, 25}} {
			r.tube(r.front-10+float64(i*3), r.rear()+16-float64(i*4), c[0], z+c[1], 8.6, 8.6, paint{0.46, 0.33, 0.22}.times(1+float64(i%3)*0.1))
		}
	case "pipe":
		for i := range 6 {
			r.tube(r.front-6, r.rear()+12, float64(i)*12-30, z+7, 5.6, 5.6, steel)
		}
	case "header":
		r.bars(vec{r.front, y - 12, z + 24}, vec{r.rear(), y - 12, z + 24}, 4, r.paint)
	}
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

// dolly adds the two pans with their straps.
func (r *rig) dolly() {
	z := r.floor
	r.box(r.front, r.front+6, -40, 40, z-5, z, r.paint)
	for _, side := range []float64{-1, 1} {
		r.prism([]vec{{r.front, 0, z}, {r.rear(), 0, z - 4}, {r.rear(), 0, z - 2}, {r.front, 0, z + 2}}, side*20, side*34, r.paint)
		r.bar(vec{r.front + 2, side * 27, z}, vec{r.front - 4, side * 27, z + 14}, 10, r.paint)
		r.box(r.front+8, r.rear()-6, side*25, side*29, z+1, z+3, amber)
	}
	r.fenders(38)
}
