package media

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"
)

var errParts = errors.New("it is damaged: a picture in it does not read")

// What is allowed of the parts of a picture: the number of their kind, and how many bytes they
// may have. Parts of the other kinds hold what no decoder needs: words of the encoder, times
// of day, positions. Kinds that are reserved, or that only some decoders know, are skipped by
// every player, so anything can be in them.
//
// H.264: ITU-T H.264, table 7-1: slices, parameter sets. Delimiters and ends are left out: a
// sample says itself where it ends. H.265: ITU-T H.265, table 7-1: slices of the kinds that
// are defined, parameter sets, and the ends, which say what the next pictures may be built on
// and have nothing but a head. AV1: the AV1 bitstream specification, 6.2.2: sequence header,
// frame header, tile group, frame.
var (
	avcAllowed = kinds(map[int]int64{1: picture, 5: picture, 7: parameters, 8: parameters})

	hevcAllowed = kinds(map[int]int64{
		0: picture, 1: picture, 2: picture, 3: picture, 4: picture, 5: picture, 6: picture, 7: picture, 8: picture, 9: picture,
		16: picture, 17: picture, 18: picture, 19: picture, 20: picture, 21: picture,
		32: parameters, 33: parameters, 34: parameters, 36: 2, 37: 2,
	})
	av1Allowed = kinds(map[int]int64{1: parameters, 3: picture, 4: picture, 6: picture})
)

// A slice is as long as its picture is. A parameter set has numbers only: the largest, with
// scaling lists for every size of block and every layer, stays below this.
const (
	picture    = 1 << 40
	parameters = 1 << 12
)

func kinds(list map[int]int64) (most [64]int64) {
	for k, n := range list {
		most[k] = n
	}
	return most
}

// avcNeeds and hevcNeeds report whether a decoder needs a part of n bytes. What H.265 puts
// into a layer above the first is for a second eye, or for a sharper picture, and players skip
// it (7.4.2.2).
func avcNeeds(head []byte, n int64) bool { return n <= avcAllowed[head[0]&31] }

func hevcNeeds(head []byte, n int64) bool {
	layer := head[0]&1<<5 | head[1]>>3
	return n >= 2 && n <= hevcAllowed[head[0]>>1&63] && layer == 0
}

// A cleaner makes the clean form of a parameter set.
type cleaner func(unit []byte) ([]byte, error)

// bareAVC writes H.264's setup new, with its parameter sets (ISO/IEC 14496-15, 5.3.3.1).
func bareAVC(f *file, b *box) ([]byte, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 7 || t[0] != 1 {
		return nil, errParts
	}
	out := slices.Clone(t[:5])
	t = t[5:]
	clean := newAVCSets().bare
	for _, kind := range []byte{7, 8} {
		if len(t) < 1 {
			return nil, errParts
		}
		count := t[0]
		if kind == 7 {
			count &= 31
		}
		out = append(out, t[0])
		list, rest, err := sets(t[1:], int(count), clean, func(unit []byte) bool { return unit[0]&31 == kind })
		if err != nil {
			return nil, err
		}
		out, t = append(out, list...), rest
	}
	switch out[1] {
	case 100, 110, 122, 144: // the high profiles have four bytes more
		if len(t) < 4 {
			return out, nil // some cameras leave them out
		}
		// The fourth counts the sets for transparency, which no player of a page shows.
		out = append(append(out, t[:3]...), 0)
	}
	return out, nil
}

// sets takes a count of parameter sets, each with its length in front, and makes them clean.
func sets(t []byte, count int, clean cleaner, allowed func([]byte) bool) (list, rest []byte, err error) {
	for range count {
		if len(t) < 3 || int(be.Uint16(t)) > len(t)-2 || be.Uint16(t) == 0 {
			return nil, nil, errParts
		}
		n := 2 + int(be.Uint16(t))
		if n-2 > parameters || !allowed(t[2:n]) {
			return nil, nil, errParts
		}
		made, err := clean(t[2:n])
		if err != nil {
			return nil, nil, err
		}
		list = append(be.AppendUint16(list, uint16(len(made))), made...)
		t = t[n:]
	}
	return list, t, nil
}

