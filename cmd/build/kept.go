package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/publish"
	"tarepage/internal/report"
	"tarepage/internal/unit"
)

// kept is what a build leaves for the next one, beside the target. Nothing in it is
// believed: pages are taken over only where the bytes in the target still have their
// digest, and the whole site only where everything that was read and every byte that was
// written is as it was.
type kept struct {
	// Basis is the digest of the program, with its tables, and of the theme.
	Basis []byte
	// Read is the digest of content/, and List that of the site.
	Read, List []byte
	LeaveOut   bool
	Stamps     []unit.Stamp
	// Young reports that a file was so new that its stamp may not be trusted.
	Young bool
	// Found and Stops are the findings as they are printed, all of them and with -quiet.
	Found, Stops []byte
	Tally        report.Numbers
	Pages        int
	Names        []string // of the units that were left out
	Address      string   // where the site will stand, if it is known
	Undated      []string // the units of which no feed tells
	Status       int
	// Made are the units' pages by their paths.
	Made map[string]keptPage
}

// keptPage is what a page was made from, and what it was.
type keptPage struct{ Of, Sum []byte }

// programSum is the digest of the program that runs, with its tables and its theme. A new one
// may stand in its place by now, so Linux is asked for the one that runs (proc(5), exe).
var programSum = sync.OnceValues(func() (sum [32]byte, err error) {
	h := sha256.New()
	if enterFile(h, "program", os.DirFS("/proc/self"), "exe") != nil {
		h.Reset()
		var self string
		if self, err = os.Executable(); err == nil {
			err = enterFile(h, "program", os.DirFS(filepath.Dir(self)), filepath.Base(self))
		}
	}
	h.Sum(sum[:0])
	return sum, err
})

// basis is a digest of what every page is made from beside the yard. It reports false
// where that cannot be told.
func (c *command) basis() (sum [32]byte, ok bool) {
	program, err := programSum()
	if err != nil {
		return sum, false
	}
	if c.theme == "" {
		return program, true
	}
	h := sha256.New()
	h.Write(program[:])
	theme := os.DirFS(c.theme)
	err = fs.WalkDir(theme, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		return enterFile(h, name, theme, name)
	})
	h.Sum(sum[:0])
	return sum, err == nil
}

func enterFile(h hash.Hash, as string, from fs.FS, name string) error {
	f, err := from.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return errors.New("not a plain file")
	}
	fmt.Fprintf(h, "%d %s %d\n", len(as), as, info.Size())
	_, err = io.Copy(h, f)
	return err
}

// recall is what the last build of the target left, or nothing where it was another
// program's or another theme's.
func (c *command) recall(basis [32]byte) *kept {
	k := new(kept)
	note := publish.Recall(c.to)
	if note == nil || json.Unmarshal(note, k) != nil || !bytes.Equal(k.Basis, basis[:]) {
		return nil
	}
	return k
}

// asBefore does a build of which nothing changed: it reads and compares bytes and makes
// nothing. It reports false where something did.
func (c *command) asBefore(k *kept, stdout, stderr io.Writer, start time.Time) (bool, error) {
	if k == nil || k.Young || k.LeaveOut != c.leaveOut || c.json || len(k.List) != len(publish.Sum{}) {
		return false, nil
	}
	root := os.DirFS(c.from)
	read, err := unit.DigestOf(root)
	if err != nil || !bytes.Equal(read[:], k.Read) || !unit.Hold(root, k.Stamps) {
		return false, nil
	}
	files, intact, err := publish.Intact(c.to, publish.Sum(k.List), contentDir(c.from))
	if err != nil || !intact {
		return false, err
	}
	found := k.Found
	if c.quiet {
		found = k.Stops
	}
	if _, err := stderr.Write(found); err != nil {
		return false, err
	}
	if !c.quiet {
		report.Built(stdout, k.Tally, report.Site{Pages: k.Pages, To: c.to, Unchanged: files, LeftOut: k.Names, Address: k.Address, Undated: k.Undated}, time.Since(start))
	}
	return true, nil
}

// page is the digest of a page that was made from what it would be made from now.
func (k *kept) page(path string, of [32]byte) (sum publish.Sum, ok bool) {
	if k == nil {
		return sum, false
	}
	p := k.Made[path]
	if !bytes.Equal(p.Of, of[:]) || len(p.Sum) != len(sum) {
		return sum, false
	}
	return publish.Sum(p.Sum), true
}

// remember leaves what this build knows for the next one. Where it cannot, the next one
// does everything anew.
func (c *command) remember(y *yard, basis [32]byte, start time.Time, pages int, held inspect.Held, undated []string, g *publish.Staging, of map[string][32]byte) error {
	read, ok := y.stock.Digest()
	// A theme that was saved while the pages were made is behind some of them only.
	now, known := c.basis()
	if !ok || !known || now != basis {
		return nil
	}
	var found, stops bytes.Buffer
	if err := report.Findings(&found, y.findings); err != nil {
		return err
	}
	if err := report.Findings(&stops, onlyStops(y.findings)); err != nil {
		return err
	}
	list, tally := g.List(), report.Tally(program(), len(y.stock.Units), y.findings)
	k := &kept{Basis: basis[:], Read: read[:], List: list[:], LeaveOut: c.leaveOut, Stamps: y.stock.Stamps(), Found: found.Bytes(), Stops: stops.Bytes(),
		Tally: tally, Pages: pages, Names: held.Names, Status: status(tally.Stops), Address: y.stock.Yard.Site(), Undated: undated, Made: map[string]keptPage{}}
	for _, s := range k.Stamps {
		// A file that is written twice within the system's idea of a moment keeps its stamp.
		k.Young = k.Young || max(s.Time, s.Touched) > start.Add(-2*time.Second).UnixNano()
	}
	digests := g.Digests()
	for path, key := range of {
		if sum, ok := digests[path]; ok {
			k.Made[path] = keptPage{key[:], sum[:]}
		}
	}
	note, err := json.Marshal(k)
	if err != nil {
		return err
	}
	return publish.Remember(c.to, note)
}
