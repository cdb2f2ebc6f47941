package render

import (
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/pagedata"
)

// tries fills in what can be tried on a trailer that is for sale. Where a measurement is
// missing, the answer says which.
func (m *maker) tries(p *unitPage, e *entry) error {
	p.Script, p.Policy = p.Root+p.Up+m.scripts["unit.js"].Path, scripted(p.Policy, "'self'")
	if keep, there := m.scripts["keep.js"]; there && m.keeps() {
		p.Keep = p.Root + p.Up + keep.Path
		p.Policy = connected(p.Policy)
	}
	if e.sold() {
		return nil
	}
	t := &tryout{Bring: p.Root + p.Up + m.scripts["bring-shapes.js"].Path, Statics: p.Root + p.Up + m.scripts["statics.js"].Path,
		Machines: p.Root + p.Up + m.machines.Path, Space: e.work.Space.Name, Machine: !compute.TowedOf(e.work).NoMachines}
	_, needs := compute.RigOf(e.work)
	t.Placed = len(needs) == 0
	var err error
	if t.Rig, err = pagedata.Attribute(append(pagedata.CalculatorOf(e.work), pagedata.Size(e.work)...)); err != nil {
		return err
	}
	common := e.work.CommonLoads()
	if !t.Machine {
		common = nil // a tractor fits a boat trailer's weights, and still not its bunks
	}
	for _, c := range common {
		write := func(in measure.System) string {
			return upper(strings.ReplaceAll(c.Window.In(in), "deck's", t.Space+"'s"))
		}
		t.Common = append(t.Common, labeled{Label: c.Name(), Text: write(measure.American), Metric: write(measure.Metric),
			From: c.Weight.Load() + ", " + c.Length.InFeet()})
	}
	p.Try = t
	return nil
}
