package photo_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/bep/imagemeta"
	"golang.org/x/image/webp"

	"tarepage/internal/photo"
)

// worked writes a file, works it and returns what came out.
func worked(t testing.TB, s *photo.Shop, name string, data []byte) *photo.Picture {
	t.Helper()
	path := filepath.Join(t.TempDir(), filepath.Base(name))
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	made, faults, err := s.Work([]photo.Original{{Name: name, Path: path}})
	if err != nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	return made[name]
}

func asJPEG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func segment(marker byte, body string) string {
	n := len(body) + 2
	return string([]byte{0xff, marker, byte(n >> 8), byte(n)}) + body
}

// The metadata that a phone and a desk program leave: EXIF 2.32 with a position, XMP,
// IPTC in Photoshop's resources, a comment. Every value has the word CANARY or is a number
// that is nowhere else.
func metadata() string {
	le := binary.LittleEndian
	ifd := func(base int, entries [][4]uint32, extra []byte) []byte {
		b := le.AppendUint16(nil, uint16(len(entries)))
		for _, e := range entries {
			b = le.AppendUint16(b, uint16(e[0]))
			b = le.AppendUint16(b, uint16(e[1]))
			b = le.AppendUint32(b, e[2])
			b = le.AppendUint32(b, e[3])
		}
		return append(le.AppendUint32(b, 0), extra...)
	}
	// Make at 8 + 2 + 2*12 + 4 = 38; the position's IFD after it at 52.
	tiff := append([]byte("II*\x00\x08\x00\x00\x00"), ifd(8, [][4]uint32{{0x010f, 2, 14, 38}, {0x8825, 4, 1, 52}}, []byte("CANARY-PHONE\x00\x00"))...)
	// Latitude's reference and value; its three ratios are at 52 + 2 + 2*12 + 4 = 82.
	var ratios []byte
	for _, v := range []uint32{41, 1, 23, 1, 774455, 10000} {
		ratios = le.AppendUint32(ratios, v)
	}
	tiff = append(tiff, ifd(52, [][4]uint32{{1, 2, 2, 'N'}, {2, 5, 3, 82}}, ratios)...)
	xmp := `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/" photoshop:City="CANARY-TOWN"/></rdf:RDF></x:xmpmeta>`
	iptc := "\x1c\x02\x5a\x00\x0bCANARY-CITY"
	resources := "8BIM\x04\x04\x00\x00" + string(binary.BigEndian.AppendUint32(nil, uint32(len(iptc)))) + iptc
	return segment(0xe1, "Exif\x00\x00"+string(tiff)) + segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00"+xmp) +
		segment(0xed, "Photoshop 3.0\x00"+resources) + segment(0xfe, "CANARY-COMMENT")
}

