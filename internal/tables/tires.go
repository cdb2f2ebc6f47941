package tables

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"tarepage/internal/measure"
)

// A Tire is one rating of one size and load range. Two makers may rate the same size,
// load range and pressure differently, so there can be several.
type Tire struct {
	Size         string // ST235/80R16
	Also         string // other writings of the same tire, separated by "; "
	Construction string // "R" radial, "D" diagonal
	LoadRange    string
	Ply          int
	Pressure     measure.PSI    // cold, at which the loads hold; 0 when not stated
	Single       measure.Pounds // greatest load, one tire on its end of the axle
	Dual         measure.Pounds // greatest load of each tire of a pair; 0 when none is known
	SingleIndex  int            // load index, single; 0 when none
	DualIndex    int            // load index, dual; 0 when none
	// Use is "trailer", or "truck" for a truck tire of a size that trailers also use.
	Use string

	RangeGrade    Grade // that this load range goes with these loads
	PressureGrade Grade
	SingleGrade   Grade
	DualGrade     Grade // empty when Dual is 0
	IndexGrade    Grade // empty when SingleIndex is 0
	Source        string
	Note          string
}

// Class is the family of the tire's size.
func (t Tire) Class() Class {
	size, _ := ParseTireSize(t.Size) // the loader has refused rows whose size does not read
	return size.Class()
}

var tireSheet = newSheet(sheet[Tire]{
	name: "tires", title: "Tires: greatest load by size and load range", file: "tires.csv",
	columns: []string{"size", "also", "construction", "load_range", "ply", "psi", "single_lb", "dual_lb",
		"load_index_single", "load_index_dual", "use",
		"range_grade", "psi_grade", "single_grade", "dual_grade", "index_grade", "source", "note"},
	graded: "single_grade",
	row: func(r *row) Tire {
		t := Tire{
			Size: r.must("size"), Also: r.text("also"), Construction: r.must("construction"),
			LoadRange: r.must("load_range"), Ply: r.whole("ply"),
			Pressure: measure.PSI(r.number("psi")),
			Single:   measure.Pounds(r.positive("single_lb")), Dual: r.pounds("dual_lb"),
			SingleIndex: r.whole("load_index_single"), DualIndex: r.whole("load_index_dual"), Use: r.must("use"),
			RangeGrade: r.grade("range_grade", true), PressureGrade: r.gradeFor("psi_grade", "psi"),
			SingleGrade: r.grade("single_grade", true), DualGrade: r.gradeFor("dual_grade", "dual_lb"),
			IndexGrade: r.gradeFor("index_grade", "load_index_single"),
			Source:     r.must("source"), Note: r.text("note"),
		}
		size, err := ParseTireSize(t.Size)
		switch {
		case err != nil:
			r.fail(r.line, "column size: %v", err)
		case size.Radial() != (t.Construction == "R") || t.Construction != "R" && t.Construction != "D":
			r.fail(r.line, "column construction: %q does not go with size %s; write R for a radial, D for a diagonal", t.Construction, t.Size)
		}
		for _, other := range t.others() {
			if _, err := ParseTireSize(other); err != nil {
				r.fail(r.line, "column also: %v", err)
			}
		}
		if t.Use != "trailer" && t.Use != "truck" {
			r.fail(r.line, "column use: %q is neither trailer nor truck", t.Use)
		}
		return t
	},
	key: func(t Tire) string {
		return fmt.Sprintf("%s load range %s at %s for a %s", t.Size, t.LoadRange, t.Single, t.Use)
	},
	rules: tireRules,
})

func (t Tire) others() []string {
	if t.Also == "" {
		return nil
	}
	return strings.Split(t.Also, "; ")
}

// tireRules holds what is true of all tires: the ply rating is the letter's, a dual
// carries less than a single and about the share usual in its class, and within a size a
// higher load range carries more at no less pressure.
func tireRules(rows []placed[Tire], fail failure) {
	type line struct{ size, use string }
	lowest := map[line]map[string]placed[Tire]{}
	for _, p := range rows {
		if !tireRow(p, fail) {
			continue
		}
		k := line{p.is.Size, p.is.Use}
		if lowest[k] == nil {
			lowest[k] = map[string]placed[Tire]{}
		}
		if old, ok := lowest[k][p.is.LoadRange]; !ok || p.is.Single < old.is.Single {
			lowest[k][p.is.LoadRange] = p
		}
	}
	for _, p := range rows {
		at := lowest[line{p.is.Size, p.is.Use}]
		if at[p.is.LoadRange].line == p.line {
			tireAbove(p, at, fail)
		}
	}
}

// tireRow checks one row by itself. It reports false where its load range does not exist.
func tireRow(p placed[Tire], fail failure) bool {
	t := p.is
	letter, err := LoadRange(t.LoadRange)
	if err != nil {
		fail(p.line, "column load_range: %v", err)
		return false
	}
	if t.Ply != letter.Ply {
		fail(p.line, "load range %s with %d ply; the letter means %d", t.LoadRange, t.Ply, letter.Ply)
	}
	for _, index := range []int{t.SingleIndex, t.DualIndex} {
		if _, err := LoadIndex(index); err != nil {
			fail(p.line, "%v", err)
		}
	}
	if t.Dual > t.Single {
		fail(p.line, "dual %s is above single %s", t.Dual, t.Single)
	} else if band, ok := dualShare(t.Class()); ok && t.Dual > 0 {
		share := measure.ShareOf(t.Dual, t.Single)
		if share < band.Low-band.Rounding || share > band.High+band.Rounding {
			fail(p.line, "dual %s is %s of single %s; a %s tire has %s to %s",
				t.Dual, share.Near(), t.Single, t.Class(), band.Low.Near(), band.High.Near())
		}
	}
	return true
}

