package inspect

import "tarepage/internal/measure"

// trailerSpeed is what a trailer tire without a symbol is good for: 65 mph, as two trade
// sources have it.
const trailerSpeed measure.MilesPerHour = 65

var speedSymbolLow = &Rule{
	Name: "speed-symbol-low", Severity: Caution,
	Title:  "tires good for less than 65 mph say so",
	Why:    "At highway speed a tire past its symbol heats until it comes apart, loaded or not.",
	Source: "UN R30 and R54 (speed symbols); 65 mph for trailer tires without a symbol, two trade sources",
	Remedy: "tell the customer the speed, or fit tires of a higher symbol",
	check: func(c *Case, f *Findings) {
		v := c.Work.TireSpeed
		if v.Known && v.Value < trailerSpeed {
			f.add(c.Tires.Service.Pos, "the tires are good for %s, trailer tires usually for %s", v.Value.Limit(), trailerSpeed).
				figures(v.Value.Limit(), trailerSpeed.String())
		}
	},
}
