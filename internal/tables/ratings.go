package tables

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
)

// LoadRangeRow is what a load range letter means.
type LoadRangeRow struct {
	Letter string
	Ply    int // ply rating
	// Pressure is the usual greatest cold pressure of the letter, only for ST metric sizes
	// of 13 in and up; 0 when there is none. The letter gives no load.
	Pressure      measure.PSI
	PlyGrade      Grade
	PressureGrade Grade // empty when Pressure is 0
	Source        string
	Note          string
}

var loadRangeSheet = newSheet(sheet[LoadRangeRow]{
	name: "load-ranges", title: "Load range, ply rating and usual pressure", file: "load_range.csv",
	columns: []string{"letter", "ply", "psi", "ply_grade", "psi_grade", "source", "note"},
	graded:  "ply_grade",
	row: func(r *row) LoadRangeRow {
		return LoadRangeRow{Letter: r.must("letter"), Ply: r.whole("ply"), Pressure: measure.PSI(r.number("psi")),
			PlyGrade: r.grade("ply_grade", true), PressureGrade: r.gradeFor("psi_grade", "psi"),
			Source: r.must("source"), Note: r.text("note")}
	},
	key: func(l LoadRangeRow) string { return "load range " + l.Letter },
	rules: func(rows []placed[LoadRangeRow], fail failure) {
		for i, p := range rows {
			if p.is.Letter == "I" || p.is.Letter == "K" {
				fail(p.line, "load range %s does not exist", p.is.Letter)
			}
			if i == 0 {
				continue
			}
			before := rows[i-1].is
			if p.is.Letter <= before.Letter || p.is.Ply <= before.Ply {
				fail(p.line, "load range %s with %d ply comes after %s with %d; both must rise", p.is.Letter, p.is.Ply, before.Letter, before.Ply)
			}
			if p.is.Pressure != 0 && p.is.Pressure < before.Pressure {
				fail(p.line, "load range %s at %s falls below %s at %s", p.is.Letter, p.is.Pressure, before.Letter, before.Pressure)
			}
		}
	},
})

// LoadRange returns what a load range letter means; a small letter will do. The letters
// skip I and K. The error names the letters that exist.
func LoadRange(letter string) (LoadRangeRow, error) {
	want := plainName(letter)
	var letters []string
	for _, l := range loadRangeSheet.all() {
		if l.Letter == want {
			return l, nil
		}
		letters = append(letters, l.Letter)
	}
	return LoadRangeRow{}, fmt.Errorf("load range %q does not exist; the letters are %s", letter, strings.Join(letters, " "))
}

// PassengerRange reports whether the text is what a passenger tire has in place of a load
// range letter: SL, standard load, XL, extra load, or LL, light load (the Tire and Rim
// Association's names, from memory). They have no ply rating, and the load is molded in pounds.
func PassengerRange(text string) bool {
	switch plainName(text) {
	case "SL", "XL", "LL":
		return true
	}
	return false
}

// LoadIndexRow is the load that a load index means. Kilograms is the defined
// quantity; Pounds is its nearest whole pound, as tables print it. Where a sidewall
// prints pounds, they are the rating and the index is only a label.
type LoadIndexRow struct {
	Index     int
	Kilograms float64
	Pounds    measure.Pounds
	Cited
}

