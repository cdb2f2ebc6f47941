//go:build darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd || solaris

package publish

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// tryLock takes the lock file for this build. It returns no release if another build
// holds it. The system drops the lock of a killed build.
func tryLock(path string) (release func(), err error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|unix.O_NOFOLLOW, fileMode)
	if err != nil {
		return nil, err
	}
	for {
		err = unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
		if !errors.Is(err, unix.EINTR) {
			break
		}
	}
	if err != nil {
		f.Close()
		if errors.Is(err, unix.EWOULDBLOCK) {
			return nil, nil
		}
		return nil, err
	}
	// The holder before us removes the file before it lets go: what we locked may
	// have lost its name, and a third build may hold the new file of that name.
	mine, err := f.Stat()
	if err != nil {
		f.Close()
		return nil, err
	}
	if now, err := os.Lstat(path); err != nil || !os.SameFile(mine, now) {
		f.Close()
		return nil, nil
	}
	return func() {
		if mine.Size() == 0 { // a file with something in it is not ours to remove
			os.Remove(path)
		}
		f.Close()
	}, nil
}
