//go:build unix

package photo

import (
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
	list := []Original{{"a.jpg", path}}
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
