package intake_test

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/yuin/goldmark/ast"
	"pgregory.net/rapid"

	"tarepage/internal/compute"
	_ "tarepage/internal/fixedseed"
	"tarepage/internal/inspect"
	"tarepage/internal/intake"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// readsBack fails unless the sheet of some captions is a unit file that reads without a
// problem, with everything that was taken and every note where it was said.
func readsBack(t interface {
	Fatalf(string, ...any)
	Helper()
}, name string, captions []byte) {
	t.Helper()
	talk, err := intake.Listen(name, captions)
	if err != nil {
		return // refused, with a reason
	}
	sheetReadsBack(t, name, talk, talk.Sheet("SB-1050", name))
}

func sheetReadsBack(t interface {
	Fatalf(string, ...any)
	Helper()
}, name string, talk *intake.Talk, d intake.Sheet) {
	t.Helper()
	u, problems := unit.ReadUnit("content/units/sb-1050.md", d.Text)
	if len(problems) > 0 || u.Broken {
		t.Fatalf("the sheet does not read: %v\n%.3000s", problems, d.Text)
	}
	if u.Stock.Value != "SB-1050" || u.Recording.Captions.Value != name || int(u.Recording.Length.Value) != talk.Length {
		t.Fatalf("stock %q, captions %q for %q, length %v for %d", u.Stock.Value, u.Recording.Captions.Value, name, u.Recording.Length.Value, talk.Length)
	}
	given := map[string]bool{}
	for _, g := range u.Givens() {
		given[g.Path] = true
	}
	for _, v := range talk.Taken {
		if !given[v.Path] {
			t.Fatalf("%s %s was taken and is not in the file\n%s", v.Path, v.Value, d.Text)
		}
	}
	for _, m := range u.Missing() {
		if !m.Empty {
			t.Fatalf("%s is missing and does not stand there empty", m.Path)
		}
	}
	if d.LeftOut == 0 && len(u.Body.Notes) != len(talk.Notes) {
		t.Fatalf("%d notes in the file, %d were said\n%s", len(u.Body.Notes), len(talk.Notes), d.Text)
	}
	for i, n := range u.Body.Notes {
		if int(n.At) != int(talk.Notes[i].Start) {
			t.Fatalf("note %d stands at %v, said at %v", i, n.At, talk.Notes[i].Start)
		}
	}
	// A speaker's words are words: no link, no mark, nothing raw comes of them.
	said := 0
	passages := u.Body.Passages(func(string) string { return "" })
	for _, p := range passages {
		if p.Note == nil {
			continue
		}
		if p.Text != talk.Notes[said].Text {
			t.Fatalf("the note says %q, the speaker %q", p.Text, talk.Notes[said].Text)
		}
		said++
	}
	_ = ast.Walk(u.Body.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n.Kind() {
		case ast.KindDocument, ast.KindHeading, ast.KindParagraph, ast.KindText:
		default:
			t.Fatalf("the notes hold a %s\n%s", n.Kind(), d.Text)
		}
		return ast.WalkContinue, nil
	})
}

// TestSheetReadsBack gives it captions of anything: trade talk, YAML, Markdown, controls.
func TestSheetReadsBack(t *testing.T) {
	scraps := []string{"the", "gvwr", "is", "weighs", "empty", "twenty", "thousand", "pounds", "two", "ten k", "axles", "deck", "foot", "wide", "price",
		"asking", "$18,450", "about", "no", "sorry", "load range", "e", "235/80R16", "d-rings", "five", "stake pockets", "tires", "standard", "optional",
		"comes with", "---", "...", "#", "# x", ": ", "- ", "* ", "*a*", "_b_", "`c`", "[d](worked:payload)", "<b>e</b>", "&lt;", "&amp;", "\\", "\"", "'", "{", "}", "~~f~~",
		"| g |", "!", "%", "@", "\u00a0", "\u2028", "\ufeff", "\x01", "\x7f", "\x00", "1:02", "<v Sam>", "<00:00:02.000>", "[music]", "gooseneck", "bumper pull",
		"dump trailer", "date code", "3126", "ramps", "jack", "fifteen four", "by", "plus", "eighty three", "inches", "or", "to", "https://x.example", "a@b.example"}
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		srt := rapid.Bool().Draw(t, "srt")
		if !srt {
			b.WriteString("WEBVTT\n\n")
		}
		at := 0
		for range rapid.IntRange(1, 8).Draw(t, "cues") {
			at += rapid.SampledFrom([]int{0, 1, 2, 5, 70, 3700}).Draw(t, "pause")
			length := rapid.IntRange(1, 9).Draw(t, "length")
			fmt.Fprintf(&b, "%02d:%02d:%02d.000 --> %02d:%02d:%02d.000\n", at/3600, at/60%60, at%60, (at+length)/3600, (at+length)/60%60, (at+length)%60)
			b.WriteString(strings.Join(rapid.SliceOfN(rapid.OneOf(rapid.SampledFrom(scraps), rapid.SampledFrom(scraps), rapid.SampledFrom(scraps), rapid.String()), 1, 24).Draw(t, "words"), " "))
			b.WriteString("\n\n")
		}
		name := rapid.SampledFrom([]string{"media/walk.vtt", "media/my walk: \"1\" #2.vtt", "media/-.vtt", "media/jürgen's {1}.srt", "media/yes"}).Draw(t, "name")
		readsBack(t, name, []byte(b.String()))
	})
}

