package pagedata

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

// mostChips is how many values a facet may have before neighbors share a chip: sizes that
// come one by one stay one by one (a 20 ft deck is asked for as 20 ft), and no facet grows
// past what a phone shows at once.
const mostChips = 14

// A Facet is one thing that a customer may ask for, as chips. Every trailer has one chip
// of it or none.
type Facet struct {
	Name  string // its name in addresses and scripts: deck
	Label string // what the page calls it: Deck length
	Chips []Chip // its values
	// of is the number of the chip by trailer, -1 for none. It depends on nothing but what the column
	// by has: the trailer's model, its state, whether it is worn, or its price.
	of []int
	by string
	// choices are what the numbers of a column of states mean.
	choices []string
}

// ofModel is the column of models.
const ofModel = "model"

// A Chip is one value of a facet, with how many trailers of the yard have it.
type Chip struct {
	Value string // its name in addresses and scripts
	Label string // what the page calls it
	Count string // how many trailers of the yard have it
	n     int
}

// Availabilities are the states of a trailer in the order in which pages list them.
var Availabilities = []string{"on the yard", "on order", "spoken for", "sold"}

var (
	hitches    = []string{"bumper-pull", "gooseneck", "fifth-wheel", "pintle"}
	conditions = []string{"new", "used"}
)

// Facets are the yard's facets over its trailers, in the order in which they are shown.
func Facets(lang phrases.Language, list []Trailer) []Facet {
	choice := func(key string) func(string) string {
		return func(s string) string { return fact(lang, "choice/"+key+"/"+s, s) }
	}
	kind := choices(list, kinds.Names(), func(t *Trailer) string { return t.Kind.Value }, func(k string) string { return fact(lang, "kind/"+k, kinds.Of(k).Label) })
	kind.Name, kind.Label, kind.by = "kind", lang.Say("facet kind"), ofModel
	hitch := choices(list, hitches, func(t *Trailer) string { return t.Hitch.Kind.Value }, choice("hitch.kind"))
	hitch.Name, hitch.Label, hitch.by = "hitch", lang.Say("facet hitch"), ofModel
	here := choices(list, Availabilities, func(t *Trailer) string { return t.Availability.Value }, choice("availability"))
	here.Name, here.Label, here.by, here.choices = "here", lang.Say("facet here"), "state", Availabilities
	condition := choices(list, conditions, func(t *Trailer) string { return t.Condition.Value }, choice("condition"))
	condition.Name, condition.Label, condition.by, condition.choices = "condition", lang.Say("facet condition"), "worn", conditions
	return []Facet{kind, hitch, lengths(lang, list), axles(lang, list), prices(lang, list), here, condition}
}

// fact is a row of facts.csv in the language, or what other packages call it.
func fact(lang phrases.Language, key, english string) string {
	if text, ok := lang.Fact(key); ok && lang.Foreign() {
		return text
	}
	return english
}

// choices makes a chip of every choice.
func choices(list []Trailer, all []string, of func(*Trailer) string, label func(string) string) Facet {
	f := Facet{of: make([]int, len(list))}
	for i := range list {
		f.of[i] = slices.Index(all, of(&list[i]))
	}
	for _, c := range all {
		f.Chips = append(f.Chips, Chip{Value: chipValue(c), Label: label(c)})
	}
	return f.counted()
}

// chipValue is a choice's name in addresses and scripts.
func chipValue(choice string) string { return strings.ReplaceAll(choice, " ", "-") }

// unknown is the value of a number that nobody stated: no number here is below 0.
const unknown = -1

func numbers(list []Trailer, of func(*Trailer) (value float64, ok bool)) []float64 {
	out := make([]float64, len(list))
	for i := range list {
		out[i] = unknown
		if v, ok := of(&list[i]); ok {
			out[i] = v
		}
	}
	return out
}

func lengths(lang phrases.Language, list []Trailer) Facet {
	f := sizes(numbers(list, func(t *Trailer) (float64, bool) {
		l := t.Work.Space.Length
		// A deck of 20 ft 6 in is found among those of 20 ft.
		return float64(measure.Down(l.Value.Feet(), 1)), l.Given()
	}), []float64{1, 2, 4, 8, 16}, func(from, to float64) string {
		if to-from == 1 {
			return measure.Feet(from).String()
		}
		return lang.Say("from to", measure.Number(from, 0), measure.Feet(to-1).String())
	})
	f.Name, f.Label, f.by = "deck", lang.Say("facet deck"), ofModel
	return f
}

func axles(lang phrases.Language, list []Trailer) Facet {
	f := sizes(numbers(list, func(t *Trailer) (float64, bool) {
		return float64(t.Axles.Rating.Value), t.Axles.Rating.Given()
	}), []float64{0, 1000, 2500, 5000}, func(from, to float64) string {
		if to == from {
			return measure.Pounds(from).String()
		}
		return lang.Say("from to", measure.Number(from, 0), measure.Pounds(to).String())
	})
	f.Name, f.Label, f.by = "axle", lang.Say("facet axle"), ofModel
	return f
}

// counted counts the chips and drops those that no trailer has.
func (f Facet) counted() Facet {
	for _, c := range f.of {
		if c >= 0 {
			f.Chips[c].n++
		}
	}
	to := make([]int, len(f.Chips))
	var kept []Chip
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
// a step of 0 takes the values as they are.
func sizes(values, steps []float64, label func(from, to float64) string) Facet {
	step, starts := stepped(values, steps)
	f := Facet{of: make([]int, len(values))}
	for _, s := range starts {
		f.Chips = append(f.Chips, Chip{Value: strconv.FormatFloat(s, 'f', -1, 64), Label: label(s, s+step)})
	}
	for i, v := range values {
		f.of[i] = -1
		if at, ok := slices.BinarySearch(starts, startOf(v, step)); ok && v != unknown {
			f.of[i] = at
		}
	}
	return f.counted()
}

// stepped is the first step that gives few enough chips, else the last, and where each
// chip starts.
func stepped(values, steps []float64) (step float64, starts []float64) {
	for _, step = range steps {
		starts = nil
		for _, v := range values {
			if v != unknown {
				starts = append(starts, startOf(v, step))
			}
		}
		slices.Sort(starts)
		if starts = slices.Compact(starts); len(starts) <= mostChips {
			break
		}
	}
	return step, starts
}

func startOf(v, step float64) float64 {
	if step == 0 {
		return v
	}
	return measure.Down(v, step)
}

// priceSteps divide the prices, in dollars. They are round numbers that people shop by:
// common practice, no source.
var priceSteps = []float64{0, 2500, 5000, 7500, 10_000, 15_000, 20_000, 30_000, 50_000}

func prices(lang phrases.Language, list []Trailer) Facet {
	values := numbers(list, func(t *Trailer) (float64, bool) {
		return float64(t.Price.Value), t.Price.Given() && t.Availability.Value != "sold"
	})
	f := Facet{Name: "price", Label: lang.Say("facet price"), by: "price", of: make([]int, len(values))}
	for i, from := range priceSteps {
		c := Chip{Value: strconv.FormatFloat(from, 'f', -1, 64)}
		switch last := i == len(priceSteps)-1; {
		case last:
			c.Label = lang.Say("facet up", measure.Dollars(from).String())
		case i == 0:
			c.Label = lang.Say("facet under", measure.Dollars(priceSteps[1]).String())
		default:
			c.Label = lang.Say("from to", measure.Dollars(from).String(), measure.Number(priceSteps[i+1], 0))
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
