package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"tarepage/internal/compute"
	"tarepage/internal/files"
	"tarepage/internal/inspect"
	"tarepage/internal/report"
	"tarepage/internal/showroom"
	"tarepage/internal/site"
	"tarepage/internal/unit"
	"tarepage/internal/walkpage"
)

// showroom shows the site until it is interrupted. What stops a unit, or the whole
// build, is shown and printed, and it goes on.
func (c *command) showroom(stdout, stderr io.Writer) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	// A mistyped argument is reported before anything opens. What is wrong in the files can be
	// fixed while it is open.
	if err := site.CheckFolder(c.from); err != nil {
		return err
	}
	if err := site.CheckLook(c.look); err != nil {
		return err
	}
	l, err := showroom.Listen(c.at)
	if err != nil {
		return err
	}
	// Making and watching print at the same time.
	var mu sync.Mutex
	say := func(f func()) { mu.Lock(); defer mu.Unlock(); f() }
	// Printed with -quiet too: nobody should have to guess who may look.
	key := showroom.NewKey()
	here, others := showroom.Addresses(l)
	for i, a := range others {
		others[i] = showroom.PhoneLink(a, key)
	}
	report.Opened(stdout, here, others)
	if c.phone && len(others) == 0 {
		complain(stderr, errors.New("this computer has no address in a network; join the one that the phone is in, then open the showroom again"))
	}
	walk := &walkpage.Desk{
		From:   c.from,
		Today:  func() string { return time.Now().Format(time.DateOnly) },
		Stock:  func() (*unit.Stock, error) { stock, _, err := unit.Read(files.Below(c.from)); return stock, err },
		LookAt: c.lookAt,
	}
	kept := site.Remembering()
	room := &showroom.Room{
		Key:     key,
		Walk:    walk.Handler(showroom.WalkPath),
		Folders: []string{contentDir(c.from)},
		Trouble: func(err error) { say(func() { complain(stderr, err) }) },
		Make: func() (made *showroom.Site, err error) {
			say(func() {
				if made, err = c.show(kept, report.Harmless(stdout, false), stderr); err != nil {
					complain(stderr, err)
				}
			})
			return made, err
		},
	}
	if c.look != "" {
		room.Folders = append(room.Folders, c.look)
	}
	return room.Serve(ctx, l)
}

// lookAt is a unit as a build would see it if its file had these bytes.
func (c *command) lookAt(name string, src []byte) (*unit.Unit, *compute.Work, []inspect.Finding, error) {
	one, err := site.LookAt(c.from, name, src)
	if err != nil {
		return nil, nil, nil, err
	}
	return one.Unit, one.Work, report.Under(c.from, one.Findings), nil
}

// show makes the site once more, and prints what stops units. The page of findings has the
// rest.
func (c *command) show(kept *site.Store, stdout, stderr io.Writer) (*showroom.Site, error) {
	start := time.Now()
	told, done := c.progress(stderr)
	s, err := site.Show(c.options(told), kept)
	done()
	if err != nil {
		return nil, err
	}
	if err := report.Stops(stderr, report.Under(c.from, s.Findings)); err != nil {
		return nil, err
	}
	if !c.quiet {
		report.Shown(stdout, report.Tally(program(), c.from, s.UnitCount, s.Findings), time.Since(start))
	}
	return &showroom.Site{Version: s.Version, File: s.File, Disk: s.Disk, Video: s.Video, Units: s.Units, Findings: s.Findings}, nil
}

// openToPhones makes the address one that a phone can reach: that of -at, or the usual port.
func (c *command) openToPhones() error {
	if !c.given["at"] {
		c.at = showroom.UsualPort
		return nil
	}
	host, port, err := net.SplitHostPort(c.at)
	if ip := net.ParseIP(host); err == nil && (host == "localhost" || ip != nil && ip.IsLoopback()) {
		return fmt.Errorf("-at %s is this computer only, and no phone reaches it; with -phone write -at :%s", c.at, port)
	}
	return nil // Listen says what else is wrong with it
}
