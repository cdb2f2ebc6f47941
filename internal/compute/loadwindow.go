package compute

import (
	"cmp"
	"slices"

	"tarepage/internal/measure"
)

// A Constraint is a limit on the place of a load.
type Constraint uint8

// The constraints. The first ones bound the place, the later ones the weight, the last
// ones refuse measures that cannot be, or a machine whatever its place.
const (
	NoConstraint Constraint = iota
	DeckFront
	DeckRear
	LoadAhead
	LoadBehind
	BandLeast
	BandMost
	TongueMost
	AxleHold
	TireHold
	WheelHold
	WithinGVWR
	WithinCoupler
	WithinBall
	NoLoad
	TheLoad
	TheTrailer
	RampsHold
	GateHold
	DoorHold
	PartHold
	TheOthers
)

// String names the constraint as a sentence takes it.
func (c Constraint) String() string {
	return [...]string{
		"nothing", "the deck's front edge", "the deck's rear edge", "the load ahead of it", "the load behind it",
		"the least that should be on the tongue", "the most that should be on the tongue", "the coupler's tongue limit",
		"the axles", "the tires", "the wheels", "GVWR", "the coupler", "the ball", "no load at all",
		"the load's own measures", "the trailer's measures",
		"the rating of the ramps", "the rating of the gate", "the rating of the ramp door", "the rating of a short part of the deck", "the measures of a load already placed",
	}[c]
}

// A Rig is a trailer as the load windows need it: plain numbers, E, T0 and A as in the
// package comment. Front and Length are the deck's (or bed's, or box's).
type Rig struct {
	Empty  measure.Pounds // E
	Tongue measure.Pounds // T0, the empty trailer's part on the truck
	Axles  measure.Inches // A, ball to the middle of the axle group
	Front  measure.Inches // ball to the deck's front edge
	Length measure.Inches
	GVWR   measure.Pounds
	// Hold is what the axle group carries by axles, tires or wheels, whichever is least,
	// and HoldBy says which.
	Hold   measure.Pounds
	HoldBy Constraint
	// Holds are the capacities of the axles, their tires and their wheels, each by itself;
	// zero if not known. Only Stand uses them.
	Holds [3]measure.Pounds
	// TongueMost is the coupler's tongue limit, Coupler and Ball their ratings for the
	// whole trailer; zero where they are not known.
	TongueMost, Coupler, Ball measure.Pounds
	// Least and Most are the tongue band. Zero for both means no band: then the tongue may
	// carry anything but must not lift.
	Least, Most measure.Share
}

// A Load is on the deck over a length. Its weight counts at the middle of the length.
type Load struct {
	Weight measure.Pounds
	Length measure.Inches
}

// A Placed load is a load with the distance of its center behind the deck's front edge.
type Placed struct {
	Load
	Behind measure.Inches
}

// An End is one end of a window: the last place that a load's center may have.
type End struct {
	// Behind is from the deck's front edge back, FromBall from the ball.
	Behind, FromBall measure.Inches
	// By is the constraint that sets it.
	By Constraint
}

// A Window is the range of places for the center of one load.
type Window struct {
	Load Load
	// Room reports that there is somewhere. First and Last are then its ends, both
	// allowed, and the same where there is but one place.
	Room        bool
	First, Last End
	// Against are the two constraints that leave no room. Where they are both of place,
	// First and Last say what each requires, and First is behind Last.
	Against [2]Constraint
	// Leaves is the load that the weight constraint allows, if a load breaks it.
	Leaves measure.Pounds
}

// A line bounds the moment w x of a load of weight w about the ball: at + slope w. The
// place x of one load is bounded by a curve, its moment by a line; so the limits of many
// weights are compared and crossed exactly.
type line struct {
	at    measure.PoundInches
	slope measure.Inches
	by    Constraint
}

// moment is the line's moment for a load of weight w.
func (l line) moment(w measure.Pounds) measure.PoundInches {
	return l.at + measure.Moment(w, l.slope)
}

// place is the place of a load of weight w on the line. For a load that weighs nothing, only
// a line through zero gives a place.
func (l line) place(w measure.Pounds) measure.Inches {
	if l.at == 0 || w == 0 {
		return l.slope
	}
	return l.slope + measure.ArmOf(l.at, w)
}

// bounds are the lines that a load's moment must stay above and below.
type bounds struct{ above, below [3]line }

