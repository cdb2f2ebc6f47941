package oracle

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// A Truck is what is known of a tow vehicle. Any value may be missing; a match names what
// it missed.
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
	// In is the system of units for the texts of the match.
	In measure.System
}

// Laden is the trailer with a load on it, as the truck sees it. The weight of trailer and
// load counts as its empty weight, their weight on the hitch as its tongue weight, and the
// rest of the payload is left. Unknown values stay unknown.
func Laden(t compute.Towed, l compute.Load, s compute.Stand) compute.Towed {
	t.Empty.Value, t.TongueEmpty.Value = s.Total, s.Tongue
	t.Payload.Value = max(t.Payload.Value-l.Weight, 0)
	return t
}

// AxleEffects is the load that a tongue weight adds to the truck's axles: a beam on two
// supports with the load behind the rear one. behind is from the rear axle back to the ball, below
// zero for a ball ahead of it. A loss of the front axle is below zero. The wheelbase must
// not be zero.
func AxleEffects(tongue measure.Pounds, wheelbase, behind measure.Inches) (front, rear measure.Pounds) {
	lever := measure.WeightAt(measure.Moment(tongue, behind), wheelbase)
	return -lever, tongue + lever
}

// A TowLimit is one limit on the load of a trailer behind a truck.
type TowLimit struct {
	Name   string // truck-gvwr, rear-axle, gcwr, ...
	Label  string
	Source string
	// Allows is the evenly spread load at which the limit is reached, never below zero.
	// Free reports whether no load reaches it: the load is over or behind the axles.
	Allows measure.Pounds
	Free   bool
	// Empty reports that the empty trailer is over it already.
	Empty bool
	// Rating and Used are the limit and what comes on it at the match's Most; Margin is
	// what is left, below zero if the empty trailer is over it.
	Rating, Used, Margin measure.Pounds
	Governs              bool
}

// A Match is the load that one trailer may carry behind one truck.
type Match struct {
	// Why says why nothing could be worked, in the reader's words; empty if it could.
	Why string
	// Missing names every value that was missing. If it names any, the answer is
	// Incomplete: a limit not counted may be the lowest.
	Missing    []string
	Incomplete bool
	// Most is the most evenly spread load by every limit that is known.
	Most measure.Pounds
	// EmptyOver reports that the trailer is too heavy for the truck before it is loaded.
	EmptyOver bool
	// Limits are the limits, lowest first; the first governs.
	Limits []TowLimit
	// Tongue is the load on the hitch at Most. Front and Rear are the loads that it adds to the
	// truck's axles; a loss of the front axle is below zero. FrontLeft is the load that stays
	// on the front axle.
	Tongue, Front, Rear, FrontLeft compute.Result[measure.Pounds]
	// License is the federal class by weight, worked with the trailer at Most and with the
	// ratings, whichever is greater.
	License      License
	LicenseKnown bool
	// MayBeCommercial is as the function of that name says.
	MayBeCommercial bool
	// Notes has what the reader must know.
	Notes []string

	in measure.System
}

// Governing is the limit that governs, or nil where nothing could be worked.
func (m *Match) Governing() *TowLimit {
	if len(m.Limits) == 0 {
		return nil
	}
	return &m.Limits[0]
}

const (
	statics          = "statics: the equilibrium of a beam on two supports"
	sourceTruckLabel = "the truck's certification label (49 CFR 567.4, 571.3(b))"
	sourceTruckMaker = "the truck maker's rating"
	sourceStamp      = "the rating stamped on it; SAE J684"
)

// matcher gathers one match.
type matcher struct {
	*Match
	trailer compute.Towed
	// On the hitch comes tongue, empty, and rise of every pound of an even load; weighed
	// reports that both are known.
	tongue  measure.Pounds
	rise    measure.Share
	weighed bool
	// rises has for each limit what of every pound of load comes on it.
	rises map[string]measure.Share
}

// have takes a measure, or names it as missing.
func have[U measure.Unit](m *matcher, r compute.Result[U], name string) (U, bool) {
	if !r.Known {
		m.Missing = append(m.Missing, name)
	}
	return r.Value, r.Known
}

