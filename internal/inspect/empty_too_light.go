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
		if least := lightest.Of(gvwr.Value); empty.Value < least {
			f.add(empty.Pos, "it weighs %s empty, less than a twentieth of its gvwr of %s", empty.Value, gvwr.Value).
				figures(empty.Value.String(), least.Load()).
				also(gvwr.Pos, "gvwr is here")
		}
	},
}

// lightest is the share of the GVWR below which no empty weight is believed: half of
// what the lightest trailers weigh, and a lost digit leaves a tenth.
const lightest measure.Share = 0.05
