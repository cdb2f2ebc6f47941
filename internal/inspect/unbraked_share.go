package inspect

import "tarepage/internal/measure"

// anyTruck is what every pickup's axles carry, so that nobody need be told. Common practice,
// no source.
const anyTruck measure.Pounds = 4500

var unbrakedShare = &Rule{
	Name: "unbraked-share", Severity: Caution,
	Title:  "a trailer without brakes says what truck it needs in commerce",
	Why:    "Behind a lighter truck a trailer without brakes is unlawful in commerce. The truck maker's own limit for trailers without brakes is often lower still.",
	Source: "49 CFR 393.42(b)(3) (2015): at most 3,000 lb gross, and an axle load of at most 40% of the sum of the towing vehicle's axle loads",
	Remedy: "tell the customer, or fit brakes",
	check: func(c *Case, f *Findings) {
		truck, gvwr := c.Work.UnbrakedTruck, c.Weights.GVWR
		if !truck.Known || !gvwr.Given() || measure.NotOver(truck.Value, anyTruck) {
			return
		}
		f.add(c.brakesAt(), "it has no brakes: for commercial use the truck's axles must carry %s or more together, the tongue included; look up your truck maker's limit for trailers without brakes too",
			truck.Value.Load()).
			also(gvwr.Pos, "gvwr is here")
	},
}
