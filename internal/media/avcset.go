package media

// avcSets makes H.264's parameter sets clean: it reads every number that the standard gives them
// (ITU-T H.264, 7.3.2.1 and 7.3.2.2), and ends them there. What follows is skipped by every
// player, so anything can be in it.
type avcSets struct{ chroma map[uint32]uint32 }

func newAVCSets() *avcSets { return &avcSets{map[uint32]uint32{}} }

// bare is the clean form of a parameter set, or the error if it does not read.
func (a *avcSets) bare(unit []byte) ([]byte, error) {
	b := &bits{data: unescaped(unit)}
	b.skip(8)
	if unit[0]&31 == 7 {
		a.sequence(b)
	} else {
		a.picture(b)
	}
	if b.short {
		return nil, errParts
	}
	return escaped(b.read()), nil
}

// chromaProfiles are the profiles whose sets say how their colors are stored.
var chromaProfiles = map[uint32]bool{100: true, 110: true, 122: true, 244: true, 44: true, 83: true, 86: true, 118: true, 128: true, 138: true, 139: true, 134: true, 135: true}

// sequence reads a set for a sequence of pictures (7.3.2.1.1).
func (a *avcSets) sequence(b *bits) {
	profile := b.u(8)
	b.skip(6)
	b.u(2)
	b.clear(2) // reserved
	b.skip(8)
	id, chroma := uint32(b.most(31)), 1
	if chromaProfiles[profile] {
		if chroma = b.most(3); chroma == 3 {
			b.skip(1)
		}
		b.ues(2)
		b.skip(1)
		if b.flag() {
			avcLists(b, map[bool]int{false: 8, true: 12}[chroma == 3])
		}
	}
	a.chroma[id] = uint32(chroma)
	b.ue()
	switch b.most(2) {
	case 0:
		b.ue()
	case 1:
		b.skip(1)
		b.ues(2)
		b.ues(b.most(255))
	}
	b.ue()
	b.skip(1)
	b.ues(2)
	if !b.flag() {
		b.skip(1)
	}
	b.skip(1)
	if b.flag() {
		b.ues(4)
	}
	if b.flag() {
		avcShown(b)
	}
}

// avcLists reads how coarsely parts of a picture are stored (7.3.2.1.1.1).
func avcLists(b *bits, n int) {
	for i := range n {
		if !b.flag() {
			continue
		}
		count := 16
		if i >= 6 {
			count = 64
		}
		for last, next, j := 8, 8, 0; j < count && !b.short; j++ {
			if next != 0 {
				next = (last + b.se() + 256) & 255
			}
			if next != 0 {
				last = next
			}
		}
	}
}

// avcShown reads how pictures are shown (E.1.1).
func avcShown(b *bits) {
	shownAs(b)
	if b.flag() { // times
		b.skip(65)
	}
	rates := false
	for range 2 {
		if b.flag() {
			avcRates(b)
			rates = true
		}
	}
	if rates {
		b.skip(1)
	}
	b.skip(1)
	if b.flag() {
		b.skip(1)
		b.ues(6)
	}
}

// shownAs reads what H.264 and H.265 say first in the same form: the shape of a dot, what a screen
// may cut off, the colors (H.264, E.1.1; H.265, E.2.1).
func shownAs(b *bits) {
	if b.flag() && b.u(8) == 255 {
		b.skip(32)
	}
	if b.flag() {
		b.skip(1)
	}
	if b.flag() {
		b.skip(4)
		if b.flag() {
			b.skip(24)
		}
	}
	if b.flag() {
		b.ues(2)
	}
}

// avcRates reads how many bytes arrive in a second (E.1.2).
func avcRates(b *bits) {
	count := b.most(31) + 1
	b.skip(8)
	for range count {
		b.ues(2)
		b.skip(1)
	}
	b.skip(20)
}

// picture reads a set for pictures (7.3.2.2), which follows a set for a sequence.
func (a *avcSets) picture(b *bits) {
	b.most(255)
	chroma, ok := a.chroma[uint32(b.most(31))]
	b.short = b.short || !ok
	b.skip(2)
	if groups := b.most(7) + 1; groups > 1 {
		avcGroups(b, groups)
	}
	b.ues(2)
	b.skip(3)
	b.ues(3)
	b.skip(3)
	if !b.more() {
		return
	}
	small := b.flag()
	if b.flag() {
		n := 6
		if small && chroma == 3 {
			n = 12
		} else if small {
			n = 8
		}
		avcLists(b, n)
	}
	b.ue()
}

// avcGroups reads in which order the parts of a picture come.
func avcGroups(b *bits, groups int) {
	switch b.most(6) {
	case 0:
		b.ues(groups)
	case 2:
		b.ues(2 * (groups - 1))
	case 3, 4, 5:
		b.skip(1)
		b.ue()
	case 6:
		wide := [9]int{2: 1, 3: 2, 4: 2, 5: 3, 6: 3, 7: 3, 8: 3}[groups]
		b.skip(wide * (b.most(1<<16) + 1))
	}
}
