package media

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"time"
)

// The files in testdata were made by ffmpeg 5.1 from its own test picture and test tone. Their
// encoders' names were taken out.
func testFile(tb testing.TB, name string) []byte {
	tb.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

var videos = []string{"first.mp4", "last.mp4", "place.mp4", "place.mov", "turned.mp4", "hevc.mp4", "av1.mp4", "fragments.mp4", "vp8.webm", "av1.webm"}

// bared is the copy of a video, or the reason why there is none.
func bared(data []byte) ([]byte, error) {
	c, err := Bare(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(c.Reader())
}

func mustClean(tb testing.TB, data []byte) []byte {
	tb.Helper()
	out, err := bared(data)
	if err != nil {
		tb.Fatal(err)
	}
	return out
}

// find is the place of a box, by the kinds of the boxes around it, and where it ends. A part
// such as trak:1 means the second of its kind.
func find(tb testing.TB, data []byte, path string) (at, end int) {
	tb.Helper()
	f := &file{r: bytes.NewReader(data), size: int64(len(data))}
	from, to := int64(0), f.size
	for part := range strings.SplitSeq(path, "/") {
		kind, number, _ := strings.Cut(part, ":")
		skip := 0
		fmt.Sscan(number, &skip)
		found := false
		for _, b := range f.boxes(from, to) {
			if b.kind != kind {
				continue
			}
			if skip > 0 {
				skip--
				continue
			}
			at, end, found = int(b.head), int(b.end), true
			if from, to = b.at, b.end; kind == "stsd" {
				from += 8
			} else if kind == "avc1" || kind == "hvc1" || kind == "av01" {
				from += 78
			} else if kind == "mp4a" {
				from += 28
			}
			break
		}
		if !found {
			tb.Fatalf("there is no %s", path)
		}
	}
	return at, end
}

// insert puts bytes at the end of a box that is after the pictures, and makes the boxes
// around it larger.
func insert(tb testing.TB, data []byte, path string, extra []byte) []byte {
	tb.Helper()
	_, end := find(tb, data, path)
	out := slices.Insert(bytes.Clone(data), end, extra...)
	for i := range strings.Count(path, "/") + 1 {
		at, _ := find(tb, data, strings.Join(strings.Split(path, "/")[:i+1], "/"))
		be.PutUint32(out[at:], be.Uint32(out[at:])+uint32(len(extra)))
	}
	return out
}

const canary = "CANARY +00.0000+000.0000/"

// dirt is what phones, cameras and desk programs write into MP4 and QuickTime files besides
// pictures and sound, and where. last.mp4 has its pictures first, so nothing moves.
func dirt(t *testing.T) map[string][]byte {
	base := testFile(t, "last.mp4")
	at := func(path string, extra ...[]byte) []byte { return insert(t, base, path, slices.Concat(extra...)) }
	end := func(extra ...[]byte) []byte { return slices.Concat(append([][]byte{base}, extra...)...) }
	text := []byte(canary)
	xyz := boxed("\xa9xyz", text)
	pictures, sound := "moov/trak/mdia/minf/stbl", "moov/trak:1/mdia/minf/stbl"
	list := map[string][]byte{
		"EXIF after all":      end(boxed("uuid", []byte("JpgTiffExif->JP2"), text)),
		"XMP after all":       end(boxed("uuid", []byte("\xbe\x7a\xcf\xcb\x97\xa9\x42\xe8\x9c\x71\x99\x94\x91\xe3\xaf\xac"), text)),
		"free space":          end(boxed("free", text), boxed("skip", text), boxed("wide", text)),
		"a dash camera's box": end(boxed("gps ", text)),
		"unused pictures":     end(boxed("mdat", text)),
		"a picture of it":     end(boxed("pnot", text), boxed("PICT", text)),
		"keys after all":      end(full("meta", 0, 0, boxed("keys", text), boxed("ilst", xyz))),
		"a box without end":   end(append([]byte{0, 0, 0, 0}, "uuid"+canary...)),
		"a long box":          end(slices.Concat([]byte{0, 0, 0, 1}, []byte("uuid"), be.AppendUint64(nil, uint64(16+len(text))), text)),
		"place in user data":  at("moov", boxed("udta", xyz)),
		"3GPP's place":        at("moov", boxed("udta", boxed("loci", text))),
		"action cameras":      at("moov", boxed("udta", boxed("GPMF", text), boxed("CAME", text), boxed("gps ", text), boxed("FOVL", text))),
		"keys by name":        at("moov", boxed("meta", boxed("hdlr", text), boxed("keys", make([]byte, 70<<10), text), boxed("ilst", xyz))),
		"after 100 boxes":     at("moov", bytes.Repeat(boxed("udta", []byte("x")), 100), boxed("udta", xyz)),
		"an unknown box":      at("moov", boxed("zzzz", text)),
		"in a track":          at("moov/trak", boxed("udta", xyz), boxed("uuid", text), boxed("meta", text), boxed("tref", boxed("cdsc", text))),
		"in a medium":         at("moov/trak/mdia", boxed("udta", xyz), boxed("zzzz", text)),
		"at the tables":       at(pictures, boxed("sgpd", text), boxed("sbgp", text), boxed("zzzz", text)),
		"at a description":    at(pictures+"/stsd/avc1", boxed("zzzz", text), boxed("colr", []byte("prof"+canary))),
		"after a description": at(pictures+"/stsd/avc1/avcC", text),
		"after the sound's":   at(sound+"/stsd/mp4a/esds", text),
		"after a table":       at(pictures+"/stts", text),
		"names of handlers":   at("moov/trak/mdia/hdlr", text),
		"edits":               at("moov/trak/edts/elst", text),
	}
	for _, kind := range []string{"djmd", "rtmd", "mebx", "mett", "tx3g", "gpmd", "camm", "text", "tmcd"} {
		list["a track of "+kind] = at("moov", boxed("trak", boxed("tkhd", make([]byte, 84)), boxed("mdia", boxed("mdhd", make([]byte, 24)),
			boxed("hdlr", make([]byte, 8), []byte("meta"), text),
			boxed("minf", boxed("stbl", full("stsd", 0, 0, be.AppendUint32(nil, 1), boxed(kind, make([]byte, 8), text)))))))
	}
	// Numbers in headers that nobody plays by.
	for name, change := range map[string]struct {
		path string
		at   int
		n    int
	}{
		"times of the movie":  {"moov/mvhd", 12, 8},
		"times of a preview":  {"moov/mvhd", 8 + 72, 24},
		"times of a track":    {"moov/trak/tkhd", 12, 8},
		"times of a medium":   {"moov/trak/mdia/mdhd", 12, 8},
		"name of the encoder": {pictures + "/stsd/avc1", 8 + 42, 32},
		"maker of the video":  {pictures + "/stsd/avc1", 8 + 12, 8},
		"maker of the sound":  {sound + "/stsd/mp4a", 8 + 12, 4},
		"brand of a camera":   {"ftyp", 16, 12},
	} {
		data := bytes.Clone(base)
		from, _ := find(t, data, change.path)
		copy(data[from+change.at:from+change.at+change.n], canary)
		list[name] = data
	}
	return list
}

// TestBareLeavesAllElseBehind: whatever else is in a video, its copy has the same bytes as
// the copy without it.
func TestBareLeavesAllElseBehind(t *testing.T) {
	want := mustClean(t, testFile(t, "last.mp4"))
	for name, data := range dirt(t) {
		if !bytes.Contains(data, []byte("CANARY"[:4])) {
			t.Errorf("%s: the input does not hold what is looked for", name)
		}
		got, err := bared(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if !bytes.Equal(got, want) {
			t.Errorf("%s: the copy is another, with the text: %v", name, bytes.Contains(got, []byte("CANARY")))
		}
	}
}

// resampled replaces a sample's bytes by others in a file with its pictures first, by moving
// the index back. The samples before and after keep their places.
func resampled(t *testing.T, data []byte, sample int, track string, change func([]byte) []byte) []byte {
	t.Helper()
	f := &file{r: bytes.NewReader(data), size: int64(len(data))}
	at, end := find(t, data, "moov/"+track+"/mdia/minf/stbl")
	list, err := f.samples(f.boxes(int64(at+8), int64(end)))
	if err != nil {
		t.Fatal(err)
	}
	s := list[sample]
	made := change(bytes.Clone(data[s.at : s.at+int64(s.n)]))
	grown := len(made) - int(s.n)
	out := slices.Replace(bytes.Clone(data), int(s.at), int(s.at)+int(s.n), made...)
	mdat, _ := find(t, data, "mdat")
	be.PutUint32(out[mdat:], be.Uint32(out[mdat:])+uint32(grown))
	size, _ := find(t, out, "moov/"+track+"/mdia/minf/stbl/stsz")
	be.PutUint32(out[size+8+12+4*sample:], uint32(len(made)))
	for _, track := range []string{"trak", "trak:1"} {
		if track == "trak:1" && bytes.Count(out, []byte("trak")) < 2 {
			continue
		}
		places, stop := find(t, out, "moov/"+track+"/mdia/minf/stbl/stco")
		for i := places + 16; i < stop; i += 4 {
			if v := be.Uint32(out[i:]); int64(v) > s.at {
				be.PutUint32(out[i:], v+uint32(grown))
			}
		}
	}
	return out
}

// TestBareLooksIntoSamples: what encoders and cameras write between the pictures and the
// sound stays behind too. The kinds: ITU-T H.264 and H.265, table 7-1 (6 and 39, 40 are words
// of the user; 24 to 31 and 48 to 63 are free for anybody); ISO/IEC 14496-3, table 4.3.
func TestBareLooksIntoSamples(t *testing.T) {
	unit := func(head ...byte) []byte {
		data := append(head, canary...)
		return append(be.AppendUint32(nil, uint32(len(data))), data...)
	}
	base := testFile(t, "last.mp4")
	want := mustClean(t, base)
	for _, kind := range []byte{0, 2, 3, 4, 6, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24, 28, 29, 30, 31} {
		for sample := range 3 {
			for name, change := range map[string]func(b []byte) []byte{
				"before": func(b []byte) []byte { return append(unit(0x60|kind), b...) },
				"after":  func(b []byte) []byte { return append(b, unit(kind)...) },
			} {
				got, err := bared(resampled(t, base, sample, "trak", change))
				if err != nil || !bytes.Equal(got, want) {
					t.Errorf("H.264, kind %d %s picture %d: the copy differs (%v)", kind, name, sample, err)
				}
			}
		}
	}
	// Fill and data in front of the sound: the copy keeps its size and holds zeros.
	fill := func(b []byte) []byte {
		// 110 1111 and a count of 15 + n - 1, then the bytes, seven bits off.
		n := len(canary)
		bits := uint64(0b1101111)<<8 | uint64(n-14)
		out := []byte{byte(bits >> 7), byte(bits<<1) | canary[0]>>7}
		for i := range n {
			next := byte(0)
			if i+1 < n {
				next = canary[i+1] >> 7
			} else {
				next = b[0] >> 7
			}
			out = append(out, canary[i]<<1|next)
		}
		return append(out, shifted(b)...)
	}
	dirty := resampled(t, base, 1, "trak:1", fill)
	got := mustClean(t, dirty)
	if bytes.Contains(unshifted(got), []byte("CANARY")) || !bytes.Contains(unshifted(dirty), []byte("CANARY")) {
		t.Error("AAC: what fills the sound is still there")
	}
	if again := mustClean(t, got); !bytes.Equal(again, got) {
		t.Error("AAC: the copy's copy is another")
	}
	data := func(b []byte) []byte { // 100 0000 1 and a count, then whole bytes: ends even
		return append(append([]byte{0b10000001, byte(len(canary))}, canary...), b...)
	}
	if got := mustClean(t, resampled(t, base, 2, "trak:1", data)); bytes.Contains(got, []byte("CANARY")) {
		t.Error("AAC: the element of data is still there")
	}

	hevc := testFile(t, "hevc.mp4")
	want = mustClean(t, hevc)
	file := lastOf(t, hevc)
	// A kind that is left out as a whole; a slice and a set of a second layer; an end with text.
	for _, head := range [][2]byte{{10 << 1, 1}, {15 << 1, 1}, {22 << 1, 1}, {31 << 1, 1}, {35 << 1, 1}, {36 << 1, 1}, {37 << 1, 1}, {38 << 1, 1}, {39 << 1, 1},
		{40 << 1, 1}, {41 << 1, 1}, {47 << 1, 1}, {48 << 1, 1}, {62 << 1, 1}, {63 << 1, 1}, {1 << 1, 1 << 3}, {33<<1 | 1, 1}} {
		kind := head[0] >> 1
		got, err := bared(resampled(t, file, 0, "trak", func(b []byte) []byte { return append(unit(head[0], head[1]), b...) }))
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("H.265, kind %d: the copy differs (%v)", kind, err)
		}
	}
	// The sets for transparency at the end of H.264's setup, of the kind that may have them.
	if at := bytes.Index(base, []byte("avcC")); base[at+5] == 100 {
		clean := mustClean(t, base)
		if i := bytes.Index(clean, []byte("avcC")); clean[i-4+int(be.Uint32(clean[i-4:]))-1] != 0 {
			t.Error("H.264: the setup counts sets for transparency")
		}
	}
	av1 := testFile(t, "av1.mp4")
	want = mustClean(t, av1)
	file = lastOf(t, av1)
	for _, head := range [][]byte{{0 << 3}, {2 << 3}, {5 << 3}, {7 << 3}, {8 << 3}, {9 << 3}, {14 << 3}, {15 << 3}, {6<<3 | 4, 1 << 3}} {
		kind := head[0] >> 3
		obu := append(append([]byte{head[0] | 2}, head[1:]...), byte(len(canary)))
		obu = append(obu, canary...)
		got, err := bared(resampled(t, file, 0, "trak", func(b []byte) []byte { return append(obu, b...) }))
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("AV1, kind %d: the copy differs (%v)", kind, err)
		}
	}
}

// shifted is bytes one bit to the left, and unshifted one to the right.
func shifted(b []byte) []byte {
	out := make([]byte, len(b))
	for i := range b {
		out[i] = b[i] << 1
		if i+1 < len(b) {
			out[i] |= b[i+1] >> 7
		}
	}
	return out
}

func unshifted(b []byte) []byte {
	out := make([]byte, len(b))
	for i := range b {
		out[i] = b[i] >> 1
		if i > 0 {
			out[i] |= b[i-1] << 7
		}
	}
	return out
}

// lastOf puts the index of a clean MP4 file after its pictures.
func lastOf(t *testing.T, data []byte) []byte {
	t.Helper()
	from, to := find(t, data, "moov")
	moov := bytes.Clone(data[from:to])
	f := &file{r: bytes.NewReader(moov), size: int64(len(moov))}
	for _, trak := range f.boxes(8, f.size) {
		at := bytes.Index(moov[trak.at:trak.end], []byte("stco"))
		if trak.kind != "trak" {
			continue
		}
		at += int(trak.at)
		for i := range int(be.Uint32(moov[at+8:])) {
			p := moov[at+12+4*i:]
			be.PutUint32(p, be.Uint32(p)-uint32(len(moov)))
		}
	}
	return slices.Concat(data[:from], data[to:], moov)
}

// TestBareWebM: the same for WebM (RFC 9559: titles, tags, files, comments, free space).
func TestBareWebM(t *testing.T) {
	base := testFile(t, "vp8.webm")
	want := mustClean(t, base)
	text := []byte(canary)
	for name, data := range map[string][]byte{
		"a title":         inside(t, base, infoID, ebml(0x7ba9, text)),
		"a program":       inside(t, base, infoID, ebml(0x4d80, text)),
		"a time of day":   inside(t, base, infoID, ebml(0x4461, []byte("CANARY!!"))),
		"tags":            inside(t, base, 0, ebml(0x1254c367, text)),
		"attached files":  inside(t, base, 0, ebml(0x1941a469, text)),
		"chapters":        inside(t, base, 0, ebml(0x1043a770, text)),
		"free space":      inside(t, base, 0, ebml(0xec, text)),
		"an unknown part": inside(t, base, 0, ebml(0x4abc, text)),
		"a track's name":  inside(t, base, entryID, ebml(0x536e, text)),
		"a picture's tag": inside(t, base, videoID, ebml(0x7ba9, text)),
		"after a block":   inside(t, base, clusterID, ebml(0xec, text)),
		"another track":   inside(t, base, tracksID, ebml(entryID, slices.Concat(ebml(numberID, []byte{9}), ebml(kindID, []byte{17}), ebml(codecID, []byte("S_TEXT/UTF8")), ebml(privateID, text)))),
		"its blocks":      inside(t, base, clusterID, ebml(simpleID, append([]byte{0x89, 0, 0, 0x80}, text...))),
		"sound's comment": bytes.Replace(base, []byte("\x03vorbis\x00\x00\x00\x00\x00\x00\x00\x00\x01"), []byte("\x03vorbis\x06\x00\x00\x00CANARY"), 1),
	} {
		if name == "sound's comment" {
			continue // below, with its sizes
		}
		if !bytes.Contains(data, []byte("CANARY")) {
			t.Errorf("%s: the input does not hold what is looked for", name)
		}
		if got, err := bared(data); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s: the copy is another (%v), with the text: %v", name, err, bytes.Contains(got, []byte("CANARY")))
		}
	}
	// The comments of Vorbis are the second of three packets.
	private := append([]byte{2, 2, byte(len(text))}, "id"+canary+"setup"...)
	w := &webm{f: &file{r: bytes.NewReader(private), size: int64(len(private))}}
	got, err := vorbisPrivate(w, element{id: privateID, at: 0, end: int64(len(private))})
	if err != nil || bytes.Contains(got, text) || !bytes.HasSuffix(got, []byte("setup")) || !bytes.Contains(got, []byte("id\x03vorbis")) {
		t.Errorf("Vorbis: %q (%v)", got, err)
	}
	// A recorder of a browser does not know the sizes while it writes.
	live := bytes.Clone(base)
	for _, id := range []uint32{segmentID, clusterID} {
		i := bytes.Index(live, ebmlID(id)) + 4
		copy(live[i:], "\x01\xff\xff\xff\xff\xff\xff\xff")
	}
	if got, err := bared(live); err != nil || !bytes.Equal(got, want) {
		t.Errorf("with unknown sizes: the copy is another (%v)", err)
	}
}

