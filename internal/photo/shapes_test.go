package photo

import (
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// TestPreviewShapes: ten cells wide and as high as the photo is, from three cells to fourteen. A
// cell is dark below code 110 of gray and between below 185.
func TestPreviewShapes(t *testing.T) {
	flat := func(wide, high int, code uint8) *light {
		l := newLight(wide, high)
		for i := range l.at {
			l.at[i] = lightOf[code]
		}
		return l
	}
	for _, c := range []struct{ wide, high, cellsWide, cellsHigh int }{
		{100, 100, 10, 10}, {160, 90, 10, 6}, {90, 120, 10, 13}, {100, 400, 10, 14}, {400, 40, 10, 3}, {100, 74, 10, 7}, {100, 75, 10, 8},
		{9, 6, 9, 6}, {40, 3, 40, 3}, // too small to be made smaller
	} {
		if p := preview(flat(c.wide, c.high, 255)); p.Wide != c.cellsWide || p.High != c.cellsHigh || p.Mid != "" || p.Dark != "" {
			t.Errorf("%d x %d: %+v", c.wide, c.high, p)
		}
	}
	for code, want := range map[uint8]string{109: "dark", 110: "mid", 184: "mid", 185: "", 0: "dark", 255: ""} {
		p := preview(flat(9, 1, code))
		got := ""
		switch {
		case p.Dark == "M0 0h9" && p.Mid == "":
			got = "dark"
		case p.Mid == "M0 0h9" && p.Dark == "":
			got = "mid"
		case p.Mid+p.Dark != "":
			got = p.Mid + p.Dark
		}
		if got != want {
			t.Errorf("code %d is %q, want %q", code, got, want)
		}
	}
	// A dark trailer on a light ground: cells 2 and 3 of the second row.
	l := flat(6, 3, 255)
	for i := 3 * (6 + 2); i < 3*(6+4); i++ {
		l.at[i] = 0
	}
	if p := preview(l); p.Dark != "M2 1h2" || p.Mid != "" {
		t.Errorf("%+v", p)
	}
}

// TestSampledCurve: the curveType of ICC.1:2010, 10.5. One number is a power in 1/256, and a table
// has straight lines between its values.
func TestSampledCurve(t *testing.T) {
	curve := func(n uint32, values ...uint16) []byte {
		b := binary.BigEndian.AppendUint32([]byte("curv\x00\x00\x00\x00"), n)
		for _, v := range values {
			b = binary.BigEndian.AppendUint16(b, v)
		}
		return b
	}
	for name, c := range map[string]struct {
		curve  []byte
		at, is float64
	}{
		"a straight line":        {curve(0), 0.3, 0.3},
		"a power of 2":           {curve(1, 512), 0.5, 0.25},
		"a power of 2.2":         {curve(1, 563), 0.5, math.Pow(0.5, 563.0/256)},
		"two values":             {curve(2, 0, 65535), 0.25, 0.25},
		"the first of three":     {curve(3, 6553, 0, 65535), 0, 0.1 - 0.5/65535},
		"between them":           {curve(3, 0, 13107, 65535), 0.75, 0.6},
		"the last of three":      {curve(3, 0, 13107, 65535), 1, 1},
		"the middle of three":    {curve(3, 0, 13107, 65535), 0.5, 0.2},
		"before the middle":      {curve(3, 0, 13107, 65535), 0.25, 0.1},
		"more than it says":      {curve(2, 0, 65535, 7), 1, 1},
		"from the light to dark": {curve(2, 65535, 0), 0.25, 0.75},
	} {
		f := sampledCurve(c.curve)
		if f == nil {
			t.Errorf("%s: nothing", name)
		} else if got := f(c.at); math.Abs(got-c.is) > 1e-5 {
			t.Errorf("%s: %v at %v, want %v", name, got, c.at, c.is)
		}
	}
	for name, b := range map[string][]byte{"no power": curve(1), "a table cut off": curve(3, 0, 1), "a table of billions": curve(1 << 31)} {
		if f := sampledCurve(b); f != nil {
			t.Errorf("%s: taken", name)
		}
	}
	// A curve that says what sRGB says, as parametricCurveType 3 (IEC 61966-2-1), is sRGB's.
	srgb := []byte("para\x00\x00\x00\x00\x00\x03\x00\x00")
	for _, v := range []float64{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045} {
		srgb = binary.BigEndian.AppendUint32(srgb, uint32(math.Round(v*65536)))
	}
	f := parametricCurve(srgb)
	for c := range 256 {
		if got := f(float64(c) / 255); math.Abs(got-fromSRGB(float64(c)/255)) > 1e-4 {
			t.Fatalf("code %d: %v, sRGB has %v", c, got, fromSRGB(float64(c)/255))
		}
	}
	if parametricCurve(srgb[:len(srgb)-1]) != nil || parametricCurve([]byte("para\x00\x00\x00\x00\x00\x05\x00\x00")) != nil {
		t.Error("a curve that is cut off, or of a sixth kind, is taken")
	}
}

// TestFit: the best quality that stays within the bytes, and the least where none does.
func TestFit(t *testing.T) {
	for _, c := range []struct{ atBest, most, quality int }{
		{1000, 1000, 76}, {1001, 1000, 72}, {4000, 100, 24}, {1000, 0 + 1, 24},
	} {
		asked := 0
		out, err := fit(c.most, func(q int) ([]byte, error) {
			asked = q
			return make([]byte, c.atBest*q/76), nil
		})
		if err != nil || asked != c.quality || len(out) != c.atBest*asked/76 {
			t.Errorf("%d bytes within %d: quality %d with %d bytes, want %d (%v)", c.atBest, c.most, asked, len(out), c.quality, err)
		}
	}
	// The wider it is off, the fewer tries.
	for over, most := range map[int]int{110: 3, 300: 3} {
		tries := 0
		if _, err := fit(1000, func(q int) ([]byte, error) { tries++; return make([]byte, 10*over*q/76), nil }); err != nil || tries > most+2 {
			t.Errorf("%d%%: %d tries (%v)", over, tries, err)
		}
	}
	broken := errors.New("no memory")
	if _, err := fit(1, func(int) ([]byte, error) { return nil, broken }); !errors.Is(err, broken) {
		t.Errorf("%v", err)
	}
}

// TestWithinAWindow: a wide photo fills the window, a high one is shown whole, none grows.
func TestWithinAWindow(t *testing.T) {
	for _, c := range []struct{ wide, high, inWide, inHigh, outWide, outHigh int }{
		{200, 100, 100, 60, 100, 60}, // 120 x 60 of it, cut at the sides
		{200, 150, 100, 60, 100, 60}, // 100 x 75 of it, cut above and below
		{100, 200, 100, 60, 30, 60},
		{60, 40, 100, 60, 60, 40},
	} {
		m := image.NewRGBA(image.Rect(0, 0, c.wide, c.high))
		for i := range m.Pix {
			m.Pix[i] = 200
		}
		// The middle is dark, so that a window on another place shows.
		for y := c.high * 2 / 5; y < c.high*3/5; y++ {
			for x := c.wide * 2 / 5; x < c.wide*3/5; x++ {
				m.Set(x, y, color.Black)
			}
		}
		name := filepath.Join(t.TempDir(), "a.jpg")
		f, err := os.Create(name)
		if err == nil {
			err = errors.Join(jpeg.Encode(f, m, &jpeg.Options{Quality: 95}), f.Close())
		}
		if err != nil {
			t.Fatal(err)
		}
		out, err := (&Picture{JPEG: File{From: name}}).Within(c.inWide, c.inHigh)
		if err != nil || out.Rect.Dx() != c.outWide || out.Rect.Dy() != c.outHigh {
			t.Errorf("%d x %d within %d x %d: %v, %v", c.wide, c.high, c.inWide, c.inHigh, out.Rect, err)
			continue
		}
		gray := func(x, y int) uint8 { return color.GrayModel.Convert(out.At(x, y)).(color.Gray).Y }
		if gray(c.outWide/2, c.outHigh/2) > 40 || gray(1, 1) < 160 || gray(c.outWide-2, c.outHigh-2) < 160 {
			t.Errorf("%d x %d: the window is on another place", c.wide, c.high)
		}
	}
	if _, err := (&Picture{JPEG: File{From: filepath.Join(t.TempDir(), "none.jpg")}}).Within(10, 10); err == nil {
		t.Error("a photo that is gone is shown")
	}
}
