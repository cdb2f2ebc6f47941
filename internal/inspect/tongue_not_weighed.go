package inspect

var tongueNotWeighed = &Rule{
	Name: "tongue-not-weighed", Severity: Remark,
	Title:  "the tongue was weighed",
	Why:    "Without it the weight on the truck is estimated from the parts. Where the parts are not known either, the even-load figures are left out.",
	Source: "statics",
	Remedy: "weigh the tongue empty and write weights.tongue-empty",
	check: func(c *Case, f *Findings) {
		if t := c.Weights.TongueEmpty; !t.Given() && !t.Spoiled {
			at := c.Top
			if c.Weights.At.Known() {
				at = c.Weights.At
			}
			f.add(at, "the tongue was not weighed")
		}
	},
}
