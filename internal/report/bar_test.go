package report

import (
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

// paper is written on by the bar's clock and read by the test.
type paper struct {
	mu   sync.Mutex
	text strings.Builder
}

func (p *paper) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text.Write(b)
}

// read takes what was written since it was last read.
func (p *paper) read() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	defer p.text.Reset()
	return p.text.String()
}

// A bar shows nothing while it waits. Then it shows without another call, moves with each call, and
// leaves an empty line. A bar that is done does not come back.
func TestBar(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var w paper
		b := &Bar{W: &w, After: time.Second, What: "photos"}
		b.Told(0, 3)
		time.Sleep(999 * time.Millisecond)
		synctest.Wait()
		b.Told(1, 3)
		if got := w.read(); got != "" {
			t.Errorf("after less than a second it shows %q", got)
		}
		time.Sleep(2 * time.Millisecond)
		synctest.Wait()
		if got, want := w.read(), "\r["+strings.Repeat("=", 10)+strings.Repeat(" ", 20)+"] 1 of 3 photos"; got != want {
			t.Errorf("after a second it shows %q, want %q", got, want)
		}
		b.Told(3, 3)
		if got, want := w.read(), "\r["+strings.Repeat("=", 30)+"] 3 of 3 photos"; got != want {
			t.Errorf("at the end it shows %q, want %q", got, want)
		}
		b.Done()
		if got := w.read(); strings.Trim(got, " \r") != "" || !strings.HasSuffix(got, "\r") {
			t.Errorf("it leaves %q", got)
		}
	})
	synctest.Test(t, func(t *testing.T) {
		var w paper
		b := &Bar{W: &w, After: time.Second, What: "photos"}
		b.Told(0, 1)
		b.Told(1, 1)
		b.Done()
		time.Sleep(time.Minute)
		synctest.Wait()
		if got := w.read(); got != "" {
			t.Errorf("a short work shows %q", got)
		}
	})
}
