package captions

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/asticode/go-astisub"
)

// corpus gives every captions file of testdata/captions with what it must read as.
func corpus(t testing.TB) map[string]string {
	t.Helper()
	names, err := filepath.Glob("testdata/*.want")
	if err != nil || len(names) < 30 {
		t.Fatalf("%d files in the corpus: %v", len(names), err)
	}
	out := map[string]string{}
	for _, n := range names {
		want, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		out[strings.TrimSuffix(n, ".want")] = string(want)
	}
	return out
}

func lines(c Track) string {
	var b strings.Builder
	for _, q := range c.Cues {
		who := ""
		if q.Speaker != "" {
			who = q.Speaker + ": "
		}
		fmt.Fprintf(&b, "%.3f %.3f %s%s\n", q.Start, q.End, who, strings.ReplaceAll(q.Text, "\n", "|"))
	}
	return b.String()
}

// TestNastyFiles reads each file of the corpus. Its .want holds the cues, or why the file
// is refused; a doubt that it does not name is a fault.
func TestNastyFiles(t *testing.T) {
	for name, want := range corpus(t) {
		t.Run(filepath.Base(name), func(t *testing.T) {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			c, doubts, err := Read(name, data)
			if reason, ok := strings.CutPrefix(want, "refused: "); ok {
				if err == nil || !strings.Contains(err.Error(), strings.TrimSpace(reason)) {
					t.Fatalf("error %v, want one with %q", err, reason)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			cues, doubt, _ := strings.Cut(want, "doubt: ")
			if got := lines(c); got != cues {
				t.Errorf("read\n%swant\n%s", got, cues)
			}
			doubt = strings.TrimSpace(doubt)
			if (doubt == "") != (len(doubts) == 0) || doubt != "" && !strings.Contains(doubts[0].String(), doubt) {
				t.Errorf("doubts %v, want %q", doubts, doubt)
			}
		})
	}
}

// TestSameCuesInEveryWriting turns each UTF-8 file of the corpus into its LF, CRLF, CR and
// BOM versions; the cues must not change.
func TestSameCuesInEveryWriting(t *testing.T) {
	for name, want := range corpus(t) {
		if strings.HasPrefix(want, "refused") || strings.Contains(name, "utf16") || strings.Contains(name, "1252") {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		lf := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.TrimPrefix(string(data), "\uFEFF"))
		base, _, err := Read(name, []byte(lf))
		if err != nil {
			t.Fatal(err)
		}
		for how, text := range map[string]string{
			"CRLF": strings.ReplaceAll(lf, "\n", "\r\n"), "CR": strings.ReplaceAll(lf, "\n", "\r"), "BOM": "\uFEFF" + lf,
		} {
			c, _, err := Read(name, []byte(text))
			if err != nil || lines(c) != lines(base) {
				t.Errorf("%s as %s: %v\n%s", name, how, err, lines(c))
			}
		}
	}
}

// notAsAstisub are the files that the independent parser reads otherwise, each with why ours is
// right.
var notAsAstisub = map[string]string{
	"15-font-and-place.srt":    "it keeps a place mark in front of a tag, and drops the space between two tags",
	"1-gooseneck.vtt":          lineOfSpaces,
	"4-dump.vtt":               lineOfSpaces,
	"7-enclosed.vtt":           lineOfSpaces,
	"38-rolling.vtt":           lineOfSpaces,
	"a-hotshot.vtt":            lineOfSpaces,
	"a-dump.vtt":               lineOfSpaces,
	"c-equipment.vtt":          lineOfSpaces,
	"e-enclosed.vtt":           lineOfSpaces,
	"d-cbtilt.vtt":             lineOfSpaces,
	"a-gooseneck.vtt":          lineOfSpaces,
	"e-dragcar.vtt":            lineOfSpaces,
	"16-entities.vtt":          "it decodes only some entities, WebVTT 4.2.2 names all of HTML",
	"19-zero-length.vtt":       "it keeps cues that end before they start",
	"17-out-of-order.vtt":      "it keeps the file's order",
	"26-blank-line-inside.srt": "it ends the cue at a blank line and drops the rest",
	"35-nul-inside.vtt":        "it keeps NUL, WebVTT 4.1 asks for U+FFFD",
}

const lineOfSpaces = "it takes a line of spaces for an empty one, which by WebVTT 4.1 it is not, and loses the text of the first rolling cue"

// TestAgainstAstisub holds our cues to those of an independent parser,
// github.com/asticode/go-astisub v0.34.0, on every file of the corpus and of the
// walk-arounds that it reads. It stops at the first odd line of a file, accepts WebVTT
// without a header, panics on a time line that ends at its arrow, and drops what it cannot place, which is why it is the check and not
// the reader.
func TestAgainstAstisub(t *testing.T) {
	names, _ := filepath.Glob("../walkaround/testdata/*/walks/*.[vs][tr]t")
	for name, want := range corpus(t) {
		if !strings.HasPrefix(want, "refused") {
			names = append(names, name)
		}
	}
	compared := 0
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		ours, _, err := Read(name, data)
		if err != nil {
			t.Fatal(err)
		}
		read := astisub.ReadFromSRT
		if ours.Format == WebVTT {
			read = astisub.ReadFromWebVTT
		}
		theirs, err := guarded(read, data)
		if err != nil || len(theirs.Items) == 0 {
			continue // it gives the file up
		}
		same := len(theirs.Items) >= len(ours.Cues)
		i := 0
		for _, item := range theirs.Items {
			var text []string
			for _, l := range item.Lines {
				var b strings.Builder
				for _, part := range l.Items {
					b.WriteString(part.Text)
				}
				text = append(text, b.String())
			}
			said := strings.Join(strings.Fields(strings.Join(text, " ")), " ")
			if said == "" {
				continue // it keeps cues without text
			}
			if i >= len(ours.Cues) {
				same = false
				break
			}
			c := ours.Cues[i]
			i++
			if item.StartAt.Milliseconds() != int64(math.Round(c.Start*1000)) || item.EndAt.Milliseconds() != int64(math.Round(c.End*1000)) || said != strings.Join(strings.Fields(c.Text), " ") {
				if _, known := notAsAstisub[filepath.Base(name)]; known {
					same = false
					break
				}
				t.Logf("%s: theirs %v %v %q, ours %v %v %q", filepath.Base(name), item.StartAt, item.EndAt, said, c.Start, c.End, c.Text)
				same = false
			}
		}
		same = same && i == len(ours.Cues)
		why, known := notAsAstisub[filepath.Base(name)]
		switch {
		case !same && !known:
			t.Errorf("%s is read otherwise by the independent parser", name)
		case same && known:
			t.Errorf("%s is read alike now; take it off the list (%s)", name, why)
		case same:
			compared++
		}
	}
	if compared < 30 {
		t.Errorf("only %d files compared", compared)
	}
	t.Logf("%d files read alike", compared)
}

// guarded turns a panic of the independent parser (a time line that ends at its arrow
// brings one) into an error.
func guarded(read func(io.Reader) (*astisub.Subtitles, error), data []byte) (s *astisub.Subtitles, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v", p)
		}
	}()
	return read(bytes.NewReader(data))
}

