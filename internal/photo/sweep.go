package photo

import (
	"os"
	"path/filepath"
	"strings"
	"time"
)

// What is kept goes when no build has used it for unusedFor: a photo that was sold with its
// trailer, the pictures of an older edition. One folder serves every yard of a user, so
// that the last build did not use an entry says nothing. What was put off half made goes
// after abandonedFor.
//
// The clock decides here what must be worked again and how long that takes, and never what
// comes out.
const (
	unusedFor    = 90 * 24 * time.Hour
	abandonedFor = 24 * time.Hour
	sweptEvery   = 24 * time.Hour
)

// touch notes that a kept file was used, once a day: the time at which a file was written is
// the one note that every disk keeps.
func touch(name string) {
	now := time.Now()
	if info, err := os.Stat(name); err == nil && now.Sub(info.ModTime()).Abs() > sweptEvery {
		_ = os.Chtimes(name, now, now) // a folder that may only be read keeps what it has
	}
}

// sweep removes what is no longer used, once a day. If it cannot, that is not a failure.
//
// Two builds at once: each touches what it finds before it reads it, so what another build
// is using is young. What looks old is first moved aside, looked at again and put back if
// it was touched meanwhile.
func (k *keep) sweep() {
	mark := filepath.Join(k.dir, ".swept")
	now := time.Now()
	if info, err := os.Lstat(mark); err == nil && (!info.Mode().IsRegular() || now.Sub(info.ModTime()).Abs() < sweptEvery) {
		return
	}
	if os.WriteFile(mark, nil, 0o644) != nil || os.Chtimes(mark, now, now) != nil {
		return
	}
	// EDITION/ab/ and below it an entry's folder, or a file of one and its sum.
	kept, err := filepath.Glob(filepath.Join(k.dir, "*", "[0-9a-f][0-9a-f]", "*"))
	if err != nil {
		return
	}
	for _, name := range kept {
		base := filepath.Base(name)
		half := strings.HasPrefix(base, "making-") || strings.HasPrefix(base, "leaving-")
		old := func(name string) bool {
			used, err := lastUse(name)
			return err == nil && (now.Sub(used) > unusedFor || half && now.Sub(used) > abandonedFor)
		}
		if !old(name) {
			continue
		}
		if !half {
			aside := filepath.Join(filepath.Dir(name), "leaving-"+base)
			if os.Rename(name, aside) != nil {
				continue
			}
			if !old(aside) && os.Rename(aside, name) == nil {
				continue
			}
			name = aside
		}
		_ = os.RemoveAll(name)
	}
}

// lastUse is when a kept entry was last used: an entry's folder has its note for that.
func lastUse(name string) (time.Time, error) {
	info, err := os.Lstat(name)
	if err != nil {
		return time.Time{}, err
	}
	if info.IsDir() {
		if note, err := os.Lstat(filepath.Join(name, noteName)); err == nil {
			info = note
		}
	}
	return info.ModTime(), nil
}