// inside puts bytes at the front of the first element of the kind in a clean WebM file, whose
// sizes all have eight bytes; 0 is the segment.
func inside(t *testing.T, data []byte, id uint32, extra []byte) []byte {
	t.Helper()
	path := map[uint32][]uint32{0: {segmentID}, infoID: {segmentID, infoID}, tracksID: {segmentID, tracksID}, entryID: {segmentID, tracksID, entryID},
		videoID: {segmentID, tracksID, entryID, videoID}, clusterID: {segmentID, clusterID}}[id]
	out := bytes.Clone(data)
	at := 0
	for _, id := range path {
		name := ebmlID(id)
		i := bytes.Index(out[at:], name)
		if i < 0 {
			t.Fatalf("there is no %x", id)
		}
		at += i + len(name)
		n := binary.BigEndian.Uint64(out[at:]) + uint64(len(extra))
		binary.BigEndian.PutUint64(out[at:], n)
		at += 8
	}
	return slices.Insert(out, at, extra...)
}

// TestBareKeepsPicturesAndSound: the copy plays the same. ffmpeg, where it is installed,
// decodes both; without it the samples are compared.
func TestBareKeepsPicturesAndSound(t *testing.T) {
	for _, name := range videos {
		data := testFile(t, name)
		got := mustClean(t, data)
		if again := mustClean(t, got); !bytes.Equal(again, got) {
			t.Errorf("%s: the copy's copy is another", name)
		}
		was, is := LookAtVideo(bytes.NewReader(data), int64(len(data))), LookAtVideo(bytes.NewReader(got), int64(len(got)))
		was.Place = false
		if name == "fragments.mp4" { // its length is in its fragments
			was.Seconds = is.Seconds
		}
		if d := was.Seconds - is.Seconds; was != is && (d > 0.2 || d < -0.2) {
			t.Errorf("%s:\n%+v\nbecame\n%+v", name, was, is)
		}
		if strings.HasSuffix(name, ".webm") {
			continue
		}
		a, b := tracksOf(t, data), tracksOf(t, got)
		if !slices.EqualFunc(a, b, bytes.Equal) {
			t.Errorf("%s: the samples differ", name)
		}
		if moov, _ := find(t, got, "moov"); moov != len(boxed("ftyp"))+len("isom....isomiso2mp41") && moov != 20 {
			t.Errorf("%s: the index of the copy is at %d", name, moov)
		}
	}
	if os.Getenv("TAREPAGE_LONG") == "" {
		t.Skip("NOT CHECKED: without TAREPAGE_LONG nothing independent plays the copies")
	}
	tool, err := exec.LookPath("ffmpeg")
	if err != nil {
		t.Skip("NOT CHECKED: ffmpeg is not installed, so nothing independent has played the copies")
	}
	for _, name := range videos {
		data := testFile(t, name)
		frames := func(data []byte) string {
			full := filepath.Join(t.TempDir(), name)
			if err := os.WriteFile(full, data, 0o644); err != nil {
				t.Fatal(err)
			}
			out, err := exec.Command(tool, "-v", "error", "-i", full, "-f", "framemd5", "-").CombinedOutput()
			if err != nil {
				t.Errorf("%s: %v: %s", name, err, out)
			}
			return string(out)
		}
		if was, is := frames(data), frames(mustClean(t, data)); was != is {
			t.Errorf("%s plays\n%s\nand its copy\n%s", name, was, is)
		}
	}
}

