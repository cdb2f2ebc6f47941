package photo

import (
	"image/color"
	"math"
)

// A Sketch is what is kept of a picture to know it again after somebody saved it once more: in
// another format, size or quality, a little brighter, without its edges, turned, as in a mirror or
// in a plain frame.
type Sketch struct {
	// Wide and High are the photo's, as it is seen.
	Wide, High int
	// Gray are sketchSide x sketchSide means of its luminance codes, row by row.
	Gray []byte
	// Blue and Red are tintSide x tintSide means of its color differences; 128 is gray.
	Blue, Red []byte
	// Inner is the sketch of what is inside a plain frame, nil if there is none.
	Inner *Sketch `json:",omitempty"`
}

// Sides of a sketch, in cells.
const (
	sketchSide = 48
	tintSide   = 8
)

// sketchOf makes the sketch of a photo out of a smaller picture of it.
func sketchOf(l *light, wide, high int) *Sketch {
	s := plainSketch(l, wide, high)
	if in := l.inside(); in != l {
		s.Inner = plainSketch(in, max(wide*in.wide/l.wide, 1), max(high*in.high/l.high, 1))
	}
	return s
}

func plainSketch(l *light, wide, high int) *Sketch {
	s := &Sketch{Wide: wide, High: high}
	for _, c := range cells(l, sketchSide) {
		s.Gray = append(s.Gray, c[0])
	}
	for _, c := range cells(l, tintSide) {
		s.Blue, s.Red = append(s.Blue, c[1]), append(s.Red, c[2])
	}
	return s
}

// cells are the luminance and color differences of side x side parts of a picture, each the mean of
// its light, as JPEG has them (ITU-T T.871, 7).
func cells(l *light, side int) (out [][3]byte) {
	m := resize(&rows{light: l}, side, side).codes()
	for i := 0; i < len(m.Pix); i += 4 {
		y, cb, cr := color.RGBToYCbCr(m.Pix[i], m.Pix[i+1], m.Pix[i+2])
		out = append(out, [3]byte{y, cb, cr})
	}
	return out
}

// Bounds within which two pictures are nearly the same one. Measured with the 63 photos of the
// demo, which are drawn alike, and with copies of some of them (TestAlike): the edges of two different ones
// have a correlation of 0.85 at most, however one is turned, and those of a copy one of 0.96 at least. The colors of a copy
// differ by 5.2 codes at most. The other bounds only save time.
const (
	leastEdges = 900 // thousandths
	mostTint   = 80  // tenths of a code
	leastSmall = 400 // thousandths of the whole in a few cells
	leastRough = 600 // thousandths of the whole, cut in large steps
	leastBegin = 200 // thousandths, the edges after that
)

// Alike reports whether two pictures are nearly the same one, however one of them is turned, and
// with a plain frame around either.
func (s *Sketch) Alike(o *Sketch) bool {
	if !s.whole() || !o.whole() {
		return false
	}
	for _, a := range s.forms() {
		for _, b := range o.forms() {
			if a.alike(b) {
				return true
			}
		}
	}
	return false
}

// forms are the sketches of the whole and of what is inside a frame.
func (s *Sketch) forms() []*Sketch {
	if s.Inner.whole() {
		return []*Sketch{s, s.Inner}
	}
	return []*Sketch{s}
}

// alike tries each of the eight turns. Most pictures are told apart by a few cells, whatever the
// turn.
func (s *Sketch) alike(o *Sketch) bool {
	small := s.luminance(8)
	other := o.luminance(8)
	for turn := 1; turn <= 8; turn++ {
		if other.turned(turn).like(small, leastSpread) < leastSmall {
			continue
		}
		t := o.turned(turn)
		if s.nearShape(t) && s.tint(t) <= mostTint && s.edges(t) >= leastEdges {
			return true
		}
	}
	return false
}

// turned is the sketch of the picture turned as EXIF numbers it.
func (s *Sketch) turned(turn int) *Sketch {
	if turn < 2 {
		return s
	}
	out := &Sketch{Wide: s.Wide, High: s.High, Gray: square(s.Gray, sketchSide, turn), Blue: square(s.Blue, tintSide, turn), Red: square(s.Red, tintSide, turn)}
	if turn >= 5 {
		out.Wide, out.High = s.High, s.Wide
	}
	return out
}