// bounds are the rig's lines for a load whose center stays between front and rear.
//
// A load w at x leaves T = T0 + w - w x / A on the tongue and G = E + w - T on the axles.
// Each bound on T or G is solved for w x; the band's, being a share of E + w, is linear
// in w too.
func (r Rig) bounds(front, rear line) bounds {
	least, most := r.Least, r.Most
	if most == 0 {
		most = 1
	}
	// T at most t: w x >= (T0 + w - t) A. T at least t: w x <= (T0 + w - t) A.
	b := bounds{
		above: [3]line{front, r.band(most, BandMost), front},
		below: [3]line{rear, r.band(least, BandLeast), {measure.Moment(r.Hold-(r.Empty-r.Tongue), r.Axles), 0, r.HoldBy}},
	}
	if r.TongueMost > 0 {
		b.above[2] = line{measure.Moment(r.Tongue-r.TongueMost, r.Axles), r.Axles, TongueMost}
	}
	return b
}

// band is the line on which the tongue carries the share s of the loaded trailer.
func (r Rig) band(s measure.Share, by Constraint) line {
	free := r.Tongue - s.Of(r.Empty)
	if same(r.Tongue, s.Of(r.Empty)) {
		free = 0
	}
	return line{measure.Moment(free, r.Axles), r.Axles - s.OfLength(r.Axles), by}
}

// front is the line that requires the highest moment of a load of weight w, and rear the one
// that requires the lowest. The first wins a tie.
func (b *bounds) front(w measure.Pounds) line {
	out := b.above[0]
	for _, l := range b.above[1:] {
		if l.moment(w) > out.moment(w) {
			out = l
		}
	}
	return out
}

func (b *bounds) rear(w measure.Pounds) line {
	out := b.below[0]
	for _, l := range b.below[1:] {
		if l.moment(w) < out.moment(w) {
			out = l
		}
	}
	return out
}

// sensible reports whether the rig is possible: positive where it must be, finite, and not
// heavier on the tongue than it weighs.
func (r Rig) sensible() bool {
	return r.Empty > 0 && r.Axles > 0 && r.Length > 0 && r.GVWR > 0 && r.Hold > 0 &&
		r.Tongue <= r.Empty && r.Tongue >= -r.Empty &&
		r.TongueMost >= 0 && r.Coupler >= 0 && r.Ball >= 0 &&
		r.Least >= 0 && r.Most >= r.Least && r.Most <= 1 && r.finite()
}

// finite reports whether every measure of the rig is one that a trailer can have.
func (r Rig) finite() bool {
	return allSensible(r.Empty, r.GVWR, r.Hold, r.TongueMost, r.Coupler, r.Ball) && allSensible(r.Axles, r.Front, r.Length)
}

func allSensible[U measure.Unit](all ...U) bool {
	for _, v := range all {
		if !measure.Sensible(v) {
			return false
		}
	}
	return true
}

// leastLoad is the lightest thing that counts as a load: below a pound nothing depends
// on where it is.
const leastLoad measure.Pounds = 1

func (l Load) sensible() bool {
	return l.Weight >= leastLoad && l.Length >= 0 && measure.Sensible(l.Weight) && measure.Sensible(l.Length)
}

// leaves is the load that the ratings of the whole trailer allow, and which of them
// is the lowest.
func (r Rig) leaves() (measure.Pounds, Constraint) {
	most, by := r.GVWR, WithinGVWR
	if r.Coupler > 0 && r.Coupler < most {
		most, by = r.Coupler, WithinCoupler
	}
	if r.Ball > 0 && r.Ball < most {
		most, by = r.Ball, WithinBall
	}
	return most - r.Empty, by
}

// Window returns where the center of a load may be so that it keeps every limit: the deck's
// ends, the tongue band, the coupler's tongue limit and the capacity of the axle group, with
// the loaded trailer within gvwr, coupler and ball. All limits are inclusive. Where nothing
// fits, the window names the two constraints in conflict.
func (r Rig) Window(l Load) Window {
	return r.between(l, End{Behind: 0, By: DeckFront}, End{Behind: r.Length, By: DeckRear})
}

// between is Window for the part of the deck between two places.
func (r Rig) between(l Load, ahead, behind End) Window {
	w := Window{Load: l}
	switch {
	case !r.sensible():
		w.Against = [2]Constraint{TheTrailer, TheTrailer}
		return w
	case !l.sensible():
		w.Against = [2]Constraint{TheLoad, TheLoad}
		return w
	}
	if left, by := r.leaves(); !measure.NotOver(r.Empty+l.Weight, r.Empty+left) {
		w.Against, w.Leaves = [2]Constraint{TheLoad, by}, max(left, 0)
		return w
	}
	half := l.Length.Half()
	b := r.bounds(
		line{0, r.Front + ahead.Behind + half, ahead.By},
		line{0, r.Front + behind.Behind - half, behind.By})
	front, rear := b.front(l.Weight), b.rear(l.Weight)
	if !measure.NotOver(l.Length, behind.Behind-ahead.Behind) {
		// The load is too long, whatever the other limits are.
		front, rear = b.above[0], b.below[0]
	}
	w.First, w.Last = r.end(front, l.Weight), r.end(rear, l.Weight)
	if !measure.NotOver(front.moment(l.Weight), rear.moment(l.Weight)) {
		w.Against = [2]Constraint{front.by, rear.by}
		return w
	}
	w.Room = true
	// The two may cross in their last bits where there is but one place.
	w.Last.Behind, w.Last.FromBall = max(w.Last.Behind, w.First.Behind), max(w.Last.FromBall, w.First.FromBall)
	return w
}

