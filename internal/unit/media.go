package unit

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"

	"golang.org/x/text/unicode/norm"

	"tarepage/internal/filestamp"
	"tarepage/internal/media"
)

// mediaRoot is the folder that holds the files that a unit names.
const mediaRoot = "content"

// A Media is a file that a unit names: a photo, the recording's video or captions.
type Media struct {
	// Path is the key that names it: recording.video, photos.file, proof.file.
	Path string
	// Name is the file's path below content/ as it is written: media/sb-1043.mp4.
	Name string
	Pos  Pos
	// Withheld reports that it is a photo of a proof that the unit keeps off the site.
	Withheld bool
	// Fault says why there is no such file; empty if it is there.
	Fault string
	// Bytes is the file's size, and Time when it was last written, as the system tells it.
	Bytes int64
	Time  time.Time
	stamp filestamp.Stamp
	// Data is what a captions file holds, at most its first MostCaptions bytes and one
	// more; nil for photos and videos, which nobody needs whole.
	Data []byte
	// Photo and Video are what its head tells; nil for the other kinds of file.
	Photo *media.Photo
	Video *media.Video
}

// photo reports whether the key that names the file is that of a photo.
func (m *Media) photo() bool { return m.Path == "photos.file" || m.Path == "proof.file" }

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
	for i := range u.Proof {
		if p := &u.Proof[i]; p.File.Given() {
			out = append(out, Media{Path: "proof.file", Name: p.File.Value, Pos: p.File.Pos, Withheld: p.Withheld()})
		}
	}
	return out
}

// shelf knows which files are there; each folder is listed once. It is safe for several
// at a time.
type shelf struct {
	root     fs.FS
	patience time.Duration // for one video
	mu       sync.Mutex
	folders  map[string]map[string]fs.DirEntry // by the names in the folder
	known    map[string]Media
}

func shelfOf(root fs.FS) *shelf {
	return &shelf{root: root, patience: MostVideoTime, folders: map[string]map[string]fs.DirEntry{}, known: map[string]Media{}}
}

// look fills in the fault, the size and the facts of what a unit names. Names are held
// letter by letter: a disk that does not tell Side.jpg from side.jpg hides a link that is
// broken on every web host.
func (s *shelf) look(list []Media) []Media {
	for i := range list {
		m := &list[i]
		if m.Fault = misplaced(m); m.Fault != "" {
			if there := mediaFolder + path.Base(m.Name); path.Dir(m.Name) == "." && misplaced(&Media{Path: m.Path, Name: there}) == "" && s.holds(there) {
				m.Fault = fmt.Sprintf("the file is in %s/media; write %s", mediaRoot, there)
			}
			continue
		}
		name, info, fault := s.seek(m.Name)
		if m.Fault = fault; fault != "" {
			continue
		}
		m.Name, m.Bytes, m.Time, m.stamp = name, info.Size(), info.ModTime(), filestamp.Of(info)
		switch m.Path {
		case "recording.captions":
			if m.Data, m.Fault = s.read(m.Name); m.Fault != "" {
				m.Data = nil
			}
		case "recording.video":
			// It is published under a name of ours, but a yard is copied to other systems.
			if m.Fault = s.unfit(m.Name); m.Fault == "" {
				m.Fault = s.facts(m)
			}
			if m.Fault == "" {
				m.Fault = mistaken(m)
			}
		case "photos.file", "proof.file":
			m.Fault = s.facts(m)
		}
	}
	return list
}

// mediaFolder is the folder below content/ that holds every file that a unit names. A file
// elsewhere, such as another unit's source or an editor's settings, is not published.
const mediaFolder = "media/"

// endings are the endings that the names of files of each kind may have.
var endings = map[string][]string{
	"recording.captions": {".vtt", ".srt"},
	"recording.video":    {".mp4", ".m4v", ".mov", ".webm"},
	"photos.file":        {".jpg", ".jpeg", ".png", ".webp"},
	"proof.file":         {".jpg", ".jpeg", ".png", ".webp"},
}

// otherPictures are endings of pictures that cannot be published. What such a file holds is
// refused, with better advice than its name could give.
var otherPictures = []string{".gif", ".bmp", ".tif", ".tiff", ".dng", ".heic", ".heif", ".avif"}

