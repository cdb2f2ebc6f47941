package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

type printer = io.Writer

// A trial is one test, or one part of a test that is run by itself.
type trial struct {
	name    string // TestArchives/deck-adds-up
	pattern string // for -test.run
	reaches map[int]bool
	took    time.Duration // of a processor, which others at work do not make longer
	asked   int           // how often it asked whether a change is alive
}

// together is how much work is done in one run before another one is worth its start: the
// cheap trials, which notice most, do not wait for the dear ones.
const together = 250 * time.Millisecond

// trials runs every test by itself and notes what it reaches.
func (p *planted) trials() ([]*trial, error) {
	cmd := exec.Command(p.binary, append([]string{"-test.v", "-test.run=^(Test|Example)"}, p.flags...)...)
	cmd.Dir = p.dir
	text, err := cmd.CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("%s: its tests fail without any change: %w\n%s", p.path, err, tail(text))
	}
	var tops, parts []string
	has := map[string]int{}
	for line := range strings.Lines(string(text)) {
		m := regexp.MustCompile(`^\s*--- PASS: (\S+) \(`).FindStringSubmatch(line)
		if m == nil {
			continue
		}
		top, part, deep := strings.Cut(m[1], "/")
		switch {
		case !deep:
			tops = append(tops, top)
		case !strings.Contains(part, "/"):
			has[top]++
			parts = append(parts, m[1])
		}
	}
	var out []*trial
	for _, name := range tops {
		out = append(out, &trial{name: name, pattern: "^" + name + "$"})
	}
	// A test of many parts is asked part by part: most changes concern one of them.
	for _, name := range parts {
		top, part, _ := strings.Cut(name, "/")
		if has[top] >= 20 {
			out = append(out, &trial{name: name, pattern: "^" + top + "$/^" + regexp.QuoteMeta(part) + "$"})
			out = slices.DeleteFunc(out, func(t *trial) bool { return t.name == top })
		}
	}
	for i, t := range out {
		note := filepath.Join(p.work, fmt.Sprintf("note-%d", i))
		cmd := exec.Command(p.binary, append([]string{"-test.run=" + t.pattern}, p.flags...)...)
		cmd.Dir = p.dir
		cmd.Env = append(os.Environ(), trailers, "MUTATION_NOTE="+note)
		if text, err := cmd.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("%s: %s fails by itself: %w\n%s", p.path, t.name, err, tail(text))
		}
		t.took = cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
		if t.reaches, t.asked, err = readNote(note); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(out, func(a, b *trial) int { return int(a.took - b.took) })
	if len(out) > 0 {
		start := out[0].took // what the process itself takes
		for _, t := range out {
			t.took -= start
		}
	}
	return out, nil
}

// trailers asks the tests with random trailers for fewer of them.
const trailers = "TAREPAGE_TRAILERS=400"

func readNote(name string) (reaches map[int]bool, asked int, err error) {
	reaches = map[int]bool{}
	f, err := os.Open(name)
	if errors.Is(err, os.ErrNotExist) {
		return reaches, 0, nil
	}
	if err != nil {
		return nil, 0, err
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		var n int
		if _, err := fmt.Sscanf(lines.Text(), "asked %d", &n); err == nil {
			asked = n
		} else if _, err := fmt.Sscan(lines.Text(), &n); err == nil {
			reaches[n] = true
		}
	}
	return reaches, asked, lines.Err()
}

// run tries every chosen change and prints those that nobody notices as they come.
func (p *planted) run(chosen []*change, atMost time.Duration, out io.Writer) (*report, error) {
	if err := p.build(); err != nil {
		return nil, err
	}
	began := time.Now()
	all, err := p.trials()
	if err != nil {
		return nil, err
	}
	r := &report{path: p.path}
	for _, c := range chosen {
		if atMost > 0 && time.Since(began) > atMost {
			r.left = len(chosen) - r.tried
			break
		}
		r.tried++
		switch by, reached := p.notice(c, all); {
		case by != "":
			r.noticed++
		case !reached:
			r.unreached++
			fmt.Fprintf(out, "%s: not reached: %s\n", c.place(), c.name)
		default:
			fmt.Fprintf(out, "%s: not noticed: %s\n", c.place(), c.name)
		}
	}
	r.took = time.Since(began)
	return r, nil
}

// notice names the trials among which one notices a change, or "".
func (p *planted) notice(c *change, all []*trial) (by string, reached bool) {
	// A test that has the file's name goes first; then, of all that reach the change, the
	// cheap ones together. The parts of a test cannot be run beside whole tests.
	var named, whole []*trial
	parted := map[string][]*trial{}
	for _, t := range all {
		top, part, isPart := strings.Cut(t.name, "/")
		switch {
		case !t.reaches[c.id]:
		case isPart && part == strings.ReplaceAll(c.stem, "_", "-"):
			named = append(named, t)
		case isPart:
			parted[top] = append(parted[top], t)
		default:
			whole = append(whole, t)
		}
	}
	groups := [][]*trial{named}
	var work time.Duration
	for i, t := range whole {
		if work += t.took; i == 0 || work > together {
			groups, work = append(groups, nil), t.took
		}
		groups[len(groups)-1] = append(groups[len(groups)-1], t)
	}
	for _, top := range slices.Sorted(maps.Keys(parted)) {
		groups = append(groups, parted[top])
	}
	for _, g := range groups {
		if len(g) > 0 {
			reached = true
			if p.fails(c, g) {
				return g[0].name, true
			}
		}
	}
	return "", reached
}

// fails runs some trials with a change alive and reports whether one of them fails.
func (p *planted) fails(c *change, group []*trial) bool {
	var tops, parts []string
	asked, took := 0, time.Duration(0)
	for _, t := range group {
		top, part, parted := strings.Cut(t.pattern, "/")
		if name := strings.Trim(top, "^$"); !slices.Contains(tops, name) {
			tops = append(tops, name)
		}
		if parted {
			parts = append(parts, strings.TrimSuffix(strings.TrimPrefix(part, "^"), "$"))
		}
		asked += t.asked
		took += t.took
	}
	pattern := "^(" + strings.Join(tops, "|") + ")$"
	if len(parts) > 0 {
		pattern += "/^(" + strings.Join(parts, "|") + ")$"
	}
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second+20*took)
	defer cancel()
	cmd := exec.CommandContext(ctx, p.binary, append([]string{"-test.failfast", "-test.run=" + pattern}, p.flags...)...)
	cmd.Dir = p.dir
	cmd.Env = append(os.Environ(), trailers, fmt.Sprint("MUTATION_ALIVE=", c.id), fmt.Sprint("MUTATION_MOST=", 100000+40*asked))
	return cmd.Run() != nil
}

func tail(text []byte) string {
	lines := bytes.Split(bytes.TrimSpace(text), []byte("\n"))
	return string(bytes.Join(lines[max(len(lines)-12, 0):], []byte("\n")))
}
