package photo

import (
	"fmt"
	"image"
)

// A Picture is what a photo became.
type Picture struct {
	// Wide and High are the original's, as it is seen.
	Wide, High int
	// Preview is shown until the picture has arrived.
	Preview Preview
	// Sketch is what tells whether another photo has nearly the same picture.
	Sketch *Sketch
	// WebP are the same picture in several widths, the narrowest first.
	WebP []File
	// JPEG is what a browser shows that knows no WebP.
	JPEG File
}

// A File is one finished file.
type File struct {
	// Name is its path in the site: photos/3f2a9c1b0d4e5f67-800.webp.
	Name string `json:"-"`
	// From is where it is on the disk.
	From string `json:"-"`

	Wide, High int
	Bytes      int64
	// Sum is the SHA-256 of what it holds.
	Sum string
}

// Thumb, Poster and Phone are the widths of which a page shows one by itself: in the row
// of photos, before a video is played, and large on a phone.
const (
	Thumb  = 240
	Poster = 400
	Phone  = 800
	Desk   = 1600
)

// widths are what the pages use, with the most bytes that each may have. The page's
// column is 704 px wide and a phone 390 px, and screens show two pixels where the page
// counts one. What a customer with one bar of signal loads before any tap is one Phone,
// eight Thumbs and one Poster: less than 60 KB, and the first no more than 30. The JPEG has
// the bytes of a Phone, so that this holds for a phone that knows no WebP too.
var widths = []struct{ wide, most int }{{Desk, 150_000}, {Phone, 29_500}, {Poster, 9_000}, {Thumb, 2_500}}

// At is the file that is closest to a width from above, or the widest.
func (p *Picture) At(wide int) File {
	for _, f := range p.WebP {
		if f.Wide >= wide {
			return f
		}
	}
	return p.WebP[len(p.WebP)-1]
}

// sizes are the sizes at which a photo is shown, the largest first. None is larger than
// the photo, and none much higher than it is wide.
func sizes(wide, high int) []image.Point {
	var out []image.Point
	for _, w := range widths {
		to := image.Pt(min(w.wide, wide), 0)
		to.Y = max((to.X*high+wide/2)/wide, 1)
		if most := 2 * w.wide; to.Y > most {
			to = image.Pt(max((most*wide+high/2)/high, 1), most)
		}
		out = append(out, to)
	}
	return out
}

// fitted encodes a picture so that it stays within a count of bytes. One full of leaves does
// not fit at any quality that can be looked at: fewer pixels, where the picture may have
// fewer, look better than larger blocks.
func fitted(l *light, most int, fewer bool, encode func(*image.RGBA, int) ([]byte, error)) (File, []byte, error) {
	for {
		codes := l.codes()
		b, err := fit(most, func(q int) ([]byte, error) { return encode(codes, q) })
		if err != nil || len(b) <= most || !fewer || l.wide <= 64 || l.high <= 64 {
			return File{Wide: l.wide, High: l.high, Bytes: int64(len(b))}, b, err
		}
		l = resize(&rows{light: l}, l.wide*4/5, l.high*4/5)
	}
}

// worked makes the pictures of a decoded photo.
func worked(src source, turn int) (*Picture, [][]byte, error) {
	wide, high := src.size()
	if turn >= 5 {
		wide, high = high, wide
	}
	out := &Picture{Wide: wide, High: high}
	var data [][]byte
	var l *light
	var asked image.Point
	for i, to := range sizes(wide, high) {
		again := to == asked
		asked = to
		switch {
		case i == 0 && turn >= 5:
			l = resize(src, to.Y, to.X).turned(turn)
		case i == 0:
			l = resize(src, to.X, to.Y).turned(turn)
		case to.X < l.wide:
			l = resize(&rows{light: l}, to.X, to.Y)
		default:
			// The photo itself is narrower: one file serves both widths, if it is small enough.
		}
		if widths[i].wide == Phone {
			f, b, err := fitted(l, widths[i].most, true, encodeJPEG)
			if err != nil {
				return nil, nil, fmt.Errorf("jpeg: %w", err)
			}
			out.JPEG = f
			data = append(data, b)
		}
		f, b, err := fitted(l, widths[i].most, i > 0, encodeWebP)
		if err != nil {
			return nil, nil, err
		}
		if again || len(out.WebP) > 0 && out.WebP[0].Wide == f.Wide {
			// The photo has at most the width of two of the sizes: the smaller file serves both.
			out.WebP[0], data[0] = f, b
			continue
		}
		out.WebP = append([]File{f}, out.WebP...)
		data = append([][]byte{b}, data...)
	}
	out.Preview, out.Sketch = preview(l), sketchOf(l, wide, high)
	return out, data, nil
}
