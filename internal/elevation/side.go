package elevation

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// The paper of the shop drawing: its width, the largest height of the trailer on it, and the
// largest scale, so that a small trailer does not get thin lines and huge tires.
const (
	paperWide   = 1000.0
	paperMargin = 12.0
	mostTall    = 300.0
	mostPerInch = 4.2
)

// Side is the shop drawing of a unit: the side view to scale with dimension lines, the
// hitch at the left. It is one SVG element with a title and a description; classes and
// presentation attributes only, no style. It returns false if the unit states no length
// that can be drawn.
func Side(w *compute.Work) (svg string, ok bool) {
	f, ok := factsOf(w)
	if !ok {
		return "", false
	}
	d := draw(&f)
	e := d.extent()
	ups := f.uprights()
	col := column(ups)
	room := paperWide - paperMargin - paperMargin - col
	p := plot{perInch: min(perInch(room, e.right-e.left), perInch(mostTall, e.top), mostPerInch)}
	p.ball = paperMargin + float64((room-p.size(e.right-e.left))/2) - p.size(e.left)

	// The first layout has the ground at 0. It tells how low the ground must be.
	p.ground = math.Ceil(paperMargin - min(p.y(e.top)-tick, f.over(d, p).reach))
	over, under := f.over(d, p), f.under(p)
	s := &sheet{}
	s.uprights(ups, p, p.x(f.rear()), p.x(e.right)+rearClear)
	tall := math.Ceil(max(p.ground+textHigh, under.reach) + paperMargin)

	var b strings.Builder
	id := "el-" + f.name()
	b.WriteString(`<svg class="el" viewBox="0 0 1000 ` + num(tall) + `" role="img" aria-labelledby="` + id + `-t" aria-describedby="` + id +
		`-d" data-deck="` + num(p.x(f.front.Inches)) + " " + strconv.FormatFloat(p.perInch, 'f', 5, 64) + " " + num(p.y(f.floor.Inches)) + " " + num(p.ground) + " " + num(p.y(e.top)) + f.falls(p) + `" fill="currentColor" stroke-linejoin="round"><title id="` + id + `-t">` + escape(f.title()) +
		`</title><desc id="` + id + `-d">` + escape(f.words()) + `</desc>`)
	d.write(&b, p, 3, false)
	b.WriteString(`<path class="el-ground" fill="none" stroke="currentColor" stroke-width="3" d="M` +
		num(paperMargin) + " " + num(p.ground+1.5) + "H" + num(paperWide-paperMargin) + `"/>`)
	b.WriteString(`<path class="el-dim" fill="none" stroke="currentColor" stroke-width="2" d="` +
		over.lines.String() + s.lines.String() + under.lines.String() + `"/>`)
	b.WriteString(`<g class="el-dim-text" font-size="39.6" font-family="system-ui,sans-serif" text-anchor="middle">` +
		over.texts.String() + s.texts.String() + under.texts.String() + `</g></svg>`)
	return b.String(), true
}

// falls is where a fixed dovetail begins and how high its end is, after a space, or "" where the
// whole deck is level.
func (f *facts) falls(p plot) string {
	if f.tailKind != "fixed dovetail" || f.hinge() <= f.front.Inches || f.tailEnd.Inches >= f.floor.Inches {
		return ""
	}
	return " " + num(p.x(f.hinge())) + " " + num(p.y(f.tailEnd.Inches))
}

// perInch is the scale at which the length in needs room units.
func perInch(room float64, in measure.Inches) float64 {
	return room / max(float64(in), 1)
}

// uprights returns the heights that somebody measured.
func (f *facts) uprights() []upright {
	var us []upright
	if _, well := (&drawing{}).lowboy(f); well {
		return nil // the deck over the wheels, at the rear, is higher than the well
	}
	if !f.floor.guess {
		us = append(us, upright{0, f.floor.Inches, f.floor.inches()})
	}
	if f.space != "deck" && f.sides.Inches > 0 && !f.sides.guess && !f.floor.guess {
		us = append(us, upright{f.floor.Inches, f.floor.Inches + f.sides.Inches, f.sides.inches()})
	}
	return us
}

// over puts the dimensions of the deck above it: the flat and the tail, then the whole.
func (f *facts) over(d *drawing, p plot) *sheet {
	s := &sheet{width: paperWide}
	rear := f.rear()
	y := p.y(d.highest(f.front.Inches, rear)) - topClear
	start := y + topClear - gap
	least := 0
	if !f.tail.guess && f.tailKind != "" && f.tail.Inches < f.length.Inches {
		flat := f.flat
		if flat.guess {
			flat = length{Inches: f.length.Inches - f.tail.Inches, about: f.length.about || f.tail.about}
		}
		names := [2]string{" flat", " tail"}
		if f.tailKind == "tilt" {
			names = [2]string{" fixed", " tilts"}
		}
		hinge := p.x(f.hinge())
		a := s.place(dimension{from: p.x(f.front.Inches), to: hinge, start: start, stop: start,
			long: flat.text() + names[0], short: flat.text(), within: true}, 0, y, -row)
		b := s.place(dimension{from: hinge, to: p.x(rear), start: start, stop: start,
			long: f.tail.text() + names[1], short: f.tail.text(), within: true}, 0, y, -row)
		if a >= 0 || b >= 0 {
			least = 1
		}
	}
	if _, ok := (&drawing{}).lowboy(f); ok {
		well := f.unit.Deck.Well.Value
		text := well.Near() + " well"
		if f.unit.Deck.WellUp.Given() || !f.floor.guess {
			text += ", " + f.wellHigh().InInches() + " high"
		}
		if s.place(dimension{from: p.x(f.front.Inches), to: p.x(f.front.Inches + well), start: start, stop: start,
			long: text, short: well.Near(), within: true}, 0, y, -row) >= 0 {
			least = 1
		}
	}
	if f.length.guess {
		s.reach = y - textLift - textHigh
		return s
	}
	s.place(dimension{from: p.x(f.front.Inches), to: p.x(rear), start: start, stop: start,
		long: f.length.text() + " " + f.space, short: f.length.text(), within: true}, least, y, -row)
	s.reach = y - float64(row*float64(max(s.used-1, 0))) - textLift - textHigh
	return s
}

