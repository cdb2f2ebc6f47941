package inspect

var overallWidthMissing = &Rule{
	Name: "overall-width-missing", Severity: Remark,
	Title:  "where the width between the fenders is given, the overall width is too",
	Why:    "A customer takes the one width that he reads for the trailer's, and 82 in between the fenders is 102 in at the gate. The page says that it was not measured.",
	Source: Practice,
	Remedy: "measure across the widest part, fenders included, and write overall-width",
	check: func(c *Case, f *Findings) {
		if b := c.Deck.Between; b.Given() && !c.OverallWidth.Given() && !c.OverallWidth.Spoiled {
			f.add(b.Pos, "the width between the fenders is given, and the overall width is not")
		}
	},
}
