package compute

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// A Part is one line of the empty weight's estimate.
type Part struct {
	Name      string
	Low, High measure.Pounds
	// At is where it is, from the ball's center back.
	At     measure.Inches
	Source string
	Grade  tables.Grade
}

// What the list of parts leaves out (rails, neck riser, wiring, welds, paint, boxes)
// adds something between nothing and three tenths; the middle is taken. Tarepage's own
// allowance: common practice, no source.
const (
	unlistedMost   measure.Share = 0.30
	unlistedLikely measure.Share = 0.15
)

// list gathers parts; what is missing goes to the calc's needs.
type list struct {
	p     *calc
	parts []Part
}

func (l *list) add(name string, low, high measure.Pounds, at measure.Inches, c tables.Cited) {
	l.parts = append(l.parts, Part{name, low, high, at, c.Source, c.Grade})
}

// component adds n pieces of a row of the component table.
func (l *list) component(row string, n int, at measure.Inches) {
	c, ok := tables.ComponentWeight(row)
	if !ok || c.Grade == tables.MemoryWeak {
		l.p.needs = append(l.p.needs, Need{Key: "estimated-empty", Advice: "no weight is listed for " + row})
		return
	}
	name := row
	if n != 1 {
		name = strconv.Itoa(n) + " x " + row
	}
	l.add(name, c.Weight.Low.Times(n), c.Weight.High.Times(n), at, c.Cited)
}

// section finds a rolled shape by the name in a field.
func (p *calc) section(f unit.Text, key string) tables.SectionRow {
	if !f.Given() {
		p.lack(key)
		return tables.SectionRow{}
	}
	row, err := tables.Section(f.Value)
	if err != nil {
		p.needs = append(p.needs, Need{Key: key, Advice: err.Error()})
		return tables.SectionRow{}
	}
	p.use(key, verbatim(f.Value), f.About, f.From, f.Pos)
	return row
}

// axleRow is the row of the component table for one complete axle.
func axleRow(rating measure.Pounds, dual, braked bool) string {
	switch {
	case rating <= 2000 && !braked:
		return "axle complete without brakes, 2,000 lb"
	case rating <= 3500 && !braked:
		return "axle complete without brakes, 3,500 lb"
	case rating <= 3500:
		return "axle complete with electric brakes, hubs, 3,500 lb"
	case rating <= 6000:
		return "axle complete 5,200-6,000 lb"
	case rating <= 7000:
		return "axle complete 7,000 lb"
	case rating <= 8000:
		return "axle complete 8,000 lb"
	case rating <= 10000 && dual:
		return "axle complete 10,000 lb heavy duty dual"
	case rating <= 10000:
		return "axle complete 10,000 lb general duty"
	case rating <= 15000:
		return "axle complete 12,000-15,000 lb"
	}
	return "an axle over 15,000 lb"
}

// A tireRow is a row of the component table for a tire on its wheel.
type tireRow struct {
	size tables.TireSize
	tables.ComponentWeightRow
}

var tireRows = sync.OnceValue(func() []tireRow {
	var out []tireRow
	for _, c := range tables.ComponentWeights() {
		rest, ok := strings.CutPrefix(c.Component, "tire and wheel ")
		if !ok {
			continue
		}
		name, _, _ := strings.Cut(rest, " ")
		if size, err := tables.ParseTireSize(name); err == nil {
			out = append(out, tireRow{size, c})
		}
	}
	return out
})

