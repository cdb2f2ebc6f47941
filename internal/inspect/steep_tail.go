package inspect

import "tarepage/internal/measure"

// steepFrom is the loading angle above which low and tracked machines ground or tip.
const steepFrom measure.Degrees = 25

var steepTail = &Rule{
	Name: "steep-tail", Severity: Caution,
	Title:  "the way up is no steeper than 25 degrees",
	Why:    "On a steep ramp a low machine grounds, a tall one tips back, and wet steel lets go of both.",
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
		f.add(at, "the way up stands at %s, past %s", a.Value.Near(), steepFrom).
			figures(a.Value.Near(), steepFrom.String()).
			also(c.Deck.Height.Pos, "the deck's height stands here")
	},
}