// tireAbove compares a row with the next lower load range of its size; at has the lowest
// row of each.
func tireAbove(p placed[Tire], at map[string]placed[Tire], fail failure) {
	var below placed[Tire]
	for _, l := range loadRangeSheet.all() {
		if l.Letter == p.is.LoadRange {
			break
		}
		if q, ok := at[l.Letter]; ok {
			below = q
		}
	}
	if below.line == 0 {
		return
	}
	if p.is.Single <= below.is.Single {
		fail(p.line, "load range %s carries %s, no more than load range %s at line %d with %s",
			p.is.LoadRange, p.is.Single, below.is.LoadRange, below.line, below.is.Single)
	}
	if p.is.Pressure != 0 && p.is.Pressure < below.is.Pressure {
		fail(p.line, "load range %s at %s, below load range %s at line %d with %s",
			p.is.LoadRange, p.is.Pressure, below.is.LoadRange, below.line, below.is.Pressure)
	}
}

// tireIndex is every tire by size and load range, under all writings of the size.
var tireIndex = sync.OnceValue(func() map[string][]Tire {
	index := map[string][]Tire{}
	put := func(size string, t Tire) {
		key := plainName(size) + "|" + t.LoadRange
		index[key] = append(index[key], t)
	}
	rows := tireSheet.all()
	for _, t := range rows {
		for _, name := range append([]string{t.Size}, t.others()...) {
			put(name, t)
		}
	}
	listed := map[string]bool{}
	for key := range index {
		listed[key] = true
	}
	for _, t := range rows {
		for _, name := range append([]string{t.Size}, t.others()...) {
			size, _ := ParseTireSize(name)
			if size.Form != Metric || size.Class() != SpecialTrailer || !size.Radial() {
				continue
			}
			for _, mark := range []string{"D", "-"} {
				i := strings.LastIndex(name, "R")
				bias := name[:i] + mark + name[i+1:]
				if !listed[plainName(bias)+"|"+t.LoadRange] {
					put(bias, t.asBias(bias))
				}
			}
		}
	}
	for key, tires := range index {
		slices.SortStableFunc(tires, func(a, b Tire) int { return cmp.Compare(a.Single, b.Single) })
		index[key] = slices.Clip(tires)
	}
	return index
})

// asBias is the diagonal version of a radial ST metric tire. That both carry the same is
// known from memory only, so no grade stays above Memory.
func (t Tire) asBias(size string) Tire {
	t.Size, t.Also, t.Construction = size, "", "D"
	for _, g := range []*Grade{&t.RangeGrade, &t.PressureGrade, &t.SingleGrade, &t.DualGrade, &t.IndexGrade} {
		if *g != "" {
			*g = g.Weaker(Memory)
		}
	}
	const taken = "taken from the radial of the same size: common practice, no source"
	if t.Note != "" {
		t.Note += "; "
	}
	t.Note += taken
	return t
}

// Tires returns every rating of a size and load range, the lowest single load first.
// More than one row means that makers differ and only the sidewall tells; without it the
// first, lower one counts. Spaces and capitals do not matter. It returns nil for a size or
// load range that is not listed: see LoadRanges and NearestSizes for what to say then.
//
// A diagonal ST metric size (ST235/80D16) that has no row of its own finds the radial's,
// with every grade lowered to Memory at best. Loads hold at the row's pressure, cold. A
// row of grade MemoryWeak is not to be relied on without the sidewall. The rows are
// shared: callers must not change them.
func Tires(size, loadRange string) []Tire {
	// The key is built on the stack and the map is read by it in place, so that a look-up
	// allocates nothing: it is made for every unit.
	var buf [2 * longest]byte
	key, ok := appendPlain(buf[:0], size)
	if !ok {
		return nil
	}
	key = append(key, '|')
	key, ok = appendPlain(key, loadRange)
	if !ok {
		return nil
	}
	return tireIndex()[string(key)]
}

// appendPlain appends s as plainName writes it; it refuses what is too long to be a name.
func appendPlain(dst []byte, s string) ([]byte, bool) {
	for i := 0; i < len(s); i++ {
		c := s[i]
		switch {
		case len(dst) >= 2*longest-2:
			return dst, false
		case c == ' ' || c == '\t':
			continue
		case c == 0xC2 && i+1 < len(s) && s[i+1] == 0xA0: // no-break space
			i++
			continue
		case c == 0xC3 && i+1 < len(s) && s[i+1] == 0x97: // ×
			i++
			c = 'X'
		case c >= 'a' && c <= 'z':
			c -= 'a' - 'A'
		}
		dst = append(dst, c)
	}
	return dst, true
}

// Sizes returns the sizes that the table lists, sorted.
func Sizes() []string {
	var out []string
	for _, t := range tireSheet.all() {
		out = append(out, t.Size)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// LoadRanges returns the load ranges in which a size is listed, in the order of the
// letters, or nil when the size is not listed at all.
func LoadRanges(size string) []string {
	var out []string
	for _, l := range loadRangeSheet.all() {
		if len(Tires(size, l.Letter)) > 0 {
			out = append(out, l.Letter)
		}
	}
	return out
}

// NearestSizes returns up to three listed sizes that are written most like size, the
// nearest first, for a message; none when nothing comes near.
func NearestSizes(size string) []string { return nearest(size, Sizes()) }
