package stockfile

import (
	"strconv"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// A Unit is one published trailer.
type Unit struct {
	Work *compute.Work
	// Page is its page's path in the site, and Address the whole address; empty where the
	// site's own is not known.
	Page, Address string
	// Cautions are what its page warns of.
	Cautions []string
}

// A File is one of the files by its path in the site.
type File struct {
	Path string
	// What is what a link to it says.
	What string
}

// Where the files stand in the site.
const (
	JSONPath        = "stock.json"
	csvPath         = "stock.csv"
	spreadsheetPath = "stock-spreadsheet.csv"
	SchemaPath      = "stock.schema.json"
)

// Files are the files, in the order in which they are offered.
func Files() []File {
	return []File{{JSONPath, "JSON"}, {csvPath, "CSV"}, {spreadsheetPath, "for spreadsheets"}, {SchemaPath, "schema"}}
}

// version names the form of stock.json; it changes when a program that reads it would
// have to.
const version = "tarepage-stock/1"

// figures are the figures that are given away, with what they are of other trailers'
// lists: what a customer compares and what a carrier plans with. The rest stands on each
// trailer's page, with its working.
var figures = []string{
	"deck-length", "deck-area", "overall-length", "tag-payload", "payload", "working-payload",
	"axle-capacity", "tire-capacity", "tire-reserve", "tongue-at-gvwr", "tongue-share", "axle-load-at-gvwr",
	"loading-angle", "tie-down-need", "tie-down-count", "struck-volume", "heaped-volume",
}

// definitions are the figures' definitions, in that order.
func definitions() []*compute.Definition {
	byName := map[string]*compute.Definition{}
	for _, d := range compute.All {
		byName[d.Name] = d
	}
	var out []*compute.Definition
	for _, name := range figures {
		out = append(out, byName[name])
	}
	return out
}

// private are keys whose values no page shows, or which stand at the top of a trailer.
var private = map[string]bool{
	"title": true, "stock": true, "kind": true, "make": true, "model": true, "year": true, "serial": true, "condition": true,
	"availability": true, "price": true, "arrived": true, "color": true, "withhold": true,
}

// shown reports whether the value of a key is given away among what a trailer states.
func shown(path string) bool {
	section, _, _ := strings.Cut(path, ".")
	return !private[path] && section != "claimed" && section != "recording" && section != "photos" && section != "waive"
}

// A number is a quantity in one unit.
type number struct {
	value float64
	unit  string
}

// numberOf is the number of what a file states, if it is one. It is as it was stated, in
// the unit that figures are worked in.
func numberOf(value any) (number, bool) {
	switch v := value.(type) {
	case measure.Pounds:
		return number{float64(v), v.Symbol()}, true
	case measure.Inches:
		return number{float64(v), v.Symbol()}, true
	case measure.PSI:
		return number{float64(v), v.Symbol()}, true
	case measure.Gallons:
		return number{float64(v), v.Symbol()}, true
	case measure.Dollars:
		return number{float64(v), v.Symbol()}, true
	case int:
		return number{float64(v), ""}, true
	}
	return number{}, false
}

// rounded is a figure's number as its page prints it: limits down, loads up, so that no
// program reads a pound more than a person does.
func rounded(f *compute.Figure) string {
	step := f.Step()
	switch {
	case f.Limit() && step == 1:
		return bare(measure.Down(f.Value, step))
	case f.Load() && step == 1:
		return bare(measure.Up(f.Value, step))
	}
	return strings.ReplaceAll(measure.Number(f.Value, 2), ",", "")
}

// bare writes a number as JSON and CSV take it, with as many digits as it has.
func bare(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// workedOut is where a figure comes from.
const workedOut = "worked out"
