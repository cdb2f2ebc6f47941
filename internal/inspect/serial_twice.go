package inspect

import (
	"strings"
	"unicode"

	"tarepage/internal/unit"
)

var serialTwice = &Rule{
	Name: "serial-twice", Severity: Stop,
	Title:  "no two units have the same serial number",
	Why:    "One of the two would be sold with the other's papers.",
	Source: "49 CFR 565.13(d) (2015): no two alike within 60 years",
	Remedy: "read both off their labels",
	checkYard: func(y *Yard, f *Findings) {
		first := map[string]unit.Pos{}
		for _, c := range y.Cases {
			number := strings.ToUpper(strings.Map(serialSign, c.Serial.Value))
			if !c.Serial.Given() || number == "" {
				continue
			}
			if other, taken := first[number]; taken {
				f.add(c.Serial.Pos, "serial %s is on another unit too", strings.ToUpper(strings.Join(strings.Fields(c.Serial.Value), ""))).also(other, "the other unit is here").Unit = c.File
				continue
			}
			first[number] = c.Serial.Pos
		}
	},
}

// serialSign leaves blanks, dashes and other marks out of a serial: they are written one time and not the next.
func serialSign(r rune) rune {
	if unicode.IsLetter(r) || unicode.IsDigit(r) {
		return r
	}
	return -1
}
