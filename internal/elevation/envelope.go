package elevation

import (
	"fmt"
	"html"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// An Envelope shows what is allowed for one load, as a drawing and in words: how far behind
// the front its middle may be, for each weight.
type Envelope struct {
	SVG   string
	Long  string // the load it is drawn for
	Words []Line
}

// A Line gives a weight and where its middle may be, in both systems of units.
type Line struct {
	Text   string // in pounds and feet
	Metric string // the same in metric units
}

// The envelope is drawn for a load ten feet long, or as long as the deck if that is shorter:
// common practice, no source.
const usualLoad measure.Inches = 10 * measure.InchesPerFoot

// The area of the drawing, in its own units.
const (
	envelopeLeft, envelopeTop   = 8.0, 34.0
	envelopeWide, envelopeTall  = 344.0, 150.0
	envelopeRight, envelopeFoot = envelopeLeft + envelopeWide, envelopeTop + envelopeTall
)

// EnvelopeOf draws what one load may weigh and where its middle may be. It returns false if
// the trailer's dimensions do not tell, or if no load is allowed.
func EnvelopeOf(w *compute.Work) (Envelope, bool) {
	rig, needs := compute.RigOf(w)
	if len(needs) > 0 {
		return Envelope{}, false
	}
	long := min(usualLoad, rig.Length)
	corners := rig.Envelope(long)
	if len(corners) == 0 {
		return Envelope{}, false
	}
	most := corners[0].Weight
	for _, c := range corners {
		most = max(most, c.Weight)
	}
	var path strings.Builder
	for i, c := range corners {
		x := envelopeLeft + float64(float64(c.Behind)/float64(rig.Length)*envelopeWide)
		y := envelopeFoot - float64(float64(c.Weight)/float64(most)*envelopeTall)
		_, _ = fmt.Fprintf(&path, "%c%.1f %.1f", "ML"[min(i, 1)], x, y)
	}
	space := w.Space.Name
	e := Envelope{Long: long.InFeet()}
	for _, weight := range []measure.Pounds{most, most.Part(1, 2), most.Part(1, 4)} {
		weight = measure.Down(weight, 1)
		at := rig.Window(compute.Load{Weight: weight, Length: long})
		say := func(s measure.System) string {
			return s.Limit(weight) + ": " + strings.ReplaceAll(at.In(s), "deck's", space+"'s")
		}
		e.Words = append(e.Words, Line{say(measure.American), say(measure.Metric)})
	}
	title := html.EscapeString(fmt.Sprintf("What one load of %s may weigh and where its middle may be", long.InFeet()))
	e.SVG = fmt.Sprintf(`<svg class="el" viewBox="0 0 360 214" role="img" aria-labelledby="envelope-t"><title id="envelope-t">%s</title><path class="el-room" d="%sZ"/>`+
		`<path fill="none" stroke="currentColor" stroke-width="2" d="M%[3]g %[4]gV%[5]gH%[6]gV%[4]g"/>`+
		`<g fill="currentColor" font-size="14" font-family="system-ui,sans-serif"><text x="%[3]g" y="22">%[7]s at most</text>`+
		`<text x="%[3]g" y="206">front</text><text x="%[6]g" y="206" text-anchor="end">%[8]s back</text></g></svg>`,
		title, path.String(), envelopeLeft, envelopeTop, envelopeFoot, envelopeRight, most.Limit(), rig.Length.InFeet())
	return e, true
}
