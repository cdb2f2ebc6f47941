//go:build unix

package site

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"tarepage/internal/publish"
	"tarepage/internal/render"
	"tarepage/internal/testyard"
	theme "tarepage/themes/default"
)

// TestFoldersOutside: a folder of the yard that is a link out of it is refused; one that leads
// to another folder of the yard is not.
func TestFoldersOutside(t *testing.T) {
	for _, name := range []string{"content", "content/units", "content/models", "content/media"} {
		base, outside := t.TempDir(), t.TempDir()
		if err := os.MkdirAll(filepath.Join(base, filepath.Dir(name)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(outside, filepath.Join(base, name)); err != nil {
			t.Fatal(err)
		}
		if err := CheckFolder(base); err == nil || !strings.HasPrefix(err.Error(), name+" is a link to a folder outside the yard") {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := Inspect(Options{From: base}); err == nil {
			t.Errorf("%s is read", name)
		}
		if err := os.Remove(filepath.Join(base, name)); err != nil {
			t.Fatal(err)
		}
		if err := os.Mkdir(filepath.Join(base, "inside"), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(filepath.Join(base, "inside"), filepath.Join(base, name)); err != nil {
			t.Fatal(err)
		}
		if err := CheckFolder(base); err != nil {
			t.Errorf("%s, inside: %v", name, err)
		}
	}
	// The yard itself may be reached through a link.
	base := t.TempDir()
	if err := os.MkdirAll(filepath.Join(base, "yard", "content", "units"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join(base, "yard"), filepath.Join(base, "link")); err != nil {
		t.Fatal(err)
	}
	if err := CheckFolder(filepath.Join(base, "link")); err != nil {
		t.Error(err)
	}
}

// TestFolderBecomesALink: a link that leads to the same files outside the yard is refused too,
// although no file changed since the last build.
func TestFolderBecomesALink(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	dir, outside := t.TempDir(), filepath.Join(t.TempDir(), "moved")
	if err := testyard.Write(dir, 1); err != nil {
		t.Fatal(err)
	}
	o := Options{From: dir, To: filepath.Join(dir, "public")}
	built(t, o)
	content := filepath.Join(dir, "content")
	if err := os.Rename(content, outside); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, content); err != nil {
		t.Fatal(err)
	}
	if _, err := Build(o); err == nil || !strings.HasPrefix(err.Error(), "content is a link to a folder outside the yard") {
		t.Errorf("the link is followed: %v", err)
	}
}

// within fails if f takes longer than ten seconds.
func within(t *testing.T, what string, f func()) {
	t.Helper()
	done := make(chan bool)
	go func() { defer close(done); f() }()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		t.Fatalf("%s waits for ever", what)
	}
}

// TestLookStaysInItsFolder: a file of a look that is a link out of it is not published, and one
// that is far too large is not read.
func TestLookStaysInItsFolder(t *testing.T) {
	secret := filepath.Join(t.TempDir(), "secret")
	if err := os.WriteFile(secret, []byte("root:x:0:0"), 0o600); err != nil {
		t.Fatal(err)
	}
	read := func(make func(name string) error) ([]byte, error) {
		look := t.TempDir()
		if err := make(filepath.Join(look, "style.css")); err != nil {
			t.Fatal(err)
		}
		files, err := render.Theme(theme.Files, look)
		if err != nil {
			t.Fatal(err)
		}
		return fs.ReadFile(files, "style.css")
	}
	if data, err := read(func(name string) error { return os.Symlink(secret, name) }); err == nil || len(data) > 0 {
		t.Errorf("a link out of the look is read: %q, %v", data, err)
	}
	large := func(size int64) func(string) error {
		return func(name string) error {
			if err := os.WriteFile(name, nil, 0o600); err != nil {
				return err
			}
			return os.Truncate(name, size)
		}
	}
	if _, err := read(large(render.MostThemeFile)); err != nil {
		t.Error(err)
	}
	if _, err := read(large(render.MostThemeFile + 1)); err == nil || !strings.Contains(err.Error(), "at most") {
		t.Errorf("a file of a theme that is too large: %v", err)
	}
}

// TestPipes: a named pipe in the look is refused, and nothing waits for somebody to write
// into it.
func TestPipes(t *testing.T) {
	look := t.TempDir()
	if err := unix.Mkfifo(filepath.Join(look, "frame.html"), 0o644); err != nil {
		t.Skip("NOT CHECKED: no named pipes here: ", err)
	}
	within(t, "the digest of the look", func() {
		if _, ok := basisOf(look); ok {
			t.Error("a look with a pipe has a digest")
		}
	})
	within(t, "the look", func() {
		files, err := render.Theme(theme.Files, look)
		if err == nil {
			_, err = fs.ReadFile(files, "frame.html")
		}
		if err == nil || !strings.Contains(err.Error(), "not a plain file") {
			t.Errorf("a pipe in the look: %v", err)
		}
	})
}

// TestWaiting: a build says at once that another one holds the target.
func TestWaiting(t *testing.T) {
	to := filepath.Join(t.TempDir(), "public")
	if publish.Busy(to) {
		t.Error("nobody writes the target, and it is busy")
	}
	g, err := publish.Begin(to)
	if err != nil {
		t.Fatal(err)
	}
	if !publish.Busy(to) {
		t.Error("a build writes the target, and it is not busy")
	}
	said := make(chan bool, 1)
	ended := make(chan bool)
	from := t.TempDir()
	go func() {
		defer close(ended)
		_, _ = Build(Options{From: from, To: to, Waiting: func() { said <- true }})
	}()
	select {
	case <-said:
	case <-time.After(5 * time.Second):
		t.Error("the second build says nothing")
	}
	if err := g.Abandon(); err != nil {
		t.Fatal(err)
	}
	<-ended
	if publish.Busy(to) {
		t.Error("the target stays busy")
	}
}
