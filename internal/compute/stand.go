package compute

import "tarepage/internal/measure"

// A Stand is what a trailer bears with one load at one place.
type Stand struct {
	// Total is trailer and load. Tongue and Axles are its weight on the truck and on the axle
	// group; a tongue below zero lifts. Share is the tongue's part of Total.
	Total, Tongue, Axles measure.Pounds
	Share                measure.Share
	// Margins are the known limits, in the order of the constraints.
	Margins []Margin
	// Keeps reports whether every limit is kept and the load is on the deck.
	Keeps bool
}

// A Margin is one limit and its load.
type Margin struct {
	By          Constraint
	Limit, Used measure.Pounds
	// Over reports whether the limit is broken: the load is more, or less for BandLeast.
	Over bool
	// Left is what is left of the limit, below zero if it is broken.
	Left measure.Pounds
}

// In writes what is left of a limit, or how far over it is, in the reader's units.
func (m Margin) In(s measure.System) string {
	switch {
	case m.Over && m.By == BandLeast:
		return s.Load(-m.Left) + " short"
	case m.Over:
		return s.Load(-m.Left) + " over"
	}
	return s.Limit(max(m.Left, 0)) + " left"
}

// Stand places a load and compares it with every limit of the rig. It compares the axle group
// with axles, tires and wheels separately if the rig has them. It returns nothing for a rig
// that weighs nothing or has its axles at the ball.
func (r Rig) Stand(p Placed) Stand {
	s := Stand{Total: r.Empty + p.Weight}
	if !(s.Total > 0) || r.Axles == 0 {
		return s
	}
	s.Tongue, s.Axles = r.Standing([]Placed{p})
	s.Keeps = r.sensible() && p.Load.sensible() &&
		measure.NotOver(p.Length.Half(), p.Behind) && measure.NotOver(p.Behind+p.Length.Half(), r.Length)
	r.margins(&s)
	return s
}

// margins compares what the trailer bears with every limit of the rig.
func (r Rig) margins(s *Stand) {
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
