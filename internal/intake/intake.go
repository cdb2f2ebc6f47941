// Package intake turns the captions of a walk-around into the first version of a unit
// file, and compares a recording with a unit file that is already there.
//
// It is pure: bytes and a unit go in, a file's text and a report come out. It opens and
// writes no file. It marks every figure as said, with the time; what is doubtful gets no
// key, and what nobody said stays empty. It imports
// internal/measure, internal/unit, internal/walkaround and internal/crosscheck.
package intake

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
	"tarepage/internal/spanishtalk"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// A Talk is a recording as it was understood.
type Talk struct {
	Name   string
	Format captions.Format
	Cues   int
	// Length is the end of the last cue, in whole seconds, rounded up.
	Length int
	// Taken are the values that have a key, in the order of the format.
	Taken []Taken
	// Unclear are the figures that were heard and not understood, in the order they were
	// said.
	Unclear []walkaround.Candidate
	// Items are the equipment that was named, standard and optional.
	Items []walkaround.Item
	// Notes are what was said, no two at one second.
	Notes []walkaround.Note
	// Omitted is talk that the notes leave out.
	Omitted []walkaround.Omission
	// Doubts are about the captions themselves.
	Doubts []captions.Doubt

	heard []walkaround.Candidate // every figure and word with a role
}

// Taken is a value that was said for one key.
type Taken struct {
	Path string
	// Value is as a unit file writes it; of a figure with its time: "20,000 lb (said 1:42)".
	Value string
	// At is when it was said, in seconds.
	At int
	// Quote is the speaker's own words.
	Quote string
	// Remarks say what makes it less than sure.
	Remarks []string
	// Others were said for the same key and contradict it; the first one counts.
	Others []Other
}

// Other is a value that contradicts an earlier one.
type Other struct {
	Value string
	At    int
	Quote string
}

// longest is the length of a recording, in seconds, from which on a time cannot be
// written in a note.
const longest = 100 * 60 * 60

// Listen reads captions and hears what they say. The error says why a file is not captions.
func Listen(name string, data []byte) (*Talk, error) {
	c, doubts, err := captions.Read(name, data)
	if err != nil {
		return nil, err
	}
	t := &Talk{Name: name, Format: c.Format, Cues: len(c.Cues), Doubts: doubts}
	end := 0.0
	for _, cue := range c.Cues {
		if end = max(end, cue.End); end >= longest {
			return nil, fmt.Errorf("captions %s: line %d: a cue ends after %.0f hours; a recording of a walk-around is shorter than 100 hours", name, cue.Line, end/3600)
		}
	}
	t.Length = int(math.Ceil(end))
	english, mixed := spanishtalk.English(c)
	figures, words := walkaround.Hear(english), walkaround.Words(english)
	t.Items = walkaround.Equipment(english)
	if mixed {
		t.quote(c, figures, words)
	}
	t.take(figures, words)
	notes, omitted := walkaround.Notes(c, slices.Concat(figures, words))
	t.note(notes)
	t.conclude()
	t.Omitted = omitted
	return t, nil
}

// quote puts the speaker's own words into what was heard in their English.
func (t *Talk) quote(c captions.Track, lists ...[]walkaround.Candidate) {
	for _, heard := range lists {
		for i := range heard {
			heard[i].Quote = spanishtalk.Quote(c, heard[i].Start, heard[i].End)
		}
	}
	const naming = 2 // seconds that the name of a piece of equipment takes
	for i, it := range t.Items {
		t.Items[i].Quote = spanishtalk.Quote(c, it.Start, it.Start+naming)
	}
}

