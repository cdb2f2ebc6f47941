package media

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"slices"
)

// The elements of WebM that are read, by their identities (RFC 9559, 5.1).
const (
	ebmlHead    = 0x1a45dfa3
	docType     = 0x4282
	segmentID   = 0x18538067
	infoID      = 0x1549a966
	tracksID    = 0x1654ae6b
	clusterID   = 0x1f43b675
	cuesID      = 0x1c53bb6b
	scaleID     = 0x2ad7b1
	durationID  = 0x4489
	entryID     = 0xae
	numberID    = 0xd7
	uidID       = 0x73c5
	kindID      = 0x83
	codecID     = 0x86
	privateID   = 0x63a2
	encodingsID = 0x6d80
	videoID     = 0xe0
	wideID      = 0xb0
	highID      = 0xba
	audioID     = 0xe1
	timeID      = 0xe7
	simpleID    = 0xa3
	groupID     = 0xa0
	blockID     = 0xa1
	referenceID = 0xfb
)

// parents are the elements of the first level. A cluster of unknown size ends at the next.
var parents = map[uint32]bool{
	infoID: true, tracksID: true, clusterID: true, cuesID: true,
	0x114d9b74: true, 0x1043a770: true, 0x1941a469: true, 0x1254c367: true, // index, chapters, files, tags
}

// What is kept of a track, besides what is written new: numbers of at most eight bytes.
var (
	trackNumbers = idSet(numberID, kindID, 0xb9, 0x88, 0x9c, 0x23e383, 0x56aa, 0x56bb)                                           // enabled, default, lacing, duration of a picture, delay, roll
	videoNumbers = idSet(wideID, highID, 0x9a, 0x54b0, 0x54ba, 0x54b2, 0x54aa, 0x54bb, 0x54cc, 0x54dd)                           // interlaced, shown size and its unit, cuts
	audioNumbers = idSet(0xb5, 0x78b5, 0x9f, 0x6264)                                                                             // rates, channels, bits
	colorNumbers = idSet(0x55b1, 0x55b2, 0x55b3, 0x55b4, 0x55b5, 0x55b6, 0x55b7, 0x55b8, 0x55b9, 0x55ba, 0x55bb, 0x55bc, 0x55bd) // matrix, bits, range, transfer, primaries, brightest
	groupNumbers = idSet(0x9b, referenceID, 0x75a2)                                                                              // duration, what it builds on, padding
)

const colorID = 0x55b0

func idSet(list ...uint32) map[uint32]bool {
	out := map[uint32]bool{}
	for _, id := range list {
		out[id] = true
	}
	return out
}

// An element of EBML (RFC 8794, 4): a part with its identity and its size.
type element struct {
	id       uint32
	head     int64
	at, end  int64
	boundary bool // its size is known
}

// element reads the head of the element at a place.
func (f *file) element(at, end int64) (e element, ok bool) {
	var b [12]byte
	if at < 0 || at >= end || !f.fill(b[:], at) {
		return e, false
	}
	wide := 1
	for ; wide <= 4 && b[0]>>(8-wide)&1 == 0; wide++ {
	}
	if wide > 4 {
		return e, false
	}
	id := uint32(0)
	for _, v := range b[:wide] {
		id = id<<8 | uint32(v)
	}
	n, size, known := vint(b[wide:])
	if size == 0 {
		return e, false
	}
	e = element{id: id, head: at, at: at + int64(wide+size), boundary: known}
	if e.end = e.at + n; !known {
		e.end = end
	}
	return e, e.at <= end
}

// vint reads a number of variable size (RFC 8794, 4.1) and tells how many bytes it has. All
// ones mean that a size is not known.
func vint(b []byte) (v int64, size int, known bool) {
	for size = 1; size <= 8 && b[0]>>(8-size)&1 == 0; size++ {
	}
	if size > 8 || size > len(b) {
		return 0, 0, false
	}
	v = int64(b[0]) & (1<<(8-size) - 1)
	ones := v == 1<<(8-size)-1
	for _, c := range b[1:size] {
		v, ones = v<<8|int64(c), ones && c == 0xff
	}
	return v, size, !ones
}

