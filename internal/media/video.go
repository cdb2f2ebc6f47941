package media

import (
	"fmt"
	"io"
	"strings"
)

// A Video is what a video's index says.
type Video struct {
	// Kind is the form of the file by its bytes: MP4, QuickTime, WebM, Matroska or AVI;
	// empty if it is none of these.
	Kind string
	// Seconds is how long it plays; 0 if it does not say.
	Seconds float64
	// Wide and High are the size of the picture as it is seen; 0 if it does not say.
	Wide, High int
	// Picture and Sound are the codecs as the index names them: avc1, mp4a. Empty for none.
	Picture, Sound string
	// Place is set if the file says where on earth it was recorded.
	Place bool
	// Track is a track that may say so for each moment, by the name of its samples: gpmd,
	// camm. Empty for none.
	Track string
	// Fault says why it cannot be played; empty if nothing in the index speaks against it.
	Fault string
	// Unclean says why no copy of it can be published (see Bare); empty if one can.
	Unclean string
}

// videoKind tells a video's form by its first bytes; empty if it is not a video.
func videoKind(f *file) string {
	head := string(f.bytes(0, 16))
	if len(head) < 8 {
		return ""
	}
	switch kind := head[4:8]; {
	case kind == "ftyp" && len(head) >= 12 && head[8:12] == "qt  ":
		return "QuickTime"
	case kind == "ftyp" && len(head) >= 12 && pictureBrands[head[8:12]] == "":
		return "MP4"
	case kind == "moov" || kind == "mdat" || kind == "wide": // older files have no brand
		return "QuickTime"
	case strings.HasPrefix(head, "\x1a\x45\xdf\xa3"):
		kind := "Matroska"
		if e, ok := f.element(0, f.size); ok {
			_ = f.elements(e.at, min(e.end, f.size), func(e element) error {
				if e.id == docType && string(f.bytes(e.at, min(e.end-e.at, 16))) == "webm" {
					kind = "WebM"
				}
				return nil
			})
		}
		return kind
	case strings.HasPrefix(head, "RIFF") && len(head) >= 12 && head[8:12] == "AVI ":
		return "AVI"
	}
	return ""
}

// LookAtVideo reads the index of a video of size bytes, and the heads of its samples.
func LookAtVideo(r io.ReaderAt, size int64) Video {
	f := &file{r: r, size: size}
	v := Video{Kind: videoKind(f)}
	switch v.Kind {
	case "":
		v.Fault = "it is not a video of a kind that is known here"
	case "MP4", "QuickTime":
		v.boxes(f)
	case "WebM":
		w, err := f.webm()
		if err != nil {
			v.Fault = err.Error()
			break
		}
		v.Seconds = plausible(w.length * float64(w.scale) / 1e9)
		for _, t := range w.tracks {
			if t.kind == 1 {
				v.Picture, v.Wide, v.High = t.codec, t.wide, t.high
			} else {
				v.Sound = t.codec
			}
		}
	}
	if _, err := Bare(r, size); err != nil {
		v.Unclean = err.Error()
	}
	return v
}

// boxes reads an MP4 or QuickTime file as far as it can be read, damaged or not.
func (v *Video) boxes(f *file) {
	var index, data bool
	for _, b := range f.boxes(0, f.size) {
		switch b.kind {
		case "udta", "meta":
			v.noted(f, b)
		case "moov":
			if !index {
				v.index(f, b)
			}
			index = true
		case "mdat", "moof":
			data = true
		}
		if b.end > f.size {
			v.Fault = "it is cut off: the file ends before what it holds does"
		}
	}
	switch {
	case v.Fault != "":
	case !index:
		v.Fault = errNoIndex.Error()
	case !data:
		v.Fault = "it is cut off: there are no pictures after its index"
	case v.Picture == "":
		v.Fault = "it holds no moving picture"
	}
}

// noted looks for a place in a box of user data or of keys: QuickTime's and 3GPP's (3GPP
// TS 26.244, 8.3), Apple's keys (QuickTime File Format, Metadata), and items for players.
func (v *Video) noted(f *file, b box) {
	end := min(b.end, f.size)
	at := b.at
	if b.kind == "meta" {
		// QuickTime's boxes begin at once; elsewhere a version comes first.
		if t := f.bytes(at, 4); len(t) == 4 && be.Uint32(t) == 0 {
			at += 4
		}
	}
	for _, in := range f.boxes(at, end) {
		switch in.kind {
		case "\xa9xyz", "loci":
			v.Place = true
		case "keys":
			v.Place = v.Place || strings.Contains(string(f.bytes(in.at, min(in.end, end)-in.at)), "location.")
		case "meta", "ilst":
			if b.kind != "ilst" {
				v.noted(f, box{in.kind, in.head, in.at, min(in.end, end)})
			}
		}
	}
}

