package inspect

import (
	"math"

	"tarepage/internal/measure"
)

var deckAddsUp = &Rule{
	Name: "deck-adds-up", Severity: Stop,
	Title:  "the flat part and the tail add up to the deck",
	Why:    "A customer compares a machine with these lengths, and one of the three is wrong.",
	Source: "arithmetic",
	Remedy: "measure the deck again and correct the length that is wrong",
	check: func(c *Case, f *Findings) {
		d := c.Deck
		if !d.Length.Given() || !d.Flat.Given() || !d.Tail.Given() {
			return
		}
		total := d.Flat.Value + d.Tail.Value
		// A sixteenth of an inch covers a metric length next to one in inches. Metric lengths
		// were each rounded when they were written. "about" allows as much as it does for a
		// checked figure.
		about := d.Length.About || d.Flat.About || d.Tail.About
		off := measure.Inches(math.Abs(float64(total - d.Length.Value)))
		if measure.NotOver(off, 1.0/16) ||
			measure.NotOver(off, measure.RoundedBy(d.Length.Raw)+measure.RoundedBy(d.Flat.Raw)+measure.RoundedBy(d.Tail.Raw)) ||
			about && measure.Agrees(total, d.Length.Value, 0, true) {
			return
		}
		f.add(d.Length.Pos, "the deck is %s; its flat part of %s and its tail of %s add up to %s", d.Length.Value, d.Flat.Value, d.Tail.Value, total.Near()).
			figures(d.Length.Value.String(), total.Near()).
			also(d.Flat.Pos, "the flat part is here").
			also(d.Tail.Pos, "the tail is here")
	},
}
