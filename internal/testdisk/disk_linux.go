package testdisk

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"golang.org/x/sys/unix"
)

// A Disk is an ext4 file system that is kept in an image file.
type Disk struct {
	// Dir is the folder on which it is mounted.
	Dir   string
	image string
}

// Mounted runs f on a thread that sees a new disk. The commands that f starts see it too, and
// nobody else does. The options are those of mount -o.
func Mounted(t *testing.T, options string, f func(d *Disk)) {
	t.Helper()
	d := &Disk{Dir: t.TempDir(), image: filepath.Join(t.TempDir(), "disk.img")}
	alone(t, "no power cut was tried", func() error {
		return errors.Join(os.WriteFile(d.image, nil, 0o600), os.Truncate(d.image, 24<<20),
			run("mkfs.ext4", "-q", d.image), mount(options, d.image, d.Dir))
	}, func() {
		defer run("umount", d.Dir)
		f(d)
	})
}

// AfterCut takes what the image holds at this moment for what a disk holds after a power cut:
// it mounts a copy, which replays the journal, and lets look at the folder. What was written
// and not forced onto the disk is not in the image.
func (d *Disk) AfterCut(t *testing.T, look func(dir string) error) error {
	t.Helper()
	copied := d.image + ".cut"
	from, err := os.Open(d.image)
	if err != nil {
		return err
	}
	defer from.Close()
	to, err := os.Create(copied)
	if err != nil {
		return err
	}
	defer os.Remove(copied)
	_, err = io.Copy(to, from)
	if err = errors.Join(err, to.Close()); err != nil {
		return err
	}
	dir := t.TempDir()
	if err := mount("loop", copied, dir); err != nil {
		return err
	}
	defer run("umount", dir)
	return look(dir)
}

// Small runs f on a thread for which a file system of that size, such as 4m, is mounted on the
// folder.
func Small(t *testing.T, dir, size string, f func()) {
	t.Helper()
	alone(t, "no full disk was tried", func() error { return unix.Mount("tmpfs", dir, "tmpfs", 0, "size="+size) }, f)
}

// alone runs prepare and f on a thread of their own, whose mounts nobody else sees. It skips the
// test loudly if prepare cannot do its work here.
func alone(t *testing.T, missed string, prepare func() error, f func()) {
	t.Helper()
	if os.Geteuid() != 0 {
		t.Skip("NOT CHECKED: only root can mount a file system, so " + missed)
	}
	why := make(chan error)
	go func() {
		defer close(why)
		runtime.LockOSThread() // and never unlocked: the thread ends here, and the mounts with it
		err := unix.Unshare(unix.CLONE_FS | unix.CLONE_NEWNS)
		if err == nil {
			err = unix.Mount("", "/", "", unix.MS_REC|unix.MS_PRIVATE, "")
		}
		if err == nil {
			err = prepare()
		}
		if err != nil {
			why <- err
			return
		}
		f()
	}()
	if err := <-why; err != nil {
		t.Skip("NOT CHECKED: no file system can be mounted here, so "+missed+": ", err)
	}
}

func mount(options, image, dir string) error {
	if options != "loop" {
		options = "loop," + options
	}
	return run("mount", "-o", options, image, dir)
}

func run(name string, args ...string) error {
	if out, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w: %s", name, err, out)
	}
	return nil
}
