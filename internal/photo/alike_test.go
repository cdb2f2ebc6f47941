package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	xdraw "golang.org/x/image/draw"

	"tarepage/internal/thorough"
)

// scene draws a picture of boxes on a ground below a sky, as a yard's photos have: the same sky
// and ground in all.
func scene(seed uint64) *image.RGBA {
	r := rand.New(rand.NewPCG(seed, 19))
	m := image.NewRGBA(image.Rect(0, 0, 640, 480))
	fill := func(at image.Rectangle, c color.RGBA) { draw.Draw(m, at, image.NewUniform(c), image.Point{}, draw.Src) }
	fill(m.Rect, color.RGBA{176, 200, 222, 255})
	fill(image.Rect(0, 300, 640, 480), color.RGBA{128, 120, 108, 255})
	for range 14 {
		x, y := r.IntN(560), 80+r.IntN(300)
		fill(image.Rect(x, y, x+20+r.IntN(140), y+10+r.IntN(80)), color.RGBA{uint8(r.IntN(256)), uint8(r.IntN(256)), uint8(r.IntN(256)), 255})
	}
	return m
}

// paper draws a label or a ticket: lines of writing on a light paper on a dark table.
func paper(seed uint64) *image.RGBA {
	r := rand.New(rand.NewPCG(seed, 43))
	m := image.NewRGBA(image.Rect(0, 0, 640, 430))
	draw.Draw(m, m.Rect, image.NewUniform(color.RGBA{62, 64, 68, 255}), image.Point{}, draw.Src)
	draw.Draw(m, image.Rect(35, 30, 605, 400), image.NewUniform(color.RGBA{240, 236, 226, 255}), image.Point{}, draw.Src)
	for y := 55; y < 380; y += 34 {
		for x, end := 60, 60+r.IntN(520); x < end; {
			wide := 4 + r.IntN(10)
			draw.Draw(m, image.Rect(x, y, x+wide, y+18), image.NewUniform(color.RGBA{30, 26, 30, 255}), image.Point{}, draw.Src)
			x += wide + 3 + r.IntN(8)
		}
	}
	return m
}

