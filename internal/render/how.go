package render

import (
	"fmt"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/measure"
	"tarepage/internal/sitepath"
	"tarepage/internal/tables"
)

// unchecked is what no figure and no rule covers.
var unchecked = []string{
	"State and local law: brakes below the federal weight, length, height, permits, licenses. Ask your state.",
	"The strength of the frame: the weight and size of its beams are stated as facts, not as a structural rating.",
	"Wear: bearings, brakes, welds, springs and tires are as the walk-around says. Look at them before the trip home.",
	"Your truck: its own label, hitch and tires set limits too.",
	"Uneven loads: the figures for an even load hold for an even load only.",
}

func (m *maker) how() ([]byte, error) {
	p := &howPage{frame: m.frame, Unchecked: unchecked, Weakest: string(tables.MemoryWeak), Clauses: clauses(tables.AllClauses())}
	var err error
	if p.Data, err = stated(m.says.Page(sitepath.HowWeFigure, "How we figure")); err != nil {
		return nil, err
	}
	p.Canonical = m.at(sitepath.HowWeFigure)
	p.Title = "How we figure, " + m.frame.Yard.Name
	p.Description = "The formulas, the rules and the tables for every number on this site, each with its source."
	for _, d := range compute.All {
		p.Figures = append(p.Figures, definition{Name: d.Name, Label: d.Label, Formula: d.Formula, What: d.What, Source: d.Source,
			Clauses: clauses(tables.Clauses(d.Source))})
	}
	for _, r := range inspect.All {
		def := definition{Name: r.Name, Title: r.Title, Why: r.Why, Source: r.Source, Clauses: clauses(tables.Clauses(r.Source))}
		switch r.Severity {
		case inspect.Stop:
			p.Stops = append(p.Stops, def)
		case inspect.Caution:
			p.Cautions = append(p.Cautions, def)
		}
	}
	for _, g := range tables.Grades() {
		p.Grades = append(p.Grades, grade{string(g), g.Meaning()})
	}
	p.Tables = tableRows()
	for _, s := range tables.StateRules() {
		p.States = append(p.States, definition{
			Name:   s.State + ", " + s.Subject,
			What:   strings.TrimSpace(measure.Number(s.Value, 2) + " " + s.Unit + ", " + s.Condition),
			Source: s.Cite + "; " + s.Source + "; looked at " + s.Checked,
		})
	}
	return m.page("how", p)
}

// clauses are documents with the editions that were read.
func clauses(list []tables.Clause) (out []clause) {
	for _, c := range list {
		edition := c.Edition
		if len(edition) == 4 && strings.Contains(c.Document, " CFR ") { // an annual edition of the code
			edition += " edition"
		}
		out = append(out, clause{c.Document, edition, c.Since()})
	}
	return out
}

func tableRows() (out []table) {
	for _, t := range tables.All() {
		row := table{Title: t.Title, Rows: rows(t.Rows), Sources: t.Sources}
		var graded []string
		for _, g := range t.Grades {
			graded = append(graded, fmt.Sprintf("%s graded %s", rows(g.Rows), g.Grade))
		}
		row.Graded = strings.Join(graded, ", ")
		out = append(out, row)
	}
	return out
}

func rows(n int) string {
	if n == 1 {
		return "1 row"
	}
	return measure.Count(n) + " rows"
}
