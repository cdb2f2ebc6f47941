package elevation

import (
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

// A silhouette is what a kind of trailer has above its frame. internal/kinds names the
// silhouette of each kind.
type silhouette struct {
	// sides returns the height of the walls; nil if there are none.
	sides func(f *facts) length
	// above draws what is above the frame; nil if that is nothing.
	above func(d *drawing, f *facts)
}

var silhouettes = map[string]silhouette{
	"deck":        {},
	"bed":         {bedWalls, drawBed},
	"box":         {boxWalls, drawBox},
	"slatted box": {boxWalls, drawSlattedBox},
	"tank":        {tankWalls, drawTank},
	"hull":        {hullWalls, drawHull},
	"bin":         {binWalls, drawBin},
	"bunks":       {stakes, drawBunks},
	"chassis":     {nil, drawChassis},
	"dolly":       {nil, drawDolly},
}

// silhouetteOf returns the silhouette of the kind. A unit may have another space than its
// kind: a deck in place of a box gets the walls of the box as a guess. A box or a bed of a
// kind with another space is drawn as what it is.
func silhouetteOf(kind kinds.Kind, space string) silhouette {
	if space != string(kind.Space) && space != string(kinds.Deck) {
		return silhouettes[space]
	}
	return silhouettes[kind.Silhouette]
}

func bedWalls(f *facts) length {
	if f.space != "bed" {
		return length{}
	}
	return lengthOf(f.unit.Bed.Height, usualBedSides, highest)
}

func boxWalls(f *facts) length {
	if f.space != "box" {
		return length{Inches: usualBoxHeight, guess: true}
	}
	return lengthOf(f.unit.Box.Height, usualBoxHeight, highest)
}

// wallGuess reports whether the walls depend on something that nobody measured.
func (f *facts) wallGuess() bool {
	return f.front.guess || f.floor.guess || f.sides.guess || f.length.guess
}

// drawBed draws the sides of a dump bed with their posts.
func drawBed(d *drawing, f *facts) {
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	top := low + f.sides.Inches
	d.box(shell, f.wallGuess(), from, to, low, top)
	if f.wallGuess() {
		return
	}
	d.box(body, false, from, to, top-3, top)
	posts := max(2, int(f.length.Inches.Feet())/2)
	step := measure.ShareOfLength(1, measure.Inches(posts)).OfLength(f.length.Inches)
	for i := 1; i < posts; i++ {
		x := from + step.Times(i)
		d.line(trim, point{x, low}, point{x, top})
	}
}

// drawBox draws a closed box. Its front top corner is rounded, unless its nose is flat or a V.
func drawBox(d *drawing, f *facts) {
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	top := low + f.sides.Inches
	round := min(8, f.length.Half(), f.sides.Half())
	switch f.unit.Box.Nose.Value {
	case "flat", "V-nose":
		d.box(shell, f.wallGuess(), from, to, low, top)
		return
	case "rounded":
		round = min(16, f.length.Half().Half(), f.sides.Half())
	case "slanted":
		lean := min(24, f.length.Half().Half())
		d.add(shell, f.wallGuess(), point{from, low}, point{from, low + f.sides.Half()}, point{from + lean, top}, point{to, top}, point{to, low})
		return
	}
	d.add(shell, f.wallGuess(), point{from, low}, point{from, top - round}, point{from + round.Half(), top - round.Half().Half()},
		point{from + round + round.Half(), top}, point{to, top}, point{to, low})
}

// drawSlattedBox draws a box with the open slats of a livestock trailer.
func drawSlattedBox(d *drawing, f *facts) {
	drawBox(d, f)
	if f.wallGuess() {
		return
	}
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	for _, share := range []measure.Share{0.45, 0.58, 0.71, 0.84} {
		y := low + share.OfLength(f.sides.Inches)
		d.line(trim, point{from, y}, point{to, y})
	}
	solid := low + measure.Share(0.45).OfLength(f.sides.Inches)
	n := max(2, f.length.Inches.Spaces(postEvery+postEvery.Half()))
	for i := 1; i < n; i++ {
		x := from + measure.ShareOfLength(measure.Inches(i), measure.Inches(n)).OfLength(f.length.Inches)
		d.line(trim, point{x, solid}, point{x, low + f.sides.Inches})
	}
	if f.unit.Gate.Center.Value == 1 {
		x := from + f.length.Half()
		d.frameLines(trim, x-1.5, x+1.5, low, solid)
	}
	if f.unit.Gate.Kind.Given() {
		d.box(tail, false, to, to+leaf, low, low+f.sides.Inches-leaf)
	}
}

// Usual heights of what stands on a frame. Common practice, no source.
const (
	usualTank   measure.Inches = 48
	usualHull   measure.Inches = 30
	usualBin    measure.Inches = 48
	usualStakes measure.Inches = 42
	// bowStop is how far a winch stand reaches over the bunks.
	bowStop measure.Inches = 26
)

func tankWalls(f *facts) length { return lengthOf(f.unit.Tank.Height, usualTank, highest) }

func hullWalls(*facts) length { return length{Inches: usualHull, guess: true} }

func binWalls(*facts) length { return length{Inches: usualBin, guess: true} }

func stakes(f *facts) length { return lengthOf(f.unit.Bunks.Stakes, usualStakes, highest) }

// drawTank draws a tank with rounded ends and its manhole.
func drawTank(d *drawing, f *facts) {
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	top := low + f.sides.Inches
	round := min(10, f.length.Half(), f.sides.Half().Half())
	d.add(shell, f.wallGuess(), point{from, low + round}, point{from, top - round}, point{from + round, top}, point{to - round, top},
		point{to, top - round}, point{to, low + round}, point{to - round, low}, point{from + round, low})
	middle := from + f.length.Half()
	d.box(body, f.wallGuess(), middle-9, middle+9, top, top+4)
}

// bunk is how long what carries a hull is: usually half the hull, and never longer than it.
func (f *facts) bunk() length {
	most := f.length.Inches
	if f.length.guess {
		most = highest
	}
	return lengthOf(f.unit.Hull.Bunk, f.length.Half(), most)
}

// drawHull draws the bunks and the winch stand, which belong to the trailer, and in broken
// lines the hull, which does not.
func drawHull(d *drawing, f *facts) {
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	guessed, bunk := f.front.guess || f.floor.guess || f.length.guess, f.bunk()
	d.box(body, guessed || bunk.guess, max(from, to-bunk.Inches), to, low, low+3)
	if f.unit.Hull.Stand.Value != "none" {
		d.add(body, guessed || !f.unit.Hull.Stand.Given(), point{from - 3, low}, point{from + 1, low + bowStop}, point{from + 4, low + bowStop}, point{from + 3, low})
	}
	keel, deck := low+3, low+3+f.sides.Inches
	d.add(swing, false, point{from + 4, deck}, point{to, deck}, point{to, keel}, point{from + f.length.Half().Half(), keel})
}

// drawBin draws in broken lines the bin, which is not part of the trailer.
func drawBin(d *drawing, f *facts) {
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	d.add(swing, false, point{from, low}, point{from, low + f.sides.Inches}, point{to, low + f.sides.Inches}, point{to, low})
	if hook := f.unit.Bin.Hook; f.unit.Bin.System.Value == "hooklift" && hook.Given() && hook.Value > 6 && hook.Value < highest.Half() && from > 24 {
		// The hook's arm in front of the bin: it takes a bar at that height.
		guessed := f.front.guess || f.floor.guess
		d.box(body, guessed, from-12, from-7, low-2, low+hook.Value+4)
		d.box(body, guessed, from-7, from+1, low+hook.Value, low+hook.Value+4)
		d.box(body, guessed, from-12, from+1, low-4, low)
	}
}

// drawChassis draws the twist locks of a container chassis.
func drawChassis(d *drawing, f *facts) {
	if f.unit.Chassis.Locks.Value < 4 {
		return
	}
	guessed := f.front.guess || f.floor.guess || f.length.guess
	d.box(body, guessed, f.front.Inches+3, f.front.Inches+7, f.floor.Inches, f.floor.Inches+4)
	d.box(body, guessed, f.rear()-7, f.rear()-3, f.floor.Inches, f.floor.Inches+4)
}

// drawDolly draws the stop in front of the pans and the ramps after them, in a usual shape.
func drawDolly(d *drawing, f *facts) {
	guessed := f.front.guess || f.floor.guess || f.length.guess
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	d.add(body, guessed, point{from, low}, point{from - 6, low + 13}, point{from - 2, low + 13}, point{from + 5, low})
	d.add(tail, guessed, point{to, low}, point{to + 20, 0}, point{to + 18, 0}, point{to, low - 2})
}

// drawBunks draws the stakes, evenly apart.
func drawBunks(d *drawing, f *facts) {
	n := f.unit.Bunks.Count.Value
	guessed := f.wallGuess()
	if n < 2 || n > 12 {
		n, guessed = 2, true
	}
	low := f.floor.Inches
	for i := range n {
		x := f.front.Inches + measure.ShareOfLength(measure.Inches(i), measure.Inches(n-1)).OfLength(f.length.Inches)
		d.box(body, guessed, max(x-4, f.front.Inches), min(x+4, f.rear()), low, low+4)
		d.box(body, guessed, x-1.5, x+1.5, low+4, low+f.sides.Inches)
	}
}
