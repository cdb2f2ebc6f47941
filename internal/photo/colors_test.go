package photo

import (
	"encoding/binary"
	"image"
	"image/color"
	"math"
	"testing"
)

// TestSRGB: codes and the light they mean, by the formulas of IEC 61966-2-1 worked by hand: below
// 0.04045 a straight line of 1/12.92, above it ((v + 0.055) / 1.055)^2.4.
func TestSRGB(t *testing.T) {
	for code, want := range map[uint8]float64{
		0: 0, 1: 0.000303527, 10: 0.00303527, 11: 0.003346536, 55: 0.03820437, 128: 0.2158605, 188: 0.5028865, 254: 0.9911021, 255: 1,
	} {
		if got := float64(lightOf[code]) / full; math.Abs(got-want) > 0.5/full+1e-7 {
			t.Errorf("the light of %d is %.7f, want %.7f", code, got, want)
		}
	}
	for c := range 256 {
		if got := codeOf()[lightOf[c]]; int(got) != c {
			t.Errorf("code %d comes back as %d", c, got)
		}
		if c > 0 && lightOf[c] <= lightOf[c-1] {
			t.Errorf("code %d is not lighter than %d", c, c-1)
		}
	}
	for l := 1; l <= full; l++ {
		if codeOf()[l] < codeOf()[l-1] {
			t.Fatalf("light %d is a darker code", l)
		}
	}
}

// TestRowsOfEveryPicture reads pictures of every kind, whole ones and cut-out ones, and compares
// them with what image/color converts them to, laid on white paper.
func TestRowsOfEveryPicture(t *testing.T) {
	whole := image.Rect(0, 0, 9, 7)
	fill := func(pix []uint8, seed int) {
		for i := range pix {
			pix[i] = uint8((i*i*31 + i*7 + seed*53) % 256)
		}
	}
	pictures := map[string]image.Image{}
	for name, ratio := range map[string]image.YCbCrSubsampleRatio{"4:4:4": image.YCbCrSubsampleRatio444, "4:2:2": image.YCbCrSubsampleRatio422, "4:2:0": image.YCbCrSubsampleRatio420,
		"4:4:0": image.YCbCrSubsampleRatio440, "4:1:1": image.YCbCrSubsampleRatio411, "4:1:0": image.YCbCrSubsampleRatio410} {
		m := image.NewYCbCr(whole, ratio)
		fill(m.Y, 1)
		fill(m.Cb, 2)
		fill(m.Cr, 3)
		pictures[name] = m
		a := image.NewNYCbCrA(whole, ratio)
		a.YCbCr = *m
		fill(a.A, 4)
		pictures[name+" with alpha"] = a
	}
	g := image.NewGray(whole)
	fill(g.Pix, 5)
	n := image.NewNRGBA(whole)
	fill(n.Pix, 6)
	p := image.NewPaletted(whole, color.Palette{color.Black, color.NRGBA{200, 20, 90, 128}, color.Transparent, color.White})
	for i := range p.Pix {
		p.Pix[i] = uint8(i % 4)
	}
	rgba := image.NewRGBA(whole)
	deep := image.NewNRGBA64(whole)
	for y := range 7 {
		for x := range 9 {
			rgba.Set(x, y, n.At(x, y))
			deep.Set(x, y, n.At(x, y))
		}
	}
	pictures["gray"], pictures["NRGBA"], pictures["RGBA"], pictures["a palette"], pictures["16 bits"] = g, n, rgba, p, deep
	for name, m := range pictures {
		for _, part := range []image.Rectangle{whole, image.Rect(1, 1, 8, 6), image.Rect(4, 2, 9, 7)} {
			cut := m.(interface {
				SubImage(image.Rectangle) image.Image
			}).SubImage(part)
			clear, ok := cut.(*image.NYCbCrA)
			if ok && part != whole {
				continue // no decoder cuts out a part of one
			}
			src := rowsOf(cut, nil, false)
			wide, high := src.size()
			if wide != part.Dx() || high != part.Dy() {
				t.Fatalf("%s: %d x %d", name, wide, high)
			}
			row := make([]uint16, 3*wide)
			for y := range high {
				src.next(row)
				for x := range wide {
					c := color.NRGBAModel.Convert(cut.At(part.Min.X+x, part.Min.Y+y)).(color.NRGBA)
					if clear != nil { // NRGBA loses colors where little of them is seen
						under := clear.YCbCrAt(x, y)
						c.R, c.G, c.B = color.YCbCrToRGB(under.Y, under.Cb, under.Cr)
						c.A = clear.NYCbCrAAt(x, y).A
					}
					for i, v := range []uint8{c.R, c.G, c.B} {
						a := float64(c.A) / 255
						want := float64(lightOf[v])*a + full*(1-a)
						if d := float64(row[3*x+i]) - want; d < -1.01 || d > 1.01 {
							t.Fatalf("%s, %v: color %d at %d,%d is %d, want %.1f (%v)", name, part, i, x, y, row[3*x+i], want, c)
						}
					}
				}
			}
		}
	}
}

