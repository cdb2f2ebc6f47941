package media

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// A film is what is published of an MP4 or QuickTime file: one track of pictures and at
// most one of sound.
type film struct {
	quickTime bool
	fragments bool // the samples were listed in fragments, so the headers state no duration
	header    []byte
	tracks    []*track
}

// A track is a track of the film, with its headers as they were.
type track struct {
	handler string // vide or soun
	codec   string
	id      uint32
	header  []byte // tkhd
	media   []byte // mdhd
	edits   *shown // nil if all is shown
	trimmed bool   // some samples are not shown and were left out
	looks   []look
	samples []sample
}

// A look is one description of samples: what a decoder must know before the first.
type look struct {
	codec string
	entry []byte // the clean sample entry
	// parts cuts a sample into the pieces that are allowed. It is nil where a sample holds
	// nothing but picture or sound.
	parts func(f *file, s *sample, to *Copy) error
}

var errNoIndex = errors.New("it has no index; the recording was cut off or was not finished")

// bareMP4 plans the copy of an MP4 or QuickTime file: ftyp, moov and mdat, in this order,
// so that a phone can start before the file has arrived.
func bareMP4(f *file, quickTime bool) (*Copy, error) {
	m, err := f.film(quickTime)
	if err != nil {
		return nil, err
	}
	chunks, data, err := m.pack(f)
	if err != nil {
		return nil, err
	}
	brand := boxed("ftyp", []byte("isom\x00\x00\x02\x00isomiso2mp41"))
	if quickTime {
		brand = boxed("ftyp", []byte("qt  \x00\x00\x02\x00qt  "))
	}
	wide := data.size > 1<<32-1<<28
	front := 8
	if wide {
		front = 16
	}
	// The places of the chunks depend on the length of the index, and that does not depend
	// on the places.
	index := m.index(chunks, wide)
	base := int64(len(brand) + len(index) + front)
	for i := range chunks {
		for j := range chunks[i] {
			chunks[i][j].at += base
		}
	}
	c := &Copy{from: f.r}
	c.write(brand)
	c.write(m.index(chunks, wide))
	head := append(be.AppendUint32(nil, uint32(int64(front)+data.size)), "mdat"...)
	if wide {
		head = be.AppendUint64(append(be.AppendUint32(nil, 1), "mdat"...), uint64(int64(front)+data.size))
	}
	c.write(head)
	c.splice(data)
	return c, nil
}

// film reads the index.
func (f *file) film(quickTime bool) (*film, error) {
	top := f.boxes(0, f.size)
	if len(top) == maxSteps {
		return nil, errors.New("it has too many parts to look through")
	}
	index := child(top, "moov")
	if index == nil {
		return nil, errNoIndex
	}
	if last := top[len(top)-1]; last.end > f.size {
		return nil, fmt.Errorf("it is cut off: the file ends before its part %s does", printable(last.kind))
	}
	moov := f.boxes(index.at, index.end)
	m := &film{quickTime: quickTime, fragments: child(moov, "mvex") != nil}
	var err error
	if m.header, err = f.header(child(moov, "mvhd"), 100, 112); err != nil {
		return nil, err
	}
	var refused error
	for i := range moov {
		if moov[i].kind != "trak" {
			continue
		}
		t, err := f.track(f.boxes(moov[i].at, min(moov[i].end, index.end)), scaleOf(m.header), quickTime)
		if err != nil {
			refused = cmp.Or(refused, err)
		} else if t != nil {
			m.add(t)
		}
	}
	if err := m.complete(refused); err != nil {
		return nil, err
	}
	if m.fragments {
		if err := f.fragments(top, moov, m.tracks); err != nil {
			return nil, err
		}
	}
	for _, t := range m.tracks {
		if err := cmp.Or(t.hold(f.size), t.trim(scaleOf(m.header))); err != nil {
			return nil, err
		}
	}
	return m, nil
}

// add adds a track, if it is the first of its kind that players show: a track whose flag says
// that it is not enabled comes after all others (8.3.2).
func (m *film) add(t *track) {
	enabled := func(t *track) bool { return t.header[3]&1 != 0 }
	i := slices.IndexFunc(m.tracks, func(o *track) bool { return o.handler == t.handler })
	if i < 0 {
		m.tracks = append(m.tracks, t)
	} else if enabled(t) && !enabled(m.tracks[i]) {
		m.tracks[i] = t
	}
}

