package linkcard_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/color"
	"image/jpeg"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/bep/imagemeta"

	"tarepage/internal/elevation"
	"tarepage/internal/linkcard"
	"tarepage/internal/photo"
)

// face is a card with a sketch, of a trailer that is only numbers.
func face() linkcard.Face {
	return linkcard.Face{
		Yard: "Example Trailer Yard", Title: "83 in x 18 ft equipment trailer", Caution: "The label governs",
		Figures: []linkcard.Figure{{Label: "GVWR", Text: "14,000 lb"}, {Label: "Payload", Text: "10,900 lb"}, {Label: "Price", Text: "$8,450"}},
		Sketch: &elevation.Sketch{
			Solid:  [][][2]float64{{{20, 150}, {520, 150}, {520, 170}, {20, 170}}, {{300, 140}, {300, 175}, {380, 175}, {380, 140}}},
			Slits:  [][][2]float64{{{30, 160}, {200, 160}}},
			Guess:  [][][2]float64{{{500, 100}, {540, 100}, {540, 150}}},
			Wheels: []elevation.Wheel{{X: 300, Y: 205, Tire: 35, Rim: 18}}, GuessedWheels: []elevation.Wheel{{X: 380, Y: 205, Tire: 35}},
		},
	}
}

// grain is a worked photo of noise, which no encoder makes small.
func grain(t testing.TB, wide, high int) *photo.Picture {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, wide, high))
	r := rand.New(rand.NewSource(1))
	for i := range m.Pix {
		m.Pix[i] = uint8(r.Intn(256)) | uint8(i%4/3*255)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	from := filepath.Join(t.TempDir(), "grain.jpg")
	if err := os.WriteFile(from, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(b.Bytes())
	return &photo.Picture{JPEG: photo.File{From: from, Wide: wide, High: high, Sum: hex.EncodeToString(sum[:])}}
}

func drawn(t testing.TB, dir string, f linkcard.Face) (linkcard.File, []byte) {
	t.Helper()
	c, err := linkcard.Drawn(&photo.Shop{Keep: dir}, f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(c.From)
	if err != nil {
		t.Fatal(err)
	}
	return c, data
}

// hashes are the beginnings of the SHA-256 of each card of TestCards, as it looked when a person
// looked at it. They are the same on every processor, for a card's address is made from its hash. Another
// version of Go may encode JPEG in other bytes; then they change, and so do all addresses.
var hashes = map[string]string{
	"empty":       "0709c5eda4db2af1",
	"high photo":  "db5b095a59ab85b3",
	"long":        "ccf21e191fe2897a",
	"no picture":  "c88785012ed46e16",
	"one pixel":   "3107b8b3fea2c0c9",
	"one word":    "1ecabbb99f823957",
	"photo":       "662ca3d55efdb4c4",
	"sketch":      "8bd2c95916dfd8bf",
	"small photo": "e594541e0e04558a",
	"strange":     "7bf48325e77d9260",
	"wide photo":  "b9388a0cf7e7b32d",
}

// shownTo writes a card to a file for a person to look at.
func shownTo(t *testing.T, name string, data []byte) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "linkcard-")
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, strings.ReplaceAll(name, " ", "-")+".jpg")
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// Size, shape and bytes of every kind of card. That a card holds nothing but its picture is
// told by an independent reader, and by the JPEG's own segments (ITU-T T.81, B.2.4.6: APPn and
// COM are what may hold anything else).
func TestCards(t *testing.T) {
	long := face()
	long.Yard = strings.Repeat("The Very Long Yard ", 20)
	long.Title = strings.Repeat("gooseneck deck-over with a hydraulic tail, ", 20)
	long.Figures[1].Text = strings.Repeat("9", 200)
	word := face()
	word.Title = strings.Repeat("W", 500)
	strange := face()
	strange.Title = "Трейлер \u202e\x00 拖車 🚚 é\n<b>"
	bare := face()
	bare.Sketch = nil
	empty := linkcard.Face{}
	for name, f := range map[string]linkcard.Face{"sketch": face(), "long": long, "one word": word, "strange": strange, "no picture": bare, "empty": empty,
		"photo": with(grain(t, 800, 600)), "wide photo": with(grain(t, 800, 60)), "high photo": with(grain(t, 500, 900)), "small photo": with(grain(t, 40, 30)), "one pixel": with(grain(t, 1, 1))} {
		t.Run(name, func(t *testing.T) {
			c, data := drawn(t, t.TempDir(), f)
			if len(data) >= 100_000 {
				t.Errorf("%d bytes", len(data))
			}
			m, err := jpeg.Decode(bytes.NewReader(data))
			if err != nil || m.Bounds() != image.Rect(0, 0, 1200, 630) {
				t.Fatalf("%v, %v", m.Bounds(), err)
			}
			if sum := sha256.Sum256(data); c.Hash != hex.EncodeToString(sum[:])[:16] {
				t.Errorf("%s is not the hash of its bytes", c.Hash)
			}
			if c.Hash != hashes[name] {
				t.Errorf("the card is %s, want %s; look at %s, and enter the new hash if it should look so", c.Hash, hashes[name], shownTo(t, name, data))
			}
			_, err = imagemeta.Decode(imagemeta.Options{R: bytes.NewReader(data), ImageFormat: imagemeta.JPEG, Sources: imagemeta.EXIF | imagemeta.IPTC | imagemeta.XMP,
				HandleTag: func(tag imagemeta.TagInfo) error { t.Errorf("it holds %s %s", tag.Source, tag.Tag); return nil }})
			if err != nil {
				t.Error(err)
			}
			for at := 2; data[at+1] != 0xda; at += 2 + int(data[at+2])<<8 + int(data[at+3]) {
				if k := data[at+1]; k >= 0xe0 && k <= 0xef || k == 0xfe {
					t.Errorf("a segment %#x", k)
				}
			}
		})
	}
}

