package inspect

import "tarepage/internal/measure"

var stopTooShort = &Rule{
	Name: "stop-too-short", Severity: Stop,
	Title:  "no stated stopping distance implies more than 1 g",
	Why:    "A customer who trusts it leaves too little room. No tire on a road brakes harder than about 1 g.",
	Source: "kinematics: a = v x v / (2 d); that road tires stay below 1 g is " + Practice,
	Remedy: "read distance and speed off the maker's sheet again, or take brakes.stopping out",
	check: func(c *Case, f *Findings) {
		s := c.Brakes.Stopping
		if !s.Given() || s.Value.Distance <= 0 {
			return
		}
		g := measure.MeanDeceleration(s.Value.From, s.Value.Distance).Gravities()
		if measure.NotOver(g, 1) {
			return
		}
		f.add(s.Pos, "%s means braking at %s of gravity; no trailer passes 100%%", s.Words(), g.Near()).
			figures(g.Near(), "100%")
	},
}
