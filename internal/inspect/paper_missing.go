package inspect

var paperMissing = &Rule{
	Name: "paper-missing", Severity: Caution,
	Title:  "whoever buys the trailer can register it",
	Why:    "Without a paper, or with a branded one, a state may refuse plates, or ask for an inspection, a bond or months of time. The customer finds out at the counter.",
	Source: Practice + "; each state has a titling law of its own",
	Remedy: "get the paper first, or tell the customer to ask the state's title office before he pays",
	check: func(c *Case, f *Findings) {
		o := c.Ownership
		none, lost := o.Paper.Value == "none", o.State.Value == "lost"
		switch {
		case none && lost:
			f.add(o.Paper.Pos, "there is no title or other ownership paper, and a duplicate of the lost one has to come first: ask your state's title office before you buy").
				also(o.State.Pos, "it is lost")
		case none:
			f.add(o.Paper.Pos, "there is no title or other ownership paper: ask your state's title office before you buy")
		case o.Paper.Value == "bill of sale":
			f.add(o.Paper.Pos, "it comes with a bill of sale and without a title: ask your state's title office before you buy")
		}
		if lost && !none {
			f.add(o.State.Pos, "the ownership paper is lost; a duplicate has to come first")
		}
		if o.Brand.Given() && o.Brand.Value != "clean" {
			f.add(o.Brand.Pos, "the title is branded %s", o.Brand.Value)
		}
	},
}
