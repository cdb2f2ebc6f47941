package tables

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"tarepage/internal/measure"
)

type (
	// PoundsPerSquareFoot is how heavy plate or decking is.
	PoundsPerSquareFoot float64
	// PoundsPerCubicFoot is how heavy a solid material is.
	PoundsPerCubicFoot float64
	// SquareInches is the area of a cross section.
	SquareInches float64
	// CubicInches is a section modulus.
	CubicInches float64
)

// clone gives callers rows of their own.
func clone[R any](s *sheet[R]) []R { return slices.Clone(s.all()) }

// SectionRow is a rolled or formed steel shape. In families W, S, M, C and MC the name
// gives depth and weight: W10x22 weighs 22 lb/ft. Nothing here says what a beam carries.
type SectionRow struct {
	Shape  string // W10x22
	Family string // W, S, M, C, MC, HSS, L
	// Depth is the actual depth; for an angle it is the shorter leg and Width the longer,
	// as the shapes database has it.
	Depth, Width measure.Inches
	Weight       measure.PoundsPerFoot
	// Area is the cross section. For HSS it rests on the thinner design wall: never work a
	// weight from it.
	Area SquareInches
	// Modulus is the elastic section modulus about the strong axis, in cubic inches; zero
	// where it is not listed. It compares beams of one steel and is not a rating.
	Modulus CubicInches
	Cited
}

var sectionSheet = newSheet(sheet[SectionRow]{
	name: "sections", title: "Steel shapes: weight per foot", file: "sections.csv",
	columns: []string{"shape", "family", "depth_in", "width_in", "weight_lb_ft", "area_in2", "modulus_in3", "source", "grade", "note"},
	row: func(r *row) SectionRow {
		s := SectionRow{r.must("shape"), r.must("family"), measure.Inches(r.positive("depth_in")), measure.Inches(r.positive("width_in")),
			measure.PoundsPerFoot(r.positive("weight_lb_ft")), SquareInches(r.positive("area_in2")), CubicInches(r.number("modulus_in3")), r.cited()}
		if !strings.HasPrefix(s.Shape, s.Family) {
			r.fail(r.line, "column family: %q does not begin shape %s", s.Family, s.Shape)
		}
		return s
	},
	key: func(s SectionRow) string { return "section " + s.Shape },
})

var sectionIndex = sync.OnceValue(func() map[string]SectionRow {
	index := map[string]SectionRow{}
	for _, s := range sectionSheet.all() {
		index[plainName(s.Shape)] = s
	}
	return index
})

// Section returns a steel shape by name: W10x22, c3X4.1, "W10 x 22". The error names
// the shapes that come near.
func Section(shape string) (SectionRow, error) {
	if s, ok := sectionIndex()[plainName(shape)]; ok {
		return s, nil
	}
	var names []string
	for _, s := range sectionSheet.all() {
		names = append(names, s.Shape)
	}
	return SectionRow{}, fmt.Errorf("section %q is not listed%s", shape, orNearest(nearest(shape, names)))
}

// PlateRow is plate or tread plate by thickness.
type PlateRow struct {
	Kind      string // "plain" or "tread"
	Material  string // "steel" or "aluminum"
	Name      string // "11 ga", "1/8 in"
	Thickness measure.Inches
	Flat      PoundsPerSquareFoot // the plate without a pattern
	// Pattern is the weight of tread plate with its raised pattern; 0 for plain plate.
	Pattern      PoundsPerSquareFoot
	PatternGrade Grade
	Cited
}