// tags is what an independent reader finds: github.com/bep/imagemeta.
func tags(t *testing.T, data []byte, format imagemeta.ImageFormat) map[string]any {
	t.Helper()
	out := map[string]any{}
	_, err := imagemeta.Decode(imagemeta.Options{
		R: bytes.NewReader(data), ImageFormat: format, Sources: imagemeta.EXIF | imagemeta.IPTC | imagemeta.XMP,
		ShouldHandleTag: func(imagemeta.TagInfo) bool { return true },
		HandleTag:       func(i imagemeta.TagInfo) error { out[i.Tag] = i.Value; return nil },
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestNothingOfThePhonesIsPublished: no file that comes out holds a byte of EXIF, XMP,
// IPTC, a comment, a profile or a position.
func TestNothingOfThePhonesIsPublished(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 900, 675))
	for i := range m.Pix {
		m.Pix[i] = uint8(i / 9000)
	}
	plain := asJPEG(t, m)
	data := append(append([]byte("\xff\xd8"), metadata()...), plain[2:]...)
	data = append(data, "CANARY after the end"...)
	// The input holds what is to go, by the independent reader's account.
	found := tags(t, data, imagemeta.JPEG)
	for _, tag := range []string{"Make", "GPSLatitude", "City"} {
		if found[tag] == nil {
			t.Fatalf("the test's photo has no %s: %v", tag, found)
		}
	}
	var ratio []byte
	ratio = binary.LittleEndian.AppendUint32(ratio, 774455)
	p := worked(t, &photo.Shop{Keep: t.TempDir()}, "media/a.jpg", data)
	for _, f := range append(p.WebP, p.JPEG) {
		out, err := os.ReadFile(f.From)
		if err != nil {
			t.Fatal(err)
		}
		format := imagemeta.WebP
		if f == p.JPEG {
			format = imagemeta.JPEG
			jpegSegments(t, out)
		} else if string(out[12:16]) != "VP8 " {
			// RFC 9649, 2.5: the simple form, which has no room for metadata.
			t.Errorf("%s is not a simple WebP: %q", f.Name, out[:16])
		}
		if left := tags(t, out, format); len(left) > 0 {
			t.Errorf("%s still holds %v", f.Name, left)
		}
		for _, trace := range []string{"CANARY", "Exif", "EXIF", "http://ns.adobe.com", "xmp", "8BIM", "Photoshop", "ICC_PROFILE", "ICCP", string(ratio)} {
			if bytes.Contains(out, []byte(trace)) {
				t.Errorf("%s still holds %q", f.Name, trace)
			}
		}
	}
}

// jpegSegments holds that a JPEG has tables, frame and data, and no application segment
// nor comment (ITU-T T.81, B.2).
func jpegSegments(t *testing.T, data []byte) {
	for at := 2; at+4 < len(data) && data[at+1] != 0xda; at += 2 + int(binary.BigEndian.Uint16(data[at+2:])) {
		if marker := data[at+1]; marker >= 0xe0 && marker <= 0xef || marker == 0xfe {
			t.Errorf("the JPEG holds a segment %x", marker)
		}
	}
}

// TestTurned: a photo stored in each of the eight ways is seen the same (EXIF 2.32,
// 4.6.4 A, orientation). Where the seen corners lie in the stored picture is written out
// by hand from the standard's text.
func TestTurned(t *testing.T) {
	// Which corner of the stored picture is seen at top left, and at top right.
	stored := map[byte][2]string{1: {"TL", "TR"}, 2: {"TR", "TL"}, 3: {"BR", "BL"}, 4: {"BL", "BR"},
		5: {"TL", "BL"}, 6: {"BL", "TL"}, 7: {"BR", "TR"}, 8: {"TR", "BR"}}
	s := &photo.Shop{Keep: t.TempDir()}
	for turn, corners := range stored {
		m := image.NewRGBA(image.Rect(0, 0, 160, 120))
		for i := range m.Pix {
			m.Pix[i] = 255
		}
		mark := func(corner string, c color.RGBA) {
			for y := range 40 {
				for x := range 40 {
					px, py := x, y
					if corner[1] == 'R' {
						px = 159 - x
					}
					if corner[0] == 'B' {
						py = 119 - y
					}
					m.SetRGBA(px, py, c)
				}
			}
		}
		mark(corners[0], color.RGBA{200, 0, 0, 255})
		mark(corners[1], color.RGBA{0, 0, 200, 255})
		exif := "Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00" + string([]byte{turn}) + "\x00\x00\x00\x00\x00\x00"
		data := append([]byte("\xff\xd8"+segment(0xe1, exif)), asJPEG(t, m)[2:]...)
		p := worked(t, s, fmt.Sprintf("turn-%d.jpg", turn), data)
		f, err := os.Open(p.JPEG.From)
		if err != nil {
			t.Fatal(err)
		}
		seen, err := jpeg.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		wide := seen.Bounds().Dx()
		if (wide == 120) != (turn >= 5) || p.Wide != wide {
			t.Errorf("orientation %d is %d wide", turn, wide)
		}
		left, right := color.NRGBAModel.Convert(seen.At(12, 12)).(color.NRGBA), color.NRGBAModel.Convert(seen.At(wide-12, 12)).(color.NRGBA)
		if left.R < 150 || left.B > 80 || right.B < 150 || right.R > 80 {
			t.Errorf("orientation %d: top left %v, top right %v", turn, left, right)
		}
	}
}

// TestKept: what was worked is not worked again, is shared by what has the same content,
// and is made again if a byte of it changed.
func TestKept(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 260, 90))
	for i := range m.Pix {
		m.Pix[i] = uint8(i / 130)
	}
	data := asPNG(t, m)
	dir := t.TempDir()
	n := 0
	s := &photo.Shop{Keep: dir, Told: func(done, all int) { n = all }}
	first := worked(t, s, "media/a.png", data)
	if n != 1 {
		t.Fatalf("%d photos were worked", n)
	}
	want := map[string][]byte{}
	for _, f := range append(first.WebP, first.JPEG) {
		b, err := os.ReadFile(f.From)
		if err != nil {
			t.Fatal(err)
		}
		want[f.From] = b
	}
	n = 0
	second := worked(t, s, "media/a.png", data)
	if n != 0 || second.JPEG != first.JPEG || second.Preview != first.Preview {
		t.Errorf("worked again: %d, %+v", n, second)
	}
	if other := worked(t, s, "media/Front View.PNG", data); n != 0 || other.JPEG.Name != first.JPEG.Name || strings.Contains(other.JPEG.Name, "view") {
		t.Errorf("the same content under another name: %d worked, %s", n, other.JPEG.Name)
	}
	files, err := filepath.Glob(filepath.Join(dir, "*", "*", "*", "*"))
	if err != nil || len(files) < 4 {
		t.Fatal(files, err)
	}
	for _, name := range files {
		whole, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for what, damaged := range map[string][]byte{"one bit": append([]byte{whole[0] ^ 1}, whole[1:]...), "cut off": whole[:len(whole)/2], "gone": nil} {
			if damaged == nil {
				err = os.Remove(name)
			} else {
				err = os.WriteFile(name, damaged, 0o644)
			}
			if err != nil {
				t.Fatal(err)
			}
			n = 0
			again := worked(t, s, "media/a.png", data)
			if n != 1 {
				t.Fatalf("%s, %s: it was not noticed", name, what)
			}
			for _, f := range append(again.WebP, again.JPEG) {
				if b, err := os.ReadFile(f.From); err != nil || !bytes.Equal(b, want[f.From]) {
					t.Fatalf("%s, %s: %s is not what it was (%v)", name, what, f.From, err)
				}
			}
		}
		if testing.Short() {
			break
		}
	}
}