// under puts the other dimensions below the ground: the front and the spacing of the axles,
// ball to axles, ball to rear.
func (f *facts) under(p plot) *sheet {
	s := &sheet{width: paperWide}
	ground := p.ground + gap
	first := p.ground + row + 4
	ball, front, rear := p.x(0), p.x(f.front.Inches), p.x(f.rear())
	coupled := p.y(f.coupled()) + gap
	middle := ground // where the line down from the group's middle begins
	center := p.x(f.center.Inches)
	// Each line first notes the extension lines that later dimensions need.
	ends := []float64{ball}
	if !f.front.guess {
		ends = append(ends, rear)
	}
	s.shut = ends
	if !f.front.guess {
		s.shut = append(slices.Clone(ends), front)
	}
	if f.axles > 1 && !f.spacing.guess && !f.center.guess && !f.axlesGuess {
		d := dimension{from: p.x(f.axle(0)), to: p.x(f.axle(f.axles - 1)), start: ground, stop: ground, short: f.spacing.inches()}
		for i := 1; i < f.axles-1; i++ {
			d.between = append(d.between, p.x(f.axle(i)))
		}
		if f.axles > 2 {
			d.short = measure.Count(f.axles-1) + " x " + d.short
		}
		d.long = d.short + " axle to axle"
		if at := s.place(d, 0, first, row); at >= 0 {
			// The middle of the group starts at the spacing's line, away from its text.
			middle = first + float64(row*float64(at))
		}
	}
	s.shut = ends
	if !f.center.guess {
		s.shut = append(slices.Clone(ends), center)
	}
	if !f.front.guess {
		s.place(dimension{from: ball, to: front, start: coupled, stop: ground,
			long: f.front.text(), short: f.front.text()}, 0, first, row)
	}
	s.shut = ends
	if !f.center.guess {
		s.place(dimension{from: ball, to: center, start: coupled, stop: middle,
			long: f.center.text() + " " + f.point() + " to axles", short: f.center.text()}, 0, first, row)
	}
	s.shut = nil
	if !f.front.guess && !f.length.guess {
		all := length{Inches: f.front.Inches + f.length.Inches, about: f.front.about || f.length.about}
		s.place(dimension{from: ball, to: rear, start: coupled, stop: ground,
			long: all.text() + " " + f.point() + " to rear", short: all.text()}, s.used, first, row)
	}
	return s
}

// write draws the trailer, layer by layer. line is the width of an outline. Small drawings
// are solid: they have no tint, slits for thin lines, and no phantom positions.
func (d *drawing) write(b *strings.Builder, p plot, line float64, small bool) {
	tint := ` fill-opacity=".12"`
	dash, phantom := "9 7", "24 6 5 6"
	if small {
		tint, dash = "", "3 2"
	}
	path := func(l layer, class, attributes string) {
		if data := d.path(l, p); data != "" {
			b.WriteString(`<path class="` + class + `"` + attributes + ` d="` + data + `"/>`)
		}
	}
	stroke := ` stroke="currentColor" stroke-width="` + num(line) + `"`
	thin := ` fill="none" stroke="currentColor" stroke-width="2"`
	path(shell, "el-shell", tint+stroke)
	path(body, "el-body", "")
	path(tail, "el-tail", "")
	if small {
		path(trim, "el-slit", ` fill="none" stroke="#fff"`)
	} else {
		path(trim, "el-line", thin)
		path(swing, "el-swing", thin+` stroke-dasharray="`+phantom+`"`)
	}
	for _, r := range d.rings {
		if !r.guess {
			r.write(b, p, line, small)
		}
	}
	path(front, "el-body el-fender", "")
	path(guess, "el-guess", ` fill="none" stroke="currentColor" stroke-width="`+num(max(line-0.5, 1))+`" stroke-dasharray="`+dash+`"`)
	for _, r := range d.rings {
		if r.guess {
			b.WriteString(`<circle class="el-guess"` + r.round(r.r, p) + ` fill="none" stroke="currentColor" stroke-width="` +
				num(max(line-0.5, 1)) + `" stroke-dasharray="` + dash + `"/>`)
		}
	}
}

// write draws a wheel: the tire with a light edge against the steel next to it, the rim in
// the color of the paper, and the hub.
func (r ring) write(b *strings.Builder, p plot, line float64, small bool) {
	edge := ` stroke="#fff" stroke-width="` + num(line+line) + `" paint-order="stroke"`
	b.WriteString(`<circle class="el-wheel"` + r.round(r.r, p) + edge + `/>`)
	b.WriteString(`<circle class="el-paper" fill="#fff"` + r.round(r.rim, p) + `/>`)
	if small || r.hub == 0 {
		return
	}
	if r.dish > 0 {
		b.WriteString(`<circle class="el-line" fill="none" stroke="currentColor" stroke-width="2"` + r.round(r.dish, p) + `/>`)
	}
	b.WriteString(`<circle class="el-body"` + r.round(r.hub, p) + `/>`)
}

func (r ring) round(radius measure.Inches, p plot) string {
	return ` cx="` + num(p.x(r.center.x)) + `" cy="` + num(p.y(r.center.y)) + `" r="` + num(p.size(radius)) + `"`
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

func escape(s string) string { return escaper.Replace(s) }