// TestLimits checks the sizes just at and just above what is read.
func TestLimits(t *testing.T) {
	file := func(n int) []byte {
		var b bytes.Buffer
		b.WriteString("WEBVTT\n\n")
		for i := range n {
			fmt.Fprintf(&b, "%02d:%02d:%02d.000 --> %02d:%02d:%02d.900\nx\n\n", i/3600, i/60%60, i%60, i/3600, i/60%60, i%60)
		}
		return b.Bytes()
	}
	if c, _, err := Read("most.vtt", file(MaxCues)); err != nil || len(c.Cues) != MaxCues {
		t.Errorf("%d cues: %v", MaxCues, err)
	}
	if _, _, err := Read("many.vtt", file(MaxCues+1)); err == nil || !strings.Contains(err.Error(), "20000") {
		t.Errorf("one cue too many: %v", err)
	}
	if _, _, err := Read("big.vtt", make([]byte, MaxBytes+1)); err == nil || !strings.Contains(err.Error(), "video") {
		t.Errorf("a byte too many: %v", err)
	}
}

// TestMostWords checks the length of talk just at and just above what is read. Rolling captions show their
// words more than once, and only what is said counts.
func TestMostWords(t *testing.T) {
	file := func(cues, words int, shown string) []byte {
		var b bytes.Buffer
		b.WriteString("WEBVTT\n\n")
		last := ""
		for i := range cues {
			line := strings.TrimSpace(strings.Repeat(fmt.Sprintf("w%d ", i), words))
			fmt.Fprintf(&b, "%02d:%02d:%02d.000 --> %02d:%02d:%02d.900\n", i/3600, i/60%60, i%60, i/3600, i/60%60, i%60)
			fmt.Fprintf(&b, shown+"\n\n", last, line)
			last = line
		}
		return b.Bytes()
	}
	const each = 100
	for name, shown := range map[string]string{"once": "%.0s%s", "rolling": "%s\n%s"} {
		c, _, err := Read("most.vtt", file(MaxWords/each, each, shown))
		if err != nil || len(c.Words()) != MaxWords {
			t.Errorf("%s: %d words: %d are read, %v", name, MaxWords, len(c.Words()), err)
		}
		if _, _, err = Read("long.vtt", file(MaxWords/each+1, each, shown)); err == nil || !strings.Contains(err.Error(), "long.vtt: more than 25000 words") {
			t.Errorf("%s: more than %d words: %v", name, MaxWords, err)
		}
	}
}

