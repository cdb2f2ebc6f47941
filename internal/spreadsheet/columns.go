package spreadsheet

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"tarepage/internal/unit"
)

// A Column is one column of a sheet and what is taken from it.
type Column struct {
	Header string
	// Key is the unit's key; empty for a column that is not taken.
	Key string
	// Unit is the unit of the numbers, as the header says: lb, ft, in; empty if it does not.
	Unit string
	// Since reports that the column is the day since when the value of the key holds.
	Since bool
}

// words are the names that yards and makers give their columns, by key. A header is compared
// in small letters, without its unit and without marks. What people write is common practice,
// no source. The names of the columns of stock.csv are among them.
var words = map[string][]string{
	"stock":                {"stock", "stock number", "stock no", "stk", "stk no", "stk number", "unit number", "unit no", "inventory number"},
	"title":                {"title", "headline", "description"},
	"kind":                 {"kind", "type", "category", "trailer type"},
	"make":                 {"make", "manufacturer", "maker", "mfr", "mfg", "mfgr"},
	"year":                 {"year", "yr", "model year"},
	"serial":               {"serial", "vin", "serial number", "serial no", "vin number"},
	"condition":            {"condition", "new used", "new or used", "n u", "n or u"},
	"availability":         {"availability", "status", "where"},
	"price":                {"price", "asking price", "our price", "retail", "retail price", "list price", "sale price", "asking"},
	"arrived":              {"arrived", "arrival", "date in", "in date", "in", "received", "date received", "arrival date"},
	"color":                {"color", "colour"},
	"weights.gvwr":         {"gvwr", "gvw", "gross", "gross weight", "gross vehicle weight rating"},
	"weights.empty":        {"empty", "empty weight", "curb weight", "weight", "tare", "unladen weight", "shipping weight", "wt empty", "empty wt", "wt"},
	"weights.tongue-empty": {"tongue weight", "tongue", "pin weight", "empty tongue weight"},
	"deck.length":          {"deck length", "length", "bed length", "lgth", "len"},
	"deck.width":           {"deck width", "width", "wid"},
	"deck.height":          {"deck height"},
	"deck.between-fenders": {"between fenders", "width between fenders"},
	"overall-width":        {"overall width"},
	"overall-length":       {"overall length"},
	"overall-height":       {"overall height"},
	"axles.count":          {"axles count", "axles", "axle count", "number of axles", "number axles", "no axles", "no of axles"},
	"axles.rating":         {"axle rating", "axle capacity", "axle size", "axle"},
	"tires.size":           {"tires", "tire", "tire size"},
	"tires.load-range":     {"load range", "lr"},
	"hitch.kind":           {"hitch", "hitch type", "coupler type"},
	"hitch.rating":         {"coupler rating", "coupler capacity"},
	"hitch.ball":           {"ball", "ball size", "coupler size"},
	"hitch.plug":           {"plug", "hitch plug"},
	"brakes.kind":          {"brakes", "brake type"},
	"tires.per-axle":       {"tires per axle", "tires on an axle"},
	"brakes.axles":         {"brake axles", "braked axles", "axles with brakes", "brakes on"},
	"model":                {"model", "model number", "model no", "model code"},
}

// workedOut are columns of the spreadsheet that the site gives away which this program works out, by
// the column that says how. Read back, such a figure is not what anybody claims.
var workedOut = map[string]string{"payload-lb": "payload-from"}

// sinceWords are the columns with the day of a value.
var sinceWords = map[string][]string{
	"price":        {"price since", "price date"},
	"availability": {"availability since", "status date", "sold date", "date sold"},
}

// unitForm is a unit at the end of a header: GVWR (lb), deck-length-ft, Price $.
var unitForm = regexp.MustCompile(`(?i)[ (,_-]+(lbs?|pounds|kg|ft|feet|in|inches|usd|\$|psi)\.?\)?$`)

var headerMarks = regexp.MustCompile(`[^a-z0-9]+`)

// headerUnits are the units as measure writes them.
var headerUnits = map[string]string{"lb": "lb", "lbs": "lb", "pounds": "lb", "kg": "kg", "ft": "ft", "feet": "ft", "in": "in", "inches": "in", "psi": "psi"}

// Match says what each column is. Kept are the choices of an earlier time, by header; a key
// of "-" is a column that is not taken. Of two columns for one key the first is taken, and one
// that names the key before one that only resembles it.
func Match(header []string, kept map[string]string) []Column {
	out := make([]Column, len(header))
	taken := map[Column]bool{}
	take := func(i int, key string, since bool) {
		if at := (Column{Key: key, Since: since}); key != "" && !taken[at] {
			taken[at] = true
			out[i].Key, out[i].Since = key, since
		}
	}
	plain := make([]string, len(header))
	for i, h := range header {
		out[i].Header = h
		plain[i] = strings.ToLower(strings.ReplaceAll(h, "#", " number"))
		// "Date In" ends with no unit: the whole header comes first.
		key, since := meant(plain[i])
		if m := unitForm.FindStringSubmatchIndex(plain[i]); key == "" && m != nil {
			mark := plain[i][m[2]:m[3]]
			out[i].Unit, plain[i] = headerUnits[mark], plain[i][:m[0]]
			if key, since = meant(plain[i]); key != "" && !unitFits(mark, key) {
				// "Price in" is what the yard paid, and not a price in inches.
				out[i].Unit, plain[i], key, since = "", "", "", false
			}
		}
		if from := workedOut[h]; from != "" && slices.Contains(header, from) {
			key, plain[i] = "", ""
		}
		if chosen, ok := kept[h]; ok {
			key, since, plain[i] = strings.TrimPrefix(chosen, notTaken), false, ""
		}
		take(i, key, since)
	}
	for i := range out {
		if key := unit.KeyMeant(unmarked(plain[i])); out[i].Key == "" && measured[keyDocs()[key].Kind] {
			take(i, key, false)
		}
	}
	return out
}

// unitFits reports whether values of a key have the unit at the end of a header.
func unitFits(mark, key string) bool {
	kind := keyDocs()[key].Kind
	switch headerUnits[mark] {
	case "lb", "kg":
		return kind == "weight"
	case "ft", "in":
		return kind == "length"
	case "psi":
		return kind == "pressure"
	}
	return kind == "money"
}

// unmarked is a header in small letters without marks.
func unmarked(header string) string {
	return strings.TrimSpace(headerMarks.ReplaceAllString(header, " "))
}

// meant is the key that a header names, in small letters.
func meant(header string) (key string, since bool) {
	plain := unmarked(header)
	for key, names := range words {
		if slices.Contains(names, plain) {
			return key, false
		}
	}
	for key, names := range sinceWords {
		if slices.Contains(names, plain) {
			return key, true
		}
	}
	return "", false
}

// measured are the kinds of value that a column may be taken for by an everyday word that is not
// in the table of this package. Words and prices are not among them: a column of notes, or of what
// the yard paid, must never reach a page because its name resembles a key.
var measured = map[string]bool{"weight": true, "length": true, "pressure": true, "volume": true, "count": true, "choice": true, "yes or no": true,
	"production week": true}

// keyDocs are the unit's keys by their paths.
var keyDocs = sync.OnceValue(func() map[string]unit.KeyDoc {
	out := map[string]unit.KeyDoc{}
	for _, k := range unit.Keys() {
		out[k.Path] = k
	}
	return out
})
