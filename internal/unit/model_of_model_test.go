package unit

import (
	"strings"
	"testing"
	"testing/fstest"
)

// TestModelOfAModel: a model that names another one is a problem, because nothing of the other is
// taken: a MAX LOAD plate in it would be lost.
func TestModelOfAModel(t *testing.T) {
	file := func(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }
	root := fstest.MapFS{
		"content/yard.md":          file("---\nname: Yard\n---\n"),
		"content/units/a.md":       file("---\nstock: A-1\nmodel: first\n---\n"),
		"content/models/first.md":  file("---\nmodel: second\n---\n"),
		"content/models/second.md": file("---\nweights:\n  max-load: 500 lb (plate)\n---\n"),
	}
	r, err := Open(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range r.problems {
		if p.At.File == "content/models/first.md" && p.Rule == UnknownKey && strings.Contains(p.Message, `"second"`) {
			return
		}
	}
	t.Errorf("%+v", r.problems)
}
