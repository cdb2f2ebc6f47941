package media

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// An inner box of a sample entry, and how it is made clean. A box that is not in the list of
// its codec is left out.
type keeper func(f *file, b *box) ([]byte, error)

// A codec that can be looked through: what its sample entries may hold, which of that a
// decoder cannot do without, and how its samples are cut into parts that are allowed.
type codec struct {
	inner map[string]keeper
	need  string
	parts func(setup []byte) (func(f *file, s *sample, to *Copy) error, error)
}

// The codecs that can be looked through, by the name that a sample entry gives them. The
// sources: ISO/IEC 14496-12 (boxes), 14496-14 (mp4a), 14496-15 (avc1, hvc1), AV1 in ISOBMFF,
// VP in ISOBMFF, Opus in ISOBMFF, FLAC in ISOBMFF, ETSI TS 102 366 annex F (ac-3, ec-3), Apple,
// QuickTime File Format (.mp3, alac, wave).
var (
	pictureCodecs = map[string]codec{
		"avc1": {avcInner, "avcC", avcParts}, "avc3": {avcInner, "avcC", avcParts},
		"hvc1": {hevcInner, "hvcC", hevcParts}, "hev1": {hevcInner, "hvcC", hevcParts},
		"av01": {av1Inner, "av1C", av1Parts},
		"vp08": {vpInner, "vpcC", nil}, "vp09": {vpInner, "vpcC", nil},
	}
	soundCodecs = map[string]codec{
		"mp4a": {map[string]keeper{"esds": bareESDS, "wave": bareWave}, "esds", aacParts},
		".mp3": {map[string]keeper{}, "", nil},
		"Opus": {map[string]keeper{"dOps": bareOpus}, "dOps", opusParts},
		"fLaC": {map[string]keeper{"dfLa": bareFLAC}, "dfLa", nil},
		"ac-3": {map[string]keeper{"dac3": atMost(3)}, "", nil},
		"ec-3": {map[string]keeper{"dec3": atMost(64)}, "", nil},
		"alac": {map[string]keeper{"alac": atMost(52), "wave": bareWave}, "", nil},
	}
	shape = map[string]keeper{
		"pasp": exactly(8), "clap": exactly(32), "colr": bareColors, "fiel": exactly(2), "btrt": exactly(12),
		"mdcv": exactly(24), "clli": exactly(4), "SmDm": exactly(28), "CoLL": exactly(8),
	}
	avcInner  = with(shape, "avcC", bareAVC)
	hevcInner = with(shape, "hvcC", bareHEVC)
	av1Inner  = with(shape, "av1C", bareAV1)
	vpInner   = with(shape, "vpcC", bareVP)
)

func with(list map[string]keeper, kind string, c keeper) map[string]keeper {
	out := maps.Clone(list)
	out[kind] = c
	return out
}

