package publish

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"tarepage/internal/parallel"
)

// A Staging is a site that is written next to its target file by file, so that a large
// one is never held in memory as a whole. A file whose bytes are the old site's is not
// written at all. The target is only read until Finish.
//
// From Begin to Finish or Abandon, one of which must be called, no other build can
// write the target. Files may be added from several goroutines.
type Staging struct {
	mu        sync.Mutex
	s         *swapper
	p         place
	old       *holdings
	made      []string // the folders above the target that were made
	release   func()
	site      Site // the paths that are taken
	bufs      buffers
	plan      []entry
	report    Report
	spools    []*Spool
	container string
	folders   map[string]bool // those of the container that are there
	list      Sum
}

// A Sum is a SHA-256 digest.
type Sum [sha256.Size]byte

// Begin opens a staging for the target. The target and the folders above it are made at the
// end if they are missing. Sources are the folders this build reads: a target that is one of
// them, holds one or lies inside one is refused. A target that may not be replaced is a
// *Refusal.
func Begin(target string, sources ...string) (*Staging, error) {
	return newSwapper().begin(target, sources)
}

func (s *swapper) begin(target string, sources []string) (_ *Staging, err error) {
	p, err := locate(target, sources)
	if err != nil {
		return nil, err
	}
	g := &Staging{s: s, p: p}
	g.made, err = s.makeParents(p)
	defer func() {
		if err != nil {
			g.close(false)
		}
	}()
	if err != nil {
		return nil, p.refuse(chooseAnother, "cannot be made (%w)", cause(err))
	}
	if g.release, err = s.lock(p); err != nil {
		return nil, err
	}
	if g.old, err = s.open(p); err != nil {
		return nil, err
	}
	return g, nil
}

// close lets other builds in. The folders above the target stay if it was made.
func (g *Staging) close(made bool) {
	if g.release != nil {
		g.release()
		g.release = nil
	}
	if !made {
		for _, dir := range g.made {
			os.Remove(dir) // fails where somebody uses it by now, which is right
		}
	}
}

// Add is Site.Add; the bytes are written at once, or known from the old site, and are
// the caller's again when it returns.
func (g *Staging) Add(path string, data []byte) error { return g.add(path, content{data: data}) }

// AddFile is Site.AddFile; the file is copied at once.
func (g *Staging) AddFile(path, from string) error {
	if from == "" {
		return fmt.Errorf("site file %q has no file to be copied from", path)
	}
	return g.add(path, content{from: from})
}

// AddCopy is AddFile with size bytes of a reader: of a file that the caller has open, so
// that what it checked is what is copied, or of a file that is put together from one.
func (g *Staging) AddCopy(path string, r io.ReaderAt, size int64) error {
	return g.add(path, content{reader: r, size: size})
}

func (g *Staging) add(path string, c content) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	if err := g.site.add(path, content{}); err != nil {
		return err
	}
	return g.take(path, c)
}

