package media

import (
	"errors"
	"fmt"
)

// A sample is one picture, or one piece of sound, of a track (ISO/IEC 14496-12, 3.1.12).
type sample struct {
	at    int64  // where it begins in the file
	n     uint32 // its bytes
	lasts uint32 // how long it plays, in the track's units of time
	shift int32  // how much later it is shown than it is decoded
	look  uint16 // which description of the track it follows, from 0
	whole bool   // playing can begin here
}

var errTables = errors.New("it is damaged: the tables of its index do not agree")

// samples reads the tables of a track that has them in its index (8.6 and 8.7).
func (f *file) samples(stbl []box) ([]sample, error) {
	list, err := f.sampleSizes(stbl)
	if err != nil || len(list) == 0 {
		return list, err
	}
	for _, fill := range []func([]box, []sample) error{f.samplePlaces, f.sampleTimes, f.sampleShifts, f.sampleStarts} {
		if err := fill(stbl, list); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// sampleSizes reads stsz or stz2 (8.7.3).
func (f *file) sampleSizes(stbl []box) ([]sample, error) {
	b := child(stbl, "stsz")
	if b == nil {
		b = child(stbl, "stz2")
	}
	t, err := f.table(b)
	if err != nil {
		return nil, err
	}
	if len(t) < 12 {
		return nil, errTables
	}
	same, count := be.Uint32(t[4:]), int64(be.Uint32(t[8:]))
	if count > maxSamples {
		return nil, fmt.Errorf("it has %d samples in one track; %d can be looked through", count, maxSamples)
	}
	bits := int64(32)
	if b.kind == "stz2" {
		bits, same = int64(t[7]), 0
	}
	if same == 0 && (bits != 4 && bits != 8 && bits != 16 && bits != 32 || int64(len(t)-12)*8 < count*bits) {
		return nil, errTables
	}
	list := make([]sample, count)
	for i := range list {
		switch {
		case same > 0:
			list[i].n = same
		case bits == 32:
			list[i].n = be.Uint32(t[12+4*i:])
		case bits == 16:
			list[i].n = uint32(be.Uint16(t[12+2*i:]))
		case bits == 8:
			list[i].n = uint32(t[12+i])
		default:
			list[i].n = uint32(t[12+i/2]) >> (4 * (1 - i%2)) & 15
		}
	}
	return list, nil
}

// samplePlaces reads stsc: which samples lie in which chunk (8.7.4).
func (f *file) samplePlaces(stbl []box, list []sample) error {
	chunks, err := f.table(child(stbl, "stsc"))
	if err != nil {
		return err
	}
	places, err := f.chunkPlaces(stbl)
	if err != nil {
		return err
	}
	if len(chunks) < 8 || int64(len(chunks)-8) < int64(be.Uint32(chunks[4:]))*12 {
		return errTables
	}
	runs := int(be.Uint32(chunks[4:]))
	next, before := 0, 0
	for run := range runs {
		r := chunks[8+12*run:]
		first, in, look := int(be.Uint32(r)), int(be.Uint32(r[4:])), be.Uint32(r[8:])
		last := len(places)
		if run+1 < runs {
			last = int(be.Uint32(r[12:])) - 1
		}
		if first <= before || last > len(places) || look < 1 || look > 1<<15 || in < 1 || in > len(list) {
			return errTables
		}
		before = first
		for chunk := first; chunk <= last && next < len(list); chunk++ {
			at := places[chunk-1]
			for end := min(next+in, len(list)); next < end; next++ {
				list[next].at, list[next].look = at, uint16(look-1)
				at += int64(list[next].n)
			}
		}
	}
	if next < len(list) {
		return errTables
	}
	return nil
}

// chunkPlaces reads stco or co64: where each chunk begins in the file (8.7.5).
func (f *file) chunkPlaces(stbl []box) ([]int64, error) {
	b, each := child(stbl, "co64"), 8
	if b == nil {
		b, each = child(stbl, "stco"), 4
	}
	t, err := f.table(b)
	if err != nil {
		return nil, err
	}
	if len(t) < 8 || int64(len(t)-8) < int64(be.Uint32(t[4:]))*int64(each) {
		return nil, errTables
	}
	places := make([]int64, be.Uint32(t[4:]))
	for i := range places {
		if each == 4 {
			places[i] = int64(be.Uint32(t[8+4*i:]))
			continue
		}
		v := be.Uint64(t[8+8*i:])
		if v > 1<<62 {
			return nil, errTables
		}
		places[i] = int64(v)
	}
	return places, nil
}

// runs reads a table of counts and values, and hands each sample its value.
func (f *file) runs(b *box, list []sample, each func(s *sample, v uint32)) error {
	t, err := f.table(b)
	if err != nil {
		return err
	}
	if len(t) < 8 || int64(len(t)-8) < int64(be.Uint32(t[4:]))*8 {
		return errTables
	}
	next := 0
	for i := range int(be.Uint32(t[4:])) {
		n, v := int64(be.Uint32(t[8+8*i:])), be.Uint32(t[12+8*i:])
		for ; n > 0 && next < len(list); n-- {
			each(&list[next], v)
			next++
		}
	}
	if next < len(list) {
		return errTables
	}
	return nil
}

// sampleTimes reads stts (8.6.1.2).
func (f *file) sampleTimes(stbl []box, list []sample) error {
	return f.runs(child(stbl, "stts"), list, func(s *sample, v uint32) { s.lasts = v })
}

// sampleShifts reads ctts (8.6.1.3). QuickTime has no version 1 and takes its values as
// signed in version 0; values of more than 31 bits are not found elsewhere.
func (f *file) sampleShifts(stbl []box, list []sample) error {
	b := child(stbl, "ctts")
	if b == nil {
		return nil
	}
	return f.runs(b, list, func(s *sample, v uint32) { s.shift = int32(v) })
}

// sampleStarts reads stss (8.6.2). Without it playing can begin at every sample.
func (f *file) sampleStarts(stbl []box, list []sample) error {
	b := child(stbl, "stss")
	if b == nil {
		for i := range list {
			list[i].whole = true
		}
		return nil
	}
	t, err := f.table(b)
	if err != nil {
		return err
	}
	if len(t) < 8 || int64(len(t)-8) < int64(be.Uint32(t[4:]))*4 {
		return errTables
	}
	for i := range int(be.Uint32(t[4:])) {
		n := int64(be.Uint32(t[8+4*i:]))
		if n < 1 || n > int64(len(list)) {
			return errTables
		}
		list[n-1].whole = true
	}
	return nil
}

// tablesOf writes the tables for the samples of a track, which lie in chunks.
// Places take eight bytes where the file is wide.
func tablesOf(list []sample, chunks []chunk, quickTime, video, wide bool) []byte {
	out := [][]byte{runsOf("stts", 0, list, func(s *sample) uint32 { return s.lasts })}
	shifted, back, parts := false, byte(0), 0
	for i := range list {
		shifted = shifted || list[i].shift != 0
		if list[i].shift < 0 && !quickTime {
			back = 1
		}
		if !list[i].whole {
			parts++
		}
	}
	if shifted {
		out = append(out, runsOf("ctts", back, list, func(s *sample) uint32 { return uint32(s.shift) }))
	}
	if parts > 0 && video {
		t := be.AppendUint32(nil, uint32(len(list)-parts))
		for i := range list {
			if list[i].whole {
				t = be.AppendUint32(t, uint32(i+1))
			}
		}
		out = append(out, full("stss", 0, 0, t))
	}
	sizes := be.AppendUint32(make([]byte, 4, 8+4*len(list)), uint32(len(list)))
	for i := range list {
		sizes = be.AppendUint32(sizes, list[i].n)
	}
	return boxesOf(append(out, chunkRuns(chunks), full("stsz", 0, 0, sizes), placesOf(chunks, wide)))
}

func boxesOf(list [][]byte) []byte {
	var out []byte
	for _, b := range list {
		out = append(out, b...)
	}
	return out
}

func runsOf(kind string, version byte, list []sample, value func(*sample) uint32) []byte {
	count, t := uint32(0), make([]byte, 4)
	for i := 0; i < len(list); count++ {
		from, v := i, value(&list[i])
		for i < len(list) && value(&list[i]) == v {
			i++
		}
		t = be.AppendUint32(be.AppendUint32(t, uint32(i-from)), v)
	}
	be.PutUint32(t, count)
	return full(kind, version, 0, t)
}

// A chunk is a run of samples of one track that follow each other in the copy.
type chunk struct {
	at      int64
	samples uint32
	look    uint16
}

func chunkRuns(chunks []chunk) []byte {
	count, t := uint32(0), make([]byte, 4)
	for i, c := range chunks {
		if i > 0 && c.samples == chunks[i-1].samples && c.look == chunks[i-1].look {
			continue
		}
		t = be.AppendUint32(be.AppendUint32(be.AppendUint32(t, uint32(i+1)), c.samples), uint32(c.look)+1)
		count++
	}
	be.PutUint32(t, count)
	return full("stsc", 0, 0, t)
}

func placesOf(chunks []chunk, wide bool) []byte {
	t := be.AppendUint32(nil, uint32(len(chunks)))
	for _, c := range chunks {
		if wide {
			t = be.AppendUint64(t, uint64(c.at))
		} else {
			t = be.AppendUint32(t, uint32(c.at))
		}
	}
	if wide {
		return full("co64", 0, 0, t)
	}
	return full("stco", 0, 0, t)
}
