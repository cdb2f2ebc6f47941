package inspect

import (
	"fmt"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var yardShare = &Rule{
	Name: "yard-share", Severity: Stop,
	Title:  "the yard's allowance leaves something to carry, and its tongue bands go from a least up to a most",
	Why:    "The program cannot work with such a number. It would use its own, and the pages would follow a number that you did not choose.",
	Source: "arithmetic",
	Remedy: "write an allowance like 5%, and a band with both ends, like least: 10% and most: 15%",
	checkYard: func(y *Yard, f *Findings) {
		yard := y.Stock.Yard
		if a := yard.Allowance; a.Given() && a.Value >= 1 {
			f.add(a.Pos, "allowance: %s holds back the whole payload; less than 100%% can be held back", a.Value).
				figures(a.Value.String(), "100%").
				fix("write what you hold back, like 5%%")
		}
		for _, b := range []struct {
			name string
			unit.Band
		}{{"bumper-pull", yard.Bands.BumperPull}, {"gooseneck", yard.Bands.Gooseneck}, {"fifth-wheel", yard.Bands.FifthWheel}, {"pintle", yard.Bands.Pintle}} {
			if at, fault := bandFault(b.Band); fault != "" {
				f.add(at, "tongue-band.%s %s", b.name, fault)
			}
		}
	},
}

// bandFault says why a band cannot be used, and where; nothing for one that can, and for none.
func bandFault(b unit.Band) (unit.Pos, string) {
	whole := measure.Share(1)
	switch least, most := b.Least, b.Most; {
	case !least.Given() && !most.Given():
		return unit.Pos{}, ""
	case !most.Given():
		return least.Pos, fmt.Sprintf("gives a least of %s and no most", least.Value)
	case !least.Given():
		return most.Pos, fmt.Sprintf("gives a most of %s and no least", most.Value)
	case least.Value >= most.Value:
		return least.Pos, fmt.Sprintf("gives a least of %s, which is not below its most, %s", least.Value, most.Value)
	case most.Value >= whole:
		return most.Pos, fmt.Sprintf("gives a most of %s; less than %s of a trailer can be on the truck", most.Value, whole)
	}
	return unit.Pos{}, ""
}
