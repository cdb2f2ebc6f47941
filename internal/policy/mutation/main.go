// Command mutation is the house's check of its tests: it changes one small thing in a
// package at a time (a limit that excludes what it should include, a sum taken for a
// difference, a statement left out) and runs the package's own tests. Each change ought
// to be noticed. What nobody notices is a line that no test holds.
//
//	go run ./internal/policy/mutation [flags] PACKAGE...
//
// All changes of a package stand side by side in one copy of it (operators.go), of which
// one test binary is built through go build's -overlay; an environment variable picks the
// change that is alive. So there is one build for a package, one run of each test that
// notes which changes it reaches, and then one run for a change, of the tests that reach
// it and no others, until the first fails.
//
// A change is noticed if a test fails, panics, goes on far longer than it should, or does
// not end. Changes that cannot be noticed, because the changed program does the same, are
// listed with the reason in equivalent.txt and do not count.
//
// It is no part of the product: nothing imports it, the command does not hold it, and it
// may not write anything but its own working files in a folder of the system's for those.
package main

import (
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

func main() {
	var o options
	flag.IntVar(&o.sample, "sample", 0, "check so many changes of each package, drawn by -seed; 0 for all")
	flag.Uint64Var(&o.seed, "seed", 1, "the seed of the sample")
	flag.Float64Var(&o.least, "least", 0, "exit with status 1 where a package has less than this share noticed: 0.9")
	flag.DurationVar(&o.atMost, "at-most", 0, "begin no change after so long; what was not begun does not count")
	flag.StringVar(&o.only, "only", "", "check the changes whose name contains one of these, with commas between")
	flag.StringVar(&o.again, "again", "", "check what an earlier report, in this file, says was not noticed")
	flag.BoolVar(&o.list, "list", false, "name the changes and run nothing")
	flag.Parse()
	if flag.NArg() == 0 {
		fmt.Fprintln(os.Stderr, "mutation: name a package: ./internal/compute")
		os.Exit(2)
	}
	low, err := check(o, flag.Args(), os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutation:", err)
		os.Exit(2)
	}
	if low {
		os.Exit(1)
	}
}

type options struct {
	sample int
	seed   uint64
	least  float64
	atMost time.Duration
	only   string
	again  string
	list   bool
	// equivalent is the text of equivalent.txt; nil for the file's own.
	equivalent *string
}

// check plants, runs and reports each package in turn, and says whether one has too
// small a share noticed.
func check(o options, patterns []string, out printer) (low bool, err error) {
	dir, err := os.MkdirTemp("", "mutation-")
	if err != nil {
		return false, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	text := equivalentText
	if o.equivalent != nil {
		text = *o.equivalent
	}
	same, err := readEquivalent(text)
	if err != nil {
		return false, err
	}
	var again map[string]bool
	if o.again != "" {
		report, err := os.ReadFile(o.again)
		if err != nil {
			return false, err
		}
		again = unnoticed(string(report))
	}
	for i, pattern := range patterns {
		p, err := plant(pattern, filepath.Join(dir, fmt.Sprint(i)))
		if err != nil {
			return false, err
		}
		chosen := choose(o, p, same, again)
		if o.list {
			for _, c := range chosen {
				fmt.Fprintf(out, "%s: %s\n", c.place(), c.name)
			}
			continue
		}
		r, err := p.run(chosen, o.atMost, out)
		if err != nil {
			return false, err
		}
		if o.sample == 0 && o.only == "" && again == nil {
			r.stale = same.stale(p)
		}
		r.print(out, len(p.changes), len(p.changes)-len(chosen), o)
		low = low || r.share() < o.least
	}
	return low, nil
}

// choose draws the changes to check. Those listed as equivalent are left out, except
// where they are asked for by name.
func choose(o options, p *planted, same equivalents, again map[string]bool) []*change {
	var out []*change
	for _, c := range p.changes {
		switch {
		case o.only != "" && !slices.ContainsFunc(strings.Split(o.only, ","), func(part string) bool { return strings.Contains(c.name, part) }), again != nil && !again[c.name]:
		case same[c.name] != "" && o.only == "" && again == nil:
		default:
			out = append(out, c)
		}
	}
	if o.sample == 0 || o.sample >= len(out) {
		return out
	}
	r := rand.New(rand.NewPCG(o.seed, o.seed))
	r.Shuffle(len(out), func(i, k int) { out[i], out[k] = out[k], out[i] })
	out = out[:o.sample]
	slices.SortFunc(out, func(a, b *change) int { return a.id - b.id })
	return out
}
