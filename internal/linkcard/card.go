package linkcard

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"image"
	"image/jpeg"

	"tarepage/internal/elevation"
	"tarepage/internal/photo"
)

// Wide and High are every card's pixels: the shape that whoever shows a shared link cuts
// pictures to (common practice, no source).
const (
	Wide = 1200
	High = 630
)

// Most is how many bytes a card may have.
const Most = 100_000

// edition is part of what a card is kept by. It changes with anything that changes what is
// drawn: places, sizes, colors, type faces.
const edition = "card 2"

// A Face is everything that stands on a card.
type Face struct {
	// Yard is the yard's name, Title the trailer's.
	Yard, Title string
	// Figures are the figures as the trailer's page prints them, at most three.
	Figures []Figure
	// Caution is the line at the foot.
	Caution string
	// Photo is the trailer's first photo. Where there is none, Sketch is drawn, which is as
	// large as SketchWide and SketchHigh; where there is neither, the figures take the
	// whole width.
	Photo  *photo.Picture
	Sketch *elevation.Sketch
}

// A Figure is one line of a card.
type Figure struct{ Label, Text string }

// A File is a finished card.
type File struct {
	// From is where it stands on the disk.
	From string
	// Hash is the beginning of the SHA-256 of its bytes, for its address.
	Hash string
}

// Drawn returns the card of a face: out of what the shop keeps if the same was drawn
// before, else it is drawn and kept there. It may be called by many at a time.
func Drawn(shop *photo.Shop, f Face) (File, error) {
	key, err := f.key()
	if err != nil {
		return File{}, err
	}
	from, sum, err := shop.Kept(key, ".jpg", f.draw)
	if err != nil {
		return File{}, err
	}
	return File{From: from, Hash: sum[:16]}, nil
}

// key is the hash of all that shows: two faces that look the same have one. Of a photo it
// takes the finished file's hash and not the pixels, which are not read for a card that is
// kept.
func (f *Face) key() (string, error) {
	shown := struct {
		Edition, Yard, Title, Caution, Photo string
		Figures                              []Figure
		Sketch                               *elevation.Sketch
	}{Edition: edition, Yard: f.Yard, Title: f.Title, Caution: f.Caution, Figures: f.Figures}
	if f.Photo != nil {
		shown.Photo = f.Photo.JPEG.Sum
	} else {
		shown.Sketch = f.Sketch
	}
	text, err := json.Marshal(shown)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:]), nil
}

// The card from top to bottom: the yard's name on charcoal, the title on paper, the
// picture next to the figures, the caution on mist. A link is often shown 300 px wide, a
// quarter of this: the smallest letters have 40 px here, and 10 there.
var (
	head    = image.Rect(0, 0, Wide, 84)
	rule    = image.Rect(0, 84, Wide, 92)
	caption = image.Rect(margin, 98, Wide-margin, 226)
	window  = image.Rect(margin, 232, 624, 548)
	column  = image.Rect(664, 232, Wide-margin, 548)
	foot    = image.Rect(0, 562, Wide, High)
)

const margin = 36

// SketchWide and SketchHigh are the pixels of the box in which a sketch stands.
const (
	SketchWide = 556
	SketchHigh = 240
	beside     = 16 // from the window's edge to the box
	above      = 36
)

func (f *Face) draw() ([]byte, error) {
	s := newCanvas()
	s.fill(s.m.Rect, paper)
	s.fill(head, coal)
	s.fill(rule, haze)
	s.line(f.Yard, between(head), bold, 50, 40, paper)
	s.passage(f.Title, caption, bold, 56, 44, coal)

	figures := column
	switch {
	case f.Photo != nil:
		s.fill(window, coal)
		m, err := f.Photo.Within(window.Dx(), window.Dy())
		if err != nil {
			return nil, err
		}
		s.lay(m, window)
	case f.Sketch != nil:
		s.fill(window, mist)
		ground := window
		ground.Min.Y = window.Min.Y + above + SketchHigh
		ground.Max.Y = ground.Min.Y + 6
		s.fill(ground, haze)
		s.sketch(f.Sketch, window, window.Min.Add(image.Pt(beside, above)))
	default:
		figures.Min.X = margin
	}
	for i, g := range f.Figures {
		row := figures
		row.Min.Y += i * figures.Dy() / len(f.Figures)
		row.Max.Y = figures.Min.Y + (i+1)*figures.Dy()/len(f.Figures)
		label, text := row, row
		label.Max.Y = row.Min.Y + 42
		text.Min.Y = label.Max.Y
		s.line(g.Label, label, regular, 40, 40, coal)
		s.line(g.Text, text, bold, 60, 40, coal)
	}
	s.fill(foot, mist)
	s.line(f.Caution, between(foot), bold, 50, 40, coal)
	return encode(s.m)
}

// between is a band without the margins at its sides.
func between(band image.Rectangle) image.Rectangle {
	return image.Rect(band.Min.X+margin, band.Min.Y, band.Max.X-margin, band.Max.Y)
}

// encode makes a JPEG, which holds nothing but the picture. Letters want a high quality;
// a photo full of leaves steps down until the file is small enough.
func encode(m image.Image) ([]byte, error) {
	for _, quality := range []int{84, 76, 66, 54, 40, 25, 10, 1} {
		var b bytes.Buffer
		if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: quality}); err != nil {
			return nil, err
		}
		if b.Len() < Most {
			return b.Bytes(), nil
		}
	}
	return nil, fmt.Errorf("a card does not fit into %d bytes at any quality", Most)
}