var plateSheet = newSheet(sheet[PlateRow]{
	name: "plate", title: "Plate and tread plate: weight per square foot", file: "plate.csv",
	columns: []string{"kind", "material", "thickness", "thickness_in", "flat_lb_ft2", "pattern_lb_ft2", "source", "grade", "pattern_grade", "note"},
	row: func(r *row) PlateRow {
		p := PlateRow{r.must("kind"), r.must("material"), r.must("thickness"), measure.Inches(r.positive("thickness_in")),
			PoundsPerSquareFoot(r.positive("flat_lb_ft2")), PoundsPerSquareFoot(r.number("pattern_lb_ft2")),
			r.gradeFor("pattern_grade", "pattern_lb_ft2"), r.cited()}
		if (p.Kind == "tread") != (p.Pattern > 0) {
			r.fail(r.line, "column pattern_lb_ft2 goes with tread plate and only with it")
		} else if p.Kind == "tread" && p.Pattern <= p.Flat {
			r.fail(r.line, "column pattern_lb_ft2: %v is no more than the flat plate's %v", float64(p.Pattern), float64(p.Flat))
		}
		return p
	},
	key: func(p PlateRow) string { return p.Material + " " + p.Kind + " plate " + p.Name },
})

// Plates returns plate and tread plate, in the file's order.
func Plates() []PlateRow { return clone(plateSheet) }

// SolidDensityRow is how heavy a solid material is.
type SolidDensityRow struct {
	Material string
	Density  Span[PoundsPerCubicFoot]
	Cited
}

var solidSheet = newSheet(sheet[SolidDensityRow]{
	name: "solid-densities", title: "Solid materials: weight per cubic foot", file: "solid_density.csv",
	columns: []string{"material", "low_lb_ft3", "high_lb_ft3", "source", "grade", "note"},
	row: func(r *row) SolidDensityRow {
		r.positive("low_lb_ft3")
		return SolidDensityRow{r.must("material"), span[PoundsPerCubicFoot](r, "low_lb_ft3", "high_lb_ft3"), r.cited()}
	},
	key: func(s SolidDensityRow) string { return s.Material },
})

// SolidDensity returns a material by name, capitals aside.
func SolidDensity(material string) (SolidDensityRow, bool) {
	for _, s := range solidSheet.all() {
		if strings.EqualFold(s.Material, strings.TrimSpace(material)) {
			return s, true
		}
	}
	return SolidDensityRow{}, false
}

// BulkDensityRow is how heavy a loose material is.
type BulkDensityRow struct {
	Material string
	Density  measure.PoundsPerCubicYard
	Adjust   string // how wet, packed or varied material differs, as text
	Cited
}

var bulkSheet = newSheet(sheet[BulkDensityRow]{
	name: "bulk-densities", title: "Loose materials: weight per cubic yard", file: "bulk_density.csv",
	columns: []string{"material", "lb_yd3", "adjust", "source", "grade", "note"},
	row: func(r *row) BulkDensityRow {
		return BulkDensityRow{r.must("material"), measure.PoundsPerCubicYard(r.positive("lb_yd3")), r.text("adjust"), r.cited()}
	},
	key: func(b BulkDensityRow) string { return b.Material },
})

// BulkDensities returns how heavy loose materials are, in the file's order. Wet material
// weighs more: see Adjust.
func BulkDensities() []BulkDensityRow { return clone(bulkSheet) }

// LiquidRow is how heavy a liquid is at most.
type LiquidRow struct {
	Liquid  string
	Density measure.PoundsPerGallon
	Cited
}

var liquidSheet = newSheet(sheet[LiquidRow]{
	name: "liquids", title: "Liquids: weight per gallon", file: "liquid_density.csv",
	columns: []string{"liquid", "lb_gal", "source", "grade", "note"},
	row: func(r *row) LiquidRow {
		return LiquidRow{r.must("liquid"), measure.PoundsPerGallon(r.positive("lb_gal")), r.cited()}
	},
	key: func(l LiquidRow) string { return l.Liquid },
})

// Liquid returns how heavy a liquid is at most: a gallon of it in the cold, or of the heaviest
// sort that goes by the name.
func Liquid(name string) (LiquidRow, bool) {
	for _, l := range liquidSheet.all() {
		if l.Liquid == name {
			return l, true
		}
	}
	return LiquidRow{}, false
}
