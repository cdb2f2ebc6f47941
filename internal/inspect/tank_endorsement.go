package inspect

import "tarepage/internal/measure"

// tankVehicle is the volume from which a commercial vehicle with a tank is a tank vehicle.
const tankVehicle measure.Gallons = 1000

var tankEndorsement = &Rule{
	Name: "tank-endorsement", Severity: Caution,
	Title:  "a tank of 1,000 gallons or more says that it can take a tank endorsement",
	Why:    "A driver whose license lacks the endorsement is put out of service at the first inspection.",
	Source: "49 CFR 383.5 (tank vehicle, as amended by 76 FR 26854): tanks of more than 119 gallons each and 1,000 gallons or more together; 383.93(b)(3)",
	Remedy: "tell the customer to ask the state's license office",
	check: func(c *Case, f *Findings) {
		if v := c.Tank.Volume; v.Given() && measure.NotOver(tankVehicle, v.Value) {
			f.add(v.Pos, "the tank holds %s: where the truck and trailer take a commercial license, it takes the tank endorsement too", v.Words()).
				figures(v.Words(), "1,000 gal")
		}
	},
}
