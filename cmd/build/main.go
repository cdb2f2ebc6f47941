// Command build makes the yard's site out of content/, and checks it.
//
// It holds the flags, the verbs and the exit status; nothing else. What it calls, in
// this order and never back: internal/unit reads, internal/compute works, internal/
// inspect judges, internal/render makes pages, internal/publish swaps them in or
// internal/showroom shows them.
package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/photo"
	"tarepage/internal/publish"
	"tarepage/internal/render"
	"tarepage/internal/report"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// The exit statuses. The form of the output never changes them.
const (
	clean  = 0 // nothing refuses to be published
	stops  = 1 // stops were found
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
	// Output is gathered and written at once: nothing half-written when something fails.
	var out bytes.Buffer
	status, err := cmd.do(&out, stderr)
	if _, werr := stdout.Write(out.Bytes()); err == nil {
		err = werr
	}
	if err != nil {
		complain(stderr, err)
		return failed
	}
	return status
}

// complain prints an error, each of its lines as it may be shown.
func complain(w io.Writer, err error) {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		fmt.Fprintf(w, "%s: %s\n", name(), report.Visible(line))
	}
}

func (c *command) do(stdout, stderr io.Writer) (int, error) {
	switch c.verb {
	case "help":
		_, err := io.WriteString(stdout, name()+usage)
		return clean, err
	case "version":
		version(stdout)
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
	}
	return c.build(stdout, stderr)
}

func (c *command) rule(stdout io.Writer) error {
	if c.name == "" {
		return report.Rules(stdout)
	}
	r := inspect.Lookup(c.name)
	if r == nil {
		near := "; rule without a name lists them all"
		if n := unit.Nearest(c.name, inspect.Names()); n != "" {
			near = fmt.Sprintf("; did you mean %q?", n)
		}
		return fmt.Errorf("there is no rule %q%s", c.name, near)
	}
	return report.Rule(stdout, r)
}

func (c *command) inspect(stdout, stderr io.Writer) (int, error) {
	start := time.Now()
	y, err := c.look(&desk{whole: c.json})
	if err != nil {
		return failed, err
	}
	n := inspect.Count(y.findings, inspect.Stop)
	if c.json {
		if err := report.JSON(stdout, y.stock, y.works, y.findings); err != nil {
			return failed, err
		}
		return status(n), nil
	}
	if err := c.print(stderr, y.findings); err != nil {
		return failed, err
	}
	if !c.quiet {
		report.Inspected(stdout, report.Tally(program(), len(y.stock.Units), y.findings), time.Since(start))
	}
	return status(n), nil
}

// print shows the findings; with -quiet only those that refuse something.
func (c *command) print(w io.Writer, list []inspect.Finding) error {
	if c.quiet {
		list = onlyStops(list)
	}
	return report.Findings(w, list)
}

func onlyStops(list []inspect.Finding) []inspect.Finding {
	var out []inspect.Finding
	for _, f := range list {
		if f.Severity == inspect.Stop {
			out = append(out, f)
		}
	}
	return out
}

func status(n int) int {
	if n > 0 {
		return stops
	}
	return clean
}

