package compute

import (
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/tables"
)

// Liquid is what the unit's tank is filled with: what the unit says, or what tanks of its kind
// are made for. It is empty for a trailer without a tank.
func (w *Work) Liquid() string {
	if l := w.Unit.Tank.Liquid; l.Given() {
		return l.Value
	}
	if !w.Unit.Tank.Volume.Given() {
		return ""
	}
	return kinds.Of(w.Unit.Kind.Value).Liquid
}

// liquid is how heavy a gallon of it is.
func (p *calc) liquid() measure.PoundsPerGallon {
	name := p.Liquid()
	if l := p.Unit.Tank.Liquid; l.Given() {
		p.use("tank.liquid", say("%s", l.Value), l.About, l.From, l.Pos)
	}
	row, ok := tables.Liquid(name)
	if !ok {
		p.lack("tank.liquid")
		return 0
	}
	p.note("%s weighs up to %s: %s", name, row.Density, row.Source)
	return row.Density
}

var tankFull = &Definition{
	Name: "tank-full", Label: "Full tank",
	What:    "What a full tank weighs, without the tank itself. The heaviest form of the liquid counts.",
	Formula: "volume x weight of a gallon",
	Unit:    "lb", Source: "the table of liquids",
	work: func(p *calc) {
		if p.Liquid() == "" {
			p.skip()
			return
		}
		volume, density := need(p, p.Unit.Tank.Volume, "tank.volume"), p.liquid()
		if !p.ready() {
			return
		}
		p.TankFull = p.load(measure.WeightOfLiquid(volume, density), say("%s x %s", near{volume}, density))
	},
}

var tankMost = &Definition{
	Name: "tank-most", Label: "Fill the tank to",
	What:    "How much of the liquid the payload allows, and no more than the tank holds. Pump, hose and whatever else rides on it come off first.",
	Formula: "the smaller of payload / weight of a gallon and the tank's volume",
	Unit:    "gal", Source: "the table of liquids",
	work: func(p *calc) {
		if p.Liquid() == "" {
			p.skip()
			return
		}
		volume, density := need(p, p.Unit.Tank.Volume, "tank.volume"), p.liquid()
		full := rest(p, p.Payload, "payload")
		if !p.ready() {
			return
		}
		most := measure.LiquidOfWeight(full, density)
		working := say("%s / %s", near{full}, density)
		if measure.NotOver(volume, most) {
			most, working = volume, say("the tank's %s; the payload would allow %s", near{volume}, near{measure.Down(most, 1)})
		}
		p.bound = atMost
		p.enter(float64(most), measure.Down(most, 1).String(), 1, working)
		p.TankMost = Result[measure.Gallons]{Value: most, Known: true}
	},
}