func (r Rig) end(l line, w measure.Pounds) End {
	x := l.place(w)
	return End{Behind: x - r.Front, FromBall: x, By: l.by}
}

// Standing is what the trailer with its loads puts on the tongue and on the axle group. A
// tongue below zero lifts. It works for any rig whose axles are not at the ball.
func (r Rig) Standing(loads []Placed) (tongue, axles measure.Pounds) {
	for _, p := range loads {
		r = r.with(p)
	}
	return r.Tongue, r.Empty - r.Tongue
}

// with is the rig with a load on it for good: one more part of its empty weight.
func (r Rig) with(p Placed) Rig {
	r.Empty += p.Weight
	r.Tongue += measure.WeightAt(measure.Moment(p.Weight, r.Axles-r.Front-p.Behind), r.Axles)
	return r
}

// WindowsAmong returns where the center of one more load may be among other loads:
// one window for each gap that has room, front to back, or a single window that says why
// there is none. The weight of the others counts wherever they are; loads are not on top of one
// another.
func (r Rig) WindowsAmong(l Load, others []Placed) []Window {
	if !r.sensible() {
		return []Window{r.Window(l)}
	}
	loaded := r
	for _, o := range others {
		if !o.Load.sensible() || !measure.Sensible(o.Behind) {
			return []Window{{Load: l, Against: [2]Constraint{TheOthers, TheOthers}}}
		}
		loaded = loaded.with(o)
	}
	if !loaded.sensible() {
		return []Window{{Load: l, Against: [2]Constraint{TheOthers, TheOthers}}}
	}
	var rooms []Window
	var none Window
	var longest measure.Inches
	for i, g := range r.gaps(others) {
		w := loaded.between(l, g[0], g[1])
		if w.Room {
			rooms = append(rooms, w)
		}
		// Without any room the longest gap's reason says most.
		if length := g[1].Behind - g[0].Behind; i == 0 || length > longest {
			none, longest = w, length
		}
	}
	if len(rooms) == 0 {
		return []Window{none}
	}
	return rooms
}

// gaps are the free parts of the deck, front to back; at least one, which may be empty.
func (r Rig) gaps(others []Placed) [][2]End {
	sorted := slices.Clone(others)
	slices.SortStableFunc(sorted, func(a, b Placed) int {
		return cmp.Compare(a.Behind-a.Length.Half(), b.Behind-b.Length.Half())
	})
	var out [][2]End
	at := End{Behind: 0, By: DeckFront}
	for _, o := range sorted {
		if front := o.Behind - o.Length.Half(); front > at.Behind {
			out = append(out, [2]End{at, {Behind: min(front, r.Length), By: LoadBehind}})
		}
		if rear := o.Behind + o.Length.Half(); rear > at.Behind {
			at = End{Behind: rear, By: LoadAhead}
		}
	}
	if at.Behind < r.Length || len(out) == 0 {
		out = append(out, [2]End{at, {Behind: r.Length, By: DeckRear}})
	}
	return out
}

// Arrange places several loads at once: one behind the other in the given order, close
// together, in the middle of what is allowed. The window is that
// of their common center, under a load of their weight and length together; where it has
// no room it says why and nothing is placed.
func (r Rig) Arrange(loads []Load) ([]Placed, Window) {
	var all Load
	var about measure.PoundInches // the row's moment about its own front end
	for _, l := range loads {
		if !l.sensible() {
			return nil, Window{Load: l, Against: [2]Constraint{TheLoad, TheLoad}}
		}
		about += measure.Moment(l.Weight, all.Length+l.Length.Half())
		all = Load{all.Weight + l.Weight, all.Length + l.Length}
	}
	if !all.sensible() {
		return nil, Window{Load: all, Against: [2]Constraint{TheLoad, TheLoad}}
	}
	// The row's center is not its middle: shift the deck under it by the difference, so
	// that the window of one even load of this length is the row's own.
	center := measure.ArmOf(about, all.Weight)
	off := center - all.Length.Half()
	w := r.between(all, End{Behind: off, By: DeckFront}, End{Behind: r.Length + off, By: DeckRear})
	if !w.Room {
		return nil, w
	}
	at := (w.First.Behind + w.Last.Behind).Half() - center
	out := make([]Placed, 0, len(loads))
	for _, l := range loads {
		out = append(out, Placed{l, at + l.Length.Half()})
		at += l.Length
	}
	return out, w
}
