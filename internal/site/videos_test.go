package site

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// slow is a disk on which each reading takes a while.
type slow struct {
	*bytes.Reader
	each time.Duration
}

func (s slow) ReadAt(p []byte, off int64) (int, error) {
	time.Sleep(s.each)
	return s.Reader.ReadAt(p, off)
}

// TestVideoEndsInTime: a video whose looking through takes too long is refused, and one that is
// done in time is copied whole, also when the time is long over.
func TestVideoEndsInTime(t *testing.T) {
	for _, name := range []string{"first.mp4", "fragments.mp4", "vp8.webm"} {
		data, err := os.ReadFile(filepath.Join("..", "media", "testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := planCopy(slow{bytes.NewReader(data), time.Millisecond}, int64(len(data)), time.Microsecond); err == nil || !strings.Contains(err.Error(), "takes longer than 1µs") {
			t.Errorf("%s on a slow disk: %v", name, err)
		}
		c, err := planCopy(bytes.NewReader(data), int64(len(data)), 5*time.Second)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got, err := io.ReadAll(c.Reader()); err != nil || int64(len(got)) != c.Size() {
			t.Errorf("%s: %d bytes of %d, %v", name, len(got), c.Size(), err)
		}
	}
}
