package pagedata

import (
	"slices"
	"strings"

	"tarepage/internal/kinds"
	"tarepage/internal/unit"
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
		b := t.Deck.Between
		switch {
		case b.Given() && t.OverallWidth.Given():
			return b.Words() + " between fenders, " + t.OverallWidth.Words() + " overall"
		case b.Given():
			// A customer takes the one width that he reads for the trailer's.
			return b.Words() + " between fenders (overall width not measured)"
		}
		return t.Work.Space.Width.Words()
	}},
	{"Overall width", func(t *Trailer) string { return t.OverallWidth.Words() }},
	{"Overall length", func(t *Trailer) string { return t.OverallLength.Words() }},
	{"Overall height", func(t *Trailer) string { return t.OverallHeight.Words() }},
	{"Holds", func(t *Trailer) string {
		return stated(t.Tank.Volume.Words(), t.Tank.Liquid.Value, t.Bed.Volume.Words(), t.Bin.Largest.Words())
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
	{"Brakes", func(t *Trailer) string { return stated(t.Brakes.Kind.Value, t.Brakes.Type.Value, t.Brakes.Size.Value) }},
	{"Suspension", func(t *Trailer) string { return t.Axles.Suspension.Value }},
	{"Tail", func(t *Trailer) string { return t.Deck.TailKind.Value }},
	{"Ramps", func(t *Trailer) string {
		if !t.Ramps.Kind.Given() {
			return ""
		}
		return stated(t.Ramps.Kind.Value, t.Ramps.Length.Words())
	}},
	{"Plug", func(t *Trailer) string { return t.Hitch.Plug.Value }},
	{"Neck", func(t *Trailer) string { return t.Deck.Neck.Value }},
	{"Rear opening", func(t *Trailer) string {
		if w, h := t.Box.DoorWidth, t.Box.DoorHeight; w.Given() && h.Given() {
			return w.Words() + " x " + h.Words()
		}
		return stated(t.Gate.Width.Words(), t.Gate.Height.Words())
	}},
	{"Side door", func(t *Trailer) string { return stated(t.Box.Side.Value, t.Box.SideWidth.Words()) }},
	{"Nose", func(t *Trailer) string { return stated(t.Box.Nose.Value, t.Box.NoseLength.Words()) }},
	{"Gate", func(t *Trailer) string { return t.Gate.Kind.Value }},
	{"Sides", func(t *Trailer) string { return stated(t.Sides.Kind.Value, t.Sides.Height.Words()) }},
	{"Frame", func(t *Trailer) string { return stated(t.Frame.Material.Value, t.Frame.Finish.Value) }},
	{"Floor", func(t *Trailer) string { return stated(t.Frame.Floor.Value, t.Frame.Thickness.Words()) }},
	{"Fenders", func(t *Trailer) string { return t.Frame.Fenders.Value }},
	{"Jack", func(t *Trailer) string {
		return stated(t.Jack.Rating.Words(), t.Jack.Kind.Value, t.Jack.Drive.Value)
	}},
	{"Winch", func(t *Trailer) string { return stated(t.Winch.Kind.Value, t.Winch.Rating.Words()) }},
	{"Hoist", func(t *Trailer) string { return stated(t.Hoist.Kind.Value, t.Hoist.Rating.Words()) }},
	{"Tarp", func(t *Trailer) string { return t.Equipment.Tarp.Value }},
	{"Spare", func(t *Trailer) string {
		return stated(t.Tires.SpareSize.Value, t.Tires.SparePlace.Value, t.Spare.Value)
	}},
	{"Warranty", func(t *Trailer) string { return t.Warranty.Value }},
	{"Paper", func(t *Trailer) string { return stated(t.Ownership.Paper.Value, t.Ownership.State.Value) }},
	{"Tread", func(t *Trailer) string { return t.Wear.Tread.Words() }},
	{"With the price", func(t *Trailer) string { return Offer(t.Unit) }},
}

// stated joins the texts that there are.
func stated(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), ", ")
}

// Offer is what goes with the price of a unit, in one line.
func Offer(u *unit.Unit) string {
	if u.Availability.Value == "sold" {
		return ""
	}
	o := &u.Offer
	var out []string
	if o.BestOffer.Value {
		out = append(out, "or best offer")
	}
	if o.Cash.Given() {
		out = append(out, o.Cash.Words()+" cash")
	}
	if o.Was.Given() {
		// The rule price-was stops an earlier price without its day.
		out = append(out, "was "+o.Was.Words()+" since "+o.Was.Since().Long())
	}
	if o.Plus.Given() {
		out = append(out, "plus "+o.Plus.Value)
	}
	if o.Tax.Given() {
		out = append(out, map[bool]string{true: "tax included", false: "tax not included"}[o.Tax.Value])
	}
	if o.Financing.Given() {
		out = append(out, o.Financing.Value)
	}
	return strings.Join(out, "; ")
}

// statedRows are the rows of the comparison that some trailer of a list states, by number.
func statedRows(list []Trailer) (out []int) {
	for k, row := range comparison {
		if slices.ContainsFunc(list, func(t Trailer) bool { return row.of(&t) != "" }) {
			out = append(out, k)
		}
	}
	return out
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
