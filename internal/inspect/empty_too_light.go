package inspect

import "tarepage/internal/measure"

var emptyTooLight = &Rule{
	Name: "empty-too-light", Severity: Stop,
	Title:  "the empty weight is more than its axles and wheels weigh",
	Why:    "The payload is what the empty weight leaves. With a digit lost it is tons too high, and somebody loads by it.",
	Source: Practice + ": the parts table, from memory, gives the least that axles, springs, tires and wheels weigh; trailers weigh a tenth to a half of their GVWR",
	Remedy: "read the scale ticket again; a digit may be missing",
	check: func(c *Case, f *Findings) {
		empty, gvwr := c.Weights.Empty, c.Weights.GVWR
		if !empty.Given() || empty.Value <= 0 {
			return
		}
		if gear, known := c.Work.RunningGear(); known && !measure.NotOver(gear, empty.Value) {
			f.add(empty.Pos, "it weighs %s empty, but its axles, springs, tires and wheels alone weigh %s", empty.Value, gear.Load()).
				figures(empty.Value.String(), gear.Load()).
				also(c.Axles.Rating.Pos, "the axles' rating is given here").
				also(c.Tires.Size.Pos, "the tire size is given here")
			return
		}
		if usual, row, ok := c.Work.UsualEmpty(); ok && empty.Value < usual.Low.Half() {
			f.add(empty.Pos, "it weighs %s empty; trailers of its kind and size (%s, %s ft) weigh %s and more, and this is less than half", empty.Value, row.Kind, row.Size, usual.Low).
				figures(empty.Value.String(), usual.Low.String())
			return
		}
		if !gvwr.Given() {
			return
		}
		share, words := lightest(c)
		if least := share.Of(gvwr.Value); empty.Value < least {
			f.add(empty.Pos, "it weighs %s empty, less than %s of its gvwr of %s", empty.Value, words, gvwr.Value).
				figures(empty.Value.String(), least.Load()).
				also(gvwr.Pos, "gvwr is here")
		}
	},
}

// lightest is the share of the GVWR below which no empty weight is believed, and its words. A
// lost digit leaves a tenth of the weight or takes tons off it. Of the kinds with a deck, a bed or
// a box none above 3,500 lb weighs less than a seventh: a 7,000 lb utility trailer of aluminum has
// 950 lb. Smaller ones are as light as a tenth, and those that carry one thing on a bare frame
// (boats, containers, dollies) lighter. Common practice, from memory.
func lightest(c *Case) (share measure.Share, words string) {
	switch c.Kind.Value {
	case "deck-over", "flatbed", "equipment", "car-hauler", "utility", "dump", "tilt", "enclosed", "livestock", "landscape", "concession", "camper":
		if c.Weights.GVWR.Value > smallGVWR {
			return 0.125, "an eighth"
		}
	}
	return 0.05, "a twentieth"
}

// smallGVWR is the rating up to which trailers have one light axle.
const smallGVWR measure.Pounds = 3500
