package inspect

import (
	"fmt"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

var sidewallOffTable = &Rule{
	Name: "sidewall-off-table", Severity: Stop,
	Title:  "the sidewall's load is one that this size and load range can have",
	Why:    "If somebody fits another tire and leaves the old sidewall's load in the file, the listing promises a capacity that the new tire does not have.",
	Source: Practice + ": makers' ratings of one size and load range differ by a few percent, those of the next load range by about 15%",
	Remedy: "read size, load range and maximum load off the same sidewall; if they are as written, waive this rule and name the tire's maker",
	check: func(c *Case, f *Findings) {
		t := c.Tires
		if t.Size.Spoiled || t.LoadRange.Spoiled {
			return
		}
		var single, dual measure.Pounds
		letters := []string{t.LoadRange.Value}
		if !t.LoadRange.Given() {
			// Without its letter a sidewall is compared with every range in which the size is made.
			letters = tables.LoadRanges(t.Size.Value)
		}
		var rows []tables.Tire
		for _, letter := range letters {
			rows = append(rows, tables.Tires(t.Size.Value, letter)...)
		}
		for _, row := range rows {
			if row.SingleGrade == tables.MemoryWeak || row.DualGrade == tables.MemoryWeak || row.RangeGrade == tables.MemoryWeak {
				return // the table is not to be relied on for this tire, the sidewall is
			}
			single, dual = max(single, row.Single), max(dual, row.Dual)
		}
		off := offTheTable{c, f}
		off.pounds(t.Sidewall.Single, single)
		off.pounds(t.Sidewall.Dual, dual)
		// Where the sidewall gives pounds as well, sidewall-and-index compares the two.
		bySingle, byDual := compute.ServiceLoads(c.Unit)
		if !t.Sidewall.Single.Given() && off.index(bySingle, single) {
			return
		}
		if !t.Sidewall.Dual.Given() {
			off.index(byDual, dual)
		}
	},
}

// offTheTable compares what is molded on the tire with the highest load of the table.
type offTheTable struct {
	c *Case
	f *Findings
}

func (o offTheTable) pounds(side unit.Weight, most measure.Pounds) {
	if side.Given() {
		o.add(side.Value, side.Pos, most, "the sidewall is written as "+side.Value.String())
	}
}

func (o offTheTable) index(index compute.Molded, most measure.Pounds) bool {
	return o.add(index.Load, index.At, most, fmt.Sprintf("load index %d is %s", index.Index, index.Load))
}

func (o offTheTable) add(load measure.Pounds, at unit.Pos, most measure.Pounds, said string) bool {
	if most == 0 || measure.NotOver(load, offTable.Of(most)) {
		return false
	}
	t := o.c.Tires
	o.f.add(at, "%s; the table gives %s %s %s", said, t.Size.Value, letterOf(t), most).
		figures(load.String(), most.String()).
		also(t.Size.Pos, "the size is here").
		also(t.LoadRange.Pos, "the load range is here")
	return true
}

// offTable is how far above the table's highest rating a sidewall is believed.
const offTable measure.Share = 1.10

func letterOf(t unit.Tires) string {
	if t.LoadRange.Given() {
		return "load range " + t.LoadRange.Value
	}
	return "at most, in any load range,"
}
