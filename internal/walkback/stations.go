package walkback

import (
	"slices"
	"strings"
	"sync"

	"tarepage/internal/kinds"
	"tarepage/internal/unit"
)

// A station is one place at the trailer, with what is read or measured there.
type station struct {
	name string // "label": the table of phrases has what the page calls it
	// keys come first, in this order. Other keys follow in the order of the format, if they are
	// in one of the sections.
	keys     []string
	sections []string
}

// theWalk is the order in which somebody walks around a trailer: common practice, no source.
var theWalk = []station{
	{name: "label", keys: []string{"serial", "year", "built", "weights.gvwr", "weights.max-load", "axles.rating", "tires.pressure"}},
	{name: "coupler", keys: []string{"hitch.kind", "hitch.ball", "hitch.rating", "hitch.ball-rating", "hitch.tongue-limit",
		"hitch.chains.count", "hitch.chains.breaking", "hitch.plug"}, sections: []string{"hitch", "jack"}},
	{name: "tires", keys: []string{"tires.size", "tires.load-range", "tires.sidewall.single", "tires.sidewall.dual",
		"tires.sidewall.pressure", "tires.per-axle", "tires.made"}},
	{name: "wheels", keys: []string{"tires.wheel", "tires.bolt-pattern", "tires.stud", "tires.rims"}, sections: []string{"tires", "wear"}},
	{name: "axle tag", keys: []string{"axles.count", "axles.spacing", "axles.center", "brakes.kind", "brakes.axles", "brakes.breakaway"},
		sections: []string{"axles", "brakes"}},
	{name: "deck", keys: []string{"overall-width", "overall-length", "overall-height"},
		sections: []string{"deck", "bed", "box", "tank", "hull", "bin", "dolly", "bunks", "chassis", "ramps", "sides", "gate", "winch",
			"hoist", "equipment", "frame", "lights"}},
	{name: "scale", keys: []string{"weights.empty", "weights.tongue-empty", "dealer-added"}, sections: []string{"weights", "claimed"}},
	{name: "what it is", keys: []string{"title", "kind", "condition", "make", "color", "arrived", "warranty", notesKey}, sections: []string{"ownership", "offer"}},
}

// notesKey says whether somebody has read the notes that were heard. Its line shows them.
const notesKey = "recording.notes"

// core are the values that everything else rests on: they are asked for also where the file
// leaves them out or has them from the model.
var core = []string{"weights.gvwr", "axles.rating", "hitch.rating", "tires.size", "tires.load-range", "tires.sidewall.single",
	"tires.wheel", "brakes.kind", "weights.empty", "weights.tongue-empty"}

// better are core values that a page can do without. Where nobody said them they are offered, and
// not asked for: a walk that asks for everything is not finished.
var better = map[string]bool{"tires.wheel": true, "weights.tongue-empty": true}

// always are the keys that may be added on the walk although nobody said them, in addition to those of
// the section that carries the load.
var always = []string{"serial", "year", "hitch.ball", "hitch.ball-rating", "hitch.tongue-limit", "hitch.chains.count",
	"hitch.chains.breaking", "hitch.plug", "built", "weights.max-load", "weights.loaded", "weights.loaded-with", "hitch.kingpin", "brakes.abs", "tires.sidewall.dual", "tires.sidewall.pressure", "tires.made", "tires.pressure",
	"tires.bolt-pattern", "tires.stud", "axles.spacing", "axles.center", "overall-width", "overall-length", "overall-height", "color", "arrived"}

// elsewhere are keys without a line in the walk: the program writes them, a recording has
// them, or they have a place of their own on the page.
var elsewhere = []string{"stock", "model", "price", "availability", "withhold", "recording", "waive", "photos", "proof", "standard", "standard-not", "options",
	"tie-downs", "relabeled", "spare", "example", "notes-es"}

// spaces are the sections of what carries the load; a unit has the one of its kind.
var spaces = []kinds.Space{kinds.Deck, kinds.Bed, kinds.Box, kinds.Tank, kinds.Hull, kinds.Bin, kinds.Dolly, kinds.Bunks, kinds.Chassis}

// concerns reports whether a key may be added to a unit of this kind on the walk.
func concerns(key, kind string) bool {
	if slices.Contains(core, key) || slices.Contains(always, key) {
		return true
	}
	section, _, _ := strings.Cut(key, ".")
	return kind != "" && section == string(kinds.Of(kind).Space) && slices.Contains(spaces, kinds.Space(section))
}

// keysOf are the keys of each station in order. Each key is at one station only.
var keysOf = sync.OnceValue(func() [][]unit.KeyDoc {
	docs := map[string]unit.KeyDoc{}
	var order []string
	for _, d := range unit.Keys() {
		if d.Kind == "section" || d.Kind == "list" || slices.Contains(elsewhere, d.Path) || d.Path != notesKey && slices.Contains(elsewhere, sectionOf(d.Path)) {
			continue
		}
		docs[d.Path] = d
		order = append(order, d.Path)
	}
	out := make([][]unit.KeyDoc, len(theWalk))
	taken := map[string]bool{}
	for i, s := range theWalk {
		for _, key := range s.keys {
			out[i] = append(out[i], docs[key])
			taken[key] = true
		}
	}
	for i, s := range theWalk {
		for _, key := range order {
			if !taken[key] && slices.Contains(s.sections, sectionOf(key)) {
				out[i] = append(out[i], docs[key])
				taken[key] = true
			}
		}
	}
	return out
})

func sectionOf(key string) string {
	section, _, _ := strings.Cut(key, ".")
	return section
}