// Keep adds a file of the old site that still has the digest, without being told its
// bytes. It reports false, and adds nothing, if the old site has no such file: one that
// was damaged or changed by hand has another digest, and has to be made again.
func (g *Staging) Keep(path string, digest Sum) (bool, error) {
	info := g.old.files[path]
	if info == nil {
		return false, nil
	}
	if !g.old.has(path, g.oldPath(path), sum(digest)) {
		return false, nil
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	if err := g.site.add(path, content{}); err != nil {
		return false, err
	}
	g.enter(entry{path: path, kept: info, sum: sum(digest)}, info.Size())
	return true, nil
}

// has reports whether a file that is there has the digest.
func (h *holdings) has(path, full string, digest sum) bool {
	if known, ok := h.known(path); ok {
		return known == digest
	}
	got, err := digestOf(full)
	return err == nil && sum(got) == digest
}

// parts are the buffers into which files are read that are only looked at: whole ones would
// be a hundred megabytes of garbage for a build that changes nothing.
var parts = sync.Pool{New: func() any { return new([64 << 10]byte) }}

// digestOf is the digest of a file's bytes.
func digestOf(full string) (digest Sum, err error) {
	f, err := os.Open(full)
	if err != nil {
		return digest, err
	}
	defer f.Close()
	part := parts.Get().(*[64 << 10]byte)
	defer parts.Put(part)
	h := sha256.New()
	for {
		n, err := f.Read(part[:])
		h.Write(part[:n])
		if err == io.EOF {
			h.Sum(digest[:0])
			return digest, nil
		}
		if err != nil {
			return digest, err
		}
	}
}

func (g *Staging) oldPath(path string) string {
	return filepath.Join(g.p.real(), filepath.FromSlash(path))
}

// take holds one file against the old site, byte for byte, because a list cannot tell
// what was changed by hand, and writes it if it differs.
func (g *Staging) take(path string, c content) error {
	e := entry{path: path, content: c}
	size, err := e.compare(&g.bufs, g.oldPath(path), g.old)
	if err != nil {
		return err
	}
	if e.kept == nil {
		full, err := g.room(path)
		if err == nil {
			err = g.s.writeEntry(&e, full)
		}
		if err != nil {
			return g.unwritten(path, err)
		}
	}
	e.content = content{}
	g.enter(e, size)
	return nil
}

func (g *Staging) unwritten(path string, err error) error {
	return fmt.Errorf("%s is as it was, because the new site could not be written: %s: %w", g.p.said, path, cause(err))
}

func (g *Staging) enter(e entry, size int64) {
	g.plan = append(g.plan, e)
	if e.path == noteName {
		return
	}
	g.report.Bytes += size
	if e.kept != nil {
		g.report.Unchanged++
	} else {
		g.report.Written++
	}
}

const (
	markName = "tarepage-staging"
	siteName = "site"
)

// room makes the folders of the container that a file needs, and the container itself
// for the first one. It returns the file's place.
func (g *Staging) room(path string) (full string, err error) {
	if err := g.contain(); err != nil {
		return "", err
	}
	full = filepath.Join(g.container, siteName, filepath.FromSlash(path))
	return full, g.s.mkdirAll(filepath.Dir(full), g.folders)
}

func (g *Staging) contain() error {
	if g.folders != nil {
		return nil
	}
	if err := g.s.step("make container"); err != nil {
		return err
	}
	container, err := os.MkdirTemp(g.p.parent, "."+g.p.base+".staging-*")
	if err != nil {
		return err
	}
	g.container = container
	if _, err := g.s.write(filepath.Join(container, markName), content{}); err != nil {
		return err
	}
	root := filepath.Join(container, siteName)
	if err := g.s.mkdir(root); err != nil {
		return err
	}
	g.folders = map[string]bool{container: true, root: true}
	return nil
}

// Abandon leaves the target as it is and removes what was written next to it.
func (g *Staging) Abandon() error {
	defer g.close(false)
	g.closeSpools()
	return g.s.discard(g.container)
}

// Finish puts the site in the place of the target. If no file changed, the target is not
// touched.
//
// On an error the target is as it was and nothing is left next to it, with one exception that
// the error names: the new site may be in place and the old one not completely removed. Then
// the Report is filled in, and the next build removes the rest.
func (g *Staging) Finish() (report Report, err error) {
	made := false
	defer func() { g.close(made) }()
	g.closeSpools()
	if len(g.plan) == 0 {
		return Report{}, errors.Join(errors.New("the site has no files, so nothing was replaced"), g.s.discard(g.container))
	}
	if err := g.take(noteName, content{data: []byte(noteText)}); err != nil {
		return Report{}, errors.Join(err, g.s.discard(g.container))
	}
	slices.SortFunc(g.plan, func(a, b entry) int { return strings.Compare(a.path, b.path) })
	if g.unchanged() {
		made = true
		return g.report, g.s.discard(g.container)
	}
	if err := g.complete(); err != nil {
		return Report{}, errors.Join(err, g.s.discard(g.container))
	}
	end, err := g.s.install(g.p, g.container, g.old)
	switch {
	case end == stuck:
		return Report{}, err
	case end == refused:
		return Report{}, errors.Join(err, g.s.discard(g.container))
	case err == nil:
		err = g.s.discard(g.container)
	}
	made = true
	if err != nil {
		err = fmt.Errorf("the new site is in %s, but the old one was not completely removed: %w", g.p.said, err)
	}
	return g.report, err
}

// unchanged counts what the new site no longer has, and reports whether the old site is
// the new one, its list and its modes included.
func (g *Staging) unchanged() bool {
	same := g.old.listed != nil && g.old.tidy
	has := map[string]bool{listName: true}
	for i := range g.plan {
		has[g.plan[i].path] = true
		same = same && g.plan[i].kept != nil
	}
	for path := range g.old.files {
		if !has[path] {
			g.report.Removed++
		}
	}
	if !same || g.report.Removed > 0 {
		return false
	}
	text, err := os.ReadFile(g.oldPath(listName))
	return err == nil && string(text) == g.listText()
}

func (g *Staging) listText() string {
	var list strings.Builder
	for i := range g.plan {
		list.WriteString(g.plan[i].sum.line(g.plan[i].path))
	}
	text := list.String()
	g.list = sha256.Sum256([]byte(text))
	return text
}

// complete brings the files that did not change into the container, and the list.
func (g *Staging) complete() error {
	for i := range g.plan {
		e := &g.plan[i]
		if e.kept == nil {
			continue
		}
		full, err := g.room(e.path)
		if err == nil {
			err = g.s.keep(e, g.oldPath(e.path), full)
		}
		if err != nil {
			return g.unwritten(e.path, err)
		}
	}
	if err := g.s.writeList(g.p, g.container, g.listText()); err != nil {
		return fmt.Errorf("%s is as it was, because the new site could not be written: %w", g.p.said, cause(err))
	}
	return nil
}

// List is the digest of the site's list, and so of the whole site, after Finish.
func (g *Staging) List() Sum { return g.list }

// Digests are those of the files that were added, by their paths.
func (g *Staging) Digests() map[string]Sum {
	out := make(map[string]Sum, len(g.plan))
	for i := range g.plan {
		out[g.plan[i].path] = Sum(g.plan[i].sum)
	}
	return out
}

// Doubt makes the staging read every file of the old site again, even one whose size and times
// are those that the last build noted.
func (g *Staging) Doubt() { g.old.stamps = nil }

// Intact reports whether the target holds the site whose list has the digest, every byte
// and every mode as it was written, and how many files that are. A file whose size and times are
// those that the last build noted is not read again. Like Check, Intact clears up
// after a killed build, and refuses what Begin would refuse.
func Intact(target string, list Sum, sources ...string) (files int, intact bool, err error) {
	s := newSwapper()
	p, err := locate(target, sources)
	if err != nil || p.above != p.parent {
		return 0, false, err
	}
	release, err := s.lock(p)
	if err != nil {
		return 0, false, err
	}
	defer release()
	old, err := s.open(p)
	if err != nil {
		return 0, false, err
	}
	if old.listed == nil || !old.tidy {
		return 0, false, nil
	}
	text, err := os.ReadFile(filepath.Join(p.real(), listName))
	if err != nil || sha256.Sum256(text) != list {
		return 0, false, nil
	}
	paths := pathsOn(string(text))
	var damaged atomic.Bool
	parallel.Each(len(paths), func(i int) {
		if damaged.Load() {
			return
		}
		if !old.has(paths[i], filepath.Join(p.real(), filepath.FromSlash(paths[i])), old.listed[paths[i]]) {
			damaged.Store(true)
		}
	})
	return len(paths) - 1, !damaged.Load(), nil
}
