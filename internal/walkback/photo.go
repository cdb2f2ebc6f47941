package walkback

import (
	"fmt"
	"slices"
	"strings"

	"tarepage/internal/amend"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// shows is what a photo shows, by the place where a value was read. Of other places no photo
// proves anything.
func shows(place string) string {
	if place == label {
		return "label" // the file says (tag) after a value, and label of a photo
	}
	if slices.Contains([]string{scale, sidewall, plate, axleTag, stamp, tape, sheet}, place) {
		return place
	}
	return ""
}

// A Photo is a photo that was taken of where values were read.
type Photo struct {
	File  string   // below content/: media/sb-1050-label.jpg
	Place string   // where the values were read, as after a value: tag
	Keys  []string // the values that can be read on it
	// Private is why the photo is not for customers; empty if it is.
	Private string
}

// AddPhoto names a photo in a unit file as the proof of values. The file has to say of each
// value that it was read in that place.
func AddPhoto(file []byte, p Photo) ([]byte, error) {
	if shows(p.Place) == "" || len(p.Keys) == 0 {
		return nil, fmt.Errorf("say where the value was read before you take a photo of it")
	}
	u, _ := unit.ReadUnit("unit", file)
	given := map[string]measure.Provenance{}
	for _, g := range u.Givens() {
		given[g.Path] = g.From
	}
	for _, key := range p.Keys {
		if from := given[key]; !readAt(from, p.Place) || !unit.Provable(key) {
			return nil, fmt.Errorf("the file does not say of %s that it was read on the %s; save the value first", key, shows(p.Place))
		}
	}
	item := []amend.Change{{Path: "file", Value: p.File}, {Path: "shows", Value: shows(p.Place)}, {Path: "proves", Value: strings.Join(p.Keys, ", ")}}
	if p.Private != "" {
		item = append(item, amend.Change{Path: "withhold", Value: p.Private})
	}
	return amend.AddItem(file, "proof", item)
}

// readAt reports whether a note says that a value was read in a place.
func readAt(from measure.Provenance, place string) bool {
	return from.Origin != measure.Unstated && from.Origin.String() == place
}
