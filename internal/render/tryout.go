package render

import (
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/pagedata"
)

// tries fills in what can be tried on a trailer. Where a measurement is missing, nothing can.
func (m *maker) tries(p *unitPage, e *entry) error {
	rig, needs := compute.RigOf(e.work)
	if len(needs) > 0 || e.sold() {
		return nil
	}
	t := &tryout{Statics: p.Root + m.scripts["statics.js"].Path, Script: p.Root + m.scripts["unit.js"].Path,
		Machines: p.Root + m.machines.Path, Space: e.work.Space.Name}
	var err error
	if t.Rig, err = pagedata.Attribute(pagedata.Calculator(rig, compute.TowedOf(e.work))); err != nil {
		return err
	}
	if t.Law, err = pagedata.Attribute(pagedata.LicenseLimits()); err != nil {
		return err
	}
	for _, c := range e.work.CommonLoads() {
		write := func(in measure.System) string {
			return upper(strings.ReplaceAll(c.Window.In(in), "deck's", t.Space+"'s"))
		}
		t.Common = append(t.Common, labeled{Label: c.Name(), Text: write(measure.American), Metric: write(measure.Metric),
			From: c.Weight.Load() + ", " + c.Length.InFeet()})
	}
	p.Try, p.Policy = t, scripted(p.Policy, "'self'")
	return nil
}
