package media

import (
	"encoding/binary"
	"fmt"
	"io"
	"strings"
)

// A Video is what a video's index tells.
type Video struct {
	// Kind is the container by its bytes: MP4, QuickTime, WebM or Matroska, AVI; empty if
	// it is nothing that is known.
	Kind string
	// Seconds is how long it plays; 0 if it does not say.
	Seconds float64
	// Wide and High are the picture as it is seen; 0 if it does not say.
	Wide, High int
	// IndexLast is set where the index stands behind the pictures: a phone must then fetch
	// the whole file, or ask twice, before the first picture shows.
	IndexLast bool
	// Picture and Sound are the codecs as the index names them: avc1, mp4a. Empty for none.
	Picture, Sound string
	// Place is set where the file says on which spot of the earth it was made.
	Place bool
	// Track is the track that may say so again for each moment, as the index names its
	// samples: gpmd, camm. Empty for none.
	Track string
	// Private are the boxes that say where it was made, and those of XMP. A copy of the file
	// in which they are free space (ISO/IEC 14496-12, 8.1.2) plays the same.
	Private []Box
	// Fault says why it cannot be played; empty if nothing speaks against it.
	Fault string
}

// A Box is where a box stands in its file, its head included.
type Box struct{ At, Bytes int64 }

// mostPrivate is how many boxes are told of. A phone writes one or two.
const mostPrivate = 64

// xmpBox is the identity of the box that holds XMP (ISO 16684-3 and the XMP specification,
// part 3, 1.2.7.1).
const xmpBox = "\xbe\x7a\xcf\xcb\x97\xa9\x42\xe8\x9c\x71\x99\x94\x91\xe3\xaf\xac"

// private notes a box whose head begins where it begins.
func (v *Video) private(f *file, at, end int64) {
	if end = min(end, f.size); len(v.Private) < mostPrivate && end-at >= 8 {
		v.Private = append(v.Private, Box{At: at, Bytes: end - at})
	}
}

// user looks through a box of user data: what phones and desk programs write into it.
func (v *Video) user(f *file, at, end int64) {
	f.boxes(at, end, func(kind string, head, at, end int64) {
		switch kind {
		case "\xa9xyz", "loci": // QuickTime's and 3GPP's place (TS 26.244, 8.3)
			v.Place = true
			v.private(f, head, end)
		case "meta":
			v.meta(f, head, at, end)
		case "XMP_": // the XMP specification, part 3, 1.2.7.2
			v.private(f, head, end)
		}
	})
}

// meta looks through a box of keys by name. In QuickTime's its boxes begin at once; elsewhere a version
// stands before them.
func (v *Video) meta(f *file, head, at, end int64) {
	if b := f.bytes(at, 4); len(b) == 4 && binary.BigEndian.Uint32(b) == 0 {
		at += 4
	}
	f.boxes(at, end, func(kind string, _, at, to int64) {
		if kind == "keys" && strings.Contains(string(f.bytes(at, to-at)), "location.") {
			v.Place = true
			v.private(f, head, end)
		}
		if kind == "ilst" { // the items that players show: a place may be among them
			v.user(f, at, min(to, f.size))
		}
	})
}

// uuid looks at a box that only its identity tells apart.
func (v *Video) uuid(f *file, head, at, end int64) {
	if string(f.bytes(at, 16)) == xmpBox {
		v.private(f, head, end)
	}
}

// LookAtVideo reads the boxes of a video of size bytes (ISO/IEC 14496-12, 4.2).
func LookAtVideo(r io.ReaderAt, size int64) Video {
	f := &file{r: r, size: size}
	var v Video
	head := f.bytes(0, 16)
	switch {
	case len(head) >= 12 && string(head[4:8]) == "ftyp":
		v.Kind = "MP4"
		if string(head[8:12]) == "qt  " {
			v.Kind = "QuickTime"
		}
	case len(head) >= 8 && (string(head[4:8]) == "moov" || string(head[4:8]) == "mdat" || string(head[4:8]) == "wide"):
		v.Kind = "QuickTime" // its older files begin without a brand
	case strings.HasPrefix(string(head), "\x1a\x45\xdf\xa3"):
		v.Kind = "WebM or Matroska"
		return v
	case strings.HasPrefix(string(head), "RIFF") && len(head) >= 12 && string(head[8:12]) == "AVI ":
		v.Kind = "AVI"
		return v
	default:
		v.Fault = "it is no video that is known here"
		return v
	}
	index, data := int64(-1), int64(-1)
	f.boxes(0, size, func(kind string, head, at, end int64) {
		switch kind {
		case "uuid":
			v.uuid(f, head, at, end)
		case "udta":
			v.user(f, at, min(end, size))
		case "meta":
			v.meta(f, head, at, min(end, size))
		case "moov":
			if index < 0 {
				index = at
				v.index(f, at, end)
			}
		case "mdat":
			if data < 0 {
				data = at
			}
		case "moof": // in fragments, each with its own index
			if data < 0 {
				data = size
			}
		}
		if end > size {
			v.Fault = "it is cut off: the file ends before what it holds does"
		}
	})
	switch {
	case index < 0 && v.Fault == "":
		v.Fault = "it has no index; the recording was cut off or was not finished"
	case v.Fault == "" && data < 0:
		v.Fault = "it is cut off: behind its index there are no pictures"
	case v.Fault == "" && v.Picture == "":
		v.Fault = "it holds no moving picture"
	}
	v.IndexLast = data >= 0 && index > data
	return v
}

