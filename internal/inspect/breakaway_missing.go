package inspect

var breakawayMissing = &Rule{
	Name: "breakaway-missing", Severity: Stop,
	Title:  "a trailer with brakes has a breakaway device that sets them",
	Why:    "A trailer that comes loose must stop by itself and stay stopped.",
	Source: "49 CFR 393.43(d) (2015): automatic on breakaway, held at least 15 minutes",
	Remedy: "go and look; if there is one, write breakaway: yes; if there is none, fit one with its battery",
	check: func(c *Case, f *Findings) {
		gvwr, b := c.Weights.GVWR, c.Brakes
		if !gvwr.Given() || gvwr.Value <= brakesFrom || !b.Kind.Given() || b.Kind.Value == "none" {
			return
		}
		reason, unknown := b.Breakaway.Unknown()
		switch {
		case unknown:
			c.here(f.add(b.Breakaway.Pos, "it is not known whether there is a breakaway device: %s; have that looked at before it is towed", reason).
				also(gvwr.Pos, "gvwr is here"))
		case b.Breakaway.Given() && !b.Breakaway.Value:
			f.add(b.Breakaway.Pos, "the trailer has %s brakes and no breakaway device", b.Kind.Value).also(gvwr.Pos, "gvwr is here").
				fix("fit a breakaway device with its battery, and write breakaway: yes")
		case !b.Breakaway.Given() && !b.Breakaway.Spoiled && b.Kind.Value == "air":
			f.add(b.Kind.Pos, "the file does not say whether the air brakes set themselves when the supply line comes off").only(Remark).
				by("49 CFR 571.121 (from memory): a trailer's air brakes set themselves when the supply fails").
				fix("pull the supply line, see that the brakes set, and write breakaway: yes")
		case !b.Breakaway.Given() && !b.Breakaway.Spoiled:
			f.add(b.Kind.Pos, "the trailer has %s brakes, and the file does not say whether there is a breakaway device", b.Kind.Value).also(gvwr.Pos, "gvwr is here").
				fix("%s%s", f.rule.Remedy, c.orUnknown("breakaway"))
		}
	},
}
