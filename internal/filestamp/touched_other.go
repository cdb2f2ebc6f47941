//go:build !linux && !darwin

package filestamp

import "io/fs"

// touched is not known on this system. Only the size and the time identify a file.
func touched(fs.FileInfo) int64 { return 0 }
