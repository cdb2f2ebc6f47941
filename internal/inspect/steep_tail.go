package inspect

import "tarepage/internal/measure"

// steepFrom is the loading angle above which low and tracked machines get stuck or tip.
const steepFrom measure.Degrees = 25

var steepTail = &Rule{
	Name: "steep-tail", Severity: Caution,
	Title:  "the way up onto the deck is not steeper than 25 degrees",
	Why:    "On a steep ramp a low machine gets stuck, a tall one tips back, and wet steel is slippery for both.",
	Source: Practice + ": machine manuals ask for 10 to 15 degrees, yards call 25 steep",
	Remedy: "tell the customer to use longer ramps or blocks, or to load on a slope",
	check: func(c *Case, f *Findings) {
		a := c.Work.LoadingAngle
		if !a.Known || a.Value <= steepFrom {
			return
		}
		at := c.Ramps.Length.Pos
		if !at.Known() {
			at = c.Deck.Tail.Pos
		}
		f.add(at, "the way up onto the deck is at %s; above %s it is steep", a.Value.Near(), steepFrom).
			figures(a.Value.Near(), steepFrom.String()).
			also(c.Deck.Height.Pos, "the deck's height is here")
	},
}
