package publish

import (
	"errors"
	"io/fs"
	"os"
	"time"

	"golang.org/x/sys/windows"
)

// writable leaves it to the first write: what Windows lets a process do follows from
// access lists that only trying answers.
func writable(string) error { return nil }

// hasMode is true: Windows has no such modes.
func hasMode(fs.FileInfo, fs.FileMode) bool { return true }

// rename tries for two seconds, because Windows refuses to rename a folder while a
// virus scanner or a preview has one of its files open.
func rename(from, to string) error {
	for start := time.Now(); ; time.Sleep(20 * time.Millisecond) {
		err := os.Rename(from, to)
		busy := errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_ACCESS_DENIED)
		if !busy || time.Since(start) > 2*time.Second {
			return err
		}
	}
}

// flushFolder is not needed: NTFS keeps names in a journal.
func flushFolder(string) error { return nil }

func isMountPoint(string) bool { return false }
