package inspect

import "tarepage/internal/measure"

var tongueOutOfBand = &Rule{
	Name: "tongue-out-of-band", Severity: Caution,
	Title:  "with an even load the tongue's share is within the band",
	Why:    "Too little on the tongue and the trailer sways; too much and the truck's rear axle and hitch are overloaded.",
	Source: "general guidance in towing manuals, from memory: bumper-pull 10 to 15%, gooseneck and fifth-wheel 15 to 25%",
	Remedy: "tell the customer where to load it: forward for more on the tongue, back for less, and weigh it loaded",
	check: func(c *Case, f *Findings) {
		share := c.Work.TongueShare
		band, ok := c.Work.Settings.Bands[c.Hitch.Kind.Value]
		if !share.Known || !ok {
			return
		}
		// The band is inclusive: 10% and 15% themselves are fine.
		tongue, gvwr := c.Work.TongueAtGVWR.Value, c.Weights.GVWR.Value
		least, most := band.Least.Of(gvwr), band.Most.Of(gvwr)
		var words, limit string
		switch {
		case !measure.NotOver(least, tongue):
			words, limit = "less than", least.Load()+" ("+band.Least.String()+")"
		case !measure.NotOver(tongue, most):
			words, limit = "more than", most.Limit()+" ("+band.Most.String()+")"
		default:
			return
		}
		at := c.Weights.TongueEmpty.Pos
		if !at.Known() {
			at = c.Weights.Empty.Pos
		}
		// What is too little goes down and what is too much goes up, so that the text never
		// says of a number that it is less than itself.
		puts := tongue.Load()
		if words == "less than" {
			puts = tongue.Limit()
		}
		value := "puts " + puts + " on the truck"
		if tongue < 0 {
			value = "lifts the hitch with " + (-tongue).Load()
		}
		fd := f.add(at, "loaded evenly to gvwr it %s, %s the %s advised for a %s",
			value, words, limit, c.Hitch.Kind.Value).
			figures(puts, limit).
			also(c.Axles.Center.Pos, "the middle of the axles stands here").
			also(band.At, "the yard's own band stands here")
		if fig := c.Work.Figure("tongue-at-gvwr"); fig != nil && fig.Estimated {
			fd.Message += " (estimated from the parts)"
			fd.fix("weigh the tongue empty and write weights.tongue-empty")
			return
		}
		if words == "less than" {
			fd.fix("load it farther forward than the middle, and weigh the tongue")
		} else {
			fd.fix("load it farther back than the middle, and weigh the tongue")
		}
	},
}
