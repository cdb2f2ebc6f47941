package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
)

// same fails if two sites differ.
func same(t *testing.T, what string, got, want map[string]string) {
	t.Helper()
	for _, name := range slices.Sorted(maps.Keys(want)) {
		if got[name] != want[name] {
			t.Errorf("%s: %s differs", what, name)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%s: %d files, want %d", what, len(got), len(want))
	}
}

// TestSameBytesEverywhere builds the demo twice, then in another time zone, language and folder,
// on one core, and with its files written in another order.
func TestSameBytesEverywhere(t *testing.T) {
	thorough.Only(t)
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	// Pictures are made once for all tests; with TAREPAGE_LONG once more in another way.
	var cache []string
	make := func(dir string, env ...string) map[string]string {
		t.Helper()
		// This test's binary is the command when it has that name (testscript.Main).
		cmd := &exec.Cmd{Path: self, Args: []string{"build", "-quiet"}, Dir: dir, Env: append(append(os.Environ(), cache...), env...)}
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		return filesBelow(t, filepath.Join(dir, "public"))
	}
	demo := func(reverse bool, below ...string) string {
		t.Helper()
		dir := filepath.Join(append([]string{t.TempDir()}, below...)...)
		var names []string
		root := os.DirFS("../../content")
		err := fs.WalkDir(root, ".", func(name string, e fs.DirEntry, err error) error {
			if err == nil && !e.IsDir() {
				names = append(names, name)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		if reverse {
			slices.Reverse(names)
		}
		for _, name := range names {
			data, err := fs.ReadFile(root, name)
			if err != nil {
				t.Fatal(err)
			}
			write(t, dir, map[string]string{"content/" + name: string(data)})
		}
		return dir
	}
	first := demo(false)
	want := make(first)
	if err := errors.Join(os.RemoveAll(filepath.Join(first, "public")), os.Remove(filepath.Join(first, ".public.kept"))); err != nil {
		t.Fatal(err)
	}
	same(t, "a second time", make(first), want)
	same(t, "elsewhere", make(demo(true, "a folder", "Hof Köln"), "TZ=Asia/Kathmandu", "LANG=tr_TR.UTF-8", "LC_ALL=tr_TR.UTF-8", "GOMAXPROCS=1", "GOGC=20"), want)
	if os.Getenv("TAREPAGE_LONG") == "" {
		return
	}
	cache = []string{"XDG_CACHE_HOME=" + t.TempDir()}
	same(t, "with photos worked anew", make(demo(false), "TZ=America/St_Johns", "LANG=C", "GOMAXPROCS=7"), want)
}

// TestFilesComeAndGo builds while somebody else deletes unit files, puts them back and truncates
// them. Whatever a build says, the site is whole, and the last one is that of a first build.
func TestFilesComeAndGo(t *testing.T) {
	dir := t.TempDir()
	const n = 8
	if err := testyard.Write(dir, n); err != nil {
		t.Fatal(err)
	}
	target := filepath.Join(dir, "public")
	built(t, clean, "-from", dir, "-to", target)
	unit := func(i int) string { return filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(i))) }
	stop := make(chan bool)
	var wg sync.WaitGroup
	wg.Go(func() {
		random := rand.New(rand.NewPCG(7, 7))
		for {
			select {
			case <-stop:
				return
			default:
			}
			i := random.IntN(n)
			switch text := testyard.Unit(i); random.IntN(3) {
			case 0:
				_ = os.Remove(unit(i))
			case 1:
				_ = os.WriteFile(unit(i), text[:random.IntN(len(text))], 0o644)
			default:
				_ = os.WriteFile(unit(i), text, 0o644)
			}
		}
	})
	rounds := 3
	if os.Getenv("TAREPAGE_LONG") != "" {
		rounds = 40
	}
	for i := range rounds {
		var out, errs bytes.Buffer
		status := run([]string{"-from", dir, "-to", target, "-leave-out"}, &out, &errs)
		// A build that would take many units off the site says so and leaves the site as it was.
		refused := strings.Contains(errs.String(), "would be gone") || strings.Contains(errs.String(), "has no unit file")
		if status != clean && status != stops && !refused {
			t.Errorf("build %d: status %d: %.500s", i, status, errs.String())
		}
		checkWhole(t, target)
	}
	close(stop)
	wg.Wait()
	for i := range n {
		if err := os.WriteFile(unit(i), testyard.Unit(i), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	built(t, clean, "-from", dir, "-to", target)
	fresh := filepath.Join(t.TempDir(), "public")
	built(t, clean, "-from", dir, "-to", fresh)
	same(t, "after it", filesBelow(t, target), filesBelow(t, fresh))
}

// TestTwoYardsOneTarget builds two yards with the same names and numbers into one target at the
// same time. The target is always the whole site of one of them, and neither build trusts what
// the other left.
func TestTwoYardsOneTarget(t *testing.T) {
	thorough.Only(t)
	dirs, want := [2]string{t.TempDir(), t.TempDir()}, [2]map[string]string{}
	for i, dir := range dirs {
		if err := testyard.Write(dir, 3); err != nil {
			t.Fatal(err)
		}
		if i == 1 {
			swapText(t, filepath.Join(dir, "content/yard.md"), "555-0177", "555-0178")
			swapText(t, filepath.Join(dir, "content/models/stave-20.md"), "make: Stave & Hoop", "make: Hoop & Stave")
		}
		fresh := filepath.Join(t.TempDir(), "public")
		built(t, clean, "-from", dir, "-to", fresh)
		want[i] = filesBelow(t, fresh)
	}
	target := filepath.Join(t.TempDir(), "public")
	for range 3 {
		var wg sync.WaitGroup
		for _, dir := range dirs {
			wg.Go(func() {
				var errs bytes.Buffer
				if got := run([]string{"-from", dir, "-to", target, "-quiet"}, io.Discard, &errs); got != clean {
					t.Errorf("status %d: %s", got, errs.String())
				}
			})
		}
		wg.Wait()
		if got := filesBelow(t, target); !maps.Equal(got, want[0]) && !maps.Equal(got, want[1]) {
			t.Fatal("the target is neither site")
		}
	}
	for _, i := range []int{0, 1, 1, 0} {
		built(t, clean, "-from", dirs[i], "-to", target)
		same(t, "one after the other", filesBelow(t, target), want[i])
	}
}

// TestLookIsNotKept: a look of the owner's changes, goes and comes back while everything else
// stays as it was.
func TestLookIsNotKept(t *testing.T) {
	thorough.Only(t)
	dir, theme := t.TempDir(), t.TempDir()
	if err := testyard.Write(dir, 2); err != nil {
		t.Fatal(err)
	}
	target := filepath.Join(dir, "public")
	gone, err := os.ReadFile("../../themes/default/workings.html")
	if err != nil {
		t.Fatal(err)
	}
	for i, text := range []string{"", "Every figure, one", "Every figure, two", "", "Every figure, one"} {
		args := []string{"-from", dir, "-look", theme}
		if text == "" {
			args = args[:2]
		} else if err := os.WriteFile(filepath.Join(theme, "workings.html"), bytes.Replace(gone, []byte("Every figure, with its working"), []byte(text), 1), 0o644); err != nil {
			t.Fatal(err)
		}
		fresh := filepath.Join(t.TempDir(), "public")
		built(t, clean, append(args, "-to", fresh)...)
		for range 2 {
			built(t, clean, append(args, "-to", target)...)
			same(t, text, filesBelow(t, target), filesBelow(t, fresh))
		}
		if i > 0 && t.Failed() {
			t.FailNow()
		}
	}
}

// TestPhotoOfOneSizeAndTime: a photo is replaced by another of the same size and time, as a copy
// that keeps times does. If the system tells no more about a file than its size and its time,
// nobody can see this, and the test does not ask for it.
func TestPhotoOfOneSizeAndTime(t *testing.T) {
	t.Parallel() // most of it waits
	dir := t.TempDir()
	if err := testyard.Write(dir, 1); err != nil {
		t.Fatal(err)
	}
	old, err := os.ReadFile("../../content/media/sb-1043-side.jpg")
	if err != nil {
		t.Fatal(err)
	}
	write(t, dir, map[string]string{"content/media/side.jpg": string(old)})
	swapText(t, filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(0))), "\n---\n\n", "\nphotos:\n  - file: media/side.jpg\n    alt: from the side\n---\n\n")
	target := filepath.Join(dir, "public")
	args := []string{"-from", dir, "-to", target}
	photo := filepath.Join(dir, "content/media/side.jpg")
	// Change bytes of the last scan line's entropy-coded data: the same size, other pixels.
	other := bytes.Clone(old)
	at := len(other) * 3 / 4
	for other[at] == 0xff || other[at-1] == 0xff || other[at] > 0xf0 {
		at++
	}
	other[at] ^= 0x08
	long := time.Now().Add(-time.Hour)
	if err := os.Chtimes(photo, long, long); err != nil {
		t.Fatal(err)
	}
	built(t, clean, args...)
	time.Sleep(2100 * time.Millisecond) // until a build trusts the stamps of what was just copied
	if err := os.Remove(filepath.Join(dir, ".public.kept")); err != nil {
		t.Fatal(err)
	}
	built(t, clean, args...)
	before := filesBelow(t, target)
	if err := errors.Join(os.WriteFile(photo, other, 0o644), os.Chtimes(photo, long, long)); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	got := run(args, &out, &errs)
	fresh := filepath.Join(t.TempDir(), "public")
	if want := run([]string{"-from", dir, "-to", fresh}, io.Discard, io.Discard); got != want {
		t.Errorf("status %d, a first build ends with %d: %s", got, want, errs.String())
	}
	if got != clean {
		return // the other photo does not read, and both say so
	}
	after := filesBelow(t, target)
	same(t, "another photo", after, filesBelow(t, fresh))
	if maps.Equal(before, after) {
		t.Skip("NOT CHECKED: the other photo looks like the first, or this system does not tell the difference")
	}
}
