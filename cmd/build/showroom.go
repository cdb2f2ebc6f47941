package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/publish"
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
	room := &showroom.Room{
		Folders: []string{contentDir(c.from)},
		Trouble: func(err error) { say(func() { complain(stderr, err) }) },
		Make: func() (site *showroom.Site, err error) {
			say(func() {
				if site, err = c.show(stdout, stderr); err != nil {
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

// show makes the site once, as build would publish it, with the units that have stops.
// A unit that is held back for a stop and therefore has no page is no error here.
func (c *command) show(stdout, stderr io.Writer) (*showroom.Site, error) {
	start := time.Now()
	y, err := c.look(new(desk))
	if err != nil {
		return nil, err
	}
	held := inspect.Refused(y.stock, y.findings)
	// Units with stops are shown too, with the photos that can be.
	pictures, err := c.photos(y, inspect.Held{}, stderr)
	if err != nil {
		return nil, err
	}
	held = inspect.Refused(y.stock, y.findings)
	out := &showroom.Site{Files: map[string][]byte{}, Units: map[string]string{}, Media: map[string]string{}, Findings: y.findings}
	// The paths are held against each other as they are in a build.
	site := &publish.Site{}
	unmade := map[string]bool{}
	pages, err := c.pages(render.Input{
		Stock: y.stock, Works: y.works, Findings: y.findings,
		Unmade: func(u *unit.Unit, err error) error {
			if !held.Units[u.File] {
				return err
			}
			unmade[u.File] = true
			return nil
		},
		Media: func(path, name string) error {
			out.Media[path] = c.media(name)
			return site.AddFile(path, out.Media[path])
		},
		Pictures: pictures, Card: c.card,
		File: func(path, from string) error {
			out.Media[path] = from
			return site.AddFile(path, from)
		},
	}, func(path string, page []byte) error {
		if err := site.Add(path, page); err != nil {
			return err
		}
		out.Files[path] = page
		return nil
	})
	if err != nil {
		return nil, err
	}
	for _, u := range y.stock.Units {
		if path := render.PageOf(u); out.Files[path] != nil && !unmade[u.File] && !u.Broken && !u.Withhold.Given() {
			out.Units[path] = u.File
		}
	}
	// The page of findings tells the rest.
	if err := report.Findings(stderr, onlyStops(y.findings)); err != nil {
		return nil, err
	}
	if !c.quiet {
		report.Shown(stdout, report.Tally(program(), len(y.stock.Units), y.findings), pages, time.Since(start))
	}
	return out, nil
}
