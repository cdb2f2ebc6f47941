package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

var sidewallOffTable = &Rule{
	Name: "sidewall-off-table", Severity: Stop,
	Title:  "the sidewall's load is one that this size and load range can have",
	Why:    "Who fits another tire and leaves the old sidewall's load in the file sells the old tire's capacity on the new one.",
	Source: Practice + ": makers' ratings of one size and load range differ by a few in the hundred, the next load range by about fifteen",
	Remedy: "read size, load range and maximum load off the same sidewall; if they stand there as written, waive this with the maker's name",
	check: func(c *Case, f *Findings) {
		t := c.Tires
		if t.Size.Spoiled || t.LoadRange.Spoiled {
			return
		}
		var single, dual measure.Pounds
		letters := []string{t.LoadRange.Value}
		if !t.LoadRange.Given() {
			// Without its letter a sidewall is held against every range the size is made in.
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
		compare := func(side unit.Weight, most measure.Pounds) {
			if !side.Given() || most == 0 || measure.NotOver(side.Value, offTable.Of(most)) {
				return
			}
			f.add(side.Pos, "the sidewall is written as %s, the table gives %s %s %s", side.Value, t.Size.Value, letterOf(t), most).
				figures(side.Value.String(), most.String()).
				also(t.Size.Pos, "the size stands here").
				also(t.LoadRange.Pos, "the load range stands here")
		}
		compare(t.Sidewall.Single, single)
		compare(t.Sidewall.Dual, dual)
	},
}

// offTable is how far above the table's highest rating a sidewall is believed.
const offTable measure.Share = 1.10

func letterOf(t unit.Tires) string {
	if t.LoadRange.Given() {
		return "load range " + t.LoadRange.Value
	}
	return "at most, in any load range,"
}
