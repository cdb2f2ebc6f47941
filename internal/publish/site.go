package publish

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// A Site is the finished files under their paths, relative to the target and
// separated by slashes. The zero Site is empty and ready to use. It is not safe for
// concurrent use.
type Site struct {
	files map[string]content
	taken map[string]holder // by folded path, for files and the folders above them
}

// content is what a file will hold: the bytes, those of the file named by from, or size bytes
// of a reader.
type content struct {
	data   []byte
	from   string
	reader io.ReaderAt
	size   int64
}

// copied reports whether the bytes are not in memory.
func (c content) copied() bool { return c.from != "" || c.reader != nil }

// open opens the source of a copy, and says how many bytes it has.
func (c content) open() (io.ReadCloser, int64, error) {
	if c.reader != nil {
		return io.NopCloser(io.NewSectionReader(c.reader, 0, c.size)), c.size, nil
	}
	f, err := os.Open(c.from)
	if err != nil {
		return nil, 0, err
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() {
		err = errors.New("not a plain file")
	}
	if err != nil {
		f.Close()
		return nil, 0, err
	}
	return f, info.Size(), nil
}

// holder is who took a path first.
type holder struct {
	path   string
	folder bool
}

// Add puts a file into the site. The bytes are kept, not copied: the caller may not
// change them until they are taken.
//
// A path must be writable on every common file system, because the site is built on
// one machine and copied to others. It refuses absolute paths, empty, "." and ".."
// elements, backslashes and the other characters and device names Windows reserves,
// names of more than 255 bytes, and a path that differs from one already added, or
// from a folder above one, by case only or by how accented letters are written.
func (s *Site) Add(path string, data []byte) error {
	return s.add(path, content{data: data})
}

// AddFile is Add with the bytes of the file named from, which is copied. It is
// meant for photos and recordings, which are too large to be held in memory
// together. The file must be there, unchanged, until it is copied.
func (s *Site) AddFile(path, from string) error {
	if from == "" {
		return fmt.Errorf("site file %q has no file to be copied from", path)
	}
	return s.add(path, content{from: from})
}

// Len is the number of files added.
func (s *Site) Len() int { return len(s.files) }

// Paths are the paths added, sorted by their bytes.
func (s *Site) Paths() []string { return slices.Sorted(maps.Keys(s.files)) }

func (s *Site) add(path string, c content) error {
	if reason := pathFault(path); reason != "" {
		return fmt.Errorf("site file %q %s", path, reason)
	}
	key := fold(path)
	if key == fold(listName) || key == fold(noteName) {
		return fmt.Errorf("site file %q has the name of a file every build writes; choose another", path)
	}
	for i, r := range path {
		if r != '/' {
			continue
		}
		folder := path[:i]
		if h, ok := s.taken[fold(folder)]; ok {
			if !h.folder {
				return fmt.Errorf("site file %q lies below %q, which is a file", path, h.path)
			}
			if h.path != folder {
				return fmt.Errorf("site folder %q differs from %q by case or accents only; write both alike", folder, h.path)
			}
		}
	}
	if h, ok := s.taken[key]; ok {
		switch {
		case h.folder:
			return fmt.Errorf("site file %q has the name of the folder %q", path, h.path)
		case h.path == path:
			return fmt.Errorf("site file %q is added twice", path)
		}
		return fmt.Errorf("site file %q differs from %q by case or accents only; rename one", path, h.path)
	}

	if s.files == nil {
		s.files = make(map[string]content)
		s.taken = make(map[string]holder)
	}
	s.files[path] = c
	s.taken[key] = holder{path: path}
	for i, r := range path {
		if r == '/' {
			s.taken[fold(path[:i])] = holder{path: path[:i], folder: true}
		}
	}
	return nil
}

// pathFault says why a path cannot be a file of a site, or nothing.
//
// Source of the reserved characters and names: Microsoft, Naming Files, Paths, and
// Namespaces (from memory). NTFS, APFS and ext4 hold 255 units a name; 255 bytes
// satisfies them all.
func pathFault(path string) string {
	switch {
	case path == "":
		return "has no path; a path looks like units/sb-1043/index.html"
	case !utf8.ValidString(path):
		return "is not valid UTF-8"
	case strings.Contains(path, `\`):
		return "has a backslash; folders are separated by /"
	case strings.HasPrefix(path, "/"):
		return "is absolute; a path is relative to the target"
	}
	for name := range strings.SplitSeq(path, "/") {
		switch {
		case name == "":
			return "has an empty folder or file name"
		case name == "." || name == "..":
			return fmt.Sprintf("has the element %q; a path goes straight down from the target", name)
		case len(name) > 255:
			return "has a name of more than 255 bytes"
		case strings.HasSuffix(name, ".") || strings.HasSuffix(name, " "):
			return "has a name that ends in a period or a space, which Windows drops"
		case isDevice(name):
			return fmt.Sprintf("has the name %q, which is a device on Windows", name)
		}
		for _, r := range name {
			if unicode.IsControl(r) {
				return fmt.Sprintf("has the control character %U", r)
			}
			if strings.ContainsRune(`<>:"|?*`, r) {
				return fmt.Sprintf("has the character %q, which Windows reserves", r)
			}
		}
	}
	return ""
}

// isDevice reports whether Windows takes the name for a device, which it does
// whatever the case and the extension.
func isDevice(name string) bool {
	stem, _, _ := strings.Cut(name, ".")
	stem = strings.ToUpper(strings.TrimRight(stem, " "))
	switch stem {
	case "CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$":
		return true
	}
	port, ok := strings.CutPrefix(stem, "COM")
	if !ok {
		port, ok = strings.CutPrefix(stem, "LPT")
	}
	return ok && utf8.RuneCountInString(port) == 1 && strings.Contains("0123456789¹²³", port)
}

// fold is the same for two strings that differ by case only, or in how accented letters are
// written: as one character or as two, which macOS takes for one name (Unicode Standard Annex
// 15, NFC).
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		low := r
		for f := unicode.SimpleFold(r); f != r; f = unicode.SimpleFold(f) {
			low = min(low, f)
		}
		return low
	}, norm.NFC.String(s))
}
