package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/photo"
	"tarepage/internal/publish"
	"tarepage/internal/report"
	"tarepage/internal/unit"
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

// covers are the boxes of a video that are not published: where it was made, and what a
// desk program noted. They become free space, so that no place in the file moves.
func covers(s *unit.Stock, name string) []publish.Cover {
	var out []publish.Cover
	for _, list := range s.Media {
		for _, m := range list {
			if m.Name != name || m.Video == nil {
				continue
			}
			for _, b := range m.Video.Private {
				// A box begins with four bytes of length and four that name its kind.
				out = append(out, publish.Cover{At: b.At + 4, Bytes: b.Bytes - 4, With: "free"})
			}
			return out
		}
	}
	return nil
}

// terminal reports whether somebody sits before it.
func terminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
