package publish

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// A Report counts what a build did to the site's files. The list and the note, which
// every site holds, are not counted.
type Report struct {
	Written   int   // files that are new or whose bytes changed
	Unchanged int   // files that kept their bytes and their modification time
	Removed   int   // files of the old site the new one does not have
	Bytes     int64 // size of all files of the new site together
}

// Modes of what a build writes: anybody may read, as a web server must, and nobody
// but the owner may write.
const (
	folderMode fs.FileMode = 0o755
	fileMode   fs.FileMode = 0o644
)

// Check reports, before the work starts, whether Begin would refuse the target. It
// writes nothing, except that it clears up after a killed build: what that build had
// staged is removed, and if the target is missing because the build was killed
// between two renames, it is put back.
func Check(target string, sources ...string) error {
	s := newSwapper()
	p, err := locate(target, sources)
	if err != nil {
		return err
	}
	if p.above != p.parent {
		return nil
	}
	release, err := s.lock(p)
	if err != nil {
		return err
	}
	defer release()
	_, err = s.open(p)
	return err
}

// swapper carries what the tests replace.
type swapper struct {
	exchange func(a, b string) error // gives each of two folders the other's name
	step     func(name string) error // called before each operation that writes
	flush    func(dir string) error  // forces what was written onto the disk
	patience time.Duration           // how long to wait for another build
}

func newSwapper() *swapper {
	return &swapper{
		exchange: exchange,
		step:     func(string) error { return nil },
		flush:    flush,
		patience: 10 * time.Minute, // a build holds the lock from its first page to its last
	}
}

// errNoExchange is returned by exchange where the system or the file system has no
// exchange of two folders.
var errNoExchange = errors.New("two folders cannot be exchanged here")

// isOneOf reports whether an error has one of the causes.
func isOneOf(err error, causes ...error) bool {
	return slices.ContainsFunc(causes, func(cause error) bool { return errors.Is(err, cause) })
}

// makeParents makes the folders above the target and returns those it made, the
// lowest first.
func (s *swapper) makeParents(p place) ([]string, error) {
	if p.above == p.parent {
		return nil, nil
	}
	above := p
	above.parent = filepath.Dir(p.parent)
	made, err := s.makeParents(above)
	if err != nil {
		return made, err
	}
	err = s.mkdir(p.parent)
	if errors.Is(err, fs.ErrExist) { // another build was quicker
		return made, nil
	}
	if err != nil {
		return made, err
	}
	return append([]string{p.parent}, made...), nil
}

// lock keeps other builds of the target out until release is called.
func (s *swapper) lock(p place) (release func(), err error) {
	path := p.lockName()
	for start := time.Now(); ; time.Sleep(10 * time.Millisecond) {
		if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
			return nil, p.refuse("move "+filepath.Base(path)+" away", "cannot be locked, because %s next to it is not a plain file", filepath.Base(path))
		}
		release, err := tryLock(path)
		if err != nil {
			return nil, p.refuse(chooseAnother, "cannot be locked against other builds (%w)", cause(err))
		}
		if release != nil {
			return release, nil
		}
		if time.Since(start) > s.patience {
			return nil, p.refuse("let that build finish, then build again", "is being written by another build")
		}
	}
}

// Busy reports whether another build is writing the target at this moment. Begin would wait
// for it.
func Busy(target string) bool {
	p, err := locate(target, nil)
	if err != nil || p.above != p.parent {
		return false
	}
	path := p.lockName()
	if info, err := os.Lstat(path); err != nil || !info.Mode().IsRegular() {
		return false
	}
	release, err := tryLock(path)
	if release != nil {
		release()
	}
	return release == nil && err == nil
}

func (p place) lockName() string { return filepath.Join(p.parent, "."+p.base+".lock") }

// open clears up after killed builds and returns what the target holds, or refuses
// it. The lock must be held.
func (s *swapper) open(p place) (*holdings, error) {
	if err := s.recover(p); err != nil {
		return nil, err
	}
	info, err := os.Lstat(p.real())
	if errors.Is(err, fs.ErrNotExist) {
		return &holdings{}, nil
	}
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return nil, p.refuse(moveAway, "is a file and not a folder")
	}
	old, err := p.survey(p.real())
	if err != nil {
		return nil, p.refuse(chooseAnother, "cannot be read (%w)", cause(err))
	}
	if err := old.refuseStrangers(p.said); err != nil {
		return nil, err
	}
	if err := writable(p.real()); err != nil {
		return nil, p.refuse(chooseAnother, "cannot be replaced, because it cannot be written (%w)", cause(err))
	}
	return old, nil
}

// entry is one file to be staged.
type entry struct {
	path string
	content
	kept fs.FileInfo // the old file, if it has the same bytes
	made fs.FileInfo // the new file, if it was written; nil if the system does not tell
	sum  sum         // of a file to be copied, known once it is
}

