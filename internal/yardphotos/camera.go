package main

import "math"

// A camera looks from a place at another one.
type camera struct {
	from               vec
	right, up, forward vec
	zoom               float64
}

func look(from, to vec, zoom float64) camera {
	forward := to.sub(from).unit()
	// y is to the left and x to the rear, so the picture's right is up times forward.
	right := vec{0, 0, 1}.cross(forward).unit()
	return camera{from, right, forward.cross(right), forward, zoom}
}

// see is where a place is in the picture, in oversampled pixels, and how deep.
func (c *camera) see(p vec) vec {
	d := p.sub(c.from)
	deep := max(d.dot(c.forward), 1)
	scale := c.zoom / deep * pixelsWide * oversample
	return vec{pixelsWide*oversample/2 + float64(d.dot(c.right)*scale), pixelsHigh*oversample/2 - float64(d.dot(c.up)*scale), deep}
}

// place is the place at a point of the picture that is that deep.
func (c *camera) place(x, y, deep float64) vec {
	return c.from.add(c.ray(x, y).times(deep))
}

// ray is the direction to a point of the picture; its part along forward is 1.
func (c *camera) ray(x, y float64) vec {
	return c.forward.add(c.right.times(minus(x, across/2) / (across * c.zoom))).
		add(c.up.times(minus(down/2, y) / (across * c.zoom)))
}

// A viewpoint is the direction and the height that a photo is taken from, the height also for a
// neck, of which one sees the underside from lower down. The angle goes from straight ahead of
// the coupler, 0 degrees, over the side that the photographer is on, 90. Where the hitch cannot be seen from it, the
// photographer walks toward the side until it can.
type viewpoint struct {
	angle, height, low, zoom float64
	person                   func(r *rig) vec
}

// views are the viewpoints by the end of a photo's file name.
var views = map[string]viewpoint{
	"side":  {68, 84, 40, 1.05, func(r *rig) vec { return vec{r.rear() + 30, r.half() * 0.3, 0} }},
	"front": {44, 98, 48, 0.84, func(r *rig) vec { return r.ahead() }},
	"rear":  {138, 330, 270, 3.5, func(r *rig) vec { return vec{-66, 10, 0} }},
}

// ahead is where the person is in a photo from the front.
func (r *rig) ahead() vec {
	if r.overTheTruck {
		return vec{r.front + 12, r.half() + 26, 0} // next to the deck, where he hides no part of the neck
	}
	return vec{10, -(r.half() + 30), 0}
}

// wanted is the share of the hitch that a photo shows, of what its own shape does not hide.
const wanted = 0.75

// camera is the camera of a view: the whole trailer and the person fill the picture.
func (r *rig) camera(v viewpoint) camera {
	best, most := camera{}, -1.0
	for turn := 0.0; turn <= 40; turn += 5 {
		angle := v.angle
		if angle > 90 {
			angle -= turn
		} else {
			angle += turn
		}
		c := r.fit(angle, v)
		if seen := r.hitchSeen(&c); seen >= wanted {
			return c
		} else if seen > most {
			best, most = c, seen
		}
	}
	return best
}

// side is the side that the photographer is on: 1 for the left one. A concession trailer is
// seen from the curb, where it serves.
func (r *rig) side() float64 {
	if r.kind.Name == "concession" {
		return -1
	}
	return 1
}

// fit is the camera at an angle that is just far enough away.
func (r *rig) fit(angle float64, v viewpoint) camera {
	sin, cos := math.Sincos(angle * r.side() * math.Pi / 180)
	aim, away, high := vec{r.rear() / 2, 0, 30}, r.rear()+120, v.height
	if r.overTheTruck {
		high = v.low
	}
	var c camera
	for range 24 {
		c = look(vec{aim.x - float64(cos*away), aim.y + float64(sin*away), high}, aim, v.zoom)
		left, right, top, low := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, f := range r.faces {
			for _, p := range f.at {
				at := c.see(p)
				left, right = min(left, at.x), max(right, at.x)
				top, low = min(top, at.y), max(low, at.y)
			}
		}
		aim = aim.add(c.right.times(minus((left+right)/2, across/2) * away / (across * v.zoom)))
		aim.z -= float64(minus((top+low)/2, down*0.54)*away/(across*v.zoom)) * 0.5
		full := max((right-left)/(across*0.93), (low-top)/(down*0.80))
		away *= 1 + float64((full-1)*0.7)
	}
	return c
}

// hitchSeen is the share of the hitch's faces that neither the person nor anything else on the
// trailer hides.
func (r *rig) hitchSeen(c *camera) float64 {
	all, seen := 0, 0
	for i, f := range r.faces {
		// Every fifth face of the coupler is enough. A jack has few faces.
		if !f.hitch || i%5 != 0 && f.tint != steel {
			continue
		}
		all++
		p := f.at[0].add(f.at[1]).add(f.at[2]).times(1.0 / 3)
		if !r.hidden(c.from, p) {
			seen++
		}
	}
	return float64(seen) / float64(max(all, 1))
}

// hidden says whether a face that is not the hitch's own is between two places.
func (r *rig) hidden(from, to vec) bool {
	way := to.sub(from)
	for _, f := range r.faces {
		if f.hitch {
			continue
		}
		a, b := f.at[1].sub(f.at[0]), f.at[2].sub(f.at[0])
		n := way.cross(b)
		det := a.dot(n)
		if math.Abs(det) < 1e-9 {
			continue
		}
		s := from.sub(f.at[0])
		u := s.dot(n) / det
		q := s.cross(a)
		w := way.dot(q) / det
		if t := b.dot(q) / det; u >= 0 && w >= 0 && u+w <= 1 && t > 0 && t < 0.998 {
			return true
		}
	}
	return false
}
