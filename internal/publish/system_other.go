//go:build (!unix && !windows) || aix

package publish

import (
	"io/fs"
	"os"
)

// These systems are left to answer at the first write.

func writable(string) error { return nil }

func hasMode(fs.FileInfo, fs.FileMode) bool { return true }

func rename(from, to string) error { return os.Rename(from, to) }

func flushFolder(string) error { return nil }

func isMountPoint(string) bool { return false }