// tires adds the tires with their wheels: the rows of the size, else all rows of its
// rim, from the lightest to the heaviest.
func (l *list) tires(n int, at measure.Inches) {
	size := l.p.Unit.Tires.Size.Value
	want, err := l.p.tireSize()
	if err != nil {
		l.p.needs = append(l.p.needs, Need{Key: "tires.size", Advice: err.Error()})
		return
	}
	var exact, rim []tireRow
	for _, r := range tireRows() {
		switch {
		case r.size.String() == want.String():
			exact = append(exact, r)
		case r.size.Rim == want.Rim:
			rim = append(rim, r)
		}
	}
	rows := exact
	if rows == nil {
		rows = rim
	}
	if rows == nil {
		l.p.needs = append(l.p.needs, Need{Key: "estimated-empty", Advice: "no weight is listed for a tire of size " + size})
		return
	}
	low, high := rows[0].Weight.Low, rows[0].Weight.High
	for _, r := range rows {
		low, high = min(low, r.Weight.Low), max(high, r.Weight.High)
	}
	l.add(strconv.Itoa(n)+" x tire and wheel "+size, low.Times(n), high.Times(n), at, rows[0].Cited)
}

var (
	lumberForm    = regexp.MustCompile(`\b([12])\s*x\s*(?:4|6|8|10|12)\b`)
	thicknessForm = regexp.MustCompile(`\b(1/8|3/16|1/4|5/16|3/8|1/2)\b`)
)

// contains reports whether the text has any of the parts.
func contains(text string, parts ...string) bool {
	for _, part := range parts {
		if strings.Contains(text, part) {
			return true
		}
	}
	return false
}

// floorOf is what a square foot of the floor weighs, from the words of frame.floor:
// "treated pine 2x6", "oak 2x8", "1/8 in steel tread plate".
func floorOf(words string) (low, high float64, c tables.Cited, err error) {
	w, ok := strings.ToLower(words), false
	if contains(w, "plate", "steel", "aluminum") {
		low, c, ok = plateFloor(w)
		high = low
	} else {
		low, high, c, ok = lumberFloor(w)
	}
	if !ok {
		return 0, 0, c, fmt.Errorf("no weight is listed for a floor of %q; write it like treated pine 2x6 or 1/8 in steel tread plate", words)
	}
	return low, high, c, nil
}

// plateFloor is a square foot of plate or tread plate.
func plateFloor(w string) (weight float64, c tables.Cited, ok bool) {
	thickness := thicknessForm.FindString(w)
	material := "steel"
	if contains(w, "aluminum") {
		material = "aluminum"
	}
	kind := "plain"
	if contains(w, "tread", "diamond", "floor plate") {
		kind = "tread"
	}
	for _, p := range tables.Plates() {
		if thickness == "" || p.Kind != kind || p.Material != material || p.Name != thickness+" in" {
			continue
		}
		if kind == "tread" {
			return float64(p.Pattern), p.Cited, true
		}
		return float64(p.Flat), p.Cited, true
	}
	return 0, c, false
}

// lumberFloor is a square foot of planks. Lumber is planed: 2 by is 1-1/2 in thick, 1 by is
// 3/4 in (American Softwood Lumber Standard PS 20, from memory).
func lumberFloor(w string) (low, high float64, c tables.Cited, ok bool) {
	m := lumberForm.FindStringSubmatch(w)
	if m == nil {
		return 0, 0, c, false
	}
	thick := measure.Inches(1.5)
	if m[1] == "1" {
		thick = 0.75
	}
	material := ""
	switch {
	case contains(w, "oak"):
		material = "white oak, air dry"
	case contains(w, "apitong", "keruing"):
		material = "apitong / keruing"
	case contains(w, "pine") && contains(w, "treated"):
		material = "southern pine, treated then dried"
	case contains(w, "pine"):
		material = "southern pine, kiln-dried 15 to 19% moisture"
	}
	row, ok := tables.SolidDensity(material)
	if !ok {
		return 0, 0, c, false
	}
	return measure.PerSquareFoot(thick, float64(row.Density.Low)), measure.PerSquareFoot(thick, float64(row.Density.High)), row.Cited, true
}

