package inspect

import (
	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

var tongueOutOfBand = &Rule{
	Name: "tongue-out-of-band", Severity: Caution,
	Title: "with the payload spread evenly the tongue's share is within the band",
	Why: "With too little on the tongue the trailer sways; with too much the truck's rear axle and hitch are overloaded. " +
		"Sources differ; this is the narrowest band among them. A gooseneck or fifth-wheel that only the widest one allows is a remark.",
	Source: "the tongue band table: a trailer maker's printed manual and general towing guidance; statics",
	Remedy: "tell the customer where to load: forward for more weight on the tongue, back for less; then weigh it",
	check: func(c *Case, f *Findings) {
		share, fig := c.Work.TongueShareAtPayload, c.Work.Figure("tongue-at-payload")
		band, ok := c.Work.Band()
		if !share.Known || fig == nil || !ok {
			return
		}
		tongue, total := c.Work.TongueAtPayload.Value, loadedWeight(c.Work)
		least, most := band.Least.Of(total), band.Most.Of(total)
		// The band is inclusive: 10% and 15% themselves are fine.
		low := !measure.NotOver(least, tongue)
		if !low && measure.NotOver(tongue, most) {
			return
		}
		words, limit, advice := "more than", most.Limit()+" ("+band.Most.String()+")", "back"
		if low {
			words, limit, advice = "less than", least.Load()+" ("+band.Least.String()+")", "forward"
			if fig.Text == least.Load() {
				words = "just under" // Both are rounded up, and read alike.
			}
		}
		at := c.Weights.TongueEmpty.Pos
		if !at.Known() {
			at = c.Weights.Empty.Pos
		}
		value := "puts " + fig.Text + " on the truck"
		if tongue < 0 {
			value = "lifts the hitch with " + (-tongue).Load()
		}
		fd := f.add(at, "with its payload spread evenly it %s, %s the %s advised for a %s", value, words, limit, coupling(c)).
			figures(fig.Text, limit).
			also(c.Axles.Center.Pos, "the middle of the axles is given here").
			also(band.At, "the yard's own band is given here").
			fix("load it farther %s than the middle, and weigh the tongue", advice)
		fd.First = low
		if low && overTruckAxle(c) && !band.At.Known() && measure.NotOver(band.Widest[0].Of(total), tongue) {
			// Most ordinary goosenecks are here: other published advice allows it. The page shows
			// the share and the advice either way.
			fd.First = false
			fd.only(Remark).fix("nothing, if the truck's manual allows %s; otherwise tell the customer to load it farther %s than the middle", band.Widest[0], advice)
		}
		if band.At.Known() {
			fd.by(band.Source + "; statics")
		} else if band.Differ != "" {
			fd.by("the tongue band table: " + band.Differ + "; statics")
		}
		if fig.Estimated {
			fd.Message += " (estimated from the parts)"
			fd.fix("weigh the tongue empty and write weights.tongue-empty")
		}
	},
}

// overTruckAxle reports whether the trailer couples above the truck's rear axle, where a
// light tongue does not sway the truck as one at its bumper does (common practice, no source).
func overTruckAxle(c *Case) bool {
	return c.Hitch.Kind.Value == "gooseneck" || c.Hitch.Kind.Value == "fifth-wheel"
}

// loadedWeight is what the trailer weighs with its payload.
func loadedWeight(w *compute.Work) measure.Pounds {
	return w.TongueAtPayload.Value + w.AxlesAtPayload.Value
}

// coupling is how the trailer couples, in words.
func coupling(c *Case) string {
	if c.Work.Semitrailer() {
		return "semitrailer behind a tractor"
	}
	return c.Hitch.Kind.Value
}
