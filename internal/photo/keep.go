package photo

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"tarepage/internal/seal"
)

// edition is part of every kept entry's place. It changes with anything that changes what
// comes out: widths, qualities, kernel, encoder, sketch.
const edition = "4"

// nameDigits is how many digits of the hash a published name carries. Two files that agree in
// eight were found in seconds; sixteen take a warehouse of computers.
const nameDigits = 16

// keep is the folder of finished pictures. Its entries are folders named by the original's
// hash; each holds the finished files and a note of them with their hashes, and the note is
// sealed for its place: an entry that somebody else wrote, or moved here, is made again. The
// folder may be deleted at any time, and two builds may use it at once: an entry is
// put in its place whole, and goes when no build has used it for a long time (sweep).
type keep struct{ dir string }

const noteName = "note.json"

// open makes the folder, and tells version control to leave it alone.
func (k *keep) open() error {
	dir := filepath.Join(k.dir, edition)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("pictures cannot be kept in %s: %s", k.dir, plain(err))
	}
	ignore := filepath.Join(k.dir, ".gitignore")
	if _, err := os.Stat(ignore); errors.Is(err, fs.ErrNotExist) {
		if err := os.WriteFile(ignore, []byte("# These files are made from content/ and may be deleted.\n*\n"), 0o644); err != nil {
			return fmt.Errorf("pictures cannot be kept in %s: %s", k.dir, plain(err))
		}
	}
	return nil
}

func (k *keep) place(key string) string { return filepath.Join(k.dir, edition, key[:2], key[2:]) }

// find reads an entry. One that is not there, or was damaged, is nil: it is made again.
func (k *keep) find(key string) *Picture {
	dir := k.place(key)
	touch(filepath.Join(dir, noteName))
	note, err := readKept(filepath.Join(dir, noteName))
	if err != nil {
		return nil
	}
	mark, text, ok := bytes.Cut(note, []byte("\n"))
	if !ok || string(mark) != markOf(key, text) {
		return nil
	}
	p := &Picture{}
	if json.Unmarshal(text, p) != nil || len(p.WebP) == 0 || !p.Sketch.whole() {
		return nil
	}
	files := []*File{&p.JPEG}
	for i := range p.WebP {
		files = append(files, &p.WebP[i])
	}
	for i, f := range files {
		ext := ".webp"
		if i == 0 {
			ext = ".jpg"
		}
		f.From = filepath.Join(dir, fmt.Sprintf("%d%s", f.Wide, ext))
		// The file's own name is not in it: people save what a customer sends under the customer's name.
		f.Name = fmt.Sprintf("photos/%s-%d%s", key[:nameDigits], f.Wide, ext)
		data, err := readKept(f.From)
		if err != nil || sumOf(data) != f.Sum {
			return nil
		}
	}
	return p
}

// put keeps what was worked. data are the WebP files' in their order, then the JPEG's.
func (k *keep) put(key string, p *Picture, data [][]byte) error {
	if err := k.open(); err != nil {
		return err
	}
	dir := k.place(key)
	err := func() error {
		if err := os.MkdirAll(filepath.Dir(dir), 0o755); err != nil {
			return err
		}
		made, err := os.MkdirTemp(filepath.Dir(dir), "making-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(made)
		write := func(f *File, ext string, data []byte) error {
			f.Sum = sumOf(data)
			return os.WriteFile(filepath.Join(made, fmt.Sprintf("%d%s", f.Wide, ext)), data, 0o644)
		}
		for i := range p.WebP {
			if err := write(&p.WebP[i], ".webp", data[i]); err != nil {
				return err
			}
		}
		if err := write(&p.JPEG, ".jpg", data[len(data)-1]); err != nil {
			return err
		}
		text, err := json.Marshal(p)
		if err != nil {
			return err
		}
		note := append([]byte(markOf(key, text)+"\n"), text...)
		if err := os.WriteFile(filepath.Join(made, noteName), note, 0o644); err != nil {
			return err
		}
		if err := os.Chmod(made, 0o755); err != nil {
			return err
		}
		if k.find(key) != nil {
			return nil // another build has just put the same there
		}
		if err := os.RemoveAll(dir); err != nil {
			return err
		}
		if err := os.Rename(made, dir); err != nil && k.find(key) == nil {
			return err
		}
		return nil
	}()
	if err != nil {
		return fmt.Errorf("pictures cannot be kept in %s: %s", k.dir, plain(err))
	}
	return nil
}

// readKept reads a kept file. Anybody may have put a pipe in its place, which is not waited for.
func readKept(name string) ([]byte, error) {
	f, _, err := open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(f)
}

// markOf seals what is kept under a key.
func markOf(key string, data []byte) string {
	mark := seal.Of("pictures "+edition+" "+key, data)
	return hex.EncodeToString(mark[:])
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Kept returns where a file is that was made once, and the SHA-256 of its bytes. If it is kept
// under the key (64 hexadecimal digits, for all that the bytes depend on), that one is
// returned; else make makes it. A kept file that was damaged is made again. Kept is safe for
// concurrent use, also by several builds.
func (s *Shop) Kept(key, ext string, make func() ([]byte, error)) (from, sum string, err error) {
	var keeps []*keep
	for _, dir := range []string{s.Keep, s.Spare} {
		if dir != "" {
			keeps = append(keeps, &keep{dir: dir})
		}
	}
	for _, k := range keeps {
		if from, sum := k.findFile(key, ext); from != "" {
			return from, sum, nil
		}
	}
	data, err := make()
	if err != nil {
		return "", "", err
	}
	for _, k := range keeps {
		if from, sum, err = k.putFile(key, ext, data); err == nil {
			return from, sum, nil
		}
	}
	return "", "", err
}

// findFile is where a single file is kept, and the sum of its bytes; both are empty if there is none that
// is whole.
func (k *keep) findFile(key, ext string) (from, sum string) {
	from = k.place(key) + ext
	note := k.place(key) + ".sum"
	touch(from)
	touch(note)
	data, err := readKept(from)
	if err != nil {
		return "", ""
	}
	if said, err := readKept(note); err != nil || string(said) != markOf(key+ext, data) {
		return "", ""
	}
	return from, sumOf(data)
}

// putFile keeps a single file and its mark.
func (k *keep) putFile(key, ext string, data []byte) (from, sum string, err error) {
	if err := k.open(); err != nil {
		return "", "", err
	}
	from, sum = k.place(key)+ext, sumOf(data)
	for _, f := range []struct {
		name string
		data []byte
	}{{from, data}, {k.place(key) + ".sum", []byte(markOf(key+ext, data))}} {
		if err := whole(f.name, f.data); err != nil {
			return "", "", fmt.Errorf("what was drawn cannot be kept in %s: %s", k.dir, plain(err))
		}
	}
	return from, sum, nil
}

// whole writes a file next to its place and then moves it there: a reader gets the old file or
// the new one.
func whole(name string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(name), "making-")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(data)
	if err := errors.Join(err, f.Chmod(0o644), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

// sorted are the keys of a map in their order.
func sorted(m map[string]*Picture) []string { return slices.Sorted(maps.Keys(m)) }
