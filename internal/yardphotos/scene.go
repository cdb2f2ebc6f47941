package main

import (
	"image"
	"image/color"
	"math"
)

// A vec is a place in inches: x behind the ball's center, y to the left of the trailer's
// middle, z above the ground.
type vec struct{ x, y, z float64 }

func (a vec) add(b vec) vec       { return vec{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a vec) sub(b vec) vec       { return vec{a.x - b.x, a.y - b.y, a.z - b.z} }
func (a vec) times(s float64) vec { return vec{float64(a.x * s), float64(a.y * s), float64(a.z * s)} }
func (a vec) dot(b vec) float64   { return float64(a.x*b.x) + float64(a.y*b.y) + float64(a.z*b.z) }
func (a vec) unit() vec           { return a.times(1 / math.Sqrt(a.dot(a))) }
func minus(a, b float64) float64  { return float64(a) - float64(b) }
func (a vec) cross(b vec) vec {
	return vec{minus(a.y*b.z, a.z*b.y), minus(a.z*b.x, a.x*b.z), minus(a.x*b.y, a.y*b.x)}
}

// A paint is a color with channels from 0 to 1.
type paint [3]float64

func (c paint) times(s float64) paint {
	return paint{float64(c[0] * s), float64(c[1] * s), float64(c[2] * s)}
}

// A face is a flat triangle of one color, maybe a part of the hitch.
type face struct {
	at    [3]vec
	tint  paint
	hitch bool
}

// flat is a face from three corners.
func flat(a, b, c vec, tint paint) face { return face{[3]vec{a, b, c}, tint, false} }

// A scene is everything in front of the camera. The first own faces are the trailer and the
// person, the others the place around them.
type scene struct {
	faces []face
	own   int
	sun   vec // the direction to the sun
}

// quad adds a flat four-cornered face. Its corners go around it.
func (s *scene) quad(a, b, c, d vec, tint paint) {
	s.faces = append(s.faces, flat(a, b, c, tint), flat(a, c, d, tint))
}

// box adds a box along the axes.
func (s *scene) box(x0, x1, y0, y1, z0, z1 float64, tint paint) {
	s.prism([]vec{{x0, 0, z0}, {x1, 0, z0}, {x1, 0, z1}, {x0, 0, z1}}, y0, y1, tint)
}

// flip turns the faces from that one on over to the other side of the trailer.
func (s *scene) flip(from int) {
	for i := from; i < len(s.faces); i++ {
		for k := range s.faces[i].at {
			s.faces[i].at[k].y *= -1
		}
	}
}

// both adds a box and its mirror image on the other side of the trailer.
func (s *scene) both(x0, x1, y0, y1, z0, z1 float64, tint paint) {
	s.box(x0, x1, y0, y1, z0, z1, tint)
	s.box(x0, x1, -y1, -y0, z0, z1, tint)
}

// prism adds a convex outline in x and z, drawn out from y0 to y1.
func (s *scene) prism(outline []vec, y0, y1 float64, tint paint) {
	n := len(outline)
	at := func(i int, y float64) vec { p := outline[i%n]; return vec{p.x, y, p.z} }
	for i := range n {
		s.quad(at(i, y0), at(i+1, y0), at(i+1, y1), at(i, y1), tint)
		if i > 0 && i < n-1 {
			s.faces = append(s.faces, flat(at(0, y0), at(i, y0), at(i+1, y0), tint),
				flat(at(0, y1), at(i, y1), at(i+1, y1), tint))
		}
	}
}

// upright adds a convex outline in x and y, drawn up from z0 to z1.
func (s *scene) upright(outline []vec, z0, z1 float64, tint paint) {
	n := len(outline)
	at := func(i int, z float64) vec { p := outline[i%n]; return vec{p.x, p.y, z} }
	for i := range n {
		s.quad(at(i, z0), at(i+1, z0), at(i+1, z1), at(i, z1), tint)
		if i > 0 && i < n-1 {
			s.faces = append(s.faces, flat(at(0, z0), at(i, z0), at(i+1, z0), tint),
				flat(at(0, z1), at(i, z1), at(i+1, z1), tint))
		}
	}
}

// disk adds a cylinder across the trailer: a wheel or a drum.
func (s *scene) disk(x, z, r, y0, y1 float64, tint paint) {
	s.prism(circle(x, z, r, r), y0, y1, tint)
}

func circle(x, z, wide, tall float64) []vec {
	const n = 28
	out := make([]vec, n)
	for i := range out {
		a := float64(2*math.Pi*float64(i)) / n
		out[i] = vec{x + float64(wide*math.Cos(a)), 0, z + float64(tall*math.Sin(a))}
	}
	return out
}

// tube adds a round body along the trailer, with half axes wide and tall.
func (s *scene) tube(x0, x1, y, z, wide, tall float64, tint paint) {
	s.cone(x0, x1, y, z, wide, tall, 1, tint)
}

// cone adds a tube of which the end at x1 is smaller by that share.
func (s *scene) cone(x0, x1, y, z, wide, tall, share float64, tint paint) {
	near, far := circle(y, z, wide, tall), circle(y, z, wide*share, tall*share)
	for i := range near {
		k := (i + 1) % len(near)
		a, b, c, d := near[i], near[k], far[k], far[i]
		s.quad(vec{x0, a.x, a.z}, vec{x0, b.x, b.z}, vec{x1, c.x, c.z}, vec{x1, d.x, d.z}, tint)
		s.faces = append(s.faces, flat(vec{x0, y, z}, vec{x0, a.x, a.z}, vec{x0, b.x, b.z}, tint),
			flat(vec{x1, y, z}, vec{x1, d.x, d.z}, vec{x1, c.x, c.z}, tint))
	}
}

// bar adds a square bar from a to b.
func (s *scene) bar(a, b vec, thick float64, tint paint) {
	along := b.sub(a).unit()
	side := along.cross(vec{0, 0, 1})
	if side.dot(side) < 0.01 {
		side = vec{0, 1, 0}
	}
	side = side.unit().times(thick / 2)
	up := side.cross(along).unit().times(thick / 2)
	corner := func(p vec, i int) vec {
		w, h := []float64{1, 1, -1, -1}[i%4], []float64{1, -1, -1, 1}[i%4]
		return p.add(side.times(w)).add(up.times(h))
	}
	for i := range 4 {
		s.quad(corner(a, i), corner(b, i), corner(b, i+1), corner(a, i+1), tint)
	}
	s.quad(corner(a, 0), corner(a, 1), corner(a, 2), corner(a, 3), tint)
	s.quad(corner(b, 0), corner(b, 1), corner(b, 2), corner(b, 3), tint)
}

// bars adds a bar and its mirror image.
func (s *scene) bars(a, b vec, thick float64, tint paint) {
	s.bar(a, b, thick, tint)
	s.bar(vec{a.x, -a.y, a.z}, vec{b.x, -b.y, b.z}, thick, tint)
}

// The picture and the light. Every pixel is the mean of oversample times oversample points.
const (
	pixelsWide, pixelsHigh = 960, 640
	oversample             = 2
)

// sunFrom is the direction to the sun, which is on the photographer's side.
func sunFrom(side float64) vec { return vec{-0.45, side * 0.62, 0.95}.unit() }

// A canvas is a picture with the depth of each point.
type canvas struct {
	tint   []paint
	near   []float64 // 1 over the depth
	dim    []float64 // what is left of a point's light out of the sun, 0 for sky and ground
	shadow []bool
}

const across, down = pixelsWide * oversample, pixelsHigh * oversample

// fill visits the points of a triangle with 1 over their depth.
func fill(a, b, c vec, visit func(i int, near float64)) {
	area := minus((b.x-a.x)*(c.y-a.y), (b.y-a.y)*(c.x-a.x))
	if math.Abs(area) < 1e-9 {
		return
	}
	left, right := int(max(0, min(a.x, b.x, c.x))), int(min(across-1, max(a.x, b.x, c.x)))
	top, low := int(max(0, min(a.y, b.y, c.y))), int(min(down-1, max(a.y, b.y, c.y)))
	for y := top; y <= low; y++ {
		py := float64(y) + 0.5
		for x := left; x <= right; x++ {
			px := float64(x) + 0.5
			u := minus((b.x-px)*(c.y-py), (b.y-py)*(c.x-px)) / area
			v := minus((c.x-px)*(a.y-py), (c.y-py)*(a.x-px)) / area
			if w := 1 - u - v; u >= 0 && v >= 0 && w >= 0 {
				visit(y*across+x, float64(u/a.z)+float64(v/b.z)+float64(w/c.z))
			}
		}
	}
}

// The light that comes from everywhere, and the sun's.
const fromAll, fromSun = 0.50, 0.58

// shade is a face's color in the sun, seen from the camera, and the share of its light that it
// keeps out of the sun.
func shade(f face, c *camera, sun vec) (paint, float64) {
	n := f.at[1].sub(f.at[0]).cross(f.at[2].sub(f.at[0]))
	if n.dot(n) < 1e-12 {
		return f.tint, 1
	}
	n = n.unit()
	if n.dot(c.from.sub(f.at[0])) < 0 {
		n = n.times(-1)
	}
	all := fromAll + float64(0.06*n.z)
	light := all + float64(fromSun*max(0, n.dot(sun)))
	return f.tint.times(light), all / light
}

// draw draws the scene before sky, ground and the trailer's shadow.
func (s *scene) draw(c camera) *image.RGBA {
	v := &canvas{make([]paint, across*down), make([]float64, across*down), make([]float64, across*down), make([]bool, across*down)}
	v.land(&c)
	for _, f := range s.faces {
		var flat [3]vec
		for i, p := range f.at {
			low := p.sub(s.sun.times(p.z / s.sun.z))
			low.z = 0
			flat[i] = c.see(low)
		}
		fill(flat[0], flat[1], flat[2], func(i int, _ float64) { v.shadow[i] = true })
	}
	for i, dark := range v.shadow {
		if dark && v.near[i] > 0 {
			v.tint[i] = v.tint[i].times(0.6)
		}
	}
	clear(v.near)
	for _, f := range s.faces {
		tint, dim := shade(f, &c, s.sun)
		fill(c.see(f.at[0]), c.see(f.at[1]), c.see(f.at[2]), func(i int, near float64) {
			if near > v.near[i] {
				v.near[i], v.tint[i], v.dim[i] = near, tint, dim
			}
		})
	}
	v.selfShadow(s, &c)
	return v.shrink()
}

// A sunMap is the scene as the sun sees it: how near to the sun the first thing is, by square
// inches of a plane across the sunlight.
type sunMap struct {
	right, up vec
	sun       vec
	low, high vec // x and y are the map's edges in inches, z is not used
	near      []float64
}

// The map has this many squares across and down, as a picture has.
const squares = across * down

func sunSees(faces []face, sun vec) *sunMap {
	right := vec{0, 0, 1}.cross(sun).unit()
	m := &sunMap{right: right, up: sun.cross(right), sun: sun, near: make([]float64, squares)}
	m.low, m.high = vec{math.Inf(1), math.Inf(1), 0}, vec{math.Inf(-1), math.Inf(-1), 0}
	for _, f := range faces {
		for _, p := range f.at {
			x, y := p.dot(m.right), p.dot(m.up)
			m.low.x, m.low.y = min(m.low.x, x), min(m.low.y, y)
			m.high.x, m.high.y = max(m.high.x, x), max(m.high.y, y)
		}
	}
	for _, f := range faces {
		var at [3]vec
		for i, p := range f.at {
			at[i] = m.see(p)
		}
		fill(at[0], at[1], at[2], func(i int, near float64) { m.near[i] = max(m.near[i], near) })
	}
	return m
}

// see is where a place is on the map. Its z is 1 over the nearness to the sun, as fill wants it.
func (m *sunMap) see(p vec) vec {
	x := (p.dot(m.right) - m.low.x) / (m.high.x - m.low.x)
	y := (p.dot(m.up) - m.low.y) / (m.high.y - m.low.y)
	return vec{float64(x * (across - 1)), float64(y * (down - 1)), 1 / (p.dot(m.sun) + 5000)}
}

// dark is the share of the squares around a place on the map where something is nearer to the
// sun by more than an inch and a half.
func (m *sunMap) dark(p vec) float64 {
	at := m.see(p)
	hidden := 0
	for _, d := range [][2]int{{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
		x, y := int(at.x)+d[0], int(at.y)+d[1]
		if x >= 0 && x < across && y >= 0 && y < down && m.near[y*across+x] > 1/at.z+1.5 {
			hidden++
		}
	}
	return float64(hidden) / 5
}

// selfShadow darkens what other parts of the scene keep the sun from.
func (v *canvas) selfShadow(s *scene, c *camera) {
	m := sunSees(s.faces[:s.own], s.sun)
	for i, dim := range v.dim {
		if dim == 0 || dim > 0.98 {
			continue
		}
		p := c.place(float64(i%across)+0.5, float64(i/across)+0.5, 1/v.near[i])
		if d := m.dark(p); d > 0 {
			v.tint[i] = v.tint[i].times(1 - float64(d*(1-dim)))
		}
	}
}

// land paints the sky and the gravel. Points of the ground get a depth.
func (v *canvas) land(c *camera) {
	for y := range down {
		for x := range across {
			i := y*across + x
			ray := c.ray(float64(x), float64(y))
			if ray.z >= -0.002 {
				h := min(1, ray.z*4)
				v.tint[i] = paint{minus(0.86, h*0.34), minus(0.91, h*0.20), 0.97}
				continue
			}
			far := min(1, -c.from.z/ray.z/2400)
			v.tint[i] = paint{0.66 + float64(0.08*far), 0.63 + float64(0.10*far), 0.57 + float64(0.12*far)}
			v.near[i] = 1
		}
	}
}

// shrink makes one pixel of each square of points.
func (v *canvas) shrink() *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, pixelsWide, pixelsHigh))
	for y := range pixelsHigh {
		for x := range pixelsWide {
			var sum paint
			for k := range oversample * oversample {
				t := v.tint[(y*oversample+k/oversample)*across+x*oversample+k%oversample]
				for ch := range sum {
					sum[ch] += t[ch]
				}
			}
			level := func(ch int) uint8 { return uint8(min(255, float64(sum[ch]*255)/(oversample*oversample))) }
			out.SetRGBA(x, y, color.RGBA{level(0), level(1), level(2), 255})
		}
	}
	return out
}
