package photo_test

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/image/vector"
)

var drawn = flag.Bool("draw", false, "draw the demo's photos again into content/media")

const demoMedia = "../../content/media"

// canvas is a drawing of 1,600 x 1,200 in which y grows downward.
type canvas struct{ *image.RGBA }

func rgb(v uint32) color.RGBA { return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255} }

// fill fills an outline whose bounds are known, and works no larger a picture than it.
func (c canvas) fill(col uint32, left, top, right, bottom float32, outline func(v *vector.Rasterizer, dx, dy float32)) {
	to := image.Rect(int(left)-1, int(top)-1, int(right)+2, int(bottom)+2).Intersect(c.Rect)
	v := vector.NewRasterizer(to.Dx(), to.Dy())
	outline(v, float32(-to.Min.X), float32(-to.Min.Y))
	v.ClosePath()
	v.Draw(c.RGBA, to, image.NewUniform(rgb(col)), image.Point{})
}

// shape fills a polygon given as x, y, x, y ...
func (c canvas) shape(col uint32, at ...float32) {
	left, top, right, bottom := at[0], at[1], at[0], at[1]
	for i := 0; i < len(at); i += 2 {
		left, right = min(left, at[i]), max(right, at[i])
		top, bottom = min(top, at[i+1]), max(bottom, at[i+1])
	}
	c.fill(col, left, top, right, bottom, func(v *vector.Rasterizer, dx, dy float32) {
		v.MoveTo(at[0]+dx, at[1]+dy)
		for i := 2; i < len(at); i += 2 {
			v.LineTo(at[i]+dx, at[i+1]+dy)
		}
	})
}

func (c canvas) box(col uint32, left, top, right, bottom float32) {
	draw.Draw(c.RGBA, image.Rect(int(left), int(top), int(right), int(bottom)), image.NewUniform(rgb(col)), image.Point{}, draw.Src)
}

func (c canvas) disk(col uint32, x, y, r float32) {
	const k = 0.5523 // a quarter circle as a cubic curve: common practice
	c.fill(col, x-r, y-r, x+r, y+r, func(v *vector.Rasterizer, dx, dy float32) {
		x, y := x+dx, y+dy
		v.MoveTo(x+r, y)
		v.CubeTo(x+r, y+k*r, x+k*r, y+r, x, y+r)
		v.CubeTo(x-k*r, y+r, x-r, y+k*r, x-r, y)
		v.CubeTo(x-r, y-k*r, x-k*r, y-r, x, y-r)
		v.CubeTo(x+k*r, y-r, x+r, y-k*r, x+r, y)
	})
}

func (c canvas) wheel(x, y, r float32) {
	c.disk(0x16181a, x, y, r)
	c.disk(0x2b2f33, x, y, r*0.82)
	c.disk(0xd9d7d0, x, y, r*0.58)
	c.disk(0x8f9498, x, y, r*0.5)
	c.disk(0x3c4247, x, y, r*0.2)
	for _, d := range [][2]float32{{0.34, 0}, {0.17, 0.3}, {-0.17, 0.3}, {-0.34, 0}, {-0.17, -0.3}, {0.17, -0.3}} {
		c.disk(0x1d2125, x+d[0]*r, y+d[1]*r, r*0.05)
	}
}

// ground fills in sky, a tree line and gravel; its grain is a small generator's and the
// same each time.
func ground(horizon int) canvas {
	c := canvas{image.NewRGBA(image.Rect(0, 0, 1600, 1200))}
	grain := uint32(1)
	for y := range 1200 {
		for x := range 1600 {
			grain = grain*1664525 + 1013904223
			n := int(grain>>28) - 8
			col := color.RGBA{uint8(150 + y/9), uint8(185 + y/16), uint8(222 + y/40), 255}
			if y >= horizon {
				v := 150 + (y-horizon)/24 + n
				col = color.RGBA{uint8(v), uint8(v - 6), uint8(v - 18), 255}
			}
			c.SetRGBA(x, y, col)
		}
	}
	for x := float32(-60); x < 1600; x += 130 {
		c.disk(0x4d6b4a, x+60, float32(horizon)-20, 74)
		c.disk(0x3f5b40, x, float32(horizon)-6, 60)
	}
	draw.Draw(c.RGBA, image.Rect(0, horizon, 1600, horizon+70), image.NewUniform(rgb(0xa39a83)), image.Point{}, draw.Src)
	return c
}

