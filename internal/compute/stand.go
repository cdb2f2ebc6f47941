package compute

import "tarepage/internal/measure"

// A Stand is what a trailer bears with one load standing at one place.
type Stand struct {
	// Total is trailer and load; Tongue and Axles are how it stands on the truck and on
	// the axle group, a tongue below zero lifting; Share is the tongue's part of Total.
	Total, Tongue, Axles measure.Pounds
	Share                measure.Share
	// Margins are the limits that are known, in the order of the constraints.
	Margins []Margin
	// Keeps reports that every one of them is kept and the load stands on the deck.
	Keeps bool
}

// A Margin is one limit and what comes on it.
type Margin struct {
	By          Constraint
	Limit, Used measure.Pounds
	// Over reports that the limit is broken: more than it, or of BandLeast less.
	Over bool
	// Left is by how much it is kept, or below zero by how much it is broken.
	Left measure.Pounds
}

// In writes what is left of a limit, or by how much it is broken, in the reader's units.
func (m Margin) In(s measure.System) string {
	switch {
	case m.Over && m.By == BandLeast:
		return s.Load(-m.Left) + " short"
	case m.Over:
		return s.Load(-m.Left) + " over"
	}
	return s.Limit(max(m.Left, 0)) + " left"
}

// Stand places a load and holds it against every limit that the rig knows. The axle group
// is held against axles, tires and wheels each by itself where the rig names them. A rig
// that weighs nothing or has its axles at the ball stands nowhere.
func (r Rig) Stand(p Placed) Stand {
	s := Stand{Total: r.Empty + p.Weight}
	if !(s.Total > 0) || r.Axles == 0 {
		return s
	}
	s.Tongue, s.Axles = r.Standing([]Placed{p})
	s.Keeps = r.sensible() && p.Load.sensible() &&
		measure.NotOver(p.Length.Half(), p.Behind) && measure.NotOver(p.Behind+p.Length.Half(), r.Length)
	s.Share = measure.ShareOf(s.Tongue, s.Total)
	least, most := r.Least, r.Most
	if most == 0 {
		most = 1
	}
	need := least.Of(s.Total)
	s.add(Margin{By: BandLeast, Limit: need, Used: s.Tongue, Left: s.Tongue - need, Over: !measure.NotOver(need, s.Tongue)})
	s.upTo(BandMost, most.Of(s.Total), s.Tongue)
	s.known(TongueMost, r.TongueMost, s.Tongue)
	holds := r.Holds
	if holds == [3]measure.Pounds{} && r.HoldBy >= AxleHold && r.HoldBy <= WheelHold {
		holds[r.HoldBy-AxleHold] = r.Hold
	}
	for i, h := range holds {
		s.known(AxleHold+Constraint(i), h, s.Axles)
	}
	s.known(WithinGVWR, r.GVWR, s.Total)
	s.known(WithinCoupler, r.Coupler, s.Total)
	s.known(WithinBall, r.Ball, s.Total)
	return s
}

func (s *Stand) known(by Constraint, limit, used measure.Pounds) {
	if limit > 0 {
		s.upTo(by, limit, used)
	}
}

func (s *Stand) upTo(by Constraint, limit, used measure.Pounds) {
	s.add(Margin{By: by, Limit: limit, Used: used, Left: limit - used, Over: !measure.NotOver(used, limit)})
}

func (s *Stand) add(m Margin) {
	s.Margins = append(s.Margins, m)
	s.Keeps = s.Keeps && !m.Over
}