// buffers hold the parts of two files that are compared at once.
type buffers [2][64 << 10]byte

// compare fills in kept and, where the bytes were read, sum, and returns the size.
func (e *entry) compare(bufs *buffers, oldPath string, h *holdings) (int64, error) {
	old := h.files[e.path]
	if !e.copied() {
		e.sum = sha256.Sum256(e.data)
		size := int64(len(e.data))
		if old == nil || old.Size() != size {
			return size, nil
		}
		if digest, ok := h.known(e.path); ok {
			if digest == e.sum {
				e.kept = old
			}
			return size, nil
		}
		// A file that cannot be read is written again.
		if f, err := os.Open(oldPath); err == nil {
			defer f.Close()
			if bufs.same(bytes.NewReader(e.data), f, io.Discard) {
				e.kept = old
			}
		}
		return size, nil
	}

	src, size, err := e.open()
	if err != nil {
		return 0, fmt.Errorf("site file %q cannot be copied from %s (%w)", e.path, e.from, cause(err))
	}
	defer src.Close()
	if old == nil || old.Size() != size {
		return size, nil
	}
	if f, err := os.Open(oldPath); err == nil {
		defer f.Close()
		hash := sha256.New()
		if bufs.same(src, f, hash) {
			e.kept = old
			hash.Sum(e.sum[:0])
		}
	}
	return size, nil
}

// same reports whether a and b hold the same bytes to their ends, and hands
// those of a to w as far as it reads them.
func (bufs *buffers) same(a, b io.Reader, w io.Writer) bool {
	bufA, bufB := bufs[0][:], bufs[1][:]
	for {
		n, errA := io.ReadFull(a, bufA)
		m, errB := io.ReadFull(b, bufB)
		if !bytes.Equal(bufA[:n], bufB[:m]) {
			return false
		}
		w.Write(bufA[:n])
		if errA != nil || errB != nil {
			return isEnd(errA) && isEnd(errB)
		}
	}
}

func isEnd(err error) bool { return err == io.EOF || err == io.ErrUnexpectedEOF }

// writeList puts the list into the staged site last and in one piece: with half a
// list a staged site would look like one that holds strangers.
func (s *swapper) writeList(p place, container, text string) error {
	part, full := filepath.Join(container, listName), filepath.Join(container, siteName, listName)
	oldPath := filepath.Join(p.real(), listName)
	if info, err := os.Lstat(oldPath); err == nil && info.Mode().IsRegular() {
		if old, err := os.ReadFile(oldPath); err == nil && string(old) == text {
			return s.keep(&entry{kept: info}, oldPath, full)
		}
	}
	if _, err := s.write(part, content{data: []byte(text)}); err != nil {
		return err
	}
	if err := s.step("rename list"); err != nil {
		return err
	}
	return rename(part, full)
}

func (s *swapper) mkdirAll(dir string, made map[string]bool) error {
	if made[dir] {
		return nil
	}
	if err := s.mkdirAll(filepath.Dir(dir), made); err != nil {
		return err
	}
	made[dir] = true
	return s.mkdir(dir)
}

// mkdir makes a folder whose mode no umask narrows. What the folder around it
// handed down (the set-group-ID bit) stays.
func (s *swapper) mkdir(dir string) error {
	if err := s.step("make folder"); err != nil {
		return err
	}
	if err := os.Mkdir(dir, folderMode); err != nil {
		return err
	}
	info, err := os.Lstat(dir)
	if err != nil || hasMode(info, folderMode) {
		return err
	}
	return os.Chmod(dir, info.Mode()&fs.ModeSetgid|folderMode)
}

// keep puts the old file under its new path with its modification time. A hard link
// is cheapest and exact: the old name of the file is removed with the old site, and
// files are never written in place. Where there are no hard links, or the mode was
// changed, which a link would share with the site still in use, it is copied.
func (s *swapper) keep(e *entry, oldPath, full string) error {
	if hasMode(e.kept, fileMode) {
		if err := s.step("link"); err != nil {
			return err
		}
		if os.Link(oldPath, full) == nil {
			return nil
		}
	}
	copied := entry{path: e.path, content: content{from: oldPath}}
	if err := s.writeEntry(&copied, full); err != nil {
		return err
	}
	e.sum = copied.sum
	return os.Chtimes(full, time.Time{}, e.kept.ModTime())
}

// writeEntry writes the file again. For one that is copied, the digest is that of the
// bytes that were copied: the source may have changed since it was compared.
func (s *swapper) writeEntry(e *entry, full string) error {
	digest, err := s.write(full, e.content)
	if e.copied() {
		e.sum = digest
	}
	if err == nil {
		e.made, _ = os.Lstat(full)
	}
	return err
}

