package compute

import "tarepage/internal/measure"

const staticsSource = "statics: the equilibrium of a beam on two supports"

// estimatedWords follow the working of every figure that rests on an estimated tongue.
const estimatedWords = " (T0 estimated from the parts, not weighed)"

// worked is a working written out.
func worked(w words, estimated bool) string {
	if estimated {
		return w.String() + estimatedWords
	}
	return w.String()
}

// empty is E: the weight of the empty trailer as it is now. Weight that the yard added after
// the trailer was weighed comes on top.
func (p *calc) empty() measure.Pounds {
	e := need(p, p.Unit.Weights.Empty, "weights.empty")
	if e <= 0 {
		return e
	}
	if added, after := p.addedAfter(); after {
		if !p.has("dealer-added") {
			take(p, p.Unit.DealerAdded, "dealer-added")
			p.note("the empty weight counts %s that the yard added after the trailer was weighed", added)
		}
		e += added
	}
	if gas := p.Unit.Weights.Propane; gas.Given() && gas.Value > 0 {
		if !p.has("weights.propane") {
			take(p, gas, "weights.propane")
			p.note("the empty weight counts %s of propane: full bottles are part of it (49 CFR 571.110 S9.3.2)", gas.Value)
		}
		e += gas.Value
	}
	return e
}

// emptyNow is E as a plain number, for what is handed on without a working.
func (w *Work) emptyNow() (measure.Pounds, bool) {
	p := &calc{Work: w}
	e := p.empty()
	return e, p.ready()
}

// addedAfter is the weight that the yard added after the day on which the trailer was
// weighed empty. Where a day is missing a rule of internal/inspect stops the unit.
func (w *Work) addedAfter() (measure.Pounds, bool) {
	added, weighed := w.Unit.DealerAdded, w.Unit.Weights.Empty.From.Date()
	day := added.From.Date()
	return added.Value, added.Given() && added.Value > 0 && weighed != "" && day > weighed
}

// TongueWeighed reports that the tongue weight is a measure and not an estimate.
func (w *Work) TongueWeighed() bool { return w.tongueWeighed() }

// tongueWeighed reports that the trailer's empty tongue weight is a measure and not an
// estimate. One that is more than the whole trailer does not count.
func (w *Work) tongueWeighed() bool {
	t, e := w.Unit.Weights.TongueEmpty, w.Unit.Weights.Empty
	return t.Given() && t.From.Origin != measure.Estimate && !(e.Given() && t.Value > e.Value)
}

// weighedTongue is T0 if it was weighed. An estimate does not count.
func (p *calc) weighedTongue() measure.Pounds {
	if !p.tongueWeighed() {
		missing(p, p.Unit.Weights.TongueEmpty, "weights.tongue-empty")
		return 0
	}
	return needOrZero(p, p.Unit.Weights.TongueEmpty, "weights.tongue-empty")
}

// spaceKnown reports that the place of the load was measured: the deck's front and length.
func (w *Work) spaceKnown() bool {
	s := w.Space
	return s.Front.Given() && s.Front.Value > 0 && s.Length.Given() && s.Length.Value > 0
}

// evenKnown reports that the tongue was weighed and everything measured that places an
// even load between ball and axles.
func (w *Work) evenKnown() bool {
	a := w.Unit.Axles.Center
	return w.tongueWeighed() && w.EmptyAxleLoad.Known && w.spaceKnown() && a.Given() && a.Value > 0
}

// emptyTongue is T0. A tongue that weighs more than the whole empty trailer is no
// measure: it counts as missing, and a rule of internal/inspect says so at its place.
// Where nobody weighed it and the parts are known, it is the parts' estimate.
func (p *calc) emptyTongue() measure.Pounds {
	w := p.Unit.Weights
	if w.TongueEmpty.Given() && w.Empty.Given() && w.TongueEmpty.Value > w.Empty.Value {
		p.lack("weights.tongue-empty")
		return 0
	}
	if !w.TongueEmpty.Given() && !w.TongueEmpty.Spoiled && p.EstimatedTongue.Known {
		return rest(p, p.EstimatedTongue, "estimated-tongue")
	}
	return needOrZero(p, w.TongueEmpty, "weights.tongue-empty")
}

var emptyAxleLoad = &Definition{
	Name: "empty-axle-load", Label: "On the axles, empty",
	What:    "What the empty trailer puts on its axle group.",
	Formula: "empty - tongue empty",
	Unit:    "lb", Source: staticsSource,
	work: func(p *calc) {
		empty := p.empty()
		tongue := p.emptyTongue()
		if !p.ready() {
			return
		}
		p.EmptyAxleLoad = p.load(empty-tongue, say("%s - %s", empty, tongue))
	},
}

var emptyTongueShare = &Definition{
	Name: "empty-tongue-share", Label: "Tongue share, empty",
	What:    "How much of the empty trailer is on the truck.",
	Formula: "tongue empty / empty",
	Unit:    "%", Source: staticsSource,
	work: func(p *calc) {
		empty := p.empty()
		tongue := p.emptyTongue()
		if !p.ready() {
			return
		}
		p.share(measure.ShareOf(tongue, empty), say("%s / %s", tongue, empty))
	},
}

