package unit

import (
	"strings"
	"unicode/utf8"

	"tarepage/internal/measure"
)

// A Proof is a photo on which values of the unit can be read: its label, a scale ticket.
type Proof struct {
	Section
	File     Text `key:"file" doc:"the photo's file, JPEG, PNG or WebP, as it comes from the phone" eg:"media/sb-1043-label.jpg" need:"yes"`
	Shows    Text `key:"shows" doc:"what the photo shows" eg:"label" one:"label|scale ticket|sidewall|coupler plate|axle tag|stamp|tape|maker's sheet" need:"yes"`
	Proves   Text `key:"proves" doc:"the keys of the values that can be read on it, with commas between them" eg:"weights.gvwr, axles.rating" need:"yes"`
	Withhold Text `key:"withhold" doc:"keeps the photo off the site and says why, for you alone; the page says that the value was photographed and shows no picture" eg:"the buyer's name is on the ticket"`
}

// proofOrigins are the provenances that a photo of each thing proves.
var proofOrigins = map[string]measure.Origin{
	"label": measure.Tag, "scale ticket": measure.ScaleTicket, "sidewall": measure.Sidewall, "coupler plate": measure.CouplerPlate,
	"axle tag": measure.AxleTag, "stamp": measure.Stamp, "tape": measure.Tape, "maker's sheet": measure.MakersSheet,
}

// Fits reports whether a value with that provenance can be read on what the photo shows. A
// value without a provenance can, and so can one with words of the author's own. What was only
// said, estimated or filled in from a model was not read there.
func (p *Proof) Fits(from measure.Provenance) bool {
	return from.Origin == measure.Unstated || from.Origin == measure.Other || from.Origin == proofOrigins[p.Shows.Value]
}

// Withheld reports whether the photo is kept off the site: whether the key withhold is there,
// whatever its value.
func (p *Proof) Withheld() bool {
	blank, lacks := p.Withhold.lacks()
	return blank.Known() || !lacks
}

// WithheldAt is the place of the key withhold or of its value.
func (p *Proof) WithheldAt() Pos {
	if blank, _ := p.Withhold.lacks(); blank.Known() {
		return blank
	}
	return p.Withhold.Pos
}

// A Named is a key that a value names, with its place.
type Named struct {
	Path string
	Pos  Pos
}

// Keys are the keys that the proof names.
func (p *Proof) Keys() []Named {
	if !p.Proves.Given() {
		return nil
	}
	var out []Named
	from := 0
	for part := range strings.SplitSeq(p.Proves.Value, ",") {
		path := strings.TrimSpace(part)
		at := p.Proves.Pos
		if !strings.Contains(p.Proves.Raw, "\n") {
			at.Column += int32(utf8.RuneCountInString(p.Proves.Value[:from+strings.Index(part, path)]))
		}
		if path != "" {
			out = append(out, Named{path, at})
		}
		from += len(part) + 1
	}
	return out
}

// names reports whether the proof names a key.
func (p *Proof) names(path string) bool {
	for _, k := range p.Keys() {
		if k.Path == path {
			return true
		}
	}
	return false
}

// ProofOf is the photo that proves a value, or nil. A photo on the site comes before one that is
// kept off it.
func (u *Unit) ProofOf(path string) *Proof {
	var kept *Proof
	for i := range u.Proof {
		p := &u.Proof[i]
		if !p.names(path) || !p.File.Given() || !p.Shows.Given() {
			continue
		}
		if !p.Withheld() {
			return p
		}
		if kept == nil {
			kept = p
		}
	}
	return kept
}

// Photographed is what a page says of a value that a photo proves: "label photographed", "scale
// ticket 2026-11-03 photographed".
func (p *Proof) Photographed(from measure.Provenance) string {
	what := p.Shows.Value
	switch {
	case from.Origin == measure.ScaleTicket:
		what = from.String()
	case from.Origin == measure.Other:
		what = from.String() + ", " + what
	}
	if p.Withheld() {
		return what + " photographed, the photo is not public"
	}
	return what + " photographed"
}

// PhotographedRatings counts the ratings that the unit gives, and those of them that a photo
// proves.
func (u *Unit) PhotographedRatings() (proven, all int) {
	for _, g := range u.Givens() {
		if !isRating(g.Path) {
			continue
		}
		all++
		if u.ProofOf(g.Path) != nil {
			proven++
		}
	}
	return proven, all
}

// ratingKeys are the values that somebody rated: the limits of parts, as their makers state
// them on labels, plates, tags, sidewalls and stamps.
var ratingKeys = map[string]bool{
	"weights.gvwr": true, "weights.max-load": true, "axles.rating": true, "deck.concentrated": true,
	"hitch.rating": true, "hitch.ball-rating": true, "hitch.tongue-limit": true, "hitch.chains.breaking": true,
	"tires.load-range": true, "tires.sidewall.single": true, "tires.sidewall.dual": true, "tires.wheel": true,
	"dolly.axle": true, "dolly.vehicle": true,
	"winch.rating": true, "hoist.rating": true, "ramps.rating": true, "jack.rating": true,
}

// isRating reports whether a key holds a rating. That of a tie-down is below its own name.
func isRating(path string) bool {
	return ratingKeys[path] || strings.HasPrefix(path, "tie-downs.") && strings.HasSuffix(path, ".rating")
}

// Provable reports whether the value of a key is something that a photo can show: what is
// read off a trailer or measured on it, and not the yard's own words.
func Provable(path string) bool {
	if strings.HasPrefix(path, "tie-downs.") {
		return true
	}
	k := keyNamed(path)
	return k != nil && (k.choices != nil || k.mayBeUnknown()) && !unprovable[path]
}

// unprovable are keys with a choice that the yard makes, which no photo proves.
var unprovable = map[string]bool{"kind": true, "condition": true, "availability": true}

// MeantKey is the key of a unit file that a word means, or "": gvwr means weights.gvwr.
func MeantKey(word string) string {
	if e, ok := everydayFor(word, ""); ok && e.path != "" && Provable(e.paths()[0]) {
		return e.paths()[0]
	}
	_, last, _ := cutLast(word)
	if paths := elsewhere(last); len(paths) == 1 && Provable(paths[0]) {
		return paths[0]
	}
	var names []string
	for _, k := range Keys() {
		if k.Kind != "section" && Provable(k.Path) {
			names = append(names, k.Path)
		}
	}
	return Nearest(word, names)
}