// boxes tells of each box between two places: where its head begins, and from where to
// where what is behind the head stands. A box that goes
// on past the end is told with its claimed end, and is the last.
func (f *file) boxes(at, end int64, each func(kind string, head, at, end int64)) {
	for range maxSteps {
		b := f.bytes(at, 16)
		if len(b) < 8 || at+8 > end {
			return
		}
		n, head := int64(binary.BigEndian.Uint32(b)), int64(8)
		switch {
		case n == 0: // to the end
			n = end - at
		case n == 1:
			if len(b) < 16 {
				return
			}
			long := binary.BigEndian.Uint64(b[8:])
			if long > 1<<62 {
				return
			}
			n, head = int64(long), 16
		}
		if n < head {
			return
		}
		each(string(b[4:8]), at, at+head, at+n)
		if at+n > end {
			return
		}
		at += n
	}
}

// index reads the movie box.
func (v *Video) index(f *file, at, end int64) {
	end = min(end, f.size)
	f.boxes(at, end, func(kind string, head, at, end int64) {
		switch kind {
		case "mvhd":
			v.Seconds = seconds(f.bytes(at, 32))
		case "trak":
			v.track(f, at, min(end, f.size))
		case "udta":
			v.user(f, at, min(end, f.size))
		case "meta":
			v.meta(f, head, at, min(end, f.size))
		case "uuid":
			v.uuid(f, head, at, end)
		}
	})
}

// seconds reads a header's time scale and duration (8.2.2).
func seconds(b []byte) float64 {
	if len(b) < 32 {
		return 0
	}
	scale, length := uint64(binary.BigEndian.Uint32(b[12:])), uint64(binary.BigEndian.Uint32(b[16:]))
	unknown := length == 1<<32-1
	if b[0] == 1 {
		scale, length = uint64(binary.BigEndian.Uint32(b[20:])), binary.BigEndian.Uint64(b[24:])
		unknown = length == 1<<64-1
	}
	if scale == 0 || unknown {
		return 0
	}
	s := float64(length) / float64(scale)
	if s > 1e6 {
		return 0
	}
	return s
}

func (v *Video) track(f *file, at, end int64) {
	var handler, codec string
	var wide, high int
	var walk func(kind string, head, at, end int64)
	walk = func(kind string, head, at, end int64) {
		end = min(end, f.size)
		switch kind {
		case "udta":
			v.user(f, at, end)
		case "meta":
			v.meta(f, head, at, end)
		case "tkhd":
			wide, high = seenSize(f.bytes(at, 104))
		case "mdia", "minf", "stbl":
			f.boxes(at, end, walk)
		case "hdlr":
			if b := f.bytes(at, 12); len(b) == 12 && handler == "" {
				handler = string(b[8:])
			}
		case "stsd":
			// Version, flags and count, then the first description with its size.
			if b := f.bytes(at, 16); len(b) == 16 {
				codec = printable(string(b[12:]))
			}
		}
	}
	f.boxes(at, end, walk)
	switch {
	case handler == "vide" && v.Picture == "":
		v.Picture, v.Wide, v.High = codec, wide, high
	case handler == "soun" && v.Sound == "":
		v.Sound = codec
	case codec == "gpmd" || codec == "camm":
		// Tracks of an action camera and of a phone's camera, which may hold a place a second:
		// common practice, no source.
		v.Track = codec
	}
}

// seenSize reads a track's size, turned as its matrix says (8.3.2: 16.16 numbers, the
// matrix in front of them).
func seenSize(b []byte) (wide, high int) {
	if len(b) < 84 {
		return 0, 0
	}
	at := 76
	if b[0] == 1 {
		if at = 88; len(b) < 96 {
			return 0, 0
		}
	}
	wide, high = int(binary.BigEndian.Uint32(b[at:])>>16), int(binary.BigEndian.Uint32(b[at+4:])>>16)
	// The matrix's first number is 0 where the picture lies on its side.
	if binary.BigEndian.Uint32(b[at-36:]) == 0 {
		wide, high = high, wide
	}
	return wide, high
}

func printable(s string) string {
	if strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) {
		return fmt.Sprintf("%q", s)
	}
	return s
}

// codecs are the moving pictures and sounds that phones of the last ten years play in a
// page. Common practice, no source: it is what every browser on a phone plays.
var (
	pictures = map[string]bool{"avc1": true, "avc3": true}
	sounds   = map[string]bool{"": true, "mp4a": true, ".mp3": true}
)

// named are codecs as people know them.
var named = map[string]string{
	"hvc1": "HEVC (H.265)", "hev1": "HEVC (H.265)", "dvh1": "Dolby Vision", "dvhe": "Dolby Vision", "av01": "AV1", "vp09": "VP9", "vp08": "VP8",
	"apch": "ProRes", "apcn": "ProRes", "apcs": "ProRes", "apco": "ProRes", "ap4h": "ProRes", "mp4v": "MPEG-4 part 2", "jpeg": "Motion JPEG",
	"ac-3": "Dolby Digital", "ec-3": "Dolby Digital Plus", "alac": "Apple Lossless", "lpcm": "uncompressed sound", "sowt": "uncompressed sound",
	"samr": "AMR", "fLaC": "FLAC", "Opus": "Opus",
}

// Unplayed says why some phones cannot play it; empty if they all can.
func (v *Video) Unplayed() string {
	name := func(codec string) string {
		if n := named[codec]; n != "" {
			return n
		}
		return codec
	}
	switch {
	case v.Fault != "":
		return v.Fault
	case v.Kind == "AVI" || v.Kind == "WebM or Matroska":
		return fmt.Sprintf("it is in the form of %s; phones play MP4", v.Kind)
	case !pictures[v.Picture]:
		return fmt.Sprintf("its picture is %s; every phone plays H.264", name(v.Picture))
	case !sounds[v.Sound]:
		return fmt.Sprintf("its sound is %s; every phone plays AAC", name(v.Sound))
	}
	return ""
}