// FuzzSheet is the same with whatever the fuzzer thinks of.
func FuzzSheet(f *testing.F) {
	f.Add([]byte("WEBVTT\n\n00:01.000 --> 00:04.000\nthe gvwr is twenty thousand pounds\n"))
	f.Add([]byte("1\n00:00:01,000 --> 00:00:04,000\n--- # : [a](worked:payload) <b>\n"))
	f.Fuzz(func(t *testing.T, captions []byte) { readsBack(t, "media/walk.vtt", captions) })
}

// walks are all invented walk-arounds.
func walks(t *testing.T) map[string][]byte {
	t.Helper()
	names, err := filepath.Glob("../walkaround/testdata/*/walks/*.[vs][tr]t")
	if err != nil || len(names) < 8 {
		t.Fatalf("%d walk-arounds, %v", len(names), err)
	}
	out := map[string][]byte{}
	for _, name := range names {
		if out[filepath.Base(name)], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

const yard = "---\nname: Example Trailer Yard\nas-of: 2026-11-20\n---\n"

// TestWalks takes in whole walk-arounds: each reads back, and the inspection right after it
// asks to confirm every rating, names what is missing and finds no note that disagrees
// with the figure taken from it. Between two pushes a fourth of them shows as much.
func TestWalks(t *testing.T) {
	all := walks(t)
	for i, name := range slices.Sorted(maps.Keys(all)) {
		if i%4 > 0 && !thorough.BeforePush() {
			continue
		}
		captions := all[name]
		talk, err := intake.Listen(name, captions)
		if err != nil {
			t.Fatal(err)
		}
		d := talk.Sheet("SB-1050", "media/"+name)
		sheetReadsBack(t, "media/"+name, talk, d)
		stock, problems, err := unit.Read(fstest.MapFS{
			"content/yard.md":          {Data: []byte(yard)},
			"content/media/" + name:    {Data: captions},
			"content/units/sb-1050.md": {Data: d.Text},
		})
		if err != nil {
			t.Fatal(err)
		}
		list := inspect.Stock(stock, compute.Stock(stock), problems)
		count := map[string]int{}
		for _, f := range list {
			count[f.Rule.Name]++
			switch f.Rule.Name {
			case "note-disagrees", "note-order", "note-twice", "note-past-recording", "file-missing", "value-unreadable", "unknown-key":
				t.Errorf("%s: %s: %s [%s]", name, f.At, f.Message, f.Rule.Name)
			}
		}
		missing := len(d.Missing)
		for _, k := range d.Missing {
			if !k.Needed {
				missing-- // one of three lengths; unit-missing tells it once for all three
				count["unit-missing"]--
			}
		}
		if count["unit-missing"] != missing {
			t.Errorf("%s: %d keys are missing, inspect says %d", name, missing, count["unit-missing"])
		}
		for _, v := range talk.Taken {
			if v.Path == "weights.gvwr" && count["said-not-confirmed"] == 0 {
				t.Errorf("%s: a gvwr was said and inspect does not ask to confirm it", name)
			}
		}
		// Held against its own sheet a recording agrees with all of it.
		u := stock.Units[0]
		c := talk.Against(u)
		for _, h := range c.Differs {
			if h.Said.Contested {
				continue // it differs from what was said elsewhere too
			}
			t.Errorf("%s: %s %s differs from %s", name, h.Said.Role, h.Said.Value, h.File.Text)
		}
		if len(c.Unstated) > 0 {
			t.Errorf("%s: %v was taken and is not in its own sheet", name, c.Unstated)
		}
	}
}

// TestContradiction keeps the first of two figures, and tells the other.
func TestContradiction(t *testing.T) {
	talk, err := intake.Listen("walk.vtt", []byte(`WEBVTT

00:01.000 --> 00:04.000
The gvwr is about twenty thousand pounds.

00:10.000 --> 00:14.000
Gvwr is 20,000 pounds on the tag.

01:10.000 --> 01:14.000
So the gvwr is 22,000 pounds.

01:20.000 --> 01:24.000
Hydraulic disc brakes are optional. It comes standard with a spare.
`))
	if err != nil {
		t.Fatal(err)
	}
	d := talk.Sheet("EX-1", "media/walk.vtt")
	for _, want := range []string{
		"  gvwr: 20,000 lb (said 0:10)  # \"20,000 pounds\"\n  #   but 1:10 says 22,000 lb: \"22,000 pounds\"\n",
		"standard:\n  - spare tire and wheel (said 1:20)  # \"spare\"\n",
		"options:\n  - hydraulic disc brakes (said 1:20)  # \"Hydraulic disc brakes\"\n",
		"title:  # what a customer reads first",
		"deck:\n  length:  # the whole deck, flat and tail together, as in 28 ft\n",
	} {
		if !strings.Contains(string(d.Text), want) {
			t.Errorf("the sheet lacks\n%s\nit is\n%s", want, d.Text)
		}
	}
	if len(talk.Taken) == 0 || talk.Taken[0].Path != "weights.gvwr" || len(talk.Taken[0].Others) != 1 {
		t.Errorf("taken: %+v", talk.Taken)
	}
}

// TestTitle makes the title from what was said.
func TestTitle(t *testing.T) {
	for said, want := range map[string]string{
		"It's a gooseneck deck over with a hydraulic dovetail. The deck is 28 feet long and 102 inches wide.": "title: 102 in x 28 ft gooseneck deck-over, hydraulic tail  #",
		"It's a bumper pull dump trailer. Dump bed is 14 ft long.":                                            "title: 14 ft dump",
		"The deck is 20 ft long.": "title:  # what a customer reads first",
	} {
		talk, err := intake.Listen("walk.vtt", []byte("WEBVTT\n\n00:01.000 --> 00:09.000\n"+said+"\n"))
		if err != nil {
			t.Fatal(err)
		}
		if d := talk.Sheet("EX-1", "media/walk.vtt"); !strings.Contains(string(d.Text), "\n"+want) {
			t.Errorf("%q: no %q in\n%s", said, want, d.Text)
		}
	}
}

// TestTooLong keeps the sheet of an endless talk below what a unit file may hold, and says from
// when on its notes are left out. The captions of 100 hours and more are refused: a note has no
// way to write such a time.
func TestTooLong(t *testing.T) {
	talk := &intake.Talk{Length: 4000}
	for i := range 3_500 {
		talk.Notes = append(talk.Notes, walkaround.Note{Heading: "Deck", Start: float64(i + 1), End: float64(i + 2),
			Text: fmt.Sprintf("The deck is all screwed down, number %d of them, %s.", i, strings.TrimSpace(strings.Repeat("and it goes on about nothing ", 7)))})
	}
	d := talk.Sheet("SB-1050", "media/walk.vtt")
	_, words, _ := strings.Cut(string(d.Text[4:]), "\n---\n")
	if d.LeftOut == 0 || len(d.Text) > unit.MostBytes || len(words) > unit.MostWords || len(words) < unit.MostWords-2<<10 {
		t.Errorf("%d bytes, %d of them words, notes left out from %d", len(d.Text), len(words), d.LeftOut)
	}
	sheetReadsBack(t, "media/walk.vtt", talk, d)
	if n := strings.Count(words, "\n\n"); int(talk.Notes[n].Start) != d.LeftOut || strings.Count(words, "## Deck") != 1 {
		t.Errorf("%d paragraphs, left out from %d", n, d.LeftOut)
	}
	for end, hours := range map[string]bool{"99:59:59.900": false, "100:00:00.000": true, "100:00:01.000": true} {
		_, err := intake.Listen("walk.vtt", []byte("WEBVTT\n\n99:59:58.000 --> "+end+"\nhello\n"))
		if refused := err != nil && strings.Contains(err.Error(), "line 3"); refused != hours {
			t.Errorf("a cue that ends after %s: %v", end, err)
		}
	}
}
