package inspect

import (
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
)

var tireUnknown = &Rule{
	Name: "tire-unknown", Severity: Stop,
	Title:  "the tires' load is known",
	Why:    "Without it nobody can say whether the tires carry the axle.",
	Source: "49 CFR 571.120 S5.1.2 (2015), 571.110 S4.2.2.1 (2015, amended 2016); a table row from weak memory passes no tire",
	Remedy: "read the maximum load off the sidewall and write it below tires: in two lines, \"  sidewall:\" and \"    single: 3,520 lb (sidewall)\"; dual: in place of single: if there are four on an axle",
	check: func(c *Case, f *Findings) {
		t := c.Work.Tire
		size := c.Tires.Size
		if t.Known || t.PerAxle == 0 {
			return
		}
		if t.Because != "" {
			c.here(f.add(t.UnknownAt, "what the tires carry is not known: %s; do not load it before somebody has read the sidewall", t.Because))
			return
		}
		if !size.Given() || size.From.Origin == measure.Said {
			return // a size that was only said has a stop of its own, which asks for the load too
		}
		load := c.Tires.LoadRange
		if load.Spoiled {
			return // the load range has a stop of its own
		}
		fd := f.add(size.Pos, "what the tires carry is not known: %s", t.Lack).
			also(c.Tires.LoadRange.Pos, "the load range is here")
		fd.fix("%s%s", fd.Remedy, c.orUnknown(c.sidewallKey()))
		if !load.Given() && load.From.Origin != measure.Unknown {
			fd.fix("write the load range below tires:, as in \"  load-range: C\"; the letter is next to the size on the sidewall; or %s", fd.Remedy)
		}
		if near := tables.NearestSizes(size.Value); load.Given() && len(tables.Tires(size.Value, c.Tires.LoadRange.Value)) == 0 && len(near) > 0 {
			fd.fix("%s; if the size is a slip, the table knows %s", fd.Remedy, strings.Join(near, ", "))
		}
	},
}
