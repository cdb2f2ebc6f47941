package walkaround

import (
	"strings"
	"testing"

	"tarepage/internal/captions"
)

func notesOf(said string) (string, []Omission) {
	c := captions.Track{Cues: []captions.Cue{{Start: 1, End: 9, Text: said}}}
	notes, out := Notes(c)
	var text []string
	for _, n := range notes {
		text = append(text, n.Text)
	}
	return strings.Join(text, " "), out
}

// TestPrivateExamples: nothing of a private phrase is in the notes, and a line says why.
func TestPrivateExamples(t *testing.T) {
	for _, p := range privates {
		if text, out := notesOf(p.example); text != "" || len(out) != 1 || out[0].Reason != p.reason {
			t.Errorf("%q: the notes say %q, left out are %v", p.example, text, out)
		}
	}
}

func TestOmissions(t *testing.T) {
	for _, c := range []struct{ said, keeps, reason string }{
		{"Call us at 555-0100. The jack is new.", "The jack is new.", byPhone},
		{"the jack is new. five five five, oh one one eight.", "The jack is new.", byPhone},
		{"it's a ten foot trailer. walking over to the red one. it has a winch", "It's a ten foot trailer.", ofSecond},
		{"good morning. the jack is new.", "The jack is new.", byName},
		{"ask for the twelve k jack", "Ask for the twelve k jack.", ""},
		{"235/80R16 tires and 5,200 lb axles", "235/80R16 tires and 5,200 lb axles.", ""},
	} {
		text, out := notesOf(c.said)
		if text != c.keeps || (len(out) > 0) != (c.reason != "") || len(out) > 0 && out[0].Reason != c.reason {
			t.Errorf("%q: the notes say %q, left out are %v", c.said, text, out)
		}
	}
}
