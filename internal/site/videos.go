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
	video, err := media.Bare(f, before.Size())
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
		video, err := media.Bare(f, info.Size())
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
