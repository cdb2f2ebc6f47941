package media_test

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"golang.org/x/image/webp"

	"tarepage/internal/media"
)

func look(data []byte) media.Photo {
	return media.LookAtPhoto(bytes.NewReader(data), int64(len(data)))
}

// TestLookAtPhoto checks what is reported about pictures that image/jpeg and image/png wrote, and
// the decoders' own reading of them.
func TestLookAtPhoto(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 61, 47))
	for i := range m.Pix {
		m.Pix[i] = uint8(i * 7)
	}
	var color3, gray1, flat bytes.Buffer
	if err := jpeg.Encode(&color3, m, nil); err != nil {
		t.Fatal(err)
	}
	g := image.NewGray(m.Rect)
	if err := jpeg.Encode(&gray1, g, nil); err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(&flat, m); err != nil {
		t.Fatal(err)
	}
	deep := image.NewNRGBA64(image.Rect(0, 0, 3, 2))
	deep.Set(0, 0, color.NRGBA64{1, 2, 3, 4})
	var bits bytes.Buffer
	if err := png.Encode(&bits, deep); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		data []byte
		want media.Photo
		need int64
	}{
		{"4:2:0", color3.Bytes(), media.Photo{Kind: "JPEG", Bits: 8}, 61 * 47 * 3 / 2},
		{"gray", gray1.Bytes(), media.Photo{Kind: "JPEG", Bits: 8}, 61 * 47},
		{"PNG", flat.Bytes(), media.Photo{Kind: "PNG", Bits: 8}, 61 * 47 * 4},
		{"16 bits", bits.Bytes(), media.Photo{Kind: "PNG", Bits: 16}, 3 * 2 * 8},
	} {
		config, kind, err := image.DecodeConfig(bytes.NewReader(c.data))
		if err != nil {
			t.Fatal(err)
		}
		p := look(c.data)
		if p.Fault != "" || p.Wide != config.Width || p.High != config.Height || p.Kind != c.want.Kind || p.Bits != c.want.Bits || p.Turn != 1 {
			t.Errorf("%s (%s): %+v, the decoder says %d x %d", c.name, kind, p, config.Width, config.Height)
		}
		if p.Need != c.need {
			t.Errorf("%s needs %d, want %d", c.name, p.Need, c.need)
		}
		for cut := range len(c.data) {
			if p := look(c.data[:cut]); p.Fault == "" {
				t.Fatalf("%s, cut off at byte %d of %d: nothing is said", c.name, cut, len(c.data))
			}
		}
	}
}

// exif is EXIF with one orientation, in either order of bytes (EXIF 2.32, 4.6.2).
func exif(turn byte, big bool) []byte {
	tiff := []byte{'I', 'I', 42, 0, 8, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, turn, 0, 0, 0, 0, 0, 0, 0}
	if big {
		tiff = []byte{'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, turn, 0, 0, 0, 0, 0, 0}
	}
	body := append([]byte("Exif\x00\x00"), tiff...)
	n := len(body) + 2
	return append([]byte{0xff, 0xe1, byte(n >> 8), byte(n)}, body...)
}

// TestLookAtWebP checks what is reported about the pictures that libwebp's own tools made
// (internal/photo/testdata), which exiftool 12.57 calls 96 x 64, and Go's decoder's reading.
func TestLookAtWebP(t *testing.T) {
	for name, want := range map[string]media.Photo{
		"lossy":    {Turn: 1, Need: 96 * 64 * 3 / 2},
		"lossless": {Turn: 1, Need: 96 * 64 * 8},
		"alpha":    {Turn: 1, Need: 96*64*3/2 + 96*64*6},
		"turned":   {Turn: 6, Need: 96 * 64 * 3 / 2},
	} {
		data, err := os.ReadFile(filepath.Join("../photo/testdata", name+".webp"))
		if err != nil {
			t.Fatal(err)
		}
		want.Kind, want.Wide, want.High, want.Bits = "WebP", 96, 64, 8
		if p := look(data); !reflect.DeepEqual(p, want) {
			t.Errorf("%s:\n%+v\nwant\n%+v", name, p, want)
		}
		if c, err := webp.DecodeConfig(bytes.NewReader(data)); err != nil || c.Width != 96 || c.Height != 64 {
			t.Errorf("%s: the decoder says %d x %d (%v)", name, c.Width, c.Height, err)
		}
		for cut := range len(data) {
			if p := look(data[:cut]); p.Fault == "" {
				t.Fatalf("%s, cut off at byte %d of %d: nothing is said", name, cut, len(data))
			}
		}
	}
	data, err := os.ReadFile("../photo/testdata/moves.webp")
	if err != nil {
		t.Fatal(err)
	}
	if p := look(data); !p.Moves {
		t.Errorf("an animation: %+v", p)
	}
}

func TestTurn(t *testing.T) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30)), nil); err != nil {
		t.Fatal(err)
	}
	for turn := byte(0); turn <= 9; turn++ {
		for _, big := range []bool{false, true} {
			data := append(append([]byte{0xff, 0xd8}, exif(turn, big)...), b.Bytes()[2:]...)
			p := look(data)
			want := int(turn)
			if turn < 1 || turn > 8 {
				want = 1
			}
			wide, high := p.Seen()
			if p.Fault != "" || p.Turn != want || (wide == 30) != (want >= 5) || (high == 40) != (want >= 5) {
				t.Errorf("orientation %d: %+v, seen %d x %d", turn, p, wide, high)
			}
		}
	}
}