// looks reads the descriptions of a track's samples (8.5.2).
func (f *file) looks(b *box, handler string, quickTime bool) ([]look, error) {
	if b == nil || b.end > f.size {
		return nil, errTables
	}
	var out []look
	for _, e := range f.boxes(b.at+8, b.end) {
		var l look
		var err error
		if handler == "vide" {
			l, err = f.pictures(&e)
		} else {
			l, err = f.sound(&e, quickTime)
		}
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	if len(out) == 0 || len(out) > 64 {
		return nil, errTables
	}
	return out, nil
}

// pictures reads a description of pictures (12.1.3): the size and what the decoder needs.
func (f *file) pictures(e *box) (look, error) {
	c, ok := pictureCodecs[e.kind]
	if !ok {
		return look{}, fmt.Errorf("its picture is %s, which cannot be looked through for what is private; export it as MP4 with H.264", codecName(e.kind))
	}
	was := f.bytes(e.at, 78)
	if len(was) < 78 {
		return look{}, errTables
	}
	head := make([]byte, 78)
	head[7] = 1                     // the samples are in this file
	copy(head[24:28], was[24:28])   // width and height
	be.PutUint32(head[28:], 72<<16) // dots an inch, which nobody uses
	be.PutUint32(head[32:], 72<<16)
	head[41] = 1                  // one picture a sample
	copy(head[74:76], was[74:76]) // depth
	be.PutUint16(head[76:], 1<<16-1)
	return f.look(e, c, head, e.at+78)
}

// sound reads a description of sound (12.2.3). QuickTime has three forms of it, of which the
// later ones are longer (QuickTime File Format, Sound Sample Descriptions).
func (f *file) sound(e *box, quickTime bool) (look, error) {
	c, ok := soundCodecs[e.kind]
	if !ok {
		return look{}, fmt.Errorf("its sound is %s, which cannot be looked through for what is private; export it as MP4 with AAC", codecName(e.kind))
	}
	was := f.bytes(e.at, 64)
	if len(was) < 28 {
		return look{}, errTables
	}
	n, version := 28, be.Uint16(was[8:])
	// In MP4 a version is of another kind and nothing is longer, but some cameras write
	// QuickTime's form there too.
	if version > 0 && (quickTime || !f.holdsAny(e.at+28, e.end, c.inner)) {
		if n = map[uint16]int{1: 44, 2: 64}[version]; n == 0 || len(was) < n {
			return look{}, errTables
		}
	}
	head := slices.Clone(was[:n])
	clear(head[:16]) // reserved, index, version, revision, vendor
	head[7] = 1
	if n == 28 {
		clear(head[20:24]) // compression and packet size
	} else {
		be.PutUint16(head[8:], version)
	}
	return f.look(e, c, head, e.at+int64(n))
}

// holdsAny reports whether one of the boxes between two places is in the list.
func (f *file) holdsAny(at, end int64, list map[string]keeper) bool {
	return slices.ContainsFunc(f.boxes(at, min(end, f.size)), func(b box) bool { return list[b.kind] != nil })
}

// look keeps the inner boxes that are allowed and finds out how samples are cut.
func (f *file) look(e *box, c codec, head []byte, at int64) (look, error) {
	parts := [][]byte{head}
	var setup []byte
	had := map[string]bool{}
	for _, b := range f.boxes(at, min(e.end, f.size)) {
		keep, ok := c.inner[b.kind]
		if !ok || b.end > e.end || had[b.kind] {
			continue
		}
		had[b.kind] = true
		made, err := keep(f, &b)
		if err != nil {
			return look{}, err
		}
		if made == nil {
			continue
		}
		if words := wordsIn(made); words != "" {
			return look{}, errWords(words)
		}
		if b.kind == c.need || b.kind == "wave" {
			setup = made
		}
		parts = append(parts, boxed(b.kind, made))
	}
	l := look{codec: e.kind}
	if c.need != "" && setup == nil {
		return l, fmt.Errorf("it is damaged: what a decoder of %s needs is missing", codecName(e.kind))
	}
	if c.parts != nil {
		var err error
		if l.parts, err = c.parts(setup); err != nil {
			return l, err
		}
	}
	l.entry = boxed(e.kind, parts...)
	return l, nil
}

// bareOpus keeps the setup of Opus as long as it says that it is (Opus in ISOBMFF, 4.3.2): with
// a table of channels where there are more than two.
func bareOpus(f *file, b *box) ([]byte, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 11 {
		return nil, errors.New("it is damaged: what its sound needs does not read")
	}
	n := 11
	if t[10] != 0 {
		n += 2 + int(t[1])
	}
	if len(t) < n {
		return nil, errors.New("it is damaged: what its sound needs does not read")
	}
	return t[:n], nil
}

// exactly keeps a box of one size, whose bytes are all numbers that a player uses.
func exactly(n int64) keeper {
	return func(f *file, b *box) ([]byte, error) {
		if b.end-b.at != n {
			return nil, nil
		}
		return f.table(b)
	}
}

// atMost keeps a box that is not larger than a decoder's setup can be.
func atMost(n int64) keeper {
	return func(f *file, b *box) ([]byte, error) {
		if b.end-b.at > n {
			return nil, fmt.Errorf("it is damaged: what its decoder needs is too large")
		}
		return f.table(b)
	}
}

// bareColors keeps colors that are given as numbers, and not a profile, which holds text
// (12.1.5).
func bareColors(f *file, b *box) ([]byte, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 10 {
		return nil, err
	}
	switch string(t[:4]) {
	case "nclx":
		if len(t) >= 11 {
			return t[:11], nil
		}
	case "nclc":
		return t[:10], nil
	}
	return nil, nil
}

// bareVP keeps a VP8 or VP9 decoder's setup without data of its own, which neither has.
func bareVP(f *file, b *box) ([]byte, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 12 {
		return nil, errTables
	}
	clear(t[10:12])
	return t[:12], nil
}

// bareFLAC keeps the one block that a decoder needs, STREAMINFO. Others hold pictures and
// words (RFC 9639, 8).
func bareFLAC(f *file, b *box) ([]byte, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 4+4+34 || t[4]&0x7f != 0 {
		return nil, errTables
	}
	t[4] = 0x80 // the last block
	return t[:4+4+34], nil
}

// bareWave keeps of QuickTime's box around a decoder's setup the boxes that say how to
// decode, and closes it.
func bareWave(f *file, b *box) ([]byte, error) {
	var out []byte
	for _, in := range f.boxes(b.at, min(b.end, f.size)) {
		var data []byte
		var err error
		switch in.kind {
		case "frma":
			data, err = exactly(4)(f, &in)
		case "esds":
			data, err = bareESDS(f, &in)
		case "alac":
			data, err = atMost(52)(f, &in)
		case "mp4a":
			data = make([]byte, 4)
		}
		if err != nil {
			return nil, err
		}
		if data != nil {
			out = append(out, boxed(in.kind, data)...)
		}
	}
	return append(out, 0, 0, 0, 8, 0, 0, 0, 0), nil
}

var errESDS = errors.New("it is damaged: what its sound needs does not read")

// A descriptor is a part of MPEG-4's description of a stream (ISO/IEC 14496-1, 8.3.3).
func descriptor(t []byte) (tag byte, content, rest []byte, err error) {
	if len(t) < 2 {
		return 0, nil, nil, errESDS
	}
	tag = t[0]
	n := 0
	for i := 1; i < len(t) && i <= 4; i++ {
		n = n<<7 | int(t[i]&0x7f)
		if t[i]&0x80 == 0 {
			if n > len(t)-i-1 {
				return 0, nil, nil, errESDS
			}
			return tag, t[i+1 : i+1+n], t[i+1+n:], nil
		}
	}
	return 0, nil, nil, errESDS
}

// bareESDS writes a new description of an MPEG-4 stream with what a decoder needs: the kind,
// the rates and the decoder's own setup (14496-1, 7.2.6.5 and 7.2.6.6).
func bareESDS(f *file, b *box) ([]byte, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 4 {
		return nil, errESDS
	}
	tag, es, _, err := descriptor(t[4:])
	if err != nil || tag != 3 || len(es) < 3 {
		return nil, errESDS
	}
	skip, flags := 3, es[2]
	if flags&0x80 != 0 { // it depends on another stream
		skip += 2
	}
	if flags&0x40 != 0 { // an address
		if len(es) <= skip {
			return nil, errESDS
		}
		skip += 1 + int(es[skip])
	}
	if flags&0x20 != 0 { // a clock of another stream
		skip += 2
	}
	if len(es) < skip {
		return nil, errESDS
	}
	tag, config, _, err := descriptor(es[skip:])
	if err != nil || tag != 4 || len(config) < 13 {
		return nil, errESDS
	}
	// MPEG-4 and MPEG-2 AAC, MPEG-2 and MPEG-1 layer 3 (MP4 registration authority).
	if !strings.ContainsRune("\x40\x66\x67\x68\x69\x6b", rune(config[0])) {
		return nil, fmt.Errorf("its sound is of MPEG-4 kind %02x, which cannot be looked through; export it as MP4 with AAC", config[0])
	}
	decoder := slices.Clone(config[:13])
	if len(config) > 13 {
		tag, own, _, err := descriptor(config[13:])
		if err != nil || len(own) > 64 {
			return nil, errESDS
		}
		if tag == 5 {
			if own, err = bareAAC(config[0], own); err != nil {
				return nil, err
			}
			decoder = append(append(decoder, 5, byte(len(own))), own...)
		}
	}
	out := []byte{0, 0, 0, 0, 3, byte(3 + 2 + len(decoder) + 3), 0, 0, 0, 4, byte(len(decoder))}
	return append(append(out, decoder...), 6, 1, 2), nil
}
