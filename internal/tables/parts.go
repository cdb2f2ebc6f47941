package tables

import (
	"slices"
	"strings"

	"tarepage/internal/measure"
)

// FootPounds is a tightening torque in pound-force feet.
type FootPounds float64

// TorqueRow is the tightening torque of wheel nuts. The same stud takes different
// torques with a cone and with a flange nut. The maker's manual governs.
type TorqueRow struct {
	Wheel, Stud           string
	Stage1, Stage2, Final Span[FootPounds] // the stages may be unstated
	Cited
}

var torqueSheet = newSheet(sheet[TorqueRow]{
	name: "wheel-torques", title: "Wheel nuts: tightening torque in lb-ft", file: "wheel_torque.csv",
	columns: []string{"wheel", "stud", "stage1_low", "stage1_high", "stage2_low", "stage2_high", "final_low", "final_high", "source", "grade", "note"},
	row: func(r *row) TorqueRow {
		r.positive("final_low")
		t := TorqueRow{r.must("wheel"), r.must("stud"), span[FootPounds](r, "stage1_low", "stage1_high"),
			span[FootPounds](r, "stage2_low", "stage2_high"), span[FootPounds](r, "final_low", "final_high"), r.cited()}
		if t.Stage1.Low > t.Stage2.Low || t.Stage2.Low > t.Final.Low {
			r.fail(r.line, "the stages must rise: %v, %v, %v", t.Stage1.Low, t.Stage2.Low, t.Final.Low)
		}
		return t
	},
	key: func(t TorqueRow) string { return t.Wheel + " on stud " + t.Stud },
})

// WheelTorques returns the tightening torques of wheel nuts, in the file's order.
func WheelTorques() []TorqueRow { return clone(torqueSheet) }

// ComponentWeightRow is what a part of a trailer weighs, for an estimate of the empty
// weight. Rows of grade MemoryWeak are not for estimates.
type ComponentWeightRow struct {
	Component string
	Per       string // "each", "set", or "sq ft", to which Weight then refers
	Weight    Span[measure.Pounds]
	Cited
}

var componentSheet = newSheet(sheet[ComponentWeightRow]{
	name: "component-weights", title: "What parts of a trailer weigh", file: "component_weight.csv",
	columns: []string{"component", "per", "low_lb", "high_lb", "source", "grade", "note"},
	row: func(r *row) ComponentWeightRow {
		r.positive("low_lb")
		c := ComponentWeightRow{r.must("component"), r.must("per"), span[measure.Pounds](r, "low_lb", "high_lb"), r.cited()}
		if c.Per != "each" && c.Per != "set" && c.Per != "sq ft" {
			r.fail(r.line, "column per: %q is none of each, set, sq ft", c.Per)
		}
		return c
	},
	key: func(c ComponentWeightRow) string { return c.Component },
})

// ComponentWeights returns what parts weigh, in the file's order.
func ComponentWeights() []ComponentWeightRow { return clone(componentSheet) }

// ComponentWeight returns a part by name, capitals aside.
func ComponentWeight(component string) (ComponentWeightRow, bool) {
	for _, c := range componentSheet.all() {
		if strings.EqualFold(c.Component, strings.TrimSpace(component)) {
			return c, true
		}
	}
	return ComponentWeightRow{}, false
}

// EmptyBandRow is the usual empty weight of a kind and size of trailer: for asking
// whether a weight was typed right, never for a capacity. A trailer is of the row if it is
// of one of its kinds, couples that way, and has as many axles, that rating and that length.
type EmptyBandRow struct {
	Kind   string   // in words
	Size   string   // width and length in feet, as written
	Kinds  []string // of the unit file
	Hitch  string
	Axles  Span[int]
	GVWR   Span[measure.Pounds]
	Length Span[measure.Feet]
	Empty  Span[measure.Pounds]
	Cited
}

var emptyBandSheet = newSheet(sheet[EmptyBandRow]{
	name: "empty-bands", title: "Usual empty weights of trailers", file: "empty_band.csv",
	columns: []string{"kind", "size_ft", "kinds", "hitch", "axles_low", "axles_high", "gvwr_low_lb", "gvwr_high_lb",
		"length_low_ft", "length_high_ft", "low_lb", "high_lb", "source", "grade", "note"},
	row: func(r *row) EmptyBandRow {
		r.positive("low_lb")
		return EmptyBandRow{r.must("kind"), r.text("size_ft"), strings.Split(r.must("kinds"), "; "), r.must("hitch"),
			span[int](r, "axles_low", "axles_high"), span[measure.Pounds](r, "gvwr_low_lb", "gvwr_high_lb"),
			span[measure.Feet](r, "length_low_ft", "length_high_ft"), span[measure.Pounds](r, "low_lb", "high_lb"), r.cited()}
	},
	key: func(e EmptyBandRow) string { return strings.TrimSpace(e.Kind + " " + e.Size) },
})

// EmptyBand returns the lightest and the heaviest that is usual for a trailer, over all rows
// that it is of, and the first of those rows. It reports false where there is none.
func EmptyBand(kind, hitch string, axles int, gvwr measure.Pounds, length measure.Feet) (Span[measure.Pounds], EmptyBandRow, bool) {
	var band Span[measure.Pounds]
	var first EmptyBandRow
	for _, e := range emptyBandSheet.all() {
		if !slices.Contains(e.Kinds, kind) || e.Hitch != hitch || !e.Axles.Holds(axles) || !e.GVWR.Holds(gvwr) || !e.Length.Holds(length) {
			continue
		}
		if first.Kind == "" {
			first, band = e, e.Empty
		}
		band.Low, band.High = min(band.Low, e.Empty.Low), max(band.High, e.Empty.High)
	}
	return band, first, first.Kind != ""
}