// bareHEVC keeps H.265's setup and its parameter sets (14496-15, 8.3.3.1). Encoders put
// words about themselves next to them.
func bareHEVC(f *file, b *box) ([]byte, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 23 || t[0] != 1 {
		return nil, errParts
	}
	out := slices.Clone(t[:23])
	count := int(t[22])
	out[22] = 0
	t = t[23:]
	for range count {
		if len(t) < 3 {
			return nil, errParts
		}
		kind := t[0] & 63
		clean := hevcBare
		if kind < 32 || kind > 34 {
			clean = func([]byte) ([]byte, error) { return nil, nil } // it is left out
		}
		list, rest, err := sets(t[3:], int(be.Uint16(t[1:])), clean, func(unit []byte) bool {
			return unit[0]>>1&63 == kind && (kind < 32 || kind > 34 || hevcNeeds(append(unit[:len(unit):len(unit)], 0), int64(len(unit))))
		})
		if err != nil {
			return nil, err
		}
		if kind >= 32 && kind <= 34 {
			out = append(append(out, t[:3]...), list...)
			out[22]++
		}
		t = rest
	}
	return out, nil
}

// avcParts and hevcParts cut samples at the lengths in front of their parts (14496-15,
// 5.3.2 and 8.3.2).
func avcParts(setup []byte) (func(*file, *sample, *Copy) error, error) {
	known := newAVCSets()
	if _, _, err := sets(setup[6:], int(setup[5]&31), known.bare, func([]byte) bool { return true }); err != nil {
		return nil, err
	}
	isSet := func(head byte) bool { return head&31 >= 7 }
	return units(int64(setup[4]&3)+1, avcNeeds, isSet, known.bare), nil
}

func hevcParts(setup []byte) (func(*file, *sample, *Copy) error, error) {
	isSet := func(head byte) bool { return head>>1&63 >= 32 && head>>1&63 <= 34 }
	return units(int64(setup[21]&3)+1, hevcNeeds, isSet, hevcBare), nil
}

// units keeps the parts of a sample that are allowed, parameter sets in their clean form.
func units(width int64, needed func(head []byte, n int64) bool, isSet func(head byte) bool, clean cleaner) func(*file, *sample, *Copy) error {
	seen, made := 0, 0
	return func(f *file, s *sample, to *Copy) error {
		at, end := s.at, s.at+int64(s.n)
		for at < end {
			var b [8]byte
			if at+width > end || !f.fill(b[:width+2], at) {
				return errParts
			}
			n := int64(0)
			for _, v := range b[:width] {
				n = n<<8 | int64(v)
			}
			if n > end-at-width {
				return errParts
			}
			if n > 0 && needed(b[width:], n) {
				if isSet(b[width]) {
					set, err := cleanUnit(f, at, width, n, clean, to)
					if made += set; err != nil || made > maxTable {
						return cmp.Or(err, errParts)
					}
				} else {
					to.take(at, width+n)
				}
			}
			at += width + n
			if seen++; seen > maxUnits {
				return tooManyParts()
			}
		}
		return nil
	}
}

// cleanUnit keeps the clean form of a parameter set, and returns how many bytes were made new.
func cleanUnit(f *file, at, width, n int64, clean cleaner, to *Copy) (made int, err error) {
	was := f.bytes(at+width, n)
	if int64(len(was)) < n {
		return 0, errParts
	}
	set, err := clean(was)
	if err != nil || len(set) >= 1<<(8*min(width, 3)) {
		return 0, cmp.Or(err, errParts)
	}
	if bytes.Equal(set, was) {
		to.take(at, width+n)
		return 0, nil
	}
	size := be.AppendUint64(nil, uint64(len(set)))
	to.write(append(size[8-width:], set...))
	return len(set), nil
}

func tooManyParts() error {
	return fmt.Errorf("its pictures have more than %d parts, too many to look through", maxUnits)
}

// fill reads exactly as many bytes as asked. At the end of the file a byte that is missing is
// left zero.
func (f *file) fill(b []byte, at int64) bool {
	clear(b)
	n, _ := f.r.ReadAt(b, at)
	return n == len(b) || n > 0 && at+int64(n) == f.size
}

// bareAV1 keeps AV1's setup with the sequence header (AV1 in ISOBMFF, 2.3).
func bareAV1(f *file, b *box) ([]byte, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 4 || len(t) > 1<<12 {
		return nil, errParts
	}
	to := &Copy{from: f.r}
	if err := obus(f, b.at+4, b.end, to, new(int)); err != nil {
		return nil, err
	}
	if to.size == 0 {
		return t[:4], nil
	}
	own := make([]byte, to.size)
	if _, err := to.ReadAt(own, 0); err != nil {
		return nil, err
	}
	return append(t[:4:4], own...), nil
}

