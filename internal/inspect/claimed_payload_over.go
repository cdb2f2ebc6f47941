package inspect

import "tarepage/internal/measure"

var claimedPayloadOver = &Rule{
	Name: "claimed-payload-over", Severity: Stop,
	Title:  "the maker's payload is not more than the label allows",
	Why:    "Somebody who loads by the printed payload would pass the GVWR.",
	Source: "49 CFR 567.4(g)(3) (2015)",
	Remedy: "weigh it again; if the scale is right, take claimed.payload out",
	check: func(c *Case, f *Findings) {
		claim, tag := c.Claimed.Payload, c.Work.TagPayload
		if claim.Given() && tag.Known && !measure.NotOver(claim.Value, tag.Value) {
			f.add(claim.Pos, "the maker's payload is %s; gvwr less the empty weight leaves %s", claim.Value, tag.Value.Limit()).
				figures(claim.Value.String(), tag.Value.Limit()).
				also(c.Weights.GVWR.Pos, "gvwr is here").
				also(c.Weights.Empty.Pos, "the empty weight is here")
		}
	},
}
