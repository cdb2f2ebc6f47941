package elevation

import (
	"strconv"
	"strings"

	"tarepage/internal/measure"
)

// A point is x behind the ball's center and y above the ground.
type point struct{ x, y measure.Inches }

// A layer says how a shape is drawn. Later layers cover earlier ones.
type layer int

const (
	shell layer = iota // the sides of a bed or a box: outline and tint
	body               // steel: solid
	tail               // the tail's steel: solid
	trim               // thin lines on the sides
	swing              // where a tail or a tilting deck goes: phantom lines
	guess              // what nobody measured: dashed outline
	front              // what is in front of the wheels: fenders
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
	// rim is the radius of the hole that shows paper, hub is the steel inside it, and dish is
	// the edge of the deep outer wheel of a pair. 0 leaves it out.
	rim, hub, dish measure.Inches
	guess          bool
}

// A drawing is a unit's side view in inches.
type drawing struct {
	shapes []shape
	rings  []ring
}

// add adds a closed outline, dashed if it is a guess. It cuts off what would be below the
// ground, such as a usual shape under a very low deck.
func (d *drawing) add(l layer, guessed bool, at ...point) {
	if guessed {
		l = guess
	}
	for i := range at {
		at[i].y = max(at[i].y, 0)
	}
	d.shapes = append(d.shapes, shape{layer: l, at: at})
}

// box adds an upright rectangle.
func (d *drawing) box(l layer, guessed bool, left, right, bottom, top measure.Inches) {
	if right > left && top > bottom {
		d.add(l, guessed, point{left, top}, point{right, top}, point{right, bottom}, point{left, bottom})
	}
}

// line adds a straight line.
func (d *drawing) line(l layer, from, to point) {
	d.shapes = append(d.shapes, shape{layer: l, open: true, at: []point{from, to}})
}

// extent is the smallest upright rectangle around everything, including the ground and the
// ball's center.
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

// highest is the height of the highest part between two places.
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

// A plot converts inches to the units of a viewBox.
type plot struct {
	perInch      float64
	ball, ground float64 // where x = 0 and y = 0 are
}

// The products are converted explicitly, which forbids a fused multiply-add. So every
// processor writes the same bytes.
func (p plot) size(in measure.Inches) float64 { return float64(float64(in) * p.perInch) }
func (p plot) x(in measure.Inches) float64    { return p.ball + p.size(in) }
func (p plot) y(in measure.Inches) float64    { return p.ground - p.size(in) }

// num writes a coordinate to a tenth of a unit. It does not use package measure, which would
// separate the thousands.
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
