package intake

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// TestTake sorts what was heard: what has a key is taken, what contests a key that was won is
// shown next to it, and what has no key or no role is listed as not understood, in the order it
// was said.
func TestTake(t *testing.T) {
	contested := func(v measure.Pounds, at float64, quote string) walkaround.Candidate {
		c := heard("", v, at, quote)
		c.Contested = true
		c.Alternatives = []walkaround.Alternative{{Role: walkaround.GVWR, Value: v}, {Role: walkaround.Empty, Value: v}}
		return c
	}
	doubtful := heard("", measure.Pounds(300), 40, "three hundred")
	doubtful.Doubt = "of what?"
	later := doubtful
	later.Offset = 5
	gvwr := heard(walkaround.GVWR, measure.Pounds(9990), 10, "9,990 on the tag")
	jack := heard("jack.color", walkaround.Word("drop-leg"), 20, "drop leg jack")
	kind := heard("kind", walkaround.Word("dump"), 5, "dump trailer")

	talk := &Talk{}
	talk.take([]walkaround.Candidate{contested(9000, 3, "9,000"), gvwr, later, doubtful}, []walkaround.Candidate{kind, jack, heard("", walkaround.Word("red"), 1, "red")})
	var taken, unclear, known []string
	for _, v := range talk.Taken {
		taken = append(taken, fmt.Sprintf("%s %s %v", v.Path, v.Value, v.Others))
	}
	for _, c := range talk.Unclear {
		unclear = append(unclear, fmt.Sprintf("%s %v %d: %s", c.Value, c.Start, c.Offset, c.Doubt))
	}
	for _, c := range talk.heard {
		known = append(known, fmt.Sprintf("%s %s", c.Role, c.Value))
	}
	if want := []string{"kind dump []", "weights.gvwr 9,990 lb (said 0:10) [{9,000 lb 3 9,000}]"}; !slices.Equal(taken, want) {
		t.Errorf("taken %q", taken)
	}
	if want := []string{"drop-leg 20 0: there is no key jack.color", "300 lb 40 0: of what?", "300 lb 40 5: of what?"}; !slices.Equal(unclear, want) {
		t.Errorf("unclear %q", unclear)
	}
	if want := []string{"weights.gvwr 9,000 lb", "weights.gvwr 9,990 lb", "kind dump"}; !slices.Equal(known, want) {
		t.Errorf("heard %q", known)
	}

	// Nothing won the key: what contested it is not understood.
	talk = &Talk{}
	talk.take([]walkaround.Candidate{contested(9000, 3, "9,000")}, nil)
	if len(talk.Taken) != 0 || len(talk.Unclear) != 1 || len(talk.heard) != 0 {
		t.Errorf("%+v", talk)
	}
}

// TestChosenWord: a word stands among what was heard as the key has it, so that it agrees with
// the file it made.
func TestChosenWord(t *testing.T) {
	key := unit.KeyDoc{Path: "axles.suspension", Kind: "choice", Choices: []string{"leaf spring", "rubber-torsion"}}
	talk := &Talk{}
	if v, ok := talk.choose(key, []walkaround.Candidate{heard("axles.suspension", walkaround.Word("rubber torsion"), 4, "rubber torsion")}); !ok || v.Value != "rubber-torsion" {
		t.Errorf("%v %+v", ok, v)
	}
	if got := talk.heard[0].Value.String(); got != "rubber-torsion" {
		t.Errorf("heard %q", got)
	}
}

