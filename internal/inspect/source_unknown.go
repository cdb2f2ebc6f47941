package inspect

import (
	"slices"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var sourceUnknown = &Rule{
	Name: "source-unknown", Severity: Stop,
	Title:  "a note after a rating or an empty weight names what it was read on",
	Why:    "The page shows the note as the reason to believe the number. A name, a website or another trailer is not a reason: only the part itself, its papers or a scale is.",
	Source: "49 CFR 567.4 (2015): the label states the ratings",
	Remedy: "write what it was read on, as in (tag), (coupler plate) or (scale ticket 2026-11-03); your own words may follow",
	check: func(c *Case, f *Findings) {
		for _, g := range c.Givens() {
			r, rests := ratings[g.Path]
			if !rests && readOn[g.Path] == 0 || g.Path == "price" || g.From.Origin != measure.Other && g.From.Places() == 0 {
				continue
			}
			what := r.what
			if !rests {
				what = worded(g.Path)
			}
			switch from := g.From.Places(); {
			case from == 0 && !rests:
			case g.From.Text == "":
				f.add(g.Pos, "%s has empty parentheses", what)
			case from == 0:
				f.add(g.Pos, "%s comes from %q, which names nothing that it can be read on", what, g.From.Text)
			case from&readOn[g.Path] == 0:
				f.add(g.Pos, "%s comes from %q, where it cannot be read", what, g.From.Text).fix("%s", sourceFix(g.Path))
			case rests && otherWeight(g):
				f.add(g.Pos, "%s is %s, and the words after it name another weight: %q", what, g.Text, g.From.Text).
					fix("keep the number that is right, and write only what it was read on, as in (tag)")
			}
		}
	},
}

// The places where the values can be read or measured, by their keys. A certification label
// names GVWR, GAWR, tires, rims and pressures (49 CFR 567.4(g)), a tire its size and loads (49 CFR
// 571.139 S5.5), a coupler its rating (49 CFR 571.108 and SAE J684, from memory). The rest is
// common practice, no source.
const (
	papers   = measure.OnLabel | measure.OnPaper | measure.OnStamp
	scales   = measure.ByScale | measure.OnPaper | measure.OnLabel
	hitches  = papers | measure.OnHitch | measure.WhenFitted
	tiresOn  = papers | measure.OnTire | measure.OnWheel | measure.WhenFitted
	measured = measure.ByTape | measure.OnPaper | measure.OnLabel | measure.OnStamp | measure.OnHitch | measure.OnAxle | measure.OnFrame | measure.OnWheel | measure.OnTire | measure.WhenFitted
)

var readOn = map[string]measure.Place{
	"weights.gvwr": papers, "weights.empty": scales, "weights.tongue-empty": scales, "weights.loaded": scales,
	"axles.rating": papers | measure.OnAxle,
	"tires.size":   tiresOn, "tires.load-range": tiresOn, "tires.ply": tiresOn, "tires.sidewall.single": tiresOn, "tires.sidewall.dual": tiresOn,
	"tires.sidewall.pressure": tiresOn, "tires.wheel": tiresOn,
	"hitch.rating": hitches, "hitch.ball-rating": hitches, "hitch.tongue-limit": hitches, "hitch.chains.breaking": hitches,
	"deck.length": measured, "deck.width": measured, "axles.center": measured, "overall-width": measured, "overall-length": measured, "overall-height": measured,
}

// sourceFix says where a value is read.
func sourceFix(key string) string {
	if r, ok := ratings[key]; ok {
		return r.fix()
	}
	if readOn[key] == scales {
		return "weigh it and write the ticket's day, as in (scale ticket 2026-11-03)"
	}
	return "measure it and write (tape) after it"
}

// otherWeight reports whether the words after a weight name another one.
func otherWeight(g unit.Given) bool {
	own, is := g.Value.(measure.Pounds)
	return is && slices.ContainsFunc(promises(g.From.Text), func(p promise) bool { return !near(p.load, []measure.Pounds{own}) })
}
