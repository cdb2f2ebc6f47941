package tables

import (
	"strings"

	"tarepage/internal/measure"
)

// CargoRow is something that gets hauled: what it weighs and how long it is.
type CargoRow struct {
	Item        string
	Class       string // size or type, may be empty
	Weight      Span[measure.Pounds]
	Typical     measure.Pounds
	Length      Span[measure.Feet]
	LengthGrade Grade
	Cited
}

var cargoSheet = newSheet(sheet[CargoRow]{
	name: "cargo", title: "What loads weigh and how long they are", file: "cargo.csv",
	columns: []string{"item", "class", "low_lb", "typical_lb", "high_lb", "short_ft", "long_ft", "source", "grade", "length_grade", "note"},
	row: func(r *row) CargoRow {
		r.positive("low_lb")
		r.positive("short_ft")
		c := CargoRow{r.must("item"), r.text("class"), span[measure.Pounds](r, "low_lb", "high_lb"), measure.Pounds(r.positive("typical_lb")),
			span[measure.Feet](r, "short_ft", "long_ft"), r.grade("length_grade", true), r.cited()}
		if c.Typical < c.Weight.Low || c.Typical > c.Weight.High {
			r.fail(r.line, "column typical_lb: %s lies outside %s to %s", c.Typical, c.Weight.Low, c.Weight.High)
		}
		return c
	},
	key: func(c CargoRow) string { return strings.TrimSpace(c.Item + " " + c.Class) },
})

// Cargo returns what loads weigh, in the file's order. A machine's own plate governs.
func Cargo() []CargoRow { return clone(cargoSheet) }
