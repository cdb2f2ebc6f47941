package inspect

import "tarepage/internal/measure"

var emptyImplausible = &Rule{
	Name: "empty-implausible", Severity: Caution,
	Title:  "the empty weight agrees with the parts that the file lists, and with what such trailers weigh",
	Why:    "The payload is what the empty weight leaves. A digit typed wrong makes a payload that does not exist.",
	Source: Practice + ": the parts are weighed by the tables, with 0 to 30% for what is not listed; the table of usual empty weights, mostly from memory",
	Remedy: "read the scale ticket again, or the frame's parts; an aluminum trailer may be lighter",
	check: func(c *Case, f *Findings) {
		empty, parts := c.Weights.Empty, c.Work.EstimatedRange
		if !empty.Given() || empty.Value <= 0 {
			return
		}
		if !c.Work.EstimatedEmpty.Known {
			unusual(c, f)
			return
		}
		low, high := parts[0], parts[1]
		switch {
		case !measure.NotOver(low, empty.Value):
			f.add(empty.Pos, "%s empty; the listed parts alone weigh %s", empty.Value, low.Load()).
				figures(empty.Value.String(), low.Load()).
				also(c.Frame.Beam.Pos, "the main beams are here")
		case !measure.NotOver(empty.Value, high):
			f.add(empty.Pos, "%s empty; the listed parts and three tenths more weigh only %s", empty.Value, high.Limit()).
				figures(empty.Value.String(), high.Limit()).
				also(c.Frame.Beam.Pos, "the main beams are here")
		}
	},
}

// unusual compares the empty weight with what such trailers usually weigh, where the parts
// of the frame are not stated.
func unusual(c *Case, f *Findings) {
	empty := c.Weights.Empty
	usual, row, ok := c.Work.UsualEmpty()
	// What the yard added and weighed with it is not what such a trailer weighs.
	bare := empty.Value
	if added := c.DealerAdded; added.Given() && added.From.Date() <= empty.From.Date() {
		bare -= added.Value
	}
	if !ok || usual.Holds(empty.Value) || usual.Holds(bare) {
		return
	}
	limit := usual.Low
	if empty.Value > usual.High {
		limit = usual.High
	}
	f.add(empty.Pos, "%s empty; trailers of its kind and size (%s, %s ft) usually weigh %s to %s", empty.Value, row.Kind, row.Size, usual.Low, usual.High).
		figures(empty.Value.String(), limit.String()).
		also(c.Weights.GVWR.Pos, "the GVWR is given here")
}
