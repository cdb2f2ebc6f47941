// Command mutation checks the tests of a package. It makes small changes to the package,
// one at a time, and runs the package's own tests against each: a limit that leaves out
// what it should include, a difference in place of a sum, a statement that is missing. A
// good test suite fails every time. A change that no test notices points at a line that no
// test holds in place.
//
//	go run ./internal/policy/mutation -n 40 ./internal/measure
//
// The changes are a random sample with a fixed seed, so two runs over the same source try
// the same changes. All of them are compiled into one test binary through the -overlay
// flag of go build, and a file says which one is active (runtime.go.txt). That makes it
// one build for a package, one run of each test to learn which changes it reaches, and one
// short run for each change. A change that no test reaches counts as alive.
//
// The maintained tool gremlins (version 0.6.0) was considered. It has no sample and no
// seed, it builds each mutant on its own, and mutants that no test reaches do not lower
// its efficacy.
//
// The command is not part of the product, and nothing imports it. It writes only to a
// temporary folder.
package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"time"
)

type options struct {
	sample int
	seed   uint64
	least  float64
	short  bool
	atMost time.Duration
}

func main() {
	var o options
	flag.IntVar(&o.sample, "n", 100, "how many changes to try in each package")
	flag.Uint64Var(&o.seed, "seed", 1, "the seed of the sample")
	flag.Float64Var(&o.least, "least", 0, "exit with status 1 if the tests notice less than this share, such as 0.8")
	flag.BoolVar(&o.short, "short", false, "run the tests with -short")
	flag.DurationVar(&o.atMost, "at-most", time.Hour, "start no further change of a package after this time")
	flag.Parse()
	if flag.NArg() == 0 {
		fmt.Fprintln(os.Stderr, "mutation: name a package, for example ./internal/measure")
		os.Exit(2)
	}
	status := 0
	for _, path := range flag.Args() {
		got, err := check(path, o, os.Stdout)
		if err != nil {
			fmt.Fprintln(os.Stderr, "mutation:", err)
			os.Exit(2)
		}
		if got.share() < o.least-got.margin(o.least) {
			fmt.Printf("%s: the tests should notice at least %.0f%%\n", path, 100*o.least)
			status = 1
		}
	}
	os.Exit(status)
}

// A result says how many changes of a sample were tried, and how many of them the tests notice.
type result struct{ noticed, tried, sample int }

func (r result) share() float64 { return float64(r.noticed) / float64(r.tried) }

// margin is by how much the share may be below the least one. There is none for a whole sample.
// A part of it, which is all that there was time for, is off by chance: by one standard
// deviation of the share of so few changes.
func (r result) margin(least float64) float64 {
	if r.tried == r.sample {
		return 0
	}
	return math.Sqrt(least * (1 - least) / float64(r.tried))
}

// check tries a sample of the changes to one package, prints those that no test notices,
// and returns how many the tests notice.
func check(path string, o options, out io.Writer) (r result, err error) {
	start := time.Now()
	work, err := os.MkdirTemp("", "mutation-")
	if err != nil {
		return r, err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(work)) }()

	p, err := load(path)
	if err != nil {
		return r, err
	}
	t, err := build(p, o, work)
	if err != nil {
		return r, err
	}
	tests, err := t.learn()
	if err != nil {
		return r, err
	}
	began := time.Now()
	tried, unreached := 0, 0
	alive := map[*change]string{}
	for _, c := range t.changes { // in the order drawn: what there is time for is a sample too
		if time.Since(began) > o.atMost {
			break
		}
		tried++
		switch reached, failed := t.try(c, tests); {
		case !reached:
			unreached++
			alive[c] = "reaches"
		case !failed:
			alive[c] = "notices"
		}
	}
	slices.SortFunc(t.changes, func(a, b *change) int { return cmp.Compare(a.from, b.from) })
	for _, c := range t.changes {
		if verb := alive[c]; verb != "" {
			fmt.Fprintf(out, "%s: no test %s: %s\n", c.place, verb, c.what)
		}
	}
	if tried == 0 {
		return r, fmt.Errorf("%s: no change to try", path)
	}
	r = result{noticed: tried - len(alive), tried: tried, sample: len(t.changes)}
	fmt.Fprintf(out, "%s: the tests notice %d of %d changes, %.0f%% (%d not reached, %d possible changes, %d not tried for lack of time, %s to prepare, %s to try)\n",
		p.PkgPath, r.noticed, tried, 100*r.share(), unreached, t.possible, r.sample-tried,
		began.Sub(start).Round(time.Second), time.Since(began).Round(time.Second))
	return r, nil
}
