package compute

import "tarepage/internal/measure"

// UnbrakedMost is the gross weight up to which 49 CFR 393.42(b)(3) (2015) lets a
// semitrailer go without brakes: "1,361 kg (3,000 pounds) or less". Its kilograms are half
// a pound more, and a label may print them.
const UnbrakedMost = max(measure.Pounds(3000), 1361/measure.KilogramsPerPound)

// UnbrakedTruck is the least sum of the truck's axle loads, tongue included, with which a
// commercial trailer with this axle load may go without brakes: 49 CFR 393.42(b)(3), the
// axle load is at most 40 percent of it.
func UnbrakedTruck(axles measure.Pounds) measure.Pounds { return axles.Part(5, 2) }

var unbrakedTruck = &Definition{
	Name: "unbraked-truck", Label: "Truck for commercial use without trailer brakes, at least",
	What: "What the truck's axles must carry together, with this trailer's tongue on the truck, before the trailer may be used in commerce without brakes. " +
		"Your truck maker may set a lower limit for trailers without brakes, and states have their own rules.",
	Formula: "load on the trailer's axles / 0.40",
	Unit:    "lb", Source: "49 CFR 393.42(b)(3) (2015)",
	work: func(p *calc) {
		kind, gvwr := p.Unit.Brakes.Kind, p.Unit.Weights.GVWR
		if kind.Spoiled || kind.Given() && kind.Value != "none" || !gvwr.Given() || gvwr.Value > UnbrakedMost {
			p.skip()
			return
		}
		axles := need(p, gvwr, "weights.gvwr")
		if !p.ready() {
			return
		}
		working := say("%s / 0.40, with the whole weight on the axles because the tongue was not weighed", gvwr.Value)
		if on := p.AxleLoadAtGVWR; on.Known && p.Unit.Weights.TongueEmpty.Given() && on.Value < axles {
			p.inherit(p.Figure("axle-load-at-gvwr"))
			axles, working = on.Value, say("%s / 0.40", near{on.Value})
		}
		p.UnbrakedTruck = p.load(UnbrakedTruck(axles), working)
	},
}
