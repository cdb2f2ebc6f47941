package report

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// A Bar shows on a terminal how far a long work has come. It stays away while the work
// may yet be short.
type Bar struct {
	W io.Writer
	// After is how long it waits before it shows.
	After time.Duration
	// What is done: photos.
	What string

	mu        sync.Mutex
	wait      *time.Timer
	shown     bool
	ended     bool
	done, all int
}

const barWide = 30

// Told draws the bar with new numbers. The first call starts the wait, after which the bar shows
// itself, even if one part of the work takes longer.
func (b *Bar) Told(done, all int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.done, b.all = done, all
	if b.wait == nil {
		b.wait = time.AfterFunc(b.After, func() {
			b.mu.Lock()
			defer b.mu.Unlock()
			b.shown = !b.ended
			b.draw()
		})
	}
	b.draw()
}

func (b *Bar) draw() {
	if !b.shown || b.all == 0 {
		return
	}
	n := barWide * b.done / b.all
	fmt.Fprintf(b.W, "\r[%s%s] %d of %d %s", strings.Repeat("=", n), strings.Repeat(" ", barWide-n), b.done, b.all, b.What)
}

// Done removes the bar.
func (b *Bar) Done() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.ended = true
	if b.wait != nil {
		b.wait.Stop()
	}
	if b.shown {
		b.shown = false
		fmt.Fprintf(b.W, "\r%s\r", strings.Repeat(" ", barWide+40))
	}
}