// take sorts what was heard by the keys of the format.
func (t *Talk) take(figures, words []walkaround.Candidate) {
	won := map[walkaround.Role]bool{}
	for _, c := range figures {
		won[c.Role] = true
	}
	byKey := map[string][]walkaround.Candidate{}
	var beside []walkaround.Candidate
	for _, c := range figures {
		if c.Contested && won[c.Alternatives[0].Role] {
			// Something else was said and kept. This one is shown next to what won the key.
			c.Role = c.Alternatives[0].Role
			beside = append(beside, c)
		}
		if c.Role == "" {
			t.Unclear = append(t.Unclear, c)
			continue
		}
		t.heard = append(t.heard, c)
		if !c.Contested {
			byKey[string(c.Role)] = append(byKey[string(c.Role)], c)
		}
	}
	for _, c := range beside {
		byKey[string(c.Role)] = append(byKey[string(c.Role)], c)
	}
	spoken := map[string][]walkaround.Candidate{}
	for _, c := range words {
		if c.Role != "" {
			spoken[string(c.Role)] = append(spoken[string(c.Role)], c)
		}
	}
	known := map[string]bool{}
	for _, k := range unit.Keys() {
		known[k.Path] = true
		if k.Path == "tie-downs" {
			t.ties(byKey)
			continue
		}
		if said := byKey[k.Path]; len(said) > 0 {
			t.Taken = append(t.Taken, settle(k.Path, said))
		} else if w, ok := t.choose(k, spoken[k.Path]); ok {
			t.Taken = append(t.Taken, w)
		}
	}
	for _, c := range words {
		// A word whose key the format does not have: the kind of a jack.
		if c.Role != "" && !known[string(c.Role)] {
			c.Doubt = fmt.Sprintf("there is no key %s", c.Role)
			t.Unclear = append(t.Unclear, c)
		}
	}
	slices.SortStableFunc(t.Unclear, func(a, b walkaround.Candidate) int {
		return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.Offset, b.Offset))
	})
}

// settle makes one value of all that was said for a key. The first counts; an exact
// figure takes the place of an approximate one that it agrees with. What says something
// else is kept next to it: only the label tells which of the two was a mistake.
func settle(path string, said []walkaround.Candidate) Taken {
	best := said[0]
	var others []walkaround.Candidate
	type opinion struct {
		value   walkaround.Value
		compare walkaround.Comparison
	}
	known := map[opinion]bool{}
	for _, c := range said[1:] {
		o := opinion{c.Value, c.Compare}
		switch {
		case same(best, c):
			if best.Compare != walkaround.Equal && c.Compare == walkaround.Equal {
				best = c
			}
		case known[o]:
		case !slices.ContainsFunc(others[:min(len(others), mostCompared)], func(o walkaround.Candidate) bool { return same(o, c) }):
			others = append(others, c)
		}
		known[o] = true
	}
	out := Taken{Path: path, Value: best.Written(true), At: int(best.Start), Quote: best.Quote}
	if best.UnitInferred {
		out.Remarks = append(out.Remarks, "the unit was not said")
	}
	if best.High != nil {
		out.Remarks = append(out.Remarks, fmt.Sprintf("a range, %s to %s", best.Value, best.High))
	} else if word := bounds[best.Compare]; word != "" {
		out.Remarks = append(out.Remarks, "said as "+word)
	}
	for _, c := range others {
		out.Others = append(out.Others, Other{c.Written(false), int(c.Start), c.Quote})
	}
	return out
}

// mostCompared is how many values of one key a further one is compared with. Beyond them only equal
// values count as said again: a comment shows far fewer, and a talk may hold thousands.
const mostCompared = 200

// bounds are the comparisons that "about" does not tell.
var bounds = map[walkaround.Comparison]string{
	walkaround.Under: "under", walkaround.Over: "over", walkaround.UpTo: "up to", walkaround.AtLeast: "at least",
}

// same reports whether two candidates for one key say the same: equal, or within the
// 2.5% that "about" allows.
func same(a, b walkaround.Candidate) bool {
	about := a.Compare != walkaround.Equal || b.Compare != walkaround.Equal
	switch v := a.Value.(type) {
	case measure.Pounds:
		return near(v, b.Value, about)
	case measure.Inches:
		return near(v, b.Value, about)
	case measure.PSI:
		return near(v, b.Value, about)
	case measure.Dollars:
		return near(v, b.Value, about)
	}
	return a.Value.String() == b.Value.String()
}

