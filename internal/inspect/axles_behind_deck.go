package inspect

import (
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

// behindWell is how far the axles of a gooseneck or a fifth-wheel may be behind the deck:
// a lowboy carries its load in a well in front of them. Common practice, no source.
const behindWell measure.Inches = 15 * measure.InchesPerFoot

var axlesBehindDeck = &Rule{
	Name: "axles-behind-deck", Severity: Stop,
	Title:  "the axles are under the load, or on a lowboy a little farther back",
	Why:    "A distance that was misread puts the axles in the wrong place. Every tongue figure is wrong with them.",
	Source: "geometry; which trailers are built so is " + Practice,
	Remedy: "measure from the ball's center to the middle of the axles again; waive this rule if the trailer is really built this way",
	check: func(c *Case, f *Findings) {
		center, s := c.Axles.Center, c.Work.Space
		if s.Name == string(kinds.Bunks) || s.Name == string(kinds.Chassis) || s.Name == string(kinds.Dolly) {
			return // bunks and pans can be ahead of the axles, and the axles of some chassis slide
		}
		if !center.Given() || !s.Front.Given() || !s.Length.Given() || s.Length.Value <= 0 {
			return
		}
		end := s.Front.Value + s.Length.Value
		behind := center.Value - end
		most := measure.Inches(0)
		if kind := c.Hitch.Kind.Value; kind == "gooseneck" || kind == "fifth-wheel" {
			most = behindWell
		}
		if measure.NotOver(behind, most) {
			return
		}
		fd := f.add(center.Pos, "the middle of the axles is %s behind the ball; the %s ends at %s", center.Value, s.Name, end.Near()).
			figures(center.Value.String(), end.Near()).
			also(s.Length.Pos, "the length is here").
			also(s.Front.Pos, "the distance to its front is here")
		if most > 0 {
			fd.Message += ", and even on a lowboy the axles are at most " + most.Feet().String() + " behind the well"
		}
	},
}
