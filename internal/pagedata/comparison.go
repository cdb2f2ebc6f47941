package pagedata

import (
	"slices"
	"strings"

	"tarepage/internal/kinds"
)

// comparison are the rows of a comparison that trailers of one model share.
var comparison = []struct {
	name string
	of   func(t *Trailer) string
}{
	{"Kind", func(t *Trailer) string { return kinds.Of(t.Kind.Value).Label }},
	{"Hitch", func(t *Trailer) string {
		s := t.Hitch.Kind.Value
		if t.Hitch.Ball.Given() {
			s += ", " + t.Hitch.Ball.Value.InInches() + " ball"
		}
		return s
	}},
	{"Width", func(t *Trailer) string {
		if b := t.Deck.Between; b.Given() {
			return b.Words() + " between fenders"
		}
		return t.Work.Space.Width.Words()
	}},
	{"Height of the floor", func(t *Trailer) string { return t.Work.Space.Floor.Words() }},
	{"Axles", func(t *Trailer) string {
		if t.Axles.Count.Value == 1 {
			return t.Axles.Rating.Words()
		}
		return t.Axles.Count.Words() + " x " + t.Axles.Rating.Words()
	}},
	{"Tires", func(t *Trailer) string {
		s := t.Tires.Size.Value
		if t.Tires.LoadRange.Given() {
			s += " load range " + t.Tires.LoadRange.Value
		}
		return s
	}},
	{"Brakes", func(t *Trailer) string { return t.Brakes.Kind.Value }},
	{"Suspension", func(t *Trailer) string { return t.Axles.Suspension.Value }},
	{"Tail", func(t *Trailer) string { return t.Deck.TailKind.Value }},
	{"Ramps", func(t *Trailer) string {
		if !t.Ramps.Kind.Given() {
			return ""
		}
		return strings.TrimSuffix(t.Ramps.Kind.Value+", "+t.Ramps.Length.Words(), ", ")
	}},
}

// onCard are the rows of the comparison that a card shows.
var onCard = []string{"Hitch", "Width", "Axles"}

// Size is what a card says about hitch, width and axles, in one line.
func (t *Trailer) Size() string {
	var out []string
	for _, row := range comparison {
		if s := row.of(t); s != "" && slices.Contains(onCard, row.name) {
			out = append(out, s)
		}
	}
	return strings.Join(out, ", ")
}
