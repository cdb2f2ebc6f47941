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

type howPage struct {
	frame
	Figures         []definition
	Stops, Cautions []definition
	Grades          []grade
	Weakest         string
	Tables          []table
	Unchecked       []string
	States          []definition
}

type definition struct{ Name, Title, Label, Formula, What, Why, Source string }

type grade struct{ Name, Meaning string }

type table struct {
	Title, Rows, Graded string
	Sources             []string
}

// unchecked is what no figure and no rule covers, said aloud.
var unchecked = []string{
	"State and local law: brakes below the federal weight, length, height, permits, licenses. Ask your state.",
	"The frame's strength: a beam's weight and size are stated as facts, not as a structural rating.",
	"Wear: bearings, brakes, welds, springs and tires are as the walk-around says, and want looking at before the trip home.",
	"Your truck: its own label, hitch and tires set limits of their own.",
	"Loads that do not stand evenly: the even-load figures hold for an even load only.",
}

func (m *maker) how() ([]byte, error) {
	p := &howPage{frame: m.frame, Unchecked: unchecked, Weakest: string(tables.MemoryWeak)}
	var err error
	if p.Data, err = stated(m.says.Page(sitepath.HowWeFigure, "How we figure")); err != nil {
		return nil, err
	}
	p.Canonical = m.at(sitepath.HowWeFigure)
	p.Title = "How we figure, " + m.frame.Yard.Name
	p.Description = "The formulas, the rules and the tables behind every number on this site, each with its source."
	for _, d := range compute.All {
		p.Figures = append(p.Figures, definition{Name: d.Name, Label: d.Label, Formula: d.Formula, What: d.What, Source: d.Source})
	}
	for _, r := range inspect.All {
		def := definition{Name: r.Name, Title: r.Title, Why: r.Why, Source: r.Source}
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
	for _, t := range tables.All() {
		row := table{Title: t.Title, Rows: rows(t.Rows), Sources: t.Sources}
		var graded []string
		for _, g := range t.Grades {
			graded = append(graded, fmt.Sprintf("%s graded %s", rows(g.Rows), g.Grade))
		}
		row.Graded = strings.Join(graded, ", ")
		p.Tables = append(p.Tables, row)
	}
	for _, s := range tables.StateRules() {
		p.States = append(p.States, definition{
			Name:   s.State + ", " + s.Subject,
			What:   strings.TrimSpace(measure.Number(s.Value, 2) + " " + s.Unit + ", " + s.Condition),
			Source: s.Cite + "; " + s.Source + "; looked at " + s.Checked,
		})
	}
	return m.page("how", p)
}

func rows(n int) string {
	if n == 1 {
		return "1 row"
	}
	return measure.Count(n) + " rows"
}
