//go:build unix

package files

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestPipes: a named pipe into which nobody writes is refused at once, and so is a device.
func TestPipes(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "stock.csv")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skip("NOT CHECKED: no named pipes here: ", err)
	}
	readUpTo := func(name string) error { _, err := ReadUpTo(name, 9); return err }
	read := func(name string) error { _, err := Read(name); return err }
	open := func(name string) error { _, err := Open(name); return err }
	for i, name := range []string{pipe, "/dev/null", pipe, "/dev/zero", pipe} {
		done := make(chan error, 1)
		go func() { done <- []func(string) error{readUpTo, readUpTo, read, read, open}[i](name) }()
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

// TestLinksAreNotWrittenThrough: a link in a yard that came from somebody else leads no file out
// of it.
func TestLinksAreNotWrittenThrough(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	name := filepath.Join(dir, "content", "yard.md")
	kept := filepath.Join(dir, "earlier")
	err := errors.Join(WriteNew(name, []byte("before")), os.Symlink(outside, kept))
	if err != nil {
		t.Fatal(err)
	}
	refused := func(what string, err error) {
		t.Helper()
		if err == nil || !strings.Contains(err.Error(), "is a link to another place, and nothing is read or written there") {
			t.Errorf("%s: %v", what, err)
		}
		if file, err := First(outside); file != "" || err != nil {
			t.Errorf("%s: outside is %s (%v)", what, file, err)
		}
		if got, _ := Read(name); string(got) != "before" {
			t.Errorf("%s: the file holds %q", what, got)
		}
	}
	refused("a folder", ReplaceKeeping(dir, name, []byte("before"), []byte("after")))
	if err := errors.Join(os.Remove(kept), os.MkdirAll(kept, 0o755), os.Symlink(filepath.Join(outside, "x"), filepath.Join(kept, "yard.md"))); err != nil {
		t.Fatal(err)
	}
	refused("a file", ReplaceKeeping(dir, name, []byte("before"), []byte("after")))
	if err := NoLinks(dir, filepath.Join(dir, "content", "media", "new.jpg")); err != nil {
		t.Errorf("a file that is not there yet: %v", err)
	}
}