func (p *plane) turned(turn int) *plane { return &plane{p.side, square(p.at, p.side, turn)} }

// square is a turned square of cells.
func square[cell byte | int](from []cell, side, turn int) []cell {
	out := make([]cell, len(from))
	for i, v := range from {
		x, y := turnedTo(i%side, i/side, side, side, turn)
		out[y*side+x] = v
	}
	return out
}

// edges is the largest correlation of the edges in two pictures, in thousandths, with a little cut
// off one of them. It is 0 if the pictures are clearly different.
func (s *Sketch) edges(o *Sketch) int {
	a, b := s.luminance(4), o.luminance(4)
	if _, like := roughCut(a, b); like < leastRough {
		if _, like = roughCut(b, a); like < leastRough {
			return 0
		}
	}
	a, b = s.luminance(2), o.luminance(2)
	cut, like := roughCut(a, b)
	if c, l := roughCut(b, a); l > like {
		cut, s, o = c, o, s
	}
	return fineCut(s.luminance(1), o.luminance(1), cut)
}

// whole reports whether a sketch has all its cells: it may come out of a file.
func (s *Sketch) whole() bool {
	return s != nil && s.Wide > 0 && s.High > 0 && len(s.Gray) == sketchSide*sketchSide && len(s.Blue) == tintSide*tintSide && len(s.Red) == tintSide*tintSide
}

// nearShape reports whether the shapes of two pictures differ by no more than cut edges explain: a
// twentieth at each of two opposite edges.
func (s *Sketch) nearShape(o *Sketch) bool {
	a, b := s.Wide*o.High, s.High*o.Wide
	return 100*min(a, b) >= 88*max(a, b)
}

// tint is the mean distance of the color differences of two pictures, in tenths of a code.
func (s *Sketch) tint(o *Sketch) int {
	sum := 0
	for i := range s.Blue {
		sum += abs(int(s.Blue[i])-int(o.Blue[i])) + abs(int(s.Red[i])-int(o.Red[i]))
	}
	return 10 * sum / (2 * len(s.Blue))
}

func abs(v int) int { return max(v, -v) }

// luminance is the luminance in larger cells, as many times so wide and high as said.
func (s *Sketch) luminance(times int) *plane {
	n := sketchSide / times
	p := &plane{n, make([]int, n*n)}
	for i, v := range s.Gray {
		p.at[i/sketchSide/times*n+i%sketchSide/times] += int(v)
	}
	for i := range p.at {
		p.at[i] /= times * times
	}
	return p
}

// A plane is a square of numbers, row by row.
type plane struct {
	side int
	at   []int
}

// A picture whose standard deviation is less shows nothing to know it by, in codes and in sixteenths.
const (
	leastSpread = 2
	leastEdge   = 8
	mostEdge    = 8 * 16
)

// Cuts are what is cut off a picture at its left, right, top and bottom edge, in 320ths.
type cuts [4]int

const (
	cutParts = 320
	// mostCut is a little more than a twentieth.
	mostCut = 18
)

// cut is what is left of a plane, stretched to the whole.
func (p *plane) cut(c cuts) *plane { return p.cutAcross(c).cutDown(c) }

func (p *plane) cutAcross(c cuts) *plane {
	out := &plane{p.side, make([]int, len(p.at))}
	for y := range p.side {
		stretch(out.at[y*p.side:], p.at[y*p.side:], p.side, 1, c[0], c[1])
	}
	return out
}

func (p *plane) cutDown(c cuts) *plane {
	out := &plane{p.side, make([]int, len(p.at))}
	for x := range p.side {
		stretch(out.at[x:], p.at[x:], p.side, p.side, c[2], c[3])
	}
	return out
}

