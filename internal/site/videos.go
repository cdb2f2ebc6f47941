package site

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"tarepage/internal/media"
	"tarepage/internal/publish"
)

// copyVideo puts the copy of a recording into the site that customers may have: its pictures
// and its sound. The file is opened once, so that what was checked is what is copied.
func copyVideo(o *Options, g *publish.Staging, path, name string) error {
	root, err := os.OpenRoot(o.content())
	if err != nil {
		return err
	}
	defer root.Close()
	f, err := root.Open(filepath.FromSlash(name))
	if err != nil {
		return err
	}
	defer f.Close()
	before, err := f.Stat()
	if err != nil {
		return err
	}
	video, err := planCopy(f, before.Size(), mostTime)
	if err != nil {
		return fmt.Errorf("video %q cannot be published: %w", name, err)
	}
	if err := g.AddCopy(path, video, video.Size()); err != nil {
		return err
	}
	after, err := f.Stat()
	if err == nil && (after.Size() != before.Size() || !after.ModTime().Equal(before.ModTime())) {
		err = fmt.Errorf("video %q was changed while it was copied; build again", name)
	}
	return err
}

// mostTime is how long looking through one video may take. A recording of an hour takes
// less than a second from a disk.
const mostTime = 2 * time.Minute

// planCopy plans the copy of a video that may be published. It ends after the time that it
// may take, even on a slow disk.
func planCopy(r io.ReaderAt, size int64, most time.Duration) (*media.Copy, error) {
	timed := &timedReader{from: r, until: time.Now().Add(most)}
	c, err := media.Bare(timed, size)
	if timed.late {
		return nil, fmt.Errorf("looking through it takes longer than %v; record it again, or save it shorter", most)
	}
	if err != nil {
		return nil, err
	}
	return c.Of(r), nil
}

// timedReader stops reading after a moment.
type timedReader struct {
	from  io.ReaderAt
	until time.Time
	late  bool
}

// ReadAt implements io.ReaderAt.
func (t *timedReader) ReadAt(p []byte, off int64) (int, error) {
	if t.late = t.late || time.Now().After(t.until); t.late {
		return 0, os.ErrDeadlineExceeded
	}
	return t.from.ReadAt(p, off)
}

// knownVideo is the plan of a copy, and the file for which it was made.
type knownVideo struct {
	bytes int64
	time  time.Time
	copy  *media.Copy
}

// bareVideo is the copy of an open video, as the site will have it, with its size. A player
// asks for a video in many pieces, so the plan of the copy is kept until the file changes.
func (s *Store) bareVideo(f *os.File) (io.ReaderAt, int64, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, 0, err
	}
	s.mu.Lock()
	known, ok := s.videos[f.Name()]
	s.mu.Unlock()
	if !ok || known.bytes != info.Size() || !known.time.Equal(info.ModTime()) || time.Since(known.time) < youngest {
		video, err := planCopy(f, info.Size(), mostTime)
		if err != nil {
			return nil, 0, err
		}
		known = knownVideo{info.Size(), info.ModTime(), video}
		s.mu.Lock()
		if s.videos == nil {
			s.videos = map[string]knownVideo{}
		}
		s.videos[f.Name()] = known
		s.mu.Unlock()
	}
	return known.copy.Of(f), known.copy.Size(), nil
}
