package media

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"strings"
	"testing"
)

// TestCopiesStay: the copy of each recording has the bytes that were looked at when
// testdata/copies.txt was written. ffmpeg 5.1 decoded all of them to the pictures and the sound
// of their originals (TestBareKeepsPicturesAndSound does that again where it is installed). A
// difference here is a change of what is published: look at the copy again, then write the list
// with TAREPAGE_UPDATE=1.
func TestCopiesStay(t *testing.T) {
	var b strings.Builder
	for _, name := range videos {
		c := mustClean(t, testFile(t, name))
		fmt.Fprintf(&b, "%-15s %6d %x\n", name, len(c), sha256.Sum256(c))
	}
	if os.Getenv("TAREPAGE_UPDATE") != "" {
		if err := os.WriteFile("testdata/copies.txt", []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want := string(testFile(t, "copies.txt")); b.String() != want {
		t.Errorf("the copies are\n%swant\n%s", b.String(), want)
	}
}

// TestVintAsPublished: the examples of RFC 8794, section 4.4 (table 3: the value 2 in one to
// four bytes), and sizes that are not known (6.2: all bits of the value are ones).
func TestVintAsPublished(t *testing.T) {
	for _, c := range []struct {
		bytes string
		v     int64
		size  int
		known bool
	}{
		{"\x82", 2, 1, true},
		{"\x40\x02", 2, 2, true},
		{"\x20\x00\x02", 2, 3, true},
		{"\x10\x00\x00\x02", 2, 4, true},
		{"\xff", 127, 1, false},
		{"\xfe", 126, 1, true},
		{"\x7f\xff", 1<<14 - 1, 2, false},
		{"\x7f\xfe", 1<<14 - 2, 2, true},
		{"\x01\xff\xff\xff\xff\xff\xff\xff", 1<<56 - 1, 8, false},
		{"\x01\x00\x00\x00\x00\x00\x00\x05", 5, 8, true},
		{"\x40", 0, 0, false}, // one byte is missing
		{"\x00\x80", 0, 0, false},
	} {
		if v, size, known := vint([]byte(c.bytes)); v != c.v || size != c.size || size > 0 && known != c.known {
			t.Errorf("%x: %d in %d bytes, known %v; want %d in %d, %v", c.bytes, v, size, known, c.v, c.size, c.known)
		}
	}
}

// TestVorbisLacing: the setup of Vorbis is three packets with the sizes of the first two in
// front, in bytes of 255 and a rest (RFC 9559, 5.1.4.1.2 and the codec's own mapping). The
// first packet has 30 bytes (Vorbis I, 4.2.2); one above 64 is not it.
func TestVorbisLacing(t *testing.T) {
	setup := func(first, second int, rest string) []byte {
		b := []byte{2}
		for _, n := range []int{first, second} {
			for ; n >= 255; n -= 255 {
				b = append(b, 255)
			}
			b = append(b, byte(n))
		}
		return append(append(append(b, bytes.Repeat([]byte("i"), first)...), bytes.Repeat([]byte("c"), second)...), rest...)
	}
	read := func(b []byte) ([]byte, error) {
		w := &webm{f: &file{r: bytes.NewReader(b), size: int64(len(b))}}
		return vorbisPrivate(w, element{id: privateID, at: 0, end: int64(len(b))})
	}
	for _, second := range []int{1, 254, 255, 256, 600} {
		got, err := read(setup(30, second, "books"))
		want := append([]byte{2, 30, 16}, "iiiiiiiiiiiiiiiiiiiiiiiiiiiiii\x03vorbis\x00\x00\x00\x00\x00\x00\x00\x00\x01books"...)
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("comments of %d bytes: %q, %v", second, got, err)
		}
	}
	if _, err := read(setup(64, 1, "books")); err != nil {
		t.Errorf("a first packet of 64 bytes: %v", err)
	}
	for name, b := range map[string][]byte{
		"a first packet of 65 bytes": setup(65, 1, "books"),
		"comments past the end":      setup(30, 9, "")[:35],
		"no sizes":                   {2},
		"a size without an end":      {2, 255, 255},
		"two packets":                append([]byte{1}, setup(30, 1, "books")[1:]...),
	} {
		if got, err := read(b); err == nil {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// TestChunkTable: the rows of a table of chunks go up, name chunks that there are, and a
// description that there is (ISO 14496-12, 8.7.4). Nothing else is copied.
func TestChunkTable(t *testing.T) {
	last := testFile(t, "last.mp4")
	at, _ := find(t, last, "moov/trak/mdia/minf/stbl/stsc")
	for name, row := range map[string][3]uint32{ // first chunk, samples in it, description
		"the chunk before the first":       {0, 1, 1},
		"no samples":                       {1, 0, 1},
		"no description":                   {1, 1, 0},
		"a description that there is not":  {1, 1, 40_000},
		"more samples than there are":      {1, 1 << 20, 1},
		"a first chunk that there is none": {2, 1, 1},
	} {
		data := bytes.Clone(last)
		for i, v := range row {
			be.PutUint32(data[at+16+4*i:], v)
		}
		if got, err := bared(data); err == nil {
			t.Errorf("%s: a copy of %d bytes", name, len(got))
		}
	}
}

// TestPositionTrack: a track of positions is reported, whatever comes before or after it.
func TestPositionTrack(t *testing.T) {
	data := testFile(t, "last.mp4")
	if v := LookAtVideo(bytes.NewReader(data), int64(len(data))); v.Track != "" || v.Sound != "mp4a" {
		t.Errorf("%+v", v)
	}
	for _, codec := range []string{"gpmd", "camm", "mebx"} {
		// The sound becomes such a track.
		b := bytes.Replace(data, []byte("soun"), []byte("meta"), 1)
		i := bytes.Index(b, []byte("mp4a"))
		copy(b[i:], codec)
		if v := LookAtVideo(bytes.NewReader(b), int64(len(b))); v.Track != codec || v.Sound != "" || v.Picture != "avc1" {
			t.Errorf("%s: %+v", codec, v)
		}
	}
}

// TestFrameOfAJPEG: the sampling of a frame (T.81, B.2.2) says how much memory the picture
// needs decoded: one byte for each sample of each color.
func TestFrameOfAJPEG(t *testing.T) {
	frame := func(marker byte, parts ...byte) []byte {
		n := 8 + len(parts)
		head := []byte{0xff, 0xd8, 0xff, marker, byte(n >> 8), byte(n), 8, 0, 48, 0, 64, byte(len(parts) / 3)}
		return append(append(head, parts...), 0xff, 0xda, 0, 2, 1, 2, 3, 0xff, 0xd9)
	}
	y := func(sampling byte) []byte { return []byte{1, sampling, 0, 2, 0x11, 0, 3, 0x11, 0} }
	for name, c := range map[string]struct {
		data []byte
		need int64
	}{
		"4:4:4": {frame(0xc0, y(0x11)...), 64 * 48 * 3},
		"4:2:2": {frame(0xc0, y(0x21)...), 64 * 48 * 2},
		"4:2:0": {frame(0xc0, y(0x22)...), 64 * 48 * 3 / 2},
		"gray":  {frame(0xc0, 1, 0x11, 0), 64 * 48},
	} {
		if p := LookAtPhoto(bytes.NewReader(c.data), int64(len(c.data))); p.Need != c.need || p.Wide != 64 || p.High != 48 {
			t.Errorf("%s: %+v; want a need of %d", name, p, c.need)
		}
	}
	if p := func() Photo {
		d := frame(0xc0, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0, 4, 0x11, 0)
		return LookAtPhoto(bytes.NewReader(d), int64(len(d)))
	}(); p.Colors != "CMYK" {
		t.Errorf("four colors: %+v", p)
	}
	for _, n := range []byte{2, 5} {
		d := frame(0xc0, bytes.Repeat([]byte{1, 0x11, 0}, int(n))...)
		if p := LookAtPhoto(bytes.NewReader(d), int64(len(d))); p.Fault == "" {
			t.Errorf("%d colors: %+v", n, p)
		}
	}
}
