package inspect

import "tarepage/internal/measure"

const (
	chainsLight = "SAE J684 (through 10,000 lb, each chain: Class 1 2,000 lb, Class 2 3,500 lb, Class 3 5,000 lb, Class 4 the GVWR)"
	chainsHeavy = "49 CFR 393.70(d) (2015) and FMCSA guidance to 393.70, question 2 (archived copy, current to August 2012): " +
		"above 10,000 lb the combined breaking strength of two chains counts"
)

var chainsUnderGVWR = &Rule{
	Name: "chains-under-gvwr", Severity: Stop,
	Title:  "the safety chains hold the loaded trailer",
	Why:    "When the coupler lets go, the chains are all that holds. One of them may take the whole pull.",
	Source: chainsLight + "; " + chainsHeavy,
	Remedy: "fit chains with a higher minimum breaking force; the working load limit does not count here",
	check: func(c *Case, f *Findings) {
		breaking, gvwr := c.Hitch.Chains.Breaking, c.Weights.GVWR
		if !breaking.Given() || !gvwr.Given() {
			return
		}
		if gvwr.Value > chainClasses {
			heavyChains(c, f)
			return
		}
		if least := chainLeast(gvwr.Value); !measure.NotOver(least, breaking.Value) {
			f.add(breaking.Pos, "each chain breaks at %s; behind a trailer of %s each needs %s", breaking.Value, gvwr.Value, least).
				figures(breaking.Value.String(), least.String()).
				also(gvwr.Pos, "gvwr is here").
				by(chainsLight)
		}
	},
}

// chainClasses is the gross trailer weight up to which J684 asks for a strength of each
// chain. Above it the two chains count together.
const chainClasses measure.Pounds = 10000

// heavyChains judges the chains of a trailer over 10,000 lb: together they must reach the
// GVWR, and where one alone does not, the page says so.
func heavyChains(c *Case, f *Findings) {
	breaking, gvwr, count := c.Hitch.Chains.Breaking, c.Weights.GVWR, c.Hitch.Chains.Count
	if c.Hitch.Kind.Value == "fifth-wheel" && !count.Given() {
		return // a kingpin has its own lock; most fifth-wheels carry no chains
	}
	// The guidance speaks of two chains. Where nobody counted them, one is certain.
	n := 1
	if count.Given() {
		n = min(count.Value, 2)
	}
	if n < 1 || measure.NotOver(gvwr.Value, breaking.Value) {
		return
	}
	together := breaking.Value.Times(n)
	if measure.NotOver(gvwr.Value, together) {
		f.add(breaking.Pos, "the two chains hold %s together, but one alone breaks at %s, below the gvwr of %s; some states ask for the gvwr in each chain",
			together.Limit(), breaking.Value, gvwr.Value).
			figures(breaking.Value.String(), gvwr.Value.String()).
			also(gvwr.Pos, "gvwr is here").
			by(chainsHeavy).
			only(Caution).
			fix("ask your state, or fit chains that each reach the gvwr")
		return
	}
	fd := f.add(breaking.Pos, "the chains hold %s together; a trailer of %s needs %s", together.Limit(), gvwr.Value, gvwr.Value).
		figures(together.Limit(), gvwr.Value.String()).
		also(gvwr.Pos, "gvwr is here").
		by(chainsHeavy)
	if !count.Given() {
		fd.Message += "; only one chain is certain, because nobody counted them"
		fd.fix("count the chains and write hitch.chains.count, or fit stronger ones")
	}
}

// chainLeast is the least breaking force of each chain by the J684 class of the gross
// trailer weight; above Class 3 it is the weight itself.
func chainLeast(gross measure.Pounds) measure.Pounds {
	switch {
	case gross <= 2000:
		return 2000
	case gross <= 3500:
		return 3500
	case gross <= 5000:
		return 5000
	}
	return gross
}
