package inspect

import (
	"math"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var deckAddsUp = &Rule{
	Name: "deck-adds-up", Severity: Stop,
	Title:  "the flat and the tail make the whole deck",
	Why:    "A customer measures a machine against these lengths; one of the three is wrong.",
	Source: "arithmetic",
	Remedy: "measure the deck again and correct the one that is wrong",
	check: func(c *Case, f *Findings) {
		d := c.Deck
		if !d.Length.Given() || !d.Flat.Given() || !d.Tail.Given() {
			return
		}
		total := d.Flat.Value + d.Tail.Value
		// A sixteenth of an inch covers a metric length beside one in inches, and metric
		// lengths were each rounded where they were written; "about" allows what the design
		// allows a checked figure.
		about := d.Length.About || d.Flat.About || d.Tail.About
		off := measure.Inches(math.Abs(float64(total - d.Length.Value)))
		slack := max(1.0/16, rounded(d.Length)+rounded(d.Flat)+rounded(d.Tail))
		if measure.NotOver(off, slack) || about && measure.Agrees(total, d.Length.Value, 0, true) {
			return
		}
		f.add(d.Length.Pos, "the deck is %s, its flat %s and tail %s make %s", d.Length.Value, d.Flat.Value, d.Tail.Value, total.Near()).
			figures(d.Length.Value.String(), total.Near()).
			also(d.Flat.Pos, "the flat stands here").
			also(d.Tail.Pos, "the tail stands here")
	},
}

// rounded is what a metric length may have lost where it was rounded: half of its last
// place, 0.5 mm of 8535 mm and 5 mm of 8.53 m. A length in feet and inches lost nothing.
func rounded(f unit.Length) measure.Inches {
	raw, _, _ := strings.Cut(f.Raw, "(")
	number := strings.TrimRight(strings.TrimSpace(raw), "abcdefghijklmnopqrstuvwxyz ")
	name := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(raw), number))
	half := 0.5 // in millimeters
	switch name {
	case "mm", "millimeter", "millimeters":
	case "cm", "centimeter", "centimeters":
		half = 5
	case "m", "meter", "meters":
		half = 500
	default:
		return 0
	}
	_, decimals, _ := strings.Cut(number, ".")
	for range decimals {
		half /= 10
	}
	return measure.FromMillimeters(half)
}
