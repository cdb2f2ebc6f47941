package pagedata

import (
	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// Calculator is one trailer as the theme's statics.js takes it: exact pounds and inches as
// they were stated or worked out, nothing rounded and nothing computed here. What is not
// known is null. statics.js has the same list at its top.
//
//	0 E, the empty weight             10 the ball's rating, 0 if unknown
//	1 T0, weighed or estimated        11 the least share on the tongue
//	2 A, ball to the axle group       12 the most
//	3 ball to the deck's front        13 payload
//	4 the deck's length               14 the least truck for its surge brakes
//	5 gvwr                            15 T0 as weighed
//	6 what the axle group holds       16 whether it couples to no ball
//	7 which constraint says so        17 what the axles hold, all of the group
//	8 tongue limit, 0 if unknown      18 their tires
//	9 the coupler's rating, likewise  19 their wheels
//	20 whether it has no brakes      21 the kind of its hitch
//	22 the ball that it takes, 0 if unknown   23 how steep its way up is, in degrees
//	24 whether no machine goes on it   25 what its way up holds   26 which constraint says so
//	27 what a short part of its deck holds   28 how long that part is   29 how wide a machine may be
//	30 how high its floor is   31 whether no way up to it is on file   32 how high a machine may be, 0
//	where a roof is over it whose height is not known
func Calculator(r compute.Rig, t compute.Towed) []any {
	known := func(v float64, ok bool) any {
		if !ok {
			return nil
		}
		return v
	}
	pounds := func(p compute.Result[measure.Pounds]) any { return known(float64(p.Value), p.Known) }
	inches := func(in compute.Result[measure.Inches]) any { return known(float64(in.Value), in.Known) }
	hold := func(p measure.Pounds) any { return known(float64(p), p > 0) }
	return []any{
		float64(r.Empty), float64(r.Tongue), float64(r.Axles), float64(r.Front), float64(r.Length), float64(r.GVWR),
		float64(r.Hold), int(r.HoldBy), float64(r.TongueMost), float64(r.Coupler), float64(r.Ball),
		float64(r.Least), float64(r.Most), pounds(t.Payload), pounds(t.SurgeTruck), pounds(t.TongueEmpty), t.NoBall,
		hold(r.Holds[0]), hold(r.Holds[1]), hold(r.Holds[2]), t.Unbraked, t.Kind, float64(t.Ball), known(float64(t.WayUp.Value), t.WayUp.Known), t.NoMachines,
		pounds(t.WayHolds), int(t.WayBy), pounds(t.PartHolds), inches(t.Part), inches(t.Room), inches(t.Floor),
		t.NoWay, known(float64(t.Inside.Value), t.Closed),
	}
}

// lackOf are the numbers of Calculator that a need of compute.RigOf leaves unknown.
var lackOf = map[string][]int{
	"weights.empty": {0}, "weights.tongue-empty": {1}, "axles.center": {2}, "weights.gvwr": {5},
	"axles.count": {6}, "axles.rating": {6}, "hitch.kind": {11, 12},
	"deck.front": {3}, "bed.front": {3}, "box.front": {3}, "deck.length": {4}, "bed.length": {4}, "box.length": {4},
}

// CalculatorOf is Calculator for a worked unit of which some measurements may be missing.
// These are null, and statics.js answers that it cannot say yet.
func CalculatorOf(w *compute.Work) []any {
	rig, needs := compute.RigOf(w)
	out := Calculator(rig, compute.TowedOf(w))
	for _, n := range needs {
		for _, i := range lackOf[n.Key] {
			out[i] = nil
		}
		if lackOf[n.Key] == nil {
			out[6] = nil // whatever else is missing, the rig is not whole
		}
	}
	return out
}

// ofUnit are the numbers of Calculator that differ between trailers of one model: the
// empty weight, the tongue, the payload and the weighed tongue have columns of their own.
var ofUnit = []int{0, 1, 13, 15}

// Size is how large a trailer is, as statics.js takes it: width, height and length over all, in
// inches; null for what nobody measured. The last is the length as it is worked out.
func Size(w *compute.Work) []any {
	var out []any
	for _, l := range []unit.Length{w.Unit.OverallWidth, w.Unit.OverallHeight, w.Unit.OverallLength} {
		if !l.Given() {
			out = append(out, nil)
			continue
		}
		out = append(out, float64(l.Value))
	}
	if f := w.Figure("overall-length"); f != nil {
		return append(out, float64(measure.Feet(f.Value).Inches()))
	}
	return append(out, nil)
}

// LicenseLimits is what statics.js takes as the federal limits of a license: Class A from
// and towed above, Class B from, commercial from, in pounds.
func LicenseLimits() []any {
	return []any{float64(compute.ClassAFrom), float64(compute.ClassATowed), float64(compute.ClassBFrom), float64(compute.CommercialFrom)}
}

// Machines is the table of what loads weigh, for statics.js: name, the class's least, its
// typical and its most weight in pounds, its longest length in feet, how far its center is
// from its front and how far that may be off (shares of the length), what its front and its
// rear are called, its silhouette, its shortest length in feet, the least and the most width of the
// class in inches. It has no animals. After it comes LicenseLimits.
func Machines(lang phrases.Language) ([]byte, error) {
	var rows [][]any
	for _, c := range tables.Cargo() {
		// No trailer that carries machines is one for animals.
		if c.Shape == "animal" {
			continue
		}
		rows = append(rows, []any{lang.Plain(compute.NameOf(c)), float64(c.Weight.Low), float64(c.Typical), float64(c.Weight.High), float64(c.Length.High),
			float64(c.Center), float64(c.Margin), lang.Plain(c.Front), lang.Plain(c.Rear), c.Shape, float64(c.Length.Low),
			float64(c.Width.Low), float64(c.Width.High)})
	}
	machines, err := variable("MACHINES", rows)
	if err != nil {
		return nil, err
	}
	law, err := variable("LAW", LicenseLimits())
	return append(machines, law...), err
}
