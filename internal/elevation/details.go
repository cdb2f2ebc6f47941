package elevation

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
)

// Details are what a unit has on its walls and at its ends. They are drawn from its own
// numbers; without a number only the words name them. Sizes of small parts are usual ones
// (common practice, no source).
const (
	postEvery measure.Inches = 36 // from one post of an open side to the next
	leaf      measure.Inches = 2  // how thick a gate or a door is
	ventWide  measure.Inches = 14
	ventHigh  measure.Inches = 4
	rampRise  measure.Inches = 24 // the length of a lowboy's slope up over its wheels
	overTires measure.Inches = 5  // a lowboy's rear deck above its tires
)

// frameLines draws an upright rectangle as a line around it.
func (d *drawing) frameLines(l layer, left, right, bottom, top measure.Inches) {
	if right > left && top > bottom {
		d.shapes = append(d.shapes, shape{layer: l, open: true,
			at: []point{{left, bottom}, {left, top}, {right, top}, {right, bottom}, {left, bottom}}})
	}
}

// nose is how far a V-nose reaches ahead of the box; 0 if there is none or nobody measured it.
func (f *facts) nose() measure.Inches {
	b := f.unit.Box
	if f.space != "box" || b.Nose.Value != "V-nose" || !b.NoseLength.Given() {
		return 0
	}
	if n := b.NoseLength.Value; n > 0 && n < f.front.Inches-12 {
		return n
	}
	return 0
}

// sideDoor is where the side door is, measured from the ball, and whether it was measured.
func (f *facts) sideDoor() (from, to, high measure.Inches, ok bool) {
	b := f.unit.Box
	if f.space != "box" || f.wallGuess() || !b.SideAt.Given() || !b.SideWidth.Given() || !b.SideHeight.Given() {
		return 0, 0, 0, false
	}
	from, high = f.front.Inches+b.SideAt.Value, b.SideHeight.Value
	to = from + b.SideWidth.Value
	ok = b.SideAt.Value >= 0 && b.SideWidth.Value > 0 && to <= f.rear() && high > 0 && high <= f.sides.Inches
	return from, to, high, ok
}

// boxDetails draws the V-nose, the side door, the rear door and the roof vents.
func (d *drawing) boxDetails(f *facts) {
	if f.wallGuess() {
		return
	}
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	top := low + f.sides.Inches
	if n := f.nose(); n > 0 {
		d.box(shell, false, from-n, from, low, top)
		d.box(body, false, from-n, from, low-min(3, low.Half()), low)
	}
	if left, right, high, ok := f.sideDoor(); ok && low+high <= top {
		side := f.unit.Box.Side.Value
		if side == "left" || side == "both" {
			d.frameLines(trim, left, right, low, low+high)
		} else if side == "right" {
			d.frameLines(swing, left, right, low, low+high) // on the far side
		}
	}
	if high := f.unit.Box.DoorHeight; high.Given() && high.Value > 0 && high.Value <= f.sides.Inches {
		d.box(tail, false, to, to+leaf, low, low+high.Value)
	}
	for i, n := 0, f.vents(); i < n; i++ {
		at := from + measure.ShareOfLength(measure.Inches(i+1), measure.Inches(n+1)).OfLength(f.length.Inches)
		d.box(body, false, at-ventWide.Half(), at+ventWide.Half(), top, top+ventHigh)
	}
}

// vents is how many roof vents find place on the roof.
func (f *facts) vents() int {
	n := f.unit.Box.Vents.Value
	if f.space != "box" || n < 1 || n > 8 || f.length.Inches < ventWide.Times(n+n+2) {
		return 0
	}
	return n
}

// deckSides draws the sides of an open trailer: a rail on posts, or a wall.
func (d *drawing) deckSides(f *facts) {
	high, ok := f.openSides()
	if !ok {
		return
	}
	from, to, low := f.front.Inches, f.hinge(), f.floor.Inches
	if f.tailKind == "" {
		to = f.rear()
	}
	guessed, top := f.wallGuess(), low+high
	if kind := f.unit.Sides.Kind.Value; kind == "solid" || kind == "expanded metal" || kind == "wire mesh" {
		d.box(shell, guessed, from, to, low, top)
	}
	d.box(body, guessed, from, to, top-min(2, high.Half()), top)
	n := (to - from).Spaces(postEvery)
	for i := range n + 1 {
		x := from + measure.ShareOfLength(measure.Inches(i), measure.Inches(max(n, 1))).OfLength(to-from-2)
		d.box(body, guessed, x, x+2, low, top)
	}
}

