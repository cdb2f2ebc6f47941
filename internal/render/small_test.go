package render

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

// TestSizeOfAFile: a size is rounded up, and changes its unit at a whole megabyte.
func TestSizeOfAFile(t *testing.T) {
	for _, row := range []struct {
		bytes int64
		want  string
	}{
		{1, "1 KB"}, {1024, "1 KB"}, {1025, "2 KB"}, {1<<20 - 1, "1,024 KB"}, {1 << 20, "1 MB"}, {1<<20 + 1, "2 MB"},
	} {
		if got := size(row.bytes); got != row.want {
			t.Errorf("size(%d) = %q, want %q", row.bytes, got, row.want)
		}
	}
}

// TestLookOverAnother: what a look of the yard's own has comes before the built-in one. What is
// not a plain file, or is too large, is refused and not passed over.
func TestLookOverAnother(t *testing.T) {
	own := fstest.MapFS{
		"unit.html": {Data: []byte("own")},
		"pipe.html": {Mode: fs.ModeNamedPipe},
		"big.css":   {Data: make([]byte, MostThemeFile+1)},
		"most.css":  {Data: make([]byte, MostThemeFile)},
	}
	built := fstest.MapFS{}
	for _, name := range []string{"unit.html", "pipe.html", "big.css", "most.css", "yard.html"} {
		built[name] = &fstest.MapFile{Data: []byte("built in")}
	}
	look := over{own, built}
	for name, want := range map[string]string{"unit.html": "own", "yard.html": "built in", "most.css": string(make([]byte, MostThemeFile))} {
		if got, err := fs.ReadFile(look, name); err != nil || string(got) != want {
			t.Errorf("%s: %.20q, %v", name, got, err)
		}
	}
	for name, want := range map[string]string{"pipe.html": "not a plain file", "big.css": "a file of a theme has at most"} {
		if _, err := fs.ReadFile(look, name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", name, err, want)
		}
	}
	if _, err := fs.ReadFile(look, "nowhere.html"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("nowhere.html: %v", err)
	}
}
