package compute

import (
	"slices"

	"tarepage/internal/measure"
)

// A Vertex is a corner of the envelope, or a point of one of its curves.
type Vertex struct {
	// Behind is the load's center, from the deck's front edge back, and
	// FromBall the same from the ball.
	Behind, FromBall measure.Inches
	Weight           measure.Pounds
	// Corner reports whether two constraints meet here exactly. Otherwise the vertex only keeps a
	// curve in shape.
	Corner bool
	// Edge is the constraint of the edge from here to the next vertex.
	Edge Constraint
}

// envelopeGrain is how far the envelope's chords may depart from their curves, as a part
// of the deck's length: a twelfth of an inch on 28 ft, below the width of a drawn line.
const envelopeGrain measure.Share = 1.0 / 4096

// Envelope is everything that is allowed for one load of the given length: the polygon of
// (place of its center, weight), from its lowest front corner up the front side, across
// the top, down the rear side and back along the bottom. It is nil where nothing is
// allowed, or only loads of a single weight or place.
//
// The deck's ends are upright edges, the ratings of the whole trailer the level one on
// top; tongue and axles are curves x = a + b / w, cut into chords, and into tangents where
// a chord would show something as allowed that is not. So the polygon is inside what is
// allowed, and departs from it by less than a four-thousandth of the deck's length.
func (r Rig) Envelope(length measure.Inches) []Vertex {
	if !r.sensible() || !(length >= 0 && length <= r.Length) {
		return nil
	}
	top, lid := r.leaves()
	if !(top >= leastLoad) {
		return nil
	}
	half := length.Half()
	b := r.bounds(line{0, r.Front + half, DeckFront}, line{0, r.Front + r.Length - half, DeckRear})
	weights := b.heights(top)
	grain := envelopeGrain.OfLength(r.Length)
	front := side(stretches(b.front, weights), grain, true)
	rear := side(stretches(b.rear, weights), grain, false)
	return r.join(front, rear, lid)
}

// heights are the weights at which the envelope has corners, from its lowest to its
// highest: where any two lines cross, with no load and with the heaviest. In moment and
// weight the lines bound a convex region, so the allowed weights are one range.
func (b *bounds) heights(top measure.Pounds) []measure.Pounds {
	lines := append(b.above[:len(b.above):len(b.above)], b.below[:]...)
	all := []measure.Pounds{0, top}
	for i, l := range lines {
		for _, k := range lines[:i] {
			if l.slope == k.slope {
				continue
			}
			if w := measure.WeightAt(k.at-l.at, l.slope-k.slope); w > 0 && w < top {
				all = append(all, w)
			}
		}
	}
	slices.Sort(all)
	var out []measure.Pounds
	for _, w := range all {
		allowed := measure.NotOver(b.front(w).moment(w), b.rear(w).moment(w))
		// Crossings that part only in their last bits are one.
		if allowed && (len(out) == 0 || !measure.NotOver(w, out[len(out)-1])) {
			out = append(out, w)
		}
	}
	return out
}

// A stretch is a line with the weights between which it bounds the envelope.
type stretch struct {
	line
	from, to measure.Pounds
}

// stretches are the lines of one side from the lowest weight to the highest.
func stretches(active func(measure.Pounds) line, weights []measure.Pounds) []stretch {
	var out []stretch
	for i := 1; i < len(weights); i++ {
		l := active((weights[i-1] + weights[i]).Part(1, 2))
		if n := len(out); n > 0 && out[n-1].line == l {
			out[n-1].to = weights[i]
			continue
		}
		out = append(out, stretch{l, weights[i-1], weights[i]})
	}
	return out
}

// A point is a vertex with the constraint that leads up from it.
type point struct {
	x      measure.Inches
	w      measure.Pounds
	corner bool
	up     Constraint
}

// side are the points of one side, going up.
func side(all []stretch, grain measure.Inches, front bool) []point {
	var out []point
	for i, s := range all {
		out = append(out, point{s.place(s.from), s.from, true, s.by})
		// The chords of x = a / w lie to the rear of it where a is above zero and ahead of it where
		// a is below: outside, on the rear side in the first case and on the front side in
		// the second.
		out = s.curve(out, grain, front == (s.at < 0))
		if i == len(all)-1 {
			out = append(out, point{s.place(s.to), s.to, true, s.by})
		}
	}
	return out
}

// curve adds the points between a stretch's ends: points of the curve itself, or the
// meetings of its tangents where the chords would lie outside of what is allowed.
func (s stretch) curve(out []point, grain measure.Inches, outside bool) []point {
	if s.at == 0 || s.from <= 0 {
		return out
	}
	n := measure.ArcSteps(s.at, s.from, s.to, grain)
	for k := range n {
		w, next := measure.ArcWeight(s.from, s.to, k, n), measure.ArcWeight(s.from, s.to, k+1, n)
		switch {
		case outside:
			// The tangents of x = a / w at two weights meet over their harmonic mean.
			x := s.slope + measure.ArmOf(s.at+s.at, w+next)
			out = append(out, point{x, measure.HarmonicMean(w, next), false, s.by})
		case k > 0:
			out = append(out, point{s.place(w), w, false, s.by})
		}
	}
	return out
}

// join makes the polygon of the two sides: nil if they enclose nothing.
func (r Rig) join(front, rear []point, lid Constraint) []Vertex {
	var out []Vertex
	wide := false
	add := func(p point, edge Constraint) {
		if n := len(out); n > 0 && same(out[n-1].FromBall, p.x) && same(out[n-1].Weight, p.w) {
			// The sides meet in this corner: what leads on is the later edge.
			out[n-1].Edge = edge
			return
		}
		wide = wide || len(out) > 0 && !same(out[0].FromBall, p.x)
		out = append(out, Vertex{Behind: p.x - r.Front, FromBall: p.x, Weight: p.w, Corner: p.corner, Edge: edge})
	}
	for i, p := range front {
		edge := p.up
		if i == len(front)-1 {
			edge = lid
		}
		add(p, edge)
	}
	for i := len(rear) - 1; i > 0; i-- {
		add(rear[i], rear[i-1].up)
	}
	if len(rear) > 0 && !(same(out[0].FromBall, rear[0].x) && same(out[0].Weight, rear[0].w)) {
		add(rear[0], NoLoad)
	}
	if !wide || len(out) < 3 {
		return nil
	}
	return out
}

func same[U ~float64](a, b U) bool { return measure.NotOver(a, b) && measure.NotOver(b, a) }