func near[U measure.Unit](a U, other walkaround.Value, about bool) bool {
	b, ok := other.(U)
	return ok && (a == b || about && measure.Agrees(a, b, 0, true))
}

// ties makes the entries under tie-downs.
func (t *Talk) ties(byKey map[string][]walkaround.Candidate) {
	for _, e := range []struct {
		role, rating walkaround.Role
	}{{walkaround.StakePockets, ""}, {walkaround.DRings, walkaround.DRingRating}} {
		rated := byKey[string(e.rating)]
		if said := byKey[string(e.role)]; len(said) > 0 {
			tie := settle(string(e.role), said)
			if len(rated) > 0 {
				r := settle(string(e.rating), rated)
				tie.Value = said[0].Value.String() + " at " + r.Value
				tie.Remarks = append(tie.Remarks, fmt.Sprintf("%q", r.Quote))
				tie.Others = append(tie.Others, r.Others...)
			} else {
				// A count takes no "about" in front.
				tie.Value = fmt.Sprintf("%s (said %s)", said[0].Value, measure.Clock(tie.At))
			}
			t.Taken = append(t.Taken, tie)
			continue
		}
		for _, c := range rated {
			c.Role, c.Doubt = "", "a rating of tie-downs whose number was not said"
			t.Unclear = append(t.Unclear, c)
		}
	}
}

// meant is the value that people mean by a word which the key does not know. Common practice, no
// source.
var meant = map[string]string{
	"axles.suspension slipper spring": "leaf spring", // a leaf spring whose rear end slides
}

// asTold are the words on which somebody's safety rests: like a number they are only told until
// somebody has looked, and the page says so.
var asTold = map[string]bool{"brakes.kind": true, "brakes.type": true, "brakes.abs": true, "brakes.breakaway": true, "frame.floor": true}

// choose makes one value of the words that were said for a key that takes words.
func (t *Talk) choose(k unit.KeyDoc, said []walkaround.Candidate) (Taken, bool) {
	var out Taken
	found := false
	for _, c := range said {
		value := c.Value.String()
		if m := meant[k.Path+" "+value]; m != "" {
			value = m
		}
		if k.Kind == "choice" && !slices.Contains(k.Choices, value) {
			if value = strings.ReplaceAll(value, " ", "-"); !slices.Contains(k.Choices, value) {
				c.Role, c.Doubt = "", fmt.Sprintf("%s is one of %s", k.Path, strings.Join(k.Choices, ", "))
				t.Unclear = append(t.Unclear, c)
				continue
			}
		}
		c.Value = walkaround.Word(value)
		t.heard = append(t.heard, c)
		switch {
		case !found:
			found = true
			out = Taken{Path: k.Path, Value: value, At: int(c.Start), Quote: c.Quote}
			if asTold[k.Path] {
				out.Value += " (said " + measure.Clock(out.At) + ")"
			}
		case value != unsaid(out.Value) && !slices.ContainsFunc(out.Others, func(o Other) bool { return o.Value == value }):
			out.Others = append(out.Others, Other{value, int(c.Start), c.Quote})
		}
	}
	return out, found
}

// note keeps the notes: one a second, since a time leads to one moment. What begins in a second
// that is taken goes with the note before it under the same heading, or begins a second later.
func (t *Talk) note(notes []walkaround.Note) {
	taken := map[int]bool{}
	for _, n := range notes {
		n.Text = plain(n.Text)
		if n.Text == "" {
			continue
		}
		last := len(t.Notes) - 1
		if taken[int(n.Start)] && last >= 0 && t.Notes[last].Heading == n.Heading {
			t.Notes[last].Text += " " + n.Text
			t.Notes[last].End = max(t.Notes[last].End, n.End)
			continue
		}
		for taken[int(n.Start)] {
			n.Start = float64(int(n.Start) + 1)
		}
		taken[int(n.Start)] = true
		t.Notes = append(t.Notes, n)
	}
}
