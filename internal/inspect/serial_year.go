package inspect

import (
	"strconv"
	"strings"
)

// vinYears are the year codes from 2010 on, 49 CFR 565.15(d) Table VII; they return
// every thirty years. I, O, Q, U, Z and 0 are not year codes.
const vinYears = "ABCDEFGHJKLMNPRSTVWXY123456789"

var serialYear = &Rule{
	Name: "serial-year", Severity: Stop,
	Title:  "the VIN's year code agrees with the model year",
	Why:    "One of the two is wrong, and the year sets the price and the title.",
	Source: "49 CFR 565.15(d) (2015), Table VII",
	Remedy: "read the label again and correct the year or the serial",
	check: func(c *Case, f *Findings) {
		if !c.Serial.Given() || len(c.Serial.Value) != 17 || otherSerial(c) {
			return
		}
		code := c.Serial.Value[9]
		i := strings.IndexByte(vinYears, code)
		if i < 0 {
			f.add(c.Serial.Pos, "position 10 of serial %s is %q, which is not a year code", c.Serial.Value, code)
			return
		}
		// Position 7 tells the thirty-year cycle for cars only, not for trailers.
		if year := c.Year; year.Given() && (year.Value-2010-i)%30 != 0 {
			f.add(year.Pos, "the year is %d; position 10 of the serial (%c) means %d", year.Value, code, nearestYear(year.Value, 2010+i)).
				figures(strconv.Itoa(year.Value), string(code)).
				also(c.Serial.Pos, "the serial is here").
				fix("%s; the month on the label is when it was built, and goes under built: as 10/2025", f.rule.Remedy)
		}
	},
}

// nearestYear is the year with this code that is nearest to the stated year.
func nearestYear(stated, code int) int {
	for code+15 < stated {
		code += 30
	}
	for code-15 > stated {
		code -= 30
	}
	return code
}
