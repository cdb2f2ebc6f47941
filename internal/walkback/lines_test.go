package walkback

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/amend"
	"tarepage/internal/kinds"
	"tarepage/internal/unit"
)

// TestHowAValueIsTyped: the unit, the box and the places of a value of each sort.
func TestHowAValueIsTyped(t *testing.T) {
	docs := map[string]unit.KeyDoc{}
	for _, d := range unit.Keys() {
		docs[d.Path] = d
	}
	for key, want := range map[string]string{
		"weights.gvwr":            "number lb [tag maker's sheet]",
		"tires.pressure":          "number psi [tag]",
		"price":                   "number $ []",
		"bed.volume":              "number bu [tape tag maker's sheet]",
		"bin.largest":             "number cu yd [tape tag maker's sheet]",
		"tank.volume":             "number gal [tape tag maker's sheet]",
		"deck.length":             "feet in [tape maker's sheet]",
		"deck.height":             "number in [tape maker's sheet]",
		"hitch.ball":              "choice in [coupler plate stamp tape] 1-7/8 in,2 in,2-5/16 in,3 in",
		"tires.per-axle":          "number  []",
		"tires.made":              "number  [sidewall]",
		"arrived":                 "day  []",
		"kind":                    "choice  []",
		"brakes.breakaway":        "choice  [] yes,no",
		"color":                   "text  []",
		"serial":                  "text  []",
		"claimed.payload":         "number lb [maker's sheet]",
		"tires.size":              "text  [sidewall tag]",
		"weights.empty":           "number lb [scale ticket maker's sheet tag]",
		"brakes.stops-in":         "",
		"wear.tread":              "text in [tape maker's sheet]",
		"hitch.chains.breaking":   "number lb [tag stamp maker's sheet]",
		"tires.sidewall.pressure": "number psi [sidewall]",
	} {
		d, ok := docs[key]
		if !ok {
			if want != "" {
				t.Errorf("there is no key %s", key)
			}
			continue
		}
		box, choices := boxOf(d)
		got := fmt.Sprintf("%s %s %v", box, wants(d), placesOf(d))
		if key != "kind" && len(choices) > 0 {
			got += " " + strings.Join(choices, ",")
		}
		if got != want {
			t.Errorf("%s (%s, as in %q): %s, want %s", key, d.Kind, d.Example, got, want)
		}
	}
	// A bare number in the line's unit is a value for every key that has a unit, as the reader reads it.
	for _, d := range lineDocs() {
		if u := wants(d); u != "" {
			if _, err := alone(d.Path, inUnit("12", u)); err != nil {
				t.Errorf("%s does not take 12 in %s: %v", d.Path, u, err)
			}
		}
	}
	for number, want := range map[string]string{"1": "1 lb", "999": "999 lb", "1000": "1,000 lb", "12345678": "12,345,678 lb", "007": "7 lb", "0": "0 lb", "0.50": "0.50 lb", "1,2,3": "123 lb", "9900.5": "9,900.5 lb"} {
		if got := inUnit(number, "lb"); got != want {
			t.Errorf("%s is written %s, want %s", number, got, want)
		}
	}
}

// TestWhatMayBeAdded: on the walk a trailer may get the keys of the space of its kind, those that
// every trailer has, and no key of another kind's space.
func TestWhatMayBeAdded(t *testing.T) {
	for _, k := range kinds.All() {
		for _, other := range kinds.All() {
			if other.Space == kinds.None {
				continue
			}
			if got, want := concerns(string(other.Space)+".length", k.Name), other.Space == k.Space; got != want {
				t.Errorf("%s: a length of the %s: %v", k.Name, other.Space, got)
			}
		}
	}
	for _, c := range []struct {
		key, kind string
		want      bool
	}{{"weights.gvwr", "", true}, {"serial", "", true}, {"deck.length", "", false}, {"ramps.kind", "utility", false}, {"jack.kind", "utility", false}, {"hitch.plug", "dump", true}} {
		if got := concerns(c.key, c.kind); got != c.want {
			t.Errorf("%s of kind %q: %v", c.key, c.kind, got)
		}
	}
}

