package media

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
)

// A Photo is what a photo's head tells.
type Photo struct {
	// Kind is what the file is by its bytes: JPEG, PNG, HEIC, ...; empty if the kind is
	// unknown.
	Kind string
	// Wide and High are the stored pixels; Turn says how they are seen.
	Wide, High int
	// Turn is the orientation, 1 to 8: EXIF 2.32 (CIPA DC-008), 4.6.4 A, tag 0112; 1 is
	// upright. A value that makes no sense counts as upright.
	Turn int
	// Moves is set for an animation.
	Moves bool
	// Colors is the color model where it is not RGB or gray: CMYK.
	Colors string
	// Bits is how many bits a color has.
	Bits int
	// Need is how many bytes the decoded picture takes, and what its decoder needs on top.
	Need int64
	// Hollow is set when the file is far too small for its pixels.
	Hollow bool
	// Profile is the ICC profile that says what its colors mean; nil for sRGB.
	Profile []byte
	// Fault says why it cannot be used; empty if nothing in its head speaks against it.
	Fault string
}

// Seen is the width and the height as the photo is seen.
func (p *Photo) Seen() (wide, high int) {
	if p.Turn >= 5 {
		return p.High, p.Wide
	}
	return p.Wide, p.High
}

// Pixels is how many pixels it has.
func (p *Photo) Pixels() int64 { return int64(p.Wide) * int64(p.High) }

// MostNeed is how many bytes the decoded picture may take: a photo of 200 megapixels as
// phones write it, and not a file of a kilobyte that claims to be as large as a field.
const MostNeed = 600 << 20

// TooLarge reports whether it is not decoded because of its size.
func (p *Photo) TooLarge() bool { return p.Need > MostNeed || p.Pixels() > MostNeed/2 }

// Pictures of more than mostFlat pixels have at least one byte for each thinnest of them. A
// camera writes one byte for 2 to 20 pixels. A flat picture can have more than 1,000 pixels
// in a byte: twelve files of 600 KB took a build 75 seconds, and nothing limited how many
// of them a yard may name. A page of paper that is scanned at 300 dots an inch, in
// black and white, has 9 million pixels and is taken, and so is the usual photo of a phone.
const (
	mostFlat = 12_000_000
	thinnest = 100
)

// refuseHollow refuses a picture whose work is out of proportion to its bytes. One that is
// too large is refused for that.
func (p *Photo) refuseHollow(size int64) {
	if p.Fault != "" || p.TooLarge() || p.Pixels() <= mostFlat || size >= p.Pixels()/thinnest {
		return
	}
	p.Hollow = true
	p.Fault = fmt.Sprintf("it has %d x %d pixels in a file of %d KB; a photo of that size has at least %d KB", p.Wide, p.High, max(size>>10, 1), (p.Pixels()/thinnest+1023)>>10)
}

// Export is what to do with a photo of a kind that is not read.
//
// No decoder of HEVC pictures in Go alone can be taken yet (November 2026;
// docs/notes/photos.md says what was considered).
const Export = "export it as JPEG: on an iPhone or iPad choose Settings, Camera, Formats, Most Compatible for the next photos, and mail this one to yourself or " +
	"copy it into the Files app, which makes a JPEG of it; on a Mac open it in Preview and choose File, Export, JPEG; on Windows open it in Photos and save a copy as .jpg; " +
	"on Android turn off \"high efficiency pictures\" in the camera's settings"

