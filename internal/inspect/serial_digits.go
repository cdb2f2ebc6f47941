package inspect

import "strings"

var serialDigits = &Rule{
	Name: "serial-digits", Severity: Remark,
	Title:  "the last four characters of a trailer's VIN are digits",
	Why:    "A letter there is usually a misread digit, an S for a 5 or a B for an 8.",
	Source: "49 CFR 565.15(d) (2015): of a trailer the last four characters are numeric",
	Remedy: "read the VIN off the label again",
	check: func(c *Case, f *Findings) {
		vin := c.Serial.Value
		if !c.Serial.Given() || len(vin) != 17 || otherSerial(c) {
			return
		}
		if last := vin[13:]; strings.Trim(last, "0123456789") != "" {
			f.add(c.Serial.Pos, "serial %s ends in %s; a trailer's VIN ends in four digits", vin, last).figures(last, "four digits")
		}
	},
}
