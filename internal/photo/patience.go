package photo

import (
	"errors"
	"image"
	"sync"
	"time"

	"tarepage/internal/media"
)

// longest is how long one photo may take to decode. The largest that is taken needs a few
// seconds; only a file that was made to do harm needs more.
const longest = time.Minute

// mostOver is how much longer than usual the photos of one run may take together. After that no
// photo gets more than is usual for its size: a folder full of files that were made to do harm ends
// in a time that grows with their pixels.
const mostOver = 10 * time.Minute

var errTooLong = errors.New("it takes too long to decode; save it again")

// usual is how long a photo of so many pixels takes to decode at most, on a slow computer that
// has other work. It is our own choice, several times what a plain computer takes.
func usual(head *media.Photo) time.Duration {
	return 2*time.Second + time.Duration(head.Wide)*time.Duration(head.High)*(time.Second/5_000_000)
}

// patience is what is left of the time for the photos of one run.
type patience struct {
	mu   sync.Mutex
	over time.Duration // how much longer than usual they took so far
}

// left is how long the next photo may take.
func (p *patience) left(head *media.Photo) time.Duration {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.over >= mostOver {
		return min(usual(head), longest)
	}
	return longest
}

// took notes how long a photo took.
func (p *patience) took(head *media.Photo, time time.Duration) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.over += max(0, time-usual(head))
}

// decode decodes a photo in the time that is left.
func (p *patience) decode(data []byte, head *media.Photo) (image.Image, error) {
	start := time.Now()
	m, err := decode(data, head, start.Add(p.left(head)))
	p.took(head, time.Since(start))
	return m, err
}
