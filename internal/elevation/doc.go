// Package elevation draws a unit's side view to scale from its own numbers: once as a
// shop drawing with dimension lines, and once as a small silhouette at a scale that a
// whole yard shares, so that sizes compare at a glance. It gives SVG and the same facts
// in words.
//
// Pages do no arithmetic; this package does theirs for the drawing. It opens no file,
// reads no clock, judges nothing and works out no figure that a customer relies on:
// every number it prints is a measure as the unit file states it. It imports the
// standard library, measure, unit, compute and tables.
//
// # What is measured and what is a usual shape
//
// x runs backward from the ball's center, y up from the ground; both in inches until
// the very last step. The deck, bed or box, its floor's height, the tail, the axles and
// the tires are drawn from the unit's numbers. What the unit file has no key for (the
// neck, coupler, jack, frame and fenders) is drawn in a usual shape, and the words say
// so. A measure that is missing is replaced by a usual one; what rests on it is drawn
// in dashed outline, gets no dimension line, and is named in words. Without a length
// there is no drawing.
package elevation
