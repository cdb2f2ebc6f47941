package inspect

import (
	"fmt"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/tables"
)

var tiresUnderAxle = &Rule{
	Name: "tires-under-axle", Severity: Stop,
	Title:  "the tires of an axle carry what the axle is rated for",
	Why:    "A trailer loaded to its axle rating would run on overloaded tires, and an overloaded trailer tire bursts.",
	Source: "49 CFR 571.120 S5.1.2 (2015)",
	Remedy: tiresRemedy,
	check: func(c *Case, f *Findings) {
		axle, t := c.Axles.Rating, c.Work.Tire
		if !axle.Given() || !t.Known || measure.NotOver(axle.Value, t.Axle) {
			return
		}
		at := c.Tires.LoadRange.Pos
		switch {
		case t.RatingAt.Known():
			at = t.RatingAt
		case !at.Known():
			at = c.Tires.Size.Pos
		}
		fd := f.add(at, "the tires carry %s; the axle is rated %s", t.Axle.Limit(), axle.Value).
			figures(t.Axle.Limit(), axle.Value.String()).
			also(axle.Pos, "axle rating is here").
			also(c.Tires.Size.Pos, "the size is here").
			by(tireClause(c))
		if t.Passenger {
			fd.Message += "; this is a passenger tire, and on a trailer only its load divided by 1.10 counts: " +
				t.Rating.Limit() + " molded is " + t.Each.Limit()
		}
		ways := c.waysToCarry(fd)
		fd.fix("%s", strings.Join(append(ways, "if a shop rated the axle lower, write what its new tag says"), "; or ")+c.askMaker())
		if len(ways) == 0 {
			fd.fix("%s%s", tiresRemedy, c.askMaker())
		}
		if t.Because != "" && !t.RatingAt.Known() && c.sidewallMayCarry() {
			fd.Message = fmt.Sprintf("nobody has read MAX LOAD on the tires: %s; our table gives them %s an axle, and the axle is rated %s, so the payload counts the tires", t.Because,
				t.Axle.Limit(), axle.Value)
			fd.At = t.UnknownAt
			c.here(fd)
		}
		c.uncounted(fd)
	},
}

const tiresRemedy = "fit tires of a higher load range; the axle rating is what the label says, and no other number"

// uncounted says of a finding on tires that nobody counted them, if that is so. Then the fewest
// count, and on a trailer that is not at hand the finding is a caution if four could carry the axle.
func (c *Case) uncounted(fd *Finding) {
	t := c.Work.Tire
	if t.Uncounted == "" {
		return
	}
	fd.Message = fmt.Sprintf("nobody has counted the tires on an axle: %s; with %d, the fewest, %s", t.Uncounted, t.PerAxle, fd.Message)
	fd.At = c.Tires.PerAxle.Pos
	fd.fix("count them and write tires.per-axle; if there are %d: %s", t.PerAxle, fd.Remedy)
	if measure.NotOver(c.Axles.Rating.Value, t.Axle.Times(2)) {
		c.here(fd)
	}
}

// sidewallKey is the key of the sidewall's load that counts here.
func (c *Case) sidewallKey() string {
	if c.Work.Tire.Dual {
		return "dual"
	}
	return "single"
}

// sidewallLines says where the load on the sidewall goes: two lines, the second further right.
func (c *Case) sidewallLines(load string) string {
	return fmt.Sprintf("below tires: in two lines, %q and %q", "  sidewall:", "    "+c.sidewallKey()+": "+load+" (sidewall)")
}

// sidewallMayCarry reports whether another maker's tire of this size and range may carry the axle.
func (c *Case) sidewallMayCarry() bool {
	each := measure.Up(c.Axles.Rating.Value.Part(1, c.Work.Tire.PerAxle), 1)
	return !c.Work.Tire.Passenger && measure.NotOver(each, offTable.Of(c.Work.Tire.Rating))
}

// askMaker is what to do where one label states the axle rating and the tires: nobody but the
// maker may change it.
func (c *Case) askMaker() string {
	if c.Axles.Rating.From.Origin != measure.Tag || c.Tires.Size.From.Origin != measure.Tag && c.Tires.LoadRange.From.Origin != measure.Tag {
		return ""
	}
	return "; if the label itself says both, ask the maker, and keep the unit out until it answers with withhold: waiting for the maker's answer"
}

// waysToCarry are the ways to tires that carry the axle, the cheapest first: more air,
// reading the sidewall, another tire.
func (c *Case) waysToCarry(fd *Finding) []string {
	var ways []string
	axle, t, set := c.Axles.Rating.Value, c.Work.Tire, c.Tires.Pressure
	if set.Given() && t.MaxPressure > 0 && !measure.PressureReaches(set.Value, t.MaxPressure) {
		fd.also(set.Pos, "the pressure that counts is here")
		if t.MaxPressure <= t.MostPressure && t.Full >= axle {
			// With enough air these tires are the right ones.
			return []string{fmt.Sprintf("set them to %s, where they carry %s, and correct the label", t.MaxPressure, t.Full.Limit())}
		}
	}
	if t.Passenger {
		ways = append(ways, fmt.Sprintf("read the size on the sidewall again: if it begins with ST, write it as it is molded; if it begins with P or with nothing, %s a tire is right",
			t.Each.Limit()))
	} else if !t.RatingAt.Known() {
		// A table row: another maker's tire of this size and range may be rated for more.
		if c.sidewallMayCarry() {
			// The number that would pass is not printed: it would be copied, and not read.
			ways = append(ways, fmt.Sprintf("our table gives %s a tire; read MAX LOAD on the sidewall, and write the number that is there, whatever it is, %s%s",
				t.Rating.Limit(), c.sidewallLines("..."), c.orUnknown(c.sidewallKey())))
		}
	}
	if next := nextLoadRange(c); next != "" {
		ways = append(ways, "fit load range "+next)
	} else if len(ways) > 0 {
		ways = append(ways, "fit tires that carry the axle")
	}
	return ways
}

// tireClause is the clause on tires and axles for the unit's GVWR.
func tireClause(c *Case) string {
	if gvwr := c.Weights.GVWR; gvwr.Given() && gvwr.Value <= compute.LightTrailer {
		if c.Work.Tire.Passenger {
			return "49 CFR 571.110 S4.2.2.1, S4.2.2.2 (2015, amended 2016)"
		}
		return "49 CFR 571.110 S4.2.2.1 (2015, amended 2016)"
	}
	return "49 CFR 571.120 S5.1.2 (2015)"
}

// nextLoadRange is the lowest load range of the same size whose table row carries the
// axle, or "" if the table knows none. It is advice; the sidewall governs.
func nextLoadRange(c *Case) string {
	per := c.Work.Tire.PerAxle
	for _, letter := range tables.LoadRanges(c.Tires.Size.Value) {
		if letter <= strings.ToUpper(c.Tires.LoadRange.Value) {
			continue
		}
		// A row without a figure that may be relied on rules the letter out: the tire that
		// somebody buys may be that one.
		least, known := measure.Pounds(0), true
		for _, row := range tables.Tires(c.Tires.Size.Value, letter) {
			load, grade := row.Single, row.SingleGrade
			if per >= 4 {
				load, grade = row.Dual, row.DualGrade
			}
			known = known && load > 0 && grade != tables.MemoryWeak
			if least == 0 || load < least {
				least = load
			}
		}
		if known && least > 0 && least.Times(per) >= c.Axles.Rating.Value {
			return letter
		}
	}
	return ""
}
