package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/tables"
)

var fendersOverWidth = &Rule{
	Name: "fenders-over-width", Severity: Stop,
	Title:  "the deck between the fenders and a tire on each side fit within the overall width",
	Why:    "A trailer that is wider than it is said to be does not fit a gate, a lane or the 102 in that roads allow.",
	Source: "geometry; the tire's size for its section width; 23 CFR 658.15: 102 in",
	Remedy: "measure between the fenders and across the fenders again",
	check: func(c *Case, f *Findings) {
		between, all := c.Deck.Between, c.OverallWidth
		size, err := tables.ParseTireSize(c.Tires.Size.Value)
		if !between.Given() || !c.Tires.Size.Given() || err != nil || size.Millimeters <= 0 {
			return
		}
		tire := measure.FromMillimeters(float64(size.Millimeters))
		least, limit, text, said := between.Value+tire.Times(2), mostRoad, "102 in", "the 102 in that a trailer may be wide"
		if all.Given() {
			limit, text, said = all.Value, all.Words(), "the overall width of "+all.Words()
		}
		// A deck that is wider than the whole trailer breaks a rule of its own.
		if between.Value <= 0 || between.Value > limit || measure.NotOver(least, limit) {
			return
		}
		f.add(between.Pos, "%s between the fenders and two tires of %s are %s wide, more than %s", between.Words(), c.Tires.Size.Value, least.AtLeast(), said).
			figures(least.AtLeast(), text).
			also(all.Pos, "the overall width is here").
			also(c.Tires.Size.Pos, "the tire is here")
	},
}

// mostRoad is the width of a trailer on the roads that federal law opens to it.
const mostRoad measure.Inches = 102