func saved(t testing.TB, m image.Image, quality int) []byte {
	t.Helper()
	var b bytes.Buffer
	var err error
	if quality == 0 {
		err = png.Encode(&b, m)
	} else {
		err = jpeg.Encode(&b, m, &jpeg.Options{Quality: quality})
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// copiesOf are what somebody may save of a picture.
func copiesOf(t testing.TB, m *image.RGBA) map[string][]byte {
	out := map[string][]byte{"as PNG": saved(t, m, 0)}
	for _, q := range []int{30, 50, 75, 95} {
		out[fmt.Sprintf("at quality %d", q)] = saved(t, m, q)
	}
	wide, high := m.Rect.Dx(), m.Rect.Dy()
	for name, by := range map[string]xdraw.Interpolator{"half": xdraw.CatmullRom, "half by nearest": xdraw.NearestNeighbor} {
		half := image.NewRGBA(image.Rect(0, 0, wide/2, high/2))
		by.Scale(half, half.Rect, m, m.Rect, draw.Src, nil)
		out[name] = saved(t, half, 70)
	}
	// Thousandths at the left, right, top and bottom.
	for _, c := range [][4]int{{50, 0, 0, 0}, {0, 50, 0, 0}, {0, 0, 50, 0}, {0, 0, 0, 50}, {50, 50, 50, 50}, {25, 25, 25, 25}, {12, 37, 43, 6}, {0, 31, 0, 31}, {50, 0, 50, 0}} {
		r := image.Rect(c[0]*wide/1000, c[2]*high/1000, wide-c[1]*wide/1000, high-c[3]*high/1000)
		out[fmt.Sprintf("cropped by %d", c)] = saved(t, m.SubImage(r), 60)
	}
	for _, percent := range []int{90, 110} {
		lit := image.NewRGBA(m.Rect)
		for i, v := range m.Pix {
			if lit.Pix[i] = v; i%4 != 3 {
				lit.Pix[i] = uint8(min(int(v)*percent/100, 255))
			}
		}
		out[fmt.Sprintf("%d %% of its light", percent)] = saved(t, lit, 50)
	}
	for turn := 2; turn <= 8; turn++ {
		to := image.NewRGBA(image.Rect(0, 0, wide, high))
		if turn >= 5 {
			to = image.NewRGBA(image.Rect(0, 0, high, wide))
		}
		for y := range high {
			for x := range wide {
				tx, ty := turnedTo(x, y, to.Rect.Dx(), to.Rect.Dy(), turn)
				to.SetRGBA(tx, ty, m.RGBAAt(x, y))
			}
		}
		out[fmt.Sprintf("turned as EXIF %d", turn)] = saved(t, to, 60)
	}
	for name, c := range map[string]struct{ x, y, gray int }{"a white frame": {60, 60, 255}, "a black frame": {90, 40, 0}, "bars above and below": {0, 150, 10}, "bars at the sides": {220, 0, 240}} {
		framed := image.NewRGBA(image.Rect(0, 0, wide+2*c.x, high+2*c.y))
		draw.Draw(framed, framed.Rect, image.NewUniform(color.Gray{uint8(c.gray)}), image.Point{}, draw.Src)
		draw.Draw(framed, image.Rect(c.x, c.y, c.x+wide, c.y+high), m, m.Rect.Min, draw.Src)
		out[name] = saved(t, framed, 60)
	}
	return out
}

// sketches are the sketches of photos, as a shop makes them for withheld ones.
func sketches(t *testing.T, photos map[string][]byte) map[string]*Sketch {
	t.Helper()
	dir := t.TempDir()
	var list []Original
	for name, data := range photos {
		path := filepath.Join(dir, fmt.Sprint(len(list)))
		writeFile(t, path, data)
		list = append(list, Original{Name: name, Path: path})
	}
	out := (&Shop{Keep: filepath.Join(dir, "keep")}).Sketches(list)
	if len(out) != len(list) {
		t.Fatalf("%d sketches of %d photos", len(out), len(list))
	}
	return out
}

// TestAlike: a copy is known, in whichever direction they are compared, and another picture that
// was drawn alike is not, with a margin.
func TestAlike(t *testing.T) {
	var all []*Sketch
	for seed := range uint64(3) {
		for kind, m := range map[string]*image.RGBA{"scene": scene(seed), "paper": paper(seed)} {
			one := sketches(t, map[string][]byte{"": saved(t, m, 90)})[""]
			all = append(all, one)
			if seed > 0 && !thorough.BeforePush() {
				continue // one picture of each kind is copied, all are compared
			}
			for how, s := range sketches(t, copiesOf(t, m)) {
				if !one.Alike(s) || !s.Alike(one) {
					t.Errorf("%s %d, %s: not known again: edges %d, tint %d", kind, seed, how, one.edges(s), one.tint(s))
				}
			}
		}
	}
	apart(t, all)
}

// apart holds that pictures are not nearly alike.
func apart(t *testing.T, all []*Sketch) {
	t.Helper()
	most := 0
	for i, a := range all {
		for _, b := range all[:i] {
			for turn := 1; turn <= 8; turn++ {
				if b := b.turned(turn); b.luminance(8).like(a.luminance(8), leastSpread) >= leastSmall && a.nearShape(b) && a.tint(b) <= mostTint {
					most = max(most, a.edges(b))
				}
			}
		}
	}
	t.Logf("the edges of two different pictures have a correlation of %d at most", most)
	if most > leastEdges-40 {
		t.Errorf("the bound %d has no margin: %d", leastEdges, most)
	}
}

// TestAlikeDemo does the same with the demo's photos.
func TestAlikeDemo(t *testing.T) {
	thorough.Only(t)
	files, err := filepath.Glob("../../content/media/*.jpg")
	if err != nil || len(files) < 60 {
		t.Fatal(len(files), err)
	}
	photos := map[string][]byte{}
	for i, name := range files {
		if photos[name], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
		if i%24 != 0 {
			continue
		}
		m, err := jpeg.Decode(bytes.NewReader(photos[name]))
		if err != nil {
			t.Fatal(err)
		}
		plain := image.NewRGBA(m.Bounds())
		draw.Draw(plain, plain.Rect, m, m.Bounds().Min, draw.Src)
		one := sketches(t, map[string][]byte{"": photos[name]})[""]
		for how, s := range sketches(t, copiesOf(t, plain)) {
			if !one.Alike(s) {
				t.Errorf("%s, %s: not known again: edges %d, tint %d", name, how, one.edges(s), one.tint(s))
			}
		}
	}
	var all []*Sketch
	for _, s := range sketches(t, photos) {
		all = append(all, s)
	}
	apart(t, all)
}

// TestSketches: what is kept of a withheld photo is its sketch alone, which is that of the same
// photo where pictures are made of it, however it is turned. One that does not decode has none.
func TestSketches(t *testing.T) {
	dir := t.TempDir()
	shop := &Shop{Keep: filepath.Join(dir, "keep")}
	good, bad := filepath.Join(dir, "good.jpg"), filepath.Join(dir, "bad.jpg")
	data := saved(t, scene(1), 90)
	// EXIF 2.32, 4.6.4 A: orientation 6, which is a quarter turn.
	exif := "Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00\x00\x00\x00\x00"
	turned := append([]byte("\xff\xd8\xff\xe1\x00"+string(rune(len(exif)+2))+exif), data[2:]...)
	writeFile(t, good, turned)
	writeFile(t, bad, data[:len(data)/2])
	list := []Original{{Name: "good", Path: good}, {Name: "bad", Path: bad}, {Name: "none", Path: filepath.Join(dir, "none")}}
	first := shop.Sketches(list)
	if len(first) != 1 || first["good"].Wide != 480 || first["good"].High != 640 {
		t.Fatalf("%+v", first)
	}
	kept, err := filepath.Glob(filepath.Join(shop.Keep, edition, "*", "*"))
	if err != nil || len(kept) != 2 || filepath.Ext(kept[0]) != sketchEnding || filepath.Ext(kept[1]) != ".sum" {
		t.Errorf("kept of a withheld photo: %q %v", kept, err)
	}
	made, faults, err := shop.Work(list[:1])
	if err != nil || len(faults) > 0 || !made["good"].Sketch.Alike(first["good"]) {
		t.Fatal(err, faults)
	}
	if again := shop.Sketches(list[:1]); !again["good"].Alike(first["good"]) {
		t.Error("the kept sketch is another one")
	}
	if first["good"].Alike(&Sketch{Wide: 480, High: 640}) || first["good"].Alike(nil) {
		t.Error("a sketch without cells is like another one")
	}
}
