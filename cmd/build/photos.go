package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/media"
	"tarepage/internal/photo"
	"tarepage/internal/publish"
	"tarepage/internal/report"
)

// keepDir is where worked photos are kept from one build to the next: in the user's cache,
// so that nothing is left beside content/ and a fresh clone finds what an older one
// worked; where there is none, or nothing can be written there, beside content/, in a
// folder that version control ignores. Either may be deleted.
func (c *command) keepDir() string {
	c.keepOnce.Do(func() {
		if dir, err := os.UserCacheDir(); err == nil {
			if c.keep = filepath.Join(dir, "tarepage", "photos"); takes(c.keep) {
				return
			}
		}
		c.keep = filepath.Join(c.from, ".tarepage", "photos")
	})
	return c.keep
}

// takes reports whether a folder is there, or can be made, and takes files: a full disk and
// one that is only read take none. What it tries is named as the work in hand is, which
// is swept away if a build is killed just here.
func takes(dir string) bool {
	if os.MkdirAll(dir, 0o755) != nil {
		return false
	}
	f, err := os.CreateTemp(dir, "making-")
	if err != nil {
		return false
	}
	_, err = f.Write(make([]byte, 4096))
	return errors.Join(err, f.Close(), os.Remove(f.Name())) == nil
}

// photos works the photos of the units that are published, but those that are done. What
// only the pixels tell is entered in what was read, and the units concerned are inspected again.
func (c *command) photos(y *yard, held inspect.Held, stderr io.Writer, done func(name string) bool) (map[string]*photo.Picture, error) {
	var list []photo.Original
	seen := map[string]bool{}
	for _, u := range y.stock.Units {
		if u.Broken || u.Withhold.Given() || held.Units[u.File] {
			continue
		}
		for _, m := range y.stock.Media[u.File] {
			if m.Photo != nil && photo.Refused(m.Photo) == "" && !seen[m.Name] && !done(m.Name) {
				seen[m.Name] = true
				list = append(list, photo.Original{Name: m.Name, Path: c.media(m.Name)})
			}
		}
	}
	if len(list) == 0 {
		return nil, nil
	}
	shop := &photo.Shop{Keep: c.keepDir()}
	if f, ok := stderr.(*os.File); ok && !c.quiet && terminal(f) {
		bar := &report.Bar{W: stderr, After: time.Second, What: "photos"}
		shop.Told = bar.Told
		defer bar.Done()
	}
	made, faults, err := shop.Work(list)
	if err != nil || len(faults) == 0 {
		return made, err
	}
	for i, u := range y.stock.Units {
		concerned := false
		media := y.stock.Media[u.File]
		for _, m := range media {
			if m.Photo != nil && faults[m.Name] != "" {
				m.Photo.Fault, concerned = faults[m.Name], true
			}
		}
		if concerned && !u.Broken {
			y.found[i] = inspect.Unit(u, y.whole(i), media)
		}
	}
	y.findings = inspect.Yardwide(y.stock, y.works, y.found, y.problems)
	return made, nil
}

// video puts the copy of a recording into the site that customers may have: its pictures and
// its sound. The file is opened once, so that what was looked through is what is copied.
func (c *command) video(g *publish.Staging, path, name string) error {
	root, err := os.OpenRoot(contentDir(c.from))
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

// seen is how a video was planned for the showroom, and the file that it was planned for.
type seen struct {
	bytes int64
	time  time.Time
	copy  *media.Copy
}

// bare plans the copy of an open video, as the site will have it. A player asks for a
// video in many pieces, so the plan is kept until the file changes.
func (d *display) bare(f *os.File) (io.ReaderAt, int64, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, 0, err
	}
	d.mu.Lock()
	was, ok := d.videos[f.Name()]
	d.mu.Unlock()
	if !ok || was.bytes != info.Size() || !was.time.Equal(info.ModTime()) || time.Since(was.time) < 2*time.Second {
		video, err := media.Bare(f, info.Size())
		if err != nil {
			return nil, 0, err
		}
		was = seen{info.Size(), info.ModTime(), video}
		d.mu.Lock()
		if d.videos == nil {
			d.videos = map[string]seen{}
		}
		d.videos[f.Name()] = was
		d.mu.Unlock()
	}
	return was.copy.Of(f), was.copy.Size(), nil
}

// terminal reports whether somebody sits before it.
func terminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
