package captions

import (
	"encoding/binary"
	"errors"
	"fmt"
	"html"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// ErrNoCaptions says that a video has no track of captions that can be read.
var ErrNoCaptions = errors.New("the video holds no captions")

// What a video may hold at most, so that a hostile one stays harmless.
const (
	maxHead   = 64 << 20 // bytes of moov
	maxSample = 64 << 10 // bytes of one caption
)

// InVideo takes the captions out of an MP4 or QuickTime file as a WebVTT file: the first track of
// timed text, tx3g (3GPP TS 26.245) or wvtt (ISO/IEC 14496-30). The boxes are those of ISO/IEC
// 14496-12; all from memory. A file in fragments is refused.
func InVideo(video io.ReaderAt, size int64) ([]byte, error) {
	head, fragments, err := moov(video, size)
	if err != nil {
		return nil, err
	}
	for _, trak := range boxesIn(head) {
		if trak.kind != "trak" {
			continue
		}
		t, ok := textTrack(trak.body)
		if !ok {
			continue
		}
		if len(t.sizes) == 0 && fragments {
			return nil, errors.New("the video is cut in fragments, and its captions cannot be read; save them as a .vtt or .srt file")
		}
		return t.file(video, size)
	}
	return nil, ErrNoCaptions
}

// IsVideo reports a file that begins like an MP4 or QuickTime file.
func IsVideo(head []byte) bool {
	if len(head) < 8 {
		return false
	}
	switch string(head[4:8]) {
	case "ftyp", "moov", "mdat", "wide", "free", "skip":
		return true
	}
	return false
}

// moov is the body of the box with all tables.
func moov(video io.ReaderAt, size int64) (body []byte, fragments bool, err error) {
	for at := int64(0); at+8 <= size; {
		var h [16]byte
		n, _ := video.ReadAt(h[:], at)
		if n < 8 {
			break
		}
		length, skip := int64(binary.BigEndian.Uint32(h[:])), int64(8)
		switch {
		case length == 1 && n == 16:
			length, skip = int64(binary.BigEndian.Uint64(h[8:])), 16
		case length == 0:
			length = size - at
		}
		if length < skip || length > size-at {
			break
		}
		switch string(h[4:8]) {
		case "moof":
			fragments = true
		case "moov":
			if length > maxHead {
				return nil, false, fmt.Errorf("the tables of the video are %d bytes, at most %d are read", length, maxHead)
			}
			body = make([]byte, length-skip)
			if _, err := video.ReadAt(body, at+skip); err != nil && err != io.EOF {
				return nil, false, fmt.Errorf("the tables of the video cannot be read: %w", err)
			}
		}
		at += length
	}
	if body == nil {
		return nil, false, errors.New("the file is not an MP4 video: it has no moov box")
	}
	return body, fragments, nil
}

type boxBody struct {
	kind string
	body []byte
}

// boxesIn are the boxes in a body, as far as they are sound.
func boxesIn(b []byte) []boxBody {
	var out []boxBody
	for len(b) >= 8 {
		n := uint64(binary.BigEndian.Uint32(b))
		skip := uint64(8)
		if n == 1 && len(b) >= 16 {
			n, skip = binary.BigEndian.Uint64(b[8:]), 16
		} else if n == 0 {
			n = uint64(len(b))
		}
		if n < skip || n > uint64(len(b)) {
			break
		}
		out = append(out, boxBody{string(b[4:8]), b[skip:n]})
		b = b[n:]
	}
	return out
}

// inside follows a path of boxes down.
func inside(b []byte, path string) []byte {
	for kind := range strings.SplitSeq(path, "/") {
		found := false
		for _, x := range boxesIn(b) {
			if x.kind == kind {
				b, found = x.body, true
				break
			}
		}
		if !found {
			return nil
		}
	}
	return b
}

// A textSamples is a track of timed text: where its samples are and when each begins.
type textSamples struct {
	webVTT bool
	scale  float64 // units of time in a second
	sizes  []uint32
	places []int64
	starts []uint64 // one more than samples: the end of the last
}

// textTrack reads the tables of a track of timed text.
func textTrack(trak []byte) (textSamples, bool) {
	var t textSamples
	stbl := inside(trak, "mdia/minf/stbl")
	stsd := inside(stbl, "stsd")
	if len(stsd) < 16 {
		return t, false
	}
	switch string(stsd[12:16]) {
	case "tx3g", "text":
	case "wvtt":
		t.webVTT = true
	default:
		return t, false
	}
	mdhd := inside(trak, "mdia/mdhd")
	at := 12
	if len(mdhd) > 0 && mdhd[0] == 1 {
		at = 20
	}
	if len(mdhd) < at+4 {
		return t, false
	}
	t.scale = float64(binary.BigEndian.Uint32(mdhd[at:]))
	if t.scale == 0 {
		return t, false
	}
	t.readSizes(inside(stbl, "stsz"))
	t.readTimes(inside(stbl, "stts"))
	t.readPlaces(inside(stbl, "stsc"), chunks(stbl))
	return t, true
}

// mostSamples is how many samples are read: two for a cue, since a gap is one too.
const mostSamples = 2*MaxCues + 2

// entries are the entries of a table: their number after at bytes, then so many bytes each. A
// number that the table does not hold is cut.
func entries(b []byte, at, each int) int {
	if len(b) < at+4 {
		return 0
	}
	n := int64(binary.BigEndian.Uint32(b[at:]))
	return int(min(n, int64(len(b)-at-4)/int64(each)))
}

func (t *textSamples) readSizes(b []byte) {
	if len(b) < 12 {
		return
	}
	if same := binary.BigEndian.Uint32(b[4:]); same != 0 {
		n := min(binary.BigEndian.Uint32(b[8:]), mostSamples)
		for range n {
			t.sizes = append(t.sizes, same)
		}
		return
	}
	for i := range min(entries(b, 8, 4), mostSamples) {
		t.sizes = append(t.sizes, binary.BigEndian.Uint32(b[12+4*i:]))
	}
}

func (t *textSamples) readTimes(b []byte) {
	now := uint64(0)
	for i := range entries(b, 4, 8) {
		n, length := binary.BigEndian.Uint32(b[8+8*i:]), binary.BigEndian.Uint32(b[12+8*i:])
		for ; n > 0 && len(t.starts) <= len(t.sizes); n-- {
			t.starts = append(t.starts, now)
			now += uint64(length)
		}
	}
	t.starts = append(t.starts, now)
}

// chunks are the places of the chunks in the file.
func chunks(stbl []byte) []int64 {
	var out []int64
	b := inside(stbl, "stco")
	for i := range min(entries(b, 4, 4), mostSamples) {
		out = append(out, int64(binary.BigEndian.Uint32(b[8+4*i:])))
	}
	if b = inside(stbl, "co64"); len(out) == 0 {
		for i := range min(entries(b, 4, 8), mostSamples) {
			out = append(out, int64(binary.BigEndian.Uint64(b[8+8*i:])&(1<<62-1)))
		}
	}
	return out
}

// readPlaces finds where each sample is: stsc tells how many a chunk holds.
func (t *textSamples) readPlaces(stsc []byte, chunks []int64) {
	run, runs := 0, entries(stsc, 4, 12)
	field := func(i, k int) uint32 { return binary.BigEndian.Uint32(stsc[8+12*i+4*k:]) }
	for c, place := range chunks {
		for run+1 < runs && field(run+1, 0) <= uint32(c+1) {
			run++
		}
		if run >= runs {
			return
		}
		for n := field(run, 1); n > 0 && len(t.places) < len(t.sizes); n-- {
			t.places = append(t.places, place)
			place += int64(t.sizes[len(t.places)-1])
		}
	}
}

// file is the track as a WebVTT file.
func (t *textSamples) file(video io.ReaderAt, size int64) ([]byte, error) {
	var out strings.Builder
	out.WriteString("WEBVTT\n")
	cues := 0
	for i := range min(len(t.sizes), len(t.places), len(t.starts)-1) {
		n, at := int64(t.sizes[i]), t.places[i]
		if n > maxSample || at < 0 || n > size-at {
			continue
		}
		sample := make([]byte, n)
		if got, _ := video.ReadAt(sample, at); got < len(sample) {
			continue
		}
		var text []string
		if t.webVTT {
			text = payloads(sample)
		} else {
			text = plainText(sample)
		}
		start, end := float64(t.starts[i])/t.scale, float64(t.starts[i+1])/t.scale
		for _, s := range text {
			if s = oneCue(s); s == "" || milliseconds(end) <= milliseconds(start) || end >= 360_000 {
				continue
			}
			fmt.Fprintf(&out, "\n%s --> %s\n%s\n", stamp(milliseconds(start)), stamp(milliseconds(end)), s)
			cues++
		}
		if out.Len() > MaxBytes || cues > MaxCues {
			return nil, fmt.Errorf("the captions in the video are longer than any walk-around: more than %d bytes or %d cues", MaxBytes, MaxCues)
		}
	}
	if cues == 0 {
		return nil, errors.New("the track of captions in the video is empty")
	}
	return []byte(out.String()), nil
}

// plainText is the text of a tx3g sample: its length in two bytes, then UTF-8, or UTF-16 with a
// byte order mark. What follows is about looks.
func plainText(b []byte) []string {
	if len(b) < 2 {
		return nil
	}
	n := int(binary.BigEndian.Uint16(b))
	b = b[2:]
	b = b[:min(n, len(b))]
	if len(b) >= 2 && (b[0] == 0xFE && b[1] == 0xFF || b[0] == 0xFF && b[1] == 0xFE) {
		var order binary.ByteOrder = binary.BigEndian
		if b[0] == 0xFF {
			order = binary.LittleEndian
		}
		var units []uint16
		for b = b[2:]; len(b) >= 2; b = b[2:] {
			units = append(units, order.Uint16(b))
		}
		return []string{html.EscapeString(string(utf16.Decode(units)))}
	}
	if !utf8.Valid(b) {
		return nil
	}
	return []string{html.EscapeString(string(b))}
}

// payloads are the texts of the cues in a wvtt sample.
func payloads(b []byte) []string {
	var out []string
	for _, cue := range boxesIn(b) {
		if cue.kind != "vttc" {
			continue
		}
		if text := inside(cue.body, "payl"); utf8.Valid(text) {
			out = append(out, string(text))
		}
	}
	return out
}

// oneCue keeps a text inside its cue: no blank line, no arrow.
func oneCue(s string) string {
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\x00", "", "-->", "->").Replace(s)
	var lines []string
	for l := range strings.SplitSeq(s, "\n") {
		if l = strings.TrimSpace(l); l != "" {
			lines = append(lines, l)
		}
	}
	return strings.Join(lines, "\n")
}
