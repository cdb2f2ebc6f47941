package linkcard

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"tarepage/internal/elevation"
)

// The theme's colors.
var (
	coal  = color.RGBA{0x1d, 0x21, 0x25, 0xff}
	paper = color.RGBA{0xff, 0xff, 0xff, 0xff}
	mist  = color.RGBA{0xee, 0xee, 0xea, 0xff}
	haze  = color.RGBA{0x8a, 0x90, 0x94, 0xff}
)

// A typeface is read once. Many may read its letters at a time, each with his own buffer.
type typeface func() *sfnt.Font

var (
	regular = faceOf(goregular.TTF)
	bold    = faceOf(gobold.TTF)
)

func faceOf(data []byte) typeface {
	return sync.OnceValue(func() *sfnt.Font {
		f, err := sfnt.Parse(data)
		if err != nil {
			panic(err) // the bytes are compiled in
		}
		return f
	})
}

// A canvas is a card while it is drawn.
type canvas struct {
	m   *image.RGBA
	buf sfnt.Buffer
	pen *vector.Rasterizer
	// area is where the pen is at work. A small one takes little time.
	area image.Rectangle
}

func newCanvas() *canvas {
	return &canvas{m: image.NewRGBA(image.Rect(0, 0, Wide, High)), pen: vector.NewRasterizer(0, 0)}
}

// on limits drawing to an area; what is drawn outside of it does not show.
func (s *canvas) on(r image.Rectangle) {
	s.area = r.Intersect(s.m.Rect)
	s.pen.Reset(s.area.Dx(), s.area.Dy())
}

func (s *canvas) fill(r image.Rectangle, c color.RGBA) {
	draw.Draw(s.m, r, image.NewUniform(c), image.Point{}, draw.Src)
}

// lay puts a picture in the middle of a window.
func (s *canvas) lay(m image.Image, window image.Rectangle) {
	at := m.Bounds()
	to := at.Sub(at.Min).Add(window.Min).Add(image.Pt((window.Dx()-at.Dx())/2, (window.Dy()-at.Dy())/2))
	draw.Draw(s.m, to.Intersect(window), m, at.Min, draw.Src)
}

// ink fills what the pen went around.
func (s *canvas) ink(c color.RGBA) {
	s.pen.DrawOp = draw.Over
	s.pen.Draw(s.m, s.area, image.NewUniform(c), image.Point{})
	s.on(s.area)
}

// writable leaves out what a line cannot show: characters that the typeface has no letter for,
// marks that would move other letters, and what would not fit anyway.
func (s *canvas) writable(text string, f *sfnt.Font) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		if i, err := f.GlyphIndex(&s.buf, r); err != nil || i == 0 || !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, text)
	text = strings.Join(strings.Fields(text), " ")
	if letters := []rune(text); len(letters) > mostLetters {
		text = string(letters[:mostLetters])
	}
	return text
}

// mostLetters is more than fits on two lines in the smallest letters.
const mostLetters = 240

// set walks along a line's letters and tells where each stands, in 64ths of a pixel from
// the line's beginning. It returns the line's length.
func (s *canvas) set(text string, f *sfnt.Font, size int, at func(i sfnt.GlyphIndex, x fixed.Int26_6)) fixed.Int26_6 {
	ppem := fixed.I(size)
	var x fixed.Int26_6
	var last sfnt.GlyphIndex
	for n, r := range []rune(text) {
		i, err := f.GlyphIndex(&s.buf, r)
		if err != nil {
			continue
		}
		if n > 0 {
			if k, err := f.Kern(&s.buf, last, i, ppem, font.HintingNone); err == nil {
				x += k
			}
		}
		if at != nil {
			at(i, x)
		}
		if a, err := f.GlyphAdvance(&s.buf, i, ppem, font.HintingNone); err == nil {
			x += a
		}
		last = i
	}
	return x
}

func (s *canvas) fits(text string, f *sfnt.Font, size, wide int) bool {
	return s.set(text, f, size, nil) <= fixed.I(wide)
}

// shorten takes letters off the end until a line fits, and says that it did.
func (s *canvas) shorten(text string, f *sfnt.Font, size, wide int) string {
	if s.fits(text, f, size, wide) {
		return text
	}
	letters := []rune(text)
	for n := len(letters) - 1; n > 0; n-- {
		if t := strings.TrimRight(string(letters[:n]), " ,") + "…"; s.fits(t, f, size, wide) {
			return t
		}
	}
	return "…"
}

