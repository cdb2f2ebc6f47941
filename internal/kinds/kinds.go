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
	// Bin is what a roll-off trailer picks up, Bunks hold logs and pipe, Chassis is a bare
	// frame, and Dolly carries one axle of a vehicle.
	Bin     Space = "bin"
	Bunks   Space = "bunks"
	Chassis Space = "chassis"
	Dolly   Space = "dolly"
	None    Space = ""
)

// A Securing is how the load is kept from leaving the trailer.
type Securing int

const (
	// TiedDown loads are held by tie-downs (49 CFR 393.106).
	TiedDown Securing = iota
	// Contained loads are held by the trailer's own walls, and no tie-downs are counted.
	Contained
)

// A Caution is what the law or the trade warns of with every trailer of a kind.
type Caution struct {
	// Text is one lower-case clause for a customer, Source the clause or the practice.
	Text, Source string
}

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
	// Instead has for a key of Needs another one of the same section that will do.
	Instead map[string]string
	// Floor is how high the floor usually is above the ground. It is drawn, dashed, where
	// nobody measured it. Common practice, no source.
	Floor measure.Inches
	// OverWheels reports that the floor is above the wheels, so that nothing sticks out at
	// its sides: no fenders are drawn, and the floor's width is the trailer's.
	OverWheels bool
	// Machines reports that a machine is driven or set onto it. The others are for something
	// else: animals, a living space, a kitchen, grain, a boat, a container. No page of theirs
	// asks for a machine, and none says YES to one.
	Machines bool
	// HidesLamps reports that what it carries hides its own lamps, so that lamps nobody counted
	// are a caution and never a stop.
	HidesLamps bool
	// Securing is how the load is held.
	Securing Securing
	// Usual is how long the space usually is. It is drawn, dashed, where the unit does not say;
	// 0 where a unit must say. Common practice, no source.
	Usual measure.Inches
	// Liquid is what a tank of this kind is filled with where the unit does not say.
	Liquid string
	// Cautions are on the page of every unit of the kind.
	Cautions []Caution
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
		Machines: true, Silhouette: "deck", Said: []string{"deck over"},
	},
	{
		Name: "flatbed", Label: "Flatbed", Noun: "flatbed",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 34,
		Machines: true, Silhouette: "deck", Said: []string{"flatbed"},
	},
	{
		Name: "equipment", Label: "Equipment", Noun: "equipment trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 24,
		Machines: true, Silhouette: "deck", Said: []string{"equipment trailer"},
	},
	{
		Name: "car-hauler", Label: "Car hauler", Noun: "car hauler",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 22,
		Machines: true, Silhouette: "deck", Said: []string{"car hauler"},
	},
	{
		Name: "utility", Label: "Utility", Noun: "utility trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 22,
		Machines: true, Silhouette: "deck", Said: []string{"utility trailer"},
	},
	{
		Name: "dump", Label: "Dump", Noun: "dump trailer",
		Space: Bed, Needs: []string{"bed.length"}, Floor: 30, Securing: Contained,
		Machines: true, Silhouette: "bed", Said: []string{"dump trailer", "dump bed", "tandem dump", "profile dump", "axle dump"},
	},
	{
		Name: "tilt", Label: "Tilt", Noun: "tilt trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 26,
		Machines: true, Silhouette: "deck", Said: []string{"tilt deck", "tilt trailer", "tilt equipment trailer", "tilt deck equipment trailer"},
	},
	{
		Name: "enclosed", Label: "Enclosed", Noun: "enclosed trailer",
		Space: Box, Needs: []string{"box.length"}, Floor: 20,
		Machines: true, Silhouette: "box", Said: []string{"enclosed", "cargo trailer"},
	},
	{
		Name: "livestock", Label: "Livestock", Noun: "livestock trailer",
		Space: Box, Needs: []string{"box.length"}, Floor: 18, Securing: Contained,
		Silhouette: "slatted box", Said: []string{"livestock", "stock trailer", "cattle trailer"},
	},
	{
		Name: "lowboy", Label: "Lowboy", Noun: "lowboy",
		Space: Deck, Needs: []string{"deck.length"}, Instead: map[string]string{"deck.length": "deck.well"}, Floor: 20,
		Machines: true, Silhouette: "deck", Said: []string{"lowboy", "low boy", "lowbed trailer"},
		Cautions: []Caution{{"measure the height with the machine on it: states end at 13 ft 6 in to 14 ft, and a bridge may be lower", practice}},
	},
	{
		Name: "landscape", Label: "Landscape", Noun: "landscape trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 22,
		Machines: true, Silhouette: "deck", Said: []string{"landscape trailer", "landscaping trailer"},
	},
	{
		Name: "atv-snowmobile", Label: "ATV and snowmobile", Noun: "ATV and snowmobile trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 20,
		Machines: true, Silhouette: "deck", Said: []string{"snowmobile trailer", "atv trailer"},
	},
	{
		Name: "motorcycle", Label: "Motorcycle", Noun: "motorcycle trailer",
		Space: Deck, Needs: []string{"deck.length"}, Floor: 16,
		Machines: true, Silhouette: "deck", Said: []string{"motorcycle trailer"},
	},
	{
		Name: "concession", Label: "Concession", Noun: "concession trailer",
		Space: Box, Needs: []string{"box.length"}, Floor: 22, Securing: Contained,
		Silhouette: "box", Said: []string{"concession trailer", "food trailer"},
		Cautions: []Caution{{"gas, water, wiring and a hood need the approval of the local fire and health departments, whatever another county approved", practice}},
	},
	{
		Name: "camper", Label: "Camper", Noun: "camper",
		Space: Box, Needs: []string{"box.length"}, Floor: 24, Securing: Contained,
		Silhouette: "box", Said: []string{"camper trailer", "travel trailer"},
	},
	{
		Name: "camper-chassis", Label: "Camper chassis", Noun: "camper chassis",
		Space: Chassis, Needs: []string{"chassis.length"}, Floor: 24,
		Silhouette: "chassis", Said: []string{"camper chassis", "tiny house trailer"},
		Cautions: []Caution{{"whoever builds on it finishes the trailer, has to certify it, and may not pass the axle ratings with walls, roof and water",
			"49 CFR 567.3, 567.5 (from memory)"}},
	},
	{
		Name: "container-chassis", Label: "Container chassis", Noun: "container chassis",
		Space: Chassis, Needs: []string{"chassis.length"}, Floor: 42, OverWheels: true,
		Silhouette: "chassis", Said: []string{"container chassis", "container trailer"},
		Cautions: []Caution{{"a container is locked down at every corner, and none of its locks may come loose by itself", "49 CFR 393.126 (from memory)"}},
	},
	{
		Name: "roll-off", Label: "Roll-off", Noun: "roll-off trailer",
		Space: Bin, Needs: []string{"bin.length", "bin.system"}, Floor: 32, Securing: Contained,
		Silhouette: "bin", Said: []string{"roll off", "roll off trailer", "hooklift trailer"},
		Cautions: []Caution{{"the bin itself counts as payload, and it is locked or chained in front and at the rear before it moves", "49 CFR 393.134 (from memory)"}},
	},
	{
		Name: "hopper", Label: "Hopper and grain", Noun: "hopper trailer",
		Space: Bed, Needs: []string{"bed.length", "bed.volume"}, Floor: 40, Securing: Contained,
		Silhouette: "bed", Said: []string{"hopper bottom", "hopper trailer", "grain trailer"},
	},
	{
		Name: "water-tank", Label: "Water tank", Noun: "water tank trailer",
		Space: Tank, Needs: []string{"tank.length", "tank.volume"}, Floor: 30, Securing: Contained, Liquid: "water",
		Silhouette: "tank", Said: []string{"water trailer", "water tank trailer", "water wagon"},
		Cautions: []Caution{surge},
	},
	{
		Name: "fuel-tank", Label: "Fuel tank", Noun: "fuel tank trailer",
		Space: Tank, Needs: []string{"tank.length", "tank.volume"}, Floor: 30, Securing: Contained, Liquid: "diesel",
		Silhouette: "tank", Said: []string{"fuel trailer", "fuel tank trailer", "diesel trailer"},
		Cautions: []Caution{surge, {"fuel is a hazardous material: on the road for a business, a tank over 119 gallons has to be one of a DOT specification or excepted, with papers, placards and a trained driver; ask before you fill it",
			"49 CFR 171.8, 172.504, 173.150, 173.242 (from memory)"}},
	},
	{
		Name: "boat", Label: "Boat", Noun: "boat trailer",
		Space: Hull, Needs: []string{"hull.length"}, Floor: 24,
		Silhouette: "hull", Said: []string{"boat trailer"},
		Cautions: []Caution{{"motor, fuel, battery and gear count besides the hull: weigh it with the boat on it, hitched and not", practice}},
	},
	{
		Name: "watercraft", Label: "Personal watercraft", Noun: "watercraft trailer",
		Space: Hull, Needs: []string{"hull.places"}, Floor: 18, Usual: 132,
		Silhouette: "hull", Said: []string{"watercraft trailer"},
	},
	{
		Name: "tow-dolly", Label: "Tow dolly", Noun: "tow dolly",
		Space: Dolly, Needs: []string{"dolly.vehicle"}, Floor: 12, Usual: 46, HidesLamps: true,
		Silhouette: "dolly", Said: []string{"tow dolly"},
		Cautions: []Caution{{"it carries one axle of the vehicle; which axle may roll behind, and whether the drive line has to come off, is in the vehicle's own manual", practice}},
	},
	{
		Name: "pipe", Label: "Pipe and pole", Noun: "pipe and pole trailer",
		Space: Bunks, Needs: []string{"bunks.length"}, Floor: 38,
		Silhouette: "bunks", Said: []string{"pole trailer", "pipe trailer"},
		Cautions: []Caution{{"concrete pipe has securing rules of its own, and what reaches more than 4 ft past the rear needs flags, and lamps at night", "49 CFR 393.124, 393.87, 393.11 (from memory)"}},
	},
	{
		Name: "log", Label: "Log", Noun: "log trailer",
		Space: Bunks, Needs: []string{"bunks.length"}, Floor: 38,
		Silhouette: "bunks", Said: []string{"log trailer", "logging trailer"},
		Cautions: []Caution{{"logs lie between stakes and under tie-downs by rules of their own", "49 CFR 393.116 (from memory)"}},
	},
	{
		Name: "header", Label: "Header", Noun: "header trailer",
		Space: Bunks, Needs: []string{"bunks.length"}, Floor: 28,
		Silhouette: "bunks", Said: []string{"header trailer"},
	},
	{
		Name: "other", Label: "Other", Noun: "trailer",
		Space: None, Floor: 30,
		Machines: true, Silhouette: "deck",
	},
}

// practice is the source of a caution that has no other.
const practice = "common practice, no source"

// surge is the caution of every tank.
var surge = Caution{"a tank that is neither full nor empty pushes the truck when it brakes and leans in a turn: go slower than with a solid load, with baffles too",
	"49 CFR 383.119(a) to (c): what a driver of a tank has to know"}

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
