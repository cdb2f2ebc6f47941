package unit

import (
	"strings"
	"testing"
)

// TestPrivateIsNotForCustomers: no message offers to publish what a yard keeps to itself.
func TestPrivateIsNotForCustomers(t *testing.T) {
	remedy := func(line string) string {
		_, problems := ReadUnit("content/units/a.md", []byte("---\n"+line+"\n---\n"))
		if len(problems) != 1 || problems[0].Rule != UnknownKey {
			t.Fatalf("%q gives %+v", line, problems)
		}
		return problems[0].Remedy
	}
	offers := func(s string) bool {
		return strings.Contains(s, "list it under standard") || strings.Contains(s, "goes under standard") || strings.HasPrefix(s, "write it in words")
	}
	lines := []string{"dealer cost: 3100", "our-cost: $3,100", "invoice: 4711", "floor price: 3300", "owner: Bob Hill 555-0133",
		"customer: Ann Lee 555-0161", "note: call Ann 555-0161", "gizmo: ann@buyer.example", "gizmo: (555) 555-0161", "ownership:\n  owner: Bob Hill"}
	lines = append(lines, "x-note: hi", "_private: 3", "tie-downs:\n  - cost: 41", "tie-downs:\n  - x-note: 3", "photos:\n  - customer: Ann Lee",
		"proof:\n  - our-cost: 3100", "waive:\n  - customer: Ann")
	for _, row := range privateWords {
		lines = append(lines, row.example)
	}
	for _, line := range lines {
		if got := remedy(line); offers(got) || !strings.Contains(got, "this is not for them") {
			t.Errorf("%q gives %q", line, got)
		}
	}
	for _, row := range privateWords {
		for word := range strings.SplitSeq(row.words, "|") {
			if e, known := everydayFor(word, ""); known {
				t.Errorf("%q is private and %+v", word, e)
			}
			if keyNamed(word) != nil {
				t.Errorf("%q is private and a key", word)
			}
		}
	}
	for _, line := range []string{"gizmo: $300", "gizmo: 3100", "gizmo: 3,100", "gizmo: 3.1k", "roof: 300 dollars", "gate:\n  gizmo: 3100"} {
		if got := remedy(line); offers(got) || !strings.Contains(got, "is this number for customers?") {
			t.Errorf("%q gives %q", line, got)
		}
	}
	if got := remedy("gizmo: Ray Poole"); !strings.Contains(got, "if it is somebody's name") {
		t.Errorf("a name gives %q", got)
	}
	for _, line := range []string{"gizmo: yes", "gizmo: 2", "gizmo: 99", "owner's manual: yes", "roof: one piece", "kayak rack: fits two"} {
		if got := remedy(line); !strings.Contains(got, "list it under standard") || strings.Contains(got, "#") {
			t.Errorf("%q gives %q", line, got)
		}
	}
	for _, line := range []string{"proof-label: media/a.jpg", "proof-weights: yes", "proof:\n  - proof-day: 3"} {
		if got := remedy(line); got != proofRemedy {
			t.Errorf("%q gives %q", line, got)
		}
	}
	if got := remedy("note: call Ann"); !strings.Contains(got, "where customers read it") {
		t.Errorf("a note gives %q", got)
	}
	_, problems := ReadUnit("content/units/a.md", []byte("---\nstandard:\n  - cost: 4100\n---\n"))
	if len(problems) != 1 || !strings.Contains(problems[0].Remedy, "this is not for them") {
		t.Errorf("an item of a list gives %+v", problems)
	}
	if got := remedy("delivery cost: $200"); !strings.Contains(got, "below offer: as plus:") {
		t.Errorf("delivery cost gives %q", got)
	}
}
