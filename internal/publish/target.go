package publish

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"tarepage/internal/filestamp"
)

// A Refusal says why a target cannot be replaced and what to do about it. Nothing
// has been written when it is returned.
type Refusal struct {
	Target string // as the owner wrote it
	Reason string // follows the target in a sentence
	Remedy string
	err    error // the system's answer, if that is the reason
}

func (r *Refusal) Error() string { return r.Target + " " + r.Reason + "; " + r.Remedy }

// Unwrap returns the system's answer, if that is the reason.
func (r *Refusal) Unwrap() error { return r.err }

const (
	chooseAnother = "choose another folder with -to"
	moveAway      = "move it away or " + chooseAnother
)

// place is where a target really is.
type place struct {
	said   string // as the owner wrote it
	parent string // absolute, no links in the part that exists
	base   string // the target's name in parent
	exists bool   // the target is there and is a folder
	above  string // the nearest folder above it that exists
}

func (p place) real() string { return filepath.Join(p.parent, p.base) }

// refuse makes the Refusal of this target; the format is that of fmt.Errorf.
func (p place) refuse(remedy, format string, args ...any) error {
	reason := fmt.Errorf(format, args...)
	return &Refusal{Target: p.said, Reason: reason.Error(), Remedy: remedy, err: errors.Unwrap(reason)}
}

// locate finds where the target is and refuses a place that no site may take,
// whatever it holds. A link to a folder is followed: the folder is replaced and the
// link stays. Sources are folders of the yard's own, which this build reads or which nobody else may.
func locate(target string, sources []string) (place, error) {
	p := place{said: target}
	if target == "" {
		p.said = "the target"
		return p, p.refuse("name a folder with -to", "has no name")
	}
	abs, err := filepath.Abs(target)
	if err != nil {
		return p, err
	}
	if abs, err = p.follow(abs); err != nil {
		return p, err
	}
	if err := p.find(abs); err != nil {
		return p, err
	}
	if err := p.notOurs(); err != nil {
		return p, err
	}
	if err := p.apartFrom(sources); err != nil {
		return p, err
	}
	if p.exists && isMountPoint(p.real()) {
		return p, p.refuse("choose a folder inside it with -to", "is a mount point, which cannot be swapped")
	}
	if err := writable(p.above); err != nil {
		return p, p.refuse(chooseAnother, "cannot be replaced, because the folder around it cannot be written (%w)", err)
	}
	return p, nil
}

// follow returns where the target leads if it is a link, and notes whether it is there.
func (p *place) follow(abs string) (string, error) {
	if _, err := os.Lstat(abs); err != nil {
		return abs, nil
	}
	real, err := filepath.EvalSymlinks(abs)
	if err != nil {
		return abs, p.refuse(moveAway, "is a link that leads nowhere")
	}
	info, err := os.Stat(real)
	if err != nil {
		return abs, err
	}
	if !info.IsDir() {
		return abs, p.refuse(moveAway, "is a file and not a folder")
	}
	p.exists = true
	return real, nil
}

// find looks for the nearest folder above the target that exists. Below it there are no links
// to follow.
func (p *place) find(abs string) error {
	above, rest := filepath.Dir(abs), []string{filepath.Base(abs)}
	for {
		info, err := os.Stat(above)
		if err == nil && !info.IsDir() {
			return p.refuse(chooseAnother, "lies below %s, which is a file", filepath.Base(above))
		}
		if err == nil {
			break
		}
		if !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, syscall.ENOTDIR) {
			return p.refuse(chooseAnother, "cannot be reached (%w)", cause(err))
		}
		if above == filepath.Dir(above) {
			return p.refuse(chooseAnother, "is on a drive that is not there")
		}
		rest = append(rest, filepath.Base(above))
		above = filepath.Dir(above)
	}
	var err error
	if p.above, err = filepath.EvalSymlinks(above); err != nil {
		return err
	}
	slices.Reverse(rest)
	full := filepath.Join(p.above, filepath.Join(rest...))
	p.parent, p.base = filepath.Dir(full), filepath.Base(full)
	if p.parent == full {
		return p.refuse(chooseAnother, "is a whole drive")
	}
	return nil
}

// notOurs refuses the owner's home folder, the folder the command was started in, and every
// folder around them.
func (p *place) notOurs() error {
	if !p.exists {
		return nil
	}
	full := p.real()
	if home, err := os.UserHomeDir(); err == nil && isWithin(home, full) {
		if isSame(home, full) {
			return p.refuse(chooseAnother, "is your home folder")
		}
		return p.refuse(chooseAnother, "holds your home folder")
	}
	here, err := os.Getwd()
	if err != nil {
		return err
	}
	switch {
	case isSame(here, full):
		return p.refuse(chooseAnother, "is the folder this command was started in")
	case isWithin(here, full):
		return p.refuse(chooseAnother, "holds the folder this command was started in")
	}
	return nil
}

// apartFrom refuses a target that is, holds or lies inside a folder of the yard's own.
func (p *place) apartFrom(sources []string) error {
	full := p.real()
	for _, source := range sources {
		from, err := filepath.Abs(source)
		if err != nil {
			return err
		}
		switch {
		case p.exists && isSame(from, full) || from == full:
			return p.refuse(chooseAnother, "is %s, which the yard keeps for itself", source)
		case p.exists && isWithin(from, full):
			return p.refuse(chooseAnother, "holds %s, which the yard keeps for itself", source)
		case isWithin(p.above, from):
			return p.refuse(chooseAnother, "lies inside %s, which the yard keeps for itself", source)
		}
	}
	return nil
}

