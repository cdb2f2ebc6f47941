package inspect

var exciseThreshold = &Rule{
	Name: "excise-threshold", Severity: Caution,
	Title:  "a new trailer that any of its ratings puts over 26,000 lb says that the tax is due",
	Why:    "Twelve percent comes on top of the price at the first retail sale, and a listing's own words can make it due.",
	Source: "26 USC 4051(a)(1), (a)(3) and 26 USC 4053 (undated copies); 26 CFR 145.4051-1(e)(3)(iv) (2015): the highest of label, invoice and advertised rating",
	Remedy: "ask a tax adviser before the sale, and say in the price whether the tax is in it",
	check: func(c *Case, f *Findings) {
		e := c.Work.Excise
		if !e.Known || !e.Passed {
			return
		}
		top, gvwr := e.Highest(), c.Weights.GVWR
		fd := f.add(top.At, "%s gross %s is over %s: the federal excise tax of %s may be due on the first sale",
			top.Weight.Limit(), top.By, e.Over, e.Rate).
			figures(top.Weight.Limit(), e.Over.String())
		if !e.ByLabel {
			fd.also(gvwr.Pos, "gvwr stands here, and alone would leave it free").
				fix("if what stands %s is a slip, correct it: it can make the tax due where the gvwr of %s does not", top.By, gvwr.Value)
		}
	},
}
