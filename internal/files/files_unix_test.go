//go:build unix

package files

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestReadUpToPipe: a named pipe into which nobody writes is refused at once, and so is a device.
func TestReadUpToPipe(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "stock.csv")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skip("NOT CHECKED: no named pipes here: ", err)
	}
	for _, name := range []string{pipe, "/dev/null"} {
		done := make(chan error, 1)
		go func() {
			_, err := ReadUpTo(name, 9)
			done <- err
		}()
		select {
		case err := <-done:
			if err == nil || !strings.Contains(err.Error(), "not a plain file") {
				t.Errorf("%s: %v", name, err)
			}
		case <-time.After(10 * time.Second):
			t.Fatalf("%s: waits for ever", name)
		}
	}
}
