package inspect

import (
	"tarepage/internal/measure"
)

// brakesFrom is the gross weight above which a trailer needs brakes: 49 CFR
// 393.42(b)(3) exempts a semitrailer of "1,361 kg (3,000 pounds) or less", on a further
// condition on the truck; its kilograms are half a pound more, and a label may print
// them. States ask for more; the rule states the federal floor.
const brakesFrom = max(measure.Pounds(3000), 1361/measure.KilogramsPerPound)

var brakesMissing = &Rule{
	Name: "brakes-missing", Severity: Stop,
	Title:  "a trailer over 3,000 lb has brakes",
	Why:    "The truck's brakes alone do not stop it; many states ask for brakes below this weight too.",
	Source: "49 CFR 393.42(a), (b)(3) (2015)",
	Remedy: "fit brakes, or correct brakes.kind",
	check: func(c *Case, f *Findings) {
		gvwr, kind := c.Weights.GVWR, c.Brakes.Kind
		if !gvwr.Given() || gvwr.Value <= brakesFrom || kind.Spoiled || kind.Given() && kind.Value != "none" {
			return
		}
		at := gvwr.Pos
		if kind.Given() {
			at = kind.Pos
		} else if c.Brakes.At.Known() {
			at = c.Brakes.At
		}
		f.add(at, "no brakes, and gvwr is %s; brakes are due above 3,000 lb", gvwr.Value).
			figures(gvwr.Value.String(), "3,000 lb").
			also(gvwr.Pos, "gvwr stands here")
	},
}
