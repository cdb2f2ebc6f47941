package inspect

import (
	"slices"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
)

var figureUnknown = &Rule{
	Name: "figure-unknown", Severity: Stop,
	Title:  "a checked figure names a figure that exists",
	Why:    "A number that nobody checks would look as if it had been checked.",
	Source: "the unit file's format, docs/unit-file.md: checked figures",
	Remedy: "name a figure of this unit",
	checkYard: func(y *Yard, f *Findings) {
		body := &y.Stock.Yard.Body
		for _, link := range slices.Concat(body.Figures, body.Outdated) {
			f.add(link.Pos, "the yard's own text has a checked figure, but no trailer to work it out for").fix("take the link out")
		}
	},
	check: func(c *Case, f *Findings) {
		for _, b := range c.Bodies() {
			for _, link := range b.Outdated {
				f.add(link.Pos, "this is an old way to write a checked figure").fix("write %s", link.Written())
			}
		}
		for _, link := range c.figureLinks() {
			if c.Work.Figure(link.Name) != nil {
				continue
			}
			if a := absence(c, link.Name); a != nil {
				if restsOnStopped(c, a) {
					continue // what is missing or does not read has a stop of its own
				}
				fd := f.add(link.Pos, "%s cannot be worked out for this unit", link.Name)
				if len(a.Needs) > 0 {
					fd.fix("%s (%s), or take the link out", a.Needs[0].Advice, a.Needs[0].Key)
				}
				continue
			}
			if slices.Contains(compute.Names(), link.Name) {
				if len(c.Unread()) == 0 {
					f.add(link.Pos, "%s is not a figure of this unit: the file lacks what it is worked out from", link.Name).
						fix("take the link out, or give what the figure needs")
				}
				continue
			}
			fd := f.add(link.Pos, "there is no figure called %q", link.Name)
			if near := unit.Nearest(link.Name, compute.Names()); near != "" {
				fd.fix("did you mean worked:%s?", near)
			}
		}
	},
}

// figureLinks are the checked figures in the unit's notes.
func (c *Case) figureLinks() (out []unit.FigureLink) {
	for _, b := range c.Bodies() {
		out = append(out, b.Figures...)
	}
	return out
}

// restsOnStopped reports whether a figure is absent because a value that every unit needs is
// missing, or one that is given cannot be read.
func restsOnStopped(c *Case, a *compute.Absence) bool {
	stopped := c.Unread()
	for _, m := range c.Missing() {
		stopped = append(stopped, m.Path)
	}
	return slices.ContainsFunc(a.Needs, func(n compute.Need) bool { return slices.Contains(stopped, n.Key) })
}

func absence(c *Case, name string) *compute.Absence {
	for i := range c.Work.Absent {
		if c.Work.Absent[i].Name == name {
			return &c.Work.Absent[i]
		}
	}
	return nil
}