// tracksOf is what each track of an MP4 file holds: its samples with their times.
func tracksOf(t *testing.T, data []byte) (out [][]byte) {
	t.Helper()
	f := &file{r: bytes.NewReader(data), size: int64(len(data))}
	m, err := f.film(videoKind(f) == "QuickTime")
	if err != nil {
		t.Fatal(err)
	}
	for _, track := range m.tracks {
		var b bytes.Buffer
		for _, s := range track.samples {
			fmt.Fprintln(&b, s.lasts, s.shift, s.look, s.whole)
			b.Write(data[s.at : s.at+int64(s.n)])
		}
		out = append(out, b.Bytes())
	}
	return out
}

// TestBareRefuses: what cannot be looked through is refused, and says why.
func TestBareRefuses(t *testing.T) {
	last := testFile(t, "last.mp4")
	swap := func(data []byte, from, to string) []byte {
		if !bytes.Contains(data, []byte(from)) {
			t.Fatalf("there is no %q", from)
		}
		return bytes.ReplaceAll(data, []byte(from), []byte(to))
	}
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"a page":        {[]byte("<!doctype html><script>alert(1)</script>"), "it is not a video"},
		"a secret":      {[]byte("PASSWORD=hunter2"), "it is not a video"},
		"a photo":       {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00heicmif1"), "it is not a video"},
		"AVI":           {[]byte("RIFF\x00\x00\x00\x00AVI LIST"), "in the form of AVI"},
		"Matroska":      {[]byte("\x1a\x45\xdf\xa3\x8b\x42\x82\x88matroska"), "in the form of Matroska"},
		"no index":      {last[:bytes.Index(last, []byte("moov"))-4], "has no index"},
		"other codec":   {swap(last, "avc1\x00\x00\x00\x00\x00\x00\x00\x01", "apcn\x00\x00\x00\x00\x00\x00\x00\x01"), "ProRes"},
		"other sound":   {swap(last, "mp4a\x00\x00\x00\x00\x00\x00\x00\x01", "sowt\x00\x00\x00\x00\x00\x00\x00\x01"), "uncompressed sound"},
		"locked":        {swap(last, "avc1\x00\x00\x00\x00\x00\x00\x00\x01", "encv\x00\x00\x00\x00\x00\x00\x00\x01"), "encv"},
		"no pictures":   {swap(last, "vide", "text"), "no moving picture"},
		"elsewhere":     {swap(last, "url \x00\x00\x00\x01", "url \x00\x00\x00\x00"), "another file"},
		"no setup":      {swap(last, "avcC", "avcX"), "needs is missing"},
		"no sizes":      {swap(last, "stsz", "stsX"), "missing"},
		"webm, locked":  {inside(t, testFile(t, "vp8.webm"), entryID, ebml(encodingsID, nil)), "packed or locked"},
		"webm, a codec": {bytes.Replace(testFile(t, "vp8.webm"), []byte("V_VP8"), []byte("V_XXX"), 1), "V_XXX"},
	} {
		if got, err := bared(c.data); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %d bytes, %v; want %q", name, len(got), err, c.want)
		}
		if v := LookAtVideo(bytes.NewReader(c.data), int64(len(c.data))); v.Unclean == "" {
			t.Errorf("%s: %+v says nothing", name, v)
		}
	}
	for _, name := range videos {
		data := testFile(t, name)
		for cut := 0; cut < len(data); cut += 1 + len(data)/400 {
			if got, err := bared(data[:cut]); err == nil {
				t.Fatalf("%s, cut off at byte %d of %d: a copy of %d bytes", name, cut, len(data), len(got))
			}
		}
	}
}