func av1Parts([]byte) (func(*file, *sample, *Copy) error, error) {
	seen := new(int)
	return func(f *file, s *sample, to *Copy) error { return obus(f, s.at, s.at+int64(s.n), to, seen) }, nil
}

// obus keeps the parts of AV1 that are allowed, of the lowest layer. Each has a byte or two of head and mostly its
// size (AV1 bitstream specification, 5.3).
func obus(f *file, at, end int64, to *Copy, seen *int) error {
	for at < end {
		var b [10]byte
		f.fill(b[:], at)
		head := int64(1 + b[0]>>2&1)
		n := end - at - head // without a size it goes on to the end
		if b[0]&2 != 0 {
			v, width := int64(0), int64(0)
			for ; width < 8; width++ {
				v |= int64(b[head+width]&0x7f) << (7 * width)
				if b[head+width]&0x80 == 0 {
					break
				}
			}
			n, head = v, head+width+1
		}
		if n < 0 || n > end-at-head {
			return errParts
		}
		if layer := b[1] >> 3 & 3; n <= av1Allowed[b[0]>>3&15] && (b[0]&4 == 0 || layer == 0) {
			to.take(at, head+n)
		}
		at += head + n
		if *seen++; *seen > maxUnits {
			return tooManyParts()
		}
	}
	return nil
}

// aacParts takes out of AAC what encoders and cameras write in front of the sound: the
// fill elements, data elements and comments on channels (ISO/IEC 14496-3, table 4.3). Their bits are
// set to zero, so the sound keeps its place. Fill elements after the sound belong
// to it. MP3 under the same name has no such elements.
func aacParts(setup []byte) (func(*file, *sample, *Copy) error, error) {
	kind, object := soundKind(setup)
	switch {
	case kind == 0x69 || kind == 0x6b: // MP3
		return nil, nil
	case kind == 0:
		return nil, errESDS
	// Main, LC, SSR, LTP, SBR and PS share this form (14496-3, table 1.17). 0: not given.
	case object > 5 && object != 29:
		return nil, fmt.Errorf("its sound is AAC of kind %d, which cannot be looked through; export it as MP4 with AAC", object)
	}
	made := 0
	return func(f *file, s *sample, to *Copy) error {
		head := f.bytes(s.at, min(int64(s.n), mostSound))
		out, end := emptied(head)
		if end == len(head) && int64(end) < int64(s.n) {
			return errParts
		}
		if made += end; made > maxTable {
			return errors.New("its sound has more filling than can be taken out")
		}
		to.write(slices.Clone(out[:end]))
		to.take(s.at+int64(end), int64(s.n)-int64(end))
		return nil
	}, nil
}

// mostSound is more than one sample of AAC can have: 6,144 bits a channel (14496-3, 4.5.3.1)
// of at most 48 channels.
const mostSound = 40 << 10

// soundKind finds the kind of MPEG-4 sound in a clean esds, or in a wave box around one, and
// the kind of AAC in the decoder's setup. Both are 0 if they are not given.
func soundKind(setup []byte) (kind, object byte) {
	for i := range setup {
		if s := setup[i:]; len(s) > 11 && string(s[:5]) == "\x00\x00\x00\x00\x03" && s[9] == 4 {
			if len(s) > 26 && s[24] == 5 {
				object = s[26] >> 3
			}
			return s[11], object
		}
	}
	return 0, 0
}

// emptied clears the elements in front of the sound in a copy of b, and the comment in the one that
// lists the channels. It returns the bytes and how many of them may have changed: none if it has
// neither.
func emptied(data []byte) (out []byte, end int) {
	b := &bits{data: data}
	for b.at/8 < len(data) {
		n := 0
		switch b.u(3) {
		case 6: // fill
			if n = int(b.u(4)); n == 15 {
				n += int(b.u(8)) - 1
			}
		case 5: // channels
			n = b.channels()
		case 4: // data
			b.skip(4)
			aligned := b.flag()
			if n = int(b.u(8)); n == 255 {
				n += int(b.u(8))
			}
			if aligned {
				b.skip((8 - b.at%8) % 8)
			}
		default:
			if out == nil {
				return nil, 0
			}
			return out, min((b.at+7)/8, len(data))
		}
		if out == nil {
			out = slices.Clone(data)
			b.data = out
		}
		b.skip(8 * n)
		b.clear(8 * n)
	}
	return out, len(data)
}
