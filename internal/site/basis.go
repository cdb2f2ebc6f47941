package site

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"tarepage/internal/render"
)

// programSum is the digest of the program that runs, with its tables and its built-in look.
// A new program may have replaced the file by now, so Linux is asked for the one that runs
// (proc(5), exe).
var programSum = sync.OnceValues(func() (sum [32]byte, err error) {
	h := sha256.New()
	if addFile(h, "program", os.DirFS("/proc/self"), "exe") != nil {
		h.Reset()
		var self string
		if self, err = os.Executable(); err == nil {
			err = addFile(h, "program", os.DirFS(filepath.Dir(self)), filepath.Base(self))
		}
	}
	h.Sum(sum[:0])
	return sum, err
})

// basisOf is a digest of what every page is made from besides the yard: the program, and the
// look if it is the owner's. It reports false if one of them cannot be read.
func basisOf(look string) (sum [32]byte, ok bool) {
	program, err := programSum()
	if err != nil {
		return sum, false
	}
	if look == "" {
		return program, true
	}
	h := sha256.New()
	h.Write(program[:])
	folder := os.DirFS(look)
	err = fs.WalkDir(folder, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		if info, err := e.Info(); err != nil || info.Size() > render.MostThemeFile {
			return errors.New("a file that no theme has")
		}
		return addFile(h, name, folder, name)
	})
	h.Sum(sum[:0])
	return sum, err == nil
}

// addFile adds a file to a digest, with its name and its size.
func addFile(h hash.Hash, as string, from fs.FS, name string) error {
	info, err := fs.Stat(from, name) // opening a pipe would wait forever
	if err != nil || !info.Mode().IsRegular() {
		return errors.New("not a regular file")
	}
	f, err := from.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	fmt.Fprintf(h, "%d %s %d\n", len(as), as, info.Size())
	_, err = io.Copy(h, f)
	return err
}