// TestBadPhotos: each is a fault in words, and none is decoded that claims too much.
func TestBadPhotos(t *testing.T) {
	rough := image.NewGray(image.Rect(0, 0, 64, 64))
	for i := range rough.Pix {
		rough.Pix[i] = uint8(i * i)
	}
	whole := asJPEG(t, rough)
	damaged := bytes.Clone(whole)
	for i := len(damaged) - 900; i < len(damaged)-2; i++ {
		damaged[i] = 0xff * uint8(i&1) // ones all along, which no Huffman code is (T.81, C.2)
	}
	bomb := bytes.Clone(asPNG(t, image.NewGray(image.Rect(0, 0, 2, 2))))
	binary.BigEndian.PutUint32(bomb[16:], 60000)
	binary.BigEndian.PutUint32(bomb[20:], 60000)
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"damaged": {damaged, "damaged"}, "cut off": {whole[:len(whole)-20], "cut off"}, "bomb": {bomb, "60000 x 60000"},
		"nothing": {nil, "not a photo"}, "text": {[]byte("no photo at all"), "not a photo"},
	} {
		path := filepath.Join(t.TempDir(), "a.jpg")
		if err := os.WriteFile(path, c.data, 0o644); err != nil {
			t.Fatal(err)
		}
		made, faults, err := (&photo.Shop{Keep: t.TempDir()}).Work([]photo.Original{{Name: "a", Path: path}, {Name: "b", Path: path + "-not-there"}})
		if err != nil || len(made) != 0 || !strings.Contains(faults["a"], c.want) || faults["b"] == "" {
			t.Errorf("%s: %v %v %v", name, made, faults, err)
		}
	}
}

// TestBudget: whatever the photo shows, the picture for a phone stays within 30 KB and the
// small one within what eight of them may have.
func TestBudget(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	m := image.NewRGBA(image.Rect(0, 0, 810, 300))
	for i := range m.Pix {
		m.Pix[i] = uint8(r.Uint32()) | uint8(i&3/3*255)
	}
	s := &photo.Shop{Keep: t.TempDir()}
	p := worked(t, s, "noise.png", asPNG(t, m))
	for _, f := range p.WebP {
		if f.Wide <= photo.Phone && f.Bytes > 30_000 {
			t.Errorf("a picture that a phone may choose has %d bytes: %+v", f.Bytes, f)
		}
	}
	if thumb := p.WebP[0]; thumb.Bytes > 2_500 {
		t.Errorf("the small one has %d bytes", thumb.Bytes)
	}
}

