package inspect

import (
	"tarepage/internal/measure"
)

// brakesFrom is the gross weight above which a trailer needs brakes: 49 CFR
// 393.42(b)(3) exempts a semitrailer of 3,000 lb or less, on a further condition on
// the truck. States ask for more; the rule states the federal floor.
const brakesFrom measure.Pounds = 3000

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
		f.add(at, "no brakes, and gvwr is %s; brakes are due above %s", gvwr.Value, brakesFrom).
			figures(gvwr.Value.String(), brakesFrom.String()).
			also(gvwr.Pos, "gvwr stands here")
	},
}
