package inspect

import "tarepage/internal/measure"

var chainsUnderGVWR = &Rule{
	Name: "chains-under-gvwr", Severity: Stop,
	Title: "each safety chain holds the loaded trailer",
	Why:   "When the coupler lets go, the chains are all that holds; one of them may take the whole pull.",
	Source: "SAE J684 (each chain: Class 1 2,000 lb, 2 3,500 lb, 3 5,000 lb, 4 the GVWR); above 10,000 lb 49 CFR 393.70(d) " +
		"as the measure: an ultimate strength of no less than the gross weight towed",
	Remedy: "fit chains whose minimum breaking force reaches the gvwr; the working load limit is not the measure",
	check: func(c *Case, f *Findings) {
		breaking, gvwr := c.Hitch.Chains.Breaking, c.Weights.GVWR
		if !breaking.Given() || !gvwr.Given() {
			return
		}
		if least := chainLeast(gvwr.Value); !measure.NotOver(least, breaking.Value) {
			f.add(breaking.Pos, "each chain breaks at %s, a trailer of %s needs %s", breaking.Value, gvwr.Value, least).
				figures(breaking.Value.String(), least.String()).
				also(gvwr.Pos, "gvwr stands here")
		}
	},
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
