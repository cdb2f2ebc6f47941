package media

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// shown is what an edit list says is played of a track (ISO/IEC 14496-12, 8.6.6). A phone
// that trims a recording writes such a list and leaves what was cut off in the file. Every
// player skips it, and anybody can read it.
type shown struct {
	version byte
	any     bool   // a stretch was listed
	wait    uint64 // how long nothing is shown at first, in the movie's units of time
	from    int64  // the first moment that is shown, in the track's units
	length  uint64 // how long it is shown, in the movie's units; 0 goes on to the end
}

// errTrimmed is returned where what was cut off cannot be left out without making new pictures.
var errTrimmed = errors.New("it was trimmed, and the file still holds the part that was cut off; " +
	"that part cannot be taken out here, because the pictures that follow are built on it. Export the video again as a new file")

// mostFrozen is for how many seconds the first picture may be frozen after a cut.
const mostFrozen = 2

// edits reads the list. One stretch of the recording may be shown, after a wait.
func (f *file) edits(b *box, movie, own uint64) (*shown, error) {
	t, err := f.table(b)
	if err != nil || len(t) < 8 || movie == 0 || own == 0 {
		return nil, errTables
	}
	s := &shown{version: t[0]}
	each := 12
	if s.version == 1 {
		each = 20
	}
	n := int(be.Uint32(t[4:]))
	if n > 4096 || len(t) < 8+n*each {
		return nil, errTables
	}
	for i := range n {
		e := t[8+i*each:]
		length, from := uint64(be.Uint32(e)), int64(int32(be.Uint32(e[4:])))
		if each == 20 {
			length, from = be.Uint64(e), int64(be.Uint64(e[8:]))
		}
		if length > 1<<44 || from > 1<<44 || from < -1 {
			return nil, errTables
		}
		// A rate other than one is slow motion, or a picture that stays.
		if usual := be.Uint32(e[each-4:]) == 1<<16; !s.then(length, from, usual, movie, own) {
			return nil, errTrimmed
		}
	}
	if !s.any {
		return nil, errTrimmed
	}
	return s, nil
}

// then adds an entry of the list: a wait if from is -1, or a stretch that follows the one before.
// It reports whether that can be done.
func (s *shown) then(length uint64, from int64, usual bool, movie, own uint64) bool {
	switch {
	case from == -1 && s.any: // nothing is shown after the end
		return true
	case from == -1:
		s.wait += length
		return true
	case !usual:
		return false
	case !s.any:
		s.from, s.length, s.any = from, length, true
		return true
	case s.length == 0 || from < s.end(movie, own)-1 || from > s.end(movie, own)+1:
		return false
	}
	if s.length += length; length == 0 {
		s.length = 0
	}
	return true
}

// end is the first moment that is not shown any more.
func (s *shown) end(movie, own uint64) int64 {
	if s.length == 0 {
		return math.MaxInt64
	}
	// Lengths have at most 44 bits, and a scale has 32.
	whole, part := s.length/movie, s.length%movie
	return s.from + int64(min(whole*own+(part*own+movie-1)/movie, 1<<61))
}

// box writes the list.
func (s *shown) box() []byte {
	var t []byte
	count := uint32(0)
	add := func(length uint64, from int64) {
		count++
		if s.version == 1 {
			t = be.AppendUint64(be.AppendUint64(t, length), uint64(from))
		} else {
			t = be.AppendUint32(be.AppendUint32(t, uint32(length)), uint32(from))
		}
		t = be.AppendUint32(t, 1<<16)
	}
	if s.wait > 0 {
		add(s.wait, -1)
	}
	add(s.length, s.from)
	return boxed("edts", full("elst", s.version, 0, be.AppendUint32(nil, count), t))
}

// trim leaves out the samples that the edit list does not show. Movie is the movie's scale.
func (t *track) trim(movie uint64) error {
	if t.edits == nil || len(t.samples) == 0 {
		return nil
	}
	end := t.edits.end(movie, scaleOf(t.media))
	before := len(t.samples)
	if t.handler == "vide" {
		if err := t.trimPictures(end); err != nil {
			return err
		}
	} else {
		t.trimSound(end)
	}
	t.trimmed = len(t.samples) < before
	return nil
}

// leadIn is how many pieces of sound in front of the first that is heard a decoder needs:
// those of AAC overlap, and its delay is up to 2,112 of 1,024 samples each. Together they last
// a twentieth of a second.
const leadIn = 2

func (t *track) trimSound(end int64) {
	at, first, last := int64(0), len(t.samples), 0
	starts := make([]int64, len(t.samples))
	for i := range t.samples {
		starts[i] = at
		if at < end {
			last = i + 1
		}
		if at += int64(t.samples[i].lasts); at > t.edits.from {
			first = min(first, i)
		}
	}
	if first >= last {
		t.samples = nil
		return
	}
	first = max(0, first-leadIn)
	t.edits.from -= starts[first]
	t.samples = t.samples[first:last]
}

// trimPictures begins at the first picture that is shown and needs no other, and ends before
// the first that is not shown any more. The first picture stays on the screen for the time
// of those that are lost in front of it, so that words and sound keep their times.
func (t *track) trimPictures(end int64) error {
	list := t.samples
	when := make([]int64, len(list)) // when each is shown
	at := int64(0)
	for i := range list {
		when[i] = at + int64(list[i].shift)
		at += int64(list[i].lasts)
	}
	until := shownUntil(list, when)
	first, hidden := len(list), false
	for i := range list {
		if until[i] <= t.edits.from {
			hidden = true
		} else if list[i].whole {
			first = min(first, i)
		}
	}
	if !hidden {
		return t.keepPictures(0, 0, end, when)
	}
	if first == len(list) || when[first]-t.edits.from > mostFrozen*int64(scaleOf(t.media)) {
		return errTrimmed
	}
	return t.keepPictures(first, max(0, when[first]-t.edits.from), end, when)
}

// shownUntil is the moment at which each picture gives way to the next on the screen.
func shownUntil(list []sample, when []int64) []int64 {
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(when[a], when[b]) })
	until := make([]int64, len(list))
	for i, o := range order {
		until[o] = when[o] + int64(list[o].lasts)
		if i+1 < len(order) {
			until[o] = when[order[i+1]]
		}
	}
	return until
}

// keepPictures keeps the samples from the first, which is shown longer by frozen. Pictures that
// are decoded after the first and shown before it may need what is left out. Pictures after
// the end may be needed by some that are shown, which are left out too: a few at most.
func (t *track) keepPictures(first int, frozen, end int64, when []int64) error {
	var kept []sample
	lift := max(0, -t.samples[first].shift) // an edit list cannot begin before 0
	for i := first; i < len(t.samples) && when[i] < end; i++ {
		s := t.samples[i]
		if first > 0 && when[i] < when[first] {
			last := &kept[len(kept)-1]
			if last.lasts += s.lasts; last.lasts < s.lasts {
				return errTables
			}
			continue
		}
		kept = append(kept, s)
	}
	if len(kept) == 0 {
		return errTrimmed
	}
	if len(kept) == len(t.samples) {
		return nil
	}
	if first > 0 || frozen > 0 {
		if frozen > math.MaxUint32-int64(kept[0].lasts) {
			return errTables
		}
		for i := range kept {
			kept[i].shift += lift
		}
		kept[0].lasts += uint32(frozen)
		t.edits.from = int64(kept[0].shift) + max(0, t.edits.from-when[first])
	}
	t.samples = kept
	return nil
}
