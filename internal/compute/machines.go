package compute

import (
	"sync"

	"tarepage/internal/tables"
)

// A CommonLoad is a load that many customers have, at its class's typical weight and longest length, and where
// on this trailer its middle may be.
type CommonLoad struct {
	Item, Class string
	Load
	Window Window
}

// Name is its name: mini excavator, 3-4 t.
func (c CommonLoad) Name() string { return named(c.Item, c.Class) }

// NameOf is the name of a row of the table of loads.
func NameOf(c tables.CargoRow) string { return named(c.Item, c.Class) }

func named(item, class string) string {
	if class == "" {
		return item
	}
	return item + ", " + class
}

// shown are the rows that a trailer's page has: what people ask for most (common
// practice, no source). The rest can be chosen there.
var shown = []string{
	"skid steer loader, medium frame", "compact track loader, medium", "mini excavator, 3-4 t", "compact tractor, 25-40 hp with loader",
	"pickup truck, half-ton", "passenger car", "UTV side-by-side, 2-4 seat",
}

// commonRows are the rows in that order.
var commonRows = sync.OnceValue(func() []tables.CargoRow {
	var out []tables.CargoRow
	for _, name := range shown {
		for _, c := range tables.Cargo() {
			if NameOf(c) == name {
				out = append(out, c)
			}
		}
	}
	return out
})

// CommonLoads are the loads that customers bring most, and where each may be on this trailer,
// where enough is known to place any.
func (w *Work) CommonLoads() []CommonLoad {
	rig, needs := RigOf(w)
	if len(needs) > 0 {
		return nil
	}
	towed, rows := TowedOf(w), commonRows()
	out := make([]CommonLoad, 0, len(rows))
	for _, c := range rows {
		l := Load{Weight: c.Typical, Length: c.Length.High.Inches()}
		window, over, known := towed.refused(l)
		switch {
		case !known:
			continue
		case !over:
			window = rig.Window(l)
		}
		out = append(out, CommonLoad{c.Item, c.Class, l, window})
	}
	return out
}