func (c *command) build(stdout, stderr io.Writer) (int, error) {
	start := time.Now()
	basis, known := c.basis()
	var last *kept
	if known {
		last = c.recall(basis)
		if done, err := c.asBefore(last, stdout, stderr, start); err != nil {
			return failed, err
		} else if done {
			return last.Status, nil
		}
	}
	// A target that no site may take is refused before the work; where nothing changed, asBefore
	// has looked at it already.
	if err := publish.Check(c.to, contentDir(c.from)); err != nil {
		return failed, err
	}
	y, err := c.look(&desk{whole: c.json})
	if err != nil {
		return failed, err
	}
	// What is refused already is not worked first.
	held := inspect.Refused(y.stock, y.findings)
	var pictures map[string]*photo.Picture
	if inspect.Count(y.findings, inspect.Stop) == 0 || c.leaveOut && !held.Yard {
		if pictures, err = c.photos(y, held, stderr, func(string) bool { return false }); err != nil {
			return failed, err
		}
		held = inspect.Refused(y.stock, y.findings)
	}
	n := inspect.Count(y.findings, inspect.Stop)
	if c.json {
		err = report.JSON(stdout, y.stock, y.works, y.findings)
	} else {
		err = c.print(stderr, y.findings)
	}
	if err != nil {
		return failed, err
	}
	tally := report.Tally(program(), len(y.stock.Units), y.findings)
	say := func(f func(io.Writer)) {
		if !c.quiet && !c.json {
			f(stdout)
		}
	}
	if n > 0 && (!c.leaveOut || held.Yard) {
		say(func(w io.Writer) { report.Refused(w, tally, c.to, time.Since(start)) })
		return stops, nil
	}
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(roomFor(len(y.stock.Units))))
	site, err := publish.Begin(c.to, contentDir(c.from))
	if err != nil {
		return failed, err
	}
	var mu sync.Mutex
	of := map[string][32]byte{} // what each unit's pages are made from
	in := render.Input{Stock: y.stock, Works: y.works, Figures: y.figures, Findings: y.findings, LeaveOut: held.Units, Basis: basis,
		Pictures: pictures, Cards: &photo.Shop{Keep: c.keepDir()}}
	made, err := c.pages(in, target{site, func(path string, from [32]byte) (bool, error) {
		mu.Lock()
		of[path] = from
		mu.Unlock()
		sum, ok := last.page(path, from)
		if !ok {
			return false, nil
		}
		return site.Keep(path, sum)
	}})
	for _, f := range made.Files {
		if failed := site.AddFile(f.Path, f.From); failed != nil && err == nil {
			err = fmt.Errorf("%s: %w", f.At, failed)
		}
	}
	for _, f := range made.Media {
		if failed := c.video(site, f.Path, f.From); failed != nil && err == nil {
			err = fmt.Errorf("%s: %w", f.At, failed)
		}
	}
	if err != nil {
		return failed, errors.Join(err, site.Abandon())
	}
	pages, unheard := made.Pages, c.unheard(&in)
	moved, err := site.Finish()
	if err != nil {
		return failed, err
	}
	if known {
		// The site is in its place: that the next build has to do it all again is no failure.
		_ = c.remember(y, basis, start, pages, held, unheard.undated, site, of)
	}
	say(func(w io.Writer) {
		report.Built(w, tally, report.Site{Pages: pages, To: c.to, Written: moved.Written, Unchanged: moved.Unchanged,
			Removed: moved.Removed, LeftOut: held.Names, Address: y.stock.Yard.Site(), Undated: unheard.undated, Unsaid: unheard.unsaid}, time.Since(start))
	})
	return status(n), nil
}

// roomFor is how much memory the pages of so many units may take before garbage is collected
// sooner than usual. What is live of a unit while pages are made is 27 KB: a yard of five
// thousand never comes near, and one of ten thousand pays a few hundredths of its time for it.
func roomFor(units int) int64 { return max(480<<20, int64(units)*48<<10) }

// published reads a file of the site as it stands before this build, nil if there is none.
func (c *command) published(path string) []byte {
	name := filepath.Join(c.to, filepath.FromSlash(path))
	if info, err := os.Lstat(name); err != nil || !info.Mode().IsRegular() {
		return nil // a first build
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil
	}
	return data
}

// media is where a file stands that a unit names below content/.
func (c *command) media(name string) string {
	return filepath.Join(contentDir(c.from), filepath.FromSlash(name))
}

// pages makes the pages with the theme that was asked for, and hands them to add.
func (c *command) pages(in render.Input, to render.Target) (render.Made, error) {
	files, err := render.Theme(theme.Files, c.theme)
	if err != nil {
		return render.Made{}, err
	}
	return render.Site(files, in, to)
}

// target is where the pages go: the staging, which knows which pages were made before.
type target struct {
	*publish.Staging
	keep func(path string, from [32]byte) (bool, error)
}

func (t target) Keep(path string, from [32]byte) (bool, error) { return t.keep(path, from) }
func (t target) Spool(path string) (render.Spool, error)       { return t.Staging.Spool(path) }

// unheard are the units of which the feeds do not tell what there is to tell.
type unheard struct{ undated, unsaid []string }

func (c *command) unheard(in *render.Input) (out unheard) {
	if in.Stock.Yard.Site() == "" {
		return out // no feeds
	}
	var units []*unit.Unit
	for i, u := range in.Stock.Units {
		if !in.Published(i) {
			continue
		}
		units = append(units, u)
		// What is on order is told of when it comes.
		if !u.Changed().Known() && u.Availability.Value != "on order" {
			out.undated = append(out.undated, u.Stock.Value)
		}
	}
	out.unsaid = stockfile.Unsaid(c.published(stockfile.JSONPath), units)
	return out
}