// TestNotes keeps one note a second: a time leads to one moment of the recording.
func TestNotes(t *testing.T) {
	n := func(heading string, start, end float64, text string) walkaround.Note {
		return walkaround.Note{Heading: heading, Start: start, End: end, Text: text}
	}
	for _, c := range []struct {
		name string
		said []walkaround.Note
		want string
	}{
		{"apart", []walkaround.Note{n("Deck", 1, 2, "a"), n("Deck", 2, 3, "b")}, "Deck 1-2 a; Deck 2-3 b"},
		{"one second, one heading", []walkaround.Note{n("Deck", 1.2, 2, "a"), n("Deck", 1.8, 3, "b")}, "Deck 1.2-3 a b"},
		{"the first one ends later", []walkaround.Note{n("Deck", 1.2, 9, "a"), n("Deck", 1.8, 3, "b")}, "Deck 1.2-9 a b"},
		{"one second, two headings", []walkaround.Note{n("Deck", 1.2, 2, "a"), n("Tail", 1.8, 3, "b")}, "Deck 1.2-2 a; Tail 2-3 b"},
		{"the next second is taken too", []walkaround.Note{n("Deck", 1.2, 2, "a"), n("Deck", 2.1, 3, "b"), n("Tail", 1.8, 3, "c")}, "Deck 1.2-2 a; Deck 2.1-3 b; Tail 3-3 c"},
		{"nothing is left of it", []walkaround.Note{n("Deck", 1, 2, "\x01\u2028"), n("Deck", 1, 2, "b")}, "Deck 1-2 b"},
		{"controls and breaks", []walkaround.Note{n("Deck", 1, 2, "a\x07b\tc\u2029d\ufeff")}, "Deck 1-2 ab c d"},
	} {
		talk := &Talk{}
		talk.note(c.said)
		var got []string
		for _, n := range talk.Notes {
			got = append(got, fmt.Sprintf("%s %v-%v %s", n.Heading, n.Start, n.End, n.Text))
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
	}
}

// TestSheetOf writes one value of each sort and compares the file with one written by hand.
func TestSheetOf(t *testing.T) {
	talk := &Talk{Length: 95, Taken: []Taken{
		{Path: "kind", Value: "dump", At: 4, Quote: "dump trailer"},
		{Path: "color", Value: "#7 red: \"hot\"", At: 6, Quote: "red"},
		{Path: "weights.gvwr", Value: "14,000 lb (said 0:09)", At: 9, Quote: "fourteen", Remarks: []string{"the unit was not said"}, Others: []Other{{"15,000 lb", 80, "fifteen"}}},
		{Path: "availability", Value: "sold", At: 7, Quote: "sold"},
	}, Items: []walkaround.Item{{Name: "spare", Start: 12, Quote: "a spare"}, {Name: "tarp", Optional: true, Start: 13, Quote: "tarp"}, {Name: "ramps", Start: 14, Quote: "ramps"}},
		Unclear: []walkaround.Candidate{{Value: measure.Pounds(5), Start: 33, Quote: "five", Doubt: "of what?"}},
		Omitted: []walkaround.Omission{{At: 60, Reason: "a name"}, {At: 61, Reason: "a greeting"}},
		Notes:   []walkaround.Note{{Heading: "Bed", Start: 2, Text: "It *is* big."}, {Heading: "Bed", Start: 3, Text: "Very_big."}, {Heading: "Axles", Start: 5, Text: "Two."}}}
	d := talk.Sheet("SB-1", "media/a.vtt")
	got := string(d.Text)
	for _, want := range []string{
		"\nstock: SB-1\n",
		"\nkind: dump  # said 0:04: \"dump trailer\"\n",
		"\ncolor: \"#7 red: \\\"hot\\\"\"  # said 0:06: \"red\"\n",
		"\nweights:\n  gvwr: 14,000 lb (said 0:09)  # \"fourteen\"; the unit was not said\n  #   but 1:20 says 15,000 lb: \"fifteen\"\n",
		"\navailability: sold  # said 0:07: \"sold\"\n",
		"\ntitle: dump trailer, 14,000 lb GVWR  # made from the values below\n",
		"\nrecording:\n  length: 1:35  # the end of the last cue; the video may run longer\n  captions: media/a.vtt\n",
		"\nstandard:\n  - spare (said 0:12)  # \"a spare\"\n  - ramps (said 0:14)  # \"ramps\"\n",
		"\noptions:\n  - tarp (said 0:13)  # \"tarp\"\n",
		"\n# heard and not understood:\n#   0:33 \"five\": 5 lb; of what?\n",
		"\n# left out of the notes; the captions still hold it:\n#   1:00 a name\n#   1:01 a greeting\n---\n",
		"\n---\n\n## Bed\n\n0:02 It \\*is\\* big.\n\n0:03 Very\\_big.\n\n## Axles\n\n0:05 Two.\n",
		"\nbed:\n  length:  # ",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	if strings.Contains(got, "deck:") || d.LeftOut != 0 {
		t.Errorf("a dump asks for a deck, or leaves out a note from %d", d.LeftOut)
	}
	if !slices.ContainsFunc(d.Missing, func(k unit.KeyDoc) bool { return k.Path == "bed.length" }) {
		t.Errorf("bed.length is not missing: %v", d.Missing)
	}
	if t.Failed() {
		t.Log(got)
	}
}

// TestManyComments ends a list of comments after 200 of them.
func TestManyComments(t *testing.T) {
	for n, want := range map[int]string{200: "", 201: "#   and 1 more\n", 250: "#   and 50 more\n"} {
		talk := &Talk{Unclear: make([]walkaround.Candidate, n), Omitted: make([]walkaround.Omission, n)}
		for i := range talk.Unclear {
			talk.Unclear[i].Value = measure.Pounds(1)
		}
		w, x := &writer{}, &writer{}
		w.unclear(talk)
		x.omitted(talk)
		for _, got := range []string{w.b.String(), x.b.String()} {
			lines := strings.SplitAfter(got, "\n")
			if len(lines) != 2+200+map[bool]int{true: 1}[want != ""] || !strings.HasSuffix(got, want) {
				t.Errorf("%d: %d lines, the last %q", n, len(lines), lines[len(lines)-2])
			}
		}
	}
}

// TestScalar writes values that YAML 1.1 or 1.2 would read as something else than text in quotes
// (YAML 1.2.2, 7.3.3 and 10.2.1; the words of YAML 1.1 are from its types bool, null and int).
func TestScalar(t *testing.T) {
	for s, want := range map[string]string{
		"plum": "plum", "20,000 lb (said 1:42)": "20,000 lb (said 1:42)", "$18,450": "$18,450", "1:35": "1:35", "1:02:03": "1:02:03", "C8x11.5": "C8x11.5",
		"yes": `"yes"`, "No": `"No"`, "null": `"null"`, "1:2:3": `"1:2:3"`, "- a": `"- a"`, "a: b": `"a: b"`, "a #b": `"a #b"`, "a:": `"a:"`, "": `""`,
		`\d`: `"\\d"`, `say "x"`: `"say \"x\""`, "jürgen": "jürgen", "a\nb": "a b", "'a'": `"'a'"`,
	} {
		if got := scalar(s); got != want {
			t.Errorf("%q is written %s, want %s", s, got, want)
		}
	}
}

// TestMadeTitle makes the title from values, each of which may be missing.
func TestMadeTitle(t *testing.T) {
	for _, c := range []struct{ values, want string }{
		{"kind=dump bed.length=14 ft", "14 ft dump trailer"},
		{"kind=dump bed.length=about 14 ft (said 0:04) bed.width=83 in", "83 in x 14 ft dump trailer"},
		{"kind=dump bed.width=83 in", ""},
		{"kind=dump weights.gvwr=14,000 lb", "dump trailer, 14,000 lb GVWR"},
		{"kind=dump year=2024 bed.length=14 ft hitch.kind=gooseneck", "2024 14 ft gooseneck dump trailer"},
		{"kind=dump bed.length=14 ft hitch.kind=bumper-pull", "14 ft dump trailer"},
		{"kind=deck-over deck.length=28 ft deck.tail-kind=hydraulic dovetail", "28 ft deck-over, hydraulic tail"},
		{"kind=deck-over deck.length=28 ft deck.tail-kind=fixed dovetail", "28 ft deck-over"},
		{"deck.length=28 ft weights.gvwr=14,000 lb", ""},
		{"", ""},
	} {
		w := &writer{taken: map[string]Taken{}}
		path := ""
		for word := range strings.FieldsSeq(c.values) {
			if p, v, ok := strings.Cut(word, "="); ok {
				path = p
				w.taken[path] = Taken{Path: path, Value: v}
			} else {
				v := w.taken[path]
				v.Value += " " + word
				w.taken[path] = v
			}
		}
		if got := w.title(); got != c.want {
			t.Errorf("%s: %q, want %q", c.values, got, c.want)
		}
	}
}
