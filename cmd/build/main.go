// Command build makes the yard's site out of content/, and checks it.
//
// It holds the flags, the verbs, the messages and the exit status. internal/site does the
// work: it reads, computes, inspects, makes the pages and publishes them.
package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"golang.org/x/term"

	"tarepage/internal/inspect"
	"tarepage/internal/report"
	"tarepage/internal/site"
)

// The exit statuses. The form of the output never changes them.
const (
	clean  = 0 // there is no stop
	stops  = 1 // there are stops
	failed = 2 // it could not run
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run does what the arguments ask and returns the exit status.
func run(args []string, stdout, stderr io.Writer) int {
	cmd, err := parse(args)
	if err != nil {
		complain(stderr, err)
		return failed
	}
	if cmd.verb == "showroom" {
		// It prints while it runs, and runs until it is interrupted.
		if err := cmd.showroom(stdout, stderr); err != nil {
			complain(stderr, err)
			return failed
		}
		return clean
	}
	// The output is written all at once, so that half of it is never seen after an error.
	var out bytes.Buffer
	status, err := cmd.do(&out, stderr)
	if _, werr := report.Harmless(stdout, cmd.json).Write(out.Bytes()); err == nil {
		err = werr
	}
	if err != nil {
		complain(stderr, err)
		return failed
	}
	return status
}

// complain prints an error line by line, without characters that a terminal would obey.
func complain(w io.Writer, err error) {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		fmt.Fprintf(w, "%s: %s\n", name(), report.Visible(line))
	}
}

func (c *command) do(stdout, stderr io.Writer) (int, error) {
	switch c.verb {
	case "help":
		_, err := io.WriteString(stdout, usage())
		return clean, err
	case "version":
		report.Version(stdout)
		return clean, nil
	case "first-yard":
		return clean, c.firstYard(stdout)
	case "editor-help":
		return clean, c.editorHelp(stdout)
	case "rule":
		return clean, c.rule(stdout)
	case "inspect":
		return c.inspect(stdout, stderr)
	case "intake":
		return c.intake(stdout)
	case "sheet":
		return c.sheet(stdout)
	}
	return c.build(stdout, stderr)
}

func (c *command) rule(stdout io.Writer) error {
	if c.name == "" {
		return report.Rules(stdout)
	}
	r, err := inspect.Called(c.name)
	if err != nil {
		return err
	}
	return report.Rule(stdout, r)
}

func (c *command) inspect(stdout, stderr io.Writer) (int, error) {
	start := time.Now()
	y, err := site.Inspect(c.options(nil))
	if err != nil {
		return failed, err
	}
	tally := report.Tally(program(), c.from, len(y.Stock.Units), report.Under(c.from, y.Findings))
	if c.json {
		return status(tally), report.JSON(stdout, y.Stock, y.Works, y.Findings)
	}
	found := report.Under(c.from, y.Findings)
	if c.quiet {
		err = report.Quiet(stderr, found)
	} else {
		err = report.Inspection(stderr, found, c.by)
	}
	if err != nil {
		return failed, err
	}
	if !c.quiet {
		report.Inspected(stdout, tally, time.Since(start))
	}
	return status(tally), nil
}

// options are what the arguments say about the run itself.
func (c *command) options(progress func(done, all int)) site.Options {
	return site.Options{From: c.from, To: c.to, Look: c.look, LeaveOut: c.leaveOut, Fewer: c.fewer, Reread: c.reread, AllFigures: c.json, Today: site.Today(), Progress: progress}
}

// progress shows on a terminal how far the photos are, until done is called.
func (c *command) progress(stderr io.Writer) (told func(done, all int), done func()) {
	f, ok := stderr.(*os.File)
	if !ok || c.quiet || !term.IsTerminal(int(f.Fd())) {
		return nil, func() {}
	}
	bar := &report.Bar{W: stderr, After: time.Second, What: "photos"}
	return bar.Told, bar.Done
}

// news prints what a build found: what refuses something or was not read, and without -quiet
// what else is new.
func (c *command) news(w io.Writer, r *site.Result) error {
	return report.News(w, report.Told{Program: program(), From: c.from, Found: report.Under(c.from, r.Findings), Fresh: report.Under(c.from, r.Fresh),
		Before: r.Before, Published: r.Published, Quiet: c.quiet, Aside: r.Aside()})
}

func status(n report.Numbers) int {
	if n.Stops > 0 {
		return stops
	}
	return clean
}

func (c *command) build(stdout, stderr io.Writer) (int, error) {
	start := time.Now()
	told, done := c.progress(stderr)
	o := c.options(told)
	o.Waiting = func() {
		fmt.Fprintf(stderr, "%s: another build is writing %s; waiting for it to finish\n", name(), report.Visible(c.to))
	}
	r, err := site.Build(o)
	done()
	if r == nil {
		return failed, err
	}
	if c.json {
		err = errors.Join(report.JSON(stdout, r.Yard.Stock, r.Yard.Works, r.Findings), err)
	} else {
		err = errors.Join(c.news(stderr, r), err)
	}
	if err != nil {
		return failed, err
	}
	tally := report.Tally(program(), c.from, r.Units, report.Under(c.from, r.Findings))
	made := report.Site{Pages: r.Pages, To: c.to, Written: r.Files.Written, Unchanged: r.Files.Unchanged,
		Removed: r.Files.Removed, LeftOut: r.LeftOut, NewlyOut: r.NewlyOut, Withheld: r.Withheld, Address: r.Address, Example: r.Example,
		Undated: r.Undated, Unsaid: r.Unsaid, Moves: r.Moves, Before: r.Before}
	switch {
	case c.quiet:
		tally.LeftOut(stderr, made)
	case c.json:
	case r.Published:
		if !c.given["to"] {
			made.Instead = site.OwnTarget(c.from)
		}
		report.Built(stdout, tally, made, time.Since(start))
	default:
		report.Refused(stdout, tally, c.to, time.Since(start))
	}
	return status(tally), nil
}

// contentDir is the folder that is read; the site may not go into it.
func contentDir(from string) string { return filepath.Join(from, "content") }

// name is what the command is called. A test binary is called after what it tests.
func name() string {
	return strings.TrimSuffix(strings.TrimSuffix(filepath.Base(os.Args[0]), ".exe"), ".test")
}

// program is how the command is called again, for hints: by Go from the project's own
// folder, or by the name of the binary.
func program() string {
	if name() == "build" {
		return "go run ./cmd/build"
	}
	return name()
}
