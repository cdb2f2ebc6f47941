package walkback

import (
	"slices"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// The notes that say where a value was read.
var (
	label    = measure.Tag.String()
	plate    = measure.CouplerPlate.String()
	axleTag  = measure.AxleTag.String()
	sidewall = measure.Sidewall.String()
	stamp    = measure.Stamp.String()
	tape     = measure.Tape.String()
	scale    = measure.ScaleTicket.String()
	sheet    = measure.MakersSheet.String()
)

// places are where a value can be read, by key: the usual place first. Keys that are not here
// go by the kind of their value.
var places = map[string][]string{
	"weights.gvwr":            {label, sheet},
	"weights.max-load":        {"plate", label},
	"weights.loaded":          {scale},
	"deck.concentrated":       {sheet, "plate"},
	"built":                   {label},
	"axles.rating":            {label, axleTag, sheet},
	"tires.pressure":          {label},
	"hitch.ball":              {plate, stamp, tape},
	"hitch.rating":            {plate, stamp, sheet},
	"hitch.ball-rating":       {stamp},
	"hitch.tongue-limit":      {plate, sheet},
	"hitch.chains.breaking":   {label, stamp, sheet},
	"tires.size":              {sidewall, label},
	"tires.load-range":        {sidewall},
	"tires.ply":               {sidewall},
	"tires.service":           {sidewall},
	"tires.sidewall.single":   {sidewall},
	"tires.sidewall.dual":     {sidewall},
	"tires.sidewall.pressure": {sidewall},
	"tires.made":              {sidewall},
	"tires.spare-size":        {sidewall},
	"tires.spare-load-range":  {sidewall},
	"tires.wheel":             {stamp, sheet},
	"weights.empty":           {scale, sheet, label},
	"weights.tongue-empty":    {scale},
	"weights.tongue-least":    {label},
	"weights.water":           {label, sheet},
	"weights.propane":         {label, sheet},
	"tank.spec":               {"plate"},
	"tank.tested":             {"plate"},
	"serial":                  {},
}

// usual are the places by the kind of value. Words and counts are seen, and need no note.
var usual = map[string][]string{
	"length":            {tape, sheet},
	"weight":            {label, stamp, sheet},
	"pressure":          {label, sidewall},
	"volume":            {tape, label, sheet},
	"stopping distance": {sheet},
}

func placesOf(d unit.KeyDoc) []string {
	if p, ok := places[d.Path]; ok {
		return p
	}
	if strings.HasPrefix(d.Path, "claimed.") {
		return []string{sheet}
	}
	return usual[d.Kind]
}

// wants is the unit in which a bare number is taken, by the kind of value.
func wants(d unit.KeyDoc) string {
	switch {
	case d.Kind == "weight":
		return "lb"
	case d.Kind == "pressure":
		return "psi"
	case d.Kind == "money":
		return "$"
	case d.Kind == "volume" && strings.Contains(d.Example, "cu yd"):
		return "cu yd"
	case d.Kind == "volume" && strings.Contains(d.Example, "bu"):
		return "bu"
	case d.Kind == "volume":
		return "gal"
	case d.Kind == "length":
		return "in"
	}
	return ""
}

// The ways in which a phone takes a value.
const (
	asNumber = "number" // digits, with a point and commas
	asFeet   = "feet"   // feet and inches, a box each
	asText   = "text"
	asChoice = "choice"
	asDay    = "day"
)

// someBalls are the balls that trailers take (SAE J684 knows the first three; 3 in is common
// practice, no source). Nobody types 2-5/16 on a keyboard of digits.
var someBalls = []string{"1-7/8 in", "2 in", "2-5/16 in", "3 in"}

// boxOf is how a phone takes the value of a key.
func boxOf(d unit.KeyDoc) (box string, choices []string) {
	switch {
	case d.Path == "hitch.ball":
		return asChoice, someBalls
	case len(d.Choices) > 0 && d.Kind != "text":
		return asChoice, d.Choices
	case d.Kind == "yes or no":
		return asChoice, []string{"yes", "no"}
	case d.Kind == "date":
		return asDay, nil
	case d.Kind == "length" && strings.Contains(d.Example, "ft"):
		return asFeet, nil
	case d.Kind == "length" && strings.Contains(d.Example, "/"):
		return asText, nil
	case slices.Contains([]string{"weight", "length", "pressure", "volume", "money", "count", "production week"}, d.Kind):
		return asNumber, nil
	}
	return asText, nil
}