// TestColors: a field of one color comes out as that color, through light and back; a
// photo in Display P3 comes out as the sRGB color that looks the same. What is wanted of
// P3 is worked with the matrices of CSS Color Module Level 4, section 17 (sample code),
// by way of XYZ under D65, which is another road than the profile's.
func TestColors(t *testing.T) {
	field := func(c color.RGBA) *image.RGBA {
		m := image.NewRGBA(image.Rect(0, 0, 64, 64))
		for y := range 64 {
			for x := range 64 {
				m.SetRGBA(x, y, c)
			}
		}
		return m
	}
	middle := func(p *photo.Picture) color.NRGBA {
		f, err := os.Open(p.WebP[len(p.WebP)-1].From)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		m, err := webp.Decode(f)
		if err != nil {
			t.Fatal(err)
		}
		y := m.(*image.YCbCr)
		// WebP is BT.601 in limited range (RFC 9649, 4; RFC 6386, 9.2); Go takes it for full.
		at := y.YCbCrAt(32, 32)
		l, cb, cr := 1.164*(float64(at.Y)-16), float64(at.Cb)-128, float64(at.Cr)-128
		clip := func(v float64) uint8 { return uint8(math.Round(min(max(v, 0), 255))) }
		return color.NRGBA{clip(l + 1.596*cr), clip(l - 0.392*cb - 0.813*cr), clip(l + 2.017*cb), 255}
	}
	near := func(a, b color.NRGBA) bool {
		d := func(x, y uint8) bool { return math.Abs(float64(x)-float64(y)) <= 5 }
		return d(a.R, b.R) && d(a.G, b.G) && d(a.B, b.B)
	}
	s := &photo.Shop{Keep: t.TempDir()}
	for _, c := range []color.RGBA{{0, 0, 0, 255}, {255, 255, 255, 255}, {128, 128, 128, 255}, {179, 19, 27, 255}, {20, 60, 120, 255}} {
		p := worked(t, s, fmt.Sprint(c)+".jpg", asJPEG(t, field(c)))
		if got := middle(p); !near(got, color.NRGBA(c)) {
			t.Errorf("%v comes out as %v", c, got)
		}
		data := asJPEG(t, field(c))
		data = append([]byte("\xff\xd8"+segment(0xe2, "ICC_PROFILE\x00\x01\x01"+displayP3())), data[2:]...)
		if got, want := middle(worked(t, s, fmt.Sprint(c)+"-p3.jpg", data)), fromP3(c); !near(got, want) {
			t.Errorf("%v of Display P3 comes out as %v, want %v", c, got, want)
		}
	}
}

// displayP3 is a profile with the colorants that Display P3 has under D50 (ICC registry,
// Display P3) and sRGB's curve as its formula.
func displayP3() string {
	fixed := func(list ...float64) (out []byte) {
		for _, v := range list {
			out = binary.BigEndian.AppendUint32(out, uint32(int32(math.Round(v*65536))))
		}
		return out
	}
	parts := []struct {
		tag  string
		data string
	}{
		{"rXYZ", "XYZ \x00\x00\x00\x00" + string(fixed(0.51512, 0.2412, -0.00105))},
		{"gXYZ", "XYZ \x00\x00\x00\x00" + string(fixed(0.29198, 0.69225, 0.04189))},
		{"bXYZ", "XYZ \x00\x00\x00\x00" + string(fixed(0.1571, 0.06657, 0.78407))},
		{"rTRC", "para\x00\x00\x00\x00\x00\x03\x00\x00" + string(fixed(2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045))},
	}
	parts = append(parts, parts[3], parts[3])
	parts[4].tag, parts[5].tag = "gTRC", "bTRC"
	var table, data []byte
	at := 128 + 4 + 12*len(parts)
	for _, p := range parts {
		table = append(table, p.tag...)
		table = binary.BigEndian.AppendUint32(table, uint32(at+len(data)))
		table = binary.BigEndian.AppendUint32(table, uint32(len(p.data)))
		data = append(data, p.data...)
	}
	head := make([]byte, 128)
	copy(head[12:], "mntrRGB XYZ ")
	head = binary.BigEndian.AppendUint32(head, uint32(len(parts)))
	return string(head) + string(table) + string(data)
}

func fromP3(c color.RGBA) color.NRGBA {
	lin := func(v uint8) float64 {
		f := float64(v) / 255
		if f <= 0.04045 {
			return f / 12.92
		}
		return math.Pow((f+0.055)/1.055, 2.4)
	}
	code := func(v float64) uint8 {
		v = min(max(v, 0), 1)
		if v <= 0.0031308 {
			return uint8(math.Round(255 * v * 12.92))
		}
		return uint8(math.Round(255 * (1.055*math.Pow(v, 1/2.4) - 0.055)))
	}
	mul := func(m [9]float64, v [3]float64) (out [3]float64) {
		for i := range 3 {
			out[i] = m[3*i]*v[0] + m[3*i+1]*v[1] + m[3*i+2]*v[2]
		}
		return out
	}
	toXYZ := [9]float64{608311. / 1250200, 189793. / 714400, 198249. / 1000160, 35783. / 156275, 247089. / 357200, 198249. / 2500400, 0, 32229. / 714400, 5220557. / 5000800}
	toSRGB := [9]float64{12831. / 3959, -329. / 214, -1974. / 3959, -851781. / 878810, 1648619. / 878810, 36519. / 878810, 705. / 12673, -2585. / 12673, 705. / 667}
	out := mul(toSRGB, mul(toXYZ, [3]float64{lin(c.R), lin(c.G), lin(c.B)}))
	return color.NRGBA{code(out[0]), code(out[1]), code(out[2]), 255}
}