// misplaced says why a file is not one that the key may name, or nothing.
func misplaced(m *Media) string {
	if m.Name != path.Clean(m.Name) || strings.ContainsAny(m.Name, `\:`) {
		return "" // find says what is wrong with the path
	}
	if fs.ValidPath(m.Name) && !strings.HasPrefix(m.Name, mediaFolder) {
		return fmt.Sprintf("only a file in %s/%s may be named; move it there", mediaRoot, strings.TrimSuffix(mediaFolder, "/"))
	}
	ending := strings.ToLower(path.Ext(m.Name))
	if m.photo() && slices.Contains(otherPictures, ending) {
		return ""
	}
	if allowed := endings[m.Path]; !slices.Contains(allowed, ending) && fs.ValidPath(m.Name) {
		return fmt.Sprintf("the name does not end in %s; name the right file", listed(allowed))
	}
	return ""
}

// listed writes a list for a sentence: .vtt or .srt.
func listed(list []string) string {
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " or " + list[last]
}

// mistaken says why a video's name does not fit what it holds, or nothing: a web host goes
// by the ending when it tells browsers what a file is.
func mistaken(m *Media) string {
	webm := strings.EqualFold(path.Ext(m.Name), ".webm")
	switch {
	case m.Video.Kind == "WebM" && !webm:
		return "it is WebM by what it holds; give the file a name that ends in .webm"
	case (m.Video.Kind == "MP4" || m.Video.Kind == "QuickTime") && webm:
		return fmt.Sprintf("it is %s by what it holds; give the file a name that ends in .mp4", m.Video.Kind)
	}
	return ""
}

// holds reports whether there is such a file.
func (s *shelf) holds(name string) bool {
	_, _, fault := s.find(name)
	return fault == ""
}

// seek finds a file where it is named, and its name as the disk has it. A folder media/ in units/ works as
// well as one next to units/.
func (s *shelf) seek(name string) (at string, info fs.FileInfo, fault string) {
	at, info, fault = s.find(name)
	if fault != "" && fs.ValidPath(name) {
		beside := path.Join(path.Base(unitsDir), name)
		if at, there, f := s.find(beside); f == "" {
			return at, there, ""
		}
	}
	return at, info, fault
}

// device is a name that Windows takes for a device, whatever its ending (Microsoft, Naming
// Files, Paths, and Namespaces).
var device = regexp.MustCompile(`(?i)^(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9¹²³]) *(\.|$)`)

// unfit says why a file cannot be published under its name on every system, or nothing.
func (s *shelf) unfit(name string) string {
	at := mediaRoot
	for step := range strings.SplitSeq(name, "/") {
		full := path.Join(at, step)
		switch i := strings.IndexAny(step, `<>:"|?*`); {
		case i >= 0:
			return fmt.Sprintf("the name has the character %q, which Windows reserves; rename the file", step[i])
		case strings.HasSuffix(step, ".") || strings.HasSuffix(step, " "):
			return fmt.Sprintf("the name %q ends in a period or a space, which Windows drops; rename the file", step)
		case device.MatchString(step):
			return fmt.Sprintf("%q is a device on Windows; rename the file", step)
		}
		entries, err := s.list(at)
		if err != nil {
			return fmt.Sprintf("%s cannot be listed: %v", at, plainError(err))
		}
		for _, other := range slices.Sorted(maps.Keys(entries)) {
			switch {
			case other == step:
			case strings.EqualFold(other, step):
				return fmt.Sprintf("%s and %s differ in capitals only, which many systems do not tell apart; rename one", full, other)
			case strings.EqualFold(norm.NFC.String(other), norm.NFC.String(step)):
				return fmt.Sprintf("%s and another file differ only in how accented letters are stored, which many systems do not tell apart; rename one", full)
			}
		}
		at = full
	}
	return ""
}

// facts reads what the head of a photo or a video tells. A file that several units name
// is looked at once.
func (s *shelf) facts(m *Media) (fault string) {
	key := m.Path + " " + m.Name
	s.mu.Lock()
	known, ok := s.known[key]
	s.mu.Unlock()
	if ok {
		m.Photo, m.Video = known.Photo, known.Video
		return known.Fault
	}
	defer func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.known[key] = Media{Photo: m.Photo, Video: m.Video, Fault: fault}
	}()
	full := path.Join(mediaRoot, m.Name)
	f, err := s.root.Open(full)
	if err != nil {
		return fmt.Sprintf("%s cannot be read: %v", full, plainError(err))
	}
	defer f.Close()
	at, ok := f.(io.ReaderAt)
	if !ok {
		// Only a file system in memory gives files that cannot be read at a place.
		all, err := io.ReadAll(f)
		if err != nil {
			return fmt.Sprintf("%s cannot be read: %v", full, plainError(err))
		}
		at = bytes.NewReader(all)
	}
	if m.photo() {
		p := media.LookAtPhoto(at, m.Bytes)
		m.Photo = &p
	} else {
		timed := NewTimedReader(at, s.patience)
		v := media.LookAtVideo(timed, m.Bytes)
		if late := timed.Fault(); late != nil {
			v.Fault, v.Unclean = "", late.Error()
		}
		m.Video = &v
	}
	return ""
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

