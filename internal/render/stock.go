package render

import (
	"encoding/json"
	"strconv"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

// The yard page's data: columns, because a column of like values packs far better than
// rows do (5,000 units in 35 KB against 175 KB, measured on invented stock), and because
// a filter reads one column from end to end. What many units share stands once, in the
// table of models; a model here is a set of equal values, whatever the owner calls it.
//
// It is written as a classic script that sets one variable: a page that was opened from a
// folder on disk may load that and nothing else (fetch and modules are refused there).
// yard.js reads it; the names of the columns are explained here and only here.
type stockData struct {
	// Titles, States and Conditions are what the columns of numbers stand for.
	Titles     []string `json:"titles"`
	States     []string `json:"states"`
	Conditions []string `json:"conditions"`
	Tall       string   `json:"tall"`   // of every silhouette's viewBox
	Shapes     []string `json:"shapes"` // solid|slits|guess|wheels
	// Facets are name, and values in the order of the chips' numbers.
	Facets []facetData `json:"facets"`
	Law    []any       `json:"law"`
	Rows   []string    `json:"rows"` // what the facts of a model are called
	// Says are writings that a number does not tell: "price 12" is unit 12's.
	Says map[string]string `json:"says"`
	// SI is every quantity in these texts with its metric writing.
	SI map[string]string `json:"si"`

	// By unit. Stock holds a text, or how much the number at its end is above the one before.
	Stock  []any `json:"stock"`
	Model  []int `json:"model"`
	Title  []int `json:"title"`
	State  []int `json:"state"`
	Worn   []int `json:"worn"`  // the number of its condition
	Price  []any `json:"price"` // dollars, 0 for none
	Empty  []any `json:"empty"` // pounds
	Tongue []any `json:"tongue"`
	// Weighed is 1 where somebody weighed the tongue, 0 where it was estimated from the parts.
	Weighed []int `json:"weighed"`
	// Load is the payload, rounded down as it is printed.
	Load    []any `json:"load"`
	Careful []int `json:"careful"` // cautions

	Models modelData `json:"models"`
}

type facetData struct {
	Name   string   `json:"name"`
	Values []string `json:"values"`
	// By is "model" or "unit"; Of is the number of the chip, by model or by unit.
	By string `json:"by"`
	Of []int  `json:"of"`
}

// modelData is the table of models.
type modelData struct {
	GVWR  []string   `json:"gvwr"`  // as it is written
	Space []string   `json:"space"` // deck, bed or box
	Long  []string   `json:"long"`
	Wide  []any      `json:"wide"`  // inches between the fenders or across, null if unknown
	Shape []int      `json:"shape"` // -1 for none
	Rig   [][]any    `json:"rig"`   // what rigData gives, less what is the unit's own; null where something is missing
	Facts [][]string `json:"facts"` // rows of a comparison
}

// likenesses are the rows of a comparison that units of one model share.
var likenesses = []struct {
	name string
	of   func(e *entry) string
}{
	{"Kind", func(e *entry) string { return kinds.Of(e.Kind.Value).Label }},
	{"Hitch", func(e *entry) string {
		s := e.Hitch.Kind.Value
		if e.Hitch.Ball.Given() {
			s += ", " + e.Hitch.Ball.Value.InInches() + " ball"
		}
		return s
	}},
	{"Width", func(e *entry) string {
		if b := e.Deck.Between; b.Given() {
			return b.Words() + " between fenders"
		}
		return e.work.Space.Width.Words()
	}},
	{"Height of the floor", func(e *entry) string { return e.work.Space.Floor.Words() }},
	{"Axles", func(e *entry) string {
		if e.Axles.Count.Value == 1 {
			return e.Axles.Rating.Words()
		}
		return e.Axles.Count.Words() + " x " + e.Axles.Rating.Words()
	}},
	{"Tires", func(e *entry) string {
		s := e.Tires.Size.Value
		if e.Tires.LoadRange.Given() {
			s += " load range " + e.Tires.LoadRange.Value
		}
		return s
	}},
	{"Brakes", func(e *entry) string { return e.Brakes.Kind.Value }},
	{"Suspension", func(e *entry) string { return e.Axles.Suspension.Value }},
	{"Tail", func(e *entry) string { return e.Deck.TailKind.Value }},
	{"Ramps", func(e *entry) string {
		if !e.Ramps.Kind.Given() {
			return ""
		}
		return strings.TrimSuffix(e.Ramps.Kind.Value+", "+e.Ramps.Length.Words(), ", ")
	}},
}

// stockFile is the data of the yard's page as a script.
func (m *maker) stockFile(all []facet) ([]byte, error) {
	d := &stockData{States: availabilities, Conditions: []string{"new", "used"}, Tall: m.scale().Tall(), Law: law(), Says: map[string]string{}}
	for _, f := range likenesses {
		d.Rows = append(d.Rows, f.name)
	}
	byModel := map[string]bool{"kind": true, "hitch": true, "deck": true, "axle": true}
	for _, f := range all {
		data := facetData{Name: f.Name, By: "unit"}
		for _, c := range f.Chips {
			data.Values = append(data.Values, c.Value)
		}
		switch {
		case byModel[f.Name]:
			data.By = "model"
		default:
			data.Of = f.of
		}
		d.Facets = append(d.Facets, data)
	}
	titles, shapes, models := &numbers{}, &numbers{}, &numbers{}
	var before string
	for i, e := range m.units {
		own := modelOf(e, m.scale(), shapes)
		var in []int
		for _, f := range all {
			if byModel[f.Name] {
				in = append(in, f.of[i])
			}
		}
		key, err := json.Marshal([]any{own, in})
		if err != nil {
			return nil, err
		}
		known := len(models.names)
		at := models.of(string(key))
		if at == known {
			d.Models.add(own)
			n := 0
			for k := range d.Facets {
				if d.Facets[k].By == "model" {
					d.Facets[k].Of = append(d.Facets[k].Of, in[n])
					n++
				}
			}
		}
		d.Model = append(d.Model, at)
		d.Title = append(d.Title, titles.of(e.Title.Value))
		d.Stock = append(d.Stock, after(before, e.Stock.Value))
		before = e.Stock.Value
		d.State = append(d.State, number(availabilities, e.Availability.Value))
		d.Worn = append(d.Worn, number(d.Conditions, e.Condition.Value))
		d.Price = append(d.Price, d.dollars(i, e))
		d.Load = append(d.Load, d.pounds(i, e))
		d.Careful = append(d.Careful, len(e.cautions))
		d.Empty = append(d.Empty, d.weighed(i, e))
		rig, needs := compute.RigOf(e.work)
		weighed := 0
		if e.Weights.TongueEmpty.Given() {
			weighed = 1
		}
		d.Weighed = append(d.Weighed, weighed)
		if len(needs) > 0 {
			d.Tongue = append(d.Tongue, nil)
			continue
		}
		d.Tongue = append(d.Tongue, float64(rig.Tongue))
	}
	d.Titles, d.Shapes = titles.names, shapes.names
	d.SI = d.metric(ratings(m.units))
	text, err := json.Marshal(d)
	if err != nil {
		return nil, err
	}
	return append(append([]byte("var STOCK="), text...), ";\n"...), nil
}

// metric are the quantities of the data's texts in metric units. Numbers the page turns
// itself.
func (d *stockData) metric(ratings map[string]string) map[string]string {
	out := map[string]string{}
	from := func(texts ...string) {
		for _, t := range texts {
			for _, q := range measure.Quantities(t, ratings) {
				out[t[q.Start:q.End]] = q.Metric
			}
		}
	}
	from(d.Titles...)
	from(d.Models.GVWR...)
	from(d.Models.Long...)
	for _, facts := range d.Models.Facts {
		from(facts...)
	}
	for _, text := range d.Says {
		from(text)
	}
	return out
}

// weighed is what a unit weighs empty, and its own words where it has others.
func (d *stockData) weighed(i int, e *entry) any {
	w := e.Weights.Empty
	if !w.Given() {
		return nil
	}
	if s := w.Words(); s != w.Value.String() {
		d.Says["empty "+strconv.Itoa(i)] = s
	}
	return float64(w.Value)
}

// dollars are a unit's price as a number, and its own words where it has others.
func (d *stockData) dollars(i int, e *entry) any {
	if !e.Price.Given() || e.Availability.Value == "sold" {
		return 0
	}
	if s := e.Price.Words(); s != e.Price.Value.String() {
		d.Says["price "+strconv.Itoa(i)] = s
	}
	return float64(e.Price.Value)
}

// pounds are a unit's payload likewise, rounded down as every limit is.
func (d *stockData) pounds(i int, e *entry) any {
	f := e.work.Figure("payload")
	if f == nil {
		return nil
	}
	v := measure.Down(measure.Pounds(f.Value), 1)
	if f.Text != v.String() {
		d.Says["load "+strconv.Itoa(i)] = f.Text
	}
	// The page turns what it prints; where that is rounded, the exact payload may differ.
	if s := e.work.Metric(f); s != measure.Metric.Limit(v) {
		d.Says["kg "+strconv.Itoa(i)] = s
	}
	return float64(v)
}

// oneModel is a row of the table of models.
type oneModel struct {
	GVWR, Space, Long string
	Wide              any
	Shape             int
	Rig               []any
	Facts             []string
}

func modelOf(e *entry, scale elevation.Scale, shapes *numbers) oneModel {
	o := oneModel{GVWR: e.Weights.GVWR.Words(), Space: e.work.Space.Name, Shape: -1}
	if f := e.work.Figure("deck-length"); f != nil {
		o.Long = f.Text
	}
	switch b, w := e.Deck.Between, e.work.Space.Width; {
	case b.Given():
		o.Wide = float64(b.Value)
	case w.Given():
		o.Wide = float64(w.Value)
	}
	if out, ok := elevation.OutlineOf(e.work, scale); ok {
		var wheels []string
		for _, w := range out.Wheels {
			wheels = append(wheels, strings.Join(w[:], " "))
		}
		o.Shape = shapes.of(strings.Join([]string{out.Solid, out.Slits, out.Guess, strings.Join(wheels, ",")}, "|"))
	}
	if rig, needs := compute.RigOf(e.work); len(needs) == 0 {
		o.Rig = rigData(rig, compute.TowedOf(e.work))
		// The unit's own stand in its columns.
		for _, i := range []int{0, 1, 13, 15} {
			o.Rig[i] = 0
		}
	}
	for _, f := range likenesses {
		o.Facts = append(o.Facts, f.of(e))
	}
	return o
}

func (t *modelData) add(o oneModel) {
	t.GVWR, t.Space, t.Long = append(t.GVWR, o.GVWR), append(t.Space, o.Space), append(t.Long, o.Long)
	t.Wide, t.Shape, t.Rig, t.Facts = append(t.Wide, o.Wide), append(t.Shape, o.Shape), append(t.Rig, o.Rig), append(t.Facts, o.Facts)
}

// numbers gives equal texts one number, in the order in which they come.
type numbers struct {
	names []string
	at    map[string]int
}

func (n *numbers) of(s string) int {
	i, ok := n.at[s]
	if !ok {
		if n.at == nil {
			n.at = map[string]int{}
		}
		i = len(n.names)
		n.at[s] = i
		n.names = append(n.names, s)
	}
	return i
}

func number(list []string, s string) int {
	for i, l := range list {
		if l == s {
			return i
		}
	}
	return -1
}

// after writes a stock number as how far its last digits are above those of the one
// before it, where everything else of the two is alike; else whole.
func after(before, s string) any {
	head, n := cutNumber(before)
	also, m := cutNumber(s)
	if head != also || len(n) != len(m) || n == "" {
		return s
	}
	a, err1 := strconv.Atoi(n)
	b, err2 := strconv.Atoi(m)
	if err1 != nil || err2 != nil || b <= a || b > 1e9 {
		return s
	}
	return b - a
}

// cutNumber parts the digits at the end of a text from what stands before them.
func cutNumber(s string) (head, digits string) {
	head = strings.TrimRight(s, "0123456789")
	return head, s[len(head):]
}
