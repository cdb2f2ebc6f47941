package filestamp

import (
	"io/fs"
	"syscall"
)

// touched is when anything about the file last changed (stat(2), st_ctimespec). Nobody can
// set it back. It is 0 if the file system does not tell.
func touched(info fs.FileInfo) int64 {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return s.Ctimespec.Nano()
	}
	return 0
}
