package elevation

import (
	"math"

	"tarepage/internal/compute"
)

const (
	smallWide   = 320.0 // of every silhouette's viewBox
	smallMargin = 3.0
	smallTall   = 160.0 // the largest height of the tallest unit
)

// A Scale is the common scale of a yard's silhouettes and the size of their paper. Shown at
// one width, they can be compared.
type Scale struct{ perInch, tall float64 }

// ScaleOf returns the scale at which the longest unit fills the width of a silhouette. Units
// that cannot be drawn do not count.
func ScaleOf(works []*compute.Work) Scale {
	var wide, tall extent
	for _, w := range works {
		if f, ok := factsOf(w); ok {
			e := draw(&f).extent()
			if e.right-e.left > wide.right-wide.left {
				wide = e
			}
			if e.top > tall.top {
				tall = e
			}
		}
	}
	if wide == (extent{}) {
		return Scale{}
	}
	s := Scale{perInch: min(perInch(smallWide-2*smallMargin, wide.right-wide.left), perInch(smallTall, tall.top))}
	s.tall = math.Ceil(plot{perInch: s.perInch}.size(tall.top) + 2*smallMargin)
	return s
}

// small is a unit's drawing and its place on the yard's paper.
func small(w *compute.Work, scale Scale) (d *drawing, p plot, ok bool) {
	f, ok := factsOf(w)
	if !ok || scale.perInch == 0 {
		return nil, p, false
	}
	d = draw(&f)
	e := d.extent()
	p = plot{perInch: scale.perInch, ground: scale.tall - smallMargin}
	p.ball = smallMargin - p.size(e.left)
	// Coordinates are rounded to a tenth.
	if p.x(e.right) > smallWide-smallMargin+0.1 || p.y(e.top) < smallMargin-0.1 {
		return nil, p, false
	}
	return d, p, true
}