// line writes one line into the middle of a box's height, as large as fits between two
// sizes in pixels.
func (s *canvas) line(text string, box image.Rectangle, face typeface, most, least int, c color.RGBA) {
	f := face()
	text = s.writable(text, f)
	size := most
	for size > least && !s.fits(text, f, size, box.Dx()) {
		size -= 2
	}
	text = s.shorten(text, f, size, box.Dx())
	// A capital stands seven tenths of the size high.
	s.on(box.Inset(-size / 3)) // letters may hang out of their line
	s.write(text, f, size, box.Min.X, (box.Min.Y+box.Max.Y)/2+size*35/100, c)
}

// passage writes at most two lines into a box. A size at which all of it fits is better
// than a larger one at which its end is lost.
func (s *canvas) passage(text string, box image.Rectangle, face typeface, most, least int, c color.RGBA) {
	f := face()
	text = s.writable(text, f)
	for size := most; ; size -= 2 {
		first, rest := s.broken(text, f, size, box.Dx())
		if size > least && !s.fits(rest, f, size, box.Dx()) {
			continue
		}
		if rest == "" {
			s.line(first, box, face, size, size, c)
			return
		}
		upper, lower := box, box
		upper.Max.Y = (box.Min.Y + box.Max.Y) / 2
		lower.Min.Y = upper.Max.Y
		s.line(first, upper, face, size, size, c)
		s.line(rest, lower, face, size, size, c)
		return
	}
}

// broken splits a text behind the last word that fits on a line.
func (s *canvas) broken(text string, f *sfnt.Font, size, wide int) (first, rest string) {
	if s.fits(text, f, size, wide) {
		return text, ""
	}
	words := strings.Fields(text)
	for n := len(words) - 1; n > 0; n-- {
		if first := strings.Join(words[:n], " "); s.fits(first, f, size, wide) {
			return first, strings.Join(words[n:], " ")
		}
	}
	return text, ""
}

// write draws letters on a base line.
func (s *canvas) write(text string, f *sfnt.Font, size, left, base int, c color.RGBA) {
	s.set(text, f, size, func(i sfnt.GlyphIndex, x fixed.Int26_6) {
		segments, err := f.LoadGlyph(&s.buf, i, fixed.I(size), nil)
		if err != nil {
			return
		}
		s.around(segments, fixed.Point26_6{X: fixed.I(left) + x, Y: fixed.I(base)})
	})
	s.ink(c)
}

// around leads the pen around a letter. The pen's own curves mix products with sums, which
// some processors round once and others twice; its straight lines do not. So curves become
// straight lines here, in whole 64ths of a pixel.
func (s *canvas) around(segments sfnt.Segments, at fixed.Point26_6) {
	at = at.Sub(fixed.P(s.area.Min.X, s.area.Min.Y))
	const pieces = 8
	var last fixed.Point26_6
	open := false
	to := func(p fixed.Point26_6) {
		p = p.Add(at)
		s.pen.LineTo(pixels(p.X), pixels(p.Y))
	}
	for _, g := range segments {
		a := g.Args
		end := a[0]
		switch g.Op {
		case sfnt.SegmentOpMoveTo:
			if open {
				s.pen.ClosePath()
			}
			open = true
			p := a[0].Add(at)
			s.pen.MoveTo(pixels(p.X), pixels(p.Y))
		case sfnt.SegmentOpLineTo:
			to(a[0])
		case sfnt.SegmentOpQuadTo:
			end = a[1]
			for t := fixed.Int26_6(1); t <= pieces; t++ {
				u := pieces - t
				mix := func(p, q, r fixed.Int26_6) fixed.Int26_6 {
					return (u*u*p + 2*u*t*q + t*t*r) / (pieces * pieces)
				}
				to(fixed.Point26_6{X: mix(last.X, a[0].X, a[1].X), Y: mix(last.Y, a[0].Y, a[1].Y)})
			}
		case sfnt.SegmentOpCubeTo:
			// A TrueType face, which both are, has none (OpenType 1.9.1, glyf).
			end = a[2]
			to(a[2])
		}
		last = end
	}
	if open {
		s.pen.ClosePath()
	}
}

