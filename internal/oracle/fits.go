package oracle

import (
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

// A Size is how large a trailer is over all. Worked is the length as it is worked out, to which a
// gate or a jack may add: it is enough for a no alone.
type Size struct{ Width, Height, Length, Worked inches }

// A Barn is where a trailer is kept: how wide and how high the door is, and how deep the barn is.
type Barn struct{ Wide, High, Deep inches }

// Fits answers whether the empty trailer goes into the barn. It is a yes only if all three measures
// of both are known, and a no names every one that is too small.
func Fits(t Size, b Barn, in measure.System) Verdict {
	var v Verdict
	for _, c := range []struct {
		key       string
		has, used inches
	}{{"wide", b.Wide, t.Width}, {"high", b.High, t.Height}, {"deep", b.Deep, t.Length}} {
		switch {
		case !c.has.Known || !(c.has.Value > 0):
			v.need(c.key)
		case c.key == "deep" && !(c.used.Known && c.used.Value > 0) && t.Worked.Known && !measure.NotOver(t.Worked.Value, c.has.Value):
			v.check(c.key, phrases.English.Say("limit "+c.key), float64(c.has.Value), float64(t.Worked.Value), lengths(in))
		case c.key == "deep" && !(c.used.Known && c.used.Value > 0) && t.Worked.Known && t.Worked.Value > 0:
			v.need("over-deep-worked")
		case !c.used.Known || !(c.used.Value > 0):
			v.need("over-" + c.key)
		default:
			v.check(c.key, phrases.English.Say("limit "+c.key), float64(c.has.Value), float64(c.used.Value), lengths(in))
		}
	}
	v.settle(phrases.English.Say("goes in"))
	var over []string
	for _, l := range v.Limits {
		if l.Over {
			over = append(over, l.Label+", "+l.Text)
		}
	}
	if len(over) > 1 {
		v.Text = phrases.English.Say("verdict", phrases.English.Say("word no"), strings.Join(over, phrases.English.Say("and")))
	}
	return v
}

// lengths writes a length as one that is needed or as one that there is.
func lengths(in measure.System) func(float64, bool) string {
	return func(l float64, needed bool) string {
		if needed {
			return in.AtLeast(measure.Inches(l))
		}
		return in.AtMost(measure.Inches(l))
	}
}
