package pagedata

import (
	"cmp"
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/elevation"
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
)

// columns is every trailer of the stock: in columns, because a column of like values packs
// far better than rows do (5,000 trailers in 35 KB against 175 KB, measured on invented
// stock), and because a filter reads one column from end to end. What many trailers share
// is there once, in the table of models; a model here is a set of equal values, whatever
// the owner calls it.
//
// yard.js reads it; the names of the columns are explained here and only here.
type columns struct {
	// Titles, States and Conditions are what the columns of numbers mean.
	Titles     []string `json:"titles"`
	States     []string `json:"states"`
	Conditions []string `json:"conditions"`
	Tall       string   `json:"tall"`   // of every silhouette's viewBox
	Shapes     []string `json:"shapes"` // solid|slits|guess|wheels
	Shares     []string `json:"shares"` // next to a payload; empty where there is none
	// Facets are name, and values in the order of the chips' numbers.
	Facets []facetColumn `json:"facets"`
	Rows   []string      `json:"rows"` // what the facts of a model are called
	// Phrases are what a card says in place of a number.
	Phrases said `json:"phrases"`
	// Says are texts that a number does not tell: "price 12" is trailer 12's.
	Says map[string]string `json:"says"`
	// SI is every quantity in these texts in metric units.
	SI map[string]string `json:"si"`

	// By trailer. Stock holds a text, or how much the number at its end is above the one before.
	Stock  []any `json:"stock"`
	Model  []int `json:"model"`
	Title  []int `json:"title"` // which one of its model's
	State  []int `json:"state"`
	Worn   []int `json:"worn"`  // the number of its condition
	Price  []any `json:"price"` // dollars, 0 for none
	Empty  []any `json:"empty"` // pounds above its model's
	Tongue []any `json:"tongue"`
	// Weighed is 1 where somebody weighed the tongue, 0 where it was estimated from the parts.
	Weighed []int `json:"weighed"`
	// Load is the payload, rounded down as it is printed: how far it is below what the label
	// leaves (Full less Empty), which is nearly always 0, or the payload itself where either is
	// not known.
	Load []any `json:"load"`
	// Own is what Calculator has of a trailer alone, by the numbers of the trailers of which Empty,
	// Tongue, Load and Weighed do not tell it: one with weight added, or with a payload in fractions.
	Own map[int][]any `json:"own"`
	// Share is what is said next to it of the truck: which one of its model's.
	Share   []int `json:"share"`
	Careful []int `json:"careful"` // cautions
	// Photos are the first photos, by the numbers of the trailers that have one.
	Photos map[int]string `json:"photos"`

	Models models `json:"models"`
}

type said struct {
	Sold     string   `json:"sold"`     // in place of the price of a trailer that is sold
	Ask      string   `json:"ask"`      // in place of a price that nobody stated
	Cautions []string `json:"cautions"` // by how many there are; empty for none
}

type facetColumn struct {
	Name   string   `json:"name"`
	Values []string `json:"values"`
	// By is the column that tells the chip, and Of the number of the chip by what that column has,
	// -1 for none. Of a price there is no Of: its chip is the last whose value it reaches.
	By string `json:"by"`
	Of []int  `json:"of"`
}

// models is the table of models, in columns too.
type models struct {
	GVWR  []string   `json:"gvwr"`  // as it is written
	Full  []any      `json:"full"`  // the same in pounds
	Space []string   `json:"space"` // what carries the load: deck, bed, box
	Long  []string   `json:"long"`
	Wide  []any      `json:"wide"`  // inches between the fenders or across, null if unknown
	Shape []int      `json:"shape"` // -1 for none
	Rig   [][]any    `json:"rig"`   // what CalculatorOf gives, less what is the trailer's own
	Facts [][]string `json:"facts"` // rows of a comparison
	// Title and Share are the numbers of its trailers' texts, in Titles and Shares: a trailer is one
	// of few of its model's, and a small number packs better.
	Title [][]int `json:"title"`
	Share [][]int `json:"share"`
	// Empty and Tongue are those of its first trailer: the others are near.
	Empty  []any `json:"empty"`
	Tongue []any `json:"tongue"`
}