// complete refuses a film without pictures, and one that has sound of which none can be
// kept. The reason is that of the first track that was refused.
func (m *film) complete(refused error) error {
	has := func(handler string) bool {
		return slices.ContainsFunc(m.tracks, func(t *track) bool { return t.handler == handler })
	}
	switch {
	case !has("vide") && refused == nil:
		return errors.New("it holds no moving picture")
	case !has("vide"), !has("soun"):
		return refused
	}
	return nil
}

// hold checks that every sample lies in the file and follows a description.
func (t *track) hold(size int64) error {
	for i := range t.samples {
		s := &t.samples[i]
		if s.at < 0 || s.at > size-int64(s.n) {
			return errors.New("it is cut off: the file ends before its pictures do")
		}
		if int(s.look) >= len(t.looks) {
			return errTables
		}
	}
	if len(t.samples) == 0 && t.handler == "vide" {
		return errors.New("it holds no moving picture")
	}
	return nil
}

// header reads a header of fixed size, which depends on its version.
func (f *file) header(b *box, short, long int) ([]byte, error) {
	t, err := f.table(b)
	if err != nil {
		return nil, err
	}
	want := short
	if len(t) > 0 && t[0] == 1 {
		want = long
	}
	if len(t) < want || t[0] > 1 {
		return nil, errTables
	}
	return t[:want], nil
}

// track reads one track. It returns nil for a track that is neither pictures nor sound:
// positions, chapters, times of day. An error says why pictures or sound cannot be kept. Movie
// is how many units of time the movie counts in a second.
func (f *file) track(trak []box, movie uint64, quickTime bool) (*track, error) {
	inside := func(list []box, kind string) []box {
		if b := child(list, kind); b != nil {
			return f.boxes(b.at, min(b.end, f.size))
		}
		return nil
	}
	mdia := inside(trak, "mdia")
	t := &track{}
	if b := child(mdia, "hdlr"); b != nil {
		if h := f.bytes(b.at, 12); len(h) == 12 {
			t.handler = string(h[8:])
		}
	}
	if t.handler != "vide" && t.handler != "soun" {
		return nil, nil
	}
	var err error
	if t.header, err = f.header(child(trak, "tkhd"), 84, 96); err != nil {
		return nil, err
	}
	if t.media, err = f.header(child(mdia, "mdhd"), 24, 36); err != nil {
		return nil, err
	}
	t.id = be.Uint32(t.header[12:])
	if t.header[0] == 1 {
		t.id = be.Uint32(t.header[20:])
	}
	if b := child(inside(trak, "edts"), "elst"); b != nil {
		if t.edits, err = f.edits(b, movie, scaleOf(t.media)); err != nil {
			return nil, err
		}
	}
	minf := inside(mdia, "minf")
	if err := f.selfContained(inside(minf, "dinf")); err != nil {
		return nil, err
	}
	stbl := inside(minf, "stbl")
	if t.looks, err = f.looks(child(stbl, "stsd"), t.handler, quickTime); err != nil {
		return nil, err
	}
	t.codec = t.looks[0].codec
	t.samples, err = f.samples(stbl)
	return t, err
}

// selfContained refuses a track whose samples are in another file (8.7.2): flag 1 says
// that they are in this one.
func (f *file) selfContained(dinf []box) error {
	b := child(dinf, "dref")
	if b == nil {
		return nil
	}
	for _, ref := range f.boxes(b.at+8, min(b.end, f.size)) {
		if flags := f.bytes(ref.at, 4); len(flags) < 4 || flags[3]&1 == 0 {
			return errors.New("its pictures are in another file; export it as one file")
		}
	}
	return nil
}

// pack lays out the samples of all tracks in the order in which they are in the original,
// and returns each track's chunks, with places that count from the first sample.
func (m *film) pack(f *file) ([][]chunk, *Copy, error) {
	type place struct{ track, sample int }
	var order []place
	var total int64
	for i, t := range m.tracks {
		for j := range t.samples {
			order = append(order, place{i, j})
			total += int64(t.samples[j].n)
		}
	}
	// Samples may overlap only in a file that was made to grow without end.
	if total > f.size {
		return nil, nil, errTables
	}
	slices.SortStableFunc(order, func(a, b place) int {
		return cmp.Or(cmp.Compare(m.tracks[a.track].samples[a.sample].at, m.tracks[b.track].samples[b.sample].at), cmp.Compare(a.track, b.track))
	})
	// Samples of a track keep the order in which they are decoded.
	next := make([]int, len(m.tracks))
	chunks := make([][]chunk, len(m.tracks))
	data := &Copy{from: f.r}
	last := -1
	for _, o := range order {
		t := m.tracks[o.track]
		s := &t.samples[next[o.track]]
		next[o.track]++
		from := data.size
		if parts := t.looks[s.look].parts; parts == nil {
			data.take(s.at, int64(s.n))
		} else if err := parts(f, s, data); err != nil {
			return nil, nil, err
		}
		s.n = uint32(data.size - from)
		list := &chunks[o.track]
		if n := len(*list); o.track == last && (*list)[n-1].look == s.look {
			(*list)[n-1].samples++
		} else {
			*list = append(*list, chunk{at: from, samples: 1, look: s.look})
		}
		last = o.track
	}
	return chunks, data, nil
}

