package pagedata

import (
	"slices"
	"strings"

	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
)

// comparison are the rows of a comparison that trailers of one model share.
var comparison = []struct {
	name string // its key in the table of phrases, after "row "
	of   func(t *Trailer) string
}{
	{"kind", func(t *Trailer) string { return kinds.Of(t.Kind.Value).Label }},
	{"hitch", func(t *Trailer) string {
		s := t.Hitch.Kind.Value
		if t.Hitch.Ball.Given() {
			s += ", " + t.Lang.Say("tag ball", t.Hitch.Ball.Value.InInches())
		}
		return s
	}},
	{"width", func(t *Trailer) string {
		b := t.Deck.Between
		switch {
		case b.Given() && t.OverallWidth.Given():
			return t.Lang.Say("between only", b.Words()) // the next row has the other
		case b.Given():
			// A customer takes the one width that he reads for the trailer's.
			return t.Lang.Say("between", b.Words())
		}
		return t.Work.Space.Width.Words()
	}},
	{"overall-width", func(t *Trailer) string { return t.OverallWidth.Words() }},
	{"overall-length", func(t *Trailer) string { return t.OverallLength.Words() }},
	{"overall-height", func(t *Trailer) string { return t.OverallHeight.Words() }},
	{"max-load", func(t *Trailer) string { return t.Weights.MaxLoad.Words() }},
	{"loaded", func(t *Trailer) string { return stated(t.Weights.Loaded.Words(), t.Weights.LoadedWith.Value) }},
	{"concentrated", func(t *Trailer) string {
		if !t.Deck.Short.Given() || !t.Deck.ShortOn.Given() {
			return t.Deck.Short.Words()
		}
		return t.Lang.Say("compare on part", t.Deck.Short.Words(), t.Deck.ShortOn.Words())
	}},
	{"holds", func(t *Trailer) string {
		return stated(t.Tank.Volume.Words(), t.Tank.Liquid.Value, t.Bed.Volume.Words(), t.Bin.Largest.Words(), withPhrase(t.Lang, t.Bin.Comes, "compare included"), counted(t.Lang, t.Bed.Traps, "compare traps"))
	}},
	{"water-tanks", func(t *Trailer) string {
		return stated(withPhrase(t.Lang, t.Equipment.Fresh, "compare fresh"), withPhrase(t.Lang, t.Equipment.Gray, "compare gray"))
	}},
	{"tank-tested", func(t *Trailer) string { return stated(t.Tank.Tested.Words(), t.Tank.Tests.Value) }},
	{"height-of-the-floor", func(t *Trailer) string { return t.Work.Space.Floor.Words() }},
	{"height-loaded", func(t *Trailer) string { return t.Deck.Loaded.Words() }},
	{"axles", func(t *Trailer) string {
		if t.Axles.Count.Value == 1 {
			return t.Axles.Rating.Words()
		}
		return t.Axles.Count.Words() + " x " + t.Axles.Rating.Words()
	}},
	{"tires", func(t *Trailer) string {
		s := t.Tires.Size.Value
		if t.Tires.LoadRange.Given() {
			s = t.Lang.Say("tire load range", s, t.Tires.LoadRange.Value)
		}
		return s
	}},
	{"brakes", func(t *Trailer) string {
		abs := ""
		if t.Brakes.ABS.Given() {
			abs = t.Lang.Say("compare abs " + t.Brakes.ABS.Words())
		}
		return stated(t.Brakes.Kind.Value, t.Brakes.Type.Value, t.Brakes.Size.Value, abs)
	}},
	{"suspension", func(t *Trailer) string { return t.Axles.Suspension.Value }},
	{"tail", func(t *Trailer) string { return t.Deck.TailKind.Value }},
	{"ramps", func(t *Trailer) string {
		if !t.Ramps.Kind.Given() {
			return ""
		}
		return stated(t.Ramps.Kind.Value, t.Ramps.Length.Words())
	}},
	{"plug", func(t *Trailer) string { return t.Hitch.Plug.Value }},
	{"neck", func(t *Trailer) string { return t.Deck.Neck.Value }},
	{"rear-opening", func(t *Trailer) string {
		if w, h := t.Box.DoorWidth, t.Box.DoorHeight; w.Given() && h.Given() {
			return w.Words() + " x " + h.Words()
		}
		return stated(t.Gate.Width.Words(), t.Gate.Height.Words())
	}},
	{"side-door", func(t *Trailer) string { return stated(t.Box.Side.Value, t.Box.SideWidth.Words()) }},
	{"nose", func(t *Trailer) string { return stated(t.Box.Nose.Value, t.Box.NoseLength.Words()) }},
	{"gate", func(t *Trailer) string { return t.Gate.Kind.Value }},
	{"sides", func(t *Trailer) string { return stated(t.Sides.Kind.Value, t.Sides.Height.Words()) }},
	{"frame", func(t *Trailer) string { return stated(t.Frame.Material.Value, t.Frame.Finish.Value) }},
	{"floor", func(t *Trailer) string { return stated(t.Frame.Floor.Value, t.Frame.Thickness.Words()) }},
	{"fenders", func(t *Trailer) string { return t.Frame.Fenders.Value }},
	{"jack", func(t *Trailer) string {
		return stated(t.Jack.Rating.Words(), t.Jack.Kind.Value, t.Jack.Drive.Value)
	}},
	{"winch", func(t *Trailer) string {
		return stated(counted(t.Lang, t.Winch.Count, "compare winches"), t.Winch.Kind.Value, t.Winch.Rating.Words())
	}},
	{"hoist", func(t *Trailer) string { return stated(t.Hoist.Kind.Value, t.Hoist.Rating.Words()) }},
	{"tarp", func(t *Trailer) string { return t.Equipment.Tarp.Value }},
	{"spare", func(t *Trailer) string {
		return stated(t.Tires.SpareSize.Value, t.Tires.SparePlace.Value, t.Spare.Value)
	}},
	{"warranty", func(t *Trailer) string { return t.Warranty.Value }},
	{"built", func(t *Trailer) string { return t.Built.Words() }},
	{"inspected", func(t *Trailer) string { return t.Wear.Checked.Words() }},
	{"kingpin", func(t *Trailer) string { return t.Hitch.Kingpin.Words() }},
	{"paper", func(t *Trailer) string { return stated(t.Ownership.Paper.Value, t.Ownership.State.Value) }},
	{"tread", func(t *Trailer) string { return t.Wear.Tread.Words() }},
	{"photographed", func(t *Trailer) string {
		if len(t.Proof) == 0 {
			return "" // most trailers; counting looks at every key
		}
		proven, all := t.PhotographedRatings()
		if proven == 0 {
			return ""
		}
		return t.Lang.Say("compare proven", measure.Count(proven), measure.Count(all))
	}},
	{"with-the-price", func(t *Trailer) string { return Offer(t.Lang, t.Unit) }},
}

