// Package kinds is the table of the kinds of trailer. Everything that depends on the kind
// reads this table: the reader and the editor schemas, the intake of a recording, the
// figures, the drawings, the pages and the stock files. A new kind is one entry in All and,
// where no drawing fits it yet, one silhouette in internal/elevation.
//
// The package imports only internal/measure. It knows no unit file; it names keys as the
// file's format writes them, and a test in cmd/build checks that the format has them.
package kinds

import (
	"slices"

	"tarepage/internal/measure"
)

// A Space is the section of a unit file that describes what carries the load.
type Space string

// The spaces. None is for a kind that needs no such section: whatever the unit file gives is
// used.
const (
	Deck Space = "deck"
	Bed  Space = "bed"
	Box  Space = "box"
	Tank Space = "tank"
	Hull Space = "hull"
	None Space = ""
)

// A Securing is how the load is kept from leaving the trailer.
type Securing int

const (
	// TiedDown loads are held by tie-downs (49 CFR 393.106).
	TiedDown Securing = iota
	// Contained loads are held by the trailer's own walls, and no tie-downs are counted.
	Contained
)

// A Kind is one kind of trailer.
type Kind struct {
	// Name is the value of the key "kind" in a unit file.
	Name string
	// Label is the kind on pages, in feeds and in structured data.
	Label string
	// Noun is the kind within a sentence: "14 ft dump trailer".
	Noun string
	// Space is what carries the load.
	Space Space
	// Needs are the keys that a unit of this kind must have in addition to those that every
	// unit must have.
	Needs []string
	// Floor is how high the floor usually is above the ground. It is drawn, dashed, where
	// nobody measured it. Common practice, no source.
	Floor measure.Inches
	// OverWheels reports that the floor is above the wheels, so that nothing sticks out at
	// its sides: no fenders are drawn, and the floor's width is the trailer's.
	OverWheels bool
	// Securing is how the load is held.
	Securing Securing
	// Silhouette is the name of the drawing in internal/elevation.
	Silhouette string
	// Said are the phrases that people use for the kind in a recording, in lower case and
	// without hyphens.
	Said []string
}

// All returns the kinds in the order in which pages list them.
func All() []Kind { return slices.Clone(table) }

var table = []Kind{
	{
		Name: "deck-over", Label: "Deck-over", Noun: "deck-over",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 34, OverWheels: true,
		Silhouette: "deck", Said: []string{"deck over"},
	},
	{
		Name: "flatbed", Label: "Flatbed", Noun: "flatbed",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 34,
		Silhouette: "deck", Said: []string{"flatbed"},
	},
	{
		Name: "equipment", Label: "Equipment", Noun: "equipment trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 24,
		Silhouette: "deck", Said: []string{"equipment trailer"},
	},
	{
		Name: "car-hauler", Label: "Car hauler", Noun: "car hauler",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 22,
		Silhouette: "deck", Said: []string{"car hauler"},
	},
	{
		Name: "utility", Label: "Utility", Noun: "utility trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 22,
		Silhouette: "deck", Said: []string{"utility trailer"},
	},
	{
		Name: "dump", Label: "Dump", Noun: "dump trailer",
		Space: Bed, Needs: []string{"bed.length"}, Floor: 30, Securing: Contained,
		Silhouette: "bed", Said: []string{"dump trailer", "dump bed", "tandem dump", "profile dump", "axle dump"},
	},
	{
		Name: "tilt", Label: "Tilt", Noun: "tilt trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 26,
		Silhouette: "deck", Said: []string{"tilt deck", "tilt trailer", "tilt equipment trailer", "tilt deck equipment trailer"},
	},
	{
		Name: "enclosed", Label: "Enclosed", Noun: "enclosed trailer",
		Space: Box, Needs: []string{"box.length"}, Floor: 20,
		Silhouette: "box", Said: []string{"enclosed", "cargo trailer"},
	},
	{
		Name: "livestock", Label: "Livestock", Noun: "livestock trailer",
		Space: Box, Needs: []string{"box.length"}, Floor: 18, Securing: Contained,
		Silhouette: "slatted box", Said: []string{"livestock", "stock trailer", "cattle trailer"},
	},
	{
		Name: "other", Label: "Other", Noun: "trailer",
		Space: None, Floor: 30,
		Silhouette: "deck",
	},
}

// Of returns the kind of that name, or the zero Kind where the table has none.
func Of(name string) Kind {
	for _, k := range table {
		if k.Name == name {
			return k
		}
	}
	return Kind{}
}

// Known reports whether k is an entry of the table, not the zero Kind.
func (k Kind) Known() bool { return k.Name != "" }

// Names returns the names in the order of the table.
func Names() []string {
	out := make([]string, 0, len(table))
	for _, k := range table {
		out = append(out, k.Name)
	}
	return out
}

// Needing returns the names of the kinds that need the key with that path.
func Needing(path string) []string {
	var out []string
	for _, k := range table {
		if slices.Contains(k.Needs, path) {
			out = append(out, k.Name)
		}
	}
	return out
}
