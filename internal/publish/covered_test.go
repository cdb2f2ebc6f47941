package publish

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"
)

// TestCovered: what is covered is written over wherever the reading of the file is cut
// into pieces, and nothing beside it.
func TestCovered(t *testing.T) {
	const text = "0123456789abcdefghij"
	over := []Cover{{At: 3, Bytes: 6, With: "free"}, {At: 18, Bytes: 9, With: "end"}}
	const want = "012free\x00\x009abcdefghen"
	for name, r := range map[string]io.Reader{
		"whole": strings.NewReader(text), "by bytes": iotest.OneByteReader(strings.NewReader(text)), "by halves": iotest.HalfReader(strings.NewReader(text)),
	} {
		got, err := io.ReadAll(content{over: over}.covered(r))
		if err != nil || string(got) != want {
			t.Errorf("%s: %q, want %q (%v)", name, got, want, err)
		}
	}
	dir := t.TempDir()
	from := filepath.Join(dir, "walk.mp4")
	if err := os.WriteFile(from, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	for i, written := range []int{1, 0} {
		g, err := Begin(filepath.Join(dir, "public"))
		if err != nil {
			t.Fatal(err)
		}
		if err := g.AddCovered("media/walk.mp4", from, over); err != nil {
			t.Fatal(err)
		}
		if wrote := g.report.Written; wrote != written {
			t.Errorf("build %d writes %d files, want %d", i+1, wrote, written)
		}
		if _, err := g.Finish(); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := os.ReadFile(filepath.Join(dir, "public", "media", "walk.mp4")); err != nil || string(got) != want {
		t.Errorf("published %q, want %q (%v)", got, want, err)
	}
}
