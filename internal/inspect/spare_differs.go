package inspect

import (
	"strings"

	"tarepage/internal/tables"
)

var spareDiffers = &Rule{
	Name: "spare-differs", Severity: Caution,
	Title:  "the spare is of the size that is on the axles",
	Why:    "A spare of another size carries another load and stands at another height; beside a dual it drags.",
	Source: Practice,
	Remedy: "read both sidewalls, or tell the customer that the spare is another size",
	check: func(c *Case, f *Findings) {
		on, err := tables.ParseTireSize(c.Tires.Size.Value)
		if err != nil || !c.Spare.Given() {
			return
		}
		for _, word := range strings.Fields(c.Spare.Value) {
			spare, err := tables.ParseTireSize(strings.Trim(word, ",.;()"))
			// Only a metric size cannot be taken for another measure.
			if err == nil && spare.Form == tables.Metric && spare.String() != on.String() {
				f.add(c.Spare.Pos, "the spare is %s, the axles run %s", spare, on).
					figures(spare.String(), on.String()).
					also(c.Tires.Size.Pos, "the size on the axles stands here")
				return
			}
		}
	},
}
