package unit

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// TestVideoEndsInTime: a video whose looking through takes too long has a fault that stops it, and
// one that is done in time has none.
func TestVideoEndsInTime(t *testing.T) {
	data, err := os.ReadFile("../media/testdata/first.mp4")
	if err != nil {
		t.Fatal(err)
	}
	root := fstest.MapFS{"content/media/a.mp4": {Data: data}}
	for patience, want := range map[time.Duration]string{-time.Second: "looking through it takes longer than -1s; record it again", time.Minute: ""} {
		s := shelfOf(root)
		s.patience = patience
		m := s.look([]Media{{Path: "recording.video", Name: "media/a.mp4"}})[0]
		if m.Fault != "" || !strings.HasPrefix(m.Video.Unclean, want) || (want == "") != (m.Video.Unclean == "") {
			t.Errorf("within %v: %q, %+v", patience, m.Fault, m.Video)
		}
	}
}
