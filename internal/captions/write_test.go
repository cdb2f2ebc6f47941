package captions

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/asticode/go-astisub"
)

// TestWebVTT reads the captions of every walk-around and writes them again. Our reader gives the
// same cues, and an independent one, github.com/asticode/go-astisub v0.34.0, the same times.
func TestWebVTT(t *testing.T) {
	files, err := filepath.Glob("../walkaround/testdata/tune/walks/*.[vs][tr]t")
	if err != nil || len(files) == 0 {
		t.Fatal("no walks", err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		c, _, err := Read(name, data)
		if err != nil {
			t.Fatal(err)
		}
		text := c.WebVTT()
		again, doubts, err := Read(name, []byte(text))
		if err != nil || len(doubts) > 0 || len(again.Cues) != len(c.Cues) {
			t.Fatalf("%s: %d cues of %d, %v %v", name, len(again.Cues), len(c.Cues), doubts, err)
		}
		other, err := astisub.ReadFromWebVTT(strings.NewReader(text))
		if err != nil || len(other.Items) != len(c.Cues) {
			t.Fatalf("%s: the other reader: %v", name, err)
		}
		for i, cue := range c.Cues {
			if a := again.Cues[i]; a.Start != cue.Start || a.End != cue.End || a.Text != cue.Text || a.Speaker != "" {
				t.Errorf("%s: cue %d is %+v, was %+v", name, i, a, cue)
			}
			if o := other.Items[i]; int(o.StartAt.Milliseconds()) != milliseconds(cue.Start) || int(o.EndAt.Milliseconds()) != milliseconds(cue.End) {
				t.Errorf("%s: the other reader has cue %d from %v to %v", name, i, o.StartAt, o.EndAt)
			}
		}
	}
}

// TestWebVTTHoldsMarks: what would end a cue or open a tag stays text, and who speaks is left out.
func TestWebVTTHoldsMarks(t *testing.T) {
	c := Track{Cues: []Cue{{Start: 1, End: 2, Speaker: "A > B", Text: "a --> b\n\n<i>&amp;"}, {Start: 3, End: 3, Text: "no length"}}}
	want := "WEBVTT\n\n00:00:01.000 --> 00:00:02.000\na --&gt; b\n&lt;i&gt;&amp;amp;\n"
	if got := c.WebVTT(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	again, _, err := Read("x", []byte(want))
	if err != nil || len(again.Cues) != 1 || again.Cues[0].Text != "a --> b\n<i>&amp;" {
		t.Errorf("read back: %+v %v", again.Cues, err)
	}
	got := Chapters([]Chapter{{0, 12, "Coupler & jack"}, {12, 12, "None"}, {12, 3700, "Tail"}})
	if want := "WEBVTT\n\n00:00:00.000 --> 00:00:12.000\nCoupler &amp; jack\n\n00:00:12.000 --> 01:01:40.000\nTail\n"; got != want {
		t.Errorf("chapters %q, want %q", got, want)
	}
}

// TestNoSpeakers: a speaker's name is not in the captions that are published, also where its mark
// is not closed or is only a custom.
func TestNoSpeakers(t *testing.T) {
	for text, want := range map[string]string{
		"<v Bob>the deck": "the deck", "<v Bob Miller the deck": "", "<v.loud Bob the deck\nis new": "is new", "ok <V Bob": "ok",
		">> BOB: the deck": "&gt;&gt; the deck", ">>Bob Miller: it is": "&gt;&gt; it is", "- [Ann]: yes": "&gt;&gt; yes",
		">> it is 7:15": "&gt;&gt; it is 7:15", "GVWR: 7,000": "GVWR: 7,000", "a < v and b": "a &lt; v and b", "- yes: it is": "&gt;&gt; it is",
	} {
		track, _, err := Read("a.vtt", []byte("WEBVTT\n\n00:01.000 --> 00:02.000\n"+text+"\n\n00:03.000 --> 00:04.000\nend\n"))
		if err != nil {
			t.Fatal(err)
		}
		got, _, _ := strings.Cut(track.WebVTT(), "00:00:03")
		if _, got, _ = strings.Cut(got, "00:00:02.000\n"); strings.TrimSpace(got) != want {
			t.Errorf("%q: %q; want %q", text, got, want)
		}
	}
}
