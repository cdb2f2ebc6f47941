package compute

import "tarepage/internal/measure"

// Surge brakes: 49 CFR 393.48(d)(1) (2015, from 72 FR 9870 of 2007). A trailer up to
// 12,000 lb may weigh 1.75 times the truck, a heavier one 1.25 times, and from 20,001 lb
// on there are none. At 12,000 lb the least truck jumps from 6,857 to 9,601 lb.
const (
	// SurgeLight is the largest trailer GVWR for the factor 1.75.
	SurgeLight measure.Pounds = 12000
	// SurgeNever is the trailer GVWR from which surge brakes are not allowed.
	SurgeNever measure.Pounds = 20001
)

// SurgeTruck is the least GVWR of a truck that may tow a trailer of this GVWR on surge
// brakes; the trailer's actual weight counts where it is more (393.48(d)(3)). It reports
// false where no truck may, and where the trailer's weight is not above zero.
func SurgeTruck(trailer measure.Pounds) (measure.Pounds, bool) {
	switch {
	case !(trailer > 0) || trailer >= SurgeNever:
		return 0, false
	case trailer <= SurgeLight:
		return trailer.Part(4, 7), true
	}
	return trailer.Part(4, 5), true
}

var surgeTruck = &Definition{
	Name: "surge-truck", Label: "Truck for its surge brakes, at least",
	What:    "The least GVWR of a truck that may tow this trailer on its surge brakes. The trailer's actual weight counts where it is more than its GVWR; states may ask for more.",
	Formula: "GVWR / 1.75 up to 12,000 lb; GVWR / 1.25 above that and below 20,001 lb",
	Unit:    "lb", Source: "49 CFR 393.48(d)",
	work: func(p *calc) {
		if p.Unit.Brakes.Kind.Value != "surge" {
			p.skip()
			return
		}
		gvwr := need(p, p.Unit.Weights.GVWR, "weights.gvwr")
		if !p.ready() {
			return
		}
		least, ok := SurgeTruck(gvwr)
		if !ok {
			// No truck may: the rule surge-brakes-over says so at its place.
			p.skip()
			return
		}
		ratio := "1.75"
		if gvwr > SurgeLight {
			ratio = "1.25"
		}
		p.SurgeTruck = p.load(least, say("%s / %s", gvwr, ratio))
	},
}
