package inspect

import (
	"strconv"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

var measureImpossible = &Rule{
	Name: "measure-impossible", Severity: Stop,
	Title:  "no measure is impossible, and no two of them contradict each other",
	Why:    "Figures that rest on a zero, on an axle in front of the ball or on one of two measures that contradict each other mean nothing.",
	Source: "geometry and statics",
	Remedy: "measure or weigh again",
	check: func(c *Case, f *Findings) {
		c.zeros(f)
		c.tooLarge(f)
		w, ax := c.Weights, c.Axles
		if ax.Count.Value > 6 {
			f.add(ax.Count.Pos, "%d axles are more than any trailer has", ax.Count.Value).figures(measure.Count(ax.Count.Value), "6")
		}
		if per := c.Tires.PerAxle; per.Given() && per.Value != 2 && per.Value != 4 {
			f.add(per.Pos, "%d tires on an axle; an axle has 2 tires, or 4 with duals", per.Value).
				fix("count the tires on one axle")
		}
		if w.TongueEmpty.Given() && w.Empty.Given() && w.TongueEmpty.Value > w.Empty.Value {
			f.add(w.TongueEmpty.Pos, "the tongue puts %s on the truck; the whole trailer weighs only %s", w.TongueEmpty.Value, w.Empty.Value).
				figures(w.TongueEmpty.Value.String(), w.Empty.Value.String()).
				also(w.Empty.Pos, "the empty weight is here")
		}
		c.contradictions(f)
		if ax.Center.Given() && ax.Spacing.Given() && ax.Count.Value > 1 {
			if front := ax.Center.Value - ax.Spacing.Value.Times(ax.Count.Value-1).Half(); front <= 0 {
				f.add(ax.Spacing.Pos, "with %s between the axles the first one would be in front of the ball", ax.Spacing.Value).
					also(ax.Center.Pos, "the middle of the axles is here")
			}
		}
	},
}

// zeros finds measures that are zero and cannot be. Others can: a deck may begin at
// the ball, a tongue may carry nothing, a lamp may be missing.
func (c *Case) zeros(f *Findings) {
	notZero(f, &c.Year, "the year")
	notZero(f, &c.Price, "the price")
	notZero(f, &c.OverallWidth, "the overall width")
	for _, l := range c.moreLengths() {
		notZero(f, l.is, l.what)
	}
	for _, w := range c.moreWeights() {
		notZero(f, w.is, w.what)
	}
	notZero(f, &c.Tank.Volume, "the tank's volume")
	notZero(f, &c.Bed.Volume, "the bed's volume")
	notZero(f, &c.Bin.Largest, "the largest bin's volume")
	notZero(f, &c.Offer.Cash, "the cash price")
	notZero(f, &c.Offer.Was, "the earlier price")
	h := &c.Hitch
	notZero(f, &h.Ball, "the ball")
	notZero(f, &h.Rating, "the coupler's rating")
	notZero(f, &h.BallRating, "the ball's rating")
	notZero(f, &h.TongueLimit, "the tongue limit")
	notZero(f, &h.Chains.Breaking, "the chains' breaking force")
	d := &c.Deck
	notZero(f, &d.Length, "the deck's length")
	notZero(f, &d.Pivot, "the distance to the pivot")
	notZero(f, &d.Width, "the deck's width")
	notZero(f, &d.Between, "the width between the fenders")
	notZero(f, &d.Height, "the deck's height")
	notZero(f, &c.Bed.Length, "the bed's length")
	notZero(f, &c.Bed.Width, "the bed's width")
	notZero(f, &c.Bed.Height, "the height of the bed's sides")
	notZero(f, &c.Bed.Floor, "the height of the bed's floor")
	notZero(f, &c.Box.Length, "the box's length")
	notZero(f, &c.Box.Width, "the box's width")
	notZero(f, &c.Box.Height, "the box's height")
	notZero(f, &c.Box.Floor, "the height of the box's floor")
	notZero(f, &c.Axles.Count, "the number of axles")
	notZero(f, &c.Axles.Rating, "the axle rating")
	notZero(f, &c.Axles.Center, "the distance from the ball to the axles")
	notZero(f, &c.Axles.Spacing, "the axle spacing")
	t := &c.Tires
	notZero(f, &t.Ply, "the ply rating")
	notZero(f, &t.Pressure, "the pressure")
	notZero(f, &t.Sidewall.Single, "the sidewall's single rating")
	notZero(f, &t.Sidewall.Dual, "the sidewall's dual rating")
	notZero(f, &t.Sidewall.Pressure, "the sidewall's pressure")
	notZero(f, &t.Wheel, "the wheel's rating")
	notZero(f, &c.Weights.GVWR, "gvwr")
	notZero(f, &c.Weights.Empty, "the empty weight")
	notZero(f, &c.Ramps.Length, "the ramps' length")
	notZero(f, &c.Ramps.Width, "the ramps' width")
	notZero(f, &c.Ramps.Rating, "the ramps' rating")
	notZero(f, &c.Frame.Spacing, "the crossmember spacing")
	notZero(f, &c.Jack.Rating, "the jack's rating")
	notZero(f, &c.Claimed.Payload, "the claimed payload")
	notZero(f, &c.Claimed.GVWR, "the claimed gvwr")
	notZero(f, &c.Claimed.Empty, "the claimed empty weight")
	for i := range c.TieDowns {
		notZero(f, &c.TieDowns[i].Rating, "the rating of the "+c.TieDowns[i].Kind.Value)
	}
}

// A lengthNamed is a length of the unit file and its name in a message; a weightNamed is
// likewise a weight.
type (
	lengthNamed struct {
		is   *unit.Length
		what string
	}
	weightNamed struct {
		is   *unit.Weight
		what string
	}
)

// moreLengths are lengths that cannot be zero and that no trailer has over 100 ft.
func (c *Case) moreLengths() []lengthNamed {
	d, b := &c.Deck, &c.Box
	return []lengthNamed{
		{&c.OverallHeight, "the overall height"}, {&c.OverallLength, "the overall length"}, {&c.Hitch.Lunette, "the eye"}, {&c.Hitch.Receiver, "the receiver"},
		{&d.Over, "the width over the fenders"}, {&d.Well, "the well's length"}, {&d.WellUp, "the well's height"},
		{&d.Loaded, "the height of the loaded deck"}, {&d.ShortOn, "the length of the part with a rating of its own"}, {&c.Hitch.Kingpin, "the kingpin"},
		{&b.DoorWidth, "the rear door's width"}, {&b.DoorHeight, "the rear door's height"}, {&b.SideWidth, "the side door's width"},
		{&b.SideHeight, "the side door's height"}, {&b.NoseLength, "the length of the nose"},
		{&c.Tank.Length, "the tank's length"}, {&c.Tank.Width, "the tank's width"}, {&c.Tank.Height, "the tank's height"}, {&c.Tank.Floor, "the height of the tank's bottom"},
		{&c.Hull.Length, "the hull's length"}, {&c.Hull.Beam, "the hull's width"}, {&c.Hull.Floor, "the height of the bunks"}, {&c.Hull.Bunk, "the bunks' length"},
		{&c.Bin.Length, "the longest bin's length"}, {&c.Bin.Shortest, "the shortest bin's length"}, {&c.Bin.Width, "the bins' width"}, {&c.Bin.Floor, "the height of the rails"},
		{&c.Bin.Hook, "the height of the hook's bar"}, {&c.Dolly.Widest, "the widest vehicle"}, {&c.Dolly.Narrow, "the narrowest vehicle"},
		{&c.Bunks.Length, "the distance from the first bunk to the last"}, {&c.Bunks.Width, "the width between the stakes"}, {&c.Bunks.Floor, "the height of the bunks"}, {&c.Bunks.Stakes, "the stakes' height"},
		{&c.Chassis.Length, "the chassis's length"}, {&c.Chassis.Width, "the chassis's width"}, {&c.Chassis.Floor, "the height of the frame"},
		{&c.Sides.Height, "the sides' height"}, {&c.Gate.Width, "the gate's width"}, {&c.Gate.Height, "the gate's height"},
		{&c.Jack.Lift, "the jack's lift"}, {&c.Frame.Thickness, "the floor's thickness"},
	}
}

// moreWeights are weights that cannot be zero.
func (c *Case) moreWeights() []weightNamed {
	return []weightNamed{
		{&c.Dolly.Axle, "the heaviest axle on the dolly"}, {&c.Dolly.Vehicle, "the heaviest vehicle on the dolly"},
		{&c.Winch.Rating, "the winch's rating"}, {&c.Hoist.Rating, "the hoist's rating"},
		{&c.Deck.Short, "the rating of a part of the deck"}, {&c.Weights.MaxLoad, "the load on the plate"}, {&c.Weights.Loaded, "the weight with a load"},
	}
}

// notZero finds one measure that is given as zero.
func notZero[V measure.Pounds | measure.Inches | measure.PSI | measure.Dollars | measure.Gallons | int](f *Findings, v *unit.Field[V], what string) {
	if v.Given() && v.Value <= 0 {
		f.add(v.Pos, "%s is zero", what)
	}
}

// What no trailer reaches. Common practice, no source: combinations end below 100 ft, a
// deck 8 ft up leaves 5 ft 6 in under the usual height limit of 13 ft 6 in, and forged
// rings end at working load limits around 24,000 lb.
const (
	mostLength  measure.Inches = 1200
	mostDeck    measure.Inches = 96
	mostTieDown measure.Pounds = 30000
	// mostPulled is the length of a deck or a box behind a ball at the bumper: 53 ft are for
	// semitrailers (23 CFR 658.13), and the longest car trailers end near 48 ft, from memory.
	mostPulled measure.Inches = 576
	// mostHeight is the height that nearly every state ends at, mostSides that of the sides
	// of a bed. Both from memory.
	mostHeight measure.Inches = 162
	mostSides  measure.Inches = 96
	// mostTread is more than a new truck tire has, whose tread is 32/32 in at most. From memory.
	mostTread measure.Inches = 1.25
)

// tooLarge are measures that are larger than any trailer's: a slip of the pen, or feet
// written for inches.
func (c *Case) tooLarge(f *Findings) {
	over := func(l unit.Length, what string, most measure.Inches) {
		if l.Given() && !measure.NotOver(l.Value, most) {
			f.add(l.Pos, "%s is %s; no trailer passes %s", what, l.Words(), most.Feet()).
				figures(l.Words(), most.Feet().String())
		}
	}
	d := &c.Deck
	for _, l := range c.moreLengths() {
		over(*l.is, l.what, mostLength)
	}
	for _, l := range []lengthNamed{
		{&c.OverallWidth, "the overall width"}, {&d.Length, "the deck's length"}, {&d.Flat, "the flat part's length"}, {&d.Tail, "the tail's length"},
		{&d.Width, "the deck's width"}, {&d.Between, "the width between the fenders"}, {&d.Front, "the distance from the ball to the deck"},
		{&c.Bed.Length, "the bed's length"}, {&c.Bed.Width, "the bed's width"}, {&c.Bed.Front, "the distance from the ball to the bed"},
		{&c.Box.Length, "the box's length"}, {&c.Box.Width, "the box's width"}, {&c.Box.Height, "the box's height"}, {&c.Box.Front, "the distance from the ball to the box"},
		{&c.Axles.Center, "the distance from the ball to the axles"}, {&c.Axles.Spacing, "the axle spacing"},
		{&c.Ramps.Length, "the ramps' length"}, {&c.Lights.Tape, "the tape along one side"},
	} {
		over(*l.is, l.what, mostLength)
	}
	if c.Hitch.Kind.Value == "bumper-pull" {
		over(d.Length, "the length of a bumper-pull's deck", mostPulled)
		over(c.Box.Length, "the length of a bumper-pull's box", mostPulled)
	}
	over(d.Height, "the deck's height", mostDeck)
	over(c.Bed.Floor, "the height of the bed's floor", mostDeck)
	over(c.Box.Floor, "the height of the box's floor", mostDeck)
	over(c.Bed.Height, "the height of the bed's sides", mostSides)
	if t := c.Wear.Tread; t.Given() && !measure.NotOver(t.Value, mostTread) {
		f.add(t.Pos, "the tread is %s; no tire's is over %s", t.Words(), mostTread).figures(t.Words(), mostTread.String()).
			fix("read the gauge again; a new trailer tire has 8/32 in or so")
	}
	if b := &c.Box; b.Floor.Given() && b.Height.Given() && !measure.NotOver(b.Floor.Value+b.Height.Value, mostHeight) {
		f.add(b.Height.Pos, "the box's floor and its height inside make %s; nearly every state ends at %s", (b.Floor.Value+b.Height.Value).Near(), mostHeight).
			figures((b.Floor.Value+b.Height.Value).Near(), mostHeight.String()).
			also(b.Floor.Pos, "the floor is here")
	}
	for _, t := range c.TieDowns {
		if t.Rating.Given() && !measure.NotOver(t.Rating.Value, mostTieDown) {
			f.add(t.Rating.Pos, "the %s are rated %s each; no ring on a trailer passes %s", t.Kind.Value, t.Rating.Words(), mostTieDown).
				figures(t.Rating.Words(), mostTieDown.String()).
				fix("read the working load limit off the ring again; a breaking strength is not a working load limit")
		}
	}
}

// contradictions finds pairs of measures of which one must be wrong.
func (c *Case) contradictions(f *Findings) {
	c.lengthsAgree(f)
	c.brakesAgree(f)
	c.tiresAgree(f)
	// A model year runs ahead of the calendar's by one, seldom by two: common practice, no source.
	if day := c.Work.Settings.AsOf; c.Year.Given() && c.Year.Value > 0 && day.Known() && (c.Year.Value > day.Year+2 || c.Year.Value < 1900) {
		f.add(c.Year.Pos, "the year is %d; the stock was walked on %s", c.Year.Value, day).
			figures(strconv.Itoa(c.Year.Value), day.String()).
			fix("read the year off the label again")
	}
}

// lengthsAgree finds a length that is longer than one it is a part of.
func (c *Case) lengthsAgree(f *Findings) {
	// over is a length that cannot pass another by more than a tape is misread.
	over := func(a unit.Length, what string, b unit.Length, than string) {
		const slip measure.Inches = 0.5
		if a.Given() && b.Given() && b.Value > 0 && a.Value > b.Value+slip {
			f.add(a.Pos, "%s is %s; %s is only %s", what, a.Words(), than, b.Words()).
				figures(a.Words(), b.Words()).
				also(b.Pos, than+" is here")
		}
	}
	d := c.Deck
	over(d.Width, "the deck's width", c.OverallWidth, "the overall width")
	over(d.Between, "the width between the fenders", c.OverallWidth, "the overall width")
	over(c.Bed.Width, "the bed's inside width", c.OverallWidth, "the overall width")
	over(c.Box.Width, "the box's inside width", c.OverallWidth, "the overall width")
	over(d.Over, "the width over the fenders", c.OverallWidth, "the overall width")
	over(d.Between, "the width between the fenders", d.Over, "the width over the fenders")
	over(c.Box.DoorHeight, "the rear door's height", c.Box.Height, "the box's inside height")
	over(c.Box.DoorWidth, "the rear door's width", c.Box.Width, "the box's inside width")
	over(c.Box.SideHeight, "the side door's height", c.Box.Height, "the box's inside height")
	over(c.Bin.Shortest, "the shortest bin's length", c.Bin.Length, "the longest bin's length")
	over(c.Dolly.Narrow, "the narrowest vehicle", c.Dolly.Widest, "the widest vehicle")
	over(d.Well, "the well's length", d.Length, "the deck's length")
	over(d.Pivot, "the distance from the pivot to the deck's end", d.Length, "the deck's length")
	if d.TailKind.Value == "tilt" {
		over(d.Pivot, "the distance from the pivot to the deck's end", d.Tail, "the part that tilts")
	}
	over(d.TailEnd, "the height of the deck's rear edge", d.Height, "the deck's height")
	if !d.Flat.Given() || !d.Tail.Given() {
		// Where both are given, deck-adds-up adds them up.
		over(d.Tail, "the tail's length", d.Length, "the deck's length")
		over(d.Flat, "the flat part's length", d.Length, "the deck's length")
	}
}

// brakesAgree finds brakes that contradict their kind or the number of axles.
func (c *Case) brakesAgree(f *Findings) {
	b, n := c.Brakes, c.Axles.Count
	if b.Axles.Given() && n.Given() && n.Value > 0 && b.Axles.Value > n.Value {
		f.add(b.Axles.Pos, "%d axles have brakes; the trailer has only %d axles", b.Axles.Value, n.Value).
			figures(measure.Count(b.Axles.Value), measure.Count(n.Value)).
			also(n.Pos, "the number of axles is here").
			fix("count the axles and the braked axles again")
	}
	if b.Kind.Given() && b.Kind.Value != "none" && b.Axles.Given() && b.Axles.Value == 0 {
		f.add(b.Axles.Pos, "the brakes are %s, and 0 axles are braked", b.Kind.Value).
			also(b.Kind.Pos, "the kind of brakes is here").
			fix("count the braked axles again, or write brakes.kind: none")
	}
	// Where brakes are due brakes-missing says so.
	if c.mayGoUnbraked() && b.Kind.Value == "none" && (b.Axles.Value > 0 || b.Breakaway.Value) {
		at := b.Axles.Pos
		if b.Axles.Value <= 0 {
			at = b.Breakaway.Pos
		}
		f.add(at, "brakes.kind is none, and the file names brakes all the same").
			also(b.Kind.Pos, "the kind of brakes is here").
			fix("write the kind of brakes, or take the other brake keys out")
	}
}

// tiresAgree finds a sidewall whose two ratings contradict each other, and axles that are
// closer than their tires allow.
func (c *Case) tiresAgree(f *Findings) {
	if side := c.Tires.Sidewall; side.Single.Given() && side.Single.Value > 0 && side.Dual.Given() && side.Dual.Value > side.Single.Value {
		f.add(side.Dual.Pos, "the sidewall's dual rating is %s, and its single rating only %s; a tire carries less in a pair", side.Dual.Value, side.Single.Value).
			figures(side.Dual.Value.String(), side.Single.Value.String()).
			also(side.Single.Pos, "the single rating is here").
			fix("read both off the sidewall again")
	}
	// Two wheels in a row cannot be closer than a tire is tall.
	if sp := c.Axles.Spacing; sp.Given() && sp.Value > 0 && c.Axles.Count.Value > 1 && c.Tires.Size.Given() {
		if size, err := tables.ParseTireSize(c.Tires.Size.Value); err == nil {
			tall, exact := size.Diameter()
			if tall = measure.Nearest(tall, 0.1); exact && !measure.NotOver(tall, sp.Value) {
				f.add(sp.Pos, "the axles are %s apart; the tires are %s tall and would touch", sp.Words(), tall.InInches()).
					figures(sp.Words(), tall.InInches()).
					also(c.Tires.Size.Pos, "the size is here").
					fix("measure from hub to hub, and read the tire's size again")
			}
		}
	}
}
