package publish

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
)

// asNobody runs f without the privileges of root, so that modes count. Only the
// thread changes; Swap and Check start no others.
func asNobody(t *testing.T, own []string, f func()) {
	t.Helper()
	if os.Geteuid() != 0 {
		f()
		return
	}
	const nobody = 65534
	for _, path := range own {
		if err := os.Lchown(path, nobody, nobody); err != nil {
			t.Fatal(err)
		}
	}
	done := make(chan bool)
	go func() {
		defer close(done)
		runtime.LockOSThread() // and never unlocked: the thread ends with f
		if _, err := unix.SetfsuidRetUid(nobody); err != nil {
			t.Error(err)
			return
		}
		f()
	}()
	<-done
}

func chmod(t *testing.T, mode os.FileMode, elem ...string) {
	t.Helper()
	if err := os.Chmod(filepath.Join(elem...), mode); err != nil {
		t.Fatal(err)
	}
}

func TestNotWritable(t *testing.T) {
	for _, tt := range []struct{ name, target, locked, want string }{
		{"folder around", "yard/public", "yard", "yard/public cannot be replaced, because the folder around it cannot be written (permission denied); choose another folder with -to"},
		{"folder far above", "yard/a/b/public", "yard", "yard/a/b/public cannot be replaced, because the folder around it cannot be written (permission denied); choose another folder with -to"},
		{"itself", "yard/public", "yard/public", "yard/public cannot be replaced, because it cannot be written (permission denied); choose another folder with -to"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			base := t.TempDir()
			chmod(t, 0o755, base)
			chmod(t, 0o755, filepath.Dir(base))
			yard := mkdir(t, base, "yard")
			t.Chdir(base)
			mustSwap(t, newSwapper(), older, filepath.Join(yard, "public"))
			chmod(t, 0o555, tt.locked)
			t.Cleanup(func() { os.Chmod(filepath.Join(base, tt.locked), 0o755) })
			before := tree(t, base)
			site := newer.site(t)
			asNobody(t, []string{yard, filepath.Join(yard, "public")}, func() {
				_, swap := Swap(site, tt.target)
				for _, err := range []error{Check(tt.target), swap} {
					if err == nil || err.Error() != tt.want || !errors.Is(err, os.ErrPermission) {
						t.Errorf("got  %v\nwant %s", err, tt.want)
					}
				}
			})
			if after := tree(t, base); before != after {
				t.Errorf("before\n%s\nafter\n%s", before, after)
			}
		})
	}
}

// A file of the old site that may not be read is written again; one whose mode was
// changed keeps its time and gets its mode back.
func TestModes(t *testing.T) {
	old := syscall.Umask(0o077)
	defer syscall.Umask(old)
	base := t.TempDir()
	chmod(t, 0o755, base)
	target := filepath.Join(base, "made", "public")
	mustSwap(t, newSwapper(), older, target)
	wantModes := func() {
		t.Helper()
		for _, line := range strings.Split(strings.TrimSpace(tree(t, base)), "\n") {
			if !strings.Contains(line, " drwxr-xr-x") && !strings.Contains(line, " -rw-r--r-- ") {
				t.Errorf("mode: %s", line)
			}
		}
	}
	wantModes()

	chmod(t, 0o600, target, "style.css")
	chmod(t, 0o700, target, "units")
	age(t, target)
	if got, want := mustSwap(t, newSwapper(), older, target), (Report{Unchanged: 4, Bytes: 27}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	wantModes()
	if n := len(aged(t, target)); n != 6 {
		t.Errorf("%d files kept their time, want 6", n)
	}
}

// The folder around the target may hand its group down (set-group-ID); the folders
// of the site do the same.
func TestGroupIsHandedDown(t *testing.T) {
	base := t.TempDir()
	if err := os.Chmod(base, 0o755|os.ModeSetgid); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(base); err != nil || info.Mode()&os.ModeSetgid == 0 {
		t.Skip("NOT CHECKED: this file system has no set-group-ID folders")
	}
	old := syscall.Umask(0o077)
	defer syscall.Umask(old)
	mustSwap(t, newSwapper(), older, filepath.Join(base, "public"))
	info, err := os.Stat(filepath.Join(base, "public", "units"))
	if err != nil {
		t.Fatal(err)
	}
	// MkdirTemp's container takes the bit from base, and its folders from it.
	if info.Mode()&os.ModeSetgid == 0 || info.Mode().Perm() != 0o755 {
		t.Errorf("units has %v", info.Mode())
	}
}

func TestMountPoint(t *testing.T) {
	const want = "/proc is a mount point, which cannot be swapped; choose a folder inside it with -to"
	if err := Check("/proc"); err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// A disk that is really full: a small file system of its own, seen by this thread
// only.
func TestDiskFull(t *testing.T) {
	if os.Geteuid() != 0 {
		t.Skip("NOT CHECKED: only root can mount a small disk; TestFailAtEveryStep covers the same steps")
	}
	disk := t.TempDir()
	done := make(chan string)
	go func() {
		defer close(done)
		runtime.LockOSThread() // and never unlocked: the thread ends here, and the mount with it
		if err := unix.Unshare(unix.CLONE_FS | unix.CLONE_NEWNS); err != nil {
			done <- err.Error()
			return
		}
		if err := unix.Mount("", "/", "", unix.MS_REC|unix.MS_PRIVATE, ""); err != nil {
			done <- err.Error()
			return
		}
		if err := unix.Mount("tmpfs", disk, "tmpfs", 0, "size=256k"); err != nil {
			done <- err.Error()
			return
		}
		if err := Check(disk); err == nil || !strings.Contains(err.Error(), "is a mount point") {
			t.Errorf("Check of the disk itself: %v", err)
		}
		target := filepath.Join(disk, "public")
		small := pages{"index.html": strings.Repeat("s", 50_000), "same.html": "same"}
		large := pages{"index.html": strings.Repeat("l", 100_000), "more.html": strings.Repeat("m", 200_000), "same.html": "same"}
		if _, err := Swap(small.site(t), target); err != nil {
			t.Error(err)
			return
		}
		before := tree(t, disk)
		report, err := Swap(large.site(t), target)
		want := target + " is as it was, because the new site could not be written: more.html: no space left on device"
		if err == nil || err.Error() != want || !errors.Is(err, unix.ENOSPC) || report != (Report{}) {
			t.Errorf("got  %+v, %v\nwant %s", report, err, want)
		}
		if after := tree(t, disk); before != after {
			t.Errorf("before\n%s\nafter\n%s", before, after)
		}
	}()
	if reason, ok := <-done; ok {
		t.Skip("NOT CHECKED: no small disk can be mounted here: " + reason)
	}
}

// TestBusyLockLeavesNothingOpen: a build that waits asks for the lock a hundred times a second,
// for minutes. A file that stayed open each time would use up what the system allows.
func TestBusyLockLeavesNothingOpen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lock")
	release, err := tryLock(path)
	if err != nil || release == nil {
		t.Fatal(err)
	}
	defer release()
	open := func() int {
		files, err := os.ReadDir("/proc/self/fd")
		if err != nil {
			t.Skip("NOT CHECKED: this system does not tell which files are open: ", err)
		}
		return len(files)
	}
	before := open()
	for range 50 {
		if again, err := tryLock(path); again != nil || err != nil {
			t.Fatal(err)
		}
	}
	if after := open(); after > before+5 {
		t.Errorf("%d files are open, before there were %d", after, before)
	}
}
