package compute

import (
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A Towed is a trailer as a tow match needs it.
type Towed struct {
	Empty       Result[measure.Pounds]
	TongueEmpty Result[measure.Pounds]
	GVWR        Result[measure.Pounds]
	// Axles is from the ball to the middle of the axle group, Center from the ball to the
	// middle of an evenly spread load.
	Axles, Center Result[measure.Inches]
	// Payload is the lowest rung of the trailer's own ladder.
	Payload Result[measure.Pounds]
	// SurgeTruck is the least truck for its surge brakes, if it has any.
	SurgeTruck Result[measure.Pounds]
	// NoBall reports that it couples to no ball: a kingpin or a pintle.
	NoBall bool
	// Unbraked reports that it has no brakes.
	Unbraked bool
	// NoMachines reports that no machine is driven or set onto it: a boat trailer's bunks, a
	// tank, a camper.
	NoMachines bool
	// Kind is the kind of its hitch, empty if nobody said. Ball is the diameter of the ball
	// that its coupler takes, 0 if not known.
	Kind string
	Ball measure.Inches
	// Least and Most are the least and the largest share of the loaded trailer that should be on
	// its tongue, 0 where no band is known. The most counts where nobody weighed the tongue, the
	// least where an even load would put less than that there.
	Least, Most measure.Share
	// WayUp is how steep the way up to its deck is, on level ground and empty.
	WayUp Result[measure.Degrees]
	// WayHolds is what the way up is rated for, a pair of ramps as a pair, and WayBy says what
	// it is: ramps, a gate, a ramp door.
	WayHolds Result[measure.Pounds]
	WayBy    Constraint
	// PartHolds is the heaviest load on any part of the deck of the length Part, where the
	// maker rates that.
	PartHolds Result[measure.Pounds]
	Part      Result[measure.Inches]
	// Room is how wide a machine may be on it: between the fenders, or as wide as the deck or the
	// rear door.
	Room Result[measure.Inches]
	// Floor is how high its floor is above the ground, empty.
	Floor Result[measure.Inches]
	// NoWay says that nothing on file lets a machine drive on: no ramps, no tail that comes down, no
	// neck that comes off.
	NoWay bool
	// Closed says that there is a roof over it; Inside is then how high a machine may be, through
	// the door and under the roof.
	Closed bool
	Inside Result[measure.Inches]
}

// machineSpaces are the spaces onto which a machine is driven or set. A kind may carry something
// else on one: animals in a box, grain in a bed.
var machineSpaces = map[string]bool{"deck": true, "bed": true, "box": true}

// TowedOf takes a worked unit as a trailer to be matched with trucks.
func TowedOf(w *Work) Towed {
	var t Towed
	known := func(v measure.Pounds, ok bool) Result[measure.Pounds] {
		return Result[measure.Pounds]{Value: v, Known: ok}
	}
	wt, s := w.Unit.Weights, w.Space
	t.Empty = known(w.emptyNow())
	// An estimate of the tongue is not enough to say yes to a truck.
	t.TongueEmpty = known(wt.TongueEmpty.Value, w.tongueWeighed())
	t.GVWR = known(wt.GVWR.Value, wt.GVWR.Given())
	if a := w.Unit.Axles.Center; a.Given() {
		t.Axles = Result[measure.Inches]{Value: a.Value, Known: true}
	}
	if s.Front.Given() && s.Length.Given() {
		t.Center = Result[measure.Inches]{Value: s.Front.Value + s.Length.Value.Half(), Known: true}
	}
	t.Payload, t.SurgeTruck, t.WayUp = w.Payload, w.SurgeTruck, w.LoadingAngle
	t.NoBall = w.Unit.Hitch.Kind.Value == "fifth-wheel" || w.Unit.Hitch.Kind.Value == "pintle"
	t.NoMachines = !machineSpaces[s.Name] || !kinds.Of(w.Unit.Kind.Value).Machines
	t.Kind, t.Ball = w.Unit.Hitch.Kind.Value, w.Unit.Hitch.Ball.Value
	t.holds(w)
	t.Room = roomOf(w)
	t.Floor = Result[measure.Inches]{Value: s.Floor.Value, Known: s.Floor.Given()}
	t.entry(w)
	if band, ok := w.Band(); ok {
		t.Least, t.Most = band.Least, band.Most
	}
	t.Unbraked = w.Unit.Brakes.Kind.Value == "none" || !w.Unit.Brakes.Kind.Given() && !w.Unit.Brakes.Kind.Spoiled
	return t
}

// entry is how a machine gets onto it and under its roof.
func (t *Towed) entry(w *Work) {
	u := w.Unit
	tail, neck := u.Deck.TailKind.Value, u.Deck.Neck.Value
	t.NoWay = !t.WayUp.Known && !u.Ramps.Kind.Given() && !u.Ramps.Length.Given() && tail != "tilt" && tail != "hydraulic dovetail" && neck != "detachable" && neck != "folding"
	t.Closed = w.Space.Name == "box"
	for _, l := range []unit.Length{u.Box.Height, u.Box.DoorHeight} {
		if t.Closed && l.Given() && (!t.Inside.Known || l.Value < t.Inside.Value) {
			t.Inside = Result[measure.Inches]{Value: l.Value, Known: true}
		}
	}
}

// roomOf is the narrowest that was measured of what a machine goes through and stands on. Fenders
// that can be driven over bound it no more than the deck over them.
func roomOf(w *Work) (room Result[measure.Inches]) {
	u := w.Unit
	widths := []unit.Length{w.Space.Width, u.Deck.Between}
	switch {
	case w.Space.Name == "box":
		widths = append(widths, u.Box.DoorWidth)
	case w.Space.Name != "deck":
		widths = widths[:1]
	case u.Deck.Over.Given():
		widths = []unit.Length{u.Deck.Over}
	}
	for _, l := range widths {
		if l.Given() && (!room.Known || l.Value < room.Value) {
			room = Result[measure.Inches]{Value: l.Value, Known: true}
		}
	}
	return room
}
