package unit_test

import (
	"os"
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
	// A yard is copied to other systems: no video has a name that Windows reserves or drops, nor
	// that of a device of its, nor is next to one that differs in capitals or accents only.
	for name, fault := range map[string]string{
		`a"b.mp4`: "Windows reserves", "a:b.mp4": "Windows reserves", "a?.mp4": "Windows reserves", "dot./a.mp4": "Windows drops",
		"CON.mp4": "is a device", "nul.mov": "is a device", "com1 .x.mp4": "is a device", "lpt².webm": "is a device", "Aux/a.mp4": "is a device",
		"Walk.mp4": "differ in capitals only", "walk.MP4": "differ in capitals only", "In/a.mp4": "differ in capitals only", "in/b.mp4": "differ in capitals only",
		"h\u00f6he.mp4": "only in how accented letters are stored", "Ho\u0308he.mp4": "only in how accented letters are stored",
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
	want := []string{"", "is empty", "is called Side.jpg", "", "not a path below content/", "a place on your computer; copy the file into content/media and write media/hosts", "only a file in content/media", "write media/side.jpg"}
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

// TestAccents: a name is found whichever way its accented letters are stored, and is then as the disk has it.
func TestAccents(t *testing.T) {
	const typed, stored = "caf\u00e9", "cafe\u0301"
	for _, c := range [][2]string{{typed, stored}, {stored, typed}, {typed, typed}, {stored, stored}} {
		root := fstest.MapFS{
			"content/yard.md": &fstest.MapFile{Data: []byte("---\nname: Yard\n---\n")},
			"content/media/" + c[1] + "/" + c[1] + ".vtt": &fstest.MapFile{Data: []byte("WEBVTT\n")},
			"content/models/" + c[1] + ".md":              &fstest.MapFile{Data: []byte("---\nweights:\n  gvwr: 7,000 lb (tag)\n---\n")},
			"content/units/a.md":                          &fstest.MapFile{Data: []byte("---\nstock: A-1\nmodel: " + c[0] + "\nrecording:\n  captions: media/" + c[0] + "/" + c[0] + ".vtt\n---\n")},
		}
		s, problems, err := unit.Read(root)
		if err != nil || len(problems) > 0 {
			t.Fatal(err, problems)
		}
		if m := s.Media["content/units/a.md"]; len(m) != 1 || m[0].Fault != "" || m[0].Name != "media/"+c[1]+"/"+c[1]+".vtt" {
			t.Errorf("%+q named, %+q there: %+v", c[0], c[1], m)
		}
		if got := s.Units[0].Weights.GVWR.Value; got != 7000 {
			t.Errorf("%+q named, model %+q there: GVWR %v", c[0], c[1], got)
		}
	}
}

// TestOnlyMediaIsNamed: a unit can name files below media/ only, with an ending of their
// kind, and a video only if it holds what its name says. Everything else below content/ is
// somebody's own: another unit's file, settings with passwords, a page with scripts.
func TestOnlyMediaIsNamed(t *testing.T) {
	webm, err := os.ReadFile("../media/testdata/vp8.webm")
	if err != nil {
		t.Fatal(err)
	}
	mp4, err := os.ReadFile("../media/testdata/first.mp4")
	if err != nil {
		t.Fatal(err)
	}
	page := []byte("<!doctype html><script>alert(1)</script>")
	files := map[string][]byte{
		"units/secret.md": []byte("---\nstock: S-1\nwithhold: not yet\n---\n"), "models/m.md": []byte("---\nkind: dump\n---\n"),
		"yard.md": []byte("---\nname: Example Yard\nas-of: 2026-11-20\n---\n"), ".env": []byte("KEY=1"), "page.html": page, "walk.mp4": mp4,
		"media/page.html": page, "media/page.mp4": page, "media/.env": []byte("KEY=1"), "media/walk.mp4": mp4, "media/WALK2.MP4": mp4, "media/walk.webm": webm,
		"media/wrong.webm": mp4, "media/wrong.mp4": webm, "media/walk": mp4, "media/walk.vtt": []byte("WEBVTT\n"), "media/walk.txt": []byte("WEBVTT\n"),
		"media/side.jpg": []byte("x"), "media/side": []byte("x"), "media/side.svg": []byte("<svg/>"), "media/side.gif": []byte("GIF89a"), "mediated/side.jpg": []byte("x"),
	}
	const elsewhere, ending = "only a file in content/media may be named", "the name does not end in"
	for _, c := range []struct{ key, name, fault string }{
		{"video", "media/walk.mp4", ""}, {"video", "media/WALK2.MP4", ""}, {"video", "media/walk.webm", ""},
		{"video", "units/secret.md", elsewhere}, {"video", "models/m.md", elsewhere}, {"video", "yard.md", elsewhere}, {"video", ".env", elsewhere},
		{"video", "page.html", elsewhere}, {"video", "walk.mp4", "the file is in content/media; write media/walk.mp4"}, {"photo", `C:\Users\Me\side.jpg`, "copy the file into content/media and write media/side.jpg"}, {"video", "media/../yard.md", "not a path below content/"},
		{"video", "media/page.html", ending}, {"video", "media/.env", ending}, {"video", "media/walk", ending}, {"video", "media/side.jpg", ending},
		{"video", "media/wrong.webm", "it is MP4 by what it holds"}, {"video", "media/wrong.mp4", "it is WebM by what it holds"},
		{"captions", "media/walk.vtt", ""}, {"captions", "media/walk.txt", ending}, {"captions", ".env", elsewhere}, {"captions", "units/secret.md", elsewhere}, {"captions", "media/.env", ending},
		{"photo", "media/side.jpg", ""}, {"photo", "media/side.gif", ""}, {"photo", "media/side", ending}, {"photo", "media/side.svg", ending}, {"photo", ".env", elsewhere},
		{"photo", "mediated/side.jpg", elsewhere}, {"photo", "units/secret.md", elsewhere},
	} {
		root := fstest.MapFS{}
		for name, data := range files {
			root["content/"+name] = &fstest.MapFile{Data: data}
		}
		front := "recording:\n  " + c.key + ": " + c.name
		if c.key == "photo" {
			front = "photos:\n  - file: " + c.name
		}
		root["content/units/a.md"] = &fstest.MapFile{Data: []byte("---\nstock: A-1\n" + front + "\n---\n")}
		s, _, err := unit.Read(root)
		if err != nil {
			t.Fatal(err)
		}
		list := s.Media["content/units/a.md"]
		if len(list) != 1 || (list[0].Fault == "") != (c.fault == "") || !strings.Contains(list[0].Fault, c.fault) {
			t.Errorf("%s %s: %+v, want a fault %q", c.key, c.name, list, c.fault)
		}
	}
	// A page under a video's name has no fault of its own; it is refused for what it holds.
	root := fstest.MapFS{"content/yard.md": {Data: files["yard.md"]}, "content/media/page.mp4": {Data: page},
		"content/units/a.md": {Data: []byte("---\nstock: A-1\nrecording:\n  video: media/page.mp4\n---\n")}}
	s, _, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	if m := s.Media["content/units/a.md"][0]; m.Video == nil || !strings.Contains(m.Video.Unclean, "it is not a video") {
		t.Errorf("a page passes for a video: %+v", m)
	}
}

// TestWithheld: the key keeps a unit out, whatever comes after it.
func TestWithheld(t *testing.T) {
	for line, want := range map[string]bool{
		"": false, "withhold: waiting for the title": true, "withhold:": true, "withhold: \"\"": true, "withhold: ''": true, "withhold: ~": true, "withhold: null": true,
		"withhold: '   '": true, "withhold: # why": true, "withhold: no": true, "withhold: false": true, "withhold: [a]": true, "withhold: {a: b}": true,
		"withhold: |": true, "withhold: &a why": true, "withold: why": true, "Withhold: why": true, "withhold: \"\\u202e\"": true, "withhold: a\nwithhold: b": true,
	} {
		u, _ := unit.ReadUnit("content/units/a.md", []byte("---\nstock: A-1\n"+line+"\n---\n"))
		if got := u.Withheld(); got != want {
			t.Errorf("%q: withheld %v, want %v", line, got, want)
		}
	}
}