// LookAtPhoto reads the head of a photo of size bytes.
func LookAtPhoto(r io.ReaderAt, size int64) Photo {
	f := &file{r: r, size: size}
	head := f.bytes(0, 16)
	p := Photo{Turn: 1, Bits: 8}
	switch {
	case bytes.HasPrefix(head, []byte("\xff\xd8\xff")):
		p.Kind = "JPEG"
		jpegHead(f, &p)
	case bytes.HasPrefix(head, []byte("\x89PNG\r\n\x1a\n")):
		p.Kind = "PNG"
		pngHead(f, &p)
	case len(head) >= 12 && string(head[:4]) == "RIFF" && string(head[8:12]) == "WEBP":
		p.Kind = "WebP"
		webpHead(f, &p)
	default:
		p.Kind, p.Moves = otherKind(f, head)
		p.Fault = "it is not a photo that can be read here; JPEG, PNG and WebP are"
		if p.Kind != "" {
			a := "a"
			if p.Kind == "AVIF" {
				a = "an"
			}
			p.Fault = fmt.Sprintf("it is %s %s picture; JPEG, PNG and WebP are read", a, p.Kind)
		}
	}
	if p.Fault == "" && (p.Wide < 1 || p.High < 1) {
		p.Fault = "it says nowhere how large it is"
	}
	p.refuseHollow(size)
	return p
}

// pictureBrands say that a file in the form of MP4 holds a picture (ISO/IEC 14496-12, 4.3 and
// ISO/IEC 23008-12, B.4).
var pictureBrands = map[string]string{
	"heic": "HEIC", "heix": "HEIC", "hevc": "HEIC", "heim": "HEIC", "heis": "HEIC", "mif1": "HEIC", "msf1": "HEIC", "hevx": "HEIC",
	"avif": "AVIF", "avis": "AVIF",
}

// otherKind names a picture that is not read, and says whether it moves.
func otherKind(f *file, head []byte) (kind string, moves bool) {
	switch {
	case len(head) >= 12 && string(head[4:8]) == "ftyp":
		kind := pictureBrands[string(head[8:12])]
		return kind, string(head[8:12]) == "avis"
	case bytes.HasPrefix(head, []byte("GIF8")):
		return "GIF", gifMoves(f)
	case bytes.HasPrefix(head, []byte("II*\x00")), bytes.HasPrefix(head, []byte("MM\x00*")):
		return "TIFF or raw", false
	case bytes.HasPrefix(head, []byte("BM")):
		return "BMP", false
	case bytes.HasPrefix(head, []byte("\xff\x0a")), bytes.HasPrefix(head, []byte("\x00\x00\x00\x0cJXL ")):
		return "JPEG XL", false
	}
	return "", false
}

// gifMoves counts pictures, up to the second (GIF89a, 20: image descriptor).
func gifMoves(f *file) bool {
	head := f.bytes(0, 13)
	if len(head) < 13 {
		return false
	}
	at, pictures := int64(13), 0
	if head[10]&0x80 != 0 {
		at += 3 << (head[10]&7 + 1)
	}
	blocks := func() {
		for range maxSteps {
			b := f.bytes(at, 1)
			if len(b) == 0 {
				return
			}
			at += 1 + int64(b[0])
			if b[0] == 0 {
				return
			}
		}
	}
	for range 64 {
		b := f.bytes(at, 1)
		switch {
		case len(b) == 0:
			return false
		case b[0] == 0x21: // an extension: its label, then blocks
			at += 2
			blocks()
		case b[0] == 0x2c:
			if pictures++; pictures > 1 {
				return true
			}
			d := f.bytes(at, 10)
			if len(d) < 10 {
				return false
			}
			at += 10
			if d[9]&0x80 != 0 {
				at += 3 << (d[9]&7 + 1)
			}
			at++ // the code size
			blocks()
		default:
			return false
		}
	}
	return false
}

// maxSteps bounds how far any list in a file is followed.
const maxSteps = 1 << 14

// most of a profile that is kept.
const maxProfile = 1 << 20

// jpegHead walks the segments up to the picture's data: ITU-T T.81, B.1 and B.2.
func jpegHead(f *file, p *Photo) {
	h := jpeg{f: f, p: p, subsample: 3, profile: map[int][]byte{}}
	at := int64(2)
	for range maxSteps {
		b := f.bytes(at, 4)
		if len(b) < 4 || b[0] != 0xff {
			break
		}
		marker := b[1]
		switch {
		case marker == 0xff: // fill
			at++
			continue
		case marker == 0x01 || marker >= 0xd0 && marker <= 0xd7:
			at += 2
			continue
		}
		n := int64(binary.BigEndian.Uint16(b[2:]))
		if n < 2 || at+2+n > f.size {
			p.Fault = "it is cut off: its head goes on past the end of the file"
			return
		}
		if h.segment(marker, at+4, n-2) {
			return
		}
		at += 2 + n
	}
	p.Fault = "it is cut off or damaged: its head does not end"
}

