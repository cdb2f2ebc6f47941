package compute

import "tarepage/internal/measure"

// Weights are the allowed weights of a load of one length with its center at one place: a
// vertical cut through the envelope. Room is false if nothing may be there.
type Weights struct {
	Least, Most measure.Pounds
	Room        bool
}

// Weights returns the allowed weights of a load of the given length with its center this far behind the
// deck's front edge, every limit kept that Window keeps.
func (r Rig) Weights(length, behind measure.Inches) Weights {
	half := length.Half()
	if !r.sensible() || !(length >= 0) || !measure.NotOver(half, behind) || !measure.NotOver(behind+half, r.Length) {
		return Weights{}
	}
	most, _ := r.leaves()
	w := Weights{Least: leastLoad, Most: most, Room: true}
	at := r.Front + behind
	b := r.bounds(line{0, at, DeckFront}, line{0, at, DeckRear})
	for _, l := range b.above[1:] {
		w.hold(l.at, at-l.slope, true)
	}
	for _, l := range b.below[1:] {
		w.hold(l.at, at-l.slope, false)
	}
	w.Room = w.Room && w.Least <= w.Most
	return w
}

// hold keeps a line: w arm at least its moment, or at most.
func (w *Weights) hold(moment measure.PoundInches, arm measure.Inches, atLeast bool) {
	switch {
	case arm == 0:
		if atLeast && moment > 0 || !atLeast && moment < 0 {
			w.Room = false
		}
	case (arm > 0) == atLeast:
		w.Least = max(w.Least, measure.WeightAt(moment, arm))
	default:
		w.Most = min(w.Most, measure.WeightAt(moment, arm))
	}
}

// In says what may be there, and how far a load of the weight is within or
// without, in the reader's units: the least goes up and the most down.
func (w Weights) In(s measure.System, load measure.Pounds) string {
	if !w.Room {
		return "nothing of its length fits there"
	}
	text := "up to " + s.Limit(w.Most)
	if w.Least > leastLoad {
		text = s.Load(w.Least) + " to " + s.Limit(w.Most)
	}
	text = "a load of its length may weigh " + text + " there; this one "
	switch {
	case !measure.NotOver(load, w.Most):
		return text + "is " + s.Load(load-w.Most) + " too heavy"
	case !measure.NotOver(w.Least, load):
		return text + "is " + s.Load(w.Least-load) + " too light"
	}
	return text + "leaves " + s.Limit(max(w.Most-load, 0))
}