// A model is a row of the table of models.
type model struct {
	GVWR, Space, Long string
	Full, Wide        any
	Shape             int
	Rig               []any
	Facts             []string
}

// Stock is the stock as a script that sets STOCK. The facets are those of the list; Scale
// is the one at which silhouettes are drawn. The texts are in the language.
func Stock(lang phrases.Language, list []Trailer, facets []Facet, scale elevation.Scale) ([]byte, error) {
	d := &columns{States: inLanguage(lang, "choice/availability/", Availabilities), Conditions: inLanguage(lang, "choice/condition/", conditions), Tall: scale.Tall(), Says: map[string]string{}, Photos: map[int]string{}, Own: map[int][]any{}}
	rows := statedRows(list)
	for _, k := range rows {
		d.Rows = append(d.Rows, lang.Plain(lang.Say("row "+comparison[k].name)))
	}
	for _, f := range facets {
		d.Facets = append(d.Facets, f.column())
	}
	var titles, shapes, shares, seen numbering
	for i := range list {
		t := &list[i]
		own := modelOf(t, scale, &shapes, rows)
		var chips []int // of the facets that go by the model
		for _, f := range facets {
			if f.by == ofModel {
				chips = append(chips, f.of[i])
			}
		}
		key, err := json.Marshal([]any{own, chips})
		if err != nil {
			return nil, err
		}
		n, isNew := seen.of(string(key))
		if isNew {
			d.addModel(own, chips)
		}
		title, _ := titles.of(lang.Plain(cmp.Or(t.Name, t.Title.Value)))
		d.Model, d.Title = append(d.Model, n), append(d.Title, title)
		share, _ := shares.of(lang.Plain(t.Work.OnTruck()))
		d.Share = append(d.Share, share)
		d.addTrailer(i, t)
	}
	stockColumn(d.Stock)
	d.Title, d.Models.Title = within(d.Title, d.Model)
	d.Share, d.Models.Share = within(d.Share, d.Model)
	d.Models.Empty, d.Models.Tongue = nearFirst(d.Empty, d.Model), nearFirst(d.Tongue, d.Model)
	d.Phrases = said{Sold: lang.Plain(lang.Say("priced sold")), Ask: lang.Plain(lang.Say("priced ask"))}
	for n := range slices.Max(append(d.Careful, 0)) + 1 {
		d.Phrases.Cautions = append(d.Phrases.Cautions, lang.Plain(CautionCount(lang, n)))
	}
	d.Titles, d.Shapes, d.Shares = titles.texts, shapes.texts, shares.texts
	d.SI = d.metric(ratings(list))
	return variable("STOCK", d)
}

func (f *Facet) column() facetColumn {
	c := facetColumn{Name: f.Name, By: f.by}
	for _, chip := range f.Chips {
		c.Values = append(c.Values, chip.Value)
	}
	for _, choice := range f.choices {
		c.Of = append(c.Of, slices.Index(c.Values, chipValue(choice)))
	}
	return c
}

// within replaces each number of a column by which one of its model's it is, and returns those of
// each model in the order in which they come.
func within(column, model []int) (which []int, of [][]int) {
	of = make([][]int, slices.Max(append(model, -1))+1)
	for i, n := range column {
		m := model[i]
		k := slices.Index(of[m], n)
		if k < 0 {
			k, of[m] = len(of[m]), append(of[m], n)
		}
		which = append(which, k)
	}
	return which, of
}

// nearFirst replaces each number of a column by how far it is above that of the first trailer of
// its model, and returns these. Where a sum would not be exact, a model's first counts as 0.
func nearFirst(column []any, model []int) []any {
	first := make([]any, slices.Max(append(model, -1))+1)
	for i, v := range column {
		if first[model[i]] == nil {
			first[model[i]] = v
		}
	}
	for i, v := range column {
		if base, ok := first[model[i]].(float64); ok && v != nil && base+(v.(float64)-base) != v.(float64) {
			first[model[i]] = 0.
		}
	}
	for i, v := range column {
		if v != nil {
			column[i] = v.(float64) - first[model[i]].(float64)
		}
	}
	return first
}