// TowMatch works out the largest evenly spread load of a trailer behind a truck: every limit
// of the trailer, the hitch and the truck, with what is left of each. What is
// missing is named and its limits are left out. Measures that cannot be (a weight below
// zero, a ball ahead of the front axle) give a reason and no numbers.
//
// With an even load p the trailer puts T = T0 + p (1 - xc / A) on the ball, and the truck
// is a beam on two axles with T behind the rear one. Ratings are inclusive.
func TowMatch(t compute.Towed, truck Truck) Match {
	out := Match{in: truck.In}
	if out.Why = senselessTow(t, truck); out.Why != "" {
		return out
	}
	m := &matcher{Match: &out, trailer: t, rises: map[string]measure.Share{}}
	if own, ok := have(m, t.Payload, "the trailer's own payload"); ok {
		m.limit("trailer", "the trailer's own payload", "the trailer's certification label and its payload's other rungs", own, 0, 1)
	}
	m.together(truck)
	m.onTruck(truck)
	if !slices.ContainsFunc(m.Limits, func(l TowLimit) bool { return !l.Free }) {
		out.Limits, out.Incomplete = nil, true
		out.Why = "nothing to go by: give the trailer's payload, or its empty weight and the truck's ratings"
		return out
	}
	m.settle()
	m.effects(truck)
	m.license(truck)
	out.Incomplete = len(out.Missing) > 0
	return out
}

// limit enters one limit: with an even load p, base + rise x p comes on it.
func (m *matcher) limit(name, label, source string, rating, base measure.Pounds, rise measure.Share) {
	l := TowLimit{Name: name, Label: label, Source: source, Rating: rating, Used: base}
	switch {
	case !measure.NotOver(base, rating):
		l.Empty = true
	case rise <= 0:
		l.Free = true
	default:
		l.Allows = max(measure.WholeOf(rating-base, rise), 0)
	}
	m.rises[name] = rise
	m.Limits = append(m.Limits, l)
}

// together enters the limits that take the trailer's whole weight.
func (m *matcher) together(truck Truck) {
	empty, weighed := have(m, m.trailer.Empty, "the trailer's empty weight")
	weight, stands := have(m, truck.Weight, "the truck's weight as it is")
	if gcwr, ok := have(m, truck.GCWR, "the truck's GCWR"); ok && weighed && stands {
		m.limit("gcwr", "the truck's GCWR", sourceTruckMaker, gcwr, weight+empty, 1)
	}
	if rating, ok := have(m, truck.HitchRating, "the hitch's trailer rating"); ok && weighed {
		m.limit("hitch", "the hitch on the truck", sourceStamp, rating, empty, 1)
	}
	if m.trailer.Unbraked && truck.Unbraked.Known && weighed {
		m.limit("unbraked", "the truck maker's limit for a trailer without brakes", sourceTruckMaker, truck.Unbraked.Value, empty, 1)
	}
	if !truck.BallRating.Known && m.trailer.NoBall {
		return
	}
	if rating, ok := have(m, truck.BallRating, "the ball's rating"); ok && weighed {
		m.limit("ball", "the ball on the truck", sourceStamp, rating, empty, 1)
	}
}

// balance works out what comes on the hitch.
func (m *matcher) balance() {
	t0, tongue := have(m, m.trailer.TongueEmpty, "the trailer's tongue weight, empty")
	a, axles := have(m, m.trailer.Axles, "where the trailer's axles are")
	xc, center := have(m, m.trailer.Center, "where the trailer's deck is")
	if tongue && axles && center {
		m.tongue, m.rise, m.weighed = t0, measure.ShareOfLength(a-xc, a), true
	}
}

// onTruck enters the limits that take the tongue weight.
func (m *matcher) onTruck(truck Truck) {
	m.balance()
	t0, rise, ok := m.tongue, m.rise, m.weighed
	if ok && (rise < 0 || t0 < 0) {
		m.limit("hitch-lift", "the load at which the hitch would lift", statics, 0, -t0, -rise)
	}
	gvwr, rated := have(m, truck.GVWR, "the truck's GVWR")
	if ok && rated && truck.Weight.Known {
		m.limit("truck-gvwr", "the truck's GVWR", sourceTruckLabel, gvwr, truck.Weight.Value+t0, rise)
	}
	if limit, known := have(m, truck.HitchTongue, "the hitch's tongue limit"); ok && known {
		m.limit("hitch-tongue", "the tongue limit of the hitch on the truck", sourceStamp, limit, t0, rise)
	}
	rear, known := have(m, truck.RearRating, "the truck's rear axle rating")
	stands, weighed := have(m, truck.RearWeight, "the weight on the truck's rear axle")
	base, measured := have(m, truck.Wheelbase, "the truck's wheelbase")
	behind, placed := have(m, truck.BallBehind, "how far the ball is from the rear axle")
	if !ok || !measured || !placed {
		return
	}
	front, more := AxleEffects(t0, base, behind)
	if known && weighed {
		m.limit("rear-axle", "the truck's rear axle", sourceTruckLabel, rear, stands+more,
			rise.Times(measure.ShareOfLength(base+behind, base)))
	}
	if truck.FrontRating.Known && truck.Weight.Known && weighed {
		m.limit("front-axle", "the truck's front axle", sourceTruckLabel, truck.FrontRating.Value,
			truck.Weight.Value-stands+front, rise.Times(measure.ShareOfLength(-behind, base)))
	}
}

