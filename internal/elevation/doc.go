// Package elevation draws a unit's side view to scale from its own numbers: once as a
// shop drawing with dimension lines, and once as a small silhouette at a scale that a
// whole yard shares, so that sizes compare at a glance. It gives SVG and the same facts
// in words.
//
// Pages do no arithmetic; this package does it for the drawing. It opens no file, reads no
// clock, judges nothing, and computes no figure that a customer relies on. Every number that
// it prints is a dimension from the unit file.
//
// # What is measured and what has a usual shape
//
// x runs backward from the ball's center, y up from the ground; both in inches until
// the very last step. The deck, bed or box, its floor's height, the tail, the axles and
// the tires are drawn from the unit's numbers. Parts without a key in the unit file (the
// neck, coupler, jack, frame and fenders) have a usual shape, and the words say so. A usual
// dimension replaces a missing one: the parts that depend on it are dashed and have no
// dimension line, and the words name them. Without a length there is no drawing.
package elevation
