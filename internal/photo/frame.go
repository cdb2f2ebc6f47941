package photo

import "image"

// Bounds within which a line of a small picture belongs to a plain frame, in codes: how far its
// colors may be from their mean, which writing and edges exceed and what JPEG adds does not, and
// its mean from that of the outermost line.
const (
	mostRough = 20
	mostApart = 10
)

// inside is what is inside a plain frame: lines of one color at two opposite edges or at all four,
// which together are less than two thirds of the picture. It is the picture itself if there is no
// frame.
func (l *light) inside() *light {
	if l.wide < 8 || l.high < 8 {
		return l
	}
	in := image.Rect(0, 0, l.wide, l.high)
	in.Min.Y, in.Max.Y = frameEnds(l.high, func(y int) (mean [3]int, plain bool) { return l.line(0, y, 1, 0, l.wide) })
	in.Min.X, in.Max.X = frameEnds(l.wide, func(x int) (mean [3]int, plain bool) { return l.line(x, in.Min.Y, 0, 1, in.Dy()) })
	if in.Dx() == l.wide && in.Dy() == l.high {
		return l
	}
	out := newLight(in.Dx(), in.Dy())
	for y := range out.high {
		copy(out.row(y), l.row(in.Min.Y + y)[3*in.Min.X:])
	}
	return out
}

// frameEnds is where the picture begins and ends between the lines of a frame. The line between the
// two is a mixture, and goes with the frame.
func frameEnds(n int, line func(i int) (mean [3]int, plain bool)) (from, to int) {
	first, plain := line(0)
	last, plainToo := line(n - 1)
	if !plain || !plainToo || !near(first, last) {
		return 0, n
	}
	belongs := func(i int) bool {
		mean, plain := line(i)
		return plain && near(mean, first)
	}
	from, to = 1, n-1
	for from < to && belongs(from) {
		from++
	}
	for to > from && belongs(to-1) {
		to--
	}
	if from, to = from+1, to-1; 3*(to-from) < n {
		return 0, n
	}
	return from, to
}

func near(a, b [3]int) bool {
	for i := range a {
		if abs(a[i]-b[i]) > mostApart {
			return false
		}
	}
	return true
}

// line is the mean color of n pixels in codes, and whether all are near it.
func (l *light) line(x, y, dx, dy, n int) (mean [3]int, plain bool) {
	least, most := [3]int{255, 255, 255}, [3]int{}
	for i := range n {
		for c, v := range l.row(y + i*dy)[3*(x+i*dx):][:3] {
			code := int(codeOf()[v])
			mean[c] += code
			least[c], most[c] = min(least[c], code), max(most[c], code)
		}
	}
	plain = true
	for c := range mean {
		mean[c] /= n
		plain = plain && most[c]-mean[c] <= mostRough && mean[c]-least[c] <= mostRough
	}
	return mean, plain
}
