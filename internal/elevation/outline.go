package elevation

import (
	"strings"

	"tarepage/internal/compute"
)

// An Outline is a silhouette in parts, for pages that show many: the path data of everything
// in one color, and the wheels as numbers. Its coordinates are those of Silhouette. It has no
// ground line, because the ground is the lower edge of the paper.
type Outline struct {
	// Solid is the steel, Slits the light lines on it, Guess the parts that nobody measured.
	Solid, Slits, Guess string
	// Wheels has four numbers for each wheel, in the order of a circle's attributes: the
	// center's x and y, the tire's radius and the rim's.
	Wheels [][4]string
}

// Tall is the height of every outline's viewBox, down to the ground; its width is 320.
func (s Scale) Tall() string { return num(max(s.tall-smallMargin, 1)) }

// OutlineOf is a unit's Silhouette as an Outline. It returns false if Silhouette does.
func OutlineOf(w *compute.Work, scale Scale) (o Outline, ok bool) {
	d, p, ok := small(w, scale)
	if !ok {
		return o, false
	}
	// Fenders are in front of the wheels and do not touch them, so they can be in one path
	// with the parts behind the wheels.
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

// SVG draws the outline in at most five elements. Screen readers skip it, because the words
// next to it say what it shows.
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
