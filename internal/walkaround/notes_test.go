package walkaround

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/captions"
)

func walk(t testing.TB, name string) captions.Track {
	t.Helper()
	data, err := os.ReadFile("testdata/tune/walks/" + name)
	if err != nil {
		t.Fatal(err)
	}
	c, _, err := captions.Read(name, data)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// TestNotesOfAWalk holds the headings of one walk-around to the order in which its parts are
// first spoken of, each once, the same in both formats (the cues are cut at different words). What
// is said of the brakes in one breath with the axles may be under either heading.
func TestNotesOfAWalk(t *testing.T) {
	want := []string{"Overview", "Hitch and tongue", "Frame", "Axles and tires", "Weights", "Price"}
	for _, name := range []string{"1-gooseneck.vtt", "1-gooseneck.srt"} {
		notes, _ := Notes(walk(t, name), heardOf(walk(t, name)))
		var headings []string
		last := -1.0
		for _, n := range notes {
			t.Logf("%s | %s", n.Heading, n)
			if len(headings) == 0 || headings[len(headings)-1] != n.Heading {
				if slices.Contains(headings, n.Heading) {
					t.Errorf("%s: %s is there twice", name, n.Heading)
				}
				headings = append(headings, n.Heading)
				last = -1
			}
			if n.Start < last || n.End <= n.Start {
				t.Errorf("%s: times %.2f-%.2f after %.2f", name, n.Start, n.End, last)
			}
			last = n.Start
		}
		at := 0
		for _, h := range headings {
			if at < len(want) && h == want[at] {
				at++
			}
		}
		if at < len(want) {
			t.Errorf("%s: headings %q do not go by %q", name, headings, want)
		}
	}
}

// TestNotesKeepTheWords checks over all walk-arounds of tune that a note holds what was
// said: every word that is not left out for a reason, in order, except for those that Notes
// may drop or correct.
func TestNotesKeepTheWords(t *testing.T) {
	for _, name := range []string{"1-gooseneck.vtt", "2-equipment.srt", "4-dump.vtt", "5-carhauler.srt", "7-enclosed.vtt", "8-triple.srt"} {
		c := walk(t, name)
		words, _, omitted := edited(c)
		said := len(words)
		if all := len(c.Words()); said < all*92/100 || said < all && len(omitted) == 0 {
			t.Errorf("%s: %d words of %d are left out: %v", name, all-said, all, omitted)
		}
		kept := 0
		notes, _ := Notes(c, heardOf(c))
		for _, n := range notes {
			kept += len(strings.Fields(n.Text))
		}
		if kept < said*95/100 || kept > said {
			t.Errorf("%s: %d words said, %d in the notes", name, said, kept)
		}
	}
}

func TestSentence(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"it's got it's got two axels", "It's got two axles."},
		{"um the the dub tail uh drops", "The dovetail drops."},
		{"[music] >> up front", "Up front."},
		{"two two inch balls", "Two two inch balls."},
		{"g v w r is fifteen, steak pockets, d rings", "GVWR is fifteen, stake pockets, D-rings."},
		{"two and five sixteens goose neck.", "Two and five sixteenths gooseneck."},
		{"I know that that works", "I know that that works."},
		{"um", ""},
	} {
		var run []captions.Word
		for w := range strings.FieldsSeq(c.said) {
			run = append(run, captions.Word{Text: w})
		}
		if got := sentence(run); got != c.want {
			t.Errorf("%q becomes %q, want %q", c.said, got, c.want)
		}
	}
}