// TestWhatIsAsked: the load of a tire is asked for once its size is known, unless the tires are
// in pairs; brakes that there are need their axles and a breakaway device (49 CFR 393.43).
func TestWhatIsAsked(t *testing.T) {
	for _, c := range []struct {
		front, key string
		want       bool
	}{
		{"", "tires.sidewall.single", false},
		{"tires:\n  size: ST235/80R16\n", "tires.sidewall.single", true},
		{"tires:\n  size: ST235/80R16\n  sidewall:\n    dual: 3,080 lb\n", "tires.sidewall.single", false},
		{"", "brakes.axles", false},
		{"brakes:\n  kind: electric\n", "brakes.axles", true},
		{"brakes:\n  kind: electric\n", "brakes.breakaway", true},
		{"brakes:\n  kind: none\n", "brakes.breakaway", false},
		{"", "weights.gvwr", true},
		{"", "color", false},
	} {
		u, _ := unit.ReadUnit("content/units/a.md", []byte("---\nstock: A-1\n"+c.front+"---\n"))
		if got := asked(c.key, u); got != c.want {
			t.Errorf("%s with %q: %v", c.key, c.front, got)
		}
	}
}

// TestSaid keeps the words of a recording next to a value, with what else was said of it.
// What is asked says of what, because a phone shows no section above the line.
func TestAskSaysOfWhat(t *testing.T) {
	want := map[string]string{"jack.rating": "jack rating: rating of each", "frame.crossmember-spacing": "frame crossmember spacing: center to center",
		"axles.rating": "rating of each axle (GAWR)", "price": "the asking price, and since when if it changed"}
	for _, d := range unit.Keys() {
		if ask, is := want[d.Path]; is && askOf(d) != ask {
			t.Errorf("%s is asked as %q, want %q", d.Path, askOf(d), ask)
		}
	}
}

func TestSaid(t *testing.T) {
	lines := strings.Split("a: 1  # \"one\"\n  #   but 0:10 says 2: \"two\"\n  #   but 0:20 says 3\n  # a remark\n  #   but of another\nb: 2\n  #   but 1:00 says 4\nc: 3 # too near", "\n")
	for line, want := range map[int]string{
		1: `"one"; but 0:10 says 2: "two"; but 0:20 says 3`, 6: "but 1:00 says 4", 8: "", 0: "", -1: "", 9: "",
	} {
		if got := said(lines, line); got != want {
			t.Errorf("line %d: %q, want %q", line, got, want)
		}
	}
}

// TestStationsOfNothing: a file that does not read has nothing to confirm, and a unit without
// equipment has no station for it.
func TestStationsOfNothing(t *testing.T) {
	names := func(file string) (out []string) {
		u, _ := unit.ReadUnit("content/units/a.md", []byte(file))
		for _, s := range Stations(u, []byte(file)) {
			if len(s.Open)+len(s.Rest) == 0 {
				t.Errorf("%s has no line", s.Name)
			}
			out = append(out, s.Name)
		}
		return out
	}
	if got := names("---\nstock: A-1\n---\n"); slices.Contains(got, "kit") || len(got) != 8 {
		t.Errorf("%q", got)
	}
	if got := names("---\nstock: A-1\nstandard:\n  - spare\n---\n"); !slices.Contains(got, "kit") {
		t.Errorf("%q", got)
	}
	broken := []byte("---\nstock: \"A-1\n---\n")
	u, _ := unit.ReadUnit("content/units/a.md", broken)
	for _, s := range Stations(u, broken) {
		for _, l := range slices.Concat(s.Open, s.Rest) {
			if l.Own != "" || l.State == Known {
				t.Errorf("%s is %+v", s.Name, l)
			}
		}
	}
	out, o := Revise(broken, []Answer{{Key: "color", Value: "plum"}}, "2026-11-30")
	if string(out) != string(broken) || o[0].Outcome != Refused || !strings.Contains(o[0].Reason, "does not read now") {
		t.Errorf("%q, %+v", out, o)
	}
	// A value that amend cannot write at its place stays, and the desk hears why.
	odd := []byte("---\nstock: A-1\nweights: {gvwr: 7000 lb}\n---\n")
	out, o = Revise(odd, []Answer{{Key: "weights.gvwr", Own: "7000 lb", Value: "7100", Place: "tag"}}, "2026-11-30")
	if want, err := amend.Apply(odd, []amend.Change{{Path: "weights.gvwr", Value: "7,100 lb (tag)"}}); err != nil {
		if string(out) != string(odd) || o[0].Outcome != Refused || !strings.HasSuffix(o[0].Reason, "; change it at the desk") {
			t.Errorf("%q, %+v", out, o)
		}
	} else if string(out) != string(want) {
		t.Errorf("%q", out)
	}
}

