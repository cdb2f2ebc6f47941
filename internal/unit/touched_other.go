//go:build !linux && !darwin

package unit

import "io/fs"

// touched is not known here: a file is known again by its size and its time alone.
func touched(fs.FileInfo) int64 { return 0 }
