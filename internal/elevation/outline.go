package elevation

import (
	"strings"

	"tarepage/internal/compute"
)

// An Outline is a silhouette taken apart, for pages that show many: the path data of
// everything that is one color, and the wheels as numbers. It holds the coordinates of
// Silhouette, without the ground line, which is the paper's lower edge.
type Outline struct {
	// Solid is the steel, Slits the light lines on it, Guess what rests on no measure.
	Solid, Slits, Guess string
	// Wheels are four numbers each, in the order that a circle's attributes have: the
	// center's x and y, the tire's radius, the rim's.
	Wheels [][4]string
}

// Tall is the height of every outline's viewBox, down to the ground; its width is 320.
func (s Scale) Tall() string { return num(max(s.tall-smallMargin, 1)) }

// OutlineOf is a unit's Silhouette as an Outline. It reports false where that does.
func OutlineOf(w *compute.Work, scale Scale) (o Outline, ok bool) {
	d, p, ok := small(w, scale)
	if !ok {
		return o, false
	}
	// Fenders stand before the wheels and clear of them, so that they may lie in one path
	// with what stands behind.
	o.Solid = d.path(shell, p) + d.path(body, p) + d.path(tail, p) + d.path(front, p)
	o.Slits, o.Guess = d.path(trim, p), d.path(guess, p)
	for _, r := range d.rings {
		if r.guess {
			o.Guess += disk(num(p.x(r.center.x)), num(p.y(r.center.y)), num(p.size(r.r)))
			continue
		}
		o.Wheels = append(o.Wheels, [4]string{num(p.x(r.center.x)), num(p.y(r.center.y)), num(p.size(r.r)), num(p.size(r.rim))})
	}
	return o, true
}

// disk is a circle as path data: from its left edge over the top and back.
func disk(x, y, r string) string {
	return "M" + x + " " + y + "m-" + r + " 0a" + r + " " + r + " 0 1 1 " + r + " " + r + "a" + r + " " + r + " 0 0 1-" + r + "-" + r
}

// SVG draws the outline in at most five elements, hidden from those who listen: what it
// shows stands in words beside it.
func (o Outline) SVG(s Scale) string {
	var b strings.Builder
	b.WriteString(`<svg class="el el-small" viewBox="0 0 320 ` + s.Tall() + `" aria-hidden="true">`)
	path := func(class, data string) {
		if data != "" {
			b.WriteString(`<path class="` + class + `" d="` + data + `"/>`)
		}
	}
	path("el-solid", o.Solid)
	path("el-slit", o.Slits)
	var tires, rims string
	for _, w := range o.Wheels {
		tires += disk(w[0], w[1], w[2])
		rims += disk(w[0], w[1], w[3])
	}
	path("el-tire", tires)
	path("el-rim", rims)
	path("el-guess", o.Guess)
	b.WriteString(`</svg>`)
	return b.String()
}
