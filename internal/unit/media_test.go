package unit_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/unit"
)

// TestMedia holds which of the files that a unit names are there.
func TestMedia(t *testing.T) {
	root := fstest.MapFS{
		"content/yard.md":           {Data: []byte("---\nname: Example Yard\nas-of: 2026-11-20\n---\n")},
		"content/media/Side.jpg":    {Data: []byte("x")},
		"content/media/walk.vtt":    {Data: []byte("WEBVTT")},
		"content/media/none.mp4":    {},
		"content/media/deep/in.jpg": {Data: []byte("x")},
		"secret.txt":                {Data: []byte("x")},
		"content/units/ex-1.md": {Data: []byte(`---
stock: EX-1
recording:
  captions: media/walk.vtt
  video: media/none.mp4
photos:
  - file: media/side.jpg
  - file: media/deep/in.jpg
  - file: ../secret.txt
  - file: /etc/hosts
  - file: media
  - file: media\side.jpg
---
`)},
	}
	s, problems, err := unit.Read(root)
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	want := []string{"", "is empty", "is called Side.jpg", "", "no path below content/", "no path below content/", "is no file", "write media/side.jpg"}
	list := s.Media["content/units/ex-1.md"]
	if len(list) != len(want) {
		t.Fatalf("%d files, want %d", len(list), len(want))
	}
	for i, m := range list {
		if (m.Fault == "") != (want[i] == "") || !strings.Contains(m.Fault, want[i]) {
			t.Errorf("%s: fault %q, want %q", m.Name, m.Fault, want[i])
		}
	}
}
