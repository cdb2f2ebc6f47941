package render

import (
	"slices"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/sitepath"
	"tarepage/internal/tables"
)

// unchecked is what no figure and no rule covers, by its key in the table of phrases.
var unchecked = []string{"law", "frame", "wear", "truck", "uneven"}

func (m *maker) how() ([]byte, error) {
	p := &howPage{frame: m.frame, Weakest: string(tables.MemoryWeak), Clauses: m.clauses(tables.AllClauses())}
	for _, key := range unchecked {
		p.Unchecked = append(p.Unchecked, m.lang.Say("unchecked "+key))
	}
	var err error
	if p.Data, err = stated(m.says.Page(sitepath.HowWeFigure, m.lang.Say("how title"))); err != nil {
		return nil, err
	}
	m.place(&p.frame, sitepath.HowWeFigure)
	p.Title = m.lang.Say("titled", m.lang.Say("how title"), m.frame.Yard.Name)
	p.Description = m.lang.Say("how about")
	p.Steps = m.steps()
	for _, d := range compute.All {
		p.Figures = append(p.Figures, definition{Name: d.Name, Label: d.Label, Formula: d.Formula, What: d.What, Source: d.Source,
			Clauses: m.clauses(tables.Clauses(d.Source))})
	}
	for _, r := range inspect.All {
		def := definition{Name: r.Name, Title: r.Title, Why: r.Why, Source: r.Source, Clauses: m.clauses(tables.Clauses(r.Source))}
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
	p.Tables = m.tableRows()
	for _, s := range tables.StateRules() {
		p.States = append(p.States, definition{
			Name:   s.State + ", " + s.Subject,
			What:   strings.TrimSpace(measure.Number(s.Value, 2) + " " + s.Unit + ", " + s.Condition),
			Source: m.lang.Say("how looked", s.Cite+"; "+s.Source, s.Checked),
		})
	}
	return m.page("how", p)
}

// steps leads to the first trailer, in the order of the kinds, whose page of figures has one load
// worked step by step.
func (m *maker) steps() *link {
	var best *entry
	for _, e := range m.units {
		_, needs := compute.RigOf(e.work)
		towed := compute.TowedOf(e.work)
		if e.sold() || len(needs) > 0 || towed.NoMachines || !towed.TongueEmpty.Known || !towed.Payload.Known {
			continue
		}
		if best == nil || slices.Index(kinds.Names(), e.Kind.Value) < slices.Index(kinds.Names(), best.Kind.Value) {
			best = e
		}
	}
	if best == nil {
		return nil
	}
	return &link{Link: best.workings + "#forces", Name: m.title(best)}
}

// clauses are documents with the editions that were read.
func (m *maker) clauses(list []tables.Clause) (out []clause) {
	for _, c := range list {
		edition := c.Edition
		if len(edition) == 4 && strings.Contains(c.Document, " CFR ") { // an annual edition of the code
			edition = m.lang.Say("how edition", edition)
		}
		out = append(out, clause{c.Document, edition, c.Since()})
	}
	return out
}

func (m *maker) tableRows() (out []table) {
	for _, t := range tables.All() {
		row := table{Title: t.Title, Rows: m.rowCount(t.Rows), Sources: t.Sources}
		var graded []string
		for _, g := range t.Grades {
			graded = append(graded, m.lang.Say("how graded", m.rowCount(g.Rows), string(g.Grade)))
		}
		row.Graded = strings.Join(graded, ", ")
		out = append(out, row)
	}
	return out
}

func (m *maker) rowCount(n int) string {
	return m.lang.Counted("rows", n)
}
