package inspect

import "tarepage/internal/measure"

var claimedPayloadOver = &Rule{
	Name: "claimed-payload-over", Severity: Stop,
	Title:  "the maker's payload is no more than the tag leaves",
	Why:    "A printed payload that the label does not cover invites somebody to load past the GVWR.",
	Source: "49 CFR 567.4(g)(3) (2015)",
	Remedy: "weigh it again; if the scale is right, leave the claim out",
	check: func(c *Case, f *Findings) {
		claim, tag := c.Claimed.Payload, c.Work.TagPayload
		if claim.Given() && tag.Known && !measure.NotOver(claim.Value, tag.Value) {
			f.add(claim.Pos, "%s payload is claimed, gvwr less the empty weight leaves %s", claim.Value, tag.Value.Limit()).
				figures(claim.Value.String(), tag.Value.Limit()).
				also(c.Weights.GVWR.Pos, "gvwr stands here").
				also(c.Weights.Empty.Pos, "the empty weight stands here")
		}
	},
}