// A jpeg is the head of a JPEG as far as it was read.
type jpeg struct {
	f *file
	p *Photo
	// framed is set when the frame header was read, with the samples of its planes.
	framed, progressive bool
	subsample           int64
	// profile holds the chunks of the ICC profile by their numbers. It has kept bytes so far.
	profile      map[int][]byte
	kept, chunks int
}

// segment reads the segment with n bytes at a place, and reports whether the head ends there,
// with a picture or a fault.
func (h *jpeg) segment(marker byte, at, n int64) (ends bool) {
	switch {
	case marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc:
		h.frame(marker, h.f.bytes(at, min(n, 18)))
		return h.p.Fault != ""
	case marker == 0xe1 && h.p.Turn == 1:
		if t := h.f.bytes(at, n); bytes.HasPrefix(t, []byte("Exif\x00\x00")) {
			h.p.Turn = turn(t[6:])
		}
	case marker == 0xe2:
		// ICC.1:2010, B.4: the profile in numbered chunks.
		if t := h.f.bytes(at, n); len(t) > 14 && bytes.HasPrefix(t, []byte("ICC_PROFILE\x00")) && h.kept+len(t) < maxProfile {
			h.kept, h.chunks = h.kept+len(t), int(t[13])
			h.profile[int(t[12])] = t[14:]
		}
	case marker == 0xda:
		h.data(at + n)
		return true
	case marker == 0xd9:
		h.p.Fault = "it holds no picture"
		return true
	}
	return false
}

// frame reads the frame header (T.81, B.2.2).
func (h *jpeg) frame(marker byte, s []byte) {
	p := h.p
	if len(s) < 6 || len(s) < 6+3*int(s[5]) && s[5] <= 4 {
		p.Fault = "it is damaged: its frame header is too short"
		return
	}
	p.Bits = int(s[0])
	p.High, p.Wide = int(binary.BigEndian.Uint16(s[1:])), int(binary.BigEndian.Uint16(s[3:]))
	switch {
	case s[5] == 4:
		p.Colors = "CMYK"
	case s[5] != 1 && s[5] != 3:
		p.Fault = fmt.Sprintf("it has %d colors a pixel; a photo has 3", s[5])
		return
	}
	h.framed, h.progressive = true, marker == 0xc2
	h.subsample = samples(s)
	switch {
	case marker > 0xc2 || p.Bits != 8 && p.Bits != 12:
		p.Fault = "it is a JPEG of a rare kind (lossless, hierarchical or arithmetic); save it again as a usual JPEG"
	case p.Bits == 12:
		p.Fault = "it is a JPEG of 12 bits a color; save it with 8"
	}
}

// data looks through the picture's data, which begin after the head of the first scan.
func (h *jpeg) data(from int64) {
	p := h.p
	if !h.framed {
		p.Fault = "it is damaged: its data begin before its frame header"
		return
	}
	for i := 1; i <= h.chunks; i++ {
		p.Profile = append(p.Profile, h.profile[i]...)
	}
	// image/jpeg keeps a progressive picture's coefficients, four bytes each, until the last
	// scan.
	p.Need = need(p.Pixels(), h.subsample, h.progressive)
	switch scans, ends := h.f.scans(from); {
	case !ends:
		p.Fault = "it is cut off: the end of the picture is missing"
	case int64(scans)*p.Pixels() > mostScanned:
		p.Fault = fmt.Sprintf("it goes over its %d x %d pixels %d times, which takes minutes to decode; save it again as a usual JPEG", p.Wide, p.High, scans)
	}
}

func need(pixels, halves int64, progressive bool) int64 {
	n := pixels * halves / 2
	if progressive {
		n *= 5
	}
	return n
}