// isSame reports whether two paths lead to one file.
func isSame(a, b string) bool {
	ia, erra := os.Stat(a)
	ib, errb := os.Stat(b)
	return erra == nil && errb == nil && os.SameFile(ia, ib)
}

// isWithin reports whether path is the folder or lies inside it. It compares files
// and not names, because case and links make one folder of two names.
func isWithin(path, folder string) bool {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	for {
		if isSame(path, folder) {
			return true
		}
		up := filepath.Dir(path)
		if up == path {
			return false
		}
		path = up
	}
}

// cause is an error without the path and the call, which would show the owner names
// he did not write.
func cause(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}

// holdings is what a folder that may be a site of ours holds.
type holdings struct {
	listed    map[string]sum             // the digests on its list, by their paths; nil without a list of ours
	stamps    map[string]filestamp.Stamp // of files that had these digests when the last build left them
	fault     string                     // why there is no list of ours
	files     map[string]fs.FileInfo     // the listed files that are there, the list among them
	strangers []string                   // what is not on the list, sorted; folders end in /
	tidy      bool                       // every file and folder has the mode a build gives it
}

// survey looks at a folder without following links. Without a list it looks at the first
// level only: the folder is not ours, and may be large.
func (p place) survey(dir string) (*holdings, error) {
	h := &holdings{files: make(map[string]fs.FileInfo), tidy: true}
	if err := h.readList(p, dir); err != nil {
		return nil, err
	}
	if h.listed == nil {
		entries, err := os.ReadDir(dir)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			h.strangers = append(h.strangers, shown(e.Name(), e))
		}
		return h, nil
	}
	err := h.walk(dir)
	slices.Sort(h.strangers)
	return h, err
}

// mostList is how many bytes a list of ours may have: that of a million files.
const mostList = 160 << 20

// readList reads the folder's own list. If that is there but damaged, as after a power cut, or
// was emptied, the copy that the last build left next to the target counts too: files that
// are on it are ours. A folder without a list is never ours, whatever lies next to it.
func (h *holdings) readList(p place, dir string) error {
	info, err := os.Lstat(filepath.Join(dir, listName))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		h.fault = "has no " + listName
		return nil
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		h.fault = "has a " + listName + " that is not a plain file"
		return nil
	case info.Size() > mostList:
		h.fault = fmt.Sprintf("has a %s of %d MB", listName, info.Size()>>20)
		return nil
	}
	text, err := os.ReadFile(filepath.Join(dir, listName))
	if err != nil {
		return err
	}
	if h.listed, err = parseList(string(text)); err != nil {
		h.fault = err.Error()
	}
	kept := p.kept()
	if h.listed != nil && bytes.Equal(text, kept.list) {
		h.stamps = kept.stampsOf()
		return nil
	}
	// What a power cut leaves of a file is its beginning, and zeros.
	if left := bytes.TrimRight(text, "\x00"); !bytes.HasPrefix(kept.list, left) {
		return nil
	}
	if listed, err := parseList(string(kept.list)); err == nil {
		h.listed = listed
	}
	return nil
}

// walk finds what the folder holds, on its list and not.
func (h *holdings) walk(dir string) error {
	folders := make(map[string]bool)
	for path := range h.listed {
		for i, r := range path {
			if r == '/' {
				folders[path[:i]] = true
			}
		}
	}
	return filepath.WalkDir(dir, func(full string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, full)
		if err != nil {
			return err
		}
		path := filepath.ToSlash(rel)
		info, err := e.Info()
		if err != nil {
			return err
		}
		switch {
		case e.IsDir() && (path == "." || folders[path]):
			h.tidy = h.tidy && hasMode(info, folderMode)
		case e.IsDir():
			h.strangers = append(h.strangers, shown(path, e))
			return fs.SkipDir
		case info.Mode().IsRegular() && h.ours(path):
			h.files[path] = info
			h.tidy = h.tidy && hasMode(info, fileMode)
		default:
			h.strangers = append(h.strangers, path)
		}
		return nil
	})
}

func (h *holdings) ours(path string) bool {
	_, listed := h.listed[path]
	return listed || path == listName
}

// known is the digest of a file that is there, if its size and times are those that the last
// build noted.
func (h *holdings) known(path string) (digest sum, ok bool) {
	info := h.files[path]
	if info == nil || !h.stamps[path].Holds(info) {
		return digest, false
	}
	return h.listed[path], true
}

func shown(path string, e fs.DirEntry) string {
	if e.IsDir() {
		return path + "/"
	}
	return path
}

// refuseStrangers refuses a folder that holds what no build wrote. The folder is
// named as the owner would find it.
func (h *holdings) refuseStrangers(folder string) error {
	if len(h.strangers) == 0 {
		return nil
	}
	r := &Refusal{Target: folder, Remedy: moveAway}
	if len(h.strangers) > 1 {
		r.Remedy = "move them away or " + chooseAnother
	}
	r.Reason = "holds " + few(h.strangers) + ", which this tool did not write"
	if h.listed == nil {
		r.Reason += " (" + h.fault + ")"
	}
	return r
}

// few names the first three and counts the rest.
func few(names []string) string {
	const most = 3
	if n := len(names); n > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), n-most)
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return names[0]
}
