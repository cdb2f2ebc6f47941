package unit

import (
	"errors"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tarepage/internal/media"
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

// TestMarksAreBounded: the parser's time grows with the square of the marks for emphasis. As many
// as are read take little time, and one more is refused before it is parsed.
func TestMarksAreBounded(t *testing.T) {
	for words, want := range map[string]int{"": 0, "**a** _b_ ~~c~~": 6, "*_*_": 4, "plain": 0, "****": 1} {
		if got := marks([]byte(words)); got != want {
			t.Errorf("%q: %d marks; want %d", words, got, want)
		}
	}
	at := "---\nstock: SB-1\n---\n" + strings.Repeat("*a_", mostMarks/2)
	start := time.Now()
	if u, problems := ReadUnit("a.md", []byte(at)); u.Broken || len(problems) > 0 {
		t.Errorf("as many marks as can be: %v", problems)
	}
	if took := time.Since(start); took > 5*time.Second {
		t.Errorf("as many marks as can be took %v", took)
	}
	if _, problems := ReadUnit("a.md", []byte(at+" *")); len(problems) != 1 || !strings.Contains(problems[0].Message, "marks") {
		t.Errorf("one mark more: %v", problems)
	}
}

// TestInTime: what ends in time is returned, and what does not is left alone.
func TestInTime(t *testing.T) {
	odd := errors.New("odd")
	if got, err := InTime(time.Minute, func() (int, error) { return 7, odd }); got != 7 || err != odd {
		t.Errorf("got %d, %v", got, err)
	}
	hold := make(chan int)
	defer close(hold)
	if got, err := InTime(time.Millisecond, func() (int, error) { return 1 + <-hold, nil }); got != 0 || err == nil || !strings.Contains(err.Error(), "takes longer than 1ms") {
		t.Errorf("what never ends gives %d, %v", got, err)
	}
}

// TestMistakenEndings: another ending is advised only where the file could be published under it.
func TestMistakenEndings(t *testing.T) {
	for _, c := range []struct{ name, kind, want string }{
		{"a.webm", "MP4", ".mp4"}, {"a.webm", "QuickTime", ".mp4"}, {"a.mp4", "WebM", ".webm"},
		{"a.webm", "WebM", ""}, {"a.mp4", "MP4", ""}, {"a.webm", "Matroska", ""}, {"a.webm", "AVI", ""}, {"a.webm", "", ""},
	} {
		got := mistaken(&Media{Name: "media/" + c.name, Video: &media.Video{Kind: c.kind}})
		if (got == "") != (c.want == "") || !strings.HasSuffix(got, c.want) {
			t.Errorf("%s that is %q: %q", c.name, c.kind, got)
		}
	}
}