// pixels is exact: a 64th more or less of a card is a binary fraction.
func pixels(v fixed.Int26_6) float32 { return float32(v) / 64 }

// point moves the pen to a place in whole 64ths of a pixel, so that no processor's last bit
// shows.
func (s *canvas) point(first bool, x, y float64) {
	x, y = x-float64(s.area.Min.X), y-float64(s.area.Min.Y)
	a, b := pixels(fixed.Int26_6(math.Round(float64(x*64)))), pixels(fixed.Int26_6(math.Round(float64(y*64))))
	if first {
		s.pen.MoveTo(a, b)
	} else {
		s.pen.LineTo(a, b)
	}
}

func (s *canvas) polygon(at [][2]float64) {
	for i, p := range at {
		s.point(i == 0, p[0], p[1])
	}
	s.pen.ClosePath()
}

// round is a circle's corners, so many that it looks round.
func round(x, y, r float64) [][2]float64 {
	const corners = 72
	out := make([][2]float64, corners)
	for i := range out {
		sin, cos := math.Sincos(float64(2*math.Pi*float64(i)) / corners)
		out[i] = [2]float64{x + float64(r*cos), y + float64(r*sin)}
	}
	return out
}

// stroke is a straight line of a width.
func (s *canvas) stroke(a, b [2]float64, wide float64) {
	dx, dy := b[0]-a[0], b[1]-a[1]
	long := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	if long == 0 {
		return
	}
	nx, ny := float64(-dy*wide)/(2*long), float64(dx*wide)/(2*long)
	s.polygon([][2]float64{{a[0] + nx, a[1] + ny}, {b[0] + nx, b[1] + ny}, {b[0] - nx, b[1] - ny}, {a[0] - nx, a[1] - ny}})
}

// dashed draws a closed outline as the page draws what rests on no measure.
func (s *canvas) dashed(at [][2]float64) {
	const dash, gap, wide = 9, 6, 3
	for i, a := range at {
		b := at[(i+1)%len(at)]
		dx, dy := b[0]-a[0], b[1]-a[1]
		long := math.Sqrt(float64(dx*dx) + float64(dy*dy))
		for from := 0.0; from < long; from += dash + gap {
			t, u := from/long, min(from+dash, long)/long
			s.stroke([2]float64{a[0] + float64(t*dx), a[1] + float64(t*dy)}, [2]float64{a[0] + float64(u*dx), a[1] + float64(u*dy)}, wide)
		}
	}
}

// sketch draws a trailer on the ground of a window; at is where its box begins.
func (s *canvas) sketch(k *elevation.Sketch, window image.Rectangle, at image.Point) {
	s.on(window)
	x, y := float64(at.X), float64(at.Y)
	moved := func(list [][2]float64) [][2]float64 {
		out := make([][2]float64, len(list))
		for i, p := range list {
			out[i] = [2]float64{p[0] + x, p[1] + y}
		}
		return out
	}
	// Each outline is filled by itself: where two lie on each other in one path and go
	// around in opposite ways, a hole would show.
	for _, part := range k.Solid {
		s.polygon(moved(part))
		s.ink(coal)
	}
	for _, part := range k.Slits {
		for i := 1; i < len(part); i++ {
			l := moved(part[i-1 : i+1])
			s.stroke(l[0], l[1], 2)
		}
	}
	s.ink(mist)
	for _, ring := range []struct {
		of func(elevation.Wheel) float64
		c  color.RGBA
	}{
		{func(w elevation.Wheel) float64 { return w.Tire + 3 }, mist},
		{func(w elevation.Wheel) float64 { return w.Tire }, coal},
		{func(w elevation.Wheel) float64 { return w.Rim }, mist},
	} {
		for _, w := range k.Wheels {
			s.polygon(round(w.X+x, w.Y+y, ring.of(w)))
		}
		s.ink(ring.c)
	}
	for _, part := range k.Guess {
		s.dashed(moved(part))
	}
	for _, w := range k.GuessedWheels {
		// A circle's own corners are its dashes: every second side.
		edge := round(w.X+x, w.Y+y, w.Tire)
		for i := 0; i < len(edge); i += 2 {
			s.stroke(edge[i], edge[i+1], 3)
		}
	}
	s.ink(haze)
}
