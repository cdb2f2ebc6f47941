package captions

import (
	"strings"
	"testing"
	"unicode/utf16"
)

// TestZerosInText: WebVTT 4.1 turns NUL into U+FFFD. A file with many of them is not text: a
// video or an archive that somebody picked by mistake.
func TestZerosInText(t *testing.T) {
	text := "WEBVTT\n\n00:01.000 --> 00:02.000\n" + strings.Repeat("a trailer ", 1000) + "\n"
	sprinkled := func(n int) []byte {
		b := []byte(text)
		for i := range n {
			b[len(b)-2-19*i] = 0
		}
		return b
	}
	for n, ok := range map[int]bool{0: true, 3: true, 100: true, 150: false, 500: false} {
		track, _, err := Read("walk.vtt", sprinkled(n))
		if (err == nil) != ok {
			t.Errorf("%d zeros: %v", n, err)
		}
		if ok && strings.Count(track.Cues[0].Text, "\uFFFD") != n {
			t.Errorf("%d zeros became %d marks", n, strings.Count(track.Cues[0].Text, "\uFFFD"))
		}
		if !ok && !strings.Contains(err.Error(), "binary") {
			t.Errorf("%d zeros: %v", n, err)
		}
	}
}

// TestUTF16 reads both orders of bytes, with the mark and without: unicode/utf16 wrote them.
func TestUTF16(t *testing.T) {
	const text = "WEBVTT\n\n00:01.000 --> 00:02.000\nit’s a “deck-over” trailer, 24 ft\n"
	for _, mark := range []bool{false, true} {
		for _, big := range []bool{false, true} {
			units := utf16.Encode([]rune(text))
			if mark {
				units = append([]uint16{0xfeff}, units...)
			}
			var b []byte
			for _, u := range units {
				if big {
					b = append(b, byte(u>>8), byte(u))
				} else {
					b = append(b, byte(u), byte(u>>8))
				}
			}
			track, doubts, err := Read("walk.vtt", b)
			if err != nil || len(track.Cues) != 1 || track.Cues[0].Text != "it’s a “deck-over” trailer, 24 ft" || len(doubts) != 0 {
				t.Errorf("mark %v, big %v: %+v, %v, %v", mark, big, track, doubts, err)
			}
		}
	}
}

// TestCounters: SubRip numbers its cues, and files leave out the blank line between them. A line
// of more than seven digits is not a number of a cue; it was said.
func TestCounters(t *testing.T) {
	for line, counter := range map[string]bool{"2": true, "1234567": true, "12345678": false, "12a": false, "": false} {
		if isCounter(line) != counter {
			t.Errorf("%q is a counter: %v", line, !counter)
		}
	}
	for line, want := range map[string]string{"1234567": "seven digits", "12345678": "seven digits\n12345678"} {
		text := "1\n00:00:01,000 --> 00:00:02,000\nseven digits\n" + line + "\n00:00:03,000 --> 00:00:04,000\nnext\n"
		track, _, err := Read("walk.srt", []byte(text))
		if err != nil || len(track.Cues) != 2 || track.Cues[0].Text != want || track.Cues[1].Text != "next" {
			t.Errorf("%s: %+v, %v", line, track.Cues, err)
		}
	}
	// A cue without text whose counter follows at once.
	track, _, err := Read("walk.srt", []byte("1\n00:00:01,000 --> 00:00:02,000\n2\n00:00:03,000 --> 00:00:04,000\nnext\n"))
	if err != nil || len(track.Cues) != 1 || track.Cues[0].Text != "next" {
		t.Errorf("%+v, %v", track.Cues, err)
	}
}

// TestKeywords: the blocks of WebVTT (4.1) that are not said begin with a word and a space, a tab
// or the end of the line. NOTEWORTHY is not a comment.
func TestKeywords(t *testing.T) {
	for line, want := range map[string]bool{"NOTE": true, "NOTE x": true, "NOTE\tx": true, "NOTEWORTHY": false, "note": false, "A NOTE": false} {
		if keyword(line, "NOTE") != want {
			t.Errorf("%q is a comment: %v", line, !want)
		}
	}
}

// TestDoubtsAreShort: a message quotes the first line of a stray text, at most 40 characters.
func TestDoubtsAreShort(t *testing.T) {
	forty := strings.Repeat("é", 40)
	for s, want := range map[string]string{forty: forty, forty + "x": forty + "...", "one\ntwo": "one", "": ""} {
		if got := short(s); got != want {
			t.Errorf("%q is %q, want %q", s, got, want)
		}
	}
}

