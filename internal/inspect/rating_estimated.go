package inspect

import "tarepage/internal/measure"

var ratingEstimated = &Rule{
	Name: "rating-estimated", Severity: Stop,
	Title:  "a rating is read off the label or the part, not estimated",
	Why:    "A rating is what the maker printed, to the pound. If it is a guess, every limit that rests on it is a guess too.",
	Source: "49 CFR 571.3(b) (2015): the GVWR is the value that the manufacturer specifies",
	Remedy: "read it off the label or the part and write where you read it, as in (tag)",
	check: func(c *Case, f *Findings) {
		for _, g := range c.Givens() {
			part, rated := ratings[g.Path]
			if !rated || part.part == "" || !g.About && g.From.Origin != measure.Estimate {
				continue // what is weighed may be estimated
			}
			text := g.Text
			if g.From.Origin == measure.Estimate && g.From.Text != measure.Estimate.String() {
				text += " (" + g.From.Text + ")"
			}
			found := f.add(g.Pos, "%s is an estimate: %s", part.what, text).
				fix("read it off the %s and write (%s) after it, without about; if nobody can, write unknown and why", part.part, part.note)
			if g.From.Origin != measure.Estimate {
				found.only(Caution)
			}
		}
	},
}
