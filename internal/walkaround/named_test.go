package walkaround

import (
	"slices"
	"strings"
	"testing"

	"tarepage/internal/captions"
)

// TestTwoNames: of two trailers that are told apart by a word, what is said of the second one is of
// another trailer. Brackets are around that. Common practice, no source.
func TestTwoNames(t *testing.T) {
	for _, said := range []string{
		"the white one has two axles . [ the black one has three . ] the white one weighs 2,480 . [ the black one weighs 3,560 . ] price is 7,150 for the white .",
		"so the red one or the gray one . the one i'm selling you is the gray one . [ the red one is heavy . ] gray one is twenty foot . [ the red is old ] .",
		"the long one is mine to sell . [ the short one has two axles . ] brakes on both . [ the short one has wood . ] the long one is gooseneck .",
	} {
		var want []bool
		var plain []string
		second := false
		for w := range strings.FieldsSeq(said) {
			switch w {
			case "[", "]":
				second = w == "["
			default:
				plain, want = append(plain, w), append(want, second)
			}
		}
		h := &hearing{t: tokens(strings.Join(plain, " "))}
		got := h.ofSecondName()
		// A stop belongs to either side.
		for i := range got {
			if i < len(want) && h.t[i].kind == stop {
				want[i] = got[i]
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", said, got, want)
		}
	}
}

// TestOneName: nothing is of another trailer where only one is named.
func TestOneName(t *testing.T) {
	h := &hearing{t: tokens("the white one has two axles. it has white wheels, and the white one is here today. the big tires are new.")}
	if got := h.ofSecondName(); got != nil {
		t.Errorf("%v", got)
	}
}

// TestOutOfOrder: of a breakaway device that does not work nobody hears that there is one.
func TestOutOfOrder(t *testing.T) {
	breakaways := func(said string) (out []string) {
		for _, w := range Words(captions.Track{Cues: []captions.Cue{{Start: 1, End: 9, Text: said}}}) {
			if w.Role == breakaway {
				out = append(out, string(w.Value.(Word)))
			}
		}
		return out
	}
	for _, r := range outOfOrderRows {
		if got := breakaways(r.example); slices.Contains(got, "yes") {
			t.Errorf("%q is heard as %v", r.example, got)
		}
	}
	for _, said := range []string{"breakaway kit is there and works", "it has a breakaway. the old battery is dead in my truck", "safety chains breakaway kit seven way plug"} {
		if got := breakaways(said); !slices.Equal(got, []string{"yes"}) {
			t.Errorf("%q is heard as %v", said, got)
		}
	}
}
