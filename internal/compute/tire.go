package compute

import (
	"cmp"
	"fmt"
	"slices"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// A Tire has the rating of one tire and its origin: what is molded on it (the lower of the
// sidewall's pounds and the load index), or else a table row (the lower of two).
type Tire struct {
	// Known reports that one tire's load could be found.
	Known bool
	// Dual reports whether an axle has four tires, so that the dual rating counts.
	Dual bool
	// Passenger reports that the rating is divided by 1.10 (49 CFR 571.110 S4.2.2.2).
	Passenger bool
	// Rating is the maximum load of one tire as it is printed.
	Rating measure.Pounds
	// Each is the load that one tire may carry here: at the stated pressure, and divided by
	// 1.10 if it is a passenger tire.
	Each measure.Pounds
	// Axle is Each for all tires of one axle; wheels are not yet counted.
	Axle measure.Pounds
	// Full is the load that the tires of one axle carry at MaxPressure.
	Full measure.Pounds
	// MaxPressure is the pressure that belongs to the rating; zero if nobody states it.
	MaxPressure measure.PSI
	// MostPressure is the highest pressure for the tire: the sidewall's, or else the
	// table row's; zero if neither is known.
	MostPressure measure.PSI
	// MostPressureAt is the place of the sidewall's pressure in the unit file.
	MostPressureAt unit.Pos
	// RatingAt is where the molded rating is written in the unit file, unknown for a table row.
	RatingAt unit.Pos
	// Index is the load index that the rating comes from, or 0.
	Index int
	// Grade is the grade of the table row used, empty for a sidewall.
	Grade tables.Grade
	// Source says where the rating comes from.
	Source string
	// Lack says why the rating is not known, in the reader's words.
	Lack string
	// Because is the author's reason where the file says that size, load range or sidewall are
	// unknown, and UnknownAt is where it says so.
	Because   string
	UnknownAt unit.Pos
	// PerAxle is how many tires count on one axle. Where the file says that nobody knows, the
	// fewest count, and Uncounted is the author's reason.
	PerAxle   int
	Uncounted string
	// Notes has what the page must say about it.
	Notes []string

	formula words
	size    tables.TireSize // the zero value if it cannot be read
}

// tireOf finds the tire's rating. It needs the size, the load range and the number on
// an axle; where one is missing the tire is unknown and Lack says why.
func tireOf(u *unit.Unit) Tire {
	var t Tire
	t.PerAxle, t.Uncounted = tiresPerAxle(u)
	if t.PerAxle <= 0 {
		t.Lack = "the number of tires on an axle is not stated"
		return t
	}
	t.Dual = t.PerAxle >= 4
	t.unread(&u.Tires)
	// Even a sidewall's rating needs the size: without it nobody can tell whether this is
	// a passenger tire, which counts for only ten elevenths on a trailer.
	if !u.Tires.Size.Given() || u.Tires.Size.Value == "" {
		t.Lack = "the size is not stated"
		return t
	}
	size, err := tables.ParseTireSize(u.Tires.Size.Value)
	if err != nil {
		t.Lack = err.Error()
		return t
	}
	t.size = size
	t.Passenger = size.Class() == tables.Passenger
	all := tables.Tires(u.Tires.Size.Value, u.Tires.LoadRange.Value)
	if !t.fromMolding(u) {
		t.fromTable(u, all)
	}
	if t.Rating <= 0 {
		return t
	}
	t.Known = true
	t.pressures(u, size, all)
	t.work(u, size)
	return t
}

// fewestTires is how many tires an axle has at the least. Two carry less than four: the dual
// rating of a tire is more than half of its single rating.
const fewestTires = 2

// tiresPerAxle is how many tires count on one axle, and the author's reason why nobody knows.
// It is 0 where the file does not say.
func tiresPerAxle(u *unit.Unit) (n int, uncounted string) {
	per := u.Tires.PerAxle
	if reason, unknown := per.Unknown(); unknown {
		return fewestTires, reason
	}
	if !per.Given() {
		return 0, ""
	}
	return per.Value, ""
}

// needTires is needCount for the tires of one axle.
func needTires(p *calc) int {
	per := p.Unit.Tires.PerAxle
	n, uncounted := tiresPerAxle(p.Unit)
	if uncounted == "" {
		return needCount(p, per, "tires.per-axle")
	}
	p.note("nobody has counted the tires on an axle (%s), so the fewest count: %d", uncounted, n)
	if !p.again("tires.per-axle", per.Pos) {
		p.use("tires.per-axle", count(n), false, measure.Provenance{Origin: measure.Unknown, Text: "not counted: " + uncounted}, per.Pos)
	}
	return n
}

// unread finds what the author says nobody knows of the tire, the sidewall first.
func (t *Tire) unread(tires *unit.Tires) {
	side := &tires.Sidewall.Single
	if t.Dual {
		side = &tires.Sidewall.Dual
	}
	if reason, unknown := side.Unknown(); unknown {
		t.Because, t.UnknownAt = reason, side.Pos
		return
	}
	for _, f := range []*unit.Text{&tires.Size, &tires.LoadRange} {
		if reason, unknown := f.Unknown(); unknown {
			t.Because, t.UnknownAt = reason, f.Pos
			return
		}
	}
}

func (t *Tire) mounting() string {
	if t.Dual {
		return "dual"
	}
	return "single"
}

// usable drops the rows that may not pass a tire: no figure for this mounting, or a
// figure graded as weak memory. The others are sorted by rating, lowest first.
func usable(rows []tables.Tire, dual bool) []tables.Tire {
	var out []tables.Tire
	for _, row := range rows {
		if rating(row, dual) > 0 && gradeOf(row, dual) != tables.MemoryWeak {
			out = append(out, row)
		}
	}
	slices.SortStableFunc(out, func(a, b tables.Tire) int { return cmp.Compare(rating(a, dual), rating(b, dual)) })
	return out
}

// gradeOf is how well the row's rating is known: no better than that it belongs to this
// load range and holds at this pressure.
func gradeOf(row tables.Tire, dual bool) tables.Grade {
	g := row.SingleGrade
	if dual {
		g = row.DualGrade
	}
	g = g.Weaker(row.RangeGrade)
	if row.PressureGrade != "" {
		g = g.Weaker(row.PressureGrade)
	}
	return g
}

func rating(row tables.Tire, dual bool) measure.Pounds {
	if dual {
		return row.Dual
	}
	return row.Single
}

// A Molded is a load that is molded on the fitted tire, in pounds or as a load index.
type Molded struct {
	Load measure.Pounds
	At   unit.Pos
	// Index is the load index that the load comes from, or 0 where the sidewall gives pounds.
	Index int
}

// ServiceLoads are the loads of the load indexes in the unit's service description, single
// and dual. A load is zero if no index is molded, if the description
// does not read, and where the index is not listed (ISO 4000-1).
func ServiceLoads(u *unit.Unit) (single, dual Molded) {
	f := u.Tires.Service
	if !f.Given() {
		return
	}
	s, err := ParseService(f.Value)
	if err != nil {
		return
	}
	load := func(index int) Molded {
		row, err := tables.LoadIndex(index)
		if index == 0 || err != nil {
			return Molded{}
		}
		return Molded{row.Pounds, f.Pos, index}
	}
	return load(s.Single), load(s.Dual)
}

// moldedOn is the load molded on the tire that counts for one mounting: the lower of
// the sidewall's pounds and the load index. Its load is zero where neither is molded.
func moldedOn(u *unit.Unit, dual bool) Molded {
	side := u.Tires.Sidewall.Single
	index, ofPair := ServiceLoads(u)
	if dual {
		side, index = u.Tires.Sidewall.Dual, ofPair
	}
	pounds := Molded{Load: side.Value, At: side.Pos}
	switch {
	case !side.Given() || side.Value <= 0:
		return index
	case index.Load > 0 && index.Load < pounds.Load:
		return index
	}
	return pounds
}

// fromMolding takes the values molded on the fitted tire, which come before any table.
func (t *Tire) fromMolding(u *unit.Unit) bool {
	m := moldedOn(u, t.Dual)
	if m.Load <= 0 {
		return false
	}
	t.Rating, t.RatingAt, t.Index = m.Load, m.At, m.Index
	t.Source = "molded on the sidewall"
	if m.Index > 0 {
		t.Source = fmt.Sprintf("load index %d molded on the tire: %s (ISO 4000-1; UN R54 annex 4)", m.Index, m.Load)
		side := u.Tires.Sidewall.Single
		if t.Dual {
			side = u.Tires.Sidewall.Dual
		}
		if side.Given() && side.Value > m.Load {
			t.Notes = append(t.Notes, fmt.Sprintf("the sidewall's %s is more than its load index allows; the lower one counts", side.Value))
		}
	}
	return true
}

// indexRounds is how far a table's load may differ from the load index of the same tire:
// makers print loads rounded, up to nine pounds below the index (the tire table's own rows).
const indexRounds measure.Share = 0.01

func (t *Tire) fromTable(u *unit.Unit, all []tables.Tire) {
	tires, rows := u.Tires, usable(all, t.Dual)
	switch {
	case !tires.LoadRange.Given() || tires.LoadRange.Value == "":
		t.Lack = "the load range is not stated"
		return
	case len(rows) == 0:
		t.Lack = fmt.Sprintf("there is no reliable table row for %s load range %s, %s", tires.Size.Value, tires.LoadRange.Value, t.mounting())
		return
	}
	row, single := rows[0], moldedOn(u, false)
	least := row.Single
	if single.Index > 0 {
		least -= indexRounds.Of(least)
	}
	if t.Dual && single.Load > 0 && single.Load < least {
		// This maker rates the tire below the table, so the table's dual rating does not hold.
		t.Lack = fmt.Sprintf("the molded single rating of %s is below the table's %s, so the table's dual rating does not hold for it", single.Load, row.Single)
		return
	}
	if other, ok := withoutDual(all, row); t.Dual && ok && single.Load <= 0 {
		t.Lack = fmt.Sprintf("this size and load range is also sold at %s single, and no dual rating of that one was found", other.Single)
		return
	}
	t.Rating, t.Source = rating(row, t.Dual), row.Source
	t.Grade = gradeOf(row, t.Dual)
	t.Notes = append(t.Notes, "from a table; what is molded on the tire governs")
	if last := rows[len(rows)-1]; rating(last, t.Dual) != t.Rating {
		t.Notes = append(t.Notes, fmt.Sprintf("this size and load range is sold with %s and with %s; the lower counts until the sidewall is read",
			t.Rating.Limit(), rating(last, t.Dual).Limit()))
	}
	if t.Grade == tables.Memory {
		t.Notes = append(t.Notes, "the table's load, its load range or its pressure is from memory, no source found: read the sidewall")
	}
}

// withoutDual finds a tire of the same size and load range that is rated below row and of
// which no dual rating is known. Where there is one, row's dual rating is not the lowest.
func withoutDual(all []tables.Tire, row tables.Tire) (tables.Tire, bool) {
	for _, other := range all {
		if other.Dual == 0 && other.Single < row.Single {
			return other, true
		}
	}
	return tables.Tire{}, false
}

// pressures finds the pressure that the rating is for and the one that the tire may be
// set to. A rating holds only at its own pressure, so of several that it may be for the
// highest counts: below it the tire carries less.
func (t *Tire) pressures(u *unit.Unit, size tables.TireSize, all []tables.Tire) {
	side := u.Tires.Sidewall.Pressure
	molded := side.Given() && side.Value > 0
	var listed measure.PSI
	for _, row := range all {
		listed = max(listed, row.Pressure)
	}
	t.MostPressure = listed
	if molded {
		t.MostPressure, t.MostPressureAt = side.Value, side.Pos
	}
	switch {
	case molded && t.RatingAt.Known():
		t.MaxPressure = side.Value
	case molded || listed > 0:
		t.MaxPressure = max(side.Value, listed)
	default:
		if usual, ok := usualPressure(u, size); ok {
			t.MaxPressure = usual
			t.Notes = append(t.Notes, fmt.Sprintf("the sidewall's own pressure was not written down; %s is usual for load range %s", usual, u.Tires.LoadRange.Value))
			return
		}
		t.Notes = append(t.Notes, "the sidewall's own pressure was not written down; the rating counts at that pressure only")
	}
}

// usualPressure is the pressure usual for the load range letter, which the letter tells
// only for special trailer tires of a metric size on rims of 13 in and more.
func usualPressure(u *unit.Unit, size tables.TireSize) (measure.PSI, bool) {
	if size.Class() != tables.SpecialTrailer || size.Form != tables.Metric || size.Rim < 13 || !u.Tires.LoadRange.Given() {
		return 0, false
	}
	row, err := tables.LoadRange(u.Tires.LoadRange.Value)
	return row.Pressure, err == nil && row.Pressure > 0
}

// work brings the rating down to the stated pressure and to a passenger tire's part.
func (t *Tire) work(u *unit.Unit, size tables.TireSize) {
	each := t.Rating
	t.formula = say("%s", each)
	p := u.Tires.Pressure
	if !p.Given() || p.Value <= 0 {
		t.Notes = append(t.Notes, "no pressure is stated: counted at the pressure that the rating is for")
	} else if t.MaxPressure > 0 && !measure.PressureReaches(p.Value, t.MaxPressure) {
		n, source := exponentOf(size)
		part := measure.ShareOfPressure(p.Value, t.MaxPressure).Power(n)
		each = measure.Down(part.Of(each), 1)
		t.formula = say("%s x (%s / %s)^%s", t.Rating, p.Value, t.MaxPressure, number{n, 3})
		t.Notes = append(t.Notes, fmt.Sprintf("at the stated %s, below the %s that the rating is for (%s)", p.Value, t.MaxPressure, source))
		// The curve is a fit and runs up to 1.3% above some of the points it was fitted to.
		if at, ok := tables.LoadAt(u.Tires.Size.Value, t.Dual, p.Value); ok && at.Load < each {
			each = at.Load
			t.formula = say("%s, published at %s, being below the curve's %s", at.Load, at.Pressure, t.formula)
			t.Notes = append(t.Notes, "the published load: "+at.Source)
		}
	}
	if t.Passenger {
		each = each.Part(10, 11)
		t.formula = say("%s / 1.10", t.formula)
		t.Notes = append(t.Notes, "a passenger tire on a trailer: its rating is divided by 1.10 before it is counted (49 CFR 571.110 S4.2.2.2, 571.120 S5.1.2)")
	}
	full := t.Rating
	if t.Passenger {
		full = full.Part(10, 11)
	}
	t.Full = full.Times(t.PerAxle)
	t.Each = each
	t.Axle = each.Times(t.PerAxle)
}

// exponentOf is the published exponent of load against pressure for the size, with its
// source. For a size that no row fits the load is taken in proportion to the pressure:
// every published exponent lies below 1, so that leaves less than any of them.
func exponentOf(size tables.TireSize) (n float64, source string) {
	if row, ok := tables.Exponent(size); ok {
		return row.Exponent, row.Source
	}
	return 1, "in proportion to the pressure, for want of a published exponent for this size"
}

// tireSize reads the size on the tires, if that has not been done.
func (p *calc) tireSize() (tables.TireSize, error) {
	if p.Tire.size.Rim > 0 {
		return p.Tire.size, nil
	}
	return tables.ParseTireSize(p.Unit.Tires.Size.Value)
}

// inheritTire brings in every field that the tire's rating rests on.
func (p *calc) inheritTire() {
	tires := p.Unit.Tires
	if tires.Size.Given() {
		// Without a size the sidewall's own rating still counts.
		p.use("tires.size", verbatim(tires.Size.Value), tires.Size.About, tires.Size.From, tires.Size.Pos)
	}
	if tires.LoadRange.Given() {
		p.use("tires.load-range", verbatim(tires.LoadRange.Value), false, tires.LoadRange.From, tires.LoadRange.Pos)
	}
	needTires(p)
	side, key := tires.Sidewall.Single, "tires.sidewall.single"
	if p.Tire.Dual {
		side, key = tires.Sidewall.Dual, "tires.sidewall.dual"
	}
	if side.Given() && side.Value > 0 {
		p.use(key, side.Value, side.About, side.From, side.Pos)
	}
	if s := tires.Service; p.Tire.Index > 0 {
		p.use("tires.service", verbatim(s.Value), s.About, s.From, s.Pos)
	}
	if side := tires.Sidewall.Pressure; side.Given() {
		p.use("tires.sidewall.pressure", side.Value, side.About, side.From, side.Pos)
	}
	if tires.Pressure.Given() {
		p.use("tires.pressure", tires.Pressure.Value, tires.Pressure.About, tires.Pressure.From, tires.Pressure.Pos)
	}
}

var tireCapacity = &Definition{
	Name: "tire-capacity", Label: "Tires of one axle",
	What:    "What the tires of one axle carry together at the stated pressure: the dual rating where an axle has four, and never more than the wheels are rated for.",
	Formula: "C = tires on one axle x rating (dual where four; (pressure / maximum)^n below the maximum; / 1.10 for a passenger tire; at most the wheel's rating)",
	Unit:    "lb", Source: "49 CFR 571.110 S4.2.2 (10,000 lb and below), 571.120 S5.1.2 (above); 393.75(f)",
	work: func(p *calc) {
		if !p.Tire.Known {
			if p.Tire.Lack != "" {
				p.needs = append(p.needs, Need{Key: "tires.sidewall", Advice: "read the maximum load and pressure off the sidewall: " + p.Tire.Lack, Because: p.Tire.Because})
			}
			return
		}
		p.inheritTire()
		per := p.Tire.PerAxle
		each, working := p.Tire.Each, say("%d x %s", per, p.Tire.formula)
		if w := p.Unit.Tires.Wheel; w.Given() && w.Value > 0 && w.Value < each {
			p.use("tires.wheel", w.Value, w.About, w.From, w.Pos)
			each, working = w.Value, say("%d x %s, the wheel's rating being below the tire's %s", per, w.Value, near{p.Tire.Each})
		}
		p.note("%s rating, %s", p.Tire.mounting(), p.Tire.Source)
		for _, n := range p.Tire.Notes {
			p.note("%s", n)
		}
		p.TireCapacity = p.limit(each.Times(per), working)
	},
}

// TiresInAll is what the tires of all axles carry together, if it is known how many axles there are.
func (w *Work) TiresInAll() Result[measure.Pounds] {
	n := w.Unit.Axles.Count
	if !w.TireCapacity.Known || !n.Given() || n.Value < 1 {
		return Result[measure.Pounds]{}
	}
	return Result[measure.Pounds]{Value: w.TireCapacity.Value.Times(n.Value), Known: true}
}

var tireReserve = &Definition{
	Name: "tire-reserve", Label: "Tire reserve",
	What:    "How much more the tires of an axle carry than the axle is rated for.",
	Formula: "C - axle rating",
	Unit:    "lb", Source: "49 CFR 571.110 S4.2.2, 571.120 S5.1.2 ask for no less than zero",
	work: func(p *calc) {
		c := rest(p, p.TireCapacity, "tire-capacity")
		axle := need(p, p.Unit.Axles.Rating, "axles.rating")
		if !p.ready() {
			return
		}
		p.TireReserve = p.limit(c-axle, say("%s - %s", near{c}, axle))
	},
}

var tireReserveShare = &Definition{
	Name: "tire-reserve-share", Label: "Tire reserve, of the axle rating",
	What:    "The same in percent of the axle rating.",
	Formula: "(C - axle rating) / axle rating",
	Unit:    "%", Source: "49 CFR 571.110 S4.2.2, 571.120 S5.1.2 ask for no less than zero",
	work: func(p *calc) {
		reserve := rest(p, p.TireReserve, "tire-reserve")
		axle := need(p, p.Unit.Axles.Rating, "axles.rating")
		if !p.ready() {
			return
		}
		// A reserve is capacity that is left: it rounds down, and one that is short by a
		// hair does not read as nil.
		v := measure.ShareOf(reserve, axle)
		p.enter(v.Percent(), v.Limit(), 0.1, say("%s / %s", near{reserve}, axle))
		p.TireReserveShare = Result[measure.Share]{Value: v, Known: measure.Finite(v)}
	},
}
