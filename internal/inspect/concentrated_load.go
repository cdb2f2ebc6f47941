package inspect

import "tarepage/internal/measure"

var concentratedLoad = &Rule{
	Name: "concentrated-load", Severity: Caution,
	Title:  "the page says so where a short part of the deck carries less than the payload",
	Why:    "A short, heavy machine can bend the frame although it weighs less than the payload.",
	Source: "the maker's own rating",
	Remedy: "tell the customer, and ask how long his machine is",
	check: func(c *Case, f *Findings) {
		short, on, payload := c.Deck.Short, c.Deck.ShortOn, c.Work.Payload
		if !short.Given() || short.Value <= 0 || !payload.Known || measure.NotOver(payload.Value, short.Value) {
			return
		}
		part := "a short part of the deck"
		if on.Given() {
			part = on.Words() + " of the deck"
		}
		f.add(short.Pos, "no more than %s on %s; the payload of %s is for a load spread over the deck", short.Value, part, payload.Value.Limit()).
			figures(short.Value.String(), payload.Value.Limit()).
			also(c.Weights.GVWR.Pos, "gvwr is here")
	},
}
