package unit_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/unit"
)

// TestMedia holds which of the files that a unit names are there.
func TestMedia(t *testing.T) {
	videos := map[string]string{} // what is wrong with them, by the files of their units
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
	// A video is published under its own name: not with what Windows reserves or drops, nor
	// for a device of its, nor beside one that differs in capitals only.
	for name, fault := range map[string]string{
		`a"b.mp4`: "Windows reserves", "a:b.mp4": "Windows reserves", "a?.mp4": "Windows reserves", "dot./a.mp4": "Windows drops",
		"CON.mp4": "is a device", "nul": "is a device", "com1 .x.mp4": "is a device", "lpt²": "is a device", "Aux/a.mp4": "is a device",
		"Walk.mp4": "differ in capitals only", "walk.MP4": "differ in capitals only", "In/a.mp4": "differ in capitals only", "in/b.mp4": "differ in capitals only",
		"console.mp4": "", "com10.mp4": "", "a b'&é.mp4": "",
	} {
		root["content/media/v/"+name] = &fstest.MapFile{Data: []byte("x")}
		root["content/units/"+strings.ReplaceAll(name, "/", "_")+".md"] = &fstest.MapFile{Data: []byte("---\nstock: V-1\nrecording:\n  video: 'media/v/" + strings.ReplaceAll(name, "'", "''") + "'\n---\n")}
		videos["content/units/"+strings.ReplaceAll(name, "/", "_")+".md"] = fault
	}
	s, problems, err := unit.Read(root)
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	want := []string{"", "is empty", "is called Side.jpg", "", "no path below content/", "no path below content/", "is no file", "write media/side.jpg"}
	for file, want := range videos {
		list := s.Media[file]
		if len(list) != 1 || (list[0].Fault == "") != (want == "") || !strings.Contains(list[0].Fault, want) {
			t.Errorf("%s: %+v, want a fault %q", file, list, want)
		}
	}
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
