package unit

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
	"time"
)

// mediaRoot is the folder below which the files that a unit names stand.
const mediaRoot = "content"

// A Media is a file that a unit names: a photo, the recording's video or captions.
type Media struct {
	// Path is the key that names it: recording.video, photos.file.
	Path string
	// Name is the file's path below content/ as it is written: media/sb-1043.mp4.
	Name string
	Pos  Pos
	// Fault says why there is no such file; empty if it is there.
	Fault string
	// Bytes is the file's size, and Time when it was last written, as the system tells it.
	Bytes int64
	Time  time.Time
	// Data is what a captions file holds, at most its first MostCaptions bytes and one
	// more; nil for photos and videos, which nobody needs whole.
	Data []byte
}

// MostCaptions is as much of a captions file as is read: what internal/walkaround takes.
const MostCaptions = 5 << 20

// Media lists the files that the unit names, whether they are there or not.
func (u *Unit) Media() []Media {
	var out []Media
	add := func(key string, t Text) {
		if t.Given() {
			out = append(out, Media{Path: key, Name: t.Value, Pos: t.Pos})
		}
	}
	add("recording.captions", u.Recording.Captions)
	add("recording.video", u.Recording.Video)
	for _, p := range u.Photos {
		add("photos.file", p.File)
	}
	return out
}

// shelf knows which files are there; each folder is listed once. It is safe for several
// at a time.
type shelf struct {
	root    fs.FS
	mu      sync.Mutex
	folders map[string]map[string]bool // the names in a folder
}

// look fills in the fault and the size of what a unit names. Names are held letter by
// letter: a disk that does not tell Side.jpg from side.jpg hides a link that is broken on
// every web host.
func (s *shelf) look(list []Media) []Media {
	for i := range list {
		m := &list[i]
		m.Bytes, m.Time, m.Fault = s.find(m.Name)
		if m.Fault == "" && m.Path == "recording.captions" {
			if m.Data, m.Fault = s.read(m.Name); m.Fault != "" {
				m.Data = nil
			}
		}
	}
	return list
}

func (s *shelf) read(name string) (data []byte, fault string) {
	full := path.Join(mediaRoot, name)
	f, err := s.root.Open(full)
	if err == nil {
		defer f.Close()
		data, err = io.ReadAll(io.LimitReader(f, MostCaptions+1))
	}
	if err != nil {
		return nil, fmt.Sprintf("%s cannot be read: %v", full, plainError(err))
	}
	return data, ""
}

func (s *shelf) find(name string) (size int64, written time.Time, fault string) {
	if !fs.ValidPath(name) || strings.Contains(name, `\`) || name == "." {
		return 0, time.Time{}, fmt.Sprintf("that is no path below %s/; write it like media/sb-1043.jpg", mediaRoot)
	}
	full := path.Join(mediaRoot, name)
	entries, err := s.list(path.Dir(full))
	if err != nil {
		return 0, time.Time{}, fmt.Sprintf("%s cannot be listed: %v", path.Dir(full), plainError(err))
	}
	base := path.Base(full)
	if !entries[base] {
		for _, name := range slices.Sorted(maps.Keys(entries)) {
			if strings.EqualFold(name, base) {
				return 0, time.Time{}, fmt.Sprintf("there is no %s; the file there is called %s", full, name)
			}
		}
		return 0, time.Time{}, fmt.Sprintf("there is no %s", full)
	}
	// Through the name, not the entry: a link to a file is as good as the file.
	info, err := fs.Stat(s.root, full)
	switch {
	case err != nil:
		return 0, time.Time{}, fmt.Sprintf("%s cannot be opened: %v", full, plainError(err))
	case !info.Mode().IsRegular():
		return 0, time.Time{}, fmt.Sprintf("%s is no file", full)
	case info.Size() == 0:
		return 0, time.Time{}, fmt.Sprintf("%s is empty", full)
	}
	return info.Size(), info.ModTime(), ""
}

// list is what a folder holds; a folder that is not there holds nothing.
func (s *shelf) list(dir string) (map[string]bool, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if names, ok := s.folders[dir]; ok {
		return names, nil
	}
	entries, err := fs.ReadDir(s.root, dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	names := make(map[string]bool, len(entries))
	for _, e := range entries {
		names[e.Name()] = true
	}
	s.folders[dir] = names
	return names, nil
}
