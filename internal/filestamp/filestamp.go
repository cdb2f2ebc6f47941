// Package filestamp tells whether a file is as it was without reading its bytes: by its size,
// the time of its bytes, and the time when anything about it last changed. Git's index trusts
// the same (gitformat-index: ctime, mtime and size of an entry).
package filestamp

import (
	"io/fs"
	"time"
)

// A Stamp identifies a version of a file. The zero Stamp identifies none.
type Stamp struct {
	Bytes int64
	// Time is when the bytes last changed, in nanoseconds of Unix time. Anybody can set it back.
	Time int64
	// Touched is when anything about the file last changed, also in nanoseconds. No ordinary
	// program sets it back, so it reveals a copy that kept the time of its original. It is 0 if
	// the system does not tell.
	Touched int64
}

// Of is the stamp of a file.
func Of(info fs.FileInfo) Stamp {
	return Stamp{info.Size(), info.ModTime().UnixNano(), touched(info)}
}

// Holds reports whether a file still is the version with this stamp. It is false where the
// system does not tell when the file was touched: then only the bytes can tell.
func (s Stamp) Holds(info fs.FileInfo) bool { return s.Touched != 0 && s == Of(info) }

// Settled reports whether the file was last touched so long before a moment that a change
// after that moment has another stamp. The moment is the time of a file that was made then
// in the same file system: its clock may be another one, and a coarse one.
func (s Stamp) Settled(made fs.FileInfo) bool {
	margin := fine
	if made.ModTime().Nanosecond()%int(time.Millisecond) == 0 {
		margin = coarse
	}
	return s.Touched != 0 && s.Touched < made.ModTime().Add(-margin).UnixNano()
}

// Linux keeps times to the tick of the kernel's clock, which is 10 ms at most (time(7)). The
// coarsest file system in use (FAT) keeps them to two seconds. A clock that shows no part of
// a millisecond is taken for a coarse one.
const (
	fine   = 50 * time.Millisecond
	coarse = 4 * time.Second
)
