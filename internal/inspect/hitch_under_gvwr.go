package inspect

import "tarepage/internal/measure"

var hitchUnderGVWR = &Rule{
	Name: "hitch-under-gvwr", Severity: Stop,
	Title:  "the coupler is rated for the loaded trailer",
	Why:    "A coupler that carries more than its rating can come apart on the road.",
	Source: "SAE J684 (gross trailer weight of couplers to 10,000 lb); above it the rating on the coupler plate",
	Remedy: "read the coupler plate again, or fit a coupler rated for the gvwr",
	check: func(c *Case, f *Findings) {
		rating, gvwr := c.Hitch.Rating, c.Weights.GVWR
		if rating.Given() && gvwr.Given() && !measure.NotOver(gvwr.Value, rating.Value) {
			f.add(rating.Pos, "the coupler is rated %s; gvwr is %s", rating.Value, gvwr.Value).
				figures(rating.Value.String(), gvwr.Value.String()).
				also(gvwr.Pos, "gvwr is here")
		}
	},
}
