package walkpage

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"tarepage/internal/walkback"
)

// gvwrRead is the answer of somebody who read the GVWR off the label.
var gvwrRead = []walkback.Answer{{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9,900", Place: "tag"}}

// TestNotesAreCounted: a unit gets its notes and not one more, and what is sent twice or only
// tried does not count.
func TestNotesAreCounted(t *testing.T) {
	d, file := yard(t)
	note := func(n int, save bool) *view {
		return d.post(t, sent{Save: save, Note: fmt.Sprintf("Seen today, number %d.", n)})
	}
	for n := range mostUnitNotes {
		note(n, false)
		if v := note(n, true); !v.NoteTaken {
			t.Fatalf("note %d: %s", n, v.NoteRefused)
		}
		note(n, true) // the phone did not hear of it, and sends it again
	}
	before := content(t, file)
	if v := note(mostUnitNotes, true); v.NoteTaken || !strings.Contains(v.NoteRefused, "write more at the desk") || content(t, file) != before {
		t.Errorf("a note more: %q", v.NoteRefused)
	}
	if v := note(0, true); !v.NoteTaken {
		t.Errorf("a note that is there: %q", v.NoteRefused)
	}
	// An answer that comes with a note too many is taken.
	if v := d.post(t, sent{Save: true, Note: "One more.", Answers: gvwrRead}); v.NoteTaken || len(v.Outcomes) != 1 || v.Outcomes[0].Outcome != "taken" {
		t.Errorf("an answer with a note too many: %+v", v)
	}
}

// TestSessionIsCounted: the limits on all units together.
func TestSessionIsCounted(t *testing.T) {
	var q quota
	for n := range mostNotes {
		name := fmt.Sprint(n / mostUnitNotes)
		if err := q.note(name); err != nil {
			t.Fatal(n, err)
		}
		q.tookNote(name)
	}
	if err := q.note("another"); err == nil || !strings.Contains(err.Error(), "start it again at the desk") {
		t.Errorf("a note more than a session takes: %v", err)
	}
	half := mostPhotoBytes / 2
	q.tookPhoto("a", half)
	if err := q.photo("b", half); err != nil {
		t.Error(err)
	}
	if err := q.photo("b", half+1); err == nil || !strings.Contains(err.Error(), "8 GB") {
		t.Errorf("a byte more than a session takes: %v", err)
	}
}

// TestPhotosAreCounted: a unit gets its photos and not one more, and nothing of that one stays.
func TestPhotosAreCounted(t *testing.T) {
	d, file := yard(t)
	d.post(t, sent{Save: true, Answers: gvwrRead})
	d.took.photos = map[string]int{"sb-1050": mostUnitPhotos - 1}
	send := func(n int) int {
		return d.asked("POST", "/w/sb-1050/photo?key=weights.gvwr&place=tag", "image/jpeg", fmt.Sprint(jpeg, n)).Code
	}
	if code := send(1); code != http.StatusOK {
		t.Errorf("the last photo: %d", code)
	}
	before := content(t, file)
	if code := send(2); code != http.StatusConflict || content(t, file) != before {
		t.Errorf("a photo more: %d", code)
	}
}
