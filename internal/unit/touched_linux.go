package unit

import (
	"io/fs"
	"syscall"
)

// touched is when anything about the file last changed (stat(2), st_ctim), which nobody can
// set back; 0 where the file system does not say.
func touched(info fs.FileInfo) int64 {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return s.Ctim.Nano()
	}
	return 0
}
