package inspect

import "tarepage/internal/measure"

// A stop, not a caution: it is a duty of the yard itself before the first sale, and until
// it is done the placard tells the buyer of cargo that the trailer no longer carries.
var relabelDue = &Rule{
	Name: "relabel-due", Severity: Stop,
	Title:  "weight that the yard added is on the label",
	Why:    "The placard on the trailer still promises cargo that the added weight has used up.",
	Source: "49 CFR 571.110 S10.1 (2015, amended 2016): more than the lesser of 1.5% of the GVWR and 100 lb",
	Remedy: "correct the label to within 1% of the added weight (S10.2) and write relabeled: with the day",
	check: func(c *Case, f *Findings) {
		limit, added := c.Work.RelabelLimit, c.DealerAdded
		if !limit.Known {
			c.labelBefore(f)
			return
		}
		if measure.NotOver(added.Value, limit.Value) {
			return
		}
		// A label that was corrected before the weight was added does not know of it. Where
		// the day is missing, added-undated stops the unit.
		day, corrected := added.From.Date(), c.Relabeled
		if corrected.Given() && (day == "" || corrected.Value.String() >= day) {
			return
		}
		if corrected.Given() {
			f.add(corrected.Pos, "the label was corrected on %s, before %s was added on %s", corrected.Value, added.Value, day).
				figures(corrected.Value.String(), day).
				also(added.Pos, "what was added is given here")
			return
		}
		f.add(added.Pos, "%s was added before the first sale; the label allows for %s", added.Value, limit.Value).
			figures(added.Value.String(), limit.Value.String()).
			also(c.Weights.GVWR.Pos, "gvwr is here")
	},
}

// labelBefore finds a label that was corrected before the weight was added, where no clause
// asks for a new one: over 10,000 lb, and on a used trailer.
func (c *Case) labelBefore(f *Findings) {
	corrected, added := c.Relabeled, c.DealerAdded
	if day := added.From.Date(); corrected.Given() && added.Given() && added.Value > 0 && day != "" && corrected.Value.String() < day {
		f.add(corrected.Pos, "the label was corrected on %s, before %s was added on %s, and does not know of it", corrected.Value, added.Value, day).
			figures(corrected.Value.String(), day).
			also(added.Pos, "what was added is given here").
			by("the calendar; 49 CFR 571.110 S10.1 asks for a new label up to 10,000 lb only").
			only(Caution).
			fix("read the day on the label again, or tell the customer that the label is older than what was added")
	}
}
