package compute

import (
	"fmt"
	"slices"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A Figure is a computed number with its working.
type Figure struct {
	*Definition
	// Label is the definition's, or one that fits this unit better.
	Label string
	// Value is the unrounded number in Unit.
	Value float64
	// Text is the rounded writing: limits and payloads down, loads and needs up.
	Text string
	// Source is the clause or the practice that the figure follows: the definition's, or one
	// that fits this unit better.
	Source string
	// About reports that an input was approximate.
	About bool
	// Estimated reports that it rests on the parts' estimated center of gravity because
	// the tongue was not weighed; About is then true too, and Working says so.
	Estimated bool
	// Inputs are the fields it rests on, with their places. Figures of one unit share them.
	Inputs []*Input

	working words
	notes   []words
	step    float64 // the step of Text, in Unit
	bound   bound
}

// Working is the formula with the numbers in it.
func (f *Figure) Working() string { return worked(f.working, f.Estimated) }

// Notes has what the reader of the figure must know.
func (f *Figure) Notes() []string {
	var out []string
	for _, n := range f.notes {
		out = append(out, n.String())
	}
	return out
}

// bound says which way a figure may not be passed.
type bound int

const (
	neither bound = iota
	atMost        // a limit: nobody may write more
	atLeast       // a load or a need: nobody may write less
)

// Limit reports whether the figure is a limit: a text that states more is wrong.
func (f *Figure) Limit() bool { return f.bound == atMost }

// Load reports whether the figure is a load or a need: a text that states less is wrong.
func (f *Figure) Load() bool { return f.bound == atLeast }

// Step is the precision of Text, in Unit.
func (f *Figure) Step() float64 { return f.step }

// An Input is one field a figure rests on.
type Input struct {
	Key  string // the key's path: weights.gvwr
	From measure.Provenance
	At   unit.Pos

	value fmt.Stringer
	about bool
}

// Text is the value as a working shows it.
func (in *Input) Text() string { return about(in.about, in.value.String()) }

// about marks what was worked from something approximate.
func about(is bool, text string) string {
	if is {
		return "about " + text
	}
	return text
}

// An Absence is a figure that could not be worked out, with what is missing for it.
type Absence struct {
	Name  string
	Label string
	// Needs says, for each missing thing, what to weigh, measure or read.
	Needs []Need
}

// A Need is a field that a figure lacks.
type Need struct {
	Key    string
	Advice string
	// Because is the author's reason why nobody knows it, if there is one.
	Because string
}

// String says what to do about it, or why nothing can be done.
func (n Need) String() string {
	if n.Because != "" {
		return "not known, because " + n.Because
	}
	return n.Advice
}

// A Definition describes a figure for every unit: its documentation and its work.
type Definition struct {
	// Name is kebab-case and stable: links in the notes (worked:) and the JSON use it.
	Name  string
	Label string
	// What explains the figure to a customer.
	What string
	// Formula is the rule in words and symbols.
	Formula string
	Unit    string
	Source  string
	// Practice marks common practice without a source: shown, never the legal number.
	Practice bool

	work func(*calc)
}

// A Result is a typed value that may not be known.
type Result[U measure.Unit] struct {
	Value U
	Known bool
}

// A calc works one figure of one unit: it gathers what the figure rests on and what it lacks.
type calc struct {
	*Work
	def    *Definition
	inputs []*Input
	keys   inputKeys // of the inputs
	about  bool
	// estimated: the tongue was not weighed, and its share comes from the parts.
	estimated bool
	needs     []Need
	notes     []words
	// silent drops the figure without an Absence: the unit has no such thing.
	silent bool
	source string // overrides the definition's
	label  string // likewise
	bound  bound
}

// advice says how to get what is missing. The values of other keys are on the label.
var advice = map[string]string{
	"weights.gvwr":         "read the GVWR off the certification label",
	"weights.empty":        "weigh it empty on a scale",
	"weights.tongue-empty": "weigh the tongue empty",
	"weights.water":        "work out what full tanks hold: 8.3 lb a gallon",
	"axles.count":          "count the axles",
	"axles.rating":         "read the axle rating (GAWR) off the label",
	"axles.center":         "measure from the ball's center back to the middle of the axle group",
	"axles.spacing":        "measure from one axle to the next",
	"deck.front":           "measure from the ball's center back to the deck's front edge",
	"bed.front":            "measure from the ball's center back to the bed's front",
	"box.front":            "measure from the ball's center back to the box's front",
	"deck.length":          "measure the deck's length",
	"deck.width":           "measure the deck's width",
	"deck.height":          "measure the deck's height above the ground",
	"deck.tail":            "measure the tail",
	"deck.pivot":           "measure from the tilting deck's pivot back to its rear edge",
	"deck.tail-end":        "measure the height of the tail's rear edge",
	"ramps.length":         "measure the ramps",
	"tires.per-axle":       "count the tires on one axle",
	"tires.size":           "read the size off the sidewall",
	"tires.load-range":     "read the load range off the sidewall",
	"tires.sidewall":       "read the maximum load off the sidewall",
	"tires.wheel":          "read the rating stamped on the wheel",
	"hitch.kind":           "say how it couples",
	"hitch.rating":         "read the rating off the coupler plate",
	"hitch.ball-rating":    "read the rating stamped on the ball",
	"hitch.tongue-limit":   "read the tongue limit off the coupler plate",
	"hitch.ahead":          "measure how far the coupler reaches ahead of the ball's center",
	"overall-width":        "measure across the widest part, fenders included",
	"price":                "give the price",
	"overall-length":       "measure from the foremost part of the coupler to the rearmost part",
	"tank.length":          "measure the tank's length",
	"tank.front":           "measure from the ball's center back to the tank's front",
	"tank.volume":          "read the volume off the tank",
	"hull.length":          "give the length of the longest hull that it takes",
	"hull.front":           "measure from the ball's center back to the bow stop",
	"bin.length":           "give the length of the longest bin",
	"bin.front":            "measure from the ball's center back to the bin's front",
	"bunks.length":         "measure from the first bunk to the last",
	"bunks.front":          "measure from the ball's center back to the first bunk",
	"chassis.length":       "measure the frame behind the tongue",
	"chassis.front":        "measure from the ball's center back to the frame's front crossmember",
	"dolly.length":         "measure the pans that the wheels stand in",
	"dolly.front":          "measure from the ball's center back to the front of the pans",
	"bed.width":            "measure the bed's inside width",
	"bed.length":           "measure the bed's inside length",
	"bed.height":           "measure the height of the bed's sides",
}

// lack notes that a key is missing.
func (p *calc) lack(key string) {
	a := advice[key]
	if a == "" {
		a = "give " + key
	}
	p.needs = append(p.needs, Need{Key: key, Advice: a})
}

// missing notes that a field is missing, and the author's reason why nobody knows it.
func missing[T any](p *calc, f unit.Field[T], key string) {
	p.lack(key)
	if reason, unknown := f.Unknown(); unknown {
		p.needs[len(p.needs)-1].Because = reason
	}
}

// need takes a field that the figure requires. A zero is not a measurement: it
// counts as missing, and a rule of internal/inspect says so at its place.
func need[U measure.Unit](p *calc, f unit.Field[U], key string) U {
	if key == "" {
		p.skip() // this kind of trailer has no such measure
		return 0
	}
	if !f.Given() || f.Value <= 0 {
		missing(p, f, key)
		return 0
	}
	take(p, f, key)
	return f.Value
}

// take brings a field in.
func take[U measure.Unit](p *calc, f unit.Field[U], key string) {
	if !p.again(key, f.Pos) {
		p.use(key, f.Value, f.About, f.From, f.Pos)
	}
}

// again adds what another figure of this unit has used, and reports whether one has.
func (p *calc) again(key string, at unit.Pos) bool {
	if p.has(key) {
		return true
	}
	in := p.used.find(p.sheet, key)
	if in != nil && in.At != at { // the same key in another place
		i := slices.IndexFunc(p.sheet, func(other *Input) bool { return other.Key == key && other.At == at })
		if i < 0 {
			return false
		}
		in = p.sheet[i]
	}
	if in == nil {
		return false
	}
	p.lean(in)
	return true
}

// lean rests the figure on an input of the sheet.
func (p *calc) lean(in *Input) {
	p.about = p.about || in.about
	p.inputs = append(p.inputs, in)
}

// inputKeys finds an input of a growing list by its key. Most lists are short and are looked through. One
// of thousands, as a file with thousands of tie-downs makes it, has a map.
type inputKeys struct {
	of map[string]*Input
	n  int // how many of the list are in the map
}

const shortList = 64

// find is the first input of the list with that key, or nil.
func (k *inputKeys) find(list []*Input, key string) *Input {
	if len(list) <= shortList {
		for _, in := range list {
			if in.Key == key {
				return in
			}
		}
		return nil
	}
	if k.of == nil {
		k.of = map[string]*Input{}
	}
	for ; k.n < len(list); k.n++ {
		if in := list[k.n]; k.of[in.Key] == nil {
			k.of[in.Key] = in
		}
	}
	return k.of[key]
}

func (p *calc) has(key string) bool { return p.keys.find(p.inputs, key) != nil }

// needOrZero is need for a field that may be zero.
func needOrZero[U measure.Unit](p *calc, f unit.Field[U], key string) U {
	if !f.Given() {
		missing(p, f, key)
		return 0
	}
	take(p, f, key)
	return f.Value
}

func needCount(p *calc, f unit.Count, key string) int {
	if !f.Given() || f.Value <= 0 {
		missing(p, f, key)
		return 0
	}
	if !p.again(key, f.Pos) {
		p.use(key, count(f.Value), f.About, f.From, f.Pos)
	}
	return f.Value
}

func (p *calc) use(key string, value fmt.Stringer, about bool, from measure.Provenance, at unit.Pos) {
	if p.has(key) {
		return
	}
	if len(p.room) == 0 {
		p.room = make([]Input, 16)
	}
	in := &p.room[0]
	p.room = p.room[1:]
	*in = Input{key, from, at, value, about || from.Origin == measure.Estimate}
	p.sheet = append(p.sheet, in)
	p.lean(in)
}

// rest takes the result of an earlier figure, with everything that it rests on.
func rest[U measure.Unit](p *calc, r Result[U], name string) U {
	if f := p.Figure(name); r.Known && f != nil {
		p.inherit(f)
		return r.Value
	}
	p.needs = append(p.needs, p.needsOf(name)...)
	return 0
}

func (p *calc) inherit(f *Figure) {
	p.bring(f.Inputs)
	p.about = p.about || f.About
	p.estimated = p.estimated || f.Estimated
}

// bring takes over what something earlier rests on. Whether that was approximate, the
// caller knows.
func (p *calc) bring(inputs []*Input) {
	for _, in := range inputs {
		if !p.has(in.Key) {
			p.inputs = append(p.inputs, in)
		}
	}
}

// needsOf lists what is missing for an absent figure.
func (w *Work) needsOf(name string) []Need {
	for _, a := range w.Absent {
		if a.Name == name {
			return a.Needs
		}
	}
	return []Need{{Key: name, Advice: "work out " + name}}
}

func (p *calc) ready() bool { return len(p.needs) == 0 && !p.silent }

func (p *calc) note(format string, args ...any) {
	p.notes = append(p.notes, say(format, args...))
}

// skip leaves the figure out: this kind of trailer has no such thing.
func (p *calc) skip() { p.silent = true }

// enter writes a worked figure down. A number that is not finite is never shown.
func (p *calc) enter(value float64, text string, step float64, working words) {
	if !measure.Finite(value) {
		p.needs = append(p.needs, Need{Key: p.def.Name, Advice: "check the measures it rests on"})
		return
	}
	source := p.def.Source
	if p.source != "" {
		source = p.source
	}
	label := p.def.Label
	if p.label != "" {
		label = p.label
	}
	p.Figures = append(p.Figures, Figure{
		Definition: p.def, Label: label, Value: value, Text: about(p.about, text),
		working: working, Source: source, About: p.about, Estimated: p.estimated,
		Inputs: p.keep(p.inputs), notes: p.notes, step: step, bound: p.bound,
	})
}

// keep copies a list of inputs out of the calc's buffer.
func (w *Work) keep(inputs []*Input) []*Input {
	if len(w.lists)+len(inputs) > cap(w.lists) {
		w.lists = make([]*Input, 0, max(128, len(inputs)))
	}
	from := len(w.lists)
	w.lists = append(w.lists, inputs...)
	return w.lists[from:len(w.lists):len(w.lists)]
}

// limit enters a weight that nobody may exceed: down to the whole pound.
func (p *calc) limit(v measure.Pounds, working words) Result[measure.Pounds] {
	p.bound = atMost
	p.enter(float64(v), v.Limit(), 1, working)
	return Result[measure.Pounds]{v, measure.Finite(v)}
}

// load enters a weight that something has to bear: up to the whole pound.
func (p *calc) load(v measure.Pounds, working words) Result[measure.Pounds] {
	p.bound = atLeast
	p.enter(float64(v), v.Load(), 1, working)
	return Result[measure.Pounds]{v, measure.Finite(v)}
}

// share enters a share, shown in percent to a tenth.
func (p *calc) share(v measure.Share, working words) Result[measure.Share] {
	p.enter(v.Percent(), v.Near(), 0.1, working)
	return Result[measure.Share]{v, measure.Finite(v)}
}

// feet enters a length stated in feet, to the quarter inch.
func (p *calc) feet(v measure.Inches, working words) Result[measure.Inches] {
	p.enter(float64(v.Feet()), v.InFeet(), 0.25/measure.InchesPerFoot, working)
	return Result[measure.Inches]{v, measure.Finite(v)}
}
