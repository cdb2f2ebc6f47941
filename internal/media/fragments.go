package media

import (
	"cmp"
	"errors"
)

// usual are the values of a track's samples where a fragment does not give them
// (ISO/IEC 14496-12, 8.8.3).
type usual struct{ look, lasts, n, flags uint32 }

// notWhole is the flag of a sample at which playing cannot begin (8.8.3.1).
const notWhole = 0x10000

// fragments reads the samples that are listed in fragments, as some recorders of screens
// and browsers write them, and adds them to the tracks. The copy has one index instead.
func (f *file) fragments(top, moov []box, tracks []*track) error {
	defaults := map[uint32]usual{}
	mvex := child(moov, "mvex")
	for _, b := range f.boxes(mvex.at, min(mvex.end, f.size)) {
		if t := f.bytes(b.at, 24); b.kind == "trex" && len(t) == 24 {
			defaults[be.Uint32(t[4:])] = usual{be.Uint32(t[8:]), be.Uint32(t[12:]), be.Uint32(t[16:]), be.Uint32(t[20:])}
		}
	}
	byID := map[uint32]*track{}
	for _, t := range tracks {
		byID[t.id] = t
	}
	other := &track{} // the samples of all tracks that are not kept, counted like the rest
	for _, moof := range top {
		if moof.kind != "moof" {
			continue
		}
		if moof.end > f.size {
			return errors.New("it is cut off: the file ends before its index does")
		}
		next := moof.head // where a track's samples begin if nothing else is said
		for _, traf := range f.boxes(moof.at, moof.end) {
			if traf.kind != "traf" {
				continue
			}
			end, err := f.fragment(f.boxes(traf.at, min(traf.end, moof.end)), moof.head, next, func(id uint32) *track { return cmp.Or(byID[id], other) }, defaults)
			if err != nil {
				return err
			}
			next = end
		}
	}
	return nil
}

// fragment reads one track's part of a fragment (8.8.7, 8.8.8), and returns where its
// samples end. Tracks that are not kept are read too: the next one may begin there.
func (f *file) fragment(traf []box, moof, next int64, tracks func(id uint32) *track, defaults map[uint32]usual) (end int64, err error) {
	t, err := f.table(child(traf, "tfhd"))
	if err != nil || len(t) < 8 {
		return 0, errTables
	}
	fields := fieldsOf(t)
	id := be.Uint32(t[4:])
	u := defaults[id]
	base := next
	if be.Uint32(t)&0x20000 != 0 {
		base = moof
	}
	fields.at = 8
	if fields.has(1) {
		base = int64(fields.word())<<32 | int64(fields.word())
	}
	for flag, to := range []*uint32{&u.look, nil, &u.lasts, &u.n, &u.flags} {
		if to != nil && fields.has(2<<flag) {
			*to = fields.word()
		}
	}
	if fields.short {
		return 0, errTables
	}
	at := base
	for i := range traf {
		if traf[i].kind != "trun" {
			continue
		}
		if at, err = f.run(&traf[i], tracks(id), u, base, at); err != nil {
			return 0, err
		}
	}
	return at, nil
}

// run reads one run of samples (8.8.8).
func (f *file) run(b *box, to *track, u usual, base, at int64) (end int64, err error) {
	t, err := f.table(b)
	if err != nil || len(t) < 8 {
		return 0, errTables
	}
	fields := fieldsOf(t)
	count := int(be.Uint32(t[4:]))
	fields.at = 8
	if fields.has(1) {
		at = base + int64(int32(fields.word()))
	}
	first, given := uint32(0), fields.has(4)
	if given {
		first = fields.word()
	}
	if count > maxSamples-len(to.samples) {
		return 0, errors.New("it has more samples than can be looked through")
	}
	for i := range count {
		v := u
		if given && i == 0 {
			v.flags = first
		}
		shift := uint32(0)
		for j, value := range []*uint32{&v.lasts, &v.n, &v.flags, &shift} {
			if fields.has(0x100 << j) {
				*value = fields.word()
			}
		}
		if fields.short || v.look < 1 || v.look > 1<<15 || at < 0 || at > f.size {
			return 0, errTables
		}
		to.samples = append(to.samples, sample{at: at, n: v.n, lasts: v.lasts, shift: int32(shift), look: uint16(v.look - 1), whole: v.flags&notWhole == 0})
		at += int64(v.n)
	}
	return at, nil
}

// fields reads the words that flags say are there.
type fields struct {
	t     []byte
	at    int
	short bool
}

func fieldsOf(t []byte) *fields { return &fields{t: t} }

func (f *fields) has(flag uint32) bool { return be.Uint32(f.t)&0xffffff&flag != 0 }

func (f *fields) word() uint32 {
	if f.at+4 > len(f.t) {
		f.short = true
		return 0
	}
	f.at += 4
	return be.Uint32(f.t[f.at-4:])
}
