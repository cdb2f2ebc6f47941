package media

import (
	"cmp"
	"slices"
)

// hevcBare makes H.265's parameter sets clean, as avcSets does H.264's (ITU-T H.265, 7.3.2). What
// they say about further layers is taken out, because those layers are.
func hevcBare(unit []byte) ([]byte, error) {
	if len(unit) < 3 {
		return nil, errParts
	}
	b := &bits{data: unescaped(unit)}
	b.skip(16)
	switch unit[0] >> 1 & 63 {
	case 32:
		hevcVideo(b)
	case 33:
		hevcSequence(b)
	default:
		hevcPicture(b)
	}
	if b.short {
		return nil, errParts
	}
	return escaped(b.read()), nil
}

// hevcVideo reads a set for a video (7.3.2.1).
func hevcVideo(b *bits) {
	b.skip(12)
	subs := int(b.u(3))
	b.skip(17)
	hevcProfile(b, subs)
	hevcOrder(b, subs)
	layers := int(b.u(6)) + 1
	b.skip(layers * b.most(1023))
	if b.flag() {
		b.skip(64)
		if b.flag() {
			b.ue()
		}
		var r hevcRates
		for i := range b.most(1024) {
			b.ue()
			r.read(b, i == 0 || b.flag(), subs)
		}
	}
	b.u(1)
	b.clear(1) // further layers
}

// hevcProfile reads which decoders can show it (7.3.3).
func hevcProfile(b *bits, subs int) {
	b.skip(88 + 8)
	if subs == 0 {
		return
	}
	given := b.u(16)
	for i := range subs {
		if given>>(15-2*i)&1 == 1 {
			b.skip(88)
		}
		if given>>(14-2*i)&1 == 1 {
			b.skip(8)
		}
	}
}

// hevcOrder reads how many pictures a decoder has to keep, for each sublayer or for the last.
func hevcOrder(b *bits, subs int) {
	if !b.flag() {
		subs = 0
	}
	b.ues(3 * (subs + 1))
}

// hevcRates say how many bytes arrive in a second (E.2.2 and E.2.3). What is common to several is
// given once.
type hevcRates struct {
	kinds [2]bool // of the pictures, and of everything
	parts bool    // also for parts of a picture
}

func (r *hevcRates) read(b *bits, common bool, subs int) {
	if common {
		r.common(b)
	}
	for range subs + 1 {
		low, count := false, 1
		steady := b.flag()
		if !steady {
			steady = b.flag() // within this sequence at least
		}
		if steady {
			b.ue()
		} else {
			low = b.flag()
		}
		if !low {
			count = b.most(31) + 1
		}
		for _, has := range r.kinds {
			for i := 0; has && i < count; i++ {
				b.ues(2)
				if r.parts {
					b.ues(2)
				}
				b.skip(1)
			}
		}
	}
}

func (r *hevcRates) common(b *bits) {
	*r = hevcRates{kinds: [2]bool{b.flag(), b.flag()}}
	if !r.kinds[0] && !r.kinds[1] {
		return
	}
	if r.parts = b.flag(); r.parts {
		b.skip(19 + 4)
	}
	b.skip(8 + 15)
}

// hevcSequence reads a set for a sequence of pictures (7.3.2.2).
func hevcSequence(b *bits) {
	b.skip(4)
	subs := int(b.u(3))
	b.skip(1)
	hevcProfile(b, subs)
	b.most(15)
	if b.most(3) == 3 {
		b.skip(1)
	}
	b.ues(2)
	if b.flag() {
		b.ues(4)
	}
	b.ues(2)
	order := b.most(12) + 4
	hevcOrder(b, subs)
	b.ues(6)
	if scaled := b.flag(); scaled {
		if own := b.flag(); own {
			hevcLists(b)
		}
	}
	b.skip(2)
	if b.flag() {
		b.skip(8)
		b.ues(2)
		b.skip(1)
	}
	hevcReferences(b, b.most(64))
	if b.flag() {
		b.skip(b.most(32) * (order + 1))
	}
	b.skip(2)
	if b.flag() {
		hevcShown(b, subs)
	}
	if b.flag() {
		hevcMore(b, func() { b.skip(9) }, func() { b.skip(1) })
	}
}

