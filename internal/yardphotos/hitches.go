package main

import "math"

var (
	zinc  = paint{0.80, 0.81, 0.80}
	black = paint{0.10, 0.10, 0.11}
)

// hitchParts keeps what the function adds as the parts by which the hitch is known.
func (r *rig) hitchParts(add func()) {
	from := len(r.faces)
	add()
	for i := from; i < len(r.faces); i++ {
		r.faces[i].hitch = true
	}
}

// coupler adds a ball coupler with its cup, its latch and its lever, the ball's center at x 0.
func (r *rig) coupler(at float64) {
	r.upright([]vec{{0, -2.7, 0}, {6, -2.7, 0}, {17, -4, 0}, {17, 4, 0}, {6, 2.7, 0}, {0, 2.7, 0}}, at-1.4, at+2, zinc)
	for _, ring := range [][3]float64{{-2.6, 1.6, 3.1}, {1.6, 2.9, 2.7}, {2.9, 3.8, 1.7}} {
		r.post(0, 0, at+ring[0], at+ring[1], ring[2], zinc)
	}
	r.post(0, 0, at-2.7, at-2, 3.5, zinc.times(0.8))
	r.box(4, 9, -1, 1, at+2, at+4.6, black)
	r.bar(vec{5, 0, at + 4.4}, vec{15, 0, at + 6.2}, 1.1, black)
}

// ring adds a pintle's eye on its shank, and the upright channel with holes that it is bolted
// to. The eye turns on the shank; this one was let go a half turn to the left.
func (r *rig) ring(at float64) {
	const thick, n = 1.9, 24
	wide := or(r.u.Hitch.Lunette, 3)/2 + thick/2
	lean := math.Pi / 4
	place := func(i int) vec {
		a := float64(2*math.Pi*float64(i)) / n
		across := float64(wide * math.Sin(a))
		return vec{float64(wide*math.Cos(a)) - 0.5, float64(across * math.Cos(lean)), at - float64(across*math.Sin(lean))}
	}
	for i := range n {
		r.bar(place(i), place(i+1), thick, black)
	}
	r.tube(wide-0.2, 8, 0, at, 1.7, 1.7, black)
	r.tube(5.6, 7, 0, at, 3, 3, zinc)
	r.box(8, 10.5, -3, 3, at-8, at+6, zinc)
	for z := at - 6.5; z < at+6; z += 2.6 {
		r.both(7.8, 8, 1.2, 2.2, z-0.6, z+0.6, black)
	}
}

// chain hangs a chain between two places, so that it sags that far below them. A chain's curve
// and a parabola look alike at this depth.
func (r *rig) chain(a, b vec, sag float64) {
	const links = 12
	at := func(i int) vec {
		t := float64(i) / links
		p := a.add(b.sub(a).times(t))
		p.z -= float64(4 * sag * t * (1 - t))
		return p
	}
	for i := range links {
		tint, thick := black, 1.3
		if i%2 == 1 {
			tint, thick = paint{0.30, 0.30, 0.31}, 0.8
		}
		r.bar(at(i), at(i+1), thick, tint)
	}
}

// tongue adds the A-frame, the coupler or eye, the chains and the jack.
func (r *rig) tongue() {
	at, low := 19.0, r.floor-6
	pintle := r.u.Hitch.Kind.Value == "pintle"
	if pintle {
		at = 26
	}
	tip := vec{12, 2.6, at}
	// The two bars end in the beams of the frame, or under the box or the deck.
	root := vec{r.front + 4, r.half() * 0.6, low}
	if r.space != "deck" && r.space != "box" && r.space != "dolly" {
		root.y, root.z = r.frame(), r.underFrame()+3
	}
	knee := vec{r.front - 8, root.y * 0.92, min(at+2, root.z)}
	r.bars(tip, knee, 4.5, r.paint)
	r.bars(knee, root, 4.5, r.paint)
	r.both(knee.x-2, knee.x+2, knee.y-2.4, knee.y+2.4, knee.z-2.25, knee.z+2.25, r.paint)
	bar := func(x float64) float64 { return tip.y + float64((knee.y-tip.y)*(x-tip.x)/(knee.x-tip.x)) }
	r.upright([]vec{{10, -3.2, 0}, {20, -bar(20) - 2, 0}, {20, bar(20) + 2, 0}, {10, 3.2, 0}}, at-2.2, at+2.2, r.paint)
	r.hitchParts(func() {
		if pintle {
			r.ring(at)
		} else {
			r.coupler(at)
		}
	})
	// Each chain hangs from the tongue, its hook over the bar of the A-frame farther back.
	hook := max(30, min(r.front*0.5, 44))
	if hook > r.front-6 {
		hook = r.front - 6
	}
	for _, side := range []float64{-1, 1} {
		r.chain(vec{15, side * (bar(15) + 1.5), at - 1}, vec{hook, side * (bar(hook) + 2.4), at + 1}, min(9, at-8))
	}
	x := max(17, r.front/2-2)
	side := 0.0
	if r.u.Jack.Count.Value == 2 {
		side = r.half() * 0.4
	}
	r.hitchParts(func() {
		for _, y := range []float64{side, -side} {
			r.box(x-1.4, x+1.4, y-1.4, y+1.4, 9, at+20, steel)
			r.box(x-4, x+4, y-4, y+4, 0, 1.5, steel)
			r.box(x-1, x+1, y-1, y+1, 1.5, 9, steel)
			r.box(x-1, x+1, y-8, y+1, at+18.5, at+20, dark)
		}
	})
	// A plate between the two bars of the A-frame holds the jack.
	r.box(x-3, x+3, -max(4, side, bar(x)), max(4, side, bar(x)), at-2.2, at+2.2, r.paint)
}

