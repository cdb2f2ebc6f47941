package inspect

import "tarepage/internal/kinds"

var kindCautions = &Rule{
	Name: "kind-cautions", Severity: Caution,
	Title: "a kind of trailer with rules of its own says so",
	Why:   "A boat, a tank of fuel, a container or a load of logs hurts people in a way of its own, and has a law of its own.",
	Source: "49 CFR 393.116 (logs), 393.124 (concrete pipe), 393.126 (containers), 393.134 (roll-off bins), 383.119 (surge), " +
		"567.3 and 567.5 (unfinished trailers), 171.8, 172.504, 173.150 and 173.242 (fuel)",
	Remedy: "nothing: it is for the customer",
	check: func(c *Case, f *Findings) {
		for _, caution := range kinds.Of(c.Kind.Value).Cautions {
			f.add(c.Kind.Pos, "%s", caution.Text).by(caution.Source)
		}
	},
}
