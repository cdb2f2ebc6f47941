package inspect

import "tarepage/internal/measure"

var chainsMissing = &Rule{
	Name: "chains-missing", Severity: Caution,
	Title:  "the trailer has two safety chains, and the file says so",
	Why:    "When the coupler lets go, the chains are all that holds. With only one, the tongue drops and swings.",
	Source: "SAE J684 (two chains, crossed, as COMAR 11.13.08 asks; from memory); for goosenecks the states",
	Remedy: "count the chains, read the grade and size off the links, and write hitch.chains with count and breaking",
	check: func(c *Case, f *Findings) {
		switch c.Hitch.Kind.Value {
		case "bumper-pull", "pintle", "gooseneck":
		default:
			return // a kingpin in its fifth wheel needs none
		}
		chains := c.Hitch.Chains
		switch {
		case chains.Count.Given() && chains.Count.Value < 2:
			f.add(chains.Count.Pos, "%s on a %s; it needs two", chainWords(chains.Count.Value), c.Hitch.Kind.Value).
				figures(measure.Count(chains.Count.Value), "2").
				fix("fit a second chain before the trailer leaves the yard; ask your state what it requires")
		case !chains.Count.Given() && !chains.Breaking.Given() && !chains.Count.Spoiled && !chains.Breaking.Spoiled:
			f.add(c.Hitch.Kind.Pos, "nobody has counted the safety chains; look for two before you tow it")
		case !chains.Breaking.Given() && !chains.Breaking.Spoiled:
			f.add(chains.Count.Pos, "%s safety chains, and the file does not give their breaking force", measure.Count(chains.Count.Value)).only(Remark)
		}
	},
}

func chainWords(n int) string {
	if n == 1 {
		return "one safety chain"
	}
	return "no safety chains"
}