func (s *shelf) find(name string) (is string, info fs.FileInfo, fault string) {
	if strings.Contains(name, "://") {
		return name, nil, fmt.Sprintf("that is an address; put the file itself into %s/media and write media/%s", mediaRoot, ownName(name))
	}
	if ownPath.MatchString(name) {
		return name, nil, fmt.Sprintf("that is a place on your computer; copy the file into %s/media and write media/%s", mediaRoot, ownName(name))
	}
	if plain := strings.ReplaceAll(name, `\`, "/"); plain != name && fs.ValidPath(plain) {
		return name, nil, fmt.Sprintf("a path on the web has no backslashes; write %s", plain)
	}
	if !fs.ValidPath(name) || strings.Contains(name, `\`) || name == "." {
		return name, nil, fmt.Sprintf("that is not a path below %s/; put the file into %[1]s/media and write media/%s", mediaRoot, ownName(name))
	}
	full := path.Join(mediaRoot, name)
	// Each folder on the way and the file itself: a link on any of them may lead out of
	// the folder, and it leads nowhere when the folder is copied to another computer.
	at := mediaRoot
	for step := range strings.SplitSeq(name, "/") {
		entry, fault := s.entry(at, step)
		if entry != nil {
			step = entry.Name() // accented letters as the disk has them
		}
		at = path.Join(at, step)
		switch {
		case fault != "":
			return name, nil, fault
		case entry == nil:
			return name, nil, fmt.Sprintf("there is no %s", full)
		case entry.Type()&fs.ModeSymlink != 0:
			return name, nil, fmt.Sprintf("%s is a link to another place; put the file itself there", at)
		}
	}
	full = at
	info, err := fs.Stat(s.root, full)
	switch {
	case err != nil:
		return name, nil, fmt.Sprintf("%s cannot be opened: %v", full, plainError(err))
	case !info.Mode().IsRegular():
		return name, nil, fmt.Sprintf("%s is not a regular file", full)
	case info.Size() == 0:
		return name, nil, fmt.Sprintf("%s is empty", full)
	}
	return strings.TrimPrefix(at, mediaRoot+"/"), info, ""
}

// ownPath matches a path from the root of a disk, on any system, or from somebody's home.
var ownPath = regexp.MustCompile(`^(?:[A-Za-z]:[/\\]|[/\\]|~[/\\]).*[^/\\]$`)

// ownName is a file's name without the folders before it, and the word NAME where there is none.
func ownName(at string) string {
	name := at[strings.LastIndexAny(at, `/\`)+1:]
	if strings.Trim(name, ".") == "" {
		return "NAME"
	}
	return name
}

// entry is what a folder holds under a name, or nil. An accented letter is one character where it is typed,
// and a letter with an accent after it in what some phones, computers and archives write: both are the same
// name (Unicode Standard Annex 15).
func (s *shelf) entry(dir, name string) (fs.DirEntry, string) {
	entries, err := s.list(dir)
	if err != nil {
		return nil, fmt.Sprintf("%s cannot be listed: %v", dir, plainError(err))
	}
	if e := entries[name]; e != nil {
		return e, ""
	}
	wanted := norm.NFC.String(name)
	for _, other := range slices.Sorted(maps.Keys(entries)) {
		if norm.NFC.String(other) == wanted {
			return entries[other], ""
		}
	}
	for _, other := range slices.Sorted(maps.Keys(entries)) {
		if strings.EqualFold(norm.NFC.String(other), wanted) {
			what := "file"
			if entries[other].IsDir() {
				what = "folder"
			}
			return nil, fmt.Sprintf("there is no %s; the %s there is called %s", path.Join(dir, name), what, other)
		}
	}
	return nil, ""
}

// list is what a folder holds; a folder that is not there holds nothing.
func (s *shelf) list(dir string) (map[string]fs.DirEntry, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if entries, ok := s.folders[dir]; ok {
		return entries, nil
	}
	list, err := fs.ReadDir(s.root, dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	entries := make(map[string]fs.DirEntry, len(list))
	for _, e := range list {
		entries[e.Name()] = e
	}
	s.folders[dir] = entries
	return entries, nil
}