// elements calls for each element between two places until it returns an error.
func (f *file) elements(at, end int64, each func(e element) error) error {
	for at < end {
		e, ok := f.element(at, end)
		if !ok || e.end > end {
			return errCutWebM
		}
		if err := each(e); err != nil {
			return err
		}
		at = e.end
	}
	return nil
}

var errCutWebM = errors.New("it is cut off or damaged: one of its parts goes on past the end of the file")

// webmTrack is a track that is kept.
type webmTrack struct {
	number     uint64
	kind       uint64 // 1 pictures, 2 sound
	codec      string
	wide, high int
	entry      []byte
	obus       bool // its blocks are looked through as AV1
}

// webm is what is published of a WebM file.
type webm struct {
	f        *file
	scale    uint64  // nanoseconds in a unit of time
	length   float64 // in units of time; 0 if the file does not say
	latest   int64   // the time of the last block
	tracks   []webmTrack
	clusters []webmCluster
	parts    int
}

type webmCluster struct {
	time uint64
	body *Copy
	key  uint64 // the track of pictures that begins here; 0 for none
}

var errNoWebM = errors.New("it is damaged: it is not a whole WebM file")

// bareWebM plans the copy of a WebM file: what it is, its tracks, where to find a time, and
// the blocks of the tracks.
func bareWebM(f *file) (*Copy, error) {
	w, err := f.webm()
	if err != nil {
		return nil, err
	}
	return w.write(), nil
}

// webm reads a WebM file.
func (f *file) webm() (*webm, error) {
	head, ok := f.element(0, f.size)
	if !ok || head.id != ebmlHead || !head.boundary {
		return nil, errNoWebM
	}
	segment, ok := f.element(head.end, f.size)
	if !ok || segment.id != segmentID || segment.end > f.size {
		return nil, errCutWebM
	}
	w := &webm{f: f, scale: 1_000_000}
	for at := segment.at; at < segment.end; {
		e, ok := f.element(at, segment.end)
		if !ok || e.end > segment.end {
			return nil, errCutWebM
		}
		end, err := w.part(e)
		if err != nil {
			return nil, err
		}
		at = end
	}
	if !slices.ContainsFunc(w.tracks, func(t webmTrack) bool { return t.kind == 1 }) || len(w.clusters) == 0 {
		return nil, errors.New("it holds no moving picture")
	}
	return w, nil
}

// part reads one element of the first level and returns where it ends.
func (w *webm) part(e element) (end int64, err error) {
	if !e.boundary && e.id != clusterID {
		return 0, errNoWebM
	}
	switch e.id {
	case infoID:
		return e.end, w.info(e)
	case tracksID:
		if w.tracks != nil {
			return 0, errNoWebM
		}
		return e.end, w.readTracks(e)
	case clusterID:
		return w.cluster(e)
	}
	return e.end, nil
}

// small reads an element that holds a number or a decoder's setup.
func (w *webm) small(e element) ([]byte, error) {
	if e.end-e.at > 64<<10 {
		return nil, errNoWebM
	}
	b := make([]byte, e.end-e.at)
	if !w.f.fill(b, e.at) && len(b) > 0 {
		return nil, errCutWebM
	}
	return b, nil
}

func (w *webm) number(e element) (v uint64, err error) {
	b, err := w.small(e)
	if len(b) > 8 {
		return 0, errNoWebM
	}
	for _, c := range b {
		v = v<<8 | uint64(c)
	}
	return v, err
}

func (w *webm) info(e element) error {
	return w.f.elements(e.at, e.end, func(e element) (err error) {
		switch e.id {
		case scaleID:
			if w.scale, err = w.number(e); w.scale == 0 {
				err = errNoWebM
			}
		case durationID:
			v, err := w.number(e)
			if err != nil {
				return err
			}
			if w.length = math.Float64frombits(v); e.end-e.at == 4 {
				w.length = float64(math.Float32frombits(uint32(v)))
			}
		}
		return err
	})
}