// partsOf lists the parts of an open trailer with a stated frame.
func (p *calc) partsOf() []Part {
	u, s := p.Unit, p.Space
	l := &list{p: p, parts: make([]Part, 0, 12)}
	beam := p.section(u.Frame.Beam, "frame.beam")
	cross := p.section(u.Frame.Crossmember, "frame.crossmember")
	spacing := need(p, u.Frame.Spacing, "frame.crossmember-spacing")
	length := need(p, s.Length, s.key("length"))
	width := need(p, s.Width, s.key("width"))
	front := need(p, s.Front, s.key("front"))
	center := need(p, u.Axles.Center, "axles.center")
	axles := needCount(p, u.Axles.Count, "axles.count")
	rating := need(p, u.Axles.Rating, "axles.rating")
	per := needCount(p, u.Tires.PerAxle, "tires.per-axle")
	if !u.Frame.Floor.Given() {
		p.lack("frame.floor")
	}
	if !u.Tires.Size.Given() {
		p.lack("tires.size")
	}
	if !p.ready() {
		return nil
	}
	deckMiddle, overall := front+length.Half(), front+length

	// Two main beams run the overall length, neck or tongue included.
	w := measure.WeightOfLength(overall.Times(2), beam.Weight)
	l.add("2 main beams "+beam.Shape, w, w, overall.Half(), beam.Cited)
	// One crossmember at each end and one at each spacing between.
	n := length.Spaces(spacing) + 1
	w = measure.WeightOfLength(width.Times(n), cross.Weight)
	l.add(strconv.Itoa(n)+" crossmembers "+cross.Shape, w, w, deckMiddle, cross.Cited)
	low, high, cited, err := floorOf(u.Frame.Floor.Value)
	if err != nil {
		p.needs = append(p.needs, Need{Key: "frame.floor", Advice: err.Error()})
		return nil
	}
	p.use("frame.floor", verbatim(u.Frame.Floor.Value), u.Frame.Floor.About, u.Frame.Floor.From, u.Frame.Floor.Pos)
	area := measure.Area(length, width)
	l.add("floor of "+u.Frame.Floor.Value, measure.WeightOfArea(area, low), measure.WeightOfArea(area, high), deckMiddle, cited)
	p.use("tires.size", verbatim(u.Tires.Size.Value), u.Tires.Size.About, u.Tires.Size.From, u.Tires.Size.Pos)
	l.runningGear(axles, per, rating, center)
	l.coupler()
	l.jacks(front.Half())
	l.extras(front, overall)
	if !p.ready() {
		return nil
	}
	return l.parts
}

// runningGear adds axles, springs, and tires with their wheels.
func (l *list) runningGear(axles, perAxle int, rating measure.Pounds, center measure.Inches) {
	u := l.p.Unit
	l.component(axleRow(rating, perAxle >= 4, u.Brakes.Kind.Value != "none"), axles, center)
	if u.Axles.Suspension.Value == "leaf spring" {
		row := "leaf spring set, 7,000 lb tandem"
		if rating <= 3500 {
			row = "leaf spring pair and hangers, 3,500 lb tandem set"
		}
		// The rows are sets for two axles.
		if c, ok := tables.ComponentWeight(row); ok {
			l.add("leaf springs of "+strconv.Itoa(axles)+" axles", c.Weight.Low.Part(axles, 2), c.Weight.High.Part(axles, 2), center, c.Cited)
		}
	}
	l.tires(axles*perAxle, center)
}

func (l *list) coupler() {
	h := l.p.Unit.Hitch
	switch {
	case h.Kind.Value == "gooseneck" || h.Kind.Value == "fifth-wheel":
		l.component("gooseneck coupler 20-30k", 1, 0)
	case h.Kind.Value == "pintle":
		l.component("pintle ring and bracket", 1, 0)
	case h.Ball.Value > 2:
		l.component("A-frame coupler 2-5/16 in 14k-21k", 1, 0)
	default:
		l.component("A-frame coupler 2 in", 1, 0)
	}
}

// jacks adds the jacks. They are somewhere between the ball and the deck: the middle is taken.
func (l *list) jacks(at measure.Inches) {
	j := l.p.Unit.Jack
	if !j.Count.Given() || j.Count.Value <= 0 || !j.Rating.Given() {
		return
	}
	switch {
	case j.Rating.Value <= 2000:
		l.component("jack 2k topwind", j.Count.Value, at)
	case j.Rating.Value <= 7000:
		l.component("jack 7k drop-leg", j.Count.Value, at)
	case j.Count.Value == 2:
		l.component("twin 12k two-speed jacks set", 1, at)
	default:
		l.component("jack 10-12k drop-leg", j.Count.Value, at)
	}
}

