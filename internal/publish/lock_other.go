//go:build !(darwin || dragonfly || freebsd || illumos || linux || netbsd || openbsd || solaris || windows)

package publish

import (
	"errors"
	"io/fs"
	"os"
	"time"
)

// stale is the age at which a lock file is taken for one of a killed build. A build
// holds it only while it writes finished files.
const stale = time.Hour

// tryLock takes the lock file for this build. It returns no release if another build
// holds it. These systems have no lock that ends with its process, so age decides.
func tryLock(path string) (release func(), err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, fileMode)
	if errors.Is(err, fs.ErrExist) {
		info, err := os.Lstat(path)
		if err == nil && info.Size() == 0 && time.Since(info.ModTime()) > stale {
			os.Remove(path)
		}
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	f.Close()
	return func() { os.Remove(path) }, nil
}
