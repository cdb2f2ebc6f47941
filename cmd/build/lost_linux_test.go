package main

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"

	"tarepage/internal/testdisk"
	"tarepage/internal/thorough"
)

// TestFilesNoLongerThan: a limit on the length of files (setrlimit(2), RLIMIT_FSIZE, as POSIX's
// ulimit -f sets it) makes writing fail in the middle of the first file that is longer, as on
// a full disk. Anybody may run it.
func TestFilesNoLongerThan(t *testing.T) {
	thorough.Only(t)
	l := newLot(t, 3)
	old := l.builds("before", l.target)
	l.change(1)
	failures, want := 0, l.first()
	for _, blocks := range []int{0, 1, 24, 60, 1 << 20} { // of 512 bytes, or of 1024 where the shell counts so
		full := l.command(l.target)
		limited := &exec.Cmd{Path: "/bin/sh", Dir: full.Dir, Env: full.Env,
			Args: append([]string{"sh", "-c", fmt.Sprintf(`ulimit -f %d && exec "$0" "$@"`, blocks), l.bin}, full.Args[1:]...)}
		status, says := l.ran(limited)
		got := filesBelow(t, l.target)
		switch status {
		case failed:
			failures++
			same(t, fmt.Sprintf("files of %d blocks: the old site", blocks), got, old)
			if !strings.Contains(says, "is as it was, because the new site could not be written") || !strings.Contains(says, "file too large") {
				t.Errorf("files of %d blocks: it says %q", blocks, says)
			}
		case clean:
			same(t, fmt.Sprintf("files of %d blocks: the new site", blocks), got, want)
		default:
			t.Errorf("files of %d blocks: status %d: %s", blocks, status, says)
		}
		l.alone("after it", l.target)
	}
	if failures < 2 {
		t.Errorf("%d builds failed for the length of a file, want 2 or more", failures)
	}
	same(t, "the next build", l.builds("the next build", l.target), want)
}

// TestFullDisk: the command builds onto disks with more and less room, down to none. The target
// is the old site or the new one, whole, and a build with enough room gives the site of a first
// build. Then it builds onto a disk with room, with its cache on a full one.
func TestFullDisk(t *testing.T) {
	thorough.Only(t)
	l := newLot(t, 3)
	disk := filepath.Join(filepath.Dir(l.dir), "disk")
	if err := os.Mkdir(disk, 0o755); err != nil {
		t.Fatal(err)
	}
	l.change(1)
	want := l.first()
	testdisk.Small(t, disk, "4m", func() {
		target, ballast := filepath.Join(disk, "public"), filepath.Join(disk, "ballast")
		fill := func(room int64) {
			var s unix.Statfs_t
			err := errors.Join(os.RemoveAll(ballast), unix.Statfs(disk, &s))
			if err == nil {
				err = os.WriteFile(ballast, make([]byte, max(0, int64(s.Bavail)*s.Bsize-room)), 0o644)
			}
			if err != nil {
				t.Error(err)
			}
		}
		l.change(0)
		if status, says := l.ran(l.command(target)); status != clean {
			t.Errorf("before: status %d: %s", status, says)
			return
		}
		old := filesBelow(t, target)
		l.change(1)
		full, whole := 0, 0
		for _, room := range []int64{0, 1 << 12, 60 << 10, 200 << 10, 4 << 20} {
			fill(room)
			status, says := l.ran(l.command(target))
			got := filesBelow(t, target)
			switch {
			case status == failed && maps.Equal(got, old) && strings.Contains(says, "no space left on device"):
				full++
			case status == clean && maps.Equal(got, want):
				whole++
			default:
				t.Errorf("%d bytes of room: status %d, %d files; it says %s", room, status, len(got), says)
			}
			l.alone("on a full disk", target)
		}
		if full < 2 || whole < 1 {
			t.Errorf("%d builds met a full disk and %d did not; want both", full, whole)
		}
		// A cache on a full disk keeps nothing; pictures are kept next to content/.
		l.change(2)
		other := *l
		other.cache = filepath.Join(disk, "cache")
		if err := os.Mkdir(other.cache, 0o755); err != nil {
			t.Error(err)
		}
		fill(0)
		if status, says := other.ran(other.command(l.target)); status != clean || says != "" {
			t.Errorf("with its cache on a full disk: status %d: %s", status, says)
		}
	})
	if t.Skipped() || t.Failed() {
		return
	}
	same(t, "with its cache on a full disk", filesBelow(t, l.target), l.first())
}

