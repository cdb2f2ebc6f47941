package compute

import "tarepage/internal/measure"

// Held compares machines at their places with what the way up and a short part of the deck are
// rated for, where these ratings are known. On the way up each machine is alone, and its whole
// weight counts: nobody knows how its axles share it. A pair of ramps is rated as a pair.
func (t Towed) Held(sets []Set) []Margin {
	var s Stand
	if t.WayHolds.Known {
		var heaviest measure.Pounds
		for _, m := range sets {
			heaviest = max(heaviest, m.Weight)
		}
		s.upTo(t.WayBy, t.WayHolds.Value, heaviest)
	}
	if t.PartHolds.Known {
		part := t.Part.Value
		if !t.Part.Known {
			part = endless
		}
		s.upTo(PartHold, t.PartHolds.Value, onPart(sets, part))
	}
	return s.Margins
}

// endless is longer than any deck: a rating for a part of unknown length is held against all
// that is on the deck.
const endless = measure.Inches(1e9)

// onPart is the most that any part of the deck of the given length carries. A machine spreads
// its weight over its own length, so a machine that fits on the part counts with all its weight.
// The heaviest part begins or ends where a machine does: in between, the weight on it changes
// evenly.
func onPart(sets []Set, part measure.Inches) measure.Pounds {
	var most measure.Pounds
	for _, m := range sets {
		most = max(most, between(sets, m.At, m.At+part), between(sets, m.At+m.Length-part, m.At+m.Length))
	}
	return most
}

// between is what the machines put on the deck between two places.
func between(sets []Set, from, to measure.Inches) measure.Pounds {
	var all measure.Pounds
	for _, m := range sets {
		over := min(to, m.At+m.Length) - max(from, m.At)
		switch {
		case over >= m.Length:
			all += m.Weight
		case over > 0:
			all += measure.WeightAt(measure.Moment(m.Weight, over), m.Length)
		}
	}
	return all
}

// refused is a window without room for a load that is too heavy for the way up or for a short
// part of the deck. Known is false where it may be, and the length of that part is not known.
func (t Towed) refused(l Load) (w Window, over, known bool) {
	for _, m := range t.Held([]Set{{Machine: Machine{Load: l}}}) {
		if m.Over {
			leaves := measure.ShareOf(l.Weight, m.Used).Of(m.Limit)
			return Window{Load: l, Against: [2]Constraint{TheLoad, m.By}, Leaves: leaves}, true, m.By != PartHold || t.Part.Known
		}
	}
	return Window{}, false, true
}

// wayUp are the constraints of what a machine is driven up on, by the kind of the ramps.
var wayUp = map[string]Constraint{"gate": GateHold, "ramp door": DoorHold}

// holds fills in what the way up and a short part of the deck are rated for.
func (t *Towed) holds(w *Work) {
	if r := w.Unit.Ramps; r.Rating.Given() && r.Rating.Value > 0 {
		t.WayHolds, t.WayBy = Result[measure.Pounds]{Value: r.Rating.Value, Known: true}, RampsHold
		if by, other := wayUp[r.Kind.Value]; other {
			t.WayBy = by
		}
	}
	if d := w.Unit.Deck; d.Short.Given() && d.Short.Value > 0 {
		t.PartHolds = Result[measure.Pounds]{Value: d.Short.Value, Known: true}
		t.Part = Result[measure.Inches]{Value: d.ShortOn.Value, Known: d.ShortOn.Given() && d.ShortOn.Value > 0}
	}
}
