package site

import (
	"fmt"
	"path"
	"path/filepath"

	"tarepage/internal/compute"
	"tarepage/internal/files"
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
	stock, problems, err := unit.ReadOne(files.Below(from), path.Join("content/units", name), src)
	if err != nil {
		return nil, fmt.Errorf("in %q: %w", from, err)
	}
	one := &One{Unit: stock.Units[0]}
	works := []*compute.Work{nil}
	var found []inspect.Finding
	if !one.Unit.Broken {
		one.Work = compute.Unit(one.Unit, compute.SettingsOf(stock.Yard))
		works[0] = one.Work
		found, _ = judge(one.Unit, one.Work, stock.Media[one.Unit.File], unit.MostJudgingTime)
	}
	for _, f := range inspect.Complete(stock, works, problems, found) {
		if f.Unit == one.Unit.File {
			one.Findings = append(one.Findings, f)
		}
	}
	return one, nil
}

// UnitIn is the unit of the file of -into: with its model if the file is among the units of the yard, else
// by itself.
func UnitIn(from, file string) (*unit.Unit, error) {
	u, err := inYard(from, file)
	if err != nil {
		return nil, err
	}
	if u == nil {
		src, err := files.ReadUpTo(file, unit.MostBytes)
		if err != nil {
			return nil, fmt.Errorf("-into %w", err)
		}
		u, _ = unit.ReadUnit(filepath.ToSlash(file), src)
	}
	if u.Broken {
		return nil, fmt.Errorf("-into %q cannot be read as a unit file; inspect says why", file)
	}
	return u, nil
}

// inYard is the unit of a file in the yard, or nil if the file is somewhere else.
func inYard(from, file string) (*unit.Unit, error) {
	o := Options{From: from}
	units, err1 := filepath.Abs(filepath.Join(o.content(), "units"))
	at, err2 := filepath.Abs(file)
	if err1 != nil || err2 != nil || filepath.Dir(at) != units {
		return nil, nil
	}
	stock, _, err := unit.Read(files.Below(from))
	if err != nil {
		return nil, fmt.Errorf("in %q: %w", from, err)
	}
	for _, u := range stock.Units {
		if path.Base(u.File) == filepath.Base(at) {
			return u, nil
		}
	}
	return nil, nil
}