// counted is how many there are of something, if that was counted and is not one.
func counted(lang phrases.Language, n unit.Count, phrase string) string {
	if !n.Given() || n.Value == 1 {
		return ""
	}
	return lang.Say(phrase, n.Words())
}

// withPhrase is a volume in a phrase that says of what, if it is given.
func withPhrase(lang phrases.Language, v unit.Volume, phrase string) string {
	if !v.Given() {
		return ""
	}
	return lang.Say(phrase, v.Words())
}

// stated joins the texts that there are.
func stated(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), ", ")
}

// Offer is what goes with the price of a unit, in one line.
func Offer(lang phrases.Language, u *unit.Unit) string {
	if u.Availability.Value == "sold" {
		return ""
	}
	o := &u.Offer
	var out []string
	if o.BestOffer.Value {
		out = append(out, lang.Say("offer best"))
	}
	if o.Cash.Given() {
		out = append(out, lang.Say("offer cash", o.Cash.Words()))
	}
	if o.Was.Given() {
		// The rule price-was stops an earlier price without its day.
		out = append(out, lang.Say("offer was", o.Was.Words(), o.Was.Since().Long()))
	}
	if o.Plus.Given() {
		out = append(out, lang.Say("offer plus", o.Plus.Value))
	}
	if o.Tax.Given() {
		out = append(out, lang.Say(map[bool]string{true: "offer tax", false: "offer no tax"}[o.Tax.Value]))
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
var onCard = []string{"hitch", "width", "axles"}

// Size is what a card says about hitch, width and axles, in one line.
func (t *Trailer) Size() string {
	var out []string
	for _, row := range comparison {
		s := row.of(t)
		if b := t.Deck.Between; row.name == "width" && b.Given() && t.OverallWidth.Given() {
			s = t.Lang.Say("between overall", b.Words(), t.OverallWidth.Words())
		}
		if s != "" && slices.Contains(onCard, row.name) {
			out = append(out, s)
		}
	}
	return strings.Join(out, ", ")
}
