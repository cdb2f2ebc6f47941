package photo_test

import (
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/photo"
)

// TestReadsWebP: a WebP picture comes out turned and in its own colors, whichever of the
// kinds it is. The files in testdata were made of one drawing of four fields by cwebp and
// webpmux 1.2.4, which are libwebp's own; what is wanted are the drawing's colors.
func TestReadsWebP(t *testing.T) {
	red, blue, white, black := color.NRGBA{179, 19, 27, 255}, color.NRGBA{20, 60, 120, 255}, color.NRGBA{255, 255, 255, 255}, color.NRGBA{0, 0, 0, 255}
	for _, c := range []struct {
		file string
		wide int
		want [4]color.NRGBA // top left, top right, bottom left, bottom right
	}{
		{"lossy.webp", 96, [4]color.NRGBA{red, blue, white, black}},
		{"lossless.webp", 96, [4]color.NRGBA{red, blue, white, black}},
		{"alpha.webp", 96, [4]color.NRGBA{white, blue, white, black}}, // the red field is transparent
		{"turned.webp", 64, [4]color.NRGBA{white, red, black, blue}},  // EXIF 2.32, 4.6.4 A: orientation 6
	} {
		data, err := os.ReadFile(filepath.Join("testdata", c.file))
		if err != nil {
			t.Fatal(err)
		}
		p := worked(t, &photo.Shop{Keep: t.TempDir()}, c.file, data)
		if p.Wide != c.wide {
			t.Fatalf("%s is %d wide, want %d", c.file, p.Wide, c.wide)
		}
		f, err := os.Open(p.JPEG.From)
		if err != nil {
			t.Fatal(err)
		}
		m, err := jpeg.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range c.want {
			x, y := p.Wide*(1+2*(i%2))/4, p.High*(1+2*(i/2))/4
			got := color.NRGBAModel.Convert(m.At(x, y)).(color.NRGBA)
			if far(got.R, want.R) || far(got.G, want.G) || far(got.B, want.B) {
				t.Errorf("%s, field %d: %v, want %v", c.file, i, got, want)
			}
		}
	}
	_, faults, err := (&photo.Shop{Keep: t.TempDir()}).Work([]photo.Original{{Name: "moves", Path: "testdata/moves.webp"}})
	if err != nil || !strings.Contains(faults["moves"], "animat") {
		t.Errorf("an animation: %v %v", faults, err)
	}
}

// far allows what two lossy encoders, one after the other, leave of a plain field.
func far(a, b uint8) bool { return max(a, b)-min(a, b) > 7 }