// TestBareIsBounded: files that were made to take forever, or to grow, take less than a
// second each and are refused, or come out no larger than they are.
func TestBareIsBounded(t *testing.T) {
	last := testFile(t, "last.mp4")
	// All pictures in one place, and many of them.
	same := bytes.Clone(last)
	stbl := "moov/trak/mdia/minf/stbl/"
	at, _ := find(t, same, stbl+"stsz")
	be.PutUint32(same[at+12:], 9000) // one size for all
	many := bytes.Clone(same)
	be.PutUint32(many[at+16:], 1<<31)
	// A chunk table whose rows go back and forth.
	back := bytes.Clone(last)
	at, _ = find(t, back, stbl+"stsc")
	be.PutUint32(back[at+12:], 1<<28)
	for name, data := range map[string][]byte{
		"all in one place": same, "two billion samples": many, "a long table": back,
		"many boxes":   append(bytes.Clone(last), bytes.Repeat(boxed("free"), 1<<20)...),
		"nested boxes": append(bytes.Clone(last), nested(1<<16)...),
	} {
		start := time.Now()
		got, err := bared(data)
		if took := time.Since(start); took > time.Second {
			t.Errorf("%s: %v", name, took)
		}
		if err == nil && len(got) > len(data)+4096 {
			t.Errorf("%s: %d bytes became %d", name, len(data), len(got))
		}
	}
}