// extras adds what works the tail and what a machine drives up on.
func (l *list) extras(front, rear measure.Inches) {
	u := l.p.Unit
	if u.Deck.TailKind.Value == "hydraulic dovetail" {
		l.component("battery and hydraulic pump unit", 1, front)
	}
	if k := u.Ramps.Kind.Value; k == "slide-in" || k == "stand-up" || k == "fold-over" {
		l.component("ramp, 5 ft slide-in", 2, rear)
	}
}

// RunningGear is the least that the axles, springs, tires and wheels of the unit weigh by
// the table of parts, with the parts that are listed there. No trailer weighs less. It
// reports false where axles or tires are not stated.
func (w *Work) RunningGear() (measure.Pounds, bool) {
	ax, per := w.Unit.Axles, w.Unit.Tires.PerAxle
	if !ax.Count.Given() || ax.Count.Value <= 0 || ax.Count.Value > mostAxles || !ax.Rating.Given() || ax.Rating.Value <= 0 || !per.Given() || per.Value <= 0 {
		return 0, false
	}
	l := &list{p: &calc{Work: w}}
	l.runningGear(ax.Count.Value, per.Value, ax.Rating.Value, 0)
	var least measure.Pounds
	for _, part := range l.parts {
		least += part.Low
	}
	return least, least > 0
}

// UsualEmpty is what trailers of the unit's kind, rating and length usually weigh empty, and
// how the table calls them. It reports false where the table has none.
func (w *Work) UsualEmpty() (usual tables.Span[measure.Pounds], row tables.EmptyBandRow, ok bool) {
	u, s := w.Unit, w.Space
	if !u.Weights.GVWR.Given() || !s.Length.Given() {
		return usual, row, false
	}
	return tables.EmptyBand(u.Kind.Value, u.Hitch.Kind.Value, u.Axles.Count.Value, u.Weights.GVWR.Value, s.Length.Value.Feet())
}

// estimable skips a unit whose frame nobody stated, and a bed or a box, of whose walls
// the file says nothing.
func (p *calc) estimable() bool {
	if !p.Unit.Frame.Beam.Given() || p.Space.Name != "deck" {
		p.skip()
		return false
	}
	return true
}

var estimatedEmpty = &Definition{
	Name: "estimated-empty", Label: "Empty weight, estimated from the parts",
	What:    "What the parts that are stated weigh together, by the tables, with an allowance for what is not stated. It is there to catch a weight that was typed wrong; the scale governs.",
	Formula: "two main beams over the overall length + crossmembers + floor + axles, springs, tires and wheels + coupler, jacks, pump, ramps; 15% more for what is not listed (0 to 30%)",
	Unit:    "lb", Source: "the tables of shapes, plate, densities and parts; the allowance is common practice, no source", Practice: true,
	work: func(p *calc) {
		if !p.estimable() {
			return
		}
		parts := p.partsOf()
		if !p.ready() {
			return
		}
		p.Parts = parts
		var low, high measure.Pounds
		for _, part := range parts {
			low, high = low+part.Low, high+part.High
		}
		middle := (low + high).Half()
		v := middle + unlistedLikely.Of(middle)
		p.EstimatedRange = [2]measure.Pounds{low, high + unlistedMost.Of(high)}
		p.about = true
		p.note("between %s (the listed parts alone) and %s", limit(p.EstimatedRange[0]), load(p.EstimatedRange[1]))
		p.enter(float64(v), measure.Nearest(v, 10).String(), 10, say("%s; the middle plus 15%%", sumOf(parts)))
		p.EstimatedEmpty = Result[measure.Pounds]{v, measure.Finite(v)}
	},
}

// sumOf shows parts added up, each from its least to its most.
type sumOf []Part

