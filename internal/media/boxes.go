package media

import (
	"encoding/binary"
	"fmt"
)

// be is the order of bytes in MP4 and QuickTime.
var be = binary.BigEndian

// A box is a part of an MP4 or QuickTime file (ISO/IEC 14496-12, 4.2).
type box struct {
	kind string
	head int64 // where its head begins
	at   int64 // where its content begins
	end  int64 // where it says it ends; past the file if the file is cut off
}

// boxes lists the boxes between two places. A box that goes on past the end is the last,
// with the end that it claims.
func (f *file) boxes(at, end int64) []box {
	var out []box
	for len(out) < maxSteps && at+8 <= end {
		b := f.bytes(at, 16)
		if len(b) < 8 {
			return out
		}
		n, head := int64(be.Uint32(b)), int64(8)
		switch {
		case n == 0: // to the end
			n = end - at
		case n == 1:
			if len(b) < 16 || be.Uint64(b[8:]) > 1<<62 {
				return out
			}
			n, head = int64(be.Uint64(b[8:])), 16
		}
		if n < head {
			return out
		}
		out = append(out, box{string(b[4:8]), at, at + head, at + n})
		if at += n; at > end {
			return out
		}
	}
	return out
}

// child is the first box of a kind, or nil.
func child(list []box, kind string) *box {
	for i := range list {
		if list[i].kind == kind {
			return &list[i]
		}
	}
	return nil
}

// table reads the whole content of a box. One that goes past the end of the file, or is
// too large, is an error.
func (f *file) table(b *box) ([]byte, error) {
	if b == nil {
		return nil, fmt.Errorf("it is damaged: a table of its index is missing")
	}
	n := b.end - b.at
	if b.end > f.size || n > maxTable {
		return nil, fmt.Errorf("it is damaged: the table %s of its index is larger than it can be", printable(b.kind))
	}
	data := make([]byte, n)
	if got, err := f.r.ReadAt(data, b.at); int64(got) < n {
		return nil, fmt.Errorf("it cannot be read: %w", err)
	}
	return data, nil
}

// boxed makes a box of its content.
func boxed(kind string, parts ...[]byte) []byte {
	n := 8
	for _, p := range parts {
		n += len(p)
	}
	out := append(be.AppendUint32(make([]byte, 0, n), uint32(n)), kind...)
	for _, p := range parts {
		out = append(out, p...)
	}
	return out
}

// full makes a box that begins with a version and flags (4.2).
func full(kind string, version byte, flags uint32, parts ...[]byte) []byte {
	return boxed(kind, append([][]byte{be.AppendUint32(nil, uint32(version)<<24|flags)}, parts...)...)
}