// TestShutOut: a user who is not root may read the folders and not write to them.
func TestShutOut(t *testing.T) {
	thorough.Only(t)
	l := newLot(t, 3)
	own := func(mode fs.FileMode, folders ...string) {
		for _, f := range folders {
			if err := os.Chmod(f, mode); err != nil {
				t.Fatal(err)
			}
		}
	}
	t.Cleanup(func() { own(0o755, l.dir, l.target, l.cache) })
	if os.Geteuid() == 0 {
		const nobody = 65534
		for _, f := range []string{l.dir, l.cache} {
			if err := os.Lchown(f, nobody, nobody); err != nil {
				t.Fatal(err)
			}
		}
	}
	as := func(cmd *exec.Cmd) *exec.Cmd {
		if os.Geteuid() == 0 {
			cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
		}
		return cmd
	}
	// If the cache may not be written to, pictures are kept next to content/.
	own(0o555, l.cache)
	if status, says := l.ran(as(l.command(l.target))); status != clean || says != "" {
		t.Fatalf("a cache that may not be written: status %d: %s", status, says)
	}
	want := filesBelow(t, l.target)
	same(t, "without a cache", want, l.first())
	entries, err := os.ReadDir(l.cache)
	drawn, _ := filepath.Glob(filepath.Join(l.dir, ".tarepage", "photos", "*", "*", "*"))
	if err != nil || len(entries) > 0 || len(drawn) == 0 {
		t.Errorf("the cache has %v, next to content/ are %d (%v)", entries, len(drawn), err)
	}
	own(0o755, l.cache)

	l.change(1)
	for _, locked := range [][]string{{l.dir}, {l.target}, {l.dir, l.target, l.cache}} {
		own(0o555, locked...)
		status, says := l.ran(as(l.command(l.target)))
		if status != failed || !strings.Contains(says, "cannot be replaced, because") || !strings.Contains(says, "cannot be written (permission denied)") {
			t.Errorf("%v may not be written: status %d, it says %q", locked, status, says)
		}
		same(t, "may not be written", filesBelow(t, l.target), want)
		l.alone("may not be written", l.target)
		own(0o755, locked...)
	}
	if status, says := l.ran(as(l.command(l.target))); status != clean || says != "" {
		t.Errorf("unlocked: status %d: %s", status, says)
	}
	same(t, "unlocked", filesBelow(t, l.target), l.first())
}

// TestGoneMeanwhile: a file is deleted at the moment when a file is opened (inotify(7), IN_OPEN):
// a unit after its folder was listed, a recording after its head was read. Whatever the build
// says, the site is whole, and the next build gives the site of a first build.
func TestGoneMeanwhile(t *testing.T) {
	thorough.Only(t)
	l := newLot(t, 2)
	video, err := os.ReadFile("../../content/media/sb-1003.mp4")
	if err != nil {
		t.Fatal(err)
	}
	write(t, l.dir, map[string]string{"content/media/walk.mp4": string(video)})
	unit := filepath.Join(l.dir, "content/units/zz.md")
	text := strings.Replace(spoilt("", "x"), "PV-00001", "ZZ-1", 1)
	if !strings.Contains(text, "\nrecording:\n") {
		text = strings.Replace(text, "\ntitle:", "\nrecording:\n  length: 8:00\ntitle:", 1)
	}
	text = strings.Replace(text, "\nrecording:\n", "\nrecording:\n  video: media/walk.mp4\n", 1)
	serial := "\nserial: " + between(text, "\nserial: ", "\n")
	text = strings.Replace(text, serial, "", 1)
	if err := os.WriteFile(unit, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	old := l.builds("before", l.target)
	for _, c := range []struct{ name, watched, gone string }{
		{"a unit", "content/units", unit},
		{"a recording", "content/media", filepath.Join(l.dir, "content/media/walk.mp4")},
		{"a model", "content/models", filepath.Join(l.dir, "content/models/stave-20.md")},
		{"the yard", "content", l.yard()},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.name != "a unit" && c.name != "a recording" {
				long(t)
			}
			kept, err := os.ReadFile(c.gone)
			if err != nil {
				t.Fatal(err)
			}
			watch, err := unix.InotifyInit1(unix.IN_CLOEXEC)
			if err == nil {
				_, err = unix.InotifyAddWatch(watch, filepath.Join(l.dir, filepath.FromSlash(c.watched)), unix.IN_OPEN)
			}
			if err != nil {
				t.Skip("NOT CHECKED: this system does not tell which files are opened: ", err)
			}
			defer unix.Close(watch)
			l.change(len(c.name)) // so that the note of the build before does not answer
			gone := make(chan error, 1)
			go func() {
				_, err := unix.Read(watch, make([]byte, 1<<12))
				gone <- errors.Join(err, os.Remove(c.gone))
			}()
			status, says := l.ran(l.command(l.target))
			if err := <-gone; err != nil {
				t.Fatal(err)
			}
			t.Logf("status %d: %.300s", status, says)
			if strings.Contains(says, "goroutine ") || status != clean && status != stops && status != failed || status != clean && says == "" {
				t.Errorf("status %d: %s", status, says)
			}
			now := filesBelow(t, l.target)
			checkWhole(t, l.target)
			if status != clean {
				same(t, "the old site", now, old)
			}
			l.alone("after it", l.target)
			if err := os.WriteFile(c.gone, kept, 0o644); err != nil {
				t.Fatal(err)
			}
			l.change(len(c.name) + 1)
			old = l.builds("put back", l.target)
			if os.Getenv("TAREPAGE_LONG") != "" {
				same(t, "put back", old, l.first())
			}
		})
	}
	same(t, "at last", old, l.first())
}
