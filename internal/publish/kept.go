package publish

import (
	"encoding/binary"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"tarepage/internal/seal"
)

// keptName is the file next to the target in which a build leaves what it knows for the
// next one.
func (p place) keptName() string { return filepath.Join(p.parent, "."+p.base+".kept") }

// keptPlace is the name under which it is sealed.
const keptPlace = "next to a site"

// Remember leaves a note for the next build of the target, next to it, and a second copy of
// the site's list. Recall returns the note as it was left, or nil: what was damaged, cut off, or
// written by anybody but this program for this user is not recalled (see package seal).
//
// The note may tell of units that are not published, so only its owner can read it.
func Remember(target string, note []byte) error {
	p, err := locate(target, nil)
	if err != nil {
		return err
	}
	list, err := os.ReadFile(filepath.Join(p.real(), listName))
	if err != nil {
		return err
	}
	body := binary.BigEndian.AppendUint64(nil, uint64(len(list)))
	body = append(append(body, list...), note...)
	mark := seal.Of(keptPlace, body)

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
	_, err = f.Write(append(mark[:], body...))
	err = errors.Join(err, f.Close())
	if err == nil {
		err = rename(part, p.keptName())
	}
	if err != nil {
		os.Remove(part)
	}
	return err
}

// Recall is described at Remember.
func Recall(target string) []byte {
	p, err := locate(target, nil)
	if err != nil {
		return nil
	}
	_, note := p.kept()
	return note
}

// mostKept is how many bytes may be kept next to a target: several times what a yard of 10,000
// units needs. What is larger no build of ours has written, and it is not read into memory.
const mostKept = 512 << 20

// upTo reads a file that has no more than so many bytes.
func upTo(name string, most int64) ([]byte, error) {
	if info, err := os.Stat(name); err != nil || info.Size() > most {
		return nil, errors.Join(err, errors.New("it is too large"))
	}
	return os.ReadFile(name)
}

// kept reads what the last build left next to the target: the list of the site's files, and
// the note. Both are nil if it does not hold together.
func (p place) kept() (list, note []byte) {
	info, err := os.Lstat(p.keptName())
	if err != nil || !info.Mode().IsRegular() {
		return nil, nil
	}
	data, err := upTo(p.keptName(), mostKept)
	const head = seal.Size + 8
	if err != nil || len(data) < head || !seal.Holds(data[:seal.Size], keptPlace, data[seal.Size:]) {
		return nil, nil
	}
	n := binary.BigEndian.Uint64(data[seal.Size:])
	if n > uint64(len(data)-head) {
		return nil, nil
	}
	return data[head : head+n], data[head+n:]
}