// openSides is the height of an open trailer's sides.
func (f *facts) openSides() (high measure.Inches, ok bool) {
	s := f.unit.Sides
	if f.space != "deck" || !s.Kind.Given() || !s.Height.Given() || f.kind.Name == "lowboy" {
		return 0, false
	}
	return s.Height.Value, s.Height.Value > 0 && s.Height.Value < highest.Half()
}

// traps draws the bottoms of a hopper from the wheels forward, one for each trap and one where
// nobody counted, in a usual shape: as wide as there is space for them in front of the wheels.
func (d *drawing) traps(f *facts, bottom measure.Inches) {
	traps := 1
	if n := f.unit.Bed.Traps; n.Given() && n.Value > 0 {
		traps = n.Value
	}
	from := f.axle(0) - f.tire.Half() - 4
	wide := min(72, (from - f.front.Inches).Parted(traps))
	if wide < 20 || bottom <= 14 {
		return
	}
	for i := range traps {
		mid, low := from-wide.Half()-wide.Times(i), wide.Parted(8)
		d.add(shell, false, point{mid - wide.Half(), bottom}, point{mid + wide.Half(), bottom}, point{mid + low, bottom.Half()}, point{mid - low, bottom.Half()})
		d.box(body, false, mid-low-1, mid+low+1, bottom.Half()-2, bottom.Half())
	}
}

// bedDetails draws a dump bed's gate and its hoist, or a hopper's bottom.
func (d *drawing) bedDetails(f *facts, bottom measure.Inches) {
	if f.space != "bed" || f.wallGuess() {
		return
	}
	to, low := f.rear(), f.floor.Inches
	top := low + f.sides.Inches
	if f.kind.Name == "hopper" {
		d.traps(f, bottom)
		return
	}
	if !f.unit.Gate.Kind.Given() {
		return
	}
	d.box(tail, false, to, to+leaf, low, top)
	switch f.unit.Gate.Kind.Value {
	case "spreader", "barn doors and spreader":
		// It hangs from its upper edge and swings out at the bottom.
		d.add(swing, false, point{to + leaf, top}, point{to + leaf + f.sides.Half(), low + f.sides.Half().Half()}, point{to + leaf, low + leaf})
	}
	if f.unit.Gate.Kind.Value != "spreader" && f.unit.Gate.Kind.Value != "tailgate" {
		for _, y := range []measure.Inches{low + f.sides.Half().Half(), top - f.sides.Half().Half()} {
			d.box(tail, false, to-leaf, to+leaf+1, y-1, y+1) // a hinge
		}
	}
}

// hoist draws what lifts a dump bed, under its frame, in a usual place.
func (d *drawing) hoist(f *facts, bottom measure.Inches) {
	left, right, ok := f.hoistPlace(bottom)
	if !ok {
		return
	}
	d.add(body, f.wallGuess(), point{left, bottom}, point{left + 4, bottom - 5}, point{right, bottom - 2}, point{right, bottom})
}

// hoistPlace is where the hoist begins and ends under the frame, whose lower edge is at that
// height; not ok without a hoist, or where the ground or the wheels leave no space for one.
func (f *facts) hoistPlace(bottom measure.Inches) (left, right measure.Inches, ok bool) {
	if f.kind.Name != "dump" || f.space != "bed" || !f.unit.Hoist.Kind.Given() || bottom < clearance+6 {
		return 0, 0, false
	}
	left = f.front.Inches + measure.Share(0.12).OfLength(f.length.Inches)
	right = f.front.Inches + measure.Share(0.42).OfLength(f.length.Inches)
	return left, right, right <= f.axle(0)-f.tire.Half() && right-left >= 12
}

// lowboy draws the well, the slope and the rear deck over the wheels in place of a flat deck.
// It returns the height of the lower edge at the front, and false if the well was not measured.
func (d *drawing) lowboy(f *facts) (bottom measure.Inches, ok bool) {
	w := f.unit.Deck.Well
	if f.kind.Name != "lowboy" || f.space != "deck" || !w.Given() || w.Value <= 0 || w.Value+rampRise >= f.length.Inches || f.tailKind != "" {
		return 0, false
	}
	h := f.wellHigh()
	from, well, to := f.front.Inches, f.front.Inches+w.Value, f.rear()
	up, over := well+rampRise, f.tire.Inches+overTires
	bottom = h - min(10, h.Half())
	guessed := f.floor.guess && !f.unit.Deck.WellUp.Given() || f.front.guess || f.length.guess
	d.add(body, guessed, point{from, h}, point{well, h}, point{up, over}, point{to, over}, point{to, over - 4}, point{up, over - 4}, point{well, bottom}, point{from, bottom})
	return bottom, true
}

