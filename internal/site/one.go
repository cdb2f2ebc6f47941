package site

import (
	"fmt"
	"os"
	"path"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// One is a unit as a build would see it.
type One struct {
	Unit *unit.Unit
	// Work is nil for a file that does not read.
	Work *compute.Work
	// Findings are those about the unit.
	Findings []inspect.Finding
}

// LookAt reads, computes and inspects one unit of the yard as if its file had these bytes. The
// name is that of a file in content/units. It writes nothing.
func LookAt(from, name string, src []byte) (*One, error) {
	if err := CheckFolder(from); err != nil {
		return nil, err
	}
	stock, problems, err := unit.ReadOne(os.DirFS(from), path.Join("content/units", name), src)
	if err != nil {
		return nil, fmt.Errorf("in %q: %w", from, err)
	}
	one := &One{Unit: stock.Units[0]}
	works := []*compute.Work{nil}
	var found []inspect.Finding
	if !one.Unit.Broken {
		one.Work = compute.Unit(one.Unit, compute.SettingsOf(stock.Yard))
		works[0] = one.Work
		found = inspect.Unit(one.Unit, one.Work, stock.Media[one.Unit.File])
	}
	for _, f := range inspect.Complete(stock, works, problems, found) {
		if f.Unit == one.Unit.File {
			one.Findings = append(one.Findings, f)
		}
	}
	return one, nil
}
