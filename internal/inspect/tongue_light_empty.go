package inspect

import "tarepage/internal/measure"

// leastOfBand is the part of its band below which an empty tongue is rather a digit lost.
const leastOfBand measure.Share = 0.5

var tongueLightEmpty = &Rule{
	Name: "tongue-light-empty", Severity: Caution,
	Title:  "the empty trailer's tongue is at least half as heavy as a loaded one's should be",
	Why:    "With a digit lost in the tongue weight every figure of the hitch and of where to load is wrong.",
	Source: "the tongue band table; that an empty trailer keeps to half of it is " + Practice,
	Remedy: "read the scale ticket of the tongue again; if it is right, tell the customer that it is light on the truck",
	check: func(c *Case, f *Findings) {
		tongue, empty := c.Weights.TongueEmpty, c.Weights.Empty
		band, ok := c.Work.Band()
		if !ok || !c.Work.TongueWeighed() || !empty.Given() || empty.Value <= 0 {
			return
		}
		least := leastOfBand.Of(band.Least.Of(empty.Value))
		if measure.NotOver(least, tongue.Value) {
			return
		}
		f.add(tongue.Pos, "its tongue weighs %s of %s empty; half of the least advised share is %s", tongue.Value, empty.Value, least.Load()).
			figures(tongue.Value.String(), least.Load()).
			also(empty.Pos, "the empty weight is here")
	},
}
