package site

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/photo"
	"tarepage/internal/render"
	theme "tarepage/themes/default"
)

// A Shown is a site in memory whose pages are made when somebody looks at them.
type Shown struct {
	// Version is the same where everything that the site is made from is the same.
	Version string
	// UnitCount is the number of unit files; Units are those that have pages, by the paths of
	// these.
	UnitCount int
	Units     map[string]string
	Findings  []inspect.Finding
	// File makes the file with a path; Disk is where a file is that is not made but copied.
	// Both return fs.ErrNotExist for a path that the site does not have.
	File func(path string) ([]byte, error)
	Disk func(path string) (string, error)
	// Video is the copy of an open video that the site has, with its size.
	Video func(*os.File) (io.ReaderAt, int64, error)
}

// CheckLook refuses a look that cannot be read.
func CheckLook(look string) error {
	_, err := render.Theme(theme.Files, look)
	return err
}

// Show reads the yard once more and makes the site ready as Build would publish it, but with
// the units that have stops, and with the photos that can be shown. A page that cannot be
// made is not an error here. With the Store, only what changed is done again.
func Show(o Options, s *Store) (*Shown, error) {
	s.open(&o)
	y, err := readYard(&o, s, false)
	if err != nil {
		return nil, err
	}
	photos, err := showPhotos(&o, s, y)
	if err != nil {
		return nil, err
	}
	y = y.withPhotoFaults(photos)
	basis, known := basisOf(o.Look)
	if !known {
		basis = [32]byte{}
	}
	files, err := render.Theme(theme.Files, o.Look)
	if err != nil {
		return nil, err
	}
	// Both at the same time, because somebody is waiting for them.
	version := make(chan string, 1)
	go func() { version <- versionOf(y, basis, known) }()
	showing, err := render.NewOnDemand(files, render.Input{Stock: y.Stock, Works: y.Works, Figures: y.figures, Findings: y.Findings,
		Pictures: photos.pictures, Cards: s.cards(&o, y.Stock), Lexicon: s.words(known), Spanish: y.Stock.Yard.SpeaksSpanish(), Basis: basis}, s.showing)
	if err != nil {
		return nil, err
	}
	s.showing = showing
	return &Shown{Version: <-version, UnitCount: len(y.Stock.Units), Units: showing.Units(), Findings: y.Findings, File: showing.File, Video: s.bareVideo,
		Disk: func(path string) (string, error) {
			from, media, err := showing.Disk(path)
			if media {
				from = o.media(from)
			}
			return from, err
		}}, nil
}

// showPhotos makes the pictures of the photos that are new or changed, and adds those that
// are known.
func showPhotos(o *Options, s *Store, y *Yard) (photoResults, error) {
	all := s.photosAsBefore(y.Stock)
	made, err := makePictures(o, s, originals(o, y, inspect.Held{}, all.has))
	if err != nil {
		return photoResults{}, err
	}
	for name, p := range made.pictures {
		all.add(name, p, "")
	}
	for name, fault := range made.faults {
		all.add(name, (*photo.Picture)(nil), fault)
	}
	s.keepPhotos(y.Stock, all)
	all.refuseCopies(o, s, y)
	return all, nil
}

// versionOf is the same where everything that the site is made from is the same. If that
// cannot be told, no two are the same.
func versionOf(y *Yard, basis [32]byte, known bool) string {
	h := sha256.New()
	read, ok := y.Stock.Digest()
	if !ok || !known {
		fmt.Fprintln(h, time.Now().UnixNano())
	}
	fmt.Fprintln(h, basis, read, y.Stock.Stamps())
	return hex.EncodeToString(h.Sum(nil)[:8])
}
