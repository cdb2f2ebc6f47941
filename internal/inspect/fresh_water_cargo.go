package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/tables"
)

var freshWaterCargo = &Rule{
	Name: "fresh-water-cargo", Severity: Caution,
	Title:  "the page says what a tank of fresh water weighs",
	Why:    "Water is cargo.",
	Source: "49 CFR 571.110 S9.3.2, of campers; the table of liquids",
	Remedy: "tell the customer; of a camper write weights.water, so that it is taken off its cargo",
	check: func(c *Case, f *Findings) {
		fresh, payload := c.Equipment.Fresh, c.Work.Payload
		water, ok := tables.Liquid("water")
		if !ok || !fresh.Given() || fresh.Value <= 0 || !payload.Known || c.Weights.Water.Given() {
			return
		}
		full := measure.WeightOfLiquid(fresh.Value, water.Density)
		f.add(fresh.Pos, "its tank for fresh water holds %s, which weigh %s and come off the payload of %s", fresh.Words(), full.Load(), payload.Value.Limit()).
			figures(fresh.Words(), full.Load())
	},
}
