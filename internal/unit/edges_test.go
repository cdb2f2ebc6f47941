package unit

import (
	"strings"
	"testing"
)

// TestDatesAtTheirEdges: the weeks and years that a date code may name, and the century that two
// digits mean. ISO 8601 has years of 53 weeks.
func TestDatesAtTheirEdges(t *testing.T) {
	for text, want := range map[string]Week{
		"week 1 1990": {Week: 1, Year: 1990}, "week 53 2100": {Week: 53, Year: 2100}, "DOT 3126": {Week: 31, Year: 2026}, "0100": {Week: 1, Year: 2000},
		"week 0 2026": {}, "week 54 2026": {}, "week 31 1989": {}, "week 31 2101": {}, "5499": {},
	} {
		if got, err := ParseWeek(text); got != want || (err == nil) != (want != Week{}) {
			t.Errorf("%q is %v (%v), want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]Month{
		"10/0": {}, "10/00": {2000, 10}, "10/50": {2050, 10}, "10/51": {1951, 10}, "1/99": {1999, 1}, "6/1970": {1970, 6}, "2025-10": {2025, 10}, "13/25": {}, "2025-13": {},
	} {
		if got, err := ParseMonth(text); got != want || (err == nil) != (want != Month{}) {
			t.Errorf("%q is %v (%v), want %v", text, got, err, want)
		}
	}
}

// TestNestedAtTheEnd: marks at the end of a line, where nothing follows them.
func TestNestedAtTheEnd(t *testing.T) {
	for line, want := range map[string]int{"9) ninth": 1, "9.": 1, "19": 0, "> 9": 1, ">": 1, "+": 1, "> +": 2, "9.x": 0, "0. none": 1, "+1": 0} {
		if got := nested([]byte(line)); got != want {
			t.Errorf("%q: %d marks, want %d", line, got, want)
		}
	}
}

// TestMentions: a text is read for gross ratings only if a word may begin one.
func TestMentions(t *testing.T) {
	for text, want := range map[string]bool{"gvw": true, "the G.V.W.": true, "a Gross rating": true, "groſs": true, "g.v": true, "gv": false, "big": false, "ground": false, "gravel": false, "gro": false, "long. very": false, "egg": false, "": false} {
		if got := mentions(text); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// TestKeyMeant: the key that a word names: its path, its everyday name, or none, where it names a
// list.
func TestKeyMeant(t *testing.T) {
	for words, want := range map[string]string{
		"Spare Size": "tires.spare-size", "tires spare size": "tires.spare-size", "weights.gvwr": "weights.gvwr",
		"tires": "tires.size", "photos": "", "proof": "", "nonsense": "",
	} {
		if got := KeyMeant(words); got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}

// TestNearElsewhere: a slip of a key of one section; none where several sections have that key.
func TestNearElsewhere(t *testing.T) {
	for word, want := range map[string]string{"tounge-empty": "weights.tongue-empty", "lenght": "", "gizmo": "", "load-rnage": "tires.load-range"} {
		if got := nearElsewhere(word); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

// TestThousands: what a k means, rounded to whole pounds, up to 200,000 lb.
func TestThousands(t *testing.T) {
	for text, want := range map[string]string{"9.9k": "9,900 lb", "9.9996k": "10,000 lb", "9.9994k": "9,999 lb", "200k": "200,000 lb", "200.1k": "", "0k": ""} {
		for _, g := range guesses {
			if g.example != "9.9k (tag)" {
				continue
			}
			if got := g.make(nil, text); got != want {
				t.Errorf("%q: %q, want %q", text, got, want)
			}
		}
	}
}

const proven = `---
stock: A
title: a dump
weights:
  gvwr:
    unknown: the tag is gone
tie-downs:
  - d-rings: 4 (said 1:02) at 5,000 lb (said 1:03)
  - stake pockets: 12 at 3,000 lb (tag)
proof:
  - file: media/a-1.jpg
    shows: label
    proves: weights.empty
    withhold: a name is on it
  - file: media/a-2.jpg
    shows: label
    proves: weights.empty, axles.rating
    withhold: a name is on it
  - file: media/a-3.jpg
    shows: label
    proves: axles.rating
---
`

// TestProofOf: a photo that is on the site comes before one that is kept off it, and the first of
// those before the others.
func TestProofOf(t *testing.T) {
	u, _ := ReadUnit("content/units/a.md", []byte(proven))
	for path, want := range map[string]string{"weights.empty": "media/a-1.jpg", "axles.rating": "media/a-3.jpg", "weights.gvwr": ""} {
		got := ""
		if p := u.ProofOf(path); p != nil {
			got = p.File.Value
		}
		if got != want {
			t.Errorf("%s is proved by %q, want %q", path, got, want)
		}
	}
}

// TestSaidTieDowns: of tie-downs that were only said, the rating is said too; of others nothing is.
// "unknown:" on a line of its own means the same as after the key.
func TestSaidTieDowns(t *testing.T) {
	u, _ := ReadUnit("content/units/a.md", []byte(proven))
	var said, all, unknown []string
	for _, g := range u.Said() {
		said = append(said, g.Path)
	}
	for _, g := range u.Givens() {
		if strings.HasPrefix(g.Path, "tie-downs") {
			all = append(all, g.Path+" "+g.Text)
		}
	}
	for _, g := range u.Unknown() {
		unknown = append(unknown, g.Path)
	}
	for got, want := range map[string]string{
		strings.Join(said, " "):    "tie-downs.d-rings tie-downs.d-rings.rating",
		strings.Join(unknown, " "): "weights.gvwr",
		strings.Join(all, "; "):    "tie-downs.d-rings 4; tie-downs.d-rings.rating 5,000 lb; tie-downs.stake-pockets 12; tie-downs.stake-pockets.rating 3,000 lb",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
