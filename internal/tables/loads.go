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

// TruckClassRow is a class of truck by its gross vehicle weight rating.
type TruckClassRow struct {
	Class string // "1", "2a", "2b", "3" ... "8"
	// GVWR runs from Low to High, both included; High is 0 in the open class at the top.
	GVWR    Span[measure.Pounds]
	Group   string // light, medium or heavy
	Empty   Span[measure.Pounds]
	Payload measure.Pounds // the greatest usual
	Typical string
	Cited
}

var truckClassSheet = newSheet(sheet[TruckClassRow]{
	name: "truck-classes", title: "Truck classes by GVWR", file: "gvwr_class.csv",
	columns: []string{"class", "min_lb", "max_lb", "fhwa_group", "empty_low_lb", "empty_high_lb", "payload_lb", "typical", "source", "grade", "note"},
	row: func(r *row) TruckClassRow {
		r.must("min_lb")
		return TruckClassRow{r.must("class"), Span[measure.Pounds]{Low: r.pounds("min_lb"), High: r.pounds("max_lb")}, r.must("fhwa_group"),
			span[measure.Pounds](r, "empty_low_lb", "empty_high_lb"), measure.Pounds(r.positive("payload_lb")), r.must("typical"), r.cited()}
	},
	key: func(t TruckClassRow) string { return "truck class " + t.Class },
	rules: func(rows []placed[TruckClassRow], fail failure) {
		for i, p := range rows {
			if i > 0 && p.is.GVWR.Low != rows[i-1].is.GVWR.High+1 {
				fail(p.line, "truck class %s begins at %s, class %s before it ends at %s", p.is.Class, p.is.GVWR.Low, rows[i-1].is.Class, rows[i-1].is.GVWR.High)
			}
			open := p.is.GVWR.High == 0
			if open != (i == len(rows)-1) || !open && p.is.GVWR.High < p.is.GVWR.Low {
				fail(p.line, "truck class %s ends at %s; only the last is open, the others end above their start", p.is.Class, p.is.GVWR.High)
			}
		}
	},
})

// TruckClasses returns the truck classes, the lightest first.
func TruckClasses() []TruckClassRow { return clone(truckClassSheet) }

// TruckClass returns the class of a truck with the given GVWR. It reports false for a
// weight below zero.
func TruckClass(gvwr measure.Pounds) (TruckClassRow, bool) {
	if gvwr < 0 {
		return TruckClassRow{}, false
	}
	for _, t := range truckClassSheet.all() {
		if gvwr <= t.GVWR.High || t.GVWR.High == 0 {
			return t, true
		}
	}
	return TruckClassRow{}, false
}

// TowVehicleRow is the usual range of a class of tow vehicles: for orientation only. The
// door label and the vehicle's own towing guide govern.
type TowVehicleRow struct {
	Class        string
	RearGAWR     Span[measure.Pounds]
	GCWR         Span[measure.Pounds]
	Conventional Span[measure.Pounds] // greatest trailer on a bumper or receiver hitch
	Gooseneck    Span[measure.Pounds] // greatest gooseneck or fifth-wheel trailer
	Cited
}

var towVehicleSheet = newSheet(sheet[TowVehicleRow]{
	name: "tow-vehicles", title: "Tow vehicles: usual ratings", file: "tow_vehicle.csv",
	columns: []string{"class", "rear_gawr_low_lb", "rear_gawr_high_lb", "gcwr_low_lb", "gcwr_high_lb",
		"conventional_low_lb", "conventional_high_lb", "gooseneck_low_lb", "gooseneck_high_lb", "source", "grade", "note"},
	row: func(r *row) TowVehicleRow {
		return TowVehicleRow{r.must("class"), span[measure.Pounds](r, "rear_gawr_low_lb", "rear_gawr_high_lb"),
			span[measure.Pounds](r, "gcwr_low_lb", "gcwr_high_lb"), span[measure.Pounds](r, "conventional_low_lb", "conventional_high_lb"),
			span[measure.Pounds](r, "gooseneck_low_lb", "gooseneck_high_lb"), r.cited()}
	},
	key: func(t TowVehicleRow) string { return "tow vehicle " + t.Class },
})

// TowVehicles returns the usual ratings of tow vehicles, the lightest first.
func TowVehicles() []TowVehicleRow { return clone(towVehicleSheet) }
