package site

import (
	"errors"
	"os"
	"path/filepath"

	"tarepage/internal/inspect"
	"tarepage/internal/photo"
)

// photoResults are the results of photos, by their names below content/: a picture, or a fault
// that only the pixels show.
type photoResults struct {
	pictures map[string]*photo.Picture
	faults   map[string]string
	// copies are photos with nearly the picture of one that is kept off the site, and which. They
	// have no pictures here.
	copies map[string]string
}

// originals lists the photos of the units that are published, each once, without those that
// are done already. A photo whose head is at fault was found by inspection and is left out.
func originals(o *Options, y *Yard, held inspect.Held, done func(name string) bool) []photo.Original {
	var list []photo.Original
	seen := y.Stock.WithheldFiles() // as if they were done
	for _, u := range y.Stock.Units {
		if u.Broken || u.Withheld() || y.Stock.SetAside(u) || held.Units[u.File] {
			continue
		}
		for _, m := range y.Stock.Media[u.File] {
			if m.Photo != nil && photo.Refused(m.Photo) == "" && !seen[m.Name] && !done(m.Name) {
				seen[m.Name] = true
				list = append(list, o.original(m.Name))
			}
		}
	}
	return list
}

// original is a photo that a unit names. It is read below the yard's folder.
func (o *Options) original(name string) photo.Original {
	return photo.Original{Name: name, Path: filepath.Join("content", filepath.FromSlash(name)), Folder: o.From}
}

// makePictures makes the pictures of photos. The error is for a disk that cannot be written.
func makePictures(o *Options, s *Store, list []photo.Original) (photoResults, error) {
	if len(list) == 0 {
		return photoResults{}, nil
	}
	shop := *s.shop(o)
	shop.Told = o.Progress
	made, faults, err := shop.Work(list)
	return photoResults{pictures: made, faults: faults}, err
}

// refuseCopies takes out the photos whose pictures are nearly those of photos that are kept off
// the site: somebody may have saved one again under another name.
func (r *photoResults) refuseCopies(o *Options, s *Store, y *Yard) {
	var kept []photo.Original
	for name := range y.Stock.WithheldFiles() {
		if why, _ := y.Stock.KeptOff(name); why.Same == "" {
			kept = append(kept, o.original(name))
		}
	}
	if len(kept) == 0 || len(r.pictures) == 0 {
		return
	}
	shop := s.shop(o)
	r.copies = shop.Copies(r.pictures, shop.Sketches(kept))
	for name := range r.copies {
		delete(r.pictures, name)
	}
}

// withPhotoFaults is the yard with the findings of the photos stage. No unit is inspected
// again.
func (y *Yard) withPhotoFaults(r photoResults) *Yard {
	if len(r.faults) == 0 && len(r.copies) == 0 {
		return y
	}
	out := *y
	out.found = append([][]inspect.Finding(nil), y.found...)
	for _, u := range y.Stock.Units {
		out.found = append(out.found, inspect.PhotoFaults(u, y.Stock.Media[u.File], r.faults), inspect.PhotoCopies(y.Stock, u, r.copies))
	}
	out.Findings = inspect.Complete(y.Stock, y.Works, y.problems, out.found...)
	return &out
}

// shop makes pictures and keeps them from one run to the next: in the user's cache, so that
// nothing is left next to content/ and a fresh clone finds what an older one made. If there
// is no such folder or nothing can be written there, they are kept next to content/, in a
// folder that version control ignores. Either folder may be deleted.
func (s *Store) shop(o *Options) *photo.Shop {
	if s.pictureShop == nil {
		keep := filepath.Join(o.From, ".tarepage", "photos")
		if dir, err := os.UserCacheDir(); err == nil {
			if dir = filepath.Join(dir, "tarepage", "photos"); takesFiles(dir) {
				keep = dir
			}
		}
		s.pictureShop = &photo.Shop{Keep: keep}
		if beside := filepath.Join(o.From, ".tarepage", "photos"); keep != beside {
			s.pictureShop.Spare = beside
		}
	}
	return s.pictureShop
}

// takesFiles reports whether a folder exists, or can be made, and takes files: a full disk
// and one that can only be read take none. The file that it tries has a name like those of
// unfinished pictures, which are removed later if a build is killed just here.
func takesFiles(dir string) bool {
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
