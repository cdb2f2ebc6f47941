package inspect

import (
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

var payloadWithoutPlace = &Rule{
	Name: "payload-without-place", Severity: Stop,
	Title:  "there is a place for a load as heavy as the payload",
	Why:    "Wherever that load is put, the tongue is outside every published band or a rating is passed: the trailer sways, or the hitch or the axles are overloaded.",
	Source: "statics; the tongue band table, the widest band of those published",
	Remedy: "check the tongue weight and the distances on the trailer; if they are right, the label's rating is not one that it can be loaded to",
	check: func(c *Case, f *Findings) {
		w := c.Work
		band, ok := w.Band()
		if !w.Payload.Known || !ok || !w.TongueWeighed() {
			return // Without a weighed tongue nobody knows; the page says that.
		}
		load := measure.Down(w.Payload.Value, 1)
		at := c.Weights.TongueEmpty.Pos
		if !placeable(c) {
			share := w.TongueShareAtPayload
			if !share.Known || measure.NotOver(band.Widest[0], share.Value) && measure.NotOver(share.Value, band.Widest[1]) {
				return
			}
			f.add(at, "filled with its payload of %s it has %s on the truck, every published band lies within %s to %s",
				load, share.Value.Near(), band.Widest[0], band.Widest[1]).
				figures(share.Value.Near(), band.Widest[0].String()+" to "+band.Widest[1].String()).
				also(c.Axles.Center.Pos, "the middle of the axles is given here")
			return
		}
		rig, needs := compute.RigOf(w)
		if len(needs) > 0 || load < 1 {
			return
		}
		rig.Least, rig.Most = band.Widest[0], band.Widest[1]
		window := rig.Window(compute.Load{Weight: load})
		if window.Room {
			return
		}
		f.add(at, "a compact load of the payload, %s, has no place: %s", load, strings.TrimPrefix(window.Text(), "nowhere: ")).
			also(c.Axles.Center.Pos, "the middle of the axles is given here").
			also(c.Weights.GVWR.Pos, "the GVWR is given here")
	},
}

// placeable reports whether a load can be put farther forward or back. What fills a bed, a
// tank, a hull or a stock box fills it as a whole.
func placeable(c *Case) bool {
	kind := kinds.Of(c.Kind.Value)
	return kind.Securing == kinds.TiedDown && (c.Work.Space.Name == string(kinds.Deck) || c.Work.Space.Name == string(kinds.Box))
}
