package inspect

var exciseThreshold = &Rule{
	Name: "excise-threshold", Severity: Caution,
	Title:  "a new trailer with any rating over 26,000 lb says that the excise tax may be due",
	Why:    "The tax is 12% of the price at the first retail sale. The listing's own words can make it due.",
	Source: "26 USC 4051(a)(1), (a)(3) and 26 USC 4053 (undated copies); 26 CFR 145.4051-1(e)(3)(iv) (2015): the highest of label, invoice and advertised rating",
	Remedy: "ask a tax adviser before the sale, and say whether the price includes the tax",
	check: func(c *Case, f *Findings) {
		e := c.Work.Excise
		if !e.Known || !e.Passed {
			return
		}
		top, gvwr := e.Highest(), c.Weights.GVWR
		fd := f.add(top.At, "%s gross %s is over %s; the federal excise tax of %s may be due at the first retail sale",
			top.Weight.Limit(), top.By, e.Over, e.Rate).
			figures(top.Weight.Limit(), e.Over.String())
		if !e.ByLabel {
			fd.also(gvwr.Pos, "gvwr is here, and by itself it is not taxed").
				fix("if the weight %s is a mistake, correct it: it can make the tax due where the gvwr of %s does not", top.By, gvwr.Value)
		}
	},
}