var loadIndexSheet = newSheet(sheet[LoadIndexRow]{
	name: "load-indexes", title: "Load index (ISO 4000-1, UN R54 annex 4)", file: "load_index.csv",
	columns: []string{"index", "kg", "lb", "source", "grade", "note"},
	row: func(r *row) LoadIndexRow {
		r.must("index")
		return LoadIndexRow{r.whole("index"), r.positive("kg"), measure.Pounds(r.positive("lb")), r.cited()}
	},
	key: func(l LoadIndexRow) string { return fmt.Sprintf("load index %d", l.Index) },
	rules: func(rows []placed[LoadIndexRow], fail failure) {
		for i, p := range rows {
			if p.is.Index != i {
				fail(p.line, "load index %d is where %d must be", p.is.Index, i)
				return
			}
			if i > 0 && p.is.Kilograms <= rows[i-1].is.Kilograms {
				fail(p.line, "load index %d is %v kg, no more than index %d with %v kg", i, p.is.Kilograms, i-1, rows[i-1].is.Kilograms)
			}
			if want := measure.Nearest(measure.FromKilograms(p.is.Kilograms), 1); p.is.Pounds != want {
				fail(p.line, "load index %d is %v kg, which is %s and not %s", i, p.is.Kilograms, want, p.is.Pounds)
			}
		}
	},
})

// LoadIndex returns the load of load index n, 0 to 179.
func LoadIndex(n int) (LoadIndexRow, error) {
	rows := loadIndexSheet.all()
	if n < 0 || n >= len(rows) {
		return LoadIndexRow{}, fmt.Errorf("load index %d is not listed; they run from 0 to %d", n, len(rows)-1)
	}
	return rows[n], nil
}

// SpeedRow is the speed that a speed symbol means.
type SpeedRow struct {
	Symbol       string
	KMH          int   // kilometers an hour
	PrintedMPH   int   // miles an hour as the trade prints it; 0 when not found
	PrintedGrade Grade // of PrintedMPH
	Cited
}

var speedSheet = newSheet(sheet[SpeedRow]{
	name: "speeds", title: "Speed symbols", file: "speed_symbol.csv",
	columns: []string{"symbol", "kmh", "mph_printed", "source", "grade", "mph_grade", "note"},
	row: func(r *row) SpeedRow {
		return SpeedRow{r.must("symbol"), r.whole("kmh"), r.whole("mph_printed"), r.gradeFor("mph_grade", "mph_printed"), r.cited()}
	},
	key: func(s SpeedRow) string { return "speed symbol " + s.Symbol },
	rules: func(rows []placed[SpeedRow], fail failure) {
		for i := 1; i < len(rows); i++ {
			if rows[i].is.KMH <= rows[i-1].is.KMH {
				fail(rows[i].line, "speed symbol %s is %d km/h, no more than %s with %d", rows[i].is.Symbol, rows[i].is.KMH, rows[i-1].is.Symbol, rows[i-1].is.KMH)
			}
		}
	},
})

// Speed returns the speed of a speed symbol. H is out of alphabetical order, between U
// and V. The error names the symbols.
func Speed(symbol string) (SpeedRow, error) {
	want := plainName(symbol)
	var known []string
	for _, s := range speedSheet.all() {
		if s.Symbol == want {
			return s, nil
		}
		known = append(known, s.Symbol)
	}
	return SpeedRow{}, fmt.Errorf("speed symbol %q does not exist; the symbols are %s", symbol, strings.Join(known, " "))
}

// ExponentRow is the exponent n of load against pressure in a class:
// load(p) = load at pmax x (p / pmax)^n. It is a plausibility curve that shows what an
// under-inflated tire carries. It is never a rating: a tire counts with the load at the
// label's pressure, and adjustment factors do not (NHTSA interpretation 2672y).
type ExponentRow struct {
	Class        Class
	Construction string // "R", "D", or empty for either
	Exponent     float64
	Cited
}

var exponentSheet = newSheet(sheet[ExponentRow]{
	name: "load-exponents", title: "Load against pressure: exponents", file: "load_exponent.csv",
	columns: []string{"class", "construction", "exponent", "source", "grade", "note"},
	row: func(r *row) ExponentRow {
		e := ExponentRow{Class(r.must("class")), r.text("construction"), r.positive("exponent"), r.cited()}
		if e.Exponent >= 1 {
			r.fail(r.line, "column exponent: %v would make a tire carry nothing when soft; it lies below 1", e.Exponent)
		}
		return e
	},
	key: func(e ExponentRow) string { return "exponent of " + string(e.Class) + " " + e.Construction },
})

