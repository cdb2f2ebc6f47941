//go:build unix && !linux && !aix

package publish

import (
	"os"
	"path/filepath"
	"syscall"
)

// isMountPoint reports whether the folder is on another device than the one around it.
func isMountPoint(dir string) bool {
	in, err := os.Lstat(dir)
	if err != nil {
		return false
	}
	around, err := os.Lstat(filepath.Dir(dir))
	if err != nil {
		return false
	}
	a, ok := in.Sys().(*syscall.Stat_t)
	b, ok2 := around.Sys().(*syscall.Stat_t)
	return ok && ok2 && a.Dev != b.Dev
}