// readTracks keeps the first track of pictures and the first of sound that can be looked through.
func (w *webm) readTracks(e element) error {
	w.tracks = []webmTrack{}
	var refused error
	err := w.f.elements(e.at, e.end, func(e element) error {
		if e.id != entryID {
			return nil
		}
		t, err := w.track(e)
		switch {
		case err != nil:
			refused = cmp.Or(refused, err)
		case t != nil && !slices.ContainsFunc(w.tracks, func(o webmTrack) bool { return o.kind == t.kind || o.number == t.number }):
			w.tracks = append(w.tracks, *t)
		}
		return nil
	})
	if err == nil && len(w.tracks) < 2 {
		err = refused
	}
	return err
}

// The codecs of WebM that can be looked through, and how their setup is made clean.
var webmCodecs = map[string]func(w *webm, e element) ([]byte, error){
	"V_VP8": nothing, "V_VP9": nothing, "V_AV1": av1Private, "A_OPUS": opusPrivate, "A_VORBIS": vorbisPrivate,
}

func nothing(*webm, element) ([]byte, error) { return nil, nil }

func av1Private(w *webm, e element) ([]byte, error) {
	return bareAV1(w.f, &box{at: e.at, end: e.end})
}

func opusPrivate(w *webm, e element) ([]byte, error) {
	b, err := w.small(e)
	if err != nil || len(b) < 19 {
		return nil, errNoWebM
	}
	// RFC 7845, 5.1: with a table of channels where there are more than two.
	n := 19
	if b[18] != 0 {
		n += 2 + int(b[9])
	}
	if len(b) < n {
		return nil, errNoWebM
	}
	return b[:n], nil
}

// vorbisPrivate empties the comments, the second of three packets (Vorbis I, 4.2 and 5;
// RFC 9559, 5.1.4.1.22 and the Matroska codec registry, A_VORBIS).
func vorbisPrivate(w *webm, e element) ([]byte, error) {
	b, err := w.small(e)
	if err != nil || len(b) < 3 || b[0] != 2 {
		return nil, errNoWebM
	}
	at, size := 1, [2]int{}
	for i := range size {
		for {
			if at >= len(b) {
				return nil, errNoWebM
			}
			size[i] += int(b[at])
			if at++; b[at-1] != 255 {
				break
			}
		}
	}
	if at+size[0]+size[1] > len(b) || size[0] > 64 {
		return nil, errNoWebM
	}
	first, last := b[at:at+size[0]], b[at+size[0]+size[1]:]
	comments := "\x03vorbis\x00\x00\x00\x00\x00\x00\x00\x00\x01"
	out := append([]byte{2, byte(size[0]), byte(len(comments))}, first...)
	return append(append(out, comments...), last...), nil
}

// track reads one track. It returns nil for one that is neither pictures nor sound.
func (w *webm) track(e element) (*webmTrack, error) {
	t := &webmTrack{}
	var numbers, inner, setup []byte
	var private element
	err := w.f.elements(e.at, e.end, func(e element) (err error) {
		var b []byte
		switch {
		case trackNumbers[e.id]:
			var v uint64
			if v, err = w.number(e); e.id == numberID {
				t.number = v
			} else if e.id == kindID {
				t.kind = v
			}
			b, numbers = nil, append(numbers, w.copied(e)...)
		case e.id == codecID:
			b, err = w.small(e)
			t.codec = string(b)
		case e.id == privateID:
			private = e
		case e.id == encodingsID:
			err = errors.New("its pictures are packed or locked; export it as MP4")
		case e.id == videoID:
			inner, err = w.inner(e, videoNumbers, t)
		case e.id == audioID:
			inner, err = w.inner(e, audioNumbers, t)
		}
		return err
	})
	if err != nil || t.kind != 1 && t.kind != 2 {
		return nil, err
	}
	keep := webmCodecs[t.codec]
	if keep == nil || (t.codec[0] == 'V') != (t.kind == 1) {
		return nil, fmt.Errorf("its codec is %s, which cannot be looked through for what is private; export it as MP4 with H.264 and AAC", printable(t.codec))
	}
	if private.id != 0 {
		if setup, err = keep(w, private); err != nil {
			return nil, err
		}
		if words := wordsIn(setup); words != "" {
			return nil, errWords(words)
		}
	}
	t.obus = t.codec == "V_AV1"
	own := append(numbers, ebml(uidID, []byte{byte(t.kind)})...)
	own = append(own, ebml(codecID, []byte(t.codec))...)
	if setup != nil {
		own = append(own, ebml(privateID, setup)...)
	}
	t.entry = ebml(entryID, append(own, inner...))
	return t, nil
}

