package walkpage

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"unicode"

	"tarepage/internal/compute"
	"tarepage/internal/files"
	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// A Desk is the yard that the phones write into.
type Desk struct {
	// From is the folder that holds content/.
	From string
	// Today is the desk's day, 2026-11-30: a new price holds from this day on.
	Today func() string
	// Stock reads all units. LookAt reads, computes and inspects one unit as if its file in
	// content/units had these bytes.
	Stock  func() (*unit.Stock, error)
	LookAt func(name string, src []byte) (*unit.Unit, *compute.Work, []inspect.Finding, error)

	// arriving counts the photos that are being sent.
	arriving atomic.Int32

	// One phone at a time reads a file and writes it again.
	mu sync.Mutex
	// written are the digests of what this session wrote last, by name: a file that has changed
	// since was changed by somebody else.
	written map[string][32]byte
	// took is what this session took from the phones.
	took quota
}

var errNoUnit = errors.New("there is no such unit")

// path is where the unit file with the name is. The name comes from the network: it may only
// name a regular file in content/units itself.
func (d *Desk) path(name string) (string, error) {
	if name == "" || len(name) > 200 || strings.ContainsFunc(name, unicode.IsControl) || strings.ContainsAny(name, `/\:`) || strings.HasPrefix(name, ".") || !filepath.IsLocal(name+".md") {
		return "", errNoUnit
	}
	file := filepath.Join(d.From, "content", "units", name+".md")
	info, err := os.Lstat(file)
	if errors.Is(err, fs.ErrNotExist) || err == nil && !info.Mode().IsRegular() {
		return "", errNoUnit
	}
	return file, err
}

// read reads a unit's file.
func (d *Desk) read(name string) (path string, data []byte, err error) {
	if path, err = d.path(name); err != nil {
		return "", nil, err
	}
	data, err = files.ReadUpTo(path, unit.MostBytes)
	if err == nil && len(data) > unit.MostBytes {
		err = fmt.Errorf("the unit's file is too long")
	}
	return path, data, err
}

// write replaces a unit's file. What it was before the first answer of this session, or before
// the first one after somebody else changed it, is kept.
func (d *Desk) write(name, path string, before, after []byte) error {
	if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, before) {
		return errors.Join(fmt.Errorf("somebody saved the file at this moment; send it again"), err)
	}
	var err error
	if d.written[name] == sha256.Sum256(before) {
		err = files.Replace(path, after)
	} else {
		err = files.ReplaceKeeping(d.From, path, before, after)
	}
	if err != nil {
		return err
	}
	if d.written == nil {
		d.written = map[string][32]byte{}
	}
	d.written[name] = sha256.Sum256(after)
	return nil
}
