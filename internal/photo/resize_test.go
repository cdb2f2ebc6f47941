package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"runtime/debug"
	"testing"
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

// grainy is a photo in 4:2:0 with gravel's grain: gradients and noise.
func grainy(wide, high int) *image.YCbCr {
	m := image.NewYCbCr(image.Rect(0, 0, wide, high), image.YCbCrSubsampleRatio420)
	grain := uint32(1)
	for i := range m.Y {
		grain = grain*1664525 + 1013904223
		m.Y[i] = uint8(60 + i/wide*150/high + int(grain>>27))
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = uint8(120+40*i/len(m.Cb)), uint8(130+i%(wide/2)*10/wide)
	}
	return m
}

// BenchmarkPhoto is the way of a photo, step by step: one of 12 megapixels, as a phone writes
// it, and one of 48. MP/CPU-s are megapixels of the original in a second of one processor,
// whatever else the machine does; peak-MiB is what the process held at the most, less what it
// held before the step, on Linux.
func BenchmarkPhoto(b *testing.B) {
	if _, err := encodeWebP(image.NewRGBA(image.Rect(0, 0, 16, 16)), 50); err != nil {
		b.Fatal(err)
	}
	for _, size := range []image.Point{{4032, 3024}, {8064, 6048}} {
		m := grainy(size.X, size.Y)
		var enc bytes.Buffer
		if err := jpeg.Encode(&enc, m, &jpeg.Options{Quality: 85}); err != nil {
			b.Fatal(err)
		}
		megapixels := float64(size.X*size.Y) / 1e6
		step := func(name string, f func()) {
			b.Run(fmt.Sprintf("%.0fMP/%s", megapixels, name), func(b *testing.B) {
				b.ReportAllocs()
				held := fromNow()
				before := cpuSeconds()
				for b.Loop() {
					f()
				}
				b.ReportMetric(megapixels*float64(b.N)/(cpuSeconds()-before), "MP/CPU-s")
				if peak := memory("VmHWM"); held > 0 && peak > 0 {
					b.ReportMetric(float64(peak-held)/1024, "peak-MiB")
				}
			})
		}
		step("decode", func() { _, _ = jpeg.Decode(bytes.NewReader(enc.Bytes())) })
		var four []*light
		step("four widths", func() {
			four = nil
			var s source = rowsOf(m, nil, false)
			for _, to := range sizes(size.X, size.Y) {
				l := resize(s, to.X, to.Y)
				four = append(four, l)
				s = &rows{light: l}
			}
		})
		step("turn", func() { four[0].turned(6) })
		step("encode", func() {
			for i, l := range four {
				if _, _, err := fitted(l, widths[i].most, i > 0, encodeWebP); err != nil {
					b.Fatal(err)
				}
			}
			if _, _, err := fitted(four[1], widths[1].most, true, encodeJPEG); err != nil {
				b.Fatal(err)
			}
		})
		four = nil
		step("all of it", func() {
			m, err := jpeg.Decode(bytes.NewReader(enc.Bytes()))
			if err != nil {
				b.Fatal(err)
			}
			if _, _, err := worked(rowsOf(m, nil, false), 6); err != nil {
				b.Fatal(err)
			}
		})
	}
}

// fromNow gives back what nobody holds, makes the high-water mark begin again, and returns
// what is held, in KiB (proc(5), clear_refs); 0 where that cannot be done.
func fromNow() int {
	debug.FreeOSMemory()
	if os.WriteFile("/proc/self/clear_refs", []byte("5"), 0) != nil {
		return 0
	}
	return memory("VmRSS")
}

// memory is one of the kernel's figures of this process, in KiB.
func memory(name string) (kib int) {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	for line := range bytes.Lines(status) {
		if bytes.HasPrefix(line, []byte(name+":")) {
			_, _ = fmt.Sscan(string(line[len(name)+1:]), &kib)
		}
	}
	return kib
}

// FuzzReadProfile: whatever a profile holds, its curves and matrix are numbers.
func FuzzReadProfile(f *testing.F) {
	f.Add(make([]byte, 200))
	f.Fuzz(func(t *testing.T, data []byte) {
		if p := readProfile(data); p != nil {
			row := []uint16{0, full, full / 2, full, full, full}
			p.mix(row)
		}
	})
}
