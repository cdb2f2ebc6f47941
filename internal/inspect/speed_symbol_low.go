package inspect

import "tarepage/internal/measure"

// trailerSpeed is what a trailer tire without a symbol is rated for: 65 mph, according to two trade
// sources.
const trailerSpeed measure.MilesPerHour = 65

var speedSymbolLow = &Rule{
	Name: "speed-symbol-low", Severity: Caution,
	Title:  "tires rated for less than 65 mph say so",
	Why:    "A tire driven faster than its symbol allows heats up until it comes apart, loaded or not.",
	Source: "UN R30 and R54 (speed symbols); 65 mph for trailer tires without a symbol, two trade sources",
	Remedy: "tell the customer the speed, or fit tires with a higher speed symbol",
	check: func(c *Case, f *Findings) {
		v := c.Work.TireSpeed
		if v.Known && v.Value < trailerSpeed {
			f.add(c.Tires.Service.Pos, "the tires are rated for %s; trailer tires are usually rated for %s", v.Value.Limit(), trailerSpeed).
				figures(v.Value.Limit(), trailerSpeed.String())
		}
	},
}