func (d *columns) addModel(m model, chips []int) {
	t := &d.Models
	t.GVWR, t.Full, t.Space, t.Long = append(t.GVWR, m.GVWR), append(t.Full, m.Full), append(t.Space, m.Space), append(t.Long, m.Long)
	t.Wide, t.Shape, t.Rig, t.Facts = append(t.Wide, m.Wide), append(t.Shape, m.Shape), append(t.Rig, m.Rig), append(t.Facts, m.Facts)
	for k := range d.Facets {
		if f := &d.Facets[k]; f.By == ofModel {
			f.Of, chips = append(f.Of, chips[0]), chips[1:]
		}
	}
}

func (d *columns) addTrailer(i int, t *Trailer) {
	d.Stock = append(d.Stock, t.Stock.Value)
	d.State = append(d.State, slices.Index(Availabilities, t.Availability.Value))
	d.Worn = append(d.Worn, slices.Index(conditions, t.Condition.Value))
	d.Price = append(d.Price, d.price(i, t))
	d.Load = append(d.Load, d.payload(i, t))
	if t.Photo != "" {
		d.Photos[i] = t.Photo
	}
	d.Careful = append(d.Careful, t.Cautions)
	d.Empty = append(d.Empty, d.empty(i, t))
	weighed := 0
	if t.Weights.TongueEmpty.Given() {
		weighed = 1
	}
	d.Weighed = append(d.Weighed, weighed)
	d.addOwn(i, t)
}

// addOwn enters the tongue and what no other column tells of a trailer alone. A row of M.Rig has a 0
// in these places.
func (d *columns) addOwn(i int, t *Trailer) {
	all := CalculatorOf(t.Work)
	var own []any
	for _, k := range ofUnit {
		own = append(own, all[k])
	}
	told := []any{d.Empty[i], own[1], nil, nil}
	if f := t.Work.Figure("payload"); f != nil {
		told[2] = float64(measure.Down(measure.Pounds(f.Value), 1))
	}
	if d.Weighed[i] == 1 {
		told[3] = own[1]
	}
	if !slices.Equal(own, told) {
		d.Own[i] = own
	}
	d.Tongue = append(d.Tongue, own[1])
}

// empty is what a trailer weighs empty, and its own words where they say more.
func (d *columns) empty(i int, t *Trailer) any {
	w := t.Weights.Empty
	if !w.Given() {
		return nil
	}
	if s := w.Words(); s != w.Value.String() {
		d.Says["empty "+strconv.Itoa(i)] = t.Lang.Plain(s)
	}
	return float64(w.Value)
}

// price is likewise a trailer's price, 0 for none.
func (d *columns) price(i int, t *Trailer) any {
	if !t.Price.Given() || t.Availability.Value == "sold" {
		return 0
	}
	if s := t.Price.Words(); s != t.Price.Value.String() {
		d.Says["price "+strconv.Itoa(i)] = t.Lang.Plain(s)
	}
	return float64(t.Price.Value)
}

// payload is likewise a trailer's payload, rounded down as every limit is.
func (d *columns) payload(i int, t *Trailer) any {
	f := t.Work.Figure("payload")
	if f == nil {
		return nil
	}
	v := measure.Down(measure.Pounds(f.Value), 1)
	if f.Text != v.String() {
		d.Says["load "+strconv.Itoa(i)] = t.Lang.Plain(f.Text)
	}
	// The page converts what it prints. Where that is rounded, the exact payload may differ.
	if s := t.Work.Metric(f); s != measure.Metric.Limit(v) {
		d.Says["kg "+strconv.Itoa(i)] = t.Lang.Plain(s)
	}
	if w := t.Weights; w.GVWR.Given() && w.Empty.Given() {
		return float64(w.GVWR.Value - w.Empty.Value - v)
	}
	return float64(v)
}

