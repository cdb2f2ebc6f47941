package unit

import (
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"tarepage/internal/filestamp"
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

// A KnownText is the digest of the bytes that a unit's file had when it had the stamp.
type KnownText struct {
	File  string
	Sum   [32]byte
	Stamp filestamp.Stamp
}

// Known is the KnownText of a unit's file, if the file was old enough for that when it was read.
func (k *Kept) Known() (text KnownText, ok bool) {
	return KnownText{k.Unit.File, k.Unit.Sum, k.Stamp}, !k.Young && k.Unit.Sum != [32]byte{}
}

// DigestOf computes the Digest of the stock from the bytes of its files, without parsing
// them. The bytes of a file that still has the stamp of its known text are not read.
func DigestOf(root fs.FS, texts []KnownText) (digest [32]byte, err error) {
	known := make(map[string]*KnownText, len(texts))
	for i := range texts {
		known[texts[i].File] = &texts[i]
	}
	src, _, err := readText(root, yardFile)
	if err != nil {
		return digest, err
	}
	files := map[string][32]byte{yardFile: sha256.Sum256(src)}
	for _, p := range problemsOf(strays(root)) {
		files[p.At.File+" "+p.Message] = [32]byte{}
	}
	for _, dir := range []string{modelsDir, unitsDir} {
		names, ignored, err := markdownFiles(root, dir)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return digest, err
		}
		for _, p := range ignored {
			files[p.At.File+" "+p.Message] = [32]byte{}
		}
		sums, errs := make([][32]byte, len(names)), make([]error, len(names))
		parallel.Each(len(names), func(i int) {
			if k := known[names[i]]; k != nil {
				if info, err := fs.Lstat(root, names[i]); err == nil && info.Mode().IsRegular() && k.Stamp.Holds(info) {
					sums[i] = k.Sum
					return
				}
			}
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
	File  filestamp.Stamp
}

// Stamps returns a stamp for each file that a unit of the stock names, once each, in the
// order of their names.
func (s *Stock) Stamps() []Stamp {
	var out []Stamp
	for _, u := range s.Units {
		written := u.Media()
		for i, m := range s.Media[u.File] {
			// By the name in the unit file, because the place where it is found may change.
			out = append(out, stamp(written[i].Name, m.Fault, m.stamp))
		}
	}
	slices.SortFunc(out, func(a, b Stamp) int { return strings.Compare(a.Name, b.Name) })
	return slices.CompactFunc(out, func(a, b Stamp) bool { return a.Name == b.Name })
}

func stamp(name, fault string, file filestamp.Stamp) Stamp {
	if fault != "" {
		return Stamp{Name: name, Fault: fault}
	}
	return Stamp{name, "", file}
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
		} else if stamp(s.Name, "", filestamp.Of(info)) != s {
			return false
		}
	}
	return true
}
