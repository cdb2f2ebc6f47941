//go:build unix

package photo

import (
	"image/color"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"
)

// TestPipesInTheKeep: a pipe in place of anything that is kept is not waited for. The pictures are
// made again.
func TestPipesInTheKeep(t *testing.T) {
	dir := t.TempDir()
	shop := &Shop{Keep: filepath.Join(dir, "keep")}
	path := filepath.Join(dir, "a.jpg")
	writeFile(t, path, saved(t, scene(1), 90))
	list := []Original{{Name: "a.jpg", Path: path}}
	if made, faults, err := shop.Work(list); err != nil || len(faults) > 0 || made["a.jpg"] == nil {
		t.Fatal(faults, err)
	}
	shop.Sketches(list)
	var names []string
	err := filepath.WalkDir(shop.Keep, func(name string, d os.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() {
			names = append(names, name)
		}
		return err
	})
	if err != nil || len(names) < 6 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		if err := os.Remove(name); err != nil {
			t.Fatal(err)
		}
		if err := unix.Mkfifo(name, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	made, faults, err := shop.Work(list)
	if err != nil || len(faults) > 0 || made["a.jpg"] == nil {
		t.Error(faults, err)
	}
	if got := shop.Sketches(list); !got["a.jpg"].whole() {
		t.Error("there is no sketch")
	}
}

// TestNoPhotoFromOutside: a link in the place of a folder on the way leads to no photo outside.
func TestNoPhotoFromOutside(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	data := onePicture(t, color.White)
	writeFile(t, filepath.Join(outside, "a.jpg"), data)
	if err := os.Mkdir(filepath.Join(dir, "ours"), 0o755); err != nil {
		t.Fatal(err)
	}
	writeFile(t, filepath.Join(dir, "ours", "a.jpg"), data)
	if err := os.Symlink(outside, filepath.Join(dir, "media")); err != nil {
		t.Fatal(err)
	}
	list := []Original{{Name: "ours", Path: "ours/a.jpg", Folder: dir}, {Name: "theirs", Path: "media/a.jpg", Folder: dir}, {Name: "gone", Path: "a.jpg", Folder: filepath.Join(dir, "none")}}
	made, faults, err := (&Shop{Keep: t.TempDir()}).Work(list)
	if err != nil || made["ours"] == nil || len(made) != 1 || faults["theirs"] == "" || faults["gone"] == "" {
		t.Errorf("made %v, faults %v, %v", made, faults, err)
	}
}