// neckUnder is the height of a neck's underside over a truck's bed.
func (r *rig) neckUnder() float64 { return max(56, r.floor+14) }

// neckBeam is how far each of the neck's two beams is from the trailer's middle.
func (r *rig) neckBeam() float64 { return r.half() * 0.36 }

// neck adds the neck over a truck's bed with its coupler or kingpin, and the two legs.
func (r *rig) neck() {
	under, y := r.neckUnder(), r.neckBeam()
	top, back := under+11, min(30, r.front/2)
	r.both(-8, r.front-back/2, y-3, y+3, under, top, r.paint)
	for _, side := range []float64{-1, 1} {
		a, b := side*y-3, side*y+3
		r.prism([]vec{{r.front - back, 0, under}, {r.front - back/2, 0, top}, {r.front + 2, 0, r.floor}, {r.front + 2, 0, r.floor - 12}, {r.front - 12, 0, r.floor - 12}}, a, b, r.paint)
	}
	r.box(-8, 4, -y-3, y+3, under, top, r.paint)
	r.box(r.front-back-4, r.front-back/2, -y, y, under, top-2, r.paint)
	r.hitchParts(func() {
		if r.u.Hitch.Kind.Value == "fifth-wheel" {
			r.kingpin(under, top)
		} else {
			r.gooseneck(under)
		}
	})
	if r.u.Hitch.Kind.Value != "fifth-wheel" {
		for _, side := range []float64{-1, 1} {
			r.chain(vec{5, side * (y - 1), under}, vec{24, side * (y - 1), under}, 15)
		}
	}
	x := r.front - back - 10
	r.both(x-2.4, x+2.4, y-2.4, y+2.4, 18, top+2, dark)
	r.both(x-1.6, x+1.6, y-1.6, y+1.6, 2, 18, steel)
	r.both(x-6, x+6, y-6, y+6, 0, 2, steel)
	r.box(x-1, x+1, -y, y, 30, 32, steel)
}

// gooseneck adds the round tube that slides in the neck's end, and the coupler over the ball.
func (r *rig) gooseneck(under float64) {
	r.post(0, 0, under-5, under+13, 4.2, r.paint.times(0.85))
	r.post(0, 0, 42, under-5, 3, zinc)
	r.post(0, 0, 41, 43.5, 4.4, black)
	r.cupped(33, 41)
	r.bar(vec{0, 3, 38}, vec{-2, 9, 39}, 1.3, zinc)
	// The bolts that hold the tube at its height.
	r.both(-1, 1, 4, 6.4, under+6, under+8, zinc)
}

// cupped adds the gooseneck coupler's body, which opens down over the ball.
func (r *rig) cupped(low, top float64) {
	r.post(0, 0, low+2, top, 3.8, black)
	r.post(0, 0, low, low+2, 4.6, black)
	r.box(-2, 2, 3.4, 4.9, low+3, low+7, zinc)
}

// kingpin adds the wide plate under the nose of a neck, and the pin that goes into the jaws of
// a fifth wheel.
func (r *rig) kingpin(under, top float64) {
	wide, pin := min(r.half()-8, 30), or(r.u.Hitch.Kingpin, 2)/2
	r.box(-24, 30, -wide, wide, 51, top, r.paint)
	// The plate's front edge is bent up, so that it slides onto the fifth wheel.
	r.prism([]vec{{-30, 0, 53}, {-24, 0, 49}, {32, 0, 49}, {32, 0, 51}, {-23, 0, 51}, {-28, 0, 55}}, -wide-2, wide+2, black)
	r.post(0, 0, 48, 49, pin+2.4, zinc)
	r.post(0, 0, 45, 48, pin, zinc)
	r.post(0, 0, 43.4, 45, pin+0.5, zinc)
}

// post adds a round body that stands upright.
func (r *rig) post(x, y, z0, z1, radius float64, tint paint) {
	around := circle(x, y, radius, radius)
	outline := make([]vec, 0, len(around)/2)
	for i := 0; i < len(around); i += 2 {
		outline = append(outline, vec{around[i].x, around[i].z, 0})
	}
	r.upright(outline, z0, z1, tint)
}
