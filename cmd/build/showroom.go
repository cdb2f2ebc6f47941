package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/photo"
	"tarepage/internal/render"
	"tarepage/internal/report"
	"tarepage/internal/showroom"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// showroom shows the site until it is interrupted. What stops a unit, or the whole
// build, is shown and printed, and it goes on.
func (c *command) showroom(stdout, stderr io.Writer) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	// What is mistyped is said before anything opens; what is miswritten can be mended
	// while it is open.
	if err := c.folder(); err != nil {
		return err
	}
	if _, err := render.Theme(theme.Files, c.theme); err != nil {
		return err
	}
	l, err := showroom.Listen(c.at)
	if err != nil {
		return err
	}
	// Making and watching print from two sides.
	var mu sync.Mutex
	say := func(f func()) { mu.Lock(); defer mu.Unlock(); f() }
	// Printed with -quiet too: who may look is not to be guessed.
	here, others := showroom.Addresses(l)
	report.Opened(stdout, here, others)
	if c.phone && len(others) == 0 {
		complain(stderr, errors.New("this computer has no address in a network; join the one that the phone is in, then open the showroom again"))
	}
	d := &display{desk: desk{memory: unit.Memory{Keep: true}}}
	room := &showroom.Room{
		Folders: []string{contentDir(c.from)},
		Trouble: func(err error) { say(func() { complain(stderr, err) }) },
		Make: func() (site *showroom.Site, err error) {
			say(func() {
				if site, err = c.show(d, stdout, stderr); err != nil {
					complain(stderr, err)
				}
			})
			return site, err
		},
	}
	if c.theme != "" {
		room.Folders = append(room.Folders, c.theme)
	}
	return room.Serve(ctx, l)
}

// display is what the showroom knows from one change to the next, so that it does again
// only what changed.
type display struct {
	desk
	last *render.OnDemand
	// photos are those that were worked, by their names, and what each is known again by.
	photos map[string]worked
	mu     sync.Mutex
	videos map[string]seen
}

// worked is a photo that was worked: from a file of so many bytes, written then.
type worked struct {
	bytes   int64
	time    time.Time
	picture *photo.Picture
}

// show reads the yard once more and makes ready the site, as build would publish it, with
// the units that have stops. Its pages are made when they are looked at: a page of a unit
// that is held back for a stop, and cannot be made, is no error here.
func (c *command) show(d *display, stdout, stderr io.Writer) (*showroom.Site, error) {
	start := time.Now()
	y, err := c.look(&d.desk)
	if err != nil {
		return nil, err
	}
	// Units with stops are shown too, with the photos that can be.
	pictures, err := c.photosAgain(d, y, stderr)
	if err != nil {
		return nil, err
	}
	basis, known := c.basis()
	if !known {
		basis = [32]byte{}
	}
	files, err := render.Theme(theme.Files, c.theme)
	if err != nil {
		return nil, err
	}
	// Beside the site, since somebody waits for both.
	version := make(chan string, 1)
	go func() { version <- versionOf(y, basis, known) }()
	site, err := render.NewOnDemand(files, render.Input{Stock: y.stock, Works: y.works, Figures: y.figures, Findings: y.findings, Basis: basis,
		Pictures: pictures, Cards: &photo.Shop{Keep: c.keepDir()}}, d.last)
	if err != nil {
		return nil, err
	}
	d.last = site
	// The page of findings tells the rest.
	if err := report.Findings(stderr, onlyStops(y.findings)); err != nil {
		return nil, err
	}
	if !c.quiet {
		report.Shown(stdout, report.Tally(program(), len(y.stock.Units), y.findings), time.Since(start))
	}
	return &showroom.Site{Version: <-version, File: site.File, Disk: func(name string) (string, error) {
		from, media, err := site.Disk(name)
		if media {
			from = c.media(from)
		}
		return from, err
	}, Video: d.bare, Units: site.Units(), Findings: y.findings}, nil
}

// versionOf is the same where everything that the site is made from is the same. Where that
// cannot be told no two are.
func versionOf(y *yard, basis [32]byte, known bool) string {
	h := sha256.New()
	read, ok := y.stock.Digest()
	if !ok || !known {
		fmt.Fprintln(h, time.Now().UnixNano())
	}
	fmt.Fprintln(h, basis, read, y.stock.Stamps())
	return hex.EncodeToString(h.Sum(nil)[:8])
}

// photosAgain works the photos that were not worked before, or are others by now.
func (c *command) photosAgain(d *display, y *yard, stderr io.Writer) (map[string]*photo.Picture, error) {
	still := map[string]worked{}
	for _, media := range y.stock.Media {
		for _, m := range media {
			if w, ok := d.photos[m.Name]; ok && w.bytes == m.Bytes && w.time.Equal(m.Time) && time.Since(m.Time) > 2*time.Second {
				still[m.Name] = w
			}
		}
	}
	made, err := c.photos(y, inspect.Held{}, stderr, func(name string) bool { return still[name].picture != nil })
	if err != nil {
		return nil, err
	}
	all := make(map[string]*photo.Picture, len(made)+len(still))
	for name, w := range still {
		all[name] = w.picture
	}
	d.photos = still
	for _, media := range y.stock.Media {
		for _, m := range media {
			if p := made[m.Name]; p != nil {
				all[m.Name] = p
				d.photos[m.Name] = worked{m.Bytes, m.Time, p}
			}
		}
	}
	return all, nil
}
