//go:build unix && !aix

package publish

import (
	"io/fs"
	"os"

	"golang.org/x/sys/unix"
)

// writable says why this process may not make and remove files in the folder.
func writable(dir string) error {
	return unix.Faccessat(unix.AT_FDCWD, dir, unix.W_OK|unix.X_OK, unix.AT_EACCESS)
}

// hasMode reports whether a file has the mode a build gives it.
func hasMode(info fs.FileInfo, mode fs.FileMode) bool { return info.Mode().Perm() == mode }

// flushFolder forces the names in a folder onto the disk. File systems that cannot are left
// as they are.
func flushFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := f.Sync(); !isOneOf(err, unix.EINVAL, unix.ENOTSUP) {
		return err
	}
	return nil
}

func rename(from, to string) error { return os.Rename(from, to) }