// index reads the movie box.
func (v *Video) index(f *file, moov box) {
	for _, b := range f.boxes(moov.at, min(moov.end, f.size)) {
		switch b.kind {
		case "mvhd":
			v.Seconds = seconds(f.bytes(b.at, 32))
		case "trak":
			v.track(f, b)
		case "udta", "meta":
			v.noted(f, b)
		}
	}
}

// seconds reads a header's time scale and duration (8.2.2).
func seconds(b []byte) float64 {
	if len(b) < 32 {
		return 0
	}
	scale, length := uint64(be.Uint32(b[12:])), uint64(be.Uint32(b[16:]))
	unknown := length == 1<<32-1
	if b[0] == 1 {
		scale, length = uint64(be.Uint32(b[20:])), be.Uint64(b[24:])
		unknown = length == 1<<64-1
	}
	if scale == 0 || unknown {
		return 0
	}
	return plausible(float64(length) / float64(scale))
}

// plausible is 0 for a time that no recording lasts.
func plausible(s float64) float64 {
	if s >= 0 && s <= 1e6 {
		return s
	}
	return 0
}

// track reads what one track is.
func (v *Video) track(f *file, trak box) {
	var handler, codec string
	var wide, high int
	var walk func(in box)
	walk = func(in box) {
		for _, b := range f.boxes(in.at, min(in.end, f.size)) {
			switch b.kind {
			case "udta", "meta":
				v.noted(f, b)
			case "tkhd":
				wide, high = seenSize(f.bytes(b.at, 104))
			case "mdia", "minf", "stbl":
				walk(b)
			case "hdlr":
				if t := f.bytes(b.at, 12); len(t) == 12 && handler == "" {
					handler = string(t[8:])
				}
			case "stsd":
				// Version, flags and count, then the first description with its size.
				if t := f.bytes(b.at, 16); len(t) == 16 {
					codec = printable(string(t[12:]))
				}
			}
		}
	}
	walk(trak)
	switch {
	case handler == "vide" && v.Picture == "":
		v.Picture, v.Wide, v.High = codec, wide, high
	case handler == "soun" && v.Sound == "":
		v.Sound = codec
	case positions[codec]:
		v.Track = codec
	}
}

// positions are the tracks of action cameras and phones that may hold a position a second.
// Common practice, no source.
var positions = map[string]bool{"gpmd": true, "camm": true, "djmd": true, "rtmd": true, "mebx": true, "mett": true}

// seenSize reads a track's size, turned as its matrix says (8.3.2: numbers of 16.16 bits,
// the matrix in front of them).
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
	wide, high = int(be.Uint32(b[at:])>>16), int(be.Uint32(b[at+4:])>>16)
	// The matrix's first number is 0 where the picture lies on its side.
	if be.Uint32(b[at-36:]) == 0 {
		wide, high = high, wide
	}
	return wide, high
}

// printable is the text, quoted if it holds bytes that a terminal would act on.
func printable(s string) string {
	if strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) {
		return fmt.Sprintf("%q", s)
	}
	return s
}

// codecs are the pictures and sounds that phones of the last ten years play in a page.
// Common practice, no source: it is what every browser on a phone plays.
var (
	pictures = map[string]bool{"avc1": true, "avc3": true}
	sounds   = map[string]bool{"": true, "mp4a": true, ".mp3": true}
)

// named are codecs as people know them.
var named = map[string]string{
	"hvc1": "HEVC (H.265)", "hev1": "HEVC (H.265)", "dvh1": "Dolby Vision", "dvhe": "Dolby Vision", "av01": "AV1", "vp09": "VP9", "vp08": "VP8",
	"apch": "ProRes", "apcn": "ProRes", "apcs": "ProRes", "apco": "ProRes", "ap4h": "ProRes", "mp4v": "MPEG-4 part 2", "jpeg": "Motion JPEG",
	"ac-3": "Dolby Digital", "ec-3": "Dolby Digital Plus", "alac": "Apple Lossless", "lpcm": "uncompressed sound", "sowt": "uncompressed sound",
	"twos": "uncompressed sound", "samr": "AMR", "fLaC": "FLAC", "Opus": "Opus",
}

// codecName is a codec as people know it, or as the index names it.
func codecName(codec string) string {
	if n := named[codec]; n != "" {
		return n
	}
	return printable(codec)
}

// Unplayed says why some phones cannot play it; empty if they all can.
func (v *Video) Unplayed() string {
	switch {
	case v.Fault != "":
		return v.Fault
	case v.Kind == "AVI" || v.Kind == "WebM" || v.Kind == "Matroska":
		return fmt.Sprintf("it is in the form of %s; every phone plays MP4", v.Kind)
	case !pictures[v.Picture]:
		return fmt.Sprintf("its picture is %s; every phone plays H.264", codecName(v.Picture))
	case !sounds[v.Sound]:
		return fmt.Sprintf("its sound is %s; every phone plays AAC", codecName(v.Sound))
	}
	return ""
}