// TestBlankLines reads a cue of SubRip with a million blank lines in it. It took hours when each of them
// looked for the next line with text. A cue is cut at 10 KB.
func TestBlankLines(t *testing.T) {
	text := "1\n00:00:01,000 --> 00:00:02,000\nit is" + strings.Repeat("\n", 1_000_000) + "red\n"
	c, _, err := Read("blank.srt", []byte(text))
	if err != nil || len(c.Cues) != 1 || c.Cues[0].Text != "it is" {
		t.Errorf("%d cues, %v", len(c.Cues), err)
	}
}

// TestRollingSaysEachWordOnce takes the words of rolling captions.
func TestRollingSaysEachWordOnce(t *testing.T) {
	data, err := os.ReadFile("testdata/38-rolling.vtt")
	if err != nil {
		t.Fatal(err)
	}
	c, _, err := Read("rolling.vtt", data)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, w := range c.Words() {
		got = append(got, fmt.Sprintf("%s@%.2f", w.Text, w.Start))
	}
	if s := strings.Join(got, " "); s != "two@1.00 seven@1.30 k@2.51 axles@2.90" {
		t.Error(s)
	}
}

func FuzzRead(f *testing.F) {
	for name := range corpus(f) {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		c, _, err := Read("fuzz", data)
		if err != nil {
			if strings.Contains(err.Error(), "goroutine") {
				t.Fatal(err)
			}
			return
		}
		last := -1.0
		for _, q := range c.Cues {
			if q.End <= q.Start || q.Start < last || q.Text == "" || q.Line < 1 {
				t.Fatalf("cue %+v after %v", q, last)
			}
			last = q.Start
			for _, m := range q.Times {
				if m.At < 0 || m.At > len(q.Text) {
					t.Fatalf("mark %+v in %q", m, q.Text)
				}
			}
		}
		for _, w := range c.Words() {
			if w.End < w.Start || w.Text == "" || w.Gap < 0 {
				t.Fatalf("word %+v", w)
			}
		}
	})
}
