package inspect

import "tarepage/internal/measure"

var tankOverloads = &Rule{
	Name: "tank-overloads", Severity: Caution,
	Title:  "a tank whose full load is over the payload says how far it may be filled",
	Why:    "Whoever fills a tank fills it to the top. The trailer is then overloaded by what the label does not allow.",
	Source: "the table of liquids; 49 CFR 567.4(g)(3)",
	Remedy: "tell the customer how many gallons the payload allows, or give liquid the right name",
	check: func(c *Case, f *Findings) {
		full, payload, most := c.Work.TankFull, c.Work.Payload, c.Work.TankMost
		if !full.Known || !payload.Known || measure.NotOver(full.Value, payload.Value) {
			return
		}
		f.add(c.Tank.Volume.Pos, "full of %s the tank holds %s; the payload is %s: fill in no more than %s", c.Work.Liquid(),
			full.Value.Load(), payload.Value.Limit(), measure.Down(most.Value, 1)).
			figures(full.Value.Load(), payload.Value.Limit()).
			also(c.Weights.GVWR.Pos, "the GVWR is given here").First = true
	},
}
