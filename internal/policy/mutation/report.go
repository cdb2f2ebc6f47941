package main

import (
	_ "embed"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"time"
)

//go:embed equivalent.txt
var equivalentText string

// A report is what came of one package.
type report struct {
	path                            string
	tried, noticed, unreached, left int
	took                            time.Duration
	stale                           []string
}

// share is how much of what was tried was noticed.
func (r *report) share() float64 {
	if r.tried == 0 {
		if r.left > 0 {
			return 0 // nothing was begun in time: nothing is known
		}
		return 1
	}
	return float64(r.noticed) / float64(r.tried)
}

func (r *report) print(out io.Writer, all, leftOut int, o options) {
	for _, name := range r.stale {
		fmt.Fprintf(out, "equivalent.txt names a change that is not there: %s\n", name)
	}
	fmt.Fprintf(out, "%s: %d of %d changes noticed, %.1f%%", r.path, r.noticed, r.tried, 100*r.share())
	fmt.Fprintf(out, " (%d not reached; %d changes in all, %d of them left out", r.unreached, all, leftOut)
	if o.sample > 0 {
		fmt.Fprintf(out, "; a sample, seed %d", o.seed)
	}
	if r.left > 0 {
		fmt.Fprintf(out, "; %d not begun in time", r.left)
	}
	fmt.Fprintf(out, "; %s)\n", r.took.Round(time.Second))
}

// unnoticed reads the changes that an earlier report says nobody noticed.
func unnoticed(report string) map[string]bool {
	out := map[string]bool{}
	for line := range strings.Lines(report) {
		for _, how := range []string{": not noticed: ", ": not reached: "} {
			if _, name, ok := strings.Cut(line, how); ok {
				out[strings.TrimSpace(name)] = true
			}
		}
	}
	return out
}

// equivalents are the changes after which the program does the same, with the reason.
type equivalents map[string]string

// readEquivalent reads the list: a change's name on a line, the reason indented below it.
// A reason holds for all the names above it since the last one.
func readEquivalent(text string) (equivalents, error) {
	out := equivalents{}
	var names []string
	reasoned := false
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\r\n ")
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, " ") || strings.HasPrefix(line, "\t"):
			if len(names) == 0 {
				return nil, fmt.Errorf("equivalent.txt: a reason without a change: %q", line)
			}
			reasoned = true
			for _, n := range names {
				out[n] = strings.TrimSpace(out[n] + " " + strings.TrimSpace(line))
			}
		default:
			if reasoned {
				names, reasoned = nil, false
			}
			if _, twice := out[line]; twice {
				return nil, fmt.Errorf("equivalent.txt: %q stands twice", line)
			}
			out[line] = ""
			names = append(names, line)
		}
	}
	for _, n := range slices.Sorted(maps.Keys(out)) {
		if out[n] == "" {
			return nil, fmt.Errorf("equivalent.txt: %q has no reason", n)
		}
	}
	return out, nil
}

// stale names what is listed of a package and not there any more.
func (e equivalents) stale(p *planted) []string {
	there := p.names()
	var out []string
	for _, n := range slices.Sorted(maps.Keys(e)) {
		pkg, _, _ := strings.Cut(n, "/")
		if strings.HasSuffix(p.path, "/"+pkg) && !there[n] {
			out = append(out, n)
		}
	}
	return out
}
