package elevation

import (
	"maps"
	"slices"

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
}

// Silhouettes returns the names of the silhouettes that internal/kinds may use.
func Silhouettes() []string { return slices.Sorted(maps.Keys(silhouettes)) }

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
func (f *facts) wallGuess() bool { return f.front.guess || f.floor.guess || f.sides.guess }

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

// drawBox draws a closed box with a rounded front top corner.
func drawBox(d *drawing, f *facts) {
	from, to, low := f.front.Inches, f.rear(), f.floor.Inches
	top := low + f.sides.Inches
	round := min(8, f.length.Half(), f.sides.Half())
	d.add(shell, f.wallGuess(), point{from, low}, point{from, top - round}, point{from + round.Half(), top - round.Half().Half()},
		point{from + round + round.Half(), top}, point{to, top}, point{to, low})
}

// drawSlattedBox draws a box with the open slats of a livestock trailer.
func drawSlattedBox(d *drawing, f *facts) {
	drawBox(d, f)
	if f.wallGuess() {
		return
	}
	for _, share := range []measure.Share{0.45, 0.6, 0.75} {
		y := f.floor.Inches + share.OfLength(f.sides.Inches)
		d.line(trim, point{f.front.Inches, y}, point{f.rear(), y})
	}
}