// index writes the index of the copy. Times of day, names and titles are left out.
func (m *film) index(chunks [][]chunk, wide bool) []byte {
	scale, longest := scaleOf(m.header), uint64(0)
	parts := [][]byte{nil}
	for i, t := range m.tracks {
		length := uint64(0)
		for j := range t.samples {
			length += uint64(t.samples[j].lasts)
		}
		if m.fragments {
			if own := scaleOf(t.media); own > 0 {
				longest = max(longest, length*scale/own)
			}
		}
		parts = append(parts, m.track(t, uint32(i+1), length, scale, chunks[i], wide))
	}
	h := slices.Clone(m.header)
	at := timeless(h, 4)
	if m.fragments {
		setLength(h, at, longest)
	}
	// Rate, volume, ten reserved bytes, the matrix, six times of a preview.
	rest := h[len(h)-80:]
	be.PutUint32(rest, 1<<16)
	be.PutUint32(rest[4:], 1<<24)
	clear(rest[8:16])
	clear(rest[52:76])
	be.PutUint32(rest[76:], uint32(len(m.tracks)+1))
	parts[0] = boxed("mvhd", h)
	return boxed("moov", parts...)
}

// timeless clears the times of day in a header that begins with them (8.2.2, 8.3.2, 8.4.2).
// It returns where they end.
func timeless(h []byte, at int) int {
	h[1], h[2] = 0, 0
	each := 8
	if h[0] == 1 {
		each = 16
	}
	clear(h[at : at+each])
	return at + each
}

// scaleOf is how many units of time a header counts in a second.
func scaleOf(h []byte) uint64 {
	if h[0] == 1 {
		return uint64(be.Uint32(h[20:]))
	}
	return uint64(be.Uint32(h[12:]))
}

// setLength enters a duration in a movie's or a medium's header, after the time scale.
func setLength(h []byte, at int, length uint64) {
	if h[0] == 1 {
		be.PutUint64(h[at+4:], length)
	} else {
		be.PutUint32(h[at+4:], uint32(min(length, 1<<32-2)))
	}
}

// track writes one track. The length is that of its samples where fragments listed them.
func (m *film) track(t *track, id uint32, length, scale uint64, chunks []chunk, wide bool) []byte {
	h := slices.Clone(t.header)
	h[3] &= 7 // enabled, in movie, in preview
	at := timeless(h, 4)
	be.PutUint32(h[at:], id)
	clear(h[at+4 : at+8])
	media := slices.Clone(t.media)
	if own := scaleOf(media); own > 0 && (m.fragments || t.trimmed) {
		setLength(media, timeless(media, 4), length)
		if m.fragments {
			setLength(h, at+4, length*scale/own)
		}
	}
	timeless(media, 4)
	clear(media[len(media)-2:]) // QuickTime's quality

	rest := h[len(h)-60:] // after the duration: eight reserved bytes, layer, group, volume, ...
	clear(rest[:8])
	var edits []byte
	if t.edits != nil {
		edits = t.edits.box()
	}
	kind := "mhlr"
	if !m.quickTime {
		kind = "\x00\x00\x00\x00"
	}
	handler := full("hdlr", 0, 0, []byte(kind+t.handler), make([]byte, 13))
	head := full("smhd", 0, 0, make([]byte, 4))
	if t.handler == "vide" {
		head = full("vmhd", 0, 1, make([]byte, 8))
	}
	here := boxed("dinf", full("dref", 0, 0, be.AppendUint32(nil, 1), full("url ", 0, 1)))
	looks := [][]byte{be.AppendUint32(nil, uint32(len(t.looks)))}
	for _, l := range t.looks {
		looks = append(looks, l.entry)
	}
	stbl := boxed("stbl", full("stsd", 0, 0, looks...), tablesOf(t.samples, chunks, m.quickTime, t.handler == "vide", wide))
	return boxed("trak", boxed("tkhd", h), edits,
		boxed("mdia", boxed("mdhd", media), handler, boxed("minf", head, here, stbl)))
}
