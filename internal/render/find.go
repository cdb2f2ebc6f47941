package render

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// mostChips is how many values a facet may have before neighbors share a chip: sizes that
// come one by one stay one by one (a 20 ft deck is asked for as 20 ft), and no facet grows
// past what a phone shows at once.
const mostChips = 14

// A facet is one thing that a customer may ask for, as chips. Every unit has one chip of
// it or none.
type facet struct {
	Name, Label string // deck, Deck length
	Chips       []chip
	of          []int // by unit: the number of its chip, or -1
}

// A chip is one value of a facet, with how many units of the yard have it.
type chip struct {
	Value, Label, Link string
	Count              string
	n                  int
}

// facets are the yard's facets over the units, in the order in which they are shown.
func facets(units []*entry) []facet {
	words := func(name, label string, choices []string, of func(*unit.Unit) string, called func(string) string) facet {
		f := facet{Name: name, Label: label, of: make([]int, len(units))}
		for i, e := range units {
			f.of[i] = slices.Index(choices, of(e.Unit))
		}
		for _, c := range choices {
			f.Chips = append(f.Chips, chip{Value: strings.ReplaceAll(c, " ", "-"), Label: called(c)})
		}
		return f.counted()
	}
	same := func(s string) string { return s }
	out := []facet{
		words("kind", "Kind", kinds.Names(), func(u *unit.Unit) string { return u.Kind.Value }, func(k string) string { return kinds.Of(k).Label }),
		words("hitch", "Hitch", hitches, func(u *unit.Unit) string { return u.Hitch.Kind.Value }, same),
	}
	deck := make([]float64, len(units))
	axle := make([]float64, len(units))
	price := make([]float64, len(units))
	for i, e := range units {
		deck[i], axle[i], price[i] = -1, -1, -1
		if l := e.work.Space.Length; l.Given() {
			// A deck of 20 ft 6 in is found among those of 20 ft.
			deck[i] = float64(measure.Down(l.Value.Feet(), 1))
		}
		if r := e.Axles.Rating; r.Given() {
			axle[i] = float64(r.Value)
		}
		if e.Price.Given() && e.Availability.Value != "sold" {
			price[i] = float64(e.Price.Value)
		}
	}
	return append(out,
		sizes("deck", "Deck, bed or box length", deck, []float64{1, 2, 4, 8, 16}, func(from, to float64) string {
			if to-from == 1 {
				return measure.Feet(from).String()
			}
			return fmt.Sprintf("%s to %s", measure.Number(from, 0), measure.Feet(to-1))
		}),
		sizes("axle", "Rating of one axle", axle, []float64{0, 1000, 2500, 5000}, func(from, to float64) string {
			if to == from {
				return measure.Pounds(from).String()
			}
			return fmt.Sprintf("%s to %s", measure.Number(from, 0), measure.Pounds(to))
		}),
		prices(price),
		words("here", "Is it here?", availabilities, func(u *unit.Unit) string { return u.Availability.Value }, same),
		words("condition", "New or used", []string{"new", "used"}, func(u *unit.Unit) string { return u.Condition.Value }, same),
	)
}

// hitches are the ways to couple, as the unit file has them.
var hitches = []string{"bumper-pull", "gooseneck", "fifth-wheel", "pintle"}

// availabilities in the order in which they are offered.
var availabilities = []string{"on the yard", "on order", "spoken for", "sold"}

// counted counts the chips and drops those that no unit has.
func (f facet) counted() facet {
	for _, c := range f.of {
		if c >= 0 {
			f.Chips[c].n++
		}
	}
	to := make([]int, len(f.Chips))
	var kept []chip
	for i, c := range f.Chips {
		to[i] = len(kept)
		if c.n > 0 {
			c.Count = measure.Count(c.n)
			kept = append(kept, c)
		}
	}
	for i, c := range f.of {
		if c >= 0 {
			f.of[i] = to[c]
		}
	}
	f.Chips = kept
	return f
}

// sizes makes a chip of every value, or of the least step at which there are few enough;
// a step of 0 takes the values as they are. Values below 0 are not known.
func sizes(name, label string, values, steps []float64, called func(from, to float64) string) facet {
	var starts []float64
	var step float64
	start := func(v float64) float64 {
		if step == 0 {
			return v
		}
		return measure.Down(v, step)
	}
	for _, step = range steps {
		starts = nil
		for _, v := range values {
			if v >= 0 {
				starts = append(starts, start(v))
			}
		}
		slices.Sort(starts)
		if starts = slices.Compact(starts); len(starts) <= mostChips {
			break
		}
	}
	f := facet{Name: name, Label: label, of: make([]int, len(values))}
	for _, s := range starts {
		f.Chips = append(f.Chips, chip{Value: strconv.FormatFloat(s, 'f', -1, 64), Label: called(s, s+step)})
	}
	for i, v := range values {
		f.of[i] = -1
		if at, ok := slices.BinarySearch(starts, start(v)); ok && v >= 0 {
			f.of[i] = at
		}
	}
	return f.counted()
}

// priceSteps part the prices, in dollars. They are round numbers that people shop by:
// common practice, no source.
var priceSteps = []float64{0, 2500, 5000, 7500, 10_000, 15_000, 20_000, 30_000, 50_000}

func prices(values []float64) facet {
	f := facet{Name: "price", Label: "Price", of: make([]int, len(values))}
	for i, from := range priceSteps {
		c := chip{Value: strconv.FormatFloat(from, 'f', -1, 64)}
		switch last := i == len(priceSteps)-1; {
		case last:
			c.Label = measure.Dollars(from).String() + " and up"
		case i == 0:
			c.Label = "under " + measure.Dollars(priceSteps[1]).String()
		default:
			c.Label = measure.Dollars(from).String() + " to " + measure.Number(priceSteps[i+1], 0)
		}
		f.Chips = append(f.Chips, c)
	}
	for i, v := range values {
		at, exact := slices.BinarySearchFunc(priceSteps, v, cmp.Compare[float64])
		if !exact {
			at--
		}
		f.of[i] = at
	}
	return f.counted()
}