// inner keeps the numbers of the pictures or of the sound.
func (w *webm) inner(e element, allowed map[uint32]bool, t *webmTrack) ([]byte, error) {
	var out []byte
	err := w.f.elements(e.at, e.end, func(e element) error {
		switch {
		case e.id == colorID && allowed[wideID]:
			colors, err := w.inner(e, colorNumbers, t)
			out = append(out, ebml(colorID, colors)...)
			return err
		case !allowed[e.id]:
			return nil
		}
		v, err := w.number(e)
		if e.id == wideID {
			t.wide = int(min(v, 1<<20))
		} else if e.id == highID {
			t.high = int(min(v, 1<<20))
		}
		out = append(out, w.copied(e)...)
		return err
	})
	kind := uint32(audioID)
	switch {
	case allowed[wideID]:
		kind = videoID
	case allowed[0x55b1]:
		return out, err
	}
	return ebml(kind, out), err
}

// copied is a small element as it was.
func (w *webm) copied(e element) []byte {
	b, err := w.small(e)
	if err != nil || len(b) > 8 {
		return nil
	}
	return ebml(e.id, b)
}

// ebml makes an element.
func ebml(id uint32, data []byte) []byte {
	return append(append(ebmlID(id), ebmlSize(uint64(len(data)))...), data...)
}

func ebmlID(id uint32) []byte {
	b := binary.BigEndian.AppendUint32(nil, id)
	for b[0] == 0 {
		b = b[1:]
	}
	return b
}

// ebmlSize writes a size in eight bytes, so that nothing moves when it becomes known.
func ebmlSize(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, 1<<56|n) }

// cluster reads a cluster (RFC 9559, 5.1.3).
func (w *webm) cluster(e element) (end int64, err error) {
	c := webmCluster{body: &Copy{from: w.f.r}}
	at := e.at
	for at < e.end {
		b, ok := w.f.element(at, e.end)
		if !e.boundary && parents[b.id] {
			break
		}
		if !ok || b.end > e.end || !b.boundary {
			return 0, errCutWebM
		}
		if w.parts++; w.parts > maxUnits {
			return 0, tooManyParts()
		}
		switch b.id {
		case timeID:
			c.time, err = w.number(b)
		case simpleID:
			var whole bool
			if whole, err = w.block(&c, b, c.body, true); whole {
				err = cmp.Or(err, w.starts(&c, b))
			}
		case groupID:
			err = w.group(&c, b)
		}
		if err != nil {
			return 0, err
		}
		at = b.end
	}
	if c.body.size > 0 {
		w.clusters = append(w.clusters, c)
	}
	return at, nil
}

// starts notes that playing can begin at the cluster.
func (w *webm) starts(c *webmCluster, b element) error {
	t, _, err := w.owner(b)
	if err == nil && t != nil && t.kind == 1 && c.key == 0 {
		c.key = t.number
	}
	return err
}

// owner is the track of a block, or nil if it is not kept, and the size of the block's head.
func (w *webm) owner(b element) (*webmTrack, int64, error) {
	var head [8]byte
	w.f.fill(head[:], b.at)
	v, size, _ := vint(head[:])
	if size == 0 || size > 4 || b.at+int64(size)+3 > b.end {
		return nil, 0, errCutWebM
	}
	for i := range w.tracks {
		if w.tracks[i].number == uint64(v) {
			return &w.tracks[i], int64(size) + 3, nil
		}
	}
	return nil, 0, nil
}

