package site

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"tarepage/internal/media"
	"tarepage/internal/publish"
	"tarepage/internal/unit"
)

// copyVideo puts into the site the copy of a recording that customers may have: its pictures
// and its sound. The file is opened once, so that what was checked is what is copied.
func copyVideo(o *Options, g *publish.Staging, path, name string) error {
	root, err := os.OpenRoot(o.From)
	if err != nil {
		return err
	}
	defer root.Close()
	f, err := root.Open(filepath.Join("content", filepath.FromSlash(name)))
	if err != nil {
		return err
	}
	defer f.Close()
	before, err := f.Stat()
	if err != nil {
		return err
	}
	video, err := planCopy(f, before.Size(), unit.MostVideoTime)
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

// planCopy plans the copy of a video that may be published. It ends after the time that it
// may take, even on a slow disk.
func planCopy(r io.ReaderAt, size int64, most time.Duration) (*media.Copy, error) {
	timed := unit.NewTimedReader(r, most)
	c, err := media.Bare(timed, size)
	if late := timed.Fault(); late != nil {
		return nil, late
	}
	if err != nil {
		return nil, err
	}
	return c.Of(r), nil
}

// knownVideo is the plan of a copy, and the file for which it was made.
type knownVideo struct {
	of   os.FileInfo
	copy *media.Copy
}

// knows reports whether the plan is of this file, and of what is in it now.
func (k knownVideo) knows(info os.FileInfo) bool {
	return k.of != nil && os.SameFile(k.of, info) && k.of.Size() == info.Size() &&
		k.of.ModTime().Equal(info.ModTime()) && time.Since(info.ModTime()) >= youngest
}

// bareVideo is the copy of an open video, as the site will have it, with its size. A player
// asks for a video in many pieces, so the plan of the copy is kept until the file changes.
func (s *Store) bareVideo(f *os.File) (io.ReaderAt, int64, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, 0, err
	}
	s.mu.Lock()
	known := s.videos[f.Name()]
	s.mu.Unlock()
	if !known.knows(info) {
		video, err := planCopy(f, info.Size(), unit.MostVideoTime)
		if err != nil {
			return nil, 0, err
		}
		known = knownVideo{info, video}
		s.mu.Lock()
		if s.videos == nil {
			s.videos = map[string]knownVideo{}
		}
		s.videos[f.Name()] = known
		s.mu.Unlock()
	}
	return known.copy.Of(f), known.copy.Size(), nil
}
