package publish

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"tarepage/internal/filestamp"
	"tarepage/internal/seal"
)

// keptName is the file next to the target in which a build leaves what it knows for the
// next one.
func (p place) keptName() string { return filepath.Join(p.parent, "."+p.base+".kept") }

// keptPlace and morePlace are the names under which its two parts are sealed.
const (
	keptPlace = "next to a site"
	morePlace = "more next to a site"
)

// Written is what a build knows about the files of the site that it put in the target: their
// sizes and the times of their bytes, by their paths.
type Written map[string]filestamp.Stamp

// Written is known after Finish.
func (g *Staging) Written() Written {
	out := make(Written, len(g.plan))
	for i := range g.plan {
		e := &g.plan[i]
		if info := e.kept; info != nil {
			out[e.path] = filestamp.Of(info)
		} else if e.made != nil {
			out[e.path] = filestamp.Of(e.made)
		}
	}
	return out
}

// Remember leaves a note for the next build of the target, next to it, with a second copy of
// the site's list and the stamps of the site's files. Recall returns the note as it was left, or
// nil: what was damaged, cut off, or written by anybody but this program for this user is not
// recalled (see package seal). What a build needs only if something changed is in more, which
// RecallMore returns in the same way: it is most of what is kept.
//
// The note may tell of units that are not published, so only its owner can read it.
func Remember(target string, note, more []byte, written Written) error {
	p, err := locate(target, nil)
	if err != nil {
		return err
	}
	list, err := os.ReadFile(filepath.Join(p.real(), listName))
	if err != nil {
		return err
	}

	// One name for every build: what a killed one left is removed, and so is a link, without
	// following it. What two builds at once make of it has no mark that holds.
	part := p.keptName() + ".part"
	if err := os.Remove(part); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	f, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	body := binary.BigEndian.AppendUint64(nil, uint64(len(list)))
	body = append(body, list...)
	if now, err := f.Stat(); err == nil {
		body = p.appendStamps(body, string(list), written, now)
	}
	moreMark := seal.Of(morePlace, more)
	body = append(append(body, moreMark[:]...), note...)
	mark := seal.Of(keptPlace, body)
	head := binary.BigEndian.AppendUint64(mark[:], uint64(len(body)))
	for _, part := range [][]byte{head, body, more} {
		if err == nil {
			_, err = f.Write(part)
		}
	}
	err = errors.Join(err, f.Close())
	if err == nil {
		err = rename(part, p.keptName())
	}
	if err != nil {
		os.Remove(part)
	}
	return err
}

// stampSize is how many bytes a stamp takes.
const stampSize = 3 * 8

// appendStamps adds a stamp for each line of the list. It is zero for a file whose bytes have to
// be read to be known: somebody wrote to it since the build, or could do so now and leave it
// the same times. Now is a file that was made at this moment.
func (p place) appendStamps(to []byte, list string, written Written, now fs.FileInfo) []byte {
	for _, path := range pathsOn(list) {
		var s filestamp.Stamp
		if info, err := os.Lstat(filepath.Join(p.real(), filepath.FromSlash(path))); err == nil && info.Mode().IsRegular() {
			is, was := filestamp.Of(info), written[path]
			if is.Bytes == was.Bytes && is.Time == was.Time && is.Settled(now) {
				s = is
			}
		}
		for _, n := range []int64{s.Bytes, s.Time, s.Touched} {
			to = binary.BigEndian.AppendUint64(to, uint64(n))
		}
	}
	return to
}

// Recall is described at Remember.
func Recall(target string) []byte {
	p, err := locate(target, nil)
	if err != nil {
		return nil
	}
	return p.kept().note
}

// RecallMore returns what was left with a note that Recall returned. It is nil if another build
// has left another note since, with more of its own.
func RecallMore(target string, note []byte) []byte {
	p, err := locate(target, nil)
	if err != nil {
		return nil
	}
	left := p.kept()
	if left.note == nil || !bytes.Equal(left.note, note) {
		return nil
	}
	more, err := readAt(p.keptName(), left.end, mostKept)
	if err != nil || !seal.Holds(left.moreMark, morePlace, more) {
		return nil
	}
	return more
}

// mostKept is how many bytes may be kept next to a target: several times what a yard of 10,000
// units needs. A larger file is not from a build of ours and is not read into memory.
const mostKept = 512 << 20

// readAt reads a file from a place on, and returns no more than most bytes.
func readAt(name string, from, most int64) ([]byte, error) {
	info, err := os.Lstat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() { // a pipe would keep Open waiting
		return nil, errors.New("it is not a plain file")
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err = f.Stat(); err != nil {
		return nil, err
	}
	if info.Size() > mostKept {
		return nil, errors.New("it is too large")
	}
	data := make([]byte, max(min(info.Size()-from, most), 0))
	_, err = f.ReadAt(data, from)
	return data, err
}

// leftBehind is what the last build left next to the target: the list of the site's files, a
// stamp for each of its lines, and the note. All are nil if they do not hold together. After
// end comes what the note calls more, with a mark of its own.
type leftBehind struct {
	list, stamps, note, moreMark []byte
	end                          int64
}

func (p place) kept() (left leftBehind) {
	info, err := os.Lstat(p.keptName())
	if err != nil || !info.Mode().IsRegular() {
		return left
	}
	const head = seal.Size + 8
	start, err := readAt(p.keptName(), 0, head)
	if err != nil || len(start) < head {
		return left
	}
	size := binary.BigEndian.Uint64(start[seal.Size:])
	if size > mostKept {
		return left
	}
	data, err := readAt(p.keptName(), head, int64(size))
	if err != nil || len(data) < 8 || !seal.Holds(start[:seal.Size], keptPlace, data) {
		return left
	}
	n := binary.BigEndian.Uint64(data)
	if n > uint64(len(data)-8) {
		return left
	}
	list, rest := data[8:8+n], data[8+n:]
	stamps := stampSize * len(pathsOn(string(list)))
	if stamps+seal.Size > len(rest) {
		return left
	}
	rest, note := rest[:stamps+seal.Size], rest[stamps+seal.Size:]
	return leftBehind{list, rest[:stamps], note, rest[stamps:], head + int64(size)}
}

// stampsOf are the stamps by the paths on the list.
func (l leftBehind) stampsOf() map[string]filestamp.Stamp {
	out := make(map[string]filestamp.Stamp, len(l.stamps)/stampSize)
	rest := l.stamps
	number := func() int64 {
		n := binary.BigEndian.Uint64(rest)
		rest = rest[8:]
		return int64(n)
	}
	for _, path := range pathsOn(string(l.list)) {
		s := filestamp.Stamp{Bytes: number(), Time: number(), Touched: number()}
		if s.Touched != 0 {
			out[path] = s
		}
	}
	return out
}
