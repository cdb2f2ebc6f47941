package photo

import (
	"os"
	"runtime"
	"testing"

	"bytes"
	"image"
	"image/color"
	"image/jpeg"
)

// TestLight: a fine pattern of black and white has half of white's light, which sRGB
// writes as 188 and not as 128 (IEC 61966-2-1: 255 * (1.055 * 0.5^(1/2.4) - 0.055) =
// 187.5).
func TestLight(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 200, 200))
	for y := range 200 {
		for x := range 200 {
			m.SetGray(x, y, color.Gray{uint8(255 * ((x + y) & 1))})
		}
	}
	for _, wide := range []int{100, 50, 33} {
		got := resize(rowsOf(m, nil, false), wide, wide).codes()
		for y := 2; y < wide-2; y++ {
			for x := 2; x < wide-2; x++ {
				if c := got.RGBAAt(x, y).R; c < 180 || c > 195 {
					t.Fatalf("to %d: the code at %d,%d is %d, want about 188", wide, x, y, c)
				}
			}
		}
	}
}

// TestNoRinging: nothing comes out darker than the darker side of an edge, or lighter than
// the lighter one, and an even field stays even to the last bit.
func TestNoRinging(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 317, 61))
	for y := range 61 {
		for x := range 317 {
			m.SetGray(x, y, color.Gray{uint8(40 + 170*min(x/150, 1))})
		}
	}
	for _, wide := range []int{316, 200, 111, 40} {
		got := resize(rowsOf(m, nil, false), wide, 20).codes()
		last := uint8(0)
		for x := range wide {
			c := got.RGBAAt(x, 10).R
			if c < 40 || c > 210 || c < last {
				t.Fatalf("to %d: %d follows %d at %d", wide, c, last, x)
			}
			last = c
		}
		if got.RGBAAt(0, 0).R != 40 || got.RGBAAt(wide-1, 19).R != 210 {
			t.Errorf("to %d: the fields are %d and %d", wide, got.RGBAAt(0, 0).R, got.RGBAAt(wide-1, 19).R)
		}
	}
}

func TestTapsAddUp(t *testing.T) {
	for from := 1; from < 90; from += 3 {
		for to := 1; to <= from; to++ {
			for _, p := range tapsOf(from, to) {
				var sum uint32
				for _, w := range p.weight {
					sum += w
				}
				if sum != 1<<weightBits || p.first < 0 || p.first+len(p.weight) > from {
					t.Fatalf("%d to %d: %+v adds up to %d", from, to, p, sum)
				}
			}
		}
	}
}

// photo12 is a 12-megapixel picture with gravel's grain: gradients and noise.
func photo12() *image.YCbCr {
	m := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	grain := uint32(1)
	for i := range m.Y {
		grain = grain*1664525 + 1013904223
		m.Y[i] = uint8(60 + i/4000/20 + int(grain>>27))
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = uint8(120+i/300000), uint8(130+i%2000/200)
	}
	return m
}

// BenchmarkPhoto is the whole way of a photo of 12 megapixels; MP/s are of the original.
func BenchmarkPhoto(b *testing.B) {
	m := photo12()
	var enc bytes.Buffer
	if err := jpeg.Encode(&enc, m, &jpeg.Options{Quality: 85}); err != nil {
		b.Fatal(err)
	}
	if _, err := encodeWebP(image.NewRGBA(image.Rect(0, 0, 16, 16)), 50); err != nil {
		b.Fatal(err)
	}
	step := func(name string, f func()) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				f()
			}
			b.ReportMetric(12*float64(b.N)/b.Elapsed().Seconds(), "MP/s")
		})
	}
	step("decode", func() { _, _ = jpeg.Decode(bytes.NewReader(enc.Bytes())) })
	l := resize(rowsOf(m, nil, false), Desk, 1200)
	step("to 1600 px", func() { resize(rowsOf(m, nil, false), Desk, 1200) })
	step("turn", func() { l.turned(6) })
	step("to 800, 400 and 240 px", func() {
		s := resize(&rows{light: l}, 800, 600)
		s = resize(&rows{light: s}, 400, 300)
		resize(&rows{light: s}, 240, 180)
	})
	codes := resize(&rows{light: l}, 800, 600).codes()
	for _, q := range []int{76, 40} {
		step("WebP of 800 px at "+map[int]string{76: "76", 40: "40"}[q], func() { _, _ = encodeWebP(codes, q) })
	}
	step("JPEG of 800 px", func() { _, _ = encodeJPEG(codes, 76) })
	step("all of it", func() {
		m, err := jpeg.Decode(bytes.NewReader(enc.Bytes()))
		if err != nil {
			b.Fatal(err)
		}
		if _, _, err := work(rowsOf(m, nil, false), 6); err != nil {
			b.Fatal(err)
		}
	})
	var mem runtime.MemStats
	runtime.ReadMemStats(&mem)
	if status, err := os.ReadFile("/proc/self/status"); err == nil {
		for line := range bytes.Lines(status) {
			if bytes.HasPrefix(line, []byte("VmHWM")) {
				b.Logf("the most memory that the process held: %s", bytes.TrimSpace(line[6:]))
			}
		}
	}
}

// FuzzReadProfile: whatever stands in a profile, its curves and matrix are numbers.
func FuzzReadProfile(f *testing.F) {
	f.Add(make([]byte, 200))
	f.Fuzz(func(t *testing.T, data []byte) {
		if p := readProfile(data); p != nil {
			row := []uint16{0, full, full / 2, full, full, full}
			p.mix(row)
		}
	})
}