func (s sumOf) String() string {
	var out []string
	for _, part := range s {
		low, high := measure.Nearest(part.Low, 1), measure.Nearest(part.High, 1)
		span := low.String()
		if low != high {
			span += " to " + high.String()
		}
		out = append(out, part.Name+" "+span)
	}
	return strings.Join(out, " + ")
}

var estimatedCenter = &Definition{
	Name: "estimated-center", Label: "Center of gravity, estimated from the parts",
	What:    "Where the listed parts would balance, from the ball's center back. What is not listed is taken to be spread as the rest is.",
	Formula: "sum of weight x place / sum of weight, each part at the middle of its range",
	Unit:    "ft", Source: "statics: the center of gravity of parts; the tables of shapes, plate, densities and parts; for what is not listed common practice, no source", Practice: true,
	work: func(p *calc) {
		if !p.estimable() {
			return
		}
		rest(p, p.EstimatedEmpty, "estimated-empty")
		if !p.ready() {
			return
		}
		var weight measure.Pounds
		var moment measure.PoundInches
		for _, part := range p.Parts {
			middle := (part.Low + part.High).Half()
			weight += middle
			moment += measure.Moment(middle, part.At)
		}
		p.EstimatedCenter = p.feet(measure.ArmOf(moment, weight),
			say("%s lb-ft / %s", number{float64(measure.WeightAt(moment, measure.Feet(1).Inches())), 0}, near{weight}))
	},
}

var estimatedTongue = &Definition{
	Name: "estimated-tongue", Label: "On the truck, empty, estimated",
	What:    "What the empty trailer puts on the truck if its weight is spread as its parts are. Used where nobody weighed the tongue, and everything that rests on it is marked about. Weigh it.",
	Formula: "E (1 - x / A), x being the parts' center of gravity, to the nearest 10 lb",
	Unit:    "lb", Source: staticsSource + "; the parts' center of gravity is an estimate: common practice, no source", Practice: true,
	work: func(p *calc) {
		if t := p.Unit.Weights.TongueEmpty; t.Given() || t.Spoiled || !p.estimable() {
			p.skip()
			return
		}
		x := rest(p, p.EstimatedCenter, "estimated-center")
		empty := p.empty()
		a := need(p, p.Unit.Axles.Center, "axles.center")
		if p.ready() && x >= a {
			p.needs = append(p.needs, Need{Key: "weights.tongue-empty", Advice: "weigh the tongue empty: its parts alone would lift it"})
		}
		if !p.ready() {
			return
		}
		v := measure.Nearest(empty-measure.WeightAt(measure.Moment(empty, x), a), 10)
		p.estimated = true
		p.enter(float64(v), v.Load(), 10, say("%s x (1 - %s / %s)", empty, inFeet(x), a))
		p.EstimatedTongue = Result[measure.Pounds]{v, measure.Finite(v)}
	},
}

var beamWeight = &Definition{
	Name: "beam-weight", Label: "Main beam, by the foot",
	What:    "What a foot of the main beam weighs by the shape tables, with its section modulus: facts about the steel, for comparing frames. It is not a structural rating and says nothing of what the trailer carries.",
	Formula: "the shape's row",
	Unit:    "lb/ft", Source: "AISC shapes database, v16.0",
	work: func(p *calc) {
		if !p.Unit.Frame.Beam.Given() {
			p.skip()
			return
		}
		row := p.section(p.Unit.Frame.Beam, "frame.beam")
		if !p.ready() {
			return
		}
		p.source = row.Source
		modulus := say("the section modulus is not in the table")
		if row.Modulus > 0 {
			modulus = say("section modulus %s cu in about its strong axis", number{float64(row.Modulus), 2})
		}
		p.note("%s deep, %s wide; %s", inInches(row.Depth), inInches(row.Width), modulus)
		p.note("a beam's weight and size are facts for comparison, not a structural rating; the label governs")
		p.enter(float64(row.Weight), row.Weight.String(), 0.1, say("%s", row.Shape))
	},
}
