package elevation

import "tarepage/internal/compute"

// A Sketch is a silhouette as numbers, for drawings other than SVG. The numbers are pixels
// from the left edge and from the top of a box. The lower edge of the box is the ground.
type Sketch struct {
	// Solid is the steel, as closed outlines. Slits are the light lines on it. Guess is what
	// nobody measured, as closed outlines that are drawn without a filling.
	Solid, Slits, Guess [][][2]float64
	// Wheels are the wheels that were measured, GuessedWheels the others.
	Wheels, GuessedWheels []Wheel
}

// A Wheel is a tire's circle with its rim's.
type Wheel struct{ X, Y, Tire, Rim float64 }

// SketchOf draws a unit as large as the box allows. It returns false if the unit states no
// length.
func SketchOf(w *compute.Work, wide, high float64) (s Sketch, ok bool) {
	f, ok := factsOf(w)
	if !ok {
		return s, false
	}
	d := draw(&f)
	e := d.extent()
	p := plot{perInch: min(perInch(wide, e.right-e.left), perInch(high, e.top)), ground: high}
	p.ball = float64((wide-p.size(e.right-e.left))/2) - p.size(e.left)
	for _, l := range []layer{shell, body, tail, front} {
		s.Solid = append(s.Solid, d.lines(l, p)...)
	}
	s.Slits, s.Guess = d.lines(trim, p), d.lines(guess, p)
	for _, r := range d.rings {
		wheel := Wheel{p.x(r.center.x), p.y(r.center.y), p.size(r.r), p.size(r.rim)}
		if r.guess {
			s.GuessedWheels = append(s.GuessedWheels, wheel)
		} else {
			s.Wheels = append(s.Wheels, wheel)
		}
	}
	return s, true
}

// lines are the corners of every shape of a layer.
func (d *drawing) lines(l layer, p plot) [][][2]float64 {
	var out [][][2]float64
	for _, s := range d.shapes {
		if s.layer != l {
			continue
		}
		var at [][2]float64
		for _, c := range s.at {
			at = append(at, [2]float64{p.x(c.x), p.y(c.y)})
		}
		out = append(out, at)
	}
	return out
}