// Exponent returns the exponent of load against pressure for a tire size, by its class
// and construction. It reports false when no row fits.
func Exponent(size TireSize) (ExponentRow, bool) {
	construction := "D"
	if size.Radial() {
		construction = "R"
	}
	for _, e := range exponentSheet.all() {
		if e.Class == size.Class() && (e.Construction == "" || e.Construction == construction) {
			return e, true
		}
	}
	return ExponentRow{}, false
}

// LoadPointRow is one published point of load against pressure. The points are what
// the exponents are held against, and what a tire set below its rating's pressure may not
// be counted above; they are not ratings.
type LoadPointRow struct {
	Size     string
	Dual     bool // each tire of a pair
	Pressure measure.PSI
	Load     measure.Pounds
	Cited
}

var loadPointSheet = newSheet(sheet[LoadPointRow]{
	name: "load-points", title: "Load against pressure: published points", file: "load_inflation.csv",
	columns: []string{"size", "mounting", "psi", "lb", "source", "grade", "note"},
	row: func(r *row) LoadPointRow {
		mounting := r.must("mounting")
		if mounting != "single" && mounting != "dual" {
			r.fail(r.line, "column mounting: %q is neither single nor dual", mounting)
		}
		return LoadPointRow{r.must("size"), mounting == "dual", measure.PSI(r.positive("psi")), measure.Pounds(r.positive("lb")), r.cited()}
	},
	key: func(p LoadPointRow) string {
		return fmt.Sprintf("%s dual %t at %s grade %s", p.Size, p.Dual, p.Pressure, p.Grade)
	},
	rules: func(rows []placed[LoadPointRow], fail failure) {
		type curve struct {
			size  string
			dual  bool
			grade Grade
		}
		last := map[curve]LoadPointRow{}
		for _, p := range rows {
			k := curve{p.is.Size, p.is.Dual, p.is.Grade}
			before, ok := last[k]
			if ok && (p.is.Load <= before.Load || p.is.Pressure <= before.Pressure) {
				fail(p.line, "%s at %s comes after %s at %s; both must rise", p.is.Load, p.is.Pressure, before.Load, before.Pressure)
			}
			last[k] = p.is
		}
	},
})

// LoadAt returns the sourced point of a size at the least published pressure that is no
// lower than p: at p the tire carries no more than that. It reports false when none is.
func LoadAt(size string, dual bool, p measure.PSI) (LoadPointRow, bool) {
	var least LoadPointRow
	want := plainName(size)
	for _, at := range loadPointSheet.all() {
		if at.Dual == dual && at.Pressure >= p && at.Grade != Memory && at.Grade != MemoryWeak &&
			(least.Size == "" || at.Load < least.Load) && plainName(at.Size) == want {
			least = at
		}
	}
	return least, least.Size != ""
}

// DualShareRow is what each tire of a pair carries of the single load, in a class.
type DualShareRow struct {
	Class     Class
	Low, High measure.Share
	// Rounding is half of the last place that Low and High are written to.
	Rounding measure.Share
	Cited
}

var dualShareSheet = newSheet(sheet[DualShareRow]{
	name: "dual-shares", title: "Dual load as a share of single load", file: "dual_share.csv",
	columns: []string{"class", "low_percent", "high_percent", "rounding_percent", "source", "grade", "note"},
	row: func(r *row) DualShareRow {
		low, high := percents(r, "low_percent", "high_percent")
		return DualShareRow{Class(r.must("class")), low, high, percent(r.positive("rounding_percent")), r.cited()}
	},
	key: func(d DualShareRow) string { return "dual share of " + string(d.Class) },
})

func dualShare(c Class) (DualShareRow, bool) {
	for _, d := range dualShareSheet.all() {
		if d.Class == c {
			return d, true
		}
	}
	return DualShareRow{}, false
}
