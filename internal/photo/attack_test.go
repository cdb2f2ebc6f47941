package photo

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"tarepage/internal/media"
)

// onePicture is a JPEG of one color.
func onePicture(t *testing.T, c color.Color) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 320, 240))
	for i := range 320 * 240 {
		m.Set(i%320, i/320, c)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func writeFile(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// isRed reports whether a picture's JPEG is red, and not blue.
func isRed(t *testing.T, p *Picture) bool {
	t.Helper()
	m, err := p.Within(10, 10)
	if err != nil {
		t.Fatal(err)
	}
	c := m.RGBAAt(2, 2)
	return c.R > c.B
}

// TestSwappedWhileRead: a photo that is replaced after it was hashed and before it is decoded
// does not leave its picture under the other's hash. Told is called between the two.
func TestSwappedWhileRead(t *testing.T) {
	dir := t.TempDir()
	red, blue := onePicture(t, color.RGBA{R: 255, A: 255}), onePicture(t, color.RGBA{B: 255, A: 255})
	names := []Original{{Name: "a", Path: filepath.Join(dir, "a.jpg")}, {Name: "b", Path: filepath.Join(dir, "b.jpg")}}
	writeFile(t, names[0].Path, red)
	// Another red: with the same bytes, a could rightly take the pictures that b has just kept.
	writeFile(t, names[1].Path, onePicture(t, color.RGBA{R: 200, A: 255}))
	shop := &Shop{Keep: filepath.Join(dir, "keep")}
	shop.Told = func(done, _ int) {
		if done > 0 {
			return
		}
		writeFile(t, filepath.Join(dir, "new.jpg"), blue)
		if err := os.Rename(filepath.Join(dir, "new.jpg"), names[0].Path); err != nil {
			t.Fatal(err)
		}
	}
	made, faults, err := shop.Work(names)
	if err != nil || len(faults) > 0 || len(made) != 2 {
		t.Fatalf("%v %v %v", made, faults, err)
	}
	if isRed(t, made["a"]) || !isRed(t, made["b"]) {
		t.Errorf("a is red: %v, b is red: %v", isRed(t, made["a"]), isRed(t, made["b"]))
	}
	shop.Told = nil
	writeFile(t, names[0].Path, red)
	made, _, err = shop.Work(names)
	if err != nil || !isRed(t, made["a"]) || !isRed(t, made["b"]) {
		t.Errorf("a later build shows another photo (%v)", err)
	}
}

// TestKeepIsFull: where nothing can be written into the folder of pictures, the spare one is
// used; without one it is an error.
func TestKeepIsFull(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.jpg")
	data := onePicture(t, color.RGBA{R: 255, A: 255})
	writeFile(t, path, data)
	for name, in := range map[string]string{
		"no folder": "no-folder", "no room": filepath.Join("no-room", edition, sumOf(data)[:2]),
	} {
		keep := filepath.Join(dir, strings.ReplaceAll(name, " ", "-"))
		writeFile(t, filepath.Join(dir, in), []byte("in the way"))
		spare := filepath.Join(t.TempDir(), "spare")
		made, faults, err := (&Shop{Keep: keep, Spare: spare}).Work([]Original{{Name: "a", Path: path}})
		if err != nil || len(faults) > 0 || made["a"] == nil || !strings.HasPrefix(made["a"].JPEG.From, spare) {
			t.Errorf("%s: %+v %v %v", name, made["a"], faults, err)
		}
		key := strings.Repeat("0a", 32)
		if name == "no room" {
			key = sumOf(data)
		}
		draw := func() ([]byte, error) { return []byte("card"), nil }
		from, _, err := (&Shop{Keep: keep, Spare: spare}).Kept(key, ".jpg", draw)
		if got, _ := os.ReadFile(from); err != nil || string(got) != "card" || !strings.HasPrefix(from, spare) {
			t.Errorf("%s: a card is in %q (%v)", name, from, err)
		}
		if again, _, err := (&Shop{Keep: keep, Spare: spare}).Kept(key, ".jpg", func() ([]byte, error) { return nil, io.EOF }); err != nil || again != from {
			t.Errorf("%s: the card is drawn twice (%v)", name, err)
		}
		if _, _, err := (&Shop{Keep: keep}).Work([]Original{{Name: "a", Path: path}}); err == nil {
			t.Errorf("%s: no error without a spare folder", name)
		}
		if _, _, err := (&Shop{Keep: keep}).Kept(key, ".jpg", draw); err == nil {
			t.Errorf("%s: no error for a card without a spare folder", name)
		}
	}
}

// TestTwins: two photos whose files would have one name and different bytes.
func TestTwins(t *testing.T) {
	file := func(sum string) *Picture {
		return &Picture{JPEG: File{Name: "photos/0123456789abcdef-800.jpg", Sum: sum}, WebP: []File{{Name: "photos/0123456789abcdef-800.webp", Sum: sum}}}
	}
	w := &work{made: map[string]*Picture{"a": file("1"), "b": file("2"), "c": file("1")}, faults: map[string]string{}}
	w.refuseTwins()
	if len(w.made) != 2 || w.made["b"] != nil || !strings.Contains(w.faults["b"], "is that of another photo, a") {
		t.Errorf("%v, %v", w.made, w.faults)
	}
}

// scanned is the head of a progressive JPEG with a number of empty scans: T.81, B.2.
func scanned(wide, high uint16, scans int) []byte {
	out := []byte{0xff, 0xd8, 0xff, 0xc2, 0, 11, 8, byte(high >> 8), byte(high), byte(wide >> 8), byte(wide), 1, 1, 0x11, 0}
	for range scans {
		out = append(out, 0xff, 0xda, 0, 8, 1, 1, 0, 0, 0, 0, 0x12, 0xff, 0x00, 0x34)
	}
	return append(out, 0xff, 0xd9, 0xff, 0xda)
}

// TestBombs: files that ask for much more work than they look like.
func TestBombs(t *testing.T) {
	for _, c := range []struct {
		wide, high uint16
		scans      int
		refused    bool
	}{
		{8000, 6000, 10, false}, {8000, 6000, 60, false}, {8000, 6000, 70, true}, {4000, 3000, 6000, true}, {100, 100, 6000, false}, {10000, 10000, 32, false}, {10000, 10000, 33, true},
	} {
		// As many bytes as a picture of its pixels must have at least.
		data := append(scanned(c.wide, c.high, c.scans), make([]byte, int(c.wide)*int(c.high)/100)...)
		head := media.LookAtPhoto(bytes.NewReader(data), int64(len(data)))
		if (Refused(&head) != "") != c.refused {
			t.Errorf("%d x %d in %d scans: %q", c.wide, c.high, c.scans, Refused(&head))
		}
		if c.refused && !strings.Contains(head.Fault, "times") {
			t.Errorf("%q does not say why", head.Fault)
		}
	}
	// What takes too long ends, whatever it is.
	data := onePicture(t, color.White)
	head := media.LookAtPhoto(bytes.NewReader(data), int64(len(data)))
	if _, err := decode(data, &head, time.Now().Add(-time.Second)); !errors.Is(err, errTooLong) {
		t.Errorf("decoded after its time: %v", err)
	}
	if _, err := decode(data, &head, time.Now().Add(time.Minute)); err != nil {
		t.Error(err)
	}
	if got, err := io.ReadAll(&timed{r: strings.NewReader("abc"), until: time.Now().Add(time.Minute)}); err != nil || string(got) != "abc" {
		t.Errorf("%q %v", got, err)
	}
}

// TestOneLargePictureAtATime: the memory of a large picture is given back before the next one
// is begun.
func TestOneLargePictureAtATime(t *testing.T) {
	if os.Getenv("TAREPAGE_LONG") == "" {
		t.Skip("NOT CHECKED: without TAREPAGE_LONG no large pictures are worked")
	}
	dir := t.TempDir()
	var list []Original
	for i := range 4 {
		m := image.NewPaletted(image.Rect(0, 0, 12500, 12500), color.Palette{color.Gray{uint8(i)}, color.White})
		for at, random := 0, uint32(i+1); at < len(m.Pix); at += int(random>>24) + 1 { // not flat, as flat ones are refused
			random = random*1664525 + 1013904223
			m.Pix[at] = 1
		}
		var b bytes.Buffer
		if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		data := b.Bytes()
		name := filepath.Join(dir, string(rune('a'+i))+".png")
		writeFile(t, name, data)
		list = append(list, Original{Name: name, Path: name})
	}
	stop, most := make(chan bool), make(chan uint64)
	go func() {
		peak := uint64(0)
		for {
			select {
			case <-stop:
				most <- peak
				return
			case <-time.After(5 * time.Millisecond):
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				peak = max(peak, m.HeapInuse)
			}
		}
	}()
	_, faults, err := (&Shop{Keep: filepath.Join(dir, "keep")}).Work(list)
	close(stop)
	if peak := <-most; peak > 1<<30 || err != nil || len(faults) > 0 {
		t.Errorf("%d MiB at most, %v %v", peak>>20, faults, err)
	}
}

// TestNotAFile: a pipe in the place of a photo does not hold up the build.
func TestNotAFile(t *testing.T) {
	dir := t.TempDir()
	_, faults, err := (&Shop{Keep: filepath.Join(dir, "keep")}).Work([]Original{{Name: "dir", Path: dir}, {Name: "none", Path: filepath.Join(dir, "none.jpg")}, {Name: "null", Path: os.DevNull}})
	if err != nil || faults["dir"] != "it cannot be read: not a plain file" || faults["null"] != faults["dir"] || !strings.Contains(faults["none"], "no such file") {
		t.Errorf("%v %v", faults, err)
	}
}

// TestKeptByNobody: pictures that somebody else put where pictures are kept are not believed,
// however well their sums fit: those of another photo, moved; and a note that was written new. A
// yard that came in a ZIP file can bring such a folder.
func TestKeptByNobody(t *testing.T) {
	dir := t.TempDir()
	red, blue := onePicture(t, color.RGBA{R: 255, A: 255}), onePicture(t, color.RGBA{B: 255, A: 255})
	path := func(name string) string { return filepath.Join(dir, name) }
	writeFile(t, path("red.jpg"), red)
	writeFile(t, path("blue.jpg"), blue)
	shop := &Shop{Keep: path("keep"), Spare: path("spare")}
	work := func(name string) *Picture {
		t.Helper()
		made, faults, err := shop.Work([]Original{{Name: name, Path: path(name)}})
		if err != nil || len(faults) > 0 {
			t.Fatal(faults, err)
		}
		return made[name]
	}
	work("blue.jpg")
	of := func(shopDir string, data []byte) string { return (&keep{dir: shopDir}).place(sumOf(data)) }
	forge := func() {
		name := filepath.Join(of(shop.Spare, red), noteName)
		note, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		_, text, _ := bytes.Cut(note, []byte("\n"))
		writeFile(t, name, append([]byte(sumOf(text)+"\n"), text...))
	}
	for what, change := range map[string]func(){"moved": func() {}, "with a note of its own": forge} {
		if err := errors.Join(os.RemoveAll(shop.Spare), os.RemoveAll(of(shop.Keep, red)), os.CopyFS(of(shop.Spare, red), os.DirFS(of(shop.Keep, blue)))); err != nil {
			t.Fatal(err)
		}
		change()
		if p := work("red.jpg"); !isRed(t, p) || !strings.HasPrefix(p.JPEG.From, shop.Keep) {
			t.Errorf("%s: the picture of another photo was believed: %s", what, p.JPEG.From)
		}
	}

	// A single file, such as a card for shared links.
	a, b := sumOf([]byte("a")), sumOf([]byte("b"))
	drawn := func(key, text string) string {
		t.Helper()
		from, sum, err := shop.Kept(key, ".jpg", func() ([]byte, error) { return []byte(text), nil })
		got, read := os.ReadFile(from)
		if err := errors.Join(err, read); err != nil || sum != sumOf(got) {
			t.Fatal(err, sum)
		}
		return string(got)
	}
	drawn(a, "card a")
	k := &keep{dir: shop.Keep}
	for _, ext := range []string{".jpg", ".sum"} {
		data, err := os.ReadFile(k.place(a) + ext)
		if err != nil {
			t.Fatal(err)
		}
		writeFile(t, k.place(b)+ext, data)
	}
	if got := drawn(b, "card b"); got != "card b" {
		t.Errorf("a card that was moved was believed: %q", got)
	}
	writeFile(t, k.place(b)+".jpg", []byte("forged"))
	writeFile(t, k.place(b)+".sum", []byte(sumOf([]byte("forged"))))
	if got := drawn(b, "card b"); got != "card b" {
		t.Errorf("a card with a sum of its own was believed: %q", got)
	}
}

// TestCopies: a copy is found, also by the build after the one that kept which photos are none, and
// what was kept for other withheld photos is not believed.
func TestCopies(t *testing.T) {
	shop := &Shop{Keep: filepath.Join(t.TempDir(), "keep")}
	one := sketches(t, map[string][]byte{"a": saved(t, scene(1), 90), "b": saved(t, scene(2), 90), "copy": saved(t, scene(1), 40)})
	shown := map[string]*Picture{"b": {Sketch: one["b"]}, "copy": {Sketch: one["copy"]}}
	for range 2 {
		if got := shop.Copies(shown, map[string]*Sketch{"a": one["a"]}); len(got) != 1 || got["copy"] != "a" {
			t.Errorf("%v", got)
		}
	}
	if got := shop.Copies(shown, map[string]*Sketch{"b": one["b"]}); len(got) != 1 || got["b"] != "b" {
		t.Errorf("%v", got)
	}
	lists, err := filepath.Glob(filepath.Join(shop.Keep, edition, "*", "*"+othersEnding))
	if err != nil || len(lists) != 2 {
		t.Fatal(lists, err)
	}
	// The photo that is withheld now was none of its copies before: its list says so.
	for _, name := range lists {
		if data, err := os.ReadFile(name); err != nil || len(data) != 32 {
			t.Errorf("%d bytes are kept, %v", len(data), err)
		}
	}
	if got := shop.Copies(nil, nil); len(got) != 0 {
		t.Errorf("%v", got)
	}
}
