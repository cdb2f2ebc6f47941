// Package files reads and writes single files for the verbs that set up a yard and its
// units. It never overwrites a file that somebody wrote.
//
// What it wrote is on the disk when it returns, and outlives a power cut: a phone is told that
// its answer is saved, and nobody has it a second time.
package files

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Open opens a file to be read. A pipe or a device is refused: opening a pipe waits until
// somebody writes into it.
func Open(name string) (*os.File, error) {
	const waits = fs.ModeNamedPipe | fs.ModeSocket | fs.ModeDevice | fs.ModeCharDevice
	if info, err := os.Stat(name); err == nil && info.Mode()&waits != 0 {
		return nil, fmt.Errorf("%q: not a plain file", filepath.ToSlash(name))
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, about(name, err)
	}
	return f, nil
}

// ReadUpTo reads a file that Open opens. Of one that is larger it reads one byte more than most,
// so that whoever judges the bytes sees that there are too many.
func ReadUpTo(name string, most int64) ([]byte, error) {
	f, err := Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	src, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, about(name, err)
	}
	return src, nil
}

// ErrExists is the error of WriteNew for a file that exists.
var ErrExists = errors.New("the file exists and stays as it is")

// WriteNew writes a file that does not exist yet, and the folders above it. If it cannot be
// written whole, nothing of it stays.
func WriteNew(name string, text []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return about(name, err)
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: %w", filepath.ToSlash(name), ErrExists)
	} else if err != nil {
		return about(name, err)
	}
	_, err = f.Write(text)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return errors.Join(about(name, err), os.Remove(name))
	}
	flushFolder(filepath.Dir(name))
	return nil
}

// flushFolder forces the names in a folder onto the disk. Not every system can do that for a
// folder; the file itself is there by now, so an error changes nothing.
func flushFolder(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = f.Sync()
		f.Close()
	}
}

// First is the first file below a folder, or nothing: also if there is no folder.
func First(dir string) (file string, err error) {
	err = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if !d.IsDir() {
			file = path
			return fs.SkipAll
		}
		return nil
	})
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	} else if err != nil {
		err = about(dir, err)
	}
	return file, err
}

// Remove removes files.
func Remove(names []string) error {
	var all []error
	for _, name := range names {
		all = append(all, os.Remove(name))
	}
	return errors.Join(all...)
}

// MakeFolder makes a folder and those above it.
func MakeFolder(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return about(dir, err)
	}
	return nil
}

// usual are the permissions of a new file.
const usual fs.FileMode = 0o644

// Replace writes a file, also over one that exists, and keeps the permissions of that one.
// Whoever reads the name finds the old file or the new one whole, also if the program is killed
// meanwhile. A link keeps what it leads to and is replaced itself.
func Replace(name string, data []byte) error {
	return replace(name, data, permissions(name, usual))
}

// permissions returns the permissions that a file has, or others if the file does not exist.
func permissions(name string, others fs.FileMode) fs.FileMode {
	if info, err := os.Lstat(name); err == nil && info.Mode().IsRegular() {
		return info.Mode().Perm()
	}
	return others
}

func replace(name string, data []byte, mode fs.FileMode) error {
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*.part")
	if err != nil {
		return about(name, err)
	}
	_, err = f.Write(data)
	err = errors.Join(err, f.Chmod(mode), f.Sync(), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		return about(name, errors.Join(err, os.Remove(f.Name())))
	}
	flushFolder(filepath.Dir(name))
	return nil
}

// ReplaceKeeping replaces a file below a yard's folder, and keeps in the folder "earlier" next to
// content/, where nothing publishes it, what the file was before. No more people may read it there.
func ReplaceKeeping(from, name string, before, after []byte) error {
	earlier := filepath.Join(from, "earlier", filepath.Base(name))
	if err := errors.Join(NoLinks(from, name), NoLinks(from, earlier)); err != nil {
		return err
	}
	if err := errors.Join(MakeFolder(filepath.Dir(earlier)), replace(earlier, before, permissions(name, usual))); err != nil {
		return err
	}
	return Replace(name, after)
}

// NoLinks refuses a name below a folder if the way to it goes through a link: what is written
// there would be in another place, where nobody looks for it.
func NoLinks(from, name string) error {
	rel, err := filepath.Rel(from, name)
	if err != nil {
		return err
	}
	at := from
	for step := range strings.SplitSeq(filepath.ToSlash(rel), "/") {
		at = filepath.Join(at, step)
		if info, err := os.Lstat(at); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return fmt.Errorf("%q is a link to another place, and nothing is read or written there; put the folder or the file itself in its place", filepath.ToSlash(at))
		}
	}
	return nil
}

// mostRead is how many bytes Read takes: far more than it is used for.
const mostRead = 16 << 20

// Read reads a file whole; nil if it does not exist.
func Read(name string) ([]byte, error) {
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	data, err := ReadUpTo(name, mostRead)
	if err == nil && len(data) > mostRead {
		err = fmt.Errorf("%q has more than %d MB", filepath.ToSlash(name), mostRead>>20)
	}
	if err != nil {
		return nil, err
	}
	return data, nil
}

// about puts the name in front of the reason. An error of the system has the name in it
// once more, with the call that failed; that is left out.
func about(name string, err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return fmt.Errorf("%q: %w", name, err)
}
