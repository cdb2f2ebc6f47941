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
	// Fault says why it cannot be played; empty if nothing speaks against it.
	Fault string
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
	f.boxes(0, size, func(kind string, at, end int64) {
		switch kind {
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

// boxes tells of each box between two places, the head of each left out. A box that goes
// on past the end is told with its claimed end, and is the last.
func (f *file) boxes(at, end int64, each func(kind string, at, end int64)) {
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
		each(string(b[4:8]), at+head, at+n)
		if at+n > end {
			return
		}
		at += n
	}
}

// index reads the movie box.
func (v *Video) index(f *file, at, end int64) {
	end = min(end, f.size)
	f.boxes(at, end, func(kind string, at, end int64) {
		switch kind {
		case "mvhd":
			v.Seconds = seconds(f.bytes(at, 32))
		case "trak":
			v.track(f, at, min(end, f.size))
		case "udta":
			// What phones write: a location box of QuickTime's or of 3GPP (TS 26.244, 8.3).
			f.boxes(at, min(end, f.size), func(kind string, _, _ int64) {
				v.Place = v.Place || kind == "\xa9xyz" || kind == "loci"
			})
		case "meta":
			// QuickTime's list of keys by name; elsewhere a version stands before the boxes.
			if b := f.bytes(at, 4); len(b) == 4 && binary.BigEndian.Uint32(b) == 0 {
				at += 4
			}
			f.boxes(at, min(end, f.size), func(kind string, at, end int64) {
				if kind == "keys" && strings.Contains(string(f.bytes(at, end-at)), "location.ISO6709") {
					v.Place = true
				}
			})
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
	var walk func(kind string, at, end int64)
	walk = func(kind string, at, end int64) {
		end = min(end, f.size)
		switch kind {
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
