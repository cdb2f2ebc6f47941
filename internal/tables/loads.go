package tables

import (
	"strings"

	"tarepage/internal/measure"
)

// CargoRow is something that gets hauled: what it weighs, and how long and how wide it is.
type CargoRow struct {
	Item        string
	Class       string // size or type, may be empty
	Weight      Span[measure.Pounds]
	Typical     measure.Pounds
	Length      Span[measure.Feet]
	LengthGrade Grade
	// Width is over the tracks or wheels, which must go between the fenders. All of them are from
	// memory, no source found: the narrowest and the widest of the class.
	Width Span[measure.Inches]
	// Center is how far its center of gravity is from its front, as a share of its length, as
	// it is hauled. Margin is how far a machine of the class may differ from that.
	Center, Margin measure.Share
	CenterSource   string
	CenterGrade    Grade
	// Front and Rear are what people call its ends, Shape the silhouette that draws it.
	Front, Rear, Shape string
	Cited
}

var cargoSheet = newSheet(sheet[CargoRow]{
	name: "cargo", title: "What loads weigh and how long they are", file: "cargo.csv",
	columns: []string{"item", "class", "low_lb", "typical_lb", "high_lb", "short_ft", "long_ft", "narrow_in", "wide_in", "center_percent", "margin_percent", "front", "rear", "shape", "source", "grade", "length_grade", "center_source", "center_grade", "note"},
	row: func(r *row) CargoRow {
		r.positive("low_lb")
		r.positive("short_ft")
		r.positive("narrow_in")
		c := CargoRow{Item: r.must("item"), Class: r.text("class"), Weight: span[measure.Pounds](r, "low_lb", "high_lb"),
			Typical: measure.Pounds(r.positive("typical_lb")), Length: span[measure.Feet](r, "short_ft", "long_ft"), LengthGrade: r.grade("length_grade", true), Width: span[measure.Inches](r, "narrow_in", "wide_in"),
			Center: percent(r.positive("center_percent")), Margin: percent(r.positive("margin_percent")), CenterSource: r.must("center_source"), CenterGrade: r.grade("center_grade", true),
			Front: r.must("front"), Rear: r.must("rear"), Shape: r.must("shape"), Cited: r.cited()}
		if c.Center-c.Margin < 0 || c.Center+c.Margin > 1 {
			r.fail(r.line, "column margin_percent: %s around %s lies outside of its length", c.Margin, c.Center)
		}
		if c.Typical < c.Weight.Low || c.Typical > c.Weight.High {
			r.fail(r.line, "column typical_lb: %s lies outside %s to %s", c.Typical, c.Weight.Low, c.Weight.High)
		}
		return c
	},
	key: func(c CargoRow) string { return strings.TrimSpace(c.Item + " " + c.Class) },
})

// Cargo returns what loads weigh, in the file's order. A machine's own plate governs.
func Cargo() []CargoRow { return clone(cargoSheet) }
