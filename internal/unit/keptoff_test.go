package unit_test

import (
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/unit"
)

// TestKeptOff: a photo that a proof keeps off the site is published by nobody, under no name,
// and nothing is that a file names which does not read.
func TestKeptOff(t *testing.T) {
	proof := func(file, more string) string {
		return "proof:\n  - file: " + file + "\n    shows: label\n    proves: weights.gvwr\n" + more
	}
	const withhold = "    withhold: a name\n"
	for name, c := range map[string]struct {
		unit string // the front matter of sb-1.md
		want string // the files that nobody publishes
	}{
		"nothing withheld":     {"stock: SB-1\n" + proof("media/label.jpg", ""), ""},
		"withheld, its copies": {"stock: SB-1\n" + proof("media/label.jpg", withhold), "media/COPY.JPG media/LABEL.JPG media/label.jpg"},
		"in units/media":       {"stock: SB-1\n" + proof("media/under.jpg", withhold), "units/media/under.jpg"},
		"of the same size":     {"stock: SB-1\n" + proof("media/other.jpg", withhold), "media/other.jpg"},
		"YAML that does not read": {"stock: SB-1\n" + proof("media/label.jpg", withhold) + "jack: a: b\n",
			"media/COPY.JPG media/LABEL.JPG media/label.jpg"},
		"quoted":                 {"stock: SB-1\nproof: [{file: \"media/label.jpg\", withhold: 'no'}]\njack: a: b\n", "media/COPY.JPG media/LABEL.JPG media/label.jpg"},
		"in other capitals":      {"stock: SB-1\n" + proof("Media/OTHER.jpg", withhold) + "jack: a: b\n", "media/other.jpg"},
		"a misspelled key":       {"stock: SB-1\n" + proof("media/other.jpg", "    withold: a name\n"), "media/other.jpg"},
		"a misspelled section":   {"stock: SB-1\n" + strings.Replace(proof("media/other.jpg", withhold), "proof", "proofs", 1), "media/other.jpg"},
		"a section of one":       {"stock: SB-1\nproof:\n  file: media/other.jpg\n  withhold: a name\n", "media/other.jpg"},
		"given twice":            {"stock: SB-1\n" + proof("media/other.jpg", "") + "proof:\n  - file: media/label.jpg\n" + withhold, "media/COPY.JPG media/LABEL.JPG media/label.jpg"},
		"another key's trouble":  {"stock: SB-1\nweights:\n  gvwr: much\n" + proof("media/other.jpg", ""), ""},
		"its video":              {"stock: SB-1\nrecording: {video: media/walk.mp4\n", "media/walk.mp4"},
		"no front matter at all": {"\x00", ""},
	} {
		root := fstest.MapFS{
			"content/yard.md":               {Data: []byte("---\nname: Example Yard\nas-of: 2026-11-20\n---\n")},
			"content/units/sb-1.md":         {Data: []byte("---\n" + c.unit + "---\n")},
			"content/media/label.jpg":       {Data: []byte("a label")},
			"content/media/LABEL.JPG":       {Data: []byte("a label")},
			"content/media/COPY.JPG":        {Data: []byte("a label")},
			"content/media/other.jpg":       {Data: []byte("A label")},
			"content/media/sb-1-x.jpg":      {Data: []byte("its own")},
			"content/media/sb-10.jpg":       {Data: []byte("another's")},
			"content/media/walk.mp4":        {Data: []byte("a walk")},
			"content/units/media/under.jpg": {Data: []byte("beneath")},
		}
		other := "---\nstock: SB-2\nrecording:\n  video: media/walk.mp4\nphotos:\n"
		for _, file := range slices.Sorted(maps.Keys(root)) {
			if base, ok := strings.CutPrefix(file, "content/"); ok && strings.EqualFold(base[len(base)-4:], ".jpg") {
				other += "  - file: " + strings.TrimPrefix(base, "units/") + "\n"
			}
		}
		root["content/units/sb-2.md"] = &fstest.MapFile{Data: []byte(other + "---\n")}
		s, _, err := unit.Read(root)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(slices.Sorted(maps.Keys(s.WithheldFiles())), " "); got != c.want {
			t.Errorf("%s: %q; want %q", name, got, c.want)
		}
		for file := range s.WithheldFiles() {
			if why, off := s.KeptOff(file); !off || why.At.File != "content/units/sb-1.md" {
				t.Errorf("%s: %s: %+v", name, file, why)
			}
		}
	}
	// A file that cannot be opened: what is named like it waits.
	root := fstest.MapFS{
		"content/yard.md":          {Data: []byte("---\nname: Example Yard\nas-of: 2026-11-20\n---\n")},
		"content/units/sb-1.md":    {Mode: fs.ModeNamedPipe},
		"content/units/sb-2.md":    {Data: []byte("---\nstock: SB-2\nphotos:\n  - file: media/sb-1-x.jpg\n  - file: media/sb-10.jpg\n---\n")},
		"content/media/sb-1-x.jpg": {Data: []byte("its own")},
		"content/media/sb-10.jpg":  {Data: []byte("another's")},
	}
	s, _, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	if got := slices.Sorted(maps.Keys(s.WithheldFiles())); len(got) != 1 || got[0] != "media/sb-1-x.jpg" {
		t.Errorf("a file that does not open: %q", got)
	}
}