func nested(n int) []byte {
	b := make([]byte, 0, 8*n)
	for i := range n {
		b = append(be.AppendUint32(b, uint32(8*(n-i))), "meta"...)
	}
	return b
}

// TestCopyReads: a copy reads the same wherever its reading is cut, and says so when the
// original has become shorter.
func TestCopyReads(t *testing.T) {
	for _, name := range videos {
		data := testFile(t, name)
		c, err := Bare(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		want, err := io.ReadAll(c.Reader())
		if err != nil || int64(len(want)) != c.Size() {
			t.Fatal(err)
		}
		if err := iotest.TestReader(c.Reader(), want); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		r := rand.New(rand.NewPCG(1, 2))
		for range 300 {
			from, n := r.IntN(len(want)), r.IntN(3000)
			b := make([]byte, n)
			got, err := c.ReadAt(b, int64(from))
			if to := min(from+n, len(want)); !bytes.Equal(b[:got], want[from:to]) || (err != nil) != (from+n > len(want)) {
				t.Fatalf("%s: %d bytes at %d: %d, %v", name, n, from, got, err)
			}
		}
		if _, err := io.ReadAll(c.Of(bytes.NewReader(data[:len(data)/2])).Reader()); err == nil {
			t.Errorf("%s: half of the original is enough", name)
		}
		if _, err := c.ReadAt(make([]byte, 1), -1); err == nil {
			t.Errorf("%s has a byte before its first", name)
		}
	}
}

func FuzzBare(f *testing.F) {
	for _, name := range []string{"last.mp4", "place.mov", "fragments.mp4", "vp8.webm", "av1.webm", "av1.mp4", "hevc.mp4"} {
		f.Add(testFile(f, name))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := bared(data)
		if err != nil {
			return
		}
		// Tables may grow: a size that was said once is said for each sample.
		if len(got) > 64*len(data)+4096 {
			t.Errorf("%d bytes became %d", len(data), len(got))
		}
		again, err := bared(got)
		if err != nil {
			t.Fatalf("the copy is not taken: %v", err)
		}
		if !bytes.Equal(again, got) {
			t.Errorf("the copy's copy is another")
		}
	})
}