// stretch fills a line of n cells with what is left of another one after cutting its ends.
func stretch(to, from []int, n, step, cut1, cut2 int) {
	const one = 2 * cutParts
	for i := range n {
		// The middle of the cell in the other line, from the middle of that one's first cell.
		at := 2*cut1*n + (2*i+1)*(cutParts-cut1-cut2) - one/2
		at = min(max(at, 0), (n-1)*one)
		c, f := at/one, at%one
		v := from[c*step] * (one - f)
		if f > 0 {
			v += from[(c+1)*step] * f
		}
		to[i*step] = (v + one/2) / one
	}
}

// edges is a plane without what is even over a large part of it and without the finest detail,
// which another size or a cut changes: means of 3 x 3 cells less means of 9 x 9, in sixteenths of a
// code. No edge counts for more than mostEdge: two papers on a dark table have the same border, and
// the writing tells them apart.
func (p *plane) edges() *plane {
	near, far := p.mean(1), p.mean(4)
	for i := range near.at {
		near.at[i] = min(max(near.at[i]-far.at[i], -mostEdge), mostEdge)
	}
	return near
}

// mean has at each place 16 times the mean of the cells within a reach of it.
func (p *plane) mean(reach int) *plane {
	n := p.side
	sums := make([]int, (n+1)*(n+1))
	for y := range n {
		row := 0
		for x := range n {
			row += p.at[y*n+x]
			sums[(y+1)*(n+1)+x+1] = sums[y*(n+1)+x+1] + row
		}
	}
	out := &plane{n, make([]int, n*n)}
	for y := range n {
		y0, y1 := max(y-reach, 0), min(y+reach+1, n)
		for x := range n {
			x0, x1 := max(x-reach, 0), min(x+reach+1, n)
			sum := sums[y1*(n+1)+x1] - sums[y0*(n+1)+x1] - sums[y1*(n+1)+x0] + sums[y0*(n+1)+x0]
			out.at[y*n+x] = 16 * sum / ((y1 - y0) * (x1 - x0))
		}
	}
	return out
}

// like is Pearson's coefficient of correlation of two planes, in thousandths; 0 if one of them
// shows nothing, which is when its standard deviation is less than least.
func (p *plane) like(o *plane, least int) int {
	var a, b, aa, bb, ab int
	for i, v := range p.at {
		w := o.at[i]
		a, b, aa, bb, ab = a+v, b+w, aa+v*v, bb+w*w, ab+v*w
	}
	n := len(p.at)
	aa, bb, ab = n*aa-a*a, n*bb-b*b, n*ab-a*b
	if floor := n * n * least * least; aa < floor || bb < floor || ab <= 0 {
		return 0
	}
	return int(1000 * (float64(ab) / math.Sqrt(float64(aa)) / math.Sqrt(float64(bb))))
}

// roughCut is how a picture must be cut to be most like another, in large steps.
func roughCut(all, part *plane) (best cuts, like int) {
	steps := []int{0, 8, 16}
	for _, left := range steps {
		for _, right := range steps {
			across := all.cutAcross(cuts{left, right})
			for _, top := range steps {
				for _, bottom := range steps {
					c := cuts{left, right, top, bottom}
					if v := across.cutDown(c).like(part, leastSpread); v > like {
						best, like = c, v
					}
				}
			}
		}
	}
	return best, like
}

// fineCut looks near a cut for one that makes the edges in a picture most like those in another,
// and stops where they are like enough or far from it.
func fineCut(all, part *plane, c cuts) (like int) {
	want := part.edges()
	try := func(c cuts) int { return all.cut(c).edges().like(want, leastEdge) }
	like = try(c)
	for _, step := range []int{8, 4, 2} {
		for better := true; better && like >= leastBegin && like < leastEdges; {
			better = false
			for _, next := range c.near(step) {
				if v := try(next); v > like {
					c, like, better = next, v, true
				}
			}
		}
	}
	return like
}

// near are the cuts that differ from one at one edge, by a step.
func (c cuts) near(step int) (out []cuts) {
	for i := range c {
		for _, by := range []int{-step, step} {
			next := c
			if next[i] = min(max(next[i]+by, 0), mostCut); next != c {
				out = append(out, next)
			}
		}
	}
	return out
}
