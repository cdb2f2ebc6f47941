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

// MostJudgingTime is how long judging what one unit says may take, in its file and in its captions,
// and how long hearing one recording may. The largest that are read take a few seconds.
const MostJudgingTime = 2 * time.Minute

// InTime returns what a function returns, or an error if it did not within a time. One that is
// late runs on until it ends, and nobody gets what it returns.
func InTime[T any](most time.Duration, f func() (T, error)) (T, error) {
	type result struct {
		value T
		err   error
	}
	results := make(chan result, 1)
	go func() {
		var r result
		r.value, r.err = f()
		results <- r
	}()
	late := time.NewTimer(most)
	defer late.Stop()
	select {
	case r := <-results:
		return r.value, r.err
	case <-late.C:
		var none T
		return none, fmt.Errorf("judging what is said takes longer than %v; a talk about one trailer takes a moment", most)
	}
}