// TestNarrowRange: in the narrow range 16 is black, 235 white and 128 without color, and full red,
// green and blue have the codes of ITU-R BT.601 (table in 2.5: 81 90 240, 145 54 34, 41 240 110).
func TestNarrowRange(t *testing.T) {
	for name, c := range map[string]struct {
		y, cb, cr uint8
		want      [3]uint8
	}{
		"black": {16, 128, 128, [3]uint8{0, 0, 0}}, "white": {235, 128, 128, [3]uint8{255, 255, 255}}, "gray": {126, 128, 128, [3]uint8{128, 128, 128}},
		"red": {81, 90, 240, [3]uint8{255, 0, 0}}, "green": {145, 54, 34, [3]uint8{0, 255, 0}}, "blue": {41, 240, 110, [3]uint8{0, 0, 255}},
		"below black": {0, 128, 128, [3]uint8{0, 0, 0}}, "above white": {255, 128, 128, [3]uint8{255, 255, 255}},
	} {
		m := image.NewYCbCr(image.Rect(0, 0, 1, 1), image.YCbCrSubsampleRatio444)
		m.Y[0], m.Cb[0], m.Cr[0] = c.y, c.cb, c.cr
		row := make([]uint16, 3)
		rowsOf(m, nil, true).next(row)
		for i, want := range c.want {
			if d := int(codeOf()[row[i]]) - int(want); d < -1 || d > 1 {
				t.Errorf("%s: color %d is %d, want %d", name, i, codeOf()[row[i]], want)
			}
		}
	}
}

// TestEveryTurn turns a picture of 3 x 2 numbered pixels. Which side of what is seen the first
// row and the first column are is in EXIF 2.32, 4.6.4 A, tag 0112.
func TestEveryTurn(t *testing.T) {
	l := newLight(3, 2)
	for i := range l.at {
		l.at[i] = uint16(i / 3)
	}
	for turn, want := range map[int][]string{
		0: {"012", "345"}, 1: {"012", "345"}, 2: {"210", "543"}, 3: {"543", "210"}, 4: {"345", "012"},
		5: {"03", "14", "25"}, 6: {"30", "41", "52"}, 7: {"52", "41", "30"}, 8: {"25", "14", "03"}, 9: {"012", "345"},
	} {
		got := l.turned(turn)
		if got.wide != len(want[0]) || got.high != len(want) {
			t.Errorf("turn %d: %d x %d", turn, got.wide, got.high)
			continue
		}
		for y, line := range want {
			for x, c := range line {
				for i := range 3 {
					if got.row(y)[3*x+i] != uint16(c-'0') {
						t.Errorf("turn %d: %d at %d,%d, want %c", turn, got.row(y)[3*x+i], x, y, c)
					}
				}
			}
		}
	}
}

func s15(list ...float64) (out []byte) {
	for _, v := range list {
		out = binary.BigEndian.AppendUint32(out, uint32(int32(math.Round(v*65536))))
	}
	return out
}

// TestParametricCurves: the five functions of ICC.1:2010, table 65, worked by hand on each side of
// where they bend.
func TestParametricCurves(t *testing.T) {
	for _, c := range []struct {
		kind   byte
		values []float64
		at, is float64
	}{
		{0, []float64{2}, 0.5, 0.25},
		{1, []float64{2, 2, -0.5}, 0.5, 0.25}, // (2 x 0.5 - 0.5)^2
		{1, []float64{2, 2, -0.5}, 0.25, 0},   // where it bends: -b/a
		{1, []float64{2, 2, -0.5}, 0.2, 0},    // below
		{2, []float64{2, 2, -0.5, 0.125}, 0.5, 0.375},
		{2, []float64{2, 2, -0.5, 0.125}, 0.2, 0.125},
		{3, []float64{2, 1, 0.5, 0.25, 0.25}, 0.5, 1},       // (0.5 + 0.5)^2
		{3, []float64{2, 1, 0.5, 0.25, 0.25}, 0.25, 0.5625}, // from d on
		{3, []float64{2, 1, 0.5, 0.25, 0.25}, 0.125, 0.03125},
		{4, []float64{2, 1, 0.5, 0.25, 0.25, 0.125, 0.0625}, 0.5, 1.125},
		{4, []float64{2, 1, 0.5, 0.25, 0.25, 0.125, 0.0625}, 0.125, 0.09375},
	} {
		b := append([]byte{'p', 'a', 'r', 'a', 0, 0, 0, 0, 0, c.kind, 0, 0}, s15(c.values...)...)
		f := parametricCurve(b)
		if f == nil {
			t.Errorf("kind %d is not taken", c.kind)
		} else if got := f(c.at); math.Abs(got-c.is) > 1e-4 {
			t.Errorf("kind %d: %v at %v, want %v", c.kind, got, c.at, c.is)
		}
		if parametricCurve(b[:len(b)-1]) != nil {
			t.Errorf("kind %d is taken cut off", c.kind)
		}
	}
}

