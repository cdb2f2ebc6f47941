// Package compute works out a unit's figures: what it carries, what it puts on the
// truck, what its tires and wheels hold. Each figure carries its working with the
// numbers in it, the fields it rests on, and the clause it follows.
//
// It takes what internal/unit read and what internal/tables publishes, and returns
// values. It knows no files, no clock and no pages; it refuses nothing (judging is
// internal/inspect's) and it rounds nothing but through internal/measure. A figure
// whose inputs are missing or senseless is absent, with what to weigh or measure.
//
// # Statics
//
// x runs backward from the ball or kingpin. A is the middle of the axle group. The
// empty trailer weighs E and puts T0 on the truck, so its center of gravity is at
// A(1 - T0/E). A load w centered at x adds w(1 - x/A) to the tongue and w x/A to the
// axle group: the equilibrium of a beam on two supports. Equalized axles share the
// group's load evenly; independent torsion axles do so only when the trailer is level.
package compute

// Safety has the cautions that go with the figures wherever they are shown or exported.
var Safety = []string{
	"The label on the trailer governs.",
	"The lowest-rated part of truck, hitch, ball, trailer and tires sets the limit.",
	"Weigh it loaded.",
	"Local law and licensed practice decide.",
}
