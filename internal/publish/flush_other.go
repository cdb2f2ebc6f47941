//go:build !linux

package publish

import (
	"io/fs"
	"os"
	"path/filepath"
)

// flush forces the files and the folders below a folder onto the disk, one by one.
func flush(dir string) error {
	return filepath.WalkDir(dir, func(full string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() {
			return flushFolder(full)
		}
		f, err := os.OpenFile(full, os.O_RDWR, 0) // Windows flushes only what is open for writing
		if err != nil {
			return err
		}
		defer f.Close()
		return f.Sync()
	})
}
