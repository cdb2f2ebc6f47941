package media

import "bytes"

// bits reads numbers of any width, the highest bit first. What is read past the end is zero, and
// short is set.
type bits struct {
	data  []byte
	at    int // in bits
	short bool
}

// u reads a number of n bits, up to 32 (ITU-T H.264 and H.265, 7.2).
func (b *bits) u(n int) (v uint32) {
	for range n {
		v <<= 1
		if b.at/8 < len(b.data) {
			v |= uint32(b.data[b.at/8] >> (7 - b.at%8) & 1)
		} else {
			b.short = true
		}
		b.at++
	}
	return v
}

func (b *bits) flag() bool { return b.u(1) == 1 }

// skip passes over n bits.
func (b *bits) skip(n int) {
	b.at += n
	b.short = b.short || b.at > 8*len(b.data)
}

// ue reads a number in the code of Exp and Golomb (H.264, 9.1; H.265, 9.2). No number in a
// parameter set has more than 32 bits.
func (b *bits) ue() uint32 {
	zeros := 0
	for ; b.u(1) == 0; zeros++ {
		if zeros > 31 || b.short {
			b.short = true
			return 0
		}
	}
	if zeros == 32 {
		b.u(32)
		return 1<<32 - 1
	}
	return 1<<zeros - 1 + b.u(zeros)
}

// most reads such a number, which may not be larger than a limit.
func (b *bits) most(limit uint32) int {
	v := b.ue()
	if v > limit {
		b.short = true
		return 0
	}
	return int(v)
}

// ues passes over n such numbers.
func (b *bits) ues(n int) {
	for range n {
		b.ue()
	}
}

// se reads such a number with a sign.
func (b *bits) se() int {
	v := int(b.ue())
	if v%2 == 0 {
		return -v / 2
	}
	return (v + 1) / 2
}

// more reports whether anything follows but the bit that ends the set and its filling (H.264,
// 7.2, more_rbsp_data).
func (b *bits) more() bool {
	data := bytes.TrimRight(b.data, "\x00")
	if len(data) == 0 {
		return false
	}
	last, end := data[len(data)-1], 8*len(data)-1
	for ; last&1 == 0; last >>= 1 {
		end--
	}
	return b.at < end
}

// clear sets the last n bits that were read to zero.
func (b *bits) clear(n int) {
	for i := b.at - n; i < b.at && i/8 < len(b.data); i++ {
		b.data[i/8] &^= 1 << (7 - i%8)
	}
}

// read is what was read, with the bit that ends a set (H.264, 7.3.2.11).
func (b *bits) read() []byte {
	n := b.at / 8
	out := append(bytes.Clone(b.data[:n]), 0x80)
	if used := b.at % 8; used > 0 {
		out[n] = b.data[n]&^(0xff>>used) | 0x80>>used
	}
	return out
}

// unescaped takes the bytes out of a part of a picture that keep it from looking like a start
// (H.264 and H.265, 7.3.1.1); escaped puts them in.
func unescaped(unit []byte) []byte {
	out := make([]byte, 0, len(unit))
	zeros := 0
	for _, c := range unit {
		if zeros >= 2 && c == 3 {
			zeros = 0
			continue
		}
		if out = append(out, c); c == 0 {
			zeros++
		} else {
			zeros = 0
		}
	}
	return out
}

func escaped(data []byte) []byte {
	out := make([]byte, 0, len(data)+4)
	zeros := 0
	for _, c := range data {
		if zeros >= 2 && c <= 3 {
			out, zeros = append(out, 3), 0
		}
		if out = append(out, c); c == 0 {
			zeros++
		} else {
			zeros = 0
		}
	}
	return out
}
