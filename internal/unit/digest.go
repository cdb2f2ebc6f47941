package unit

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
)

// Digest is a digest of everything that was read but the media: two stocks with one
// digest are the same. It reports false where a file could not be read.
func (s *Stock) Digest() (digest [32]byte, ok bool) {
	files := map[string][32]byte{yardFile: s.Yard.Sum}
	for _, m := range s.Models {
		files[m.File] = m.Sum
	}
	for _, u := range s.Units {
		files[u.File] = u.Sum
	}
	for _, sum := range files {
		if sum == ([32]byte{}) {
			return digest, false
		}
	}
	for _, name := range s.ignored {
		files[name] = [32]byte{}
	}
	return digestOf(files), true
}

// DigestOf is what Digest of the stock would be, without reading more of the files than
// their bytes.
func DigestOf(root fs.FS) (digest [32]byte, err error) {
	src, _, err := readText(root, yardFile)
	if err != nil {
		return digest, err
	}
	files := map[string][32]byte{yardFile: sha256.Sum256(src)}
	for _, dir := range []string{modelsDir, unitsDir} {
		names, ignored, err := markdownFiles(root, dir)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return digest, err
		}
		for _, p := range ignored {
			files[p.At.File] = [32]byte{}
		}
		sums, errs := make([][32]byte, len(names)), make([]error, len(names))
		inTurn(len(names), func(i int) {
			var src []byte
			src, _, errs[i] = readText(root, names[i])
			sums[i] = sha256.Sum256(src)
		})
		if err := errors.Join(errs...); err != nil {
			return digest, err
		}
		for i, name := range names {
			files[name] = sums[i]
		}
	}
	return digestOf(files), nil
}

func digestOf(files map[string][32]byte) (digest [32]byte) {
	lines := make([]string, 0, len(files))
	for name, sum := range files {
		lines = append(lines, fmt.Sprintf("%x %d %s\n", sum, len(name), name))
	}
	slices.Sort(lines)
	return sha256.Sum256([]byte(strings.Join(lines, "")))
}

// A Stamp is by what a file that a unit names is known again: not by its bytes, which
// may be a video, but by its size and its time.
type Stamp struct {
	Name  string
	Fault string
	Bytes int64
	// Time is in nanoseconds of Unix time.
	Time int64
}

// Stamps are those of every file that a unit of the stock names, each once, in the order
// of their names.
func (s *Stock) Stamps() []Stamp {
	var out []Stamp
	for _, list := range s.Media {
		for _, m := range list {
			out = append(out, Stamp{m.Name, m.Fault, m.Bytes, m.Time.UnixNano()})
		}
	}
	slices.SortFunc(out, func(a, b Stamp) int { return strings.Compare(a.Name, b.Name) })
	return slices.CompactFunc(out, func(a, b Stamp) bool { return a.Name == b.Name })
}

// Hold reports whether each file still has its stamp.
func Hold(root fs.FS, stamps []Stamp) bool {
	found := &shelf{root: root, folders: map[string]map[string]bool{}}
	for _, s := range stamps {
		size, written, fault := found.find(s.Name)
		if (Stamp{s.Name, fault, size, written.UnixNano()}) != s {
			return false
		}
	}
	return true
}