// settle finds the lowest limit, and what is left of the others at its load.
func (m *matcher) settle() {
	first := true
	for _, l := range m.Limits {
		if !l.Free && (first || l.Allows < m.Most) {
			m.Most, first = l.Allows, false
		}
		m.EmptyOver = m.EmptyOver || l.Empty
	}
	for i := range m.Limits {
		l := &m.Limits[i]
		l.Used += m.rises[l.Name].Of(m.Most)
		l.Margin = l.Rating - l.Used
	}
	slices.SortStableFunc(m.Limits, func(a, b TowLimit) int {
		switch {
		case a.Empty != b.Empty:
			return before(a.Empty)
		case a.Empty:
			return cmp.Compare(a.Margin, b.Margin)
		case a.Free != b.Free:
			return before(b.Free)
		}
		return cmp.Compare(a.Allows, b.Allows)
	})
	m.Limits[0].Governs = true
}

func before(first bool) int {
	if first {
		return -1
	}
	return 1
}

// unbrakedInCommerce says where a trailer without brakes may not be used in commerce behind
// the truck: 49 CFR 393.42(b)(3).
func (m *matcher) unbrakedInCommerce(truck Truck) {
	if !m.trailer.Unbraked {
		return
	}
	if g := m.trailer.GVWR; g.Known && g.Value > compute.UnbrakedMost {
		m.note("commercial use: a trailer over 3,000 lb must have brakes (49 CFR 393.42(b)(3)); this one has none")
		return
	}
	if !m.weighed || !m.trailer.Empty.Known || !truck.Weight.Known {
		return
	}
	tongue := m.tongue + m.rise.Of(m.Most)
	axles, under := m.trailer.Empty.Value+m.Most-tongue, truck.Weight.Value+tongue
	if !measure.NotOver(compute.UnbrakedTruck(axles), under) {
		m.note("commercial use: without brakes the trailer's axles may carry at most 40%% of what the truck's axles carry (49 CFR 393.42(b)(3)); here they carry %s, and the truck's %s",
			m.in.Load(axles), m.in.Limit(under))
	}
}

// effects works out the loads of the trailer on the truck's axles.
func (m *matcher) effects(truck Truck) {
	m.note("evenly spread over the deck; a load farther forward puts more on the truck")
	if s := m.trailer.SurgeTruck; s.Known && truck.GVWR.Known && truck.GVWR.Value < s.Value {
		m.note("its surge brakes ask for a truck rated %s or more (49 CFR 393.48(d)); this one is rated %s", m.in.Load(s.Value), m.in.Weight(truck.GVWR.Value))
	}
	m.unbrakedInCommerce(truck)
	if !m.weighed {
		return
	}
	tongue := m.tongue + m.rise.Of(m.Most)
	m.Tongue = compute.Result[measure.Pounds]{Value: tongue, Known: true}
	if !truck.Wheelbase.Known || !truck.BallBehind.Known {
		return
	}
	front, rear := AxleEffects(tongue, truck.Wheelbase.Value, truck.BallBehind.Value)
	m.Front = compute.Result[measure.Pounds]{Value: front, Known: true}
	m.Rear = compute.Result[measure.Pounds]{Value: rear, Known: true}
	switch {
	case front < 0:
		m.note("the front axle loses %s, so it steers and brakes with less; the truck's manual says when a weight-distributing hitch is due", m.in.Load(-front))
	case front > 0:
		m.note("the front axle gains %s", m.in.Load(front))
	}
	if !truck.Weight.Known || !truck.RearWeight.Known {
		return
	}
	left := truck.Weight.Value - truck.RearWeight.Value + front
	m.FrontLeft = compute.Result[measure.Pounds]{Value: left, Known: true}
	if left < 0 {
		m.note("by these figures the front axle would lift: weigh the truck's axles again")
	}
}

func (m *matcher) note(format string, args ...any) {
	m.Notes = append(m.Notes, fmt.Sprintf(format, args...))
}