// samples is how many samples of all planes make two pixels: 3 for 4:2:0, 6 for
// 4:4:4. The first plane has the most (T.81, A.1.1).
func samples(s []byte) int64 {
	var most, all int64
	for i := range int(s[5]) {
		hv := s[7+3*i]
		n := int64(hv>>4) * int64(hv&15)
		most, all = max(most, n), all+n
	}
	if most == 0 {
		return 8
	}
	return (2*all + most - 1) / most
}

// mostScanned is how many pixels a decoder may go over, each time counted: the largest photo
// that is read, as a progressive JPEG with the usual ten scans. A file of 88 KB can ask for
// twenty times as many.
const mostScanned = 3 << 30

// scans counts the scans from the data of the first on, and reports whether the picture ends.
// In the data a byte ff is followed by 00 or by a restart marker (T.81, B.1.1.5), so ff d9 is
// the end and ff da begins a scan. Phones put more after the end.
func (f *file) scans(from int64) (n int, ends bool) {
	n = 1
	before := byte(0)
	for at := from; at < f.size; {
		b := f.bytes(at, 64<<10)
		if len(b) == 0 {
			return n, false
		}
		for _, c := range b {
			if before == 0xff && c == 0xd9 {
				return n, true
			}
			if before == 0xff && c == 0xda {
				n++
			}
			before = c
		}
		at += int64(len(b))
	}
	return n, false
}

// turn reads the orientation from EXIF's TIFF structure (EXIF 2.32, 4.6.2).
func turn(t []byte) int {
	var order binary.ByteOrder = binary.LittleEndian
	switch {
	case len(t) < 8:
		return 1
	case string(t[:2]) == "MM":
		order = binary.BigEndian
	case string(t[:2]) != "II":
		return 1
	}
	at := int64(order.Uint32(t[4:]))
	if at < 8 || at+2 > int64(len(t)) {
		return 1
	}
	n := int64(order.Uint16(t[at:]))
	for i := range n {
		e := at + 2 + 12*i
		if e+12 > int64(len(t)) {
			return 1
		}
		if order.Uint16(t[e:]) != 0x0112 {
			continue
		}
		if v := int(order.Uint16(t[e+8:])); order.Uint16(t[e+2:]) == 3 && v >= 1 && v <= 8 {
			return v
		}
		return 1
	}
	return 1
}

// pngHead walks the chunks (PNG 3rd edition, 5.3 and 11).
func pngHead(f *file, p *Photo) {
	at := int64(8)
	for i := range maxSteps {
		b := f.bytes(at, 8)
		if len(b) < 8 {
			p.Fault = "it is cut off: the end of the picture is missing"
			return
		}
		n := int64(binary.BigEndian.Uint32(b))
		kind := string(b[4:])
		if i == 0 && (kind != "IHDR" || n != 13) {
			p.Fault = "it is damaged: its head is missing"
			return
		}
		if at+12+n > f.size {
			p.Fault = "it is cut off: the end of the picture is missing"
			return
		}
		switch kind {
		case "IHDR":
			h := f.bytes(at+8, 13)
			wide, high := binary.BigEndian.Uint32(h), binary.BigEndian.Uint32(h[4:])
			if wide > 1<<31-1 || high > 1<<31-1 {
				p.Fault = "it is damaged: its size is not one that a picture can have"
				return
			}
			p.Wide, p.High, p.Bits = int(wide), int(high), int(h[8])
			p.Need = 4 * p.Pixels()
			if p.Bits == 16 {
				p.Need *= 2
			}
			if h[12] != 0 { // interlaced: each pass is a picture of its own
				p.Need *= 2
			}
		case "acTL":
			p.Moves = true
		case "eXIf":
			p.Turn = turn(f.bytes(at+8, min(n, 64<<10)))
		case "IEND":
			return
		}
		at += 12 + n
	}
	p.Fault = "it is damaged: it has too many parts"
}

