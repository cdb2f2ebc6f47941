package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/image/webp"

	"tarepage/internal/thorough"
)

// hard is a photo that no encoder likes: leaves, gravel and a fence, all of it fine and all
// of it sharp. Its grain is a small generator's and the same each time.
func hard(wide, high int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, wide, high))
	seed := uint32(7)
	next := func(n int) int {
		seed = seed*1664525 + 1013904223
		return int(uint64(seed) * uint64(n) >> 32)
	}
	for y := range high {
		for x := range wide {
			v := 100 + next(70)
			m.SetRGBA(x, y, color.RGBA{uint8(v), uint8(v - 6), uint8(v - 18), 255})
		}
	}
	for range wide * high / 110 {
		cx, cy, r := next(wide), next(high*2/3), 3+next(wide/110)
		c := color.RGBA{uint8(20 + next(90)), uint8(60 + next(140)), uint8(15 + next(60)), 255}
		for y := max(cy-r, 0); y < min(cy+r, high); y++ {
			for x := max(cx-r, 0); x < min(cx+r, wide); x++ {
				if dx, dy := x-cx, y-cy; dx*dx+2*dy*dy < r*r {
					m.SetRGBA(x, y, c)
				}
			}
		}
	}
	for y := high / 3; y < high; y++ {
		for _, d := range []int{y, -y} {
			for x := (d%24 + 24) % 24; x < wide; x += 24 {
				m.SetRGBA(x, y, color.RGBA{210, 212, 214, 255})
			}
		}
	}
	return m
}

