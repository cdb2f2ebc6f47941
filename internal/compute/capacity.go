package compute

import "tarepage/internal/measure"

var tagPayload = &Definition{
	Name: "tag-payload", Label: "Payload by the GVWR",
	What:    "What may be loaded before the trailer weighs its GVWR. The label on the trailer governs.",
	Formula: "GVWR - E",
	Unit:    "lb", Source: "49 CFR 567.4(g)(3)",
	work: func(p *calc) {
		gvwr := need(p, p.Unit.Weights.GVWR, "weights.gvwr")
		empty := p.empty()
		if !p.ready() {
			return
		}
		p.TagPayload = p.limit(max(gvwr-empty, 0), say("%s - %s", gvwr, empty))
	},
}

var axleCapacity = &Definition{
	Name: "axle-capacity", Label: "Axles together",
	What:    "The sum of the axle ratings. It may be less than the GVWR, because the truck carries the tongue's part.",
	Formula: "S = number of axles x rating",
	Unit:    "lb", Source: "49 CFR 571.3(b) (GAWR)",
	work: func(p *calc) {
		n := needCount(p, p.Unit.Axles.Count, "axles.count")
		rating := need(p, p.Unit.Axles.Rating, "axles.rating")
		if !p.ready() {
			return
		}
		p.AxleCapacity = p.limit(rating.Times(n), say("%d x %s", n, rating))
	},
}

var wheelCapacity = &Definition{
	Name: "wheel-capacity", Label: "Wheels of one axle",
	What:    "What the wheels of one axle are rated for together.",
	Formula: "tires on one axle x wheel rating",
	Unit:    "lb", Source: "the rating stamped on the wheel",
	work: func(p *calc) {
		if !p.Unit.Tires.Wheel.Given() {
			p.skip()
			return
		}
		n := needTires(p)
		wheel := need(p, p.Unit.Tires.Wheel, "tires.wheel")
		if !p.ready() {
			return
		}
		p.WheelCapacity = p.limit(wheel.Times(n), say("%d x %s", n, wheel))
	},
}

var tongueByFoot = &Definition{
	Name: "tongue-by-foot", Label: "Tongue by the foot",
	What:    "A gooseneck seller's rule: one percent of the GVWR on the truck for each foot from the ball to the front axle.",
	Formula: "1% x GVWR x feet from ball to front axle",
	Unit:    "lb", Source: "common practice, no source", Practice: true,
	work: func(p *calc) {
		if p.Unit.Hitch.Kind.Value != "gooseneck" {
			p.skip()
			return
		}
		gvwr := need(p, p.Unit.Weights.GVWR, "weights.gvwr")
		front, working := p.frontAxle()
		if !p.ready() {
			return
		}
		// One percent of gvwr for each foot is gvwr at front feet out on a beam of
		// a hundred feet.
		v := measure.WeightAt(measure.Moment(gvwr, front), measure.Feet(100).Inches())
		p.TongueByFoot = p.load(v, say("1%% x %s x %s ft, the feet being %s", gvwr, number{float64(front.Feet()), 2}, working))
	},
}

// frontAxle is the distance from the ball to the first axle: A - spacing x (n - 1) / 2.
func (p *calc) frontAxle() (measure.Inches, words) {
	a := need(p, p.Unit.Axles.Center, "axles.center")
	n := needCount(p, p.Unit.Axles.Count, "axles.count")
	if n == 1 {
		return a, say("%s", a)
	}
	spacing := need(p, p.Unit.Axles.Spacing, "axles.spacing")
	if !p.ready() {
		return 0, words{}
	}
	return a - spacing.Times(n-1).Half(), say("%s - %s x %d / 2", a, spacing, n-1)
}

// ClassAFrom is the combined rating from which the federal Class A begins, and
// ClassATowed the trailer rating above which it can (49 CFR 383.5, 383.91(a)(1)).
const (
	ClassAFrom  measure.Pounds = 26001
	ClassATowed                = LightTrailer
)

var classATruck = &Definition{
	Name: "class-a-truck", Label: "Class A may apply from a truck rated",
	What:    "Behind a truck rated this much or more the combination reaches 26,001 lb and the trailer is over 10,000 lb: a federal Class A license may apply. Ratings or actual weights count, whichever is greater; states decide more. Ask yours.",
	Formula: "26,001 lb - GVWR, for a trailer over 10,000 lb",
	Unit:    "lb", Source: "49 CFR 383.5, 383.91(a)(1)",
	work: func(p *calc) {
		gvwr := need(p, p.Unit.Weights.GVWR, "weights.gvwr")
		if p.ready() && gvwr <= ClassATowed {
			p.skip()
		}
		if !p.ready() {
			return
		}
		p.ClassATruck = p.limit(max(ClassAFrom-gvwr, 0), say("%s - %s", ClassAFrom, gvwr))
	},
}

// ClassBFrom is the weight of a single vehicle from which the federal Class B begins, and
// CommercialFrom the weight of a vehicle or combination from which the federal safety
// rules call it a commercial motor vehicle (49 CFR 383.5; 390.5).
const (
	ClassBFrom     measure.Pounds = 26001
	CommercialFrom measure.Pounds = 10001
)
