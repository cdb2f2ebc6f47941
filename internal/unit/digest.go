package unit

import (
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"time"

	"tarepage/internal/parallel"
)

// Digest is a digest of everything that was read except the media. Two stocks with the same
// digest are the same. It returns false if a file could not be read.
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

// DigestOf computes the Digest of the stock from the bytes of its files, without parsing
// them.
func DigestOf(root fs.FS) (digest [32]byte, err error) {
	src, _, err := readText(root, yardFile)
	if err != nil {
		return digest, err
	}
	files := map[string][32]byte{yardFile: sha256.Sum256(src)}
	for _, p := range strays(root) {
		files[p.At.File] = [32]byte{}
	}
	for _, dir := range []string{modelsDir, unitsDir} {
		names, ignored, err := markdownFiles(root, dir)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return digest, err
		}
		for _, p := range ignored {
			files[p.At.File] = [32]byte{}
		}
		sums, errs := make([][32]byte, len(names)), make([]error, len(names))
		parallel.Each(len(names), func(i int) {
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
	h := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		sum := files[name]
		h.Write(binary.BigEndian.AppendUint64(nil, uint64(len(name))))
		h.Write([]byte(name))
		h.Write(sum[:])
	}
	h.Sum(digest[:0])
	return digest
}

// A Stamp identifies a version of a file that a unit names. It uses the size and the times of
// the file and not its bytes, because a video has too many.
type Stamp struct {
	Name  string
	Fault string
	Bytes int64
	// Time is in nanoseconds of Unix time.
	Time int64
	// Touched is when anything about the file last changed, also in nanoseconds. It reveals a
	// copy that kept the time of its original. It is 0 if the system does not tell.
	Touched int64
}

// Stamps returns a stamp for each file that a unit of the stock names, once each, in the
// order of their names.
func (s *Stock) Stamps() []Stamp {
	var out []Stamp
	for _, u := range s.Units {
		written := u.Media()
		for i, m := range s.Media[u.File] {
			// By the name in the unit file, because the place where it is found may change.
			out = append(out, stamp(written[i].Name, m.Fault, m.Bytes, m.Time, m.touched))
		}
	}
	slices.SortFunc(out, func(a, b Stamp) int { return strings.Compare(a.Name, b.Name) })
	return slices.CompactFunc(out, func(a, b Stamp) bool { return a.Name == b.Name })
}

func stamp(name, fault string, size int64, written time.Time, touched int64) Stamp {
	if fault != "" {
		return Stamp{Name: name, Fault: fault}
	}
	return Stamp{name, "", size, written.UnixNano(), touched}
}

// Hold reports whether each file still has its stamp.
func Hold(root fs.FS, stamps []Stamp) bool {
	found := shelfOf(root)
	for _, s := range stamps {
		_, info, fault := found.seek(s.Name)
		if fault != "" {
			if (Stamp{Name: s.Name, Fault: fault}) != s {
				return false
			}
		} else if stamp(s.Name, "", info.Size(), info.ModTime(), touched(info)) != s {
			return false
		}
	}
	return true
}
