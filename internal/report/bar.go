package report

import (
	"fmt"
	"io"
	"strings"
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

	began time.Time
	shown bool
}

const barWide = 30

// Told draws the bar anew. Told of nothing done it begins to count the time.
func (b *Bar) Told(done, all int) {
	if b.began.IsZero() {
		b.began = time.Now()
	}
	if all == 0 || !b.shown && time.Since(b.began) < b.After {
		return
	}
	b.shown = true
	n := barWide * done / all
	fmt.Fprintf(b.W, "\r[%s%s] %d of %d %s", strings.Repeat("=", n), strings.Repeat(" ", barWide-n), done, all, b.What)
}

// Done takes the bar away.
func (b *Bar) Done() {
	if b.shown {
		fmt.Fprintf(b.W, "\r%s\r", strings.Repeat(" ", barWide+40))
	}
}