func demoPhoto(t testing.TB, name string) image.Image {
	t.Helper()
	f, err := os.Open(filepath.Join("../../content/media", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := jpeg.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// mostHero is what the first photo of a page may weigh on a phone 390 px wide: issue 6.
const mostHero = 30_000

// TestHero: whatever a phone 390 px wide loads of a photo is at most 30 KB, also where it
// knows no WebP, and it still looks like the photo. The demo's photos are easy; the hard one
// loses quality first and pixels then.
func TestHero(t *testing.T) {
	thorough.Only(t)
	photos := map[string]image.Image{"hard": hard(900, 675)}
	names, err := filepath.Glob("../../content/media/*.jpg")
	if err != nil || len(names) == 0 {
		t.Fatal("the demo has no photos", err)
	}
	if os.Getenv("TAREPAGE_LONG") == "" {
		names = names[:1]
	} else {
		photos["hard upright"], photos["hard and large"] = hard(810, 1080), hard(2400, 1800)
	}
	for _, name := range names {
		photos[filepath.Base(name)] = demoPhoto(t, filepath.Base(name))
	}
	for name, m := range photos {
		p, data, err := worked(rowsOf(m, nil, false), 1)
		if err != nil {
			t.Fatal(err)
		}
		shown := 0
		for i, f := range append(p.WebP, p.JPEG) {
			if f.Bytes != int64(len(data[i])) {
				t.Errorf("%s: %d bytes are %d", name, f.Bytes, len(data[i]))
			}
			if f.Wide > Phone {
				continue // pages offer it to no phone, which .ci/browser/check.mjs asks a browser
			}
			if shown++; len(data[i]) > mostHero {
				t.Errorf("%s: %d px wide it has %d bytes, want at most %d", name, f.Wide, len(data[i]), mostHero)
			}
			if f.Wide < Poster {
				continue
			}
			shownAs, err := decoded(data[i])
			if err != nil {
				t.Fatal(err)
			}
			ideal := resize(rowsOf(m, nil, false), f.Wide, f.High).codes()
			if like := likeness(shadesOf(ideal), shadesOf(shownAs)); like < 0.55 || like < 0.9 && !strings.HasPrefix(name, "hard") {
				t.Errorf("%s: %d px wide it has a likeness of %.3f", name, f.Wide, like)
			}
		}
		if shown < 3 {
			t.Errorf("%s: only %d files are small enough for a phone", name, shown)
		}
	}
}

// decoded decodes a finished file as it is seen: Go's decoder of WebP hands out the codes
// of the narrow range as if they were of the full one.
func decoded(data []byte) (image.Image, error) {
	if bytes.HasPrefix(data, []byte("RIFF")) {
		m, err := webp.Decode(bytes.NewReader(data))
		if err != nil {
			return nil, err
		}
		b := m.Bounds()
		return resize(rowsOf(m, nil, true), b.Dx(), b.Dy()).codes(), nil
	}
	m, err := jpeg.Decode(bytes.NewReader(data))
	return m, err
}

// TestEncoders measures the encoders that were considered, at the width of the picture that a
// phone shows, for docs/notes/photos.md. It checks nothing; -v prints the table. AVIF needs a
// module that nothing else here needs: TAREPAGE_AVIF=1 fetches it (testdata/avif).
func TestEncoders(t *testing.T) {
	if os.Getenv("TAREPAGE_ENCODERS") == "" {
		t.Skip("set TAREPAGE_ENCODERS=1 to measure the encoders, and TAREPAGE_AVIF=1 for AVIF too")
	}
	encodeJPEG(image.NewRGBA(image.Rect(0, 0, 16, 16)), 50)
	if _, err := encodeWebPBy(image.NewRGBA(image.Rect(0, 0, 16, 16)), 50, method); err != nil {
		t.Fatal(err)
	}
	for _, subject := range []struct {
		name string
		m    image.Image
	}{{"demo, gooseneck", demoPhoto(t, "sb-1043-side.jpg")}, {"demo, rear", demoPhoto(t, "sb-1031-rear.jpg")}, {"hard", hard(1600, 1200)}} {
		b := subject.m.Bounds()
		m := resize(rowsOf(subject.m, nil, false), Phone, b.Dy()*Phone/b.Dx()).codes()
		ideal := shadesOf(m)
		row := func(name string, encode func(q int) ([]byte, error), qualities ...int) {
			for _, q := range qualities {
				before := cpuSeconds()
				data, err := encode(q)
				spent := cpuSeconds() - before
				if err != nil {
					t.Fatal(err)
				}
				back, err := decoded(data)
				if err != nil {
					t.Fatal(err)
				}
				t.Logf("%-16s %-14s q%-3d %7d bytes  likeness %.4f  %.2f CPU s", subject.name, name, q, len(data), likeness(ideal, shadesOf(back)), spent)
			}
		}
		row("JPEG", func(q int) ([]byte, error) { return encodeJPEG(m, q) }, 76, 50, 24)
		for _, method := range []int{0, 2, 4, 6} {
			row(fmt.Sprintf("WebP method %d", method), func(q int) ([]byte, error) { return encodeWebPBy(m, q, method) }, 76, 50, 24)
		}
		if os.Getenv("TAREPAGE_AVIF") != "" {
			avif(t, subject.name, m, ideal)
		}
	}
}

// avif runs the encoder in testdata/avif, which writes each picture back as PNG.
func avif(t *testing.T, subject string, m image.Image, ideal shades) {
	dir := t.TempDir()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "in.png"), b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("go", "run", "-mod=mod", "-tags", "nodynamic", ".", dir)
	cmd.Dir = "testdata/avif"
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line) // speed, quality, bytes, CPU seconds, file
		data, err := os.ReadFile(f[4])
		if err != nil {
			t.Fatal(err)
		}
		back, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		seen := image.NewRGBA(back.Bounds())
		draw.Draw(seen, seen.Rect, back, image.Point{}, draw.Src)
		size, _ := strconv.Atoi(f[2])
		t.Logf("%-16s %-14s q%-3s %7d bytes  likeness %.4f  %s CPU s", subject, "AVIF speed "+f[0], f[1], size, likeness(ideal, shadesOf(seen)), f[3])
	}
}