// write writes a new file and returns the digest of what it copied into it, which is
// none if the content is held in memory.
func (s *swapper) write(full string, c content) (digest sum, err error) {
	if err := s.step("make file"); err != nil {
		return sum{}, err
	}
	f, err := os.OpenFile(full, os.O_WRONLY|os.O_CREATE|os.O_EXCL, fileMode)
	if err != nil {
		return sum{}, err
	}
	defer func() {
		if e := f.Close(); err == nil {
			err = e
		}
	}()
	if err := f.Chmod(fileMode); err != nil && !errors.Is(err, errors.ErrUnsupported) {
		return sum{}, err
	}
	if err := s.step("write file"); err != nil {
		return sum{}, err
	}
	if !c.copied() {
		_, err = f.Write(c.data)
		return sum{}, err
	}
	src, size, err := c.open()
	if err != nil {
		return sum{}, err
	}
	defer src.Close()
	hash := sha256.New()
	switch n, err := io.Copy(io.MultiWriter(f, hash), src); {
	case err != nil:
		return sum{}, err
	case n < size: // it was cut off while it was copied
		return sum{}, io.ErrUnexpectedEOF
	}
	hash.Sum(digest[:0])
	return digest, nil
}

// ending is how an install ended.
type ending int

const (
	refused   ending = iota // the old site is in the target, the new one in the container
	installed               // the new site is in the target
	stuck                   // neither could be done; the error says where the old site is
)

// install puts the staged site in the place of the target.
func (s *swapper) install(p place, container string, old *holdings) (ending, error) {
	staged := filepath.Join(container, siteName)
	if err := s.step("flush"); err != nil {
		return refused, p.unswapped(err)
	}
	if err := s.flush(container); err != nil {
		return refused, p.unswapped(err)
	}
	if old.listed == nil {
		return s.installFirst(p, staged)
	}
	if err := s.step("exchange"); err != nil {
		return refused, p.unswapped(err)
	}
	err := s.exchange(staged, p.real())
	if errors.Is(err, errNoExchange) {
		return s.installByTwo(p, container)
	}
	if err != nil {
		return refused, p.unswapped(err)
	}
	if err := s.accept(p, staged); err != nil {
		if back := s.exchange(staged, p.real()); back != nil {
			return stuck, fmt.Errorf("%w; the new site is in %s, the old one in %s", cause(err), p.said, staged)
		}
		return refused, p.unswapped(err)
	}
	return installed, s.settle(p)
}

// settle forces the swap itself onto the disk, before anything of the old site is removed.
func (s *swapper) settle(p place) error {
	if err := s.step("flush folder"); err != nil {
		return err
	}
	return flushFolder(p.parent)
}

// installFirst puts the first site where nothing is, or an empty folder.
func (s *swapper) installFirst(p place, staged string) (ending, error) {
	if err := s.step("rename"); err != nil {
		return refused, p.unswapped(err)
	}
	// An empty folder goes first, because rename does not replace one everywhere.
	// One that is no longer empty stays, and so do its files.
	empty := os.Remove(p.real()) == nil
	if err := rename(staged, p.real()); err != nil {
		if empty {
			os.Mkdir(p.real(), folderMode)
		}
		return refused, p.unswapped(err)
	}
	return installed, s.settle(p)
}

// installByTwo is for systems that cannot exchange two folders. Between the renames
// there is no target; recover puts the old site back if the build is killed there.
func (s *swapper) installByTwo(p place, container string) (ending, error) {
	staged := filepath.Join(container, siteName)
	_, number, _ := strings.Cut(filepath.Base(container), "."+p.base+".staging-")
	aside := filepath.Join(p.parent, "."+p.base+".old-"+number)
	if err := s.step("rename target"); err != nil {
		return refused, p.unswapped(err)
	}
	if err := rename(p.real(), aside); err != nil {
		return refused, p.unswapped(err)
	}
	err := s.accept(p, aside)
	if err == nil {
		err = s.step("rename staged")
	}
	if err == nil {
		err = rename(staged, p.real())
	}
	if err != nil {
		if back := rename(aside, p.real()); back != nil {
			return stuck, fmt.Errorf("%s is missing (%w); the old site is in %s and the next build puts it back", p.said, cause(err), aside)
		}
		return refused, p.unswapped(err)
	}
	if err := s.settle(p); err != nil {
		return installed, err
	}
	if err := s.step("rename old"); err != nil {
		return installed, err
	}
	return installed, rename(aside, staged)
}

// accept looks at the old site once more, now that nobody can reach it under its
// name: what came into it while the build was working is not lost.
func (s *swapper) accept(p place, dir string) error {
	if err := s.step("survey old"); err != nil {
		return err
	}
	h, err := p.survey(dir)
	if err != nil {
		return err
	}
	return h.refuseStrangers(p.said)
}

// unswapped says that the target is as it was.
func (p place) unswapped(err error) error {
	var r *Refusal
	if errors.As(err, &r) {
		return err
	}
	return fmt.Errorf("%s is as it was, because it could not be swapped for the new site: %w", p.said, cause(err))
}