// What is wanted is what ffmpeg 5.1's ffprobe says of the files.
func TestLookAtVideo(t *testing.T) {
	for _, c := range []struct {
		file string
		want media.Video
	}{
		{"first.mp4", media.Video{Kind: "MP4", Seconds: 2, Wide: 160, High: 90, Picture: "avc1", Sound: "mp4a"}},
		{"last.mp4", media.Video{Kind: "MP4", Seconds: 2, Wide: 160, High: 90, Picture: "avc1", Sound: "mp4a"}},
		{"place.mp4", media.Video{Kind: "MP4", Seconds: 2, Wide: 160, High: 90, Picture: "avc1", Sound: "mp4a", Place: true}},
		{"place.mov", media.Video{Kind: "QuickTime", Seconds: 2, Wide: 160, High: 90, Picture: "avc1", Sound: "mp4a", Place: true}},
		{"hevc.mp4", media.Video{Kind: "MP4", Seconds: 2, Wide: 160, High: 90, Picture: "hvc1"}},
		{"turned.mp4", media.Video{Kind: "MP4", Seconds: 2, Wide: 90, High: 160, Picture: "avc1", Sound: "mp4a"}},
		{"av1.mp4", media.Video{Kind: "MP4", Seconds: 1, Wide: 64, High: 48, Picture: "av01", Sound: "Opus"}},
		{"vp8.webm", media.Video{Kind: "WebM", Seconds: 1, Wide: 64, High: 48, Picture: "V_VP8", Sound: "A_VORBIS"}},
	} {
		data, err := os.ReadFile(filepath.Join("testdata", c.file))
		if err != nil {
			t.Fatal(err)
		}
		got := media.LookAtVideo(bytes.NewReader(data), int64(len(data)))
		if d := got.Seconds - c.want.Seconds; d > -0.1 && d < 0.1 {
			got.Seconds = c.want.Seconds
		}
		if got != c.want {
			t.Errorf("%s:\n%+v\nwant\n%+v", c.file, got, c.want)
		}
		for cut := 0; cut < len(data); cut += 37 {
			if v := media.LookAtVideo(bytes.NewReader(data[:cut]), int64(cut)); v.Unplayed() == "" || v.Unclean == "" {
				t.Fatalf("%s, cut off at byte %d of %d: nothing is said", c.file, cut, len(data))
			}
		}
	}
}

func FuzzLookAtPhoto(f *testing.F) {
	for _, s := range []string{"/9j/wAARCAu4D6ADASIAAhEAAxEA/9oADAMBAAIAAwAAPwASNP/Z", "R0lGODlhAQABAAAAACwAAAAAAQABAAACAkQBACwAAAAAAQABAAACAkQBADs="} {
		b, err := base64.StdEncoding.DecodeString(s)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	f.Add(append(append([]byte{0xff, 0xd8}, exif(6, true)...), 0xff, 0xd9))
	for _, name := range []string{"lossy", "lossless", "alpha", "turned", "moves"} {
		data, err := os.ReadFile(filepath.Join("../photo/testdata", name+".webp"))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p := look(data)
		if p.Fault == "" && (p.Wide < 1 || p.High < 1 || p.Turn < 1 || p.Turn > 8 || p.Need < 0 || len(p.Profile) > len(data)) {
			t.Errorf("%+v", p)
		}
		// What the decoders read of it agrees, where they read it at all.
		if c, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && p.Fault == "" && (c.Width != p.Wide || c.Height != p.High) {
			t.Errorf("%d x %d, the decoder says %d x %d", p.Wide, p.High, c.Width, c.Height)
		}
	})
}

func FuzzLookAtVideo(f *testing.F) {
	for _, name := range []string{"first.mp4", "place.mov"} {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		v := media.LookAtVideo(bytes.NewReader(data), int64(len(data)))
		if v.Seconds < 0 || v.Seconds > 1e6 || v.Wide < 0 || v.High < 0 {
			t.Errorf("%+v", v)
		}
	})
}