var emptyCenter = &Definition{
	Name: "empty-center", Label: "Center of gravity, empty",
	What:    "Where the empty trailer would balance, from the ball's center back.",
	Formula: "A (1 - T0 / E)",
	Unit:    "ft", Source: staticsSource,
	work: func(p *calc) {
		empty := p.empty()
		tongue := p.emptyTongue()
		a := need(p, p.Unit.Axles.Center, "axles.center")
		if !p.ready() {
			return
		}
		x := measure.ArmOf(measure.Moment(empty-tongue, a), empty)
		p.feet(x, say("%s x (1 - %s / %s)", a, tongue, empty))
	},
}

var tongueAtGVWR = &Definition{
	Name: "tongue-at-gvwr", Label: "On the truck at GVWR, even load",
	What:    "What the trailer puts on the truck when it is loaded to its GVWR with a load spread evenly over the deck.",
	Formula: "T0 + (GVWR - E)(1 - xc / A)",
	Unit:    "lb", Source: staticsSource,
	work: func(p *calc) {
		tag := rest(p, p.TagPayload, "tag-payload")
		tongue := p.emptyTongue()
		a := need(p, p.Unit.Axles.Center, "axles.center")
		xc := p.center()
		if !p.ready() {
			return
		}
		v := tongue + measure.WeightAt(measure.Moment(tag, a-xc), a)
		p.TongueAtGVWR = p.load(v, say("%s + %s x (1 - %s / %s)", tongue, near{tag}, near{xc}, a))
	},
}

var tongueShare = &Definition{
	Name: "tongue-share", Label: "Tongue share at GVWR, even load",
	What:    "How much of the loaded trailer is on the truck.",
	Formula: "tongue at GVWR / GVWR",
	Unit:    "%", Source: staticsSource,
	work: func(p *calc) {
		gvwr := need(p, p.Unit.Weights.GVWR, "weights.gvwr")
		tongue := rest(p, p.TongueAtGVWR, "tongue-at-gvwr")
		if !p.ready() {
			return
		}
		p.TongueShare = p.share(measure.ShareOf(tongue, gvwr), say("%s / %s", near{tongue}, gvwr))
	},
}

var axleLoadAtGVWR = &Definition{
	Name: "axle-load-at-gvwr", Label: "On the axles at GVWR, even load",
	What:    "What the axle group carries when the trailer is loaded to its GVWR with an even load.",
	Formula: "GVWR - tongue at GVWR",
	Unit:    "lb", Source: staticsSource,
	work: func(p *calc) {
		gvwr := need(p, p.Unit.Weights.GVWR, "weights.gvwr")
		tongue := rest(p, p.TongueAtGVWR, "tongue-at-gvwr")
		if !p.ready() {
			return
		}
		p.shared()
		p.AxleLoadAtGVWR = p.load(gvwr-tongue, say("%s - %s", gvwr, near{tongue}))
	},
}

// shared notes how the axles of a group share its load.
func (p *calc) shared() {
	ax := p.Unit.Axles
	if ax.Count.Value < 2 {
		return
	}
	if ax.Suspension.Value == "torsion" {
		p.note("independent torsion axles share the load evenly only while the trailer is level")
	}
}

// evenLoad is the largest evenly spread load at which the axle group carries no more
// than hold: (A hold - E xe) / xc, with E xe = A (E - T0).
func evenLoad(hold, emptyOnAxles measure.Pounds, a, xc measure.Inches) measure.Pounds {
	return measure.WeightAt(measure.Moment(hold-emptyOnAxles, a), xc)
}

var evenLoadPayload = &Definition{
	Name: "even-load-payload", Label: "Even load the axles carry",
	What:    "The largest evenly spread load that the axles and their tires carry, whatever the tag says. It is not the legal number: the tag governs.",
	Formula: "(A min(S, n C) - E xe) / xc, with xe = A (1 - T0 / E)",
	Unit:    "lb", Source: staticsSource,
	work: func(p *calc) {
		s := rest(p, p.AxleCapacity, "axle-capacity")
		c := rest(p, p.TireCapacity, "tire-capacity")
		n := needCount(p, p.Unit.Axles.Count, "axles.count")
		onAxles := rest(p, p.EmptyAxleLoad, "empty-axle-load")
		a := need(p, p.Unit.Axles.Center, "axles.center")
		xc := p.center()
		if !p.ready() {
			return
		}
		hold := min(s, c.Times(n))
		p.shared()
		v := max(evenLoad(hold, onAxles, a, xc), 0)
		p.EvenLoadPayload = p.limit(v, say("(%s x %s - %s x %s) / %s", a, near{hold}, a, near{onAxles}, near{xc}))
	},
}

// ratingName says whose word the GVWR is: only a label that somebody read is the tag.
func (w *Work) ratingName() string {
	g := w.Unit.Weights.GVWR
	switch g.From.Origin {
	case measure.Tag:
		return "the tag"
	case measure.Unstated:
		return "the GVWR"
	case measure.Estimate:
		return "the estimated GVWR"
	}
	return "the GVWR (" + g.From.String() + ")"
}