// hevcMore reads which extensions follow, and those for more exact colors and for several layers.
// Sets with others do not read: no phone records them. Those that are not defined are taken out.
func hevcMore(b *bits, exact, layers func()) {
	given := b.u(8)
	b.clear(4)
	b.short = b.short || given&0x30 != 0 || layers == nil && given&0x40 != 0
	if given&0x80 != 0 {
		exact()
	}
	if given&0x40 != 0 && layers != nil {
		layers()
	}
}

// hevcLists reads how coarsely parts of a picture are stored (7.3.4).
func hevcLists(b *bits) {
	for size := range 4 {
		step := 1
		if size == 3 {
			step = 3
		}
		for i := 0; i < 6; i += step {
			if !b.flag() {
				b.ue()
				continue
			}
			if size > 1 {
				b.ue()
			}
			b.ues(min(64, 1<<(4+2*size)))
		}
	}
}

// hevcReferences reads which pictures those of a sequence build on (7.3.7). A list may be given by
// what changes in the one before, so how long each is has to be known (7.4.8).
func hevcReferences(b *bits, n int) {
	var before []int // how much earlier or later each picture is
	for i := range n {
		var list []int
		if i > 0 && b.flag() {
			list = hevcChanged(b, before)
		} else {
			earlier, later := b.most(16), b.most(16)
			at := 0
			for j := range earlier + later {
				if j == earlier {
					at = 0
				}
				step := int(b.most(1<<15)) + 1
				if j < earlier {
					step = -step
				}
				at += step
				b.skip(1)
				list = append(list, at)
			}
		}
		if before = list; b.short {
			return
		}
	}
}

// hevcChanged is a list that is given by another: each of its pictures, and the one itself, moved.
// The nearest earlier picture comes first, the nearest later one after all that are earlier.
func hevcChanged(b *bits, before []int) (list []int) {
	by := 1
	if b.flag() {
		by = -1
	}
	by *= b.most(1<<15) + 1
	for _, at := range append(before[:len(before):len(before)], 0) {
		if used := b.flag(); (used || b.flag()) && at+by != 0 {
			list = append(list, at+by)
		}
	}
	if len(list) > 16 {
		b.short = true
	}
	slices.SortFunc(list, func(a, b int) int {
		if (a < 0) != (b < 0) {
			return cmp.Compare(a, b)
		}
		return cmp.Compare(max(a, -a), max(b, -b))
	})
	return list
}

// hevcShown reads how pictures are shown (E.2.1).
func hevcShown(b *bits, subs int) {
	shownAs(b)
	b.skip(3)
	if b.flag() {
		b.ues(4)
	}
	if b.flag() {
		b.skip(64)
		if b.flag() {
			b.ue()
		}
		if b.flag() {
			new(hevcRates).read(b, true, subs)
		}
	}
	if b.flag() {
		b.skip(3)
		b.ues(5)
	}
}

// hevcPicture reads a set for pictures (7.3.2.3).
func hevcPicture(b *bits) {
	b.most(63)
	b.most(15)
	b.skip(7)
	b.ues(3)
	b.skip(1)
	skips := b.flag()
	if b.flag() {
		b.ue()
	}
	b.ues(2)
	b.skip(4)
	tiles := b.flag()
	b.skip(1)
	if tiles {
		hevcTiles(b)
	}
	b.skip(1)
	if b.flag() {
		b.skip(1)
		if !b.flag() {
			b.ues(2)
		}
	}
	if b.flag() {
		hevcLists(b)
	}
	b.skip(1)
	b.ue()
	b.skip(1)
	if b.flag() {
		hevcMore(b, func() { hevcExact(b, skips) }, nil)
	}
}

// hevcTiles reads into which rectangles a picture is cut.
func hevcTiles(b *bits) {
	columns, rows := b.most(63), b.most(63)
	if !b.flag() {
		b.ues(columns + rows)
	}
	b.skip(1)
}

// hevcExact reads what a set for pictures says about more exact colors (7.3.2.3.2).
func hevcExact(b *bits, skips bool) {
	if skips {
		b.ue()
	}
	b.skip(1)
	if b.flag() {
		b.ue()
		b.ues(2 * (b.most(5) + 1))
	}
	b.ues(2)
}