// wellHigh is the height of a lowboy's well: its own key, or else the deck's height.
func (f *facts) wellHigh() measure.Inches {
	if h := f.unit.Deck.WellUp; h.Given() && h.Value > 0 && h.Value < highest.Half() {
		return h.Value
	}
	return f.floor.Inches
}

// fender draws the fender over the wheels from first to last, which ends at the height low.
func (d *drawing) fender(f *facts, guessed bool, first, last, low measure.Inches) {
	const sheet = 1.6
	r := f.tire.Half()
	out, top, slope := r+3.5, f.tire.Inches+4, min(r, 12)
	if f.unit.Frame.Fenders.Value == "drive-over" {
		// Strong and close to the tire, with ends that a wheel can climb.
		out, top = r+8, f.tire.Inches+2
		d.add(front, guessed, point{first - out, low}, point{first - out + slope, top}, point{last + out - slope, top}, point{last + out, low},
			point{last + out - 3, low}, point{last + out - slope - 1.5, top - 2.8}, point{first - out + slope + 1.5, top - 2.8}, point{first - out + 3, low})
		return
	}
	d.add(front, guessed, point{first - out, low}, point{first - out, top - slope}, point{first - out + slope, top},
		point{last + out - slope, top}, point{last + out, top - slope}, point{last + out, low},
		point{last + out - sheet, low}, point{last + out - sheet, top - slope - 0.6}, point{last + out - slope - 0.6, top - sheet},
		point{first - out + slope + 0.6, top - sheet}, point{first - out + sheet, top - slope - 0.6}, point{first - out + sheet, low})
}

// sayDetails says what is on the walls and at the ends.
func (f *facts) sayDetails(say func(string, ...any)) {
	u := f.unit
	switch f.space {
	case "box":
		f.sayBox(say)
	case "deck":
		if high, ok := f.openSides(); ok {
			say("Sides: %s, %s high.", u.Sides.Kind.Value, high.InInches())
		}
		if _, ok := (&drawing{}).lowboy(f); ok {
			say("The well is %s long and %s above the ground; the slope and the rear deck over the wheels have a usual shape.",
				u.Deck.Well.Value.Near(), f.wellHigh().InInches())
		}
	case "bed":
		if u.Gate.Kind.Given() && f.kind.Name != "hopper" {
			say("Rear gate: %s.", u.Gate.Kind.Value)
		}
		if u.Hoist.Kind.Given() {
			how := "not drawn"
			if _, _, ok := f.hoistPlace((&drawing{}).frame(f)); ok {
				how = "drawn in a usual place"
			}
			say("Hoist: %s, %s.", u.Hoist.Kind.Value, how)
		}
		if f.kind.Name == "hopper" {
			say("The hopper is drawn in a usual shape.")
		}
	}
	if f.fenders && u.Frame.Fenders.Value == "drive-over" {
		say("The fenders can be driven over.")
	}
}

func (f *facts) sayBox(say func(string, ...any)) {
	b := f.unit.Box
	if n := f.nose(); n > 0 {
		say("V-nose, %s ahead of the box.", n.Near())
	} else if b.Nose.Value == "V-nose" {
		say("V-nose, not measured and not drawn.")
	}
	if side := b.Side.Value; b.Side.Given() && side != "none" {
		where := map[string]string{"left": "on the left", "right": "on the right, the far side, in broken lines", "both": "on both sides"}[side]
		if from, to, high, ok := f.sideDoor(); ok {
			say("Side door %s, %s wide and %s high, %s behind the front of the box.", where, (to - from).InInches(), high.InInches(), (from - f.front.Inches).Near())
		} else {
			say("Side door %s, not measured and not drawn.", strings.TrimSuffix(strings.TrimSuffix(where, ", in broken lines"), ", the far side"))
		}
	}
	var clear []string
	if b.DoorWidth.Given() {
		clear = append(clear, b.DoorWidth.Value.InInches()+" wide")
	}
	if b.DoorHeight.Given() {
		clear = append(clear, b.DoorHeight.Value.InInches()+" high")
	}
	if len(clear) > 0 {
		say("Rear opening, clear: %s.", strings.Join(clear, " and "))
	}
	if n := f.vents(); n > 0 {
		say("%s.", map[bool]string{true: "1 roof vent", false: fmt.Sprintf("%d roof vents", n)}[n == 1])
	}
	if f.kind.Name == "livestock" && f.unit.Gate.Center.Value > 0 {
		say("Slats above the solid lower walls; the center gate is drawn in a usual place.")
	}
}