// TestSameStart: cues that begin together are in order, and stay as they were written.
func TestSameStart(t *testing.T) {
	read := func(times ...string) (said string, doubts []Doubt) {
		text := "WEBVTT\n\n"
		for i, at := range times {
			text += "00:0" + at + ".000 --> 00:09.000\n" + string(rune('a'+i)) + "\n\n"
		}
		track, doubts, err := Read("walk.vtt", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range track.Cues {
			said += c.Text
		}
		return said, doubts
	}
	if said, doubts := read("1", "2", "2", "3"); said != "abcd" || len(doubts) != 0 {
		t.Errorf("%s, %v", said, doubts)
	}
	if said, doubts := read("1", "3", "2", "2"); said != "acdb" || len(doubts) != 1 || !strings.Contains(doubts[0].Text, "out of order") {
		t.Errorf("%s, %v", said, doubts)
	}
}

// TestWordsOnTheClock: what each word of captions is given for its start, its end and the
// silence before it, worked by hand.
func TestWordsOnTheClock(t *testing.T) {
	words := Track{Cues: []Cue{
		{Start: 2, End: 4, Text: "tandem axle", Times: []Mark{{At: 7, Second: 3}}},
		{Start: 6, End: 7, Text: "dump"},
		// The display of the cue before, held for a moment and then for a second.
		{Start: 7.01, End: 7.04, Text: "dump"},
		{Start: 7.045, End: 8, Text: "dump"},
	}}.Words()
	want := []Word{{"tandem", 2, 3, 2}, {"axle", 3, 4, 0}, {"dump", 6, 8, 2}}
	if len(words) != len(want) {
		t.Fatalf("%+v", words)
	}
	for i, w := range words {
		if w != want[i] {
			t.Errorf("%+v, want %+v", w, want[i])
		}
	}
	// Said again after a breath is said twice.
	if again := (Track{Cues: []Cue{{Start: 0, End: 1, Text: "dump"}, {Start: 1.05, End: 2, Text: "dump"}, {Start: 3, End: 4, Text: "bed"}}}).Words(); len(again) != 3 {
		t.Errorf("%+v", again)
	}
}

// TestWhatIsOverlooked: what a file says in another way than it should is read, and told.
func TestWhatIsOverlooked(t *testing.T) {
	read := func(name, text string) (Track, string) {
		t.Helper()
		track, doubts, err := Read(name, []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		var told []string
		for _, d := range doubts {
			told = append(told, d.String())
		}
		return track, strings.Join(told, "; ")
	}
	// Blocks that are not said, and a name or a text before the first cue.
	track, told := read("walk.vtt", "WEBVTT\n\nSTYLE\n::cue { color: plum }\n\nREGION\nid:fred\n\nNOTE\nwalked in May\n\nfirst\n00:01.000 --> 00:02.000\na dump\n")
	if len(track.Cues) != 1 || track.Cues[0].Text != "a dump" || told != "" {
		t.Errorf("%+v, %s", track.Cues, told)
	}
	if _, told = read("walk.vtt", "WEBVTT\n\nmade by a phone\n\n00:01.000 --> 00:02.000\na dump\n"); told != "" {
		t.Errorf("before the first cue: %s", told)
	}
	if _, told = read("walk.vtt", "WEBVTT\n\n00:01.000 --> 00:02.000\na dump\n\nmade by a phone\n\n00:03.000 --> 00:04.000\nwith tarp\n"); !strings.Contains(told, "made by a phone") {
		t.Errorf("after it: %q", told)
	}
	// Either time of a cue may have its minutes without hours.
	for _, times := range []string{"61:00.000 --> 1:01:02.000", "1:00:59.000 --> 61:02.000"} {
		track, told := read("walk.vtt", "WEBVTT\n\n"+times+"\na dump\n")
		if len(track.Cues) != 1 || track.Cues[0].End != 3662 || !strings.Contains(told, "more than 59 minutes") {
			t.Errorf("%s: %+v, %q", times, track.Cues, told)
		}
	}
	// A cue of more than 10 KB is cut.
	track, told = read("walk.vtt", "WEBVTT\n\n00:01.000 --> 00:02.000\n"+strings.Repeat("dump ", 2049)+"\n")
	if len(track.Cues) != 1 || len(track.Cues[0].Text) > 10<<10 || !strings.Contains(told, "cut to 10240") {
		t.Errorf("%d bytes, %q", len(track.Cues[0].Text), told)
	}
	if _, told = read("walk.vtt", "WEBVTT\n\n00:01.000 --> 00:02.000\n"+strings.Repeat("dump ", 2047)+"dump!\n"); told != "" {
		t.Errorf("exactly 10 KB: %s", told)
	}
	// Spaces around a line go, and the times inside it stay at their words.
	track, _ = read("walk.vtt", "WEBVTT\n\n00:01.000 --> 00:05.000\n   a  \n  <00:02.000>dump   \n<00:03.000>trailer\n")
	if c := track.Cues[0]; c.Text != "a\ndump\ntrailer" || len(c.Times) != 2 || c.Times[0] != (Mark{2, 2}) || c.Times[1] != (Mark{7, 3}) {
		t.Errorf("%q, %+v", c.Text, c.Times)
	}
}

// TestRolled: rolling captions show a line again below the next one, and hold it for a moment
// between. Each word is said once.
func TestRolled(t *testing.T) {
	cue := func(from, to float64, text string) Cue { return Cue{Start: from, End: to, Text: text} }
	words := Track{Cues: []Cue{
		cue(0, 2, "two seven k axles"),
		cue(2, 2.01, "two seven k axles"),
		cue(2.01, 4, "two seven k axles\nwith a tarp"),
		cue(4, 4.01, "with a tarp"),
		cue(4.01, 6, "with a tarp\nand a spare"),
		cue(6, 6.01, "seven k"), // held, and part of nothing new
	}}.Words()
	said := ""
	for _, w := range words {
		said += w.Text + " "
	}
	if said != "two seven k axles with a tarp and a spare seven k " {
		t.Errorf("%s", said)
	}
	if got := overlap([]string{"a", "b", "a", "b"}, []Word{{Text: "a"}, {Text: "b"}, {Text: "c"}}, 1); got != 2 {
		t.Errorf("an overlap of %d words, want 2", got)
	}
	for _, c := range []struct {
		shown, said string
		want        bool
	}{{"a b c", "b c", true}, {"a b c", "a b", true}, {"a b c", "a c", false}, {"a b", "a b c", false}, {"a b a c", "a c", true}} {
		var said []Word
		for _, w := range strings.Fields(c.said) {
			said = append(said, Word{Text: w})
		}
		if contains(strings.Fields(c.shown), said) != c.want {
			t.Errorf("%q contains %q: %v", c.shown, c.said, !c.want)
		}
	}
}
