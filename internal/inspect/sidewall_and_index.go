package inspect

import (
	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

var sidewallAndIndex = &Rule{
	Name: "sidewall-and-index", Severity: Stop,
	Title:  "the sidewall's pounds and its load index name the same load",
	Why:    "One of the two was misread or belongs to another tire. If the trailer is loaded by the higher one, the tires are overloaded.",
	Source: "ISO 4000-1 and UN R54 annex 4 (load index); 49 CFR 571.120 S5.1.2 (2015) speaks of the tires that are fitted; the one percent is " + Practice,
	Remedy: "read the maximum load and the service description off the same sidewall",
	check: func(c *Case, f *Findings) {
		t := c.Tires
		if !t.Service.Given() {
			return
		}
		s, err := compute.ParseService(t.Service.Value)
		if err != nil {
			f.add(t.Service.Pos, "%v", err)
			return
		}
		for _, index := range []int{s.Single, s.Dual} {
			if _, err := tables.LoadIndex(index); err != nil {
				f.add(t.Service.Pos, "%v", err)
				return
			}
		}
		if s.Dual > s.Single {
			f.add(t.Service.Pos, "load index %d for a pair is above %d for a single tire", s.Dual, s.Single).
				figures(measure.Count(s.Dual), measure.Count(s.Single)).
				fix("read it again; the index after the slash is the lower one")
			return
		}
		single, dual := compute.ServiceLoads(c.Unit)
		indexAgrees(c, f, t.Sidewall.Single, single, "a single tire")
		indexAgrees(c, f, t.Sidewall.Dual, dual, "each tire of a pair")
	},
}

// indexAgrees compares the sidewall's pounds with the load index for one mounting.
func indexAgrees(c *Case, f *Findings, side unit.Weight, index compute.Molded, of string) {
	if !side.Given() || side.Value <= 0 || index.Load <= 0 {
		return
	}
	apart := measure.Apart(side.Value, index.Load)
	if measure.NotOver(apart, indexApart) || listedTogether(c.Tires, side.Value, index.Index) {
		return
	}
	f.add(side.Pos, "the sidewall gives %s for %s, but its load index %d is %s", side.Value, of, index.Index, index.Load).
		figures(side.Value.String(), index.Load.String()).
		also(index.At, "the service description is here")
}

// indexApart is how far pounds and index may differ, as a share of the greater one. Makers
// round the pounds.
const indexApart measure.Share = 0.01

// listedTogether reports whether the tire table has a tire of this size that carries these
// pounds under this index: a few light truck tires are rated off the index (LT235/85R16 E,
// 3,042 lb under 120).
func listedTogether(t unit.Tires, pounds measure.Pounds, index int) bool {
	for _, letter := range tables.LoadRanges(t.Size.Value) {
		for _, row := range tables.Tires(t.Size.Value, letter) {
			if row.Single == pounds && row.SingleIndex == index || row.Dual == pounds && row.DualIndex == index {
				return true
			}
		}
	}
	return false
}
