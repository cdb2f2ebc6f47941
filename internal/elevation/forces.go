package elevation

import (
	"fmt"
	"html"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// Forces are what presses down on a trailer with its payload spread evenly, and what holds it
// up: the example from which a reader sees how the figures come about.
type Forces struct {
	// Empty and Payload press down, Truck and Axles hold up.
	Empty, Payload, Truck, Axles string
	// Tongue is the part of Empty that is on the truck without a load.
	Tongue string
	// Balance is where the empty trailer balances, Middle where the middle of the load is, and
	// Group the middle of the axles, each behind the hitch.
	Balance, Middle, Group string

	balance, middle, group, front, back measure.Inches
}

// ForcesOf returns false where the tongue was not weighed, where a figure is missing or where
// the load would lift the hitch.
func ForcesOf(w *compute.Work) (*Forces, bool) {
	rig, needs := compute.RigOf(w)
	if len(needs) > 0 || !w.Payload.Known || w.Payload.Value < 1 {
		return nil, false
	}
	middle := rig.Front + rig.Length.Half()
	tongue, _ := rig.Standing([]compute.Placed{{Load: compute.Load{Weight: w.Payload.Value}, Behind: rig.Length.Half()}})
	truck, axles, balance := w.Figure("tongue-at-payload"), w.Figure("axles-at-payload"), w.Figure("empty-center")
	if truck == nil || axles == nil || balance == nil || balance.Estimated || tongue <= 0 || rig.Tongue <= 0 {
		return nil, false
	}
	// A figure may rest on more than the deck's middle, as a tank's does.
	if off := tongue - measure.Pounds(truck.Value); off > 1 || off < -1 {
		return nil, false
	}
	return &Forces{
		Empty: w.Unit.Weights.Empty.Words(), Payload: w.Figure("payload").Text, Truck: truck.Text, Axles: axles.Text,
		Tongue: measure.American.Load(rig.Tongue), Balance: balance.Text, Middle: middle.InFeet(), Group: rig.Axles.InFeet(),
		balance: measure.Inches(balance.Value * float64(measure.InchesPerFoot)), middle: middle, group: rig.Axles, front: rig.Front, back: rig.Front + rig.Length,
	}, true
}

// The drawing's own units: where the hitch is and how wide the trailer is, and the heights of
// the beam, the arrows and the texts.
const (
	forcesLeft, forcesWide       = 14.0, 332.0
	forcesBeam, forcesFoot       = 96.0, 142.0
	forcesUpper, forcesLower     = 18.0, 44.0
	forcesRule, forcesRuleHeight = 184.0, 26.0
	forcesRight, forcesText      = 356.0, 130.0
)

// SVG draws them. Label writes a text: "empty", "load", "truck" and "axles" take a weight,
// "balance", "middle" and "group" a distance, and "title" nothing.
func (f *Forces) SVG(label func(key, amount string) string) string {
	p := &forcesPen{long: max(f.back, f.group)}
	ahead, behind := mark{f.balance, label("empty", f.Empty)}, mark{f.middle, label("load", f.Payload)}
	if ahead.at > behind.at {
		ahead, behind = behind, ahead
	}
	p.add(`<svg class="el" viewBox="0 0 360 %.0f" role="img" aria-labelledby="forces-t"><title id="forces-t">%s</title>`,
		forcesRule+2*forcesRuleHeight+8, html.EscapeString(label("title", "")))
	p.add(`<g fill="none" stroke="currentColor" stroke-width="1.5">`)
	p.add(`<path stroke-width="3" d="M%.1f %gH%.1f"/><path stroke-width="9" d="M%.1f %gH%.1f"/>`, p.x(0), forcesBeam, p.x(f.back), p.x(f.front), forcesBeam, p.x(f.back))
	// The weight ahead has its text to the left of its arrow, or, where there is no place, the one
	// behind has its text to the right of its own.
	left := p.x(ahead.at) >= forcesLeft+forcesText
	lower, upper := forcesLower, forcesUpper
	if !left {
		lower, upper = upper, lower
	}
	p.arrow(p.x(ahead.at), lower-10, forcesBeam-5)
	p.arrow(p.x(behind.at), upper-10, forcesBeam-5)
	p.arrow(p.x(0), forcesFoot, forcesBeam+3)
	p.arrow(p.x(f.group), forcesFoot, forcesBeam+6)
	rules := []mark{{f.balance, label("balance", f.Balance)}, {f.middle, label("middle", f.Middle)}, {f.group, label("group", f.Group)}}
	for i, r := range rules {
		p.add(`<path d="M%.1f %.1fH%.1fv6M%.1f %.1fv6"/>`, p.x(0), ruleAt(i), p.x(r.at), p.x(0), ruleAt(i))
	}
	p.add(`</g><g class="el-forces" fill="currentColor" font-size="14" font-family="system-ui,sans-serif">`)
	switch x := p.x(behind.at); {
	case left && x > forcesRight-forcesText:
		p.text(p.x(ahead.at)-6, lower, "end", ahead.words)
		p.text(x-6, upper, "end", behind.words)
	case left:
		p.text(p.x(ahead.at)-6, lower, "end", ahead.words)
		p.text(x+6, upper, "start", behind.words)
	case x > forcesRight-forcesText:
		p.text(p.x(ahead.at)+6, lower, "start", ahead.words)
		p.text(x-6, upper, "end", behind.words)
	default:
		p.text(p.x(ahead.at)+6, lower, "start", ahead.words)
		p.text(x+6, upper, "start", behind.words)
	}
	p.text(4, forcesFoot+16, "start", label("truck", f.Truck))
	p.text(forcesRight, forcesFoot+16, "end", label("axles", f.Axles))
	for i, r := range rules {
		p.text(p.x(0)+6, ruleAt(i)-4, "start", r.words)
	}
	p.add(`</g></svg>`)
	return p.String()
}

// ruleAt is the height of the distance with a number.
func ruleAt(i int) float64 { return forcesRule + float64(float64(i)*forcesRuleHeight) }

// mark is a place behind the hitch with what is written about it.
type mark struct {
	at    measure.Inches
	words string
}

// forcesPen draws a trailer of a length.
type forcesPen struct {
	strings.Builder
	long measure.Inches
}

func (p *forcesPen) add(form string, parts ...any) { _, _ = fmt.Fprintf(p, form, parts...) }

// x is where a place behind the hitch is in the drawing.
func (p *forcesPen) x(in measure.Inches) float64 {
	return forcesLeft + float64(float64(in)/float64(p.long)*forcesWide)
}

func (p *forcesPen) text(x, y float64, anchor, words string) {
	p.add(`<text x="%.1f" y="%.1f" text-anchor="%s">%s</text>`, x, y, anchor, html.EscapeString(words))
}

// arrow goes from one height to the other.
func (p *forcesPen) arrow(x, from, to float64) {
	head := 8.0
	if to < from {
		head = -head
	}
	p.add(`<path d="M%.1f %.1fV%.1f"/><path fill="currentColor" d="M%.1f %.1fl-4 %.0fh8z"/>`, x, from, to-head/2, x, to, -head)
}
