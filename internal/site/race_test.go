package site

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"tarepage/internal/testyard"
)

// TestRequestsWhileEditing asks for pages of a site, several at a time, while the yard's
// files are edited and the site is made again. Old pages are still being asked for then: a
// browser does not wait for the newest. The race detector is what makes this a test.
func TestRequestsWhileEditing(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	const units, edits, readers = 3, 4, 2
	dir := t.TempDir()
	if err := testyard.Write(dir, units); err != nil {
		t.Fatal(err)
	}
	talk := filepath.Join(dir, "content/media/walk.vtt")
	if err := os.MkdirAll(filepath.Dir(talk), 0o755); err != nil {
		t.Fatal(err)
	}
	change(t, filepath.Join(dir, "content/yard.md"), "address: https://yard.example/\n")
	// The captions change and the unit does not, so that a unit is examined again whose pages
	// are still being asked for.
	for i := range units {
		change(t, filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(i))), "")
	}
	speak := func(n int) {
		text := fmt.Sprintf("WEBVTT\n\n00:01.000 --> 00:04.000\nthis is take %d\n", n)
		if err := os.WriteFile(talk, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	speak(0)
	kept := Remembering()
	paths := []string{"index.html", "list.html", "feed.xml", "stock.json", "how-we-figure.html", "404.html", "worker.js"}
	for i := range units {
		paths = append(paths, testyard.Page(i))
	}
	var all sync.WaitGroup
	defer all.Wait()
	for n := range edits {
		shown, err := Show(Options{From: dir}, kept)
		if err != nil {
			t.Fatal(err)
		}
		for range readers {
			all.Go(func() {
				for _, path := range paths {
					if _, err := shown.File(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
						t.Errorf("%s: %v", path, err)
					}
				}
			})
		}
		speak(n + 1)
		change(t, filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(1))), fmt.Sprintf("# edit %d\n", n))
	}
}

// change adds lines to the front matter of a file, and captions to its recording.
func change(t *testing.T, file, lines string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	text = bytes.Replace(text, []byte("recording:\n  length"), []byte("recording:\n  captions: media/walk.vtt\n  length"), 1)
	if err := os.WriteFile(file, append([]byte("---\n"+lines), text[len("---\n"):]...), 0o644); err != nil {
		t.Fatal(err)
	}
}