// TestStrikeALine takes one line out of a list, and with the last one the list.
func TestStrikeALine(t *testing.T) {
	const file = "---\nstock: A\nstandard:\n  # heard\n  - one (said 0:10)  # \"one\"\n  - two (said 0:20\n  - three\n---\n"
	for _, c := range []struct {
		name         string
		file         string
		line         int
		strike, last bool
		want         string // what is gone; - where nothing can be done
	}{
		{"a line", file, 5, true, false, "  - one (said 0:10)  # \"one\"\n"},
		{"its note", file, 5, false, false, " (said 0:10)"},
		{"a note without an end", file, 6, false, false, "-"},
		{"no note", file, 7, false, false, "-"},
		{"a comment", file, 4, true, false, "-"},
		{"a key", file, 3, true, false, "-"},
		{"line 0", file, 0, true, false, "-"},
		{"past the end", file, 10, true, false, "-"},
		{"the last item", file, 5, true, true, "standard:\n  # heard\n  - one (said 0:10)  # \"one\"\n"},
		{"a list without a key above", "- one (said 0:10)\n", 1, true, true, "-"},
		{"comments above", "# a\n# b\n- one (said 0:10)\n", 3, true, true, "-"},
		{"in the first line", "standard:\n- one (said 0:10)\n", 2, true, true, "standard:\n- one (said 0:10)\n"},
		{"no key above", "---\nwords\n- one (said 0:10)\n", 3, true, true, "-"},
	} {
		got := string(withoutItem([]byte(c.file), c.line, c.strike, c.last))
		want := ""
		if c.want != "-" {
			want = strings.Replace(c.file, c.want, "", 1)
		}
		if got != want {
			t.Errorf("%s: %q, want %q", c.name, got, want)
		}
	}
	// The model's equipment is not this file's to keep or strike.
	u, _ := unit.ReadUnit("content/units/a.md", []byte("---\nstock: A\nstandard:\n  - one (said 0:10)\n  - two\n---\n"))
	u.Standard[1].Pos.File = "content/models/m.md"
	if s := kit(u, nil); len(s.Open) != 1 || len(s.Rest) != 0 {
		t.Errorf("%+v", s)
	}
}

// TestNotesAtTheLimits: a note has at most 1,000 characters and never makes a file that cannot
// be read; it begins on a line of its own.
func TestNotesAtTheLimits(t *testing.T) {
	const file = "---\nstock: A\n---\n"
	for n, taken := range map[int]bool{0: false, 1: true, mostNote: true, mostNote + 1: false} {
		if _, err := AddNote([]byte(file), strings.Repeat("ü", n)); (err == nil) != taken {
			t.Errorf("%d characters: %v", n, err)
		}
	}
	for was, want := range map[string]string{
		"---\nstock: A\n---":            "---\nstock: A\n---\n\nnew\n",
		"---\r\nstock: A\r\n---":        "---\r\nstock: A\r\n---\r\n\r\nnew\r\n",
		"---\nstock: A\n---\nold\n":     "---\nstock: A\n---\nold\n\nnew\n",
		"---\nstock: A\n---\nnew  \n":   "---\nstock: A\n---\nnew  \n\nnew\n",
		"---\nstock: A\n---\nnew\n":     "---\nstock: A\n---\nnew\n",
		"---\r\nstock: A\r\n---\r\nnew": "---\r\nstock: A\r\n---\r\nnew",
	} {
		if got, err := AddNote([]byte(was), " new\x07 "); err != nil || string(got) != want {
			t.Errorf("%q became %q, %v", was, got, err)
		}
	}
	// The words of a file may be so many that one more note is too much.
	full := file + strings.Repeat("word and word\n\n", unit.MostWords/15)
	if got, err := AddNote([]byte(full), strings.Repeat("x", 500)); err == nil || !strings.Contains(err.Error(), "does not fit") {
		t.Errorf("%d bytes, %v", len(got), err)
	}
}
