package inspect

// A remark: whoever writes the file in the morning reads the serial in the afternoon.
var serialMissing = &Rule{
	Name: "serial-missing", Severity: Remark,
	Title:  "a new trailer that has arrived has its serial number in the file",
	Why:    "Every new trailer has a VIN, and title, insurance and recalls go by it. One without may not be sold.",
	Source: "49 CFR 565.13, 567.4(g) (2015); 49 USC 30112, from memory",
	Remedy: "read it off the label or the frame, and write it under serial",
	check: func(c *Case, f *Findings) {
		if c.Condition.Value != "new" || !c.Arrived.Given() || c.Availability.Value == "on order" || c.Serial.Given() || c.Serial.Spoiled {
			return
		}
		f.add(c.Arrived.Pos, "it is new and it is here, and the file gives no serial").
			also(c.Condition.Pos, "the condition is here")
	},
}
