package media

// opusParts keeps packets of Opus, without what fills them.
func opusParts([]byte) (func(*file, *sample, *Copy) error, error) {
	return func(f *file, s *sample, to *Copy) error {
		opusPacket(f, s.at, s.at+int64(s.n), to)
		return nil
	}, nil
}

// opusPacket keeps a packet. What fills one up to a size comes last and has to be zero (RFC 6716,
// 3.2.5), and every player skips it, so it is made zero. A packet that does not read is kept: players skip it whole.
func opusPacket(f *file, at, end int64, to *Copy) {
	filling := opusFilling(f.bytes(at, min(end-at, mostSound)), end-at)
	to.take(at, end-at-filling)
	for filling > 0 {
		n := min(filling, int64(len(zeros)))
		to.write(zeros[:n:n])
		filling -= n
	}
}

// zeros are shared by all copies, and never written to.
var zeros [4096]byte

// opusFilling is how many bytes at the end of a packet of n bytes are there to fill it.
func opusFilling(head []byte, n int64) (filling int64) {
	if len(head) < 2 || head[0]&3 != 3 || head[1]&0x40 == 0 { // not of several pieces, or not filled
		return 0
	}
	at := int64(2)
	for {
		if at >= int64(len(head)) {
			return 0
		}
		v := int64(head[at])
		at++
		if v < 255 {
			filling += v
			break
		}
		filling += 254
	}
	if filling > n-at {
		return 0
	}
	return filling
}