// icc is a profile of three colorants and one curve for all of them (ICC.1:2010, 7 and 9).
func icc(colorants [9]float64, curve []byte) []byte {
	b := make([]byte, 128)
	copy(b[16:], "RGB XYZ ")
	b = binary.BigEndian.AppendUint32(b, 6)
	at := len(b) + 6*12
	var data []byte
	tag := func(name string, content []byte) {
		b = append(b, name...)
		b = binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(b, uint32(at+len(data))), uint32(len(content)))
		data = append(data, content...)
	}
	for i, name := range []string{"rXYZ", "gXYZ", "bXYZ"} {
		tag(name, append([]byte("XYZ \x00\x00\x00\x00"), s15(colorants[i], colorants[3+i], colorants[6+i])...))
	}
	for _, name := range []string{"rTRC", "gTRC", "bTRC"} {
		tag(name, curve)
	}
	return append(b, data...)
}

// TestProfiles: Display P3's colors in sRGB. The colorants are those of its published profile,
// under D50; the result is the matrix that CSS Color 4, 17, works out for the same step
// (display-p3 to srgb-linear), whose rows it gives as 1.2249 -0.2247 0, -0.0420 1.0419 0,
// -0.0197 -0.0786 1.0979.
func TestProfiles(t *testing.T) {
	srgb := append([]byte("para\x00\x00\x00\x00\x00\x03\x00\x00"), s15(2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045)...)
	p3 := [9]float64{0.51512, 0.29198, 0.15710, 0.24120, 0.69225, 0.06657, -0.00105, 0.04189, 0.78407}
	p := readProfile(icc(p3, srgb))
	if p == nil {
		t.Fatal("Display P3 is not taken")
	}
	for i, want := range []float64{1.2249, -0.2247, 0, -0.0420, 1.0419, 0, -0.0197, -0.0786, 1.0979} {
		if got := float64(p.matrix[i]) / (1 << weightBits); math.Abs(got-want) > 0.002 {
			t.Errorf("number %d of the matrix is %.4f, want %.4f", i, got, want)
		}
	}
	if p.r != lightOf || p.g != lightOf || p.b != lightOf {
		t.Error("its curve is sRGB's and was not seen to be")
	}
	// White stays white, full red is cut off at sRGB's red, and gray stays gray.
	row := []uint16{full, full, full, full, 0, 0, 5000, 5000, 5000}
	p.mix(row)
	for i, want := range []int{full, full, full, full, 0, 0, 5000, 5000, 5000} {
		if d := int(row[i]) - want; d < -20 || d > 20 {
			t.Errorf("number %d is %d, want %d", i, row[i], want)
		}
	}
	own := [9]float64{0.436066, 0.385147, 0.143066, 0.222488, 0.716873, 0.060608, 0.013916, 0.097076, 0.714096}
	if readProfile(icc(own, srgb)) != nil {
		t.Error("sRGB's own profile changes something")
	}
	straight := []byte("curv\x00\x00\x00\x00\x00\x00\x00\x00")
	if p := readProfile(icc(own, straight)); p == nil || p.r[128] != uint16(math.Round(full*128.0/255)) || p.g == lightOf || p.b[255] != full {
		t.Errorf("sRGB's colorants with straight curves: %v", p != nil)
	}
	good := icc(p3, srgb)
	for name, change := range map[string]func(b []byte) []byte{
		"gray":              func(b []byte) []byte { copy(b[16:], "GRAY"); return b },
		"Lab":               func(b []byte) []byte { copy(b[20:], "Lab "); return b },
		"short":             func(b []byte) []byte { return b[:131] },
		"no tags":           func(b []byte) []byte { return b[:132] },
		"half a tag":        func(b []byte) []byte { return b[:132+71] },
		"no curve":          func(b []byte) []byte { copy(b[132+5*12:], "xTRC"); return b },
		"no colorant":       func(b []byte) []byte { copy(b[132+2*12:], "xXYZ"); return b },
		"a colorant cut":    func(b []byte) []byte { return b[:len(b)-len(srgb)*3-1] },
		"another kind":      func(b []byte) []byte { copy(b[132+6*12:], "text"); return b },
		"no such colorants": func(b []byte) []byte { copy(b[132+6*12+8:], s15(20000)); return b },
		"a curve of a kind": func(b []byte) []byte { copy(b[132+6*12+3*20:], "mABx"); return b },
	} {
		if readProfile(change(append([]byte(nil), good...))) != nil {
			t.Errorf("%s: taken", name)
		}
	}
	if got := fixed([]byte{0xff, 0xff, 0x80, 0}); got != -0.5 { // ICC.1:2010, 4.6
		t.Errorf("ffff8000 is %v", got)
	}
	inv := invert([9]float64{2, 0, 1, 0, 4, 0, 1, 0, 1}) // by hand: det 4
	for i, want := range []float64{1, 0, -1, 0, 0.25, 0, -1, 0, 2} {
		if math.Abs(inv[i]-want) > 1e-12 {
			t.Errorf("the inverse is %v", inv)
			break
		}
	}
}
