package main

import (
	"bytes"
	"errors"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
)

// A lot is a small yard. Its builds run as processes with a cache folder of their own, so that
// tests can kill them, fill their disk and take their rights away.
type lot struct {
	t          *testing.T
	dir        string // of the yard, with content/ in it
	cache, bin string
	target     string
}

// newLot makes a yard whose builds write to every place a build can write to: its site has an
// address, so each build draws the cards of shared links and keeps them in the cache. The yard
// has n units, or one, which takes less time, unless TAREPAGE_LONG is set.
func newLot(t *testing.T, n int) *lot {
	t.Helper()
	if os.Getenv("TAREPAGE_LONG") == "" {
		n = 1
	}
	if testing.Short() {
		t.Skip("not with -short: it runs builds as processes")
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	// Another user must be able to pass through the folders.
	base := t.TempDir()
	for _, dir := range []string{filepath.Dir(base), base} {
		if err := os.Chmod(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	l := &lot{t: t, dir: filepath.Join(base, "yard"), cache: filepath.Join(base, "cache"), bin: filepath.Join(base, "build")}
	if runtime.GOOS == "windows" {
		l.bin += ".exe"
	}
	l.target = filepath.Join(l.dir, "public")
	// This test's binary is the command when it is called build (testscript.Main).
	if os.Link(self, l.bin) != nil {
		data, err := os.ReadFile(self)
		if err == nil {
			err = os.WriteFile(l.bin, data, 0o755)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(os.MkdirAll(l.cache, 0o755), testyard.Write(l.dir, n)); err != nil {
		t.Fatal(err)
	}
	swapText(t, l.yard(), "as-of:", "address: https://yard.example/\nas-of:")
	return l
}

func (l *lot) yard() string { return filepath.Join(l.dir, "content", "yard.md") }

// change renames the yard, which changes every page and every card.
func (l *lot) change(i int) {
	l.t.Helper()
	swapText(l.t, l.yard(), line(l.t, l.yard(), "name: "), "name: Proving Ground "+strconv.Itoa(i))
}

// command is a build of the yard into a target, before it is started.
func (l *lot) command(target string) *exec.Cmd {
	return &exec.Cmd{Path: l.bin, Args: []string{"build", "-from", l.dir, "-to", target, "-quiet"}, Dir: l.dir,
		Env: append(os.Environ(), "XDG_CACHE_HOME="+l.cache, "HOME="+l.cache, "TMPDIR="+os.TempDir())}
}

// ran runs a command to its end, and returns its status and its messages.
func (l *lot) ran(cmd *exec.Cmd) (status int, says string) {
	l.t.Helper()
	var out bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &out
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		l.t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), out.String()
}

// builds runs a build that must be clean, and returns its site.
func (l *lot) builds(what, target string) map[string]string {
	l.t.Helper()
	if status, says := l.ran(l.command(target)); status != clean || says != "" {
		l.t.Fatalf("%s: status %d: %.2000s", what, status, says)
	}
	return filesBelow(l.t, target)
}

// first is the site of a first build: without an old site, a note or a cache.
func (l *lot) first() map[string]string {
	l.t.Helper()
	base := l.t.TempDir()
	other := *l
	other.cache = filepath.Join(base, "cache")
	return other.builds("a first build", filepath.Join(base, "public"))
}

// alone fails if a build that ended left anything next to the target except its note and, if the
// cache takes nothing, the pictures that it drew.
func (l *lot) alone(what, target string) {
	l.t.Helper()
	entries, err := os.ReadDir(filepath.Dir(target))
	if err != nil {
		l.t.Fatal(err)
	}
	for _, e := range entries {
		if name := e.Name(); strings.HasPrefix(name, ".") && name != ".public.kept" && name != ".public.lock" && name != ".tarepage" {
			l.t.Errorf("%s: %s is left next to the target", what, name)
		}
	}
}

// stands is the site in the target; empty if there is no target.
func stands(t *testing.T, target string) map[string]string {
	t.Helper()
	if _, err := os.Lstat(target); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return filesBelow(t, target)
}

// TestKilledBuilds kills the command at random moments of a build that changes every page and
// draws every card again: while it reads, computes, makes pages, keeps cards, stages, swaps and
// writes the note. Each time the target is the old site or the new one, byte for byte as a
// first build makes it. The next build is killed too, or it is clean, gives the site of a
// first build, and leaves nothing next to it.
func TestKilledBuilds(t *testing.T) {
	thorough.Only(t)
	// Three hundred take a few minutes; on a busy machine the nightly goes on after four.
	kills, enough := 3, time.Now().Add(4*time.Minute)
	if os.Getenv("TAREPAGE_LONG") != "" {
		kills = 300
	}
	seed := uint64(time.Now().UnixNano())
	if s, err := strconv.ParseUint(os.Getenv("TAREPAGE_SEED"), 10, 64); err == nil {
		seed = s
	}
	random := rand.New(rand.NewPCG(seed, 0))
	l := newLot(t, 3)
	var sites [2]map[string]string // of the yard under its two names
	for i := range sites {
		l.change(i)
		sites[i] = l.first()
	}
	start := time.Now()
	l.builds("before", l.target)
	span, stood := time.Since(start), 1
	killed, before, after, left := 0, 0, 0, 0
	for i := 1; i <= kills; i++ {
		if time.Now().After(enough) {
			kills = i - 1
			break
		}
		// With the other name everything changes, and the cards are drawn again.
		l.change(1 - stood)
		if err := os.RemoveAll(filepath.Join(l.cache, "tarepage", "photos")); err != nil {
			t.Fatal(err)
		}
		cmd := l.command(l.target)
		start := time.Now()
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(random.Int64N(int64(span) * 11 / 10)))
		_ = cmd.Process.Kill()
		if cmd.Wait() != nil {
			killed++
		} else {
			span = (span + time.Since(start)) / 2 // the machine is as fast as it is now
		}
		found := stands(t, l.target)
		if entries, err := os.ReadDir(l.dir); err != nil {
			t.Fatal(err)
		} else if len(entries) > 4 { // content, public, its lock and its note
			left++
		}
		switch {
		case maps.Equal(found, sites[stood]):
			before++
		case maps.Equal(found, sites[1-stood]):
			after++
			stood = 1 - stood
		default:
			t.Errorf("the target is neither the old site nor the new one: %d files", len(found))
			same(t, "against the new one", found, sites[1-stood])
		}
		if i%3 == 0 && !t.Failed() { // else it is for the next build to find what this one left
			l.change(i % 2)
			same(t, "the next build", l.builds("the next build", l.target), sites[i%2])
			l.alone("the next build", l.target)
			stood = i % 2
		}
		if t.Failed() {
			t.Fatalf("kill %d of %d; the moments are drawn by TAREPAGE_SEED=%d", i, kills, seed)
		}
	}
	t.Logf("TAREPAGE_SEED=%d: %d of %d killed in time; %d old sites, %d new ones; %d left something next to the target, which the next build removed",
		seed, killed, kills, before, after, left)
	if kills < 3 || kills > 3 && (killed < kills/2 || left == 0) {
		t.Error("too few kills hit a build at work: this test checked too little")
	}
}

// waits is all that a build says that finds another one at work on its target.
var waits = regexp.MustCompile(`^\S+: another build is writing [^\n]*; waiting for it to finish\n$`)

// TestTwoCommandsOneTarget: two processes build one yard into one target at the same time. One
// waits for the other, and both are clean.
func TestTwoCommandsOneTarget(t *testing.T) {
	thorough.Only(t)
	l := newLot(t, 3)
	l.builds("before", l.target)
	for i := range 2 {
		l.change(i)
		a, b := l.command(l.target), l.command(l.target)
		var says bytes.Buffer
		a.Stderr = &says
		if err := a.Start(); err != nil {
			t.Fatal(err)
		}
		if status, says := l.ran(b); status != clean || says != "" && !waits.MatchString(says) {
			t.Errorf("one of two: status %d: %s", status, says)
		}
		if err := a.Wait(); err != nil {
			t.Errorf("one of two: %v: %s", err, says.String())
		}
		l.alone("after two", l.target)
	}
	same(t, "after two at once", filesBelow(t, l.target), l.first())
}