func modelOf(t *Trailer, scale elevation.Scale, shapes *numbering, rows []int) model {
	m := model{GVWR: t.Lang.Plain(t.Weights.GVWR.Words()), Space: spaceOf(t), Shape: -1}
	if g := t.Weights.GVWR; g.Given() {
		m.Full = float64(g.Value)
	}
	if f := t.Work.Figure("deck-length"); f != nil {
		m.Long = t.Lang.Plain(f.Text)
	}
	switch b, w := t.Deck.Between, t.Work.Space.Width; {
	case b.Given():
		m.Wide = float64(b.Value)
	case w.Given():
		m.Wide = float64(w.Value)
	}
	if out, ok := elevation.OutlineOf(t.Work, scale); ok {
		var wheels []string
		for _, w := range out.Wheels {
			wheels = append(wheels, strings.Join(w[:], " "))
		}
		m.Shape, _ = shapes.of(strings.Join([]string{out.Solid, out.Slits, out.Guess, strings.Join(wheels, ",")}, "|"))
	}
	m.Rig = CalculatorOf(t.Work)
	for _, i := range ofUnit {
		m.Rig[i] = 0
	}
	for _, k := range rows {
		m.Facts = append(m.Facts, t.Lang.Plain(comparison[k].of(t)))
	}
	return m
}

// spaceOf is what carries the load, as it follows a length: 20 ft deck.
func spaceOf(t *Trailer) string {
	if t.Lang.Foreign() {
		return t.Lang.Plain(t.Lang.Say("made space"))
	}
	return t.Work.Space.Name
}

// inLanguage are the choices of a key in the language.
func inLanguage(lang phrases.Language, key string, choices []string) []string {
	out := slices.Clone(choices)
	for i, c := range choices {
		if text, ok := lang.Fact(key + c); ok {
			out[i] = lang.Plain(text)
		}
	}
	return out
}

// metric are the quantities of the texts in metric units. The page converts numbers itself.
func (d *columns) metric(ratings map[string]string) map[string]string {
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

// Price is a trailer's price as pages write it, or what they say in place of one.
func Price(lang phrases.Language, u *unit.Unit) string {
	switch {
	case u.Availability.Value == "sold":
		return lang.Say("priced sold")
	case u.Price.Given():
		return u.Price.Words()
	}
	return lang.Say("priced ask")
}

// CautionCount is how many cautions there are, in words; nothing for none.
func CautionCount(lang phrases.Language, n int) string {
	if n == 0 {
		return ""
	}
	return lang.Counted("cautions", n)
}

// ratings are what the trailers state as ratings, by its text, in kilograms.
func ratings(list []Trailer) map[string]string {
	out := map[string]string{}
	for _, t := range list {
		t.Work.RatingsOf(out)
	}
	return out
}

// numbering gives equal texts one number, in the order in which they come.
type numbering struct {
	texts []string
	at    map[string]int
}

func (n *numbering) of(s string) (number int, isNew bool) {
	if i, ok := n.at[s]; ok {
		return i, false
	}
	if n.at == nil {
		n.at = map[string]int{}
	}
	n.at[s] = len(n.texts)
	n.texts = append(n.texts, s)
	return n.at[s], true
}

// stockColumn replaces each stock number by how far its last digits are above those of the
// one before it, where everything else of the two is alike.
func stockColumn(column []any) {
	before := ""
	for i, s := range column {
		now := s.(string)
		if n, ok := above(before, now); ok {
			column[i] = n
		}
		before = now
	}
}

func above(before, now string) (n int, ok bool) {
	head, digits := cutNumber(before)
	also, more := cutNumber(now)
	if head != also || len(digits) != len(more) || digits == "" {
		return 0, false
	}
	a, err1 := strconv.Atoi(digits)
	b, err2 := strconv.Atoi(more)
	// A script's whole numbers end near 9e15; no yard has a billion trailers.
	return b - a, err1 == nil && err2 == nil && b > a && b <= 1e9
}

// cutNumber separates the digits at the end of a text from the rest.
func cutNumber(s string) (head, digits string) {
	head = strings.TrimRight(s, "0123456789")
	return head, s[len(head):]
}
