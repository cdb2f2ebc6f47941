package compute

import (
	"cmp"
	"slices"

	"tarepage/internal/measure"
)

// A Machine is a load with ends: its center of gravity is not its middle, and nobody knows
// it to the inch.
type Machine struct {
	Load
	// Center is from its leading end back to its center of gravity. Margin is how far the
	// center may be from there.
	Center, Margin measure.Inches
	// Narrow and Wide are the least and the most that it measures across its tracks or wheels: the
	// same where somebody measured it, 0 where nothing is known.
	Narrow, Wide measure.Inches
	// Tall is its height as it travels, 0 where nobody measured it.
	Tall measure.Inches
	// Lifted says that it is set on, as freight is, and not driven or rolled on. Drags says that it
	// drags on the trailer's way up.
	Lifted, Drags bool
}

// A Set machine has its leading end this far behind the deck's front edge.
type Set struct {
	Machine
	At measure.Inches
}

// Fit says whether there is a spot.
type Fit string

// The fits. Close has room only if the center is where it was said to be, without the margin.
const (
	Fits   Fit = "yes"
	Close  Fit = "close"
	NoSpot Fit = "no"
)

// inch is what a spot is rounded to: nobody sets a machine down to the quarter inch.
const inch = measure.Inches(1)

// A Spot is where the leading end of a machine may be, behind the deck's front edge.
type Spot struct {
	Fit Fit
	// From and To keep the margin; Loose are the same without it. First and Last are From
	// and To in whole inches, rounded inward, where the machine fits.
	From, To, First, Last measure.Inches
	Loose                 [2]measure.Inches
	// By are the constraints that set the two ends, or that leave no room.
	By [2]Constraint
	// Window is where the center may be, whatever the machine's ends.
	Window Window
}

// under is the rig with machines on it.
func (r Rig) under(sets []Set) Rig {
	for _, s := range sets {
		r = r.with(Placed{s.Load, s.At + s.Center})
	}
	return r
}

// inOrder are the machines front to rear.
func inOrder(sets []Set) []Set {
	sorted := slices.Clone(sets)
	slices.SortStableFunc(sorted, func(a, b Set) int { return cmp.Compare(a.At, b.At) })
	return sorted
}

// Spots are where the leading end of one more machine may be among others: one spot for
// each gap that has room, front to back, or a single one that says why there is none. The
// ends of the deck and the others bound its ends; the tongue, the axles and the ratings
// bound its center, which may be off by its margin either way.
func (r Rig) Spots(m Machine, others []Set) []Spot {
	w := r.Window(Load{Weight: m.Weight})
	if r.sensible() {
		w = r.under(others).Window(Load{Weight: m.Weight})
	}
	var out []Spot
	var none Spot
	longest := measure.Inches(-2e9)
	at := End{By: DeckFront}
	try := func(behind End) {
		s := m.spot(w, at, behind)
		if s.Fit != NoSpot {
			out = append(out, s)
		}
		if wide := behind.Behind - at.Behind; wide > longest {
			none, longest = s, wide
		}
	}
	tried := false
	for _, o := range inOrder(others) {
		if o.At > at.Behind {
			try(End{Behind: min(o.At, r.Length), By: LoadBehind})
			tried = true
		}
		if o.At+o.Length > at.Behind {
			at = End{Behind: o.At + o.Length, By: LoadAhead}
		}
	}
	if at.Behind < r.Length || !tried {
		try(End{Behind: r.Length, By: DeckRear})
	}
	if len(out) == 0 {
		return []Spot{none}
	}
	return out
}

// spot is the machine's spot in one gap, where its center may be as the window says.
func (m Machine) spot(w Window, ahead, behind End) Spot {
	s := Spot{Fit: NoSpot, Window: w, By: [2]Constraint{w.First.By, w.Last.By}}
	if !w.Room {
		s.By = w.Against
	}
	if s.By[0] >= NoLoad {
		return s
	}
	front, rear := w.First.Behind-m.Center, w.Last.Behind-m.Center
	last := behind.Behind - m.Length
	s.Loose = [2]measure.Inches{max(ahead.Behind, front), min(last, rear)}
	s.From, s.To = max(ahead.Behind, front+m.Margin), min(last, rear-m.Margin)
	if !(front > ahead.Behind) {
		s.By[0] = ahead.By
	}
	if !(rear < last) {
		s.By[1] = behind.By
	}
	switch {
	case !measure.NotOver(m.Length, behind.Behind-ahead.Behind):
		s.By = [2]Constraint{ahead.By, behind.By}
	case w.Room && measure.NotOver(s.Loose[0], s.Loose[1]):
		s.First, s.Last = measure.Up(s.From, inch), measure.Down(s.To, inch)
		if s.Fit = Close; s.First <= s.Last {
			s.Fit = Fits
		}
	}
	return s
}

// Best is the middle of the spot, to a whole inch. Where the room is too small to be sure it is never
// outside of that room.
func (s Spot) Best() measure.Inches {
	mid := measure.Nearest((s.First + s.Last).Half(), inch)
	if s.Fit == Close {
		return min(max(mid, s.Loose[0]), s.Loose[1])
	}
	return mid
}

// Bear is what the trailer bears with the machines on it. Apart reports that no two of
// them overlap and that none is over an end of the deck; a Stand keeps its limits only then.
func (r Rig) Bear(sets []Set) (s Stand, apart bool) {
	f := r.under(sets)
	if !(f.Empty > 0) || r.Axles == 0 {
		return Stand{}, false
	}
	s = Stand{Total: f.Empty, Tongue: f.Tongue, Axles: f.Empty - f.Tongue}
	apart, keeps := true, r.sensible()
	var end measure.Inches
	for _, o := range inOrder(sets) {
		keeps = keeps && o.Load.sensible()
		apart = apart && measure.NotOver(end, o.At)
		end = max(end, o.At+o.Length)
	}
	apart = apart && measure.NotOver(end, r.Length)
	s.Keeps = keeps && apart
	r.margins(&s)
	return s, apart
}
