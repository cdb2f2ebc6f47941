package media

import "slices"

// bareAAC ends the setup of AAC where a decoder stops reading it (ISO/IEC 14496-3, 1.6.2.1 and
// 4.4.1), and empties the comment in it. Kinds of AAC that are refused later are left as they are,
// and so is MP3, which has no setup.
func bareAAC(kind byte, setup []byte) ([]byte, error) {
	if kind == 0x69 || kind == 0x6b {
		return nil, nil
	}
	b := &bits{data: slices.Clone(setup)}
	object := b.u(5)
	if object > 5 && object != 29 {
		return setup, nil
	}
	b.rate()
	channels := b.u(4)
	if object == 5 || object == 29 { // sharper sound around a plain one
		b.rate()
		b.u(5)
	}
	b.skip(1)
	if b.flag() {
		b.skip(14)
	}
	b.u(1)
	b.clear(1) // extensions that these kinds do not have
	if channels == 0 && b.channels() > 0 {
		b.clear(8)
		b.data = b.data[:min(len(b.data), b.at/8)]
	}
	end := *b
	if b.u(11) == 0x2b7 && b.u(5) == 5 { // sharper sound, said at the end for old decoders
		if b.flag() {
			b.rate()
			if end = *b; b.u(11) == 0x548 {
				b.skip(1)
				end = *b
			}
		} else {
			end = *b
		}
	}
	if end.short {
		return nil, errESDS
	}
	out := end.data[:(end.at+7)/8]
	if used := end.at % 8; used > 0 {
		out[len(out)-1] &^= 0xff >> used
	}
	return out, nil
}

// rate reads how many samples a second has: by number, or in full.
func (b *bits) rate() {
	if b.u(4) == 15 {
		b.skip(24)
	}
}

// channels reads which channels there are (4.5.1.2), and how many bytes of comment follow.
func (b *bits) channels() (comment int) {
	b.skip(4 + 2 + 4)
	pairs := int(b.u(4)) + int(b.u(4)) + int(b.u(4)) // in front, at the sides, in the back
	singles := int(b.u(2)) + int(b.u(3))
	pairs += int(b.u(4))
	for _, wide := range []int{4, 4, 3} { // how to mix them down
		if b.flag() {
			b.skip(wide)
		}
	}
	b.skip(5*pairs + 4*singles)
	b.skip((8 - b.at%8) % 8)
	return int(b.u(8))
}