// webpHead walks the chunks (RFC 9649, 2.3 to 2.7).
func webpHead(f *file, p *Photo) {
	length := f.bytes(4, 4)
	if len(length) < 4 || 8+int64(binary.LittleEndian.Uint32(length)) > f.size {
		p.Fault = "it is cut off: the end of the picture is missing"
		return
	}
	end := 8 + int64(binary.LittleEndian.Uint32(length))
	h := webp{p: p}
	at := int64(12)
	for range maxSteps {
		b := f.bytes(at, 8)
		if at+8 > end || len(b) < 8 {
			break
		}
		n := int64(binary.LittleEndian.Uint32(b[4:]))
		if at+8+n > end {
			p.Fault = "it is cut off: the end of the picture is missing"
			return
		}
		h.chunk(string(b[:4]), f.bytes(at+8, n), n)
		if p.Fault != "" {
			return
		}
		at += 8 + n + n&1 // chunks begin at even places
	}
	switch {
	case p.Wide == 0 && p.Moves:
		p.Fault = "it is an animated WebP picture"
	// RFC 9649, 2.7: the canvas of a picture that is not one of many frames is its own size.
	case p.Wide > 0 && h.wide > 0 && (h.wide != p.Wide || h.high != p.High):
		p.Fault = fmt.Sprintf("it is damaged: its head says %d x %d, its picture has %d x %d", h.wide, h.high, p.Wide, p.High)
	}
}

// A webp is what the chunks of a WebP picture said so far.
type webp struct {
	p          *Photo
	alpha      bool
	wide, high int // the canvas, 0 where the file states none
}

// chunk reads one chunk of n bytes; data holds as many of them as fit a window.
func (h *webp) chunk(kind string, data []byte, n int64) {
	le, p := binary.LittleEndian, h.p
	switch {
	case kind == "VP8X" && len(data) >= 10:
		p.Moves = data[0]&2 != 0
		h.wide, h.high = int(le.Uint32(data[4:])&0xffffff)+1, int(le.Uint32(data[6:])>>8)+1
	case kind == "ALPH":
		h.alpha = true
	case kind == "ICCP" && n <= int64(len(data)):
		p.Profile = data
	case kind == "EXIF":
		p.Turn = turn(bytes.TrimPrefix(data, []byte("Exif\x00\x00")))
	case kind == "VP8 " && len(data) >= 10 && p.Wide == 0:
		// RFC 6386, 9.1: the frame's tag, a start code, then two numbers of 14 bits.
		if data[0]&1 != 0 || string(data[3:6]) != "\x9d\x01\x2a" {
			p.Fault = "it is damaged: its frame header is not that of a picture"
			return
		}
		p.Wide, p.High = int(le.Uint16(data[6:])&0x3fff), int(le.Uint16(data[8:])&0x3fff)
		p.Need = need(p.Pixels(), 3, false)
		if h.alpha { // a plane of its own, while it is unpacked and then
			p.Need += 6 * p.Pixels()
		}
	case kind == "VP8L" && len(data) >= 5 && p.Wide == 0:
		// RFC 9649, 3.4: a signature, then two numbers of 14 bits, each less one.
		if data[0] != 0x2f {
			p.Fault = "it is damaged: its frame header is not that of a picture"
			return
		}
		v := le.Uint32(data[1:])
		p.Wide, p.High = int(v&0x3fff)+1, int(v>>14&0x3fff)+1
		p.Need = 8 * p.Pixels() // four bytes a pixel, and again while a palette is unpacked
	}
}

// file reads places of a file.
type file struct {
	r    io.ReaderAt
	size int64
}

// bytes reads at most n bytes at a place, and what there is if there are fewer. It never
// allocates more than the file holds, nor more than a segment or a window.
func (f *file) bytes(at, n int64) []byte {
	n = min(n, f.size-at, 64<<10)
	if at < 0 || n <= 0 {
		return nil
	}
	b := make([]byte, n)
	got, err := f.r.ReadAt(b, at)
	if err != nil && err != io.EOF {
		return nil
	}
	return b[:got]
}
