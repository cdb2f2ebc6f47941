package oracle

import (
	"cmp"
	"slices"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

// A Verdict is YES, NO or CANNOT SAY YET to one question of a buyer.
type Verdict struct {
	// Is is yes, no or unknown. Text is the whole answer; it begins with the word.
	Is, Text string
	// Needs are the keys of what is not known and decides. A yes has none.
	Needs []string
	// Limits are the limits that could be checked, the closest first.
	Limits []Checked
	Notes  []string

	// clash is a reason for a no other than a limit: a receiver pulls no gooseneck.
	clash string
}

// A Checked limit is one with what comes on it.
type Checked struct {
	Key, Label   string
	Rating, Used float64
	Over         bool
	// Part is Used as a share of Rating.
	Part float64
	// Text is what is left, or how far over it is.
	Text string
}

// check enters a limit. Write writes an amount as a load or as a limit is written.
func (v *Verdict) check(key, label string, rating, used float64, write func(v float64, asLoad bool) string) {
	c := Checked{Key: key, Label: label, Rating: rating, Used: used, Over: !measure.NotOver(used, rating)}
	switch {
	case rating > 0:
		c.Part = used / rating
	case c.Over:
		c.Part = 1e9
	}
	c.Text = phrases.English.Say("left", write(max(rating-used, 0), false))
	if c.Over {
		c.Text = phrases.English.Say("over", write(used-rating, true))
	}
	v.Limits = append(v.Limits, c)
}

// over is the first limit that is broken, nil if none is.
func (v *Verdict) over() *Checked {
	for i := range v.Limits {
		if v.Limits[i].Over {
			return &v.Limits[i]
		}
	}
	return nil
}

func (v *Verdict) need(key string) {
	if !slices.Contains(v.Needs, key) {
		v.Needs = append(v.Needs, key)
	}
}

// settle decides: no as soon as one limit is broken, yes only if nothing is missing. Yes is
// what a yes goes on with.
func (v *Verdict) settle(yes string) {
	slices.SortStableFunc(v.Limits, func(a, b Checked) int { return cmp.Compare(b.Part, a.Part) })
	over := v.over()
	switch {
	case v.clash != "" || over != nil:
		v.Is = "no"
	case len(v.Needs) > 0:
		v.Is = "unknown"
	default:
		v.Is = "yes"
	}
	word := phrases.English.Say("word " + v.Is)
	switch {
	case v.clash != "":
		v.Text = phrases.English.Say("verdict", word, v.clash)
	case over != nil:
		v.Text = phrases.English.Say("verdict no", word, over.Label, over.Text)
	case v.Is == "yes":
		v.Text = phrases.English.Say("verdict yes", word, yes, v.Limits[0].Label, v.Limits[0].Text)
	default:
		var needs []string
		for _, n := range v.Needs {
			needs = append(needs, phrases.English.Say("need "+n))
		}
		form := "verdict unknown"
		if len(v.Limits) > 0 {
			form = "verdict so far"
		}
		v.Text = phrases.English.Say(form, word, strings.Join(needs, phrases.English.Say("and")))
	}
}
