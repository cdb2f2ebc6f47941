package inspect

import (
	"fmt"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var saidNotConfirmed = &Rule{
	Name: "said-not-confirmed", Severity: Stop,
	Title:  "what was only said in the recording is confirmed by reading or measuring it",
	Why:    "Everything rests on the gvwr, the axle rating, the tires and the hitch, and a slip of the tongue would be on every page. Measure whatever else was only said before you count on it.",
	Source: "49 CFR 567.4 (2015): the label states the ratings; a recording does not",
	Remedy: "read it off the label or the part and write where you read it, as in (tag)",
	check: func(c *Case, f *Findings) {
		var rest []unit.Given
		for _, g := range c.Said() {
			r, stops := ratings[g.Path]
			if !stops {
				rest = append(rest, g)
				continue
			}
			f.add(g.Pos, "%s was only said%s: %s", r.what, when(g), g.Text).fix("read it off the %s and write (%s) after it", r.part, r.note)
		}
		switch len(rest) {
		case 0:
			return
		case 1:
			f.add(rest[0].Pos, "%s was only said%s: %s", rest[0].Path, when(rest[0]), rest[0].Text).
				only(Caution).fix("measure it or read it, and write where it comes from, as in (tape) or (scale ticket 2026-11-03)")
			return
		}
		// One finding for all of them: a customer reads one warning, not twenty.
		text := fmt.Sprintf("%d values were only said: ", len(rest))
		for i, g := range rest {
			if i > 0 {
				text += ", "
			}
			text += g.Path + " " + g.Text
		}
		found := f.add(rest[0].Pos, "%s", text).only(Caution).
			fix("measure or read each, and write where it comes from, as in (tape) or (scale ticket 2026-11-03)")
		for _, g := range rest[1:] {
			found.also(g.Pos, g.Path+" is here")
		}
	},
}

// when is the time at which a value was said, if it was written down.
func when(g unit.Given) string {
	if !g.From.Timed {
		return ""
	}
	return " at " + measure.Clock(int(g.From.At))
}

// ratings are the values for which a recording is not enough: what they are called, and
// where to read them. The sidewall governs over any table, and the rest set limits.
var ratings = map[string]struct{ what, part, note string }{
	"weights.gvwr":            {"gvwr", "label", "tag"},
	"axles.rating":            {"the axle rating", "label", "tag"},
	"tires.size":              {"the tire size", "tire", "sidewall"},
	"tires.load-range":        {"the load range", "tire", "sidewall"},
	"tires.ply":               {"the ply rating", "tire", "sidewall"},
	"tires.sidewall.single":   {"the sidewall's single rating", "tire", "sidewall"},
	"tires.sidewall.dual":     {"the sidewall's dual rating", "tire", "sidewall"},
	"tires.sidewall.pressure": {"the sidewall's pressure", "tire", "sidewall"},
	"tires.wheel":             {"the wheel's rating", "wheel", "stamp"},
	"hitch.rating":            {"the coupler's rating", "coupler plate", "coupler plate"},
	"hitch.ball-rating":       {"the ball's rating", "ball", "stamp"},
	"hitch.tongue-limit":      {"the tongue limit", "coupler plate", "coupler plate"},
	"hitch.chains.breaking":   {"the chains' breaking force", "chain's tag", "tag"},
}