// side is a trailer from its left side.
func side(paint uint32, neck bool, axles int, box, tail float32) canvas {
	c := ground(620)
	c.shape(0x6f6a5e, 120, 960, 1500, 960, 1540, 1000, 80, 1000) // its shadow
	deck := float32(720)
	if neck {
		c.shape(paint, 110, 520, 380, 520, 470, 720, 400, 720, 340, 590, 110, 590)
		c.box(paint, 120, 590, 150, 700)
		c.box(0x3c4247, 250, 590, 276, 930)
	} else {
		c.shape(paint, 120, 770, 430, 740, 430, 775, 120, 800)
		c.box(0x3c4247, 230, 690, 250, 930)
	}
	end := 1450 - tail
	c.box(paint, 390, deck, end, deck+58)
	c.shape(paint, end, deck, 1450, deck+tail*0.35, 1450, deck+tail*0.35+26, end, deck+58)
	if box > 0 {
		c.box(paint, 400, deck-box, 1440, deck)
		for x := float32(450); x < 1430; x += 110 {
			c.box(0x1d2125, x, deck-box+12, x+8, deck-10)
		}
	}
	for x := float32(420); x+60 < end; x += 120 {
		c.box(0xb3131b, x, deck+20, x+60, deck+34)
		c.box(0xfffefb, x+60, deck+20, min(x+120, end), deck+34)
	}
	first := 1060 - float32(axles-1)*100
	for i := range axles {
		c.wheel(first+float32(i)*205, 872, 96)
	}
	c.disk(0xf0a202, 405, deck+28, 12)
	return c
}

func hub() canvas {
	c := ground(180)
	c.box(0x2d3338, 0, 120, 1600, 330)
	c.wheel(800, 700, 430)
	c.disk(0x24282c, 800, 700, 120)
	c.disk(0xf0a202, 800, 700, 74)
	c.disk(0xc98702, 800, 724, 46)
	return c
}

func coupler() canvas {
	c := ground(760)
	c.shape(0x24282c, 620, 0, 980, 0, 940, 620, 660, 620)
	c.box(0x34393e, 700, 560, 900, 860)
	c.disk(0x9aa0a4, 800, 930, 86)
	c.box(0x5c6368, 770, 980, 830, 1200)
	for y := float32(520); y < 980; y += 62 {
		c.disk(0x7d8388, 560-y/14, y, 30)
		c.disk(0x4b5156, 560-y/14, y, 16)
		c.disk(0x7d8388, 1040+y/14, y, 30)
		c.disk(0x4b5156, 1040+y/14, y, 16)
	}
	c.box(0xfffefb, 690, 160, 910, 330)
	for y := float32(190); y < 310; y += 30 {
		c.box(0x1d2125, 710, y, 890, y+9)
	}
	return c
}

// rear is a trailer seen from the rear, its tail or gate down; upright as a phone is held.
func rear(paint uint32) canvas {
	c := ground(560)
	c.shape(paint, 380, 640, 1220, 640, 1340, 1130, 260, 1130)
	for y := float32(680); y < 1100; y += 70 {
		in := (y - 640) * 0.245
		c.box(0x1d2125, 380-in+30, y, 1220+in-30, y+10)
	}
	c.box(0x24282c, 360, 590, 1240, 650)
	for _, x := range []float32{400, 1140} {
		c.box(0xb3131b, x, 600, x+60, 632)
	}
	c.box(0xf0a202, 770, 604, 830, 628)
	return c
}

// demo are the demo's photos by name. One is stored lying on its side with the note that
// a phone makes of it, so that the demo shows it upright only if it is turned.
func demo(t testing.TB) map[string][]byte {
	out := map[string][]byte{}
	enter := func(name string, c canvas, quality int) {
		var b bytes.Buffer
		if err := jpeg.Encode(&b, c.RGBA, &jpeg.Options{Quality: quality}); err != nil {
			t.Fatal(err)
		}
		out[name] = b.Bytes()
	}
	enter("sb-1043-side.jpg", side(0x3a4046, true, 2, 0, 330), 72)
	enter("sb-1043-hubs.jpg", hub(), 72)
	enter("sb-1043-coupler.jpg", coupler(), 72)
	enter("sb-1016-side.jpg", side(0x24303c, false, 2, 0, 300), 72)
	enter("sb-1031-side.jpg", side(0x7a1f24, false, 2, 170, 0), 72)
	enter("sb-1031-rear.jpg", rear(0x7a1f24), 72)
	enter("sb-1027-side.jpg", side(0x2e4a33, false, 2, 0, 0), 72)
	tail := rear(0x3a4046)
	lying := canvas{image.NewRGBA(image.Rect(0, 0, 1200, 1600))}
	for y := range 1600 {
		for x := range 1200 {
			// Seen upright with orientation 6 (EXIF 2.32, 4.6.4 A): row 0 is the left side.
			lying.SetRGBA(x, y, tail.RGBAAt(1599-y, x))
		}
	}
	enter("sb-1043-tail.jpg", lying, 72)
	exif := []byte("\xff\xe1\x00\x22Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00")
	data := out["sb-1043-tail.jpg"]
	out["sb-1043-tail.jpg"] = append(append([]byte("\xff\xd8"), exif...), data[2:]...)
	return out
}

// TestDemoIsDrawn holds the demo's photos against the code that drew them: nobody's real
// photo is among them.
func TestDemoIsDrawn(t *testing.T) {
	total := 0
	for name, data := range demo(t) {
		path := filepath.Join(demoMedia, name)
		if *drawn {
			if err := os.WriteFile(path, data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		there, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(there, data) {
			t.Errorf("%s is not what the code draws; go test ./internal/photo -run Demo -draw", name)
		}
		total += len(data)
	}
	if total > 2_000_000 {
		t.Errorf("the demo's photos have %d bytes together; 2 MB are enough", total)
	}
}
