package unit

import (
	"errors"
	"fmt"
	"io"
	"time"
)

// MostVideoTime is how long looking through one video may take. A recording of an hour takes
// less than a second from a disk.
const MostVideoTime = 2 * time.Minute

// A TimedReader reads a file until it is too late. The limits on counts in internal/media keep
// a file from long work; this keeps a slow disk from it.
type TimedReader struct {
	from  io.ReaderAt
	most  time.Duration
	until time.Time
	late  bool
}

// NewTimedReader reads for so long from now on.
func NewTimedReader(r io.ReaderAt, most time.Duration) *TimedReader {
	return &TimedReader{from: r, most: most, until: time.Now().Add(most)}
}

var errLate = errors.New("it is too late")

// ReadAt implements io.ReaderAt.
func (t *TimedReader) ReadAt(p []byte, off int64) (int, error) {
	if t.late = t.late || time.Now().After(t.until); t.late {
		return 0, errLate
	}
	return t.from.ReadAt(p, off)
}

// Fault says that it was too late; nil if it was not.
func (t *TimedReader) Fault() error {
	if !t.late {
		return nil
	}
	return fmt.Errorf("looking through it takes longer than %v; record it again, or save it shorter", t.most)
}
