package files

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
)

// TestBelow: a folder reads as a file system has to (testing/fstest), and what it has not is not there.
func TestBelow(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"content/units/a.md", "content/yard.md", "content/media/deep/b.jpg"} {
		if err := WriteNew(filepath.Join(dir, filepath.FromSlash(name)), []byte(name)); err != nil {
			t.Fatal(err)
		}
	}
	if err := fstest.TestFS(Below(dir), "content/units/a.md", "content/yard.md", "content/media/deep/b.jpg"); err != nil {
		t.Error(err)
	}
	if _, err := fs.Stat(Below(dir), "content/none/a.md"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a folder that is not there: %v", err)
	}
	for _, name := range []string{"../a", "/etc", ""} {
		if _, err := fs.Lstat(Below(dir), name); !errors.Is(err, fs.ErrInvalid) {
			t.Errorf("%q: %v", name, err)
		}
	}
	if _, err := Below(filepath.Join(dir, "none")).Open("a"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("in a folder that is not there: %v", err)
	}
}

// TestBelowLeadsNowhere: a link out of the folder is seen and not followed, wherever it is in a
// path, and a folder that a link replaces while it is read is still the one that it was.
func TestBelowLeadsNowhere(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	units := filepath.Join(dir, "content", "units")
	for _, name := range []string{filepath.Join(units, "a.md"), filepath.Join(outside, "a.md"), filepath.Join(outside, "units", "a.md")} {
		text := "secret"
		if filepath.Dir(name) == units {
			text = "ours"
		}
		if err := WriteNew(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	root := Below(dir)
	if text, err := fs.ReadFile(root, "content/units/a.md"); err != nil || string(text) != "ours" {
		t.Fatalf("%q, %v", text, err)
	}
	link := func(to, at string) {
		t.Helper()
		if err := os.Rename(at, at+".was"); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(to, at); err != nil {
			t.Skip("NOT CHECKED: no symbolic links here: ", err)
		}
	}
	refused := func(what string) {
		t.Helper()
		if text, err := fs.ReadFile(Below(dir), "content/units/a.md"); err == nil {
			t.Errorf("%s is read: %q", what, text)
		}
	}
	link(outside, units)
	if text, err := fs.ReadFile(root, "content/units/a.md"); err != nil || string(text) != "ours" {
		t.Errorf("after a link came: %q, %v", text, err)
	}
	refused("a link in place of units")
	if info, err := fs.Lstat(root, "content/units"); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is not seen: %v, %v", info, err)
	}
	if to, err := fs.ReadLink(root, "content/units"); err != nil || to != outside {
		t.Errorf("it leads to %q, %v", to, err)
	}
	link(outside, filepath.Join(dir, "content"))
	refused("a link in place of content")
}
