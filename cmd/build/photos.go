package main

import (
	"io"
	"os"
	"path/filepath"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/photo"
	"tarepage/internal/report"
)

// workedDir is where worked photos are kept, beside content/. It ignores itself in
// version control, and may be deleted.
const workedDir = ".tarepage"

// photos works the photos of the units that are published. What only the pixels tell is
// entered in what was read, and everything is inspected again.
func (c *command) photos(y *yard, held inspect.Held, stderr io.Writer) (map[string]*photo.Picture, error) {
	var list []photo.Original
	seen := map[string]bool{}
	for _, u := range y.stock.Units {
		if u.Broken || u.Withhold.Given() || held.Units[u.File] {
			continue
		}
		for _, m := range y.stock.Media[u.File] {
			if m.Photo != nil && photo.Refused(m.Photo) == "" && !seen[m.Name] {
				seen[m.Name] = true
				list = append(list, photo.Original{Name: m.Name, Path: c.media(m.Name)})
			}
		}
	}
	if len(list) == 0 {
		return nil, nil
	}
	shop := &photo.Shop{Keep: filepath.Join(c.from, workedDir, "photos")}
	if f, ok := stderr.(*os.File); ok && !c.quiet && terminal(f) {
		bar := &report.Bar{W: stderr, After: time.Second, What: "photos"}
		shop.Told = bar.Told
		defer bar.Done()
	}
	made, faults, err := shop.Work(list)
	if err != nil || len(faults) == 0 {
		return made, err
	}
	for _, media := range y.stock.Media {
		for _, m := range media {
			if m.Photo != nil && faults[m.Name] != "" {
				m.Photo.Fault = faults[m.Name]
			}
		}
	}
	y.findings = inspect.Stock(y.stock, y.works, y.problems)
	return made, nil
}

// terminal reports whether somebody sits before it.
func terminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
