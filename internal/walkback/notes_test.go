package walkback

import (
	"strings"
	"testing"

	"tarepage/internal/unit"
)

// TestNotesAreShown: the phone shows the notes that were heard, and read is the only answer.
func TestNotesAreShown(t *testing.T) {
	file := []byte("---\nstock: A-1\nrecording:\n  length: 1:00\n  notes: heard\n---\n\n0:10 The key hangs in the shop.\n\n0:20 Ten inch drums.\n")
	line := func(file []byte) *Line {
		u, _ := unit.ReadUnit("content/units/a-1.md", file)
		for _, s := range Stations(u, file) {
			for i := range s.Open {
				if s.Open[i].Key == notesKey {
					return &s.Open[i]
				}
			}
		}
		return nil
	}
	l := line(file)
	if l == nil || !strings.Contains(l.Said, "The key hangs in the shop.") || !strings.Contains(l.Said, "Ten inch drums.") || len(l.Choices) != 1 || l.Now != "" {
		t.Fatalf("the line is %+v", l)
	}
	out, done := Revise(file, []Answer{{Key: notesKey, Own: l.Own, Value: "read"}}, "2026-11-20")
	if done[0].Outcome != Taken || !strings.Contains(string(out), "\n  notes: read\n") {
		t.Fatalf("%+v: %s", done, out)
	}
	if l := line(out); l != nil {
		t.Errorf("notes that were read give the line %+v", l)
	}
	if l := line([]byte("---\nstock: A-1\nrecording:\n  notes: heard\n---\n")); l != nil {
		t.Errorf("no notes give the line %+v", l)
	}
}
