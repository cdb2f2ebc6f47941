package oracle

import (
	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// A Truck is what is known of a tow vehicle. Any value may be missing; a verdict names what
// it needs.
type Truck struct {
	// GVWR and Weight are the truck's rating and its weight as it is: with
	// driver, passengers, fuel, hitch and gear, without the trailer.
	GVWR, Weight compute.Result[measure.Pounds]
	// RearRating and RearWeight are the rear axle's rating (GAWR) and what it carries now.
	RearRating, RearWeight compute.Result[measure.Pounds]
	// FrontRating is the front axle's rating. It matters only if the ball is ahead
	// of the rear axle, so nobody is asked for it.
	FrontRating compute.Result[measure.Pounds]
	// GCWR is the most that truck and trailer may weigh together.
	GCWR compute.Result[measure.Pounds]
	// GCWROnLabel reports whether GCWR is on the certification label, where it counts for
	// the license; one out of a manual does not (49 CFR 383.5).
	GCWROnLabel bool
	// HitchRating is the gross trailer weight that the hitch is rated for, HitchTongue the
	// tongue weight. BallRating is stamped on the ball.
	HitchRating, HitchTongue, BallRating compute.Result[measure.Pounds]
	// Unbraked is the most that the truck's maker lets a trailer without brakes weigh. It
	// matters only for such a trailer, so nobody is asked for it.
	Unbraked compute.Result[measure.Pounds]
	// Wheelbase is from axle to axle. BallBehind is from the rear axle back to the ball;
	// a ball ahead of the axle, as a gooseneck's, is below zero.
	Wheelbase, BallBehind compute.Result[measure.Inches]
	// Kind is the kind of the hitch on the truck: receiver, gooseneck, fifth-wheel or pintle;
	// empty if nobody said. BallSize is the ball's diameter.
	Kind     string
	BallSize compute.Result[measure.Inches]
	// Sticker is the payload on the door sticker, People the weight of people and gear in
	// the truck, Tow the maker's tow rating.
	Sticker, People, Tow compute.Result[measure.Pounds]
	// Distributes is yes or no where somebody said whether the truck tows with a
	// weight-distributing hitch. HitchWD and TongueWD are the hitch's ratings for that.
	Distributes       string
	HitchWD, TongueWD compute.Result[measure.Pounds]
	// RearTires is what the rear tires carry together.
	RearTires compute.Result[measure.Pounds]
	// In is the system of units for the texts of the verdict.
	In measure.System
}

// tongueMost is the most that may come on the truck's hitch, by all that is known of the truck:
// its hitch, its payload and its axles.
func (k Truck) tongueMost() (most pounds) {
	upTo := func(v measure.Pounds) {
		if !most.Known || v < most.Value {
			most = pounds{Value: v, Known: true}
		}
	}
	if t := k.tongueRating(); t.Known {
		upTo(t.Value)
	}
	scaled := k.GVWR.Known && k.Weight.Known
	if scaled {
		upTo(k.GVWR.Value - k.Weight.Value)
	}
	if k.Sticker.Known && (k.People.Known || !scaled) {
		upTo(k.Sticker.Value - orZero(k.People))
	}
	if back, ok := k.rearShare(); ok && back > 0 {
		for _, rating := range []pounds{k.RearRating, k.RearTires} {
			if rating.Known {
				upTo(measure.Pounds(float64(rating.Value-k.RearWeight.Value) / float64(back)))
			}
		}
	}
	if front := k.frontMost(); front.Known {
		upTo(front.Value)
	}
	return most
}

// frontMost is the most on a hitch ahead of the rear axle before the front axle is over.
func (k Truck) frontMost() (most pounds) {
	if !k.FrontRating.Known || !k.Weight.Known || !k.RearWeight.Known || !k.levered() || k.BallBehind.Value >= 0 {
		return most
	}
	lever := measure.ShareOfLength(k.BallBehind.Value, k.Wheelbase.Value)
	return pounds{Value: measure.Pounds(float64(k.FrontRating.Value-k.Weight.Value+k.RearWeight.Value) / float64(-lever)), Known: true}
}

// tongueRating is the hitch's rating for the tongue, as the truck tows.
func (k Truck) tongueRating() pounds {
	if with, without := k.distributes(); k.TongueWD.Known && !without && (with || !k.HitchTongue.Known) {
		return k.TongueWD
	}
	return k.HitchTongue
}

// distributes reports whether the truck surely tows with weight distribution, and whether it
// surely does not: only a receiver can.
func (k Truck) distributes() (with, without bool) {
	if k.Kind != "" && k.Kind != "receiver" {
		return false, true
	}
	return k.Distributes == "yes", k.Distributes == "no"
}

// levered reports whether it is known where the ball is.
func (k Truck) levered() bool { return k.Wheelbase.Known && k.BallBehind.Known }

// rearShare is what comes on the rear axle of a pound on the hitch. ok is false where that, or
// what the axle carries now, is not known. The ball of a receiver is behind the axle, so the axle
// carries the tongue at least.
func (k Truck) rearShare() (back measure.Share, ok bool) {
	switch {
	case !k.RearWeight.Known || !k.levered() && k.Kind != "" && k.Kind != "receiver" && k.Kind != "pintle":
		return 0, false
	case k.levered():
		return measure.ShareOfLength(k.Wheelbase.Value+k.BallBehind.Value, k.Wheelbase.Value), true
	}
	return 1, true
}

// AxleEffects is the load that a tongue weight adds to the truck's axles: a beam on two
// supports with the load behind the rear one. behind is from the rear axle back to the ball, below
// zero for a ball ahead of it. A loss of the front axle is below zero. The wheelbase must
// not be zero.
func AxleEffects(tongue measure.Pounds, wheelbase, behind measure.Inches) (front, rear measure.Pounds) {
	lever := measure.WeightAt(measure.Moment(tongue, behind), wheelbase)
	return -lever, tongue + lever
}
