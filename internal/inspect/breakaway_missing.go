package inspect

var breakawayMissing = &Rule{
	Name: "breakaway-missing", Severity: Stop,
	Title:  "a trailer with brakes has a breakaway device that sets them; up to 3,000 lb, one without it is a caution",
	Why:    "A trailer that comes loose must stop by itself and stay stopped.",
	Source: "49 CFR 393.43(d) (2015): automatic on breakaway, held at least 15 minutes",
	Remedy: "go and look; if there is one, write breakaway: yes; if there is none, fit one with its battery",
	check: func(c *Case, f *Findings) {
		gvwr, b := c.Weights.GVWR, c.Brakes
		if !gvwr.Given() || !b.Kind.Given() || b.Kind.Value == "none" {
			return
		}
		if gvwr.Value <= brakesFrom {
			lightBreakaway(c, f)
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

// lightBreakaway judges a trailer that is so light that it may go without brakes and has them all
// the same. 49 CFR 393.43(d) asks for the device where brakes are required: over 3,000 lb, or where
// the trailer weighs more than 40% of what pulls it, 393.42(b)(3).
func lightBreakaway(c *Case, f *Findings) {
	b := c.Brakes
	_, unknown := b.Breakaway.Unknown()
	switch {
	case b.Breakaway.Given() && !b.Breakaway.Value:
		f.add(b.Breakaway.Pos, "the trailer has %s brakes and no breakaway device: nothing stops it if it comes loose", b.Kind.Value)
	case !b.Breakaway.Given() && !b.Breakaway.Spoiled && !unknown:
		f.add(b.Kind.Pos, "the trailer has %s brakes, and nothing says whether a breakaway device stops it if it comes loose", b.Kind.Value)
	case unknown:
		f.add(b.Breakaway.Pos, "it is not known whether a breakaway device stops the trailer if it comes loose")
	default:
		return
	}
	f.list[len(f.list)-1].only(Caution).also(c.Weights.GVWR.Pos, "gvwr is here").
		by("49 CFR 393.43(d), 393.42(b)(3) (2015): up to 3,000 lb it is required where the trailer weighs more than 40% of what pulls it; many states ask for it on any trailer with brakes (from memory)").
		fix("fit one with its battery and write breakaway: yes; or tell the customer")
}