// block adds a block of a track that is kept (RFC 9559, 10). It reports whether playing can
// begin there, which only a simple block says itself.
func (w *webm) block(c *webmCluster, b element, to *Copy, simple bool) (whole bool, err error) {
	t, head, err := w.owner(b)
	if err != nil || t == nil {
		return false, err
	}
	var rest [3]byte
	w.f.fill(rest[:], b.at+head-3)
	w.latest = max(w.latest, int64(min(c.time, 1<<60))+int64(int16(be.Uint16(rest[:]))))
	body := &Copy{from: w.f.r}
	body.take(b.at, head)
	switch {
	case t.codec == "A_OPUS" && rest[2]&6 == 0:
		opusPacket(w.f, b.at+head, b.end, body)
	case !t.obus:
		body.take(b.at+head, b.end-b.at-head)
	case rest[2]&6 != 0: // several pictures in a block
		return false, errNoWebM
	default:
		if err := obus(w.f, b.at+head, b.end, body, &w.parts); err != nil {
			return false, err
		}
	}
	to.write(append(ebmlID(b.id), ebmlSize(uint64(body.size))...))
	to.splice(body)
	return simple && rest[2]&0x80 != 0, nil
}

// group adds a group around one block, with the numbers that belong to it.
func (w *webm) group(c *webmCluster, e element) error {
	body := &Copy{from: w.f.r}
	whole, kept := true, false
	var numbers []byte
	var found element
	err := w.f.elements(e.at, e.end, func(e element) (err error) {
		switch {
		case e.id == blockID && found.id == 0:
			found = e
			_, err = w.block(c, e, body, false)
			kept = body.size > 0
		case groupNumbers[e.id]:
			whole = whole && e.id != referenceID
			numbers = append(numbers, w.copied(e)...)
		}
		return err
	})
	if err != nil || !kept {
		return err
	}
	body.write(numbers)
	c.body.write(append(ebmlID(groupID), ebmlSize(uint64(body.size))...))
	c.body.splice(body)
	if whole {
		return w.starts(c, found)
	}
	return nil
}

// write puts the copy together. All sizes and places take eight bytes, so the length of the
// parts does not depend on the places in them.
func (w *webm) write() *Copy {
	number := func(id uint32, v uint64) []byte { return ebml(id, binary.BigEndian.AppendUint64(nil, v)) }
	if w.length <= 0 {
		w.length = float64(w.latest)
	}
	info := ebml(infoID, slices.Concat(number(scaleID, w.scale), number(durationID, math.Float64bits(w.length)),
		ebml(0x4d80, []byte("-")), ebml(0x5741, []byte("-")))) // the programs that wrote it, which must be named
	var entries []byte
	for _, t := range w.tracks {
		entries = append(entries, t.entry...)
	}
	tracks := ebml(tracksID, entries)
	cues := func(first uint64) []byte {
		var points []byte
		at := first
		for _, c := range w.clusters {
			if c.key > 0 {
				points = append(points, ebml(0xbb, append(number(0xb3, c.time), ebml(0xb7, append(number(0xf7, c.key), number(0xf1, at)...))...))...)
			}
			at += uint64(len(clusterHead(c))) + uint64(c.body.size)
		}
		return ebml(cuesID, points)
	}
	front := uint64(len(info) + len(tracks))
	index := cues(front + uint64(len(cues(0))))
	body := &Copy{from: w.f.r}
	body.write(slices.Concat(info, tracks, index))
	for _, c := range w.clusters {
		body.write(clusterHead(c))
		body.splice(c.body)
	}
	out := &Copy{from: w.f.r}
	out.write(ebml(ebmlHead, slices.Concat(ebml(0x4286, []byte{1}), ebml(0x42f7, []byte{1}), ebml(0x42f2, []byte{4}), ebml(0x42f3, []byte{8}),
		ebml(docType, []byte("webm")), ebml(0x4287, []byte{4}), ebml(0x4285, []byte{2}))))
	out.write(append(ebmlID(segmentID), ebmlSize(uint64(body.size))...))
	out.splice(body)
	return out
}

func clusterHead(c webmCluster) []byte {
	stamp := ebml(timeID, binary.BigEndian.AppendUint64(nil, c.time))
	return slices.Concat(ebmlID(clusterID), ebmlSize(uint64(len(stamp))+uint64(c.body.size)), stamp)
}
