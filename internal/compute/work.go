package compute

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// All has the figures in the order that they are worked out. A figure may rest on
// those before it.
var All = []*Definition{
	deckLength,
	deckArea,
	overallLength,
	lampSchedule,
	tapeLength,
	beamWeight,
	estimatedEmpty,
	estimatedCenter,
	estimatedTongue,
	tagPayload,
	axleCapacity,
	tireCapacity,
	tireReserve,
	tireReserveShare,
	wheelCapacity,
	tireAge,
	tireSpeed,
	wheelTorque,
	emptyAxleLoad,
	emptyTongueShare,
	emptyCenter,
	tongueAtGVWR,
	tongueShare,
	axleLoadAtGVWR,
	evenLoadPayload,
	tongueByFoot,
	payload,
	cargoWithWater,
	tongueAtPayload,
	tongueShareAtPayload,
	axlesAtPayload,
	workingPayload,
	loadWindow,
	cargoPlacard,
	relabelLimit,
	tieDownNeed,
	tieDownCount,
	tieDownPoints,
	struckVolume,
	heapedVolume,
	tankFull,
	tankMost,
	excise,
	meanDeceleration,
	stoppingAt45,
	stoppingAt70,
	loadingAngle,
	classATruck,
	surgeTruck,
	unbrakedTruck,
}

// Work is everything that was worked out for one unit.
type Work struct {
	Unit     *unit.Unit
	Settings Settings
	Figures  []Figure
	Absent   []Absence

	sheet []*Input  // every field that a figure has used
	used  inputKeys // of the sheet
	room  []Input   // where the next of them are put
	lists []*Input  // the inputs of the figures, one list after the other

	rig      Rig // what RigOf returns
	rigNeeds []Need

	// Tire is how the tires' rating was found.
	Tire Tire
	// TorqueStages are the stages of the figure wheel-torque in order, in lb-ft: "first 20
	// to 25". Empty where that is absent.
	TorqueStages []string
	// TorqueMetric are the same in newton meters.
	TorqueMetric []string
	// Ladder are the rungs of the payload, lowest first.
	Ladder []Rung
	// Space is the place for the load: the deck, the bed or the box.
	Space Space

	// Lamps is which lamps and how much tape the size and the rating call for.
	Lamps LampSchedule
	// Parts has the parts for the estimate of the empty weight, in the order that they count.
	Parts []Part
	// EstimatedRange is the least and the most that the parts can make it.
	EstimatedRange [2]measure.Pounds
	// Heaps has the loads of common materials in a dump bed.
	Heaps []Heap
	// Excise is which rating counts for the federal excise tax.
	Excise Excise

	EstimatedEmpty  Result[measure.Pounds]
	EstimatedCenter Result[measure.Inches]
	EstimatedTongue Result[measure.Pounds] // only where the tongue was not weighed
	RelabelLimit    Result[measure.Pounds]
	TieDownNeed     Result[measure.Pounds]
	TieDownPoints   Result[measure.Pounds]
	TireSpeed       Result[measure.MilesPerHour]

	TagPayload       Result[measure.Pounds]
	AxleCapacity     Result[measure.Pounds]
	TireCapacity     Result[measure.Pounds] // one axle, capped by the wheels
	TireReserve      Result[measure.Pounds]
	TireReserveShare Result[measure.Share]
	WheelCapacity    Result[measure.Pounds] // one axle
	EmptyAxleLoad    Result[measure.Pounds]
	TongueAtGVWR     Result[measure.Pounds]
	TongueShare      Result[measure.Share]
	AxleLoadAtGVWR   Result[measure.Pounds]
	EvenLoadPayload  Result[measure.Pounds]
	TongueByFoot     Result[measure.Pounds]
	Payload          Result[measure.Pounds]
	WorkingPayload   Result[measure.Pounds]
	// With the payload spread evenly: on the truck, its share of the whole, on the axles.
	TongueAtPayload      Result[measure.Pounds]
	TongueShareAtPayload Result[measure.Share]
	AxlesAtPayload       Result[measure.Pounds]
	LoadWindow           Window // of the figure load-window; without room where that is absent
	LoadingAngle         Result[measure.Degrees]
	TankFull             Result[measure.Pounds]  // the weight of a full tank's liquid
	TankMost             Result[measure.Gallons] // what the payload allows of it
	ClassATruck          Result[measure.Pounds]
	SurgeTruck           Result[measure.Pounds]
	UnbrakedTruck        Result[measure.Pounds]
}

// Figure returns a worked figure by its name, or nil.
func (w *Work) Figure(name string) *Figure {
	for i := range w.Figures {
		if w.Figures[i].Name == name {
			return &w.Figures[i]
		}
	}
	return nil
}

// Names are the names of all figures, in order.
func Names() []string {
	var out []string
	for _, d := range All {
		out = append(out, d.Name)
	}
	return out
}

// Unit works every figure of one unit out.
func Unit(u *unit.Unit, s Settings) *Work {
	w := &Work{Unit: u, Settings: s, Figures: make([]Figure, 0, len(All))}
	w.Space = spaceOf(u)
	w.Tire = tireOf(u)
	w.sheet, w.room = make([]*Input, 0, 48), make([]Input, 40) // most units use fewer
	inputs := make([]*Input, 0, 48)                            // for one figure after another; enter copies it
	p := new(calc)
	for _, d := range All {
		*p = calc{Work: w, def: d, inputs: inputs[:0]}
		d.work(p)
		if len(p.needs) > 0 && !p.silent && w.Figure(d.Name) == nil {
			w.Absent = append(w.Absent, Absence{d.Name, d.Label, distinct(p.needs)})
		}
	}
	// Here and once: a calc writes on the unit's sheet, which readers of the work share.
	*p = calc{Work: w, def: loadWindow, inputs: inputs[:0]}
	w.rig, w.rigNeeds = p.rig(), distinct(p.needs)
	return w
}

func distinct(needs []Need) []Need {
	var out []Need
	for _, n := range needs {
		seen := false
		for _, o := range out {
			seen = seen || o.Key == n.Key
		}
		if !seen {
			out = append(out, n)
		}
	}
	return out
}
