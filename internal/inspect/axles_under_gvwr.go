package inspect

import "tarepage/internal/measure"

var axlesUnderGVWR = &Rule{
	Name: "axles-under-gvwr", Severity: Stop,
	Title: "the axles are rated for what the truck does not carry",
	Why:   "At its GVWR the trailer would overload its axles, even with the most tongue weight that is advised.",
	Source: "NHTSA interpretations of 1/15/76 (nht76-3.20) and 1/4/72 (nht72-6.32): the axle ratings may be less than the GVWR " +
		"by what the hitch carries, and no less",
	Remedy: "read the axle tags and the label again, or lower the gvwr",
	check: func(c *Case, f *Findings) {
		gvwr := c.Weights.GVWR
		s := c.Work.AxleCapacity
		band, ok := c.Work.Band()
		if !gvwr.Given() || !s.Known || !ok {
			return
		}
		left := gvwr.Value - band.Widest[1].Of(gvwr.Value)
		if !measure.NotOver(left, s.Value) {
			f.add(c.Axles.Rating.Pos, "together the axles are rated %s; gvwr is %s, and with the most that is advised on the tongue (%s) they still carry %s",
				s.Value.Limit(), gvwr.Value, band.Widest[1], left.Load()).
				figures(s.Value.Limit(), left.Load()).
				also(gvwr.Pos, "gvwr is here").
				also(c.Axles.Count.Pos, "the number of axles is here")
		}
	},
}