func TestWords(t *testing.T) {
	for _, c := range []struct {
		said string
		want []string
	}{
		{"it's a gooseneck deck over with a hydraulic dovetail", []string{"hitch.kind gooseneck", "kind deck-over", "deck.tail-kind hydraulic dovetail"}},
		{"electric brakes, oil bath hubs on torsion axles", []string{"brakes.kind electric", "axles.hubs oil bath", "axles.suspension torsion"}},
		{"it's a bumper pull, not a gooseneck", []string{"hitch.kind bumper-pull"}},
		{"that one over there is a gooseneck but this one is a bumper pull", []string{"hitch.kind bumper-pull"}},
		{"electric over hydraulic, treated pine floor", []string{"brakes.kind electric-over-hydraulic", "frame.floor treated pine"}},
		{"come on by any time", nil},
	} {
		var got []string
		for _, w := range WordsText(c.said) {
			if w.Role != "" {
				got = append(got, string(w.Role)+" "+w.Value.String())
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q: %q, want %q", c.said, got, c.want)
		}
	}
}

// FuzzHear hears the captions of the corpus of internal/captions and what grows from them.
func FuzzHear(f *testing.F) {
	names, err := filepath.Glob("../captions/testdata/*.[vs][tr]t")
	if err != nil || len(names) < 30 {
		f.Fatalf("%d captions files: %v", len(names), err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		c, _, err := captions.Read("fuzz", data)
		if err != nil {
			return
		}
		text, _ := transcript(c)
		for _, h := range append(Hear(c), Words(c)...) {
			sound(t, text, h)
			if h.Start < 0 || h.End < h.Start {
				t.Fatalf("times of %+v", h)
			}
		}
		Notes(c, heardOf(c))
	})
}

// TestRollingIsHeardOnce hears rolling captions, which show each line twice.
func TestRollingIsHeardOnce(t *testing.T) {
	data, err := os.ReadFile("../captions/testdata/38-rolling.vtt")
	if err != nil {
		t.Fatal(err)
	}
	c, _, err := captions.Read("rolling.vtt", data)
	if err != nil {
		t.Fatal(err)
	}
	h := Hear(c)
	if len(h) != 2 || h[0].Role != AxleCount || h[1].Role != AxleRating || h[1].Start != 1.3 {
		t.Errorf("%+v", h)
	}
}

func FuzzHearText(f *testing.F) {
	for _, s := range []string{"2-5/16 ball, 30k coupler", "tandem sevens", "$14,9", "ST235/80R16", "one two three four d rings",
		"two and", "hundred", "between ten and twelve thousand pounds", "W10x22", "8'6\" wide", "inch and a half", "week of", "— “12” – 7′", "date code oh eight nineteen"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, c := range append(ReadProse(text).Figures(), WordsText(text)...) {
			sound(t, text, c)
		}
	})
}

// hour is an hour of rolling captions.
func hour(b *testing.B) []byte {
	one := walk(b, "1-gooseneck.vtt")
	var out strings.Builder
	out.WriteString("WEBVTT\n\n")
	clock := func(s float64) string {
		ms := int(s * 1000)
		return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
	}
	for at := 0.0; at < 3600; at += one.Cues[len(one.Cues)-1].End + 2 {
		for _, c := range one.Cues {
			out.WriteString(clock(at+c.Start) + " --> " + clock(at+c.End) + "\n" + c.Text + "\n\n")
		}
	}
	return []byte(out.String())
}

// BenchmarkHour is the whole way for an hour of captions: read, hear, take notes, find equipment. The
// aim is 100 ms.
func BenchmarkHour(b *testing.B) {
	data := hour(b)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		c, _, err := captions.Read("hour", data)
		if err != nil {
			b.Fatal(err)
		}
		heard := heardOf(c)
		if notes, _ := Notes(c, heard); len(heard) < 100 || len(notes) < 20 || len(Equipment(c)) == 0 {
			b.Fatal("nothing heard")
		}
	}
}

// sound fails if a candidate breaks what the package promises.
func sound(t *testing.T, text string, c Candidate) {
	t.Helper()
	if c.Offset < 0 || c.Offset+len(c.Quote) > len(text) || text[c.Offset:c.Offset+len(c.Quote)] != c.Quote {
		t.Fatalf("quote %q is not at %d in %q", c.Quote, c.Offset, text)
	}
	if (c.Role == "") != (c.Doubt != "") {
		t.Fatalf("role %q with doubt %q in %q", c.Role, c.Doubt, text)
	}
	if c.Value == nil {
		t.Fatalf("no value in %q", text)
	}
	row, ok := roleIndex[c.Role]
	if !ok {
		return
	}
	for _, v := range []Value{c.Value, c.High} {
		if x, ok := amount(v); ok && !roleTable[row].fits(x) {
			t.Fatalf("%s %v is outside its bounds in %q", c.Role, v, text)
		}
	}
}

// TestCandidatesAreSound checks every line of the labelled talk.
func TestCandidatesAreSound(t *testing.T) {
	for _, x := range loadSets(t) {
		if !x.walk {
			for _, c := range ReadProse(x.said).Figures() {
				sound(t, x.said, c)
			}
		}
	}
}