func with(p *photo.Picture) linkcard.Face {
	f := face()
	f.Sketch, f.Photo = nil, p
	return f
}

// Everything that a face has shows: with one of it other, the card is another; and letters
// stay within their places.
func TestAllShows(t *testing.T) {
	dir := t.TempDir()
	seen := map[string]string{}
	for name, change := range map[string]func(*linkcard.Face){
		"as it is": func(*linkcard.Face) {},
		"yard":     func(f *linkcard.Face) { f.Yard = "Another Trailer Yard" },
		"title":    func(f *linkcard.Face) { f.Title += ", used" },
		"GVWR":     func(f *linkcard.Face) { f.Figures[0].Text = "14,001 lb" },
		"payload":  func(f *linkcard.Face) { f.Figures[1].Text = "10,901 lb" },
		"price":    func(f *linkcard.Face) { f.Figures[2].Text = "Sold" },
		"caution":  func(f *linkcard.Face) { f.Caution = "The label governs." },
		"steel":    func(f *linkcard.Face) { f.Sketch.Solid = f.Sketch.Solid[:1] },
		"slit":     func(f *linkcard.Face) { f.Sketch.Slits = nil },
		"guess":    func(f *linkcard.Face) { f.Sketch.Guess = nil },
		"wheel":    func(f *linkcard.Face) { f.Sketch.Wheels = nil },
		"guessed":  func(f *linkcard.Face) { f.Sketch.GuessedWheels = nil },
		"photo":    func(f *linkcard.Face) { f.Photo = grain(t, 300, 200) },
	} {
		f := face()
		change(&f)
		c, _ := drawn(t, dir, f)
		if other := seen[c.Hash]; other != "" {
			t.Errorf("%s and %s give one card", name, other)
		}
		seen[c.Hash] = name
	}

	f := face()
	_, data := drawn(t, dir, f)
	m, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	// The margins and the gap between picture and figures are empty. JPEG may darken the paper
	// next to an edge by 12.
	for _, r := range []image.Rectangle{image.Rect(0, 100, 34, 555), image.Rect(1166, 100, 1200, 555), image.Rect(634, 230, 656, 555)} {
		for y := r.Min.Y; y < r.Max.Y; y++ {
			for x := r.Min.X; x < r.Max.X; x++ {
				if c := color.GrayModel.Convert(m.At(x, y)).(color.Gray); c.Y < 255-12 {
					t.Fatalf("something is at %d, %d: %v", x, y, c)
				}
			}
		}
	}
}

// A card that is kept is not drawn again, unless it was damaged. Many may ask for it at a time.
func TestKept(t *testing.T) {
	dir := t.TempDir()
	f := with(grain(t, 300, 200))
	c, _ := drawn(t, dir, f)
	if err := os.Remove(f.Photo.JPEG.From); err != nil {
		t.Fatal(err)
	}
	if again, _ := drawn(t, dir, f); again != c {
		t.Errorf("%v is not %v", again, c)
	}
	f.Title = "another"
	if _, err := linkcard.Drawn(&photo.Shop{Keep: dir}, f); err == nil {
		t.Error("a card was drawn of a photo that is gone")
	}

	c, data := drawn(t, dir, face())
	if err := os.WriteFile(c.From, data[:len(data)/2], 0o644); err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			if again, err := linkcard.Drawn(&photo.Shop{Keep: dir}, face()); err != nil || again != c {
				t.Errorf("%v, %v", again, err)
			}
		})
	}
	wg.Wait()
	if _, again := drawn(t, dir, face()); !bytes.Equal(data, again) {
		t.Error("a damaged card was not drawn anew")
	}
}

func BenchmarkCard(b *testing.B) {
	shop := &photo.Shop{Keep: b.TempDir()}
	for _, kind := range []struct {
		name string
		face linkcard.Face
	}{{"sketch", face()}, {"photo", with(grain(b, 800, 600))}} {
		b.Run(kind.name+"/drawn", func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				f := kind.face
				f.Title += strings.Repeat("i", 1+i%20) + strings.Repeat("l", i/20)
				if _, err := linkcard.Drawn(shop, f); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(kind.name+"/kept", func(b *testing.B) {
			for b.Loop() {
				if _, err := linkcard.Drawn(shop, kind.face); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