// license works out the federal class. The sums only grow with the values that are not known yet, so
// a class A found is certain even where a rating is missing.
func (m *matcher) license(truck Truck) {
	orZero := func(r compute.Result[measure.Pounds]) measure.Pounds {
		if !r.Known {
			return 0
		}
		return r.Value
	}
	pulls := Vehicle{Rating: orZero(truck.GVWR), Actual: orZero(truck.Weight)}
	towed := Vehicle{Rating: orZero(m.trailer.GVWR)}
	if m.trailer.Empty.Known {
		towed.Actual = m.trailer.Empty.Value + m.Most
	}
	var label measure.Pounds
	if truck.GCWROnLabel {
		label = orZero(truck.GCWR)
	}
	m.License = LicenseClass(pulls, label, towed)
	m.LicenseKnown = m.License == ClassA || truck.GVWR.Known && m.trailer.GVWR.Known
	m.MayBeCommercial = MayBeCommercial(pulls, label, towed)
}

// senselessTow says which of the measures cannot be, or "" if all can.
func senselessTow(t compute.Towed, truck Truck) string {
	in := truck.In
	for _, r := range []struct {
		what string
		compute.Result[measure.Pounds]
		least measure.Pounds
	}{
		{"the trailer's empty weight", t.Empty, 1},
		{"the trailer's GVWR", t.GVWR, 1},
		{"the trailer's payload", t.Payload, 0},
		{"the truck its surge brakes ask for", t.SurgeTruck, 0},
		{"the truck's GVWR", truck.GVWR, 1},
		{"the truck's weight", truck.Weight, 1},
		{"the rear axle's rating", truck.RearRating, 1},
		{"the weight on the rear axle", truck.RearWeight, 0},
		{"the front axle's rating", truck.FrontRating, 1},
		{"the truck's GCWR", truck.GCWR, 1},
		{"the hitch's rating", truck.HitchRating, 1},
		{"the hitch's tongue limit", truck.HitchTongue, 1},
		{"the ball's rating", truck.BallRating, 1},
		{"the truck's limit for trailers without brakes", truck.Unbraked, 1},
	} {
		if r.Known && !(r.Value >= r.least && measure.Sensible(r.Value)) {
			return fmt.Sprintf("%s cannot be %s", r.what, in.Weight(r.Value))
		}
	}
	for _, r := range []struct {
		what string
		compute.Result[measure.Inches]
		least measure.Inches
	}{
		{"the distance from the ball to the trailer's axles", t.Axles, 1},
		{"the distance from the ball to the middle of the deck", t.Center, 0},
		{"the truck's wheelbase", truck.Wheelbase, 1},
	} {
		if r.Known && !(r.Value >= r.least && measure.Sensible(r.Value)) {
			return fmt.Sprintf("%s cannot be %s", r.what, in.Length(r.Value))
		}
	}
	return impossible(t, truck)
}

// impossible says which of the measures contradict each other, or "" if none do.
func impossible(t compute.Towed, truck Truck) string {
	in := truck.In
	tongue, behind := t.TongueEmpty, truck.BallBehind
	switch {
	case tongue.Known && !measure.Sensible(tongue.Value):
		return fmt.Sprintf("the tongue weight cannot be %s", in.Weight(tongue.Value))
	case tongue.Known && t.Empty.Known && max(tongue.Value, -tongue.Value) > t.Empty.Value:
		return fmt.Sprintf("the tongue cannot weigh %s, the whole trailer weighs %s", in.Weight(tongue.Value), in.Weight(t.Empty.Value))
	case truck.RearWeight.Known && truck.Weight.Known && truck.RearWeight.Value > truck.Weight.Value:
		return fmt.Sprintf("the rear axle cannot carry %s, the whole truck weighs %s", in.Weight(truck.RearWeight.Value), in.Weight(truck.Weight.Value))
	case behind.Known && !measure.Sensible(behind.Value):
		return fmt.Sprintf("the ball cannot be %s from the rear axle", in.Length(behind.Value))
	case behind.Known && truck.Wheelbase.Known && truck.Wheelbase.Value+behind.Value <= 0:
		return fmt.Sprintf("the ball cannot be %s ahead of the rear axle, the wheelbase is %s", in.Length(-behind.Value), in.Length(truck.Wheelbase.Value))
	}
	return ""
}

// Text is the answer in one sentence. It is never a flat no: what is on a label or a
// scale ticket may differ from what was typed in.
func (m *Match) Text() string {
	if m.Why != "" {
		return m.Why
	}
	l, text := m.Limits[0], ""
	if l.Empty {
		text = fmt.Sprintf("by these figures the empty trailer is over %s by %s: weigh both, read the labels again, or look at a truck rated for more", l.Label, m.in.Load(-l.Margin))
	} else {
		text = fmt.Sprintf("up to %s, evenly spread; what governs is %s", m.in.Limit(m.Most), l.Label)
	}
	if m.Incomplete {
		text += "; incomplete, for want of " + strings.Join(m.Missing, ", ")
	}
	return text
}
