package elevation

import (
	"strconv"
	"strings"

	"tarepage/internal/measure"
)

// A point lies x behind the ball's center and y above the ground.
type point struct{ x, y measure.Inches }

// A layer is what a shape is drawn as; later layers lie on earlier ones.
type layer int

const (
	shell layer = iota // the sides of a bed or a box: outline and tint
	body               // steel: solid
	tail               // the tail's steel: solid
	trim               // thin lines on the sides
	swing              // where a tail or a tilting deck goes: phantom lines
	guess              // what rests on no measure: dashed outline
	front              // what stands before the wheels: fenders
	layers
)

// A shape is an outline; open ones are lines.
type shape struct {
	layer layer
	open  bool
	at    []point
}

// A ring is a wheel, or the eye of a pintle.
type ring struct {
	center point
	r      measure.Inches
	// rim is the radius of the hole that shows paper; hub the steel within it, and dish
	// the edge of the deep wheel that the outer one of a pair has. 0 leaves it out.
	rim, hub, dish measure.Inches
	guess          bool
}

// A drawing is a unit's side view in inches.
type drawing struct {
	shapes []shape
	rings  []ring
}

// add puts a closed outline in, as a guess if it rests on one. Nothing reaches into the
// ground: a usual shape under a very low deck is cut off there.
func (d *drawing) add(l layer, guessed bool, at ...point) {
	if guessed {
		l = guess
	}
	for i := range at {
		at[i].y = max(at[i].y, 0)
	}
	d.shapes = append(d.shapes, shape{layer: l, at: at})
}

// box puts an upright rectangle in.
func (d *drawing) box(l layer, guessed bool, left, right, bottom, top measure.Inches) {
	if right > left && top > bottom {
		d.add(l, guessed, point{left, top}, point{right, top}, point{right, bottom}, point{left, bottom})
	}
}

// line puts a straight line in.
func (d *drawing) line(l layer, from, to point) {
	d.shapes = append(d.shapes, shape{layer: l, open: true, at: []point{from, to}})
}

// extent is the smallest upright rectangle around everything, the ground's height and
// the ball's center included.
type extent struct{ left, right, top measure.Inches }

func (d *drawing) extent() extent {
	var e extent
	for _, s := range d.shapes {
		for _, p := range s.at {
			e.left, e.right, e.top = min(e.left, p.x), max(e.right, p.x), max(e.top, p.y)
		}
	}
	for _, r := range d.rings {
		e.left, e.right = min(e.left, r.center.x-r.r), max(e.right, r.center.x+r.r)
		e.top = max(e.top, r.center.y+r.r)
	}
	return e
}

// highest is how high anything stands between two places.
func (d *drawing) highest(from, to measure.Inches) measure.Inches {
	var top measure.Inches
	for _, s := range d.shapes {
		for _, p := range s.at {
			if p.x >= from && p.x <= to {
				top = max(top, p.y)
			}
		}
	}
	for _, r := range d.rings {
		if r.center.x+r.r >= from && r.center.x-r.r <= to {
			top = max(top, r.center.y+r.r)
		}
	}
	return top
}

// A plot takes inches to the units of a viewBox.
type plot struct {
	perInch      float64
	ball, ground float64 // where x = 0 and y = 0 lie
}

// The products are converted explicitly, which forbids a fused multiply-add: the bytes
// are the same on every processor.
func (p plot) size(in measure.Inches) float64 { return float64(float64(in) * p.perInch) }
func (p plot) x(in measure.Inches) float64    { return p.ball + p.size(in) }
func (p plot) y(in measure.Inches) float64    { return p.ground - p.size(in) }

// num writes a coordinate to a tenth of a unit. A coordinate is no figure, and
// measure's printing would group its thousands.
func num(v float64) string {
	s := strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0")
	if s == "-0" {
		return "0"
	}
	return s
}

// path is the path data of every shape of a layer.
func (d *drawing) path(l layer, p plot) string {
	var b strings.Builder
	for _, s := range d.shapes {
		if s.layer != l {
			continue
		}
		var x, y string
		for i, at := range s.at {
			nx, ny := num(p.x(at.x)), num(p.y(at.y))
			switch {
			case i == 0:
				b.WriteString("M" + nx + " " + ny)
			case ny == y && nx == x:
			case ny == y:
				b.WriteString("H" + nx)
			case nx == x:
				b.WriteString("V" + ny)
			default:
				b.WriteString("L" + nx + " " + ny)
			}
			x, y = nx, ny
		}
		if !s.open {
			b.WriteString("Z")
		}
	}
	return b.String()
}
