package walkback

import (
	"slices"
	"strings"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// heard is a unit file as intake writes it, with comments, an odd order and a blank line.
const heard = `---
# from the recording
title: 82 in x 18 ft equipment trailer
stock: SB-1050
kind: equipment  # said 0:02: "equipment trailer"
condition: new
availability: on the yard
price: $6,480  # asked at the desk

hitch:
  kind: bumper-pull
  ball: 2-5/16 in (said 0:09)  # "two and five sixteenths ball"
  rating: 14,000 lb (said 0:09)  # "coupler is rated fourteen thousand"
  #   but 0:30 says 12,000 lb: "twelve thousand"
deck:
  length: 18 ft (said 0:02)
axles:
  count: 2 (said 0:20)
  rating: 5,200 lb (said 0:20)
tires:
  size: ST225/75R15 (said 0:31)
  load-range: D (sidewall)
  per-axle:  # how many are on one axle: 2, or 4 for duals
weights:
  gvwr: 9,900 lb (said 0:40)  # "ninety-nine hundred pounds"
---

0:09 Coupler and ball.
`

func read(t *testing.T, file string) *unit.Unit {
	t.Helper()
	u, problems := unit.ReadUnit("content/units/sb-1050.md", []byte(file))
	for _, p := range problems {
		t.Fatalf("%s: %s", p.At, p.Message)
	}
	return u
}

// open are the lines to confirm, as "key state".
func open(stations []Station) (out []string) {
	for _, s := range stations {
		for _, l := range s.Open {
			out = append(out, s.Name+": "+l.Key+" "+string(l.State))
		}
	}
	return out
}

func line(t *testing.T, stations []Station, key string) Line {
	t.Helper()
	for _, s := range stations {
		for _, l := range slices.Concat(s.Open, s.Rest) {
			if l.Key == key {
				return l
			}
		}
	}
	t.Fatalf("no line for %s", key)
	return Line{}
}

// The order of a walk: label, coupler, tires, wheels, axle tag, deck, scale.
func TestStationsInTheOrderOfAWalk(t *testing.T) {
	stations := Stations(read(t, heard), []byte(heard))
	want := []string{
		"label: weights.gvwr only said", "label: axles.rating only said",
		"coupler: hitch.ball only said", "coupler: hitch.rating only said",
		"tires: tires.size only said", "tires: tires.sidewall.single missing", "tires: tires.per-axle missing",
		"axle tag: axles.count only said", "axle tag: brakes.kind missing",
		"deck: deck.length only said",
		"scale: weights.empty missing",
	}
	if got := open(stations); !slices.Equal(got, want) {
		t.Errorf("to confirm:\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	// Where there are brakes, the axles with brakes and the breakaway device are asked for.
	braked := strings.Replace(heard, "tires:\n", "brakes:\n  kind: electric\ntires:\n", 1)
	if got := strings.Join(open(Stations(read(t, braked), []byte(braked))), "\n"); !strings.Contains(got, "brakes.axles missing\naxle tag: brakes.breakaway missing") {
		t.Errorf("with brakes:\n%s", got)
	}
	l := line(t, stations, "hitch.rating")
	if l.Said != `"coupler is rated fourteen thousand"; but 0:30 says 12,000 lb: "twelve thousand"` || l.From != "said 0:09" || l.Own != "14,000 lb (said 0:09)" ||
		l.Unit != "lb" || l.Name != "hitch rating" || l.Box != asNumber || !l.MayBeUnknown || l.Places[0] != "coupler plate" {
		t.Errorf("the coupler's line is %+v", l)
	}
	if l := line(t, stations, "deck.length"); l.Box != asFeet {
		t.Errorf("the deck's length is taken as %s", l.Box)
	}
}

// Every key is on one line, and each place of a line is a note that the reader understands as
// where the value was read.
func TestEveryKeyHasOneLine(t *testing.T) {
	seen := map[string]bool{}
	for i, docs := range keysOf() {
		for _, d := range docs {
			if d.Path == "" {
				t.Errorf("%s names a key that the format does not have", theWalk[i].name)
			}
			if seen[d.Path] {
				t.Errorf("%s is on two lines", d.Path)
			}
			seen[d.Path] = true
			for _, place := range placesOf(d) {
				note := place
				if place == scale {
					note += " 2026-11-03"
				}
				u, err := alone(d.Path, d.Example[:len(d.Example)-len(noteOf(d.Example))]+" ("+note+")")
				if err != nil {
					t.Errorf("%s does not take (%s): %v", d.Path, note, err)
					continue
				}
				for _, g := range u.Givens() {
					if o := g.From.Origin; o == measure.Unstated || o == measure.Other && place != "plate" {
						t.Errorf("%s: (%s) is read as %v", d.Path, note, g.From)
					}
				}
			}
		}
	}
	for _, d := range unit.Keys() {
		top := sectionOf(d.Path)
		if d.Kind != "section" && d.Kind != "list" && !seen[d.Path] && !slices.Contains(elsewhere, d.Path) && !slices.Contains(elsewhere, top) {
			t.Errorf("%s is on no line and not among those that are elsewhere", d.Path)
		}
	}
}

func noteOf(example string) string {
	if i := strings.Index(example, " ("); i >= 0 {
		return example[i:]
	}
	return ""
}

func TestAnswersAreWritten(t *testing.T) {
	const day = "2026-11-30"
	for _, c := range []struct {
		a    Answer
		want string // of a refused answer, its reason begins with "no: "
	}{
		{Answer{Key: "weights.gvwr", Value: "9900", Place: "tag"}, "9,900 lb (tag)"},
		{Answer{Key: "weights.gvwr", Value: "9,900 lb", Place: "tag"}, "9,900 lb (tag)"},
		{Answer{Key: "weights.gvwr", Value: "4490 kg", Place: "tag"}, "4490 kg (tag)"},
		{Answer{Key: "weights.empty", Value: "2640", Place: "scale ticket", Day: "2026-11-18"}, "2,640 lb (scale ticket 2026-11-18)"},
		{Answer{Key: "weights.empty", Value: "2640", Place: "scale ticket"}, "no: give the day on the scale ticket"},
		{Answer{Key: "weights.empty", Value: "2640"}, "no: choose where you read it"},
		{Answer{Key: "weights.empty", Value: "2640", Place: "tape"}, `no: "tape" is not a place for this`},
		{Answer{Key: "weights.empty", Value: "heavy", Place: "maker's sheet"}, "no: weight"},
		{Answer{Key: "weights.empty", Value: "2640 (tag)", Place: "tag"}, "no: leave the parentheses out"},
		{Answer{Key: "weights.empty", Value: " ", Place: "tag"}, "no: type what you read"},
		{Answer{Key: "weights.empty", Unreadable: "the ticket is lost"}, "unknown: the ticket is lost"},
		{Answer{Key: "kind", Unreadable: "no idea"}, "no: this is not read off the trailer"},
		{Answer{Key: "tires.size", Value: "ST225/75R15", Place: "sidewall"}, "ST225/75R15 (sidewall)"},
		{Answer{Key: "tires.pressure", Value: "80", Place: "tag"}, "80 psi (tag)"},
		{Answer{Key: "tires.made", Value: "3126", Place: "sidewall"}, "3126 (sidewall)"},
		{Answer{Key: "tires.per-axle", Value: "2"}, "2"},
		{Answer{Key: "deck.length", Value: "18 ft", Place: "tape"}, "18 ft (tape)"},
		{Answer{Key: "deck.height", Value: "26", Place: "tape"}, "26 in (tape)"},
		{Answer{Key: "hitch.ball", Value: "2-5/16 in", Place: "stamp"}, "2-5/16 in (stamp)"},
		{Answer{Key: "price", Value: "6280"}, "$6,280 (since 2026-11-30)"},
		{Answer{Key: "price", Value: "6280.50"}, "$6,280.50 (since 2026-11-30)"},
		{Answer{Key: "price", Value: "call"}, "no: "},
		{Answer{Key: "availability", Value: "sold"}, "sold (since 2026-11-30)"},
		{Answer{Key: "stock", Value: "SB-2"}, `no: "stock" is not a key that is confirmed here`},
		{Answer{Key: "recording.video", Value: "x"}, `no: "recording.video" is not a key`},
	} {
		got, err := c.a.text(day)
		if err != nil {
			got = "no: " + err.Error()
		}
		if got != c.want && !(strings.HasPrefix(c.want, "no: ") && strings.HasPrefix(got, c.want)) {
			t.Errorf("%+v: %q, want %q", c.a, got, c.want)
		}
	}
}

// What nobody answered stays as it is, byte for byte; what the file leaves out is added.
func TestReviseChangesOnlyWhatWasAnswered(t *testing.T) {
	for _, eol := range []string{"\n", "\r\n"} {
		file := strings.ReplaceAll(heard, "\n", eol)
		got, outcomes := Revise([]byte(file), []Answer{
			{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9950", Place: "tag"},
			{Key: "hitch.rating", Own: "14,000 lb (said 0:09)", Unreadable: "painted over"},
			{Key: "tires.per-axle", Value: "2"},
			{Key: "weights.empty", Value: "2640", Place: "scale ticket", Day: "2026-11-18"},
			{Key: "tires.sidewall.single", Value: "2540", Place: "sidewall"},
			{Key: "axles.rating", Own: "5,200 lb (said 0:20)", Value: "a lot", Place: "tag"},
		}, "2026-11-30")
		want := strings.NewReplacer(
			"9,900 lb (said 0:40)", "9,950 lb (tag)",
			"14,000 lb (said 0:09)", `"unknown: painted over"`,
			"per-axle:  #", "per-axle: 2  #",
			"one axle: 2, or 4 for duals\n", "one axle: 2, or 4 for duals\n  sidewall:\n    single: 2,540 lb (sidewall)\n",
			"\"ninety-nine hundred pounds\"\n", "\"ninety-nine hundred pounds\"\n  empty: 2,640 lb (scale ticket 2026-11-18)\n",
		).Replace(heard)
		if want = strings.ReplaceAll(want, "\n", eol); string(got) != want {
			t.Errorf("line ends of %q:\n%s\nwant\n%s", eol, got, want)
		}
		for i, o := range outcomes {
			if want := []string{Taken, Taken, Taken, Taken, Taken, Refused}[i]; o.Outcome != want {
				t.Errorf("%s is %s (%s), want %s", o.Key, o.Outcome, o.Reason, want)
			}
		}
		u := read(t, string(got))
		if l := line(t, Stations(u, got), "hitch.rating"); l.State != Known || l.Now != "unknown: painted over" {
			t.Errorf("what cannot be read is %+v", l)
		}
	}
}

// A price that was only heard shows its words, and one tap on Same confirms it.
func TestSpokenPriceIsConfirmedWithOneTap(t *testing.T) {
	file := []byte(strings.Replace(heard, "$6,480  # asked at the desk", `$2,600 (said 2:48)  # "twenty-six hundred"; the unit was not said`, 1))
	price := Sale(read(t, string(file)), file)[1]
	if price.Key != "price" || price.State != OnlySaid || !strings.Contains(price.Said, `"twenty-six hundred"`) {
		t.Fatalf("the price's line is %+v", price)
	}
	file, o := Revise(file, []Answer{{Key: price.Key, Own: price.Own, Value: price.Now}}, "2026-11-30")
	if price = Sale(read(t, string(file)), file)[1]; o[0].Outcome != Taken || price.State != Known || price.Own != "$2,600 (since 2026-11-30)" {
		t.Errorf("after Same: %+v, %+v", o, price)
	}
}

// What a recording took for equipment is open until somebody keeps or strikes each item.
func TestEquipmentIsKeptOrStruck(t *testing.T) {
	const talk = `---
stock: RW-105
standard:
  - LED lights (said 0:44)  # "LED"
  - "pinstriping: red (said 3:16)"  # "Decals"
  - winch (used)
options:
  - trimmer rack (said 1:12)  # "Trimmer rack"
---
`
	stations := Stations(read(t, talk), []byte(talk))
	s := stations[len(stations)-1]
	if len(s.Open) != 3 || s.Open[0].Ask != "LED lights" || s.Open[0].Said != `"LED"` || s.Open[0].State != OnlySaid || s.Open[2].Now != ordered {
		t.Fatalf("to keep or strike: %+v", s.Open)
	}
	if len(s.Rest) != 1 || s.Rest[0].Ask != "winch (used)" {
		t.Errorf("the owner's own item: %+v", s.Rest)
	}
	answers := []Answer{
		{Key: "standard.LED lights", Value: comes},
		{Key: "standard.pinstriping: red", Value: struck},
		{Key: "options.trimmer rack", Value: struck},
		{Key: "standard.LED lights", Value: "perhaps"},
		{Key: "standard.tarp kit", Value: comes},
	}
	for _, eol := range []string{"\n", "\r\n"} {
		file := []byte(strings.ReplaceAll(talk, "\n", eol))
		for range 2 { // a phone that lost the signal sends twice
			var o []Outcome
			file, o = Revise(file, answers, "2026-11-30")
			want := strings.ReplaceAll("---\nstock: RW-105\nstandard:\n  - LED lights  # \"LED\"\n  - winch (used)\n---\n", "\n", eol)
			if string(file) != want {
				t.Errorf("the file is\n%s\nwant\n%s", file, want)
			}
			for i, want := range []string{Taken, Taken, Taken, Refused, Refused} {
				if o[i].Outcome != want {
					t.Errorf("%s is %s (%s), want %s", o[i].Key, o[i].Outcome, o[i].Reason, want)
				}
			}
		}
	}
	// What cannot be struck without another key is refused.
	flow := []byte("---\nstock: RW-105\nstandard: [LED lights (said 0:44), winch]\n---\n")
	if out, o := Revise(flow, answers[:1], ""); o[0].Outcome != Refused || string(out) != string(flow) {
		t.Errorf("a list in brackets: %+v\n%s", o, out)
	}
}

// Two phones: the second one does not write over the first, and an answer that arrives twice
// counts once.
func TestReviseConflict(t *testing.T) {
	first := Answer{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9990", Place: "tag"}
	second := Answer{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9950", Place: "tag"}
	file, _ := Revise([]byte(heard), []Answer{first}, "")
	again, o := Revise(file, []Answer{first}, "")
	if o[0].Outcome != Taken || string(again) != string(file) {
		t.Errorf("sent twice: %+v", o[0])
	}
	after, o := Revise(file, []Answer{second}, "")
	if o[0].Outcome != Conflict || o[0].Own != "9,990 lb (tag)" || o[0].Written != "9,950 lb (tag)" || string(after) != string(file) {
		t.Errorf("the second phone: %+v", o[0])
	}
	second.Own = o[0].Own // the second phone saw both and insists
	if _, o := Revise(file, []Answer{second}, ""); o[0].Outcome != Taken {
		t.Errorf("insisting: %+v", o[0])
	}
	added := Answer{Key: "weights.empty", Value: "2640", Place: "maker's sheet"}
	file, _ = Revise(file, []Answer{added}, "")
	added.Value = "2700"
	if _, o := Revise(file, []Answer{added}, ""); o[0].Outcome != Conflict {
		t.Errorf("both added it: %+v", o[0])
	}
}

// A note is words, whatever is typed: CommonMark 0.31.2 reads no mark in it.
func TestAddNote(t *testing.T) {
	for typed, want := range map[string]string{
		"New tires  go on\nnext week": "New tires go on next week",
		"# cheap *today*":             `\# cheap \*today\*`,
		"1. first":                    `1\. first`,
		"- and":                       `\- and`,
		"<b>bold</b> [x](y)":          `\<b\>bold\</b\> \[x\](y)`,
	} {
		got, err := AddNote([]byte(heard), typed)
		if err != nil || string(got) != heard+"\n"+want+"\n" {
			t.Errorf("%q: %v\n%q", typed, err, strings.TrimPrefix(string(got), heard))
		}
		again, err := AddNote(got, typed)
		if err != nil || string(again) != string(got) {
			t.Errorf("%q, sent twice: %v", typed, err)
		}
		u := read(t, string(got))
		// No mark is left: the reader's own text of the paragraph is what was typed.
		passages := u.Body.Passages(func(string) string { return "" })
		if text := passages[len(passages)-1].Text; text != strings.Join(strings.Fields(typed), " ") {
			t.Errorf("%q is read as %q", typed, text)
		}
	}
	for _, typed := range []string{"", " \n", strings.Repeat("x", mostNote+1)} {
		if _, err := AddNote([]byte(heard), typed); err == nil {
			t.Errorf("a note of %d characters is taken", len(typed))
		}
	}
}

// A photo proves what the file says was read there, and nothing else.
func TestAddPhoto(t *testing.T) {
	file, _ := Revise([]byte(heard), []Answer{
		{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9900", Place: "tag"},
		{Key: "axles.rating", Own: "5,200 lb (said 0:20)", Value: "5200", Place: "tag"},
	}, "")
	both := Photo{File: "media/sb-1050-tag-1.jpg", Place: "tag", Keys: []string{"weights.gvwr", "axles.rating"}}
	got, err := AddPhoto(file, both)
	item := "proof:\n  - file: media/sb-1050-tag-1.jpg\n    shows: label\n    proves: weights.gvwr, axles.rating\n"
	if want := strings.Replace(string(file), "---\n\n0:09", item+"---\n\n0:09", 1); err != nil || string(got) != want {
		t.Fatalf("%v\n%s\nwant\n%s", err, got, want)
	}
	u := read(t, string(got))
	if l := line(t, Stations(u, got), "axles.rating"); !l.Proven || l.ReadAt != "tag" {
		t.Errorf("the line is %+v", l)
	}
	both.Private = "not for customers"
	if got, err := AddPhoto(got, both); err != nil || !strings.Contains(string(got), "    withhold: not for customers\n") {
		t.Errorf("kept off the site: %v\n%s", err, got)
	}
	for _, p := range []Photo{
		{File: "media/a.jpg", Place: "tag", Keys: []string{"hitch.rating"}},          // only said
		{File: "media/a.jpg", Place: "sidewall", Keys: []string{"weights.gvwr"}},     // read elsewhere
		{File: "media/a.jpg", Place: "tag", Keys: []string{"weights.gvwr", "stock"}}, // nothing that is read
		{File: "media/a.jpg", Place: "tag"},
		{File: "media/a.jpg", Place: "", Keys: []string{"tires.per-axle"}},
	} {
		if got, err := AddPhoto(file, p); err == nil {
			t.Errorf("%+v is taken:\n%s", p, got)
		}
	}
}
