package unit

import (
	"crypto/sha256"
	"io"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// A KeptOff is a file that is not published, whatever names it, and the reason.
type KeptOff struct {
	// At is where a proof keeps it off the site, or the file that may do so and does not read.
	At Pos
	// Unread reports that the file at At does not read, so nobody knows.
	Unread bool
	// Same is the file with the same bytes that At is about; empty if it is this one.
	Same string
}

// WithheldFiles are the files that are not published by anybody, by their names below content/:
// photos of proofs that a unit keeps off the site, files that a unit names whose own file does
// not read, and every file that has the same bytes as one of these.
func (s *Stock) WithheldFiles() map[string]bool {
	out := make(map[string]bool, len(s.keptOff))
	for name := range s.keptOff {
		out[name] = true
	}
	return out
}

// KeptOff says why a file is not published by anybody, if it is not.
func (s *Stock) KeptOff(name string) (why KeptOff, off bool) {
	why, off = s.keptOff[name]
	return why, off
}

// keepOff finds the files that nobody publishes.
func (r *Reading) keepOff() map[string]KeptOff {
	off := map[string]KeptOff{}
	units := slices.Collect(maps.Keys(r.stock.Media))
	slices.Sort(units)
	for _, file := range units {
		for _, m := range r.stock.Media[file] {
			if _, told := off[m.Name]; m.Withheld && !told {
				off[m.Name] = KeptOff{At: m.Pos}
			}
		}
	}
	r.addUnread(off)
	if len(off) == 0 {
		return off
	}
	// A copy under another name, in other capitals or by a hard link has the same bytes.
	sums := contents{root: r.root, known: map[string][32]byte{}}
	sizes := map[int64][]string{}
	for _, name := range slices.Sorted(maps.Keys(off)) {
		if _, info, fault := r.shelf.find(name); fault == "" {
			sizes[info.Size()] = append(sizes[info.Size()], name)
		}
	}
	for _, file := range units {
		for _, m := range r.stock.Media[file] {
			if _, told := off[m.Name]; told || m.Fault != "" {
				continue
			}
			for _, name := range sizes[m.Bytes] {
				if a, ok := sums.of(name); ok {
					if b, ok := sums.of(m.Name); !ok || a != b {
						continue
					}
				}
				// What cannot be compared counts as the same.
				off[m.Name] = KeptOff{At: off[name].At, Unread: off[name].Unread, Same: name}
				break
			}
		}
	}
	return off
}

// contents are digests of files below content/, each read once.
type contents struct {
	root  fs.FS
	known map[string][32]byte
}

func (c *contents) of(name string) (sum [32]byte, ok bool) {
	if sum, ok = c.known[name]; ok {
		return sum, true
	}
	f, err := c.root.Open(path.Join(mediaRoot, name))
	if err != nil {
		return sum, false
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return sum, false
	}
	h.Sum(sum[:0])
	c.known[name] = sum
	return sum, true
}

// addUnread adds the files that are named where a unit or a model does not read: the key that
// withholds them may be what does not read.
func (r *Reading) addUnread(off map[string]KeptOff) {
	named := map[string]Pos{} // by the last part of the name, in small letters
	full := map[string]Pos{}
	for _, t := range r.unreadTexts() {
		for _, name := range mediaNames.FindAllString(t.text, -1) {
			full[name] = t.at
			named[plainBase(name)] = t.at
		}
	}
	for _, name := range slices.Sorted(maps.Keys(full)) {
		if at, _, fault := r.shelf.seek(name); fault == "" {
			if _, told := off[at]; !told {
				off[at] = KeptOff{At: full[name], Unread: true}
			}
		}
	}
	for _, list := range r.stock.Media {
		for _, m := range list {
			at, ok := named[plainBase(m.Name)]
			if _, told := off[m.Name]; ok && !told {
				off[m.Name] = KeptOff{At: at, Unread: true}
			}
		}
	}
}

// mediaNames finds what may be the name of a file in a text that does not read.
var mediaNames = regexp.MustCompile(`(?i)(?:media/[^"'\n,}]*?|[^\s"'/,{}\[\]:]+)\.(?:jpe?g|png|webp|mp4|m4v|mov|webm|vtt|srt)\b`)

// plainBase is the last part of a name without what some systems do not tell apart.
func plainBase(name string) string { return strings.ToLower(norm.NFC.String(path.Base(name))) }

// An unreadText is a part of a file that does not read.
type unreadText struct {
	at   Pos
	text string
}

// unreadTexts are the whole files that do not read, and of the others the keys at which there is
// a problem, where they hold proofs or are not known. Of a yard of thousands nearly all files have
// no such problem, and are not opened.
func (r *Reading) unreadTexts() (out []unreadText) {
	all := map[string][]Problem{}
	add := func(list []Problem) {
		for _, p := range list {
			switch p.Rule {
			case FileUnreadable, UnknownKey, KeyTwice, ValueUnreadable:
				all[p.At.File] = append(all[p.At.File], p)
			}
		}
	}
	add(r.problems)
	broken := map[string]bool{}
	enter := func(u *Unit) {
		broken[u.File] = u.Broken
		if _, told := all[u.File]; u.Broken && !told {
			all[u.File] = nil
		}
	}
	for _, m := range r.stock.Models {
		enter(m)
	}
	for _, k := range r.units {
		add(k.Found)
		enter(k.Unit)
	}
	for _, file := range slices.Sorted(maps.Keys(all)) {
		whole, read := broken[file]
		if !read {
			continue // neither a unit nor a model
		}
		src, _, err := readText(r.root, file)
		if err != nil {
			// Nobody knows what it names. By custom the names begin with the unit's.
			out = append(out, r.namedLike(file)...)
			continue
		}
		text := string(src)
		if whole {
			out = append(out, unreadText{Pos{file, 1, 1}, text})
			continue
		}
		for _, p := range all[file] {
			if key, section := keyAround(text, int(p.At.Line)); key == "proof" || p.Rule == UnknownKey && p.At.Column == 1 {
				out = append(out, unreadText{p.At, section})
			}
		}
	}
	return out
}

// namedLike are the files of the yard's units whose names begin with the name of a file.
func (r *Reading) namedLike(file string) (out []unreadText) {
	stem := strings.TrimSuffix(plainBase(file), ".md")
	for _, list := range r.stock.Media {
		for _, m := range list {
			if rest, ok := strings.CutPrefix(plainBase(m.Name), stem); ok && (rest[0] < '0' || rest[0] > '9') {
				out = append(out, unreadText{Pos{file, 1, 1}, m.Name})
			}
		}
	}
	return out
}

// keyAround is the key at the left edge of the front matter that a line belongs to, with the
// text below it.
func keyAround(text string, line int) (key, section string) {
	lines := strings.SplitAfter(text, "\n")
	inside := func(i int) bool { return lines[i] == "" || strings.ContainsRune(" -#\t\r\n", rune(lines[i][0])) }
	from := min(max(line-1, 0), len(lines)-1)
	for from > 0 && inside(from) {
		from--
	}
	to := from + 1
	for to < len(lines) && inside(to) && !strings.HasPrefix(lines[to], "---") {
		to++
	}
	key, _, _ = strings.Cut(lines[from], ":")
	return key, strings.Join(lines[from:to], "")
}
