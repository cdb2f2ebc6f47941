package compute

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A Rung is one limit of the payload. The lowest governs.
type Rung struct {
	Name    string
	Label   string
	Value   measure.Pounds // not below zero
	Source  string
	Governs bool
	// About reports that an input was approximate.
	About bool

	working words
	inputs  []*Input
}

// Text is the rung's height, rounded down.
func (r *Rung) Text() string { return about(r.About, r.Value.Limit()) }

// Working is the formula with the numbers in it.
func (r *Rung) Working() string { return r.working.String() }

// lowestOf shows the rungs of a ladder.
type lowestOf []Rung

func (l lowestOf) String() string {
	var out []string
	for i := range l {
		out = append(out, l[i].Text()+" ("+l[i].Label+")")
	}
	if len(out) == 1 {
		return out[0]
	}
	return "the lowest of " + strings.Join(out, ", ")
}

var payload = &Definition{
	Name: "payload", Label: "Payload",
	What: "The most that may be loaded: the lowest of every limit that is known, and never more than GVWR less the empty weight.",
	Formula: "the lowest rung: GVWR - E; a MAX LOAD plate; the even load by axles, tires, wheels, or with an unweighed tongue the whole load on the axles; " +
		"the even load at which the hitch would lift; coupler rating - E; ball rating - E; the even load at which the tongue reaches its limit",
	Unit: "lb", Source: "49 CFR 567.4(g)(3); 571.110 S4.2.2, 571.120 S5.1.2; 393.75(f); statics",
	work: func(p *calc) {
		p.Ladder = p.ladder()
		if !p.TagPayload.Known {
			p.needs = append(p.needs, p.needsOf("tag-payload")...)
			return
		}
		if p.unread() {
			return
		}
		if !p.Tire.Known && p.Tire.Because != "" {
			// The tires may carry less than everything that is known.
			p.lack("tires.sidewall")
			p.needs[len(p.needs)-1].Because = p.Tire.Because
			return
		}
		lowest := p.Ladder[0].Value
		p.Ladder[0].Governs = true
		// The payload rests on the limit that governs it, and on one that is equal.
		for i := range p.Ladder {
			if r := &p.Ladder[i]; r.Value == lowest {
				p.bring(r.inputs)
				p.about = p.about || r.About
			}
		}
		p.note("%s", governs(p.Ladder[0].Label))
		p.counted()
		p.Payload = p.limit(lowest, say("%s", lowestOf(p.Ladder)))
	},
}

// unread notes the limits that every trailer has, or that this one has on a plate, and that
// nobody could read. Any of them may be lower than everything that is known.
func (p *calc) unread() bool {
	u, n := p.Unit, len(p.needs)
	if u.Axles.Count.From.Origin == measure.Unknown {
		missing(p, u.Axles.Count, "axles.count")
	}
	for _, limit := range []struct {
		is  unit.Weight
		key string
	}{
		{u.Axles.Rating, "axles.rating"}, {u.Weights.MaxLoad, "weights.max-load"}, {u.Dolly.Axle, "dolly.axle"},
	} {
		if limit.is.From.Origin == measure.Unknown {
			missing(p, limit.is, limit.key)
		}
	}
	return len(p.needs) > n
}

// counted notes how the load is counted, and which limits could not be counted. A ball is
// counted where one is sold with the trailer; the customer's own is not ours to know.
func (p *calc) counted() {
	switch {
	case !p.tongueWeighed():
		p.note("%s", TongueUnknown)
	case !p.spaceKnown():
		p.note("how far back the %s begins or ends was not measured, so the whole load is counted on the axles", p.Space.Name)
	case !p.evenKnown():
		p.note("where the axles are was not measured, so the whole load is counted on them")
	}
	u, has := p.Unit, map[string]bool{}
	for _, r := range p.Ladder {
		has[r.Name] = true
	}
	var ratings []string
	for _, r := range []struct {
		lacks bool
		name  string
	}{
		{!p.Tire.Known, "the tires"},
		{!p.WheelCapacity.Known, "the wheels"},
		{!has["hitch"], "the coupler"},
		{!(u.Hitch.TongueLimit.Given() && u.Hitch.TongueLimit.Value > 0), "the tongue limit"},
	} {
		if r.lacks {
			ratings = append(ratings, r.name)
		}
	}
	if len(ratings) > 0 {
		p.note("not counted, for want of a rating: %s; the lowest-rated part governs", strings.Join(ratings, ", "))
	}
}

// TongueUnknown is said next to a payload where nobody weighed the tongue.
const TongueUnknown = "nobody weighed the tongue, so the whole load is counted on the axles"

// governs says which limit governs, and agrees with it in number.
func governs(label string) string {
	limit, how, _ := strings.Cut(label, ", ")
	if how != "" {
		how = " (" + how + ")"
	}
	return limit + " " + agrees("govern", limit) + how
}

// agrees is the verb as it follows the name of a limit: the axles govern, the coupler governs.
func agrees(verb, limit string) string {
	if limit == "the axles" || limit == "the tires" || limit == "the wheels" {
		return verb
	}
	return verb + "s"
}

// Decides says in a few words what the payload rests on where that is not a label that somebody
// read: the axles decide, the coupler decides, the GVWR decides. It is empty if the label
// decides or the payload is not known.
func (w *Work) Decides() string {
	if !w.Payload.Known || w.Ladder[0].Name == "tag" && w.Unit.Weights.GVWR.From.Origin == measure.Tag {
		return ""
	}
	limit, _, _ := strings.Cut(w.Ladder[0].Label, ", ")
	limit, _, _ = strings.Cut(limit, " (") // whose word a GVWR is
	return limit + " " + agrees("decide", limit)
}

// A rungRule works out one limit of the payload. It notes what is missing, or skips the limit.
type rungRule struct {
	name, label, source string
	work                func(p *calc) (measure.Pounds, words)
}

// rungs are the limits in the order of docs/design.md, which equal ones keep.
var rungs = []rungRule{
	{"tag", "", "49 CFR 567.4(g)(3)", func(p *calc) (measure.Pounds, words) {
		return rest(p, p.TagPayload, "tag-payload"), p.working("tag-payload")
	}},
	{"plate", "the MAX LOAD plate", "the plate on the trailer", func(p *calc) (measure.Pounds, words) {
		most := need(p, p.Unit.Weights.MaxLoad, "weights.max-load")
		return most, say("%s", most)
	}},
	{"axles", "the axles", staticsSource + "; 49 CFR 571.3(b) (GAWR)", func(p *calc) (measure.Pounds, words) {
		return p.held(rest(p, p.AxleCapacity, "axle-capacity"))
	}},
	{"tires", "the tires", staticsSource + "; 49 CFR 393.75(f)", func(p *calc) (measure.Pounds, words) {
		n := needCount(p, p.Unit.Axles.Count, "axles.count")
		if !p.Tire.Known {
			p.lack("tires.sidewall")
			return 0, words{}
		}
		p.inheritTire()
		return p.held(p.Tire.Axle.Times(n))
	}},
	{"wheels", "the wheels", staticsSource + "; the rating stamped on the wheel", func(p *calc) (measure.Pounds, words) {
		n := needCount(p, p.Unit.Axles.Count, "axles.count")
		return p.held(rest(p, p.WheelCapacity, "wheel-capacity").Times(n))
	}},
	{"dolly", "the dolly's rating for one axle", "the dolly maker's rating", func(p *calc) (measure.Pounds, words) {
		axle := need(p, p.Unit.Dolly.Axle, "dolly.axle")
		return axle, say("%s", axle)
	}},
	{"hitch", "the coupler", "the rating on the coupler plate; SAE J684", func(p *calc) (measure.Pounds, words) {
		return p.lessEmpty(need(p, p.Unit.Hitch.Rating, "hitch.rating"))
	}},
	{"ball", "the ball", "the rating stamped on the ball; SAE J684", func(p *calc) (measure.Pounds, words) {
		return p.lessEmpty(need(p, p.Unit.Hitch.BallRating, "hitch.ball-rating"))
	}},
	{"hitch-down", "the load that would lift the hitch", staticsSource, func(p *calc) (measure.Pounds, words) {
		tongue := p.weighedTongue()
		a, xc := need(p, p.Unit.Axles.Center, "axles.center"), p.center()
		if p.ready() && xc <= a {
			p.skip() // A load centered ahead of the axles presses the hitch down.
		}
		if !p.ready() {
			return 0, words{}
		}
		return measure.WeightAt(measure.Moment(tongue, a), xc-a),
			say("%s x %s / (%s - %s)", tongue, a, near{xc}, a)
	}},
	{"tongue", "the tongue limit", staticsSource + "; the limit on the coupler plate", func(p *calc) (measure.Pounds, words) {
		limit := need(p, p.Unit.Hitch.TongueLimit, "hitch.tongue-limit")
		tongue := p.weighedTongue()
		a, xc := need(p, p.Unit.Axles.Center, "axles.center"), p.center()
		if p.ready() && xc >= a {
			p.skip() // A load centered at or behind the axles adds nothing to the tongue.
		}
		if !p.ready() {
			return 0, words{}
		}
		return measure.WeightAt(measure.Moment(limit-tongue, a), a-xc),
			say("(%s - %s) x %s / (%s - %s)", limit, tongue, a, a, near{xc})
	}},
}

// ofEvenLoad are the rungs for an evenly spread load, if the tongue was weighed. Otherwise
// they count the whole load on the axles.
var ofEvenLoad = map[string]bool{"axles": true, "tires": true, "wheels": true, "hitch-down": true, "tongue": true}

// labelOf names what the rung counts.
func (p *calc) labelOf(r *rungRule) string {
	switch {
	case r.name == "tag":
		return p.ratingName()
	case !ofEvenLoad[r.name]:
		return r.label
	case p.evenKnown():
		return r.label + ", even load"
	}
	return r.label + ", the whole load on them"
}

// ladder works every rung that can be worked and sorts them, lowest first.
func (p *calc) ladder() []Rung {
	out := make([]Rung, 0, len(rungs))
	inputs := make([]*Input, 0, 24)
	q := new(calc)
	for i := range rungs {
		r := &rungs[i]
		// Each limit is worked out by itself and keeps its own inputs.
		*q = calc{Work: p.Work, def: p.def, inputs: inputs[:0]}
		v, working := r.work(q)
		if !q.ready() || !measure.Finite(v) {
			continue
		}
		out = append(out, Rung{Name: r.name, Label: p.labelOf(r), Value: max(v, 0), Source: r.source, About: q.about,
			working: working, inputs: p.keep(q.inputs)})
	}
	slices.SortStableFunc(out, func(a, b Rung) int {
		return cmp.Compare(a.Value, b.Value)
	})
	return out
}

// held is the heaviest load at which the axle group carries no more than hold: a load
// spread evenly, or where the tongue was not weighed or the place not measured, one that
// the axles carry all of.
func (p *calc) held(hold measure.Pounds) (measure.Pounds, words) {
	if p.evenKnown() {
		onAxles := rest(p, p.EmptyAxleLoad, "empty-axle-load")
		a, xc := need(p, p.Unit.Axles.Center, "axles.center"), p.center()
		if !p.ready() {
			return 0, words{}
		}
		return evenLoad(hold, onAxles, a, xc),
			say("(%s x %s - %s x %s) / %s", a, near{hold}, a, near{onAxles}, near{xc})
	}
	empty := p.empty()
	working := say("%s - %s", near{hold}, empty)
	if p.tongueWeighed() {
		tongue := p.weighedTongue()
		working = say("%s - (%s - %s)", near{hold}, empty, tongue)
		empty -= tongue
	}
	v := hold - empty
	if !p.ready() {
		return 0, words{}
	}
	// A load centered behind the axles puts more on them than it weighs.
	if a, s := p.Unit.Axles.Center, p.Space; a.Given() && a.Value > 0 && p.spaceKnown() && s.Front.Value+s.Length.Value.Half() > a.Value {
		take(p, a, "axles.center")
		xc := p.center()
		return measure.WeightAt(measure.Moment(v, a.Value), xc), say("(%s) x %s / %s", working, a.Value, near{xc})
	}
	return v, working
}

// lessEmpty is the load that a rating of the whole trailer leaves.
func (p *calc) lessEmpty(rating measure.Pounds) (measure.Pounds, words) {
	empty := p.empty()
	return rating - empty, say("%s - %s", rating, empty)
}

// working is the working of an earlier figure.
func (w *Work) working(name string) words {
	if f := w.Figure(name); f != nil {
		return f.working
	}
	return words{}
}

var workingPayload = &Definition{
	Name: "working-payload", Label: "Working payload",
	What:    "The payload less what the yard holds back for mud, chains, fuel and a scale that is off; plan with this one.",
	Formula: "payload less the yard's allowance, down to the hundred",
	Unit:    "lb", Source: "the yard's allowance; common practice, no source", Practice: true,
	work: func(p *calc) {
		full := rest(p, p.Payload, "payload")
		if !p.ready() {
			return
		}
		back := p.Settings.Allowance
		v := measure.Down(full-back.Of(full), 100)
		p.bound = atMost
		p.enter(float64(v), v.Limit(), 100, say("%s - %s, down to the hundred", near{full}, back))
		p.WorkingPayload = Result[measure.Pounds]{Value: v, Known: true}
	},
}

var cargoWithWater = &Definition{
	Name: "cargo-with-water", Label: "Cargo with full water tanks",
	What:    "What may still be loaded when the fresh-water tanks are full. Water is cargo; the cargo label on the camper governs.",
	Formula: "payload - water",
	Unit:    "lb", Source: "49 CFR 571.110 S9.3.2 (10,000 lb and below), 571.120 S10.4.2 (above): potable water is cargo",
	work: func(p *calc) {
		if !p.Unit.Weights.Water.Given() {
			p.skip()
			return
		}
		full := rest(p, p.Payload, "payload")
		water := need(p, p.Unit.Weights.Water, "weights.water")
		if !p.ready() {
			return
		}
		p.limit(max(full-water, 0), say("%s - %s", near{full}, water))
	},
}

var tongueAtPayload = &Definition{
	Name: "tongue-at-payload", Label: "On the truck at the payload, even load",
	What:    "How much of the trailer and its load is on the truck when the payload is spread evenly. It is part of the GVWR, and it counts against the truck's own payload.",
	Formula: "T0 + payload x (1 - xc / A)",
	Unit:    "lb", Source: staticsSource,
	work: func(p *calc) {
		full := rest(p, p.Payload, "payload")
		tongue := p.emptyTongue()
		a, xc := need(p, p.Unit.Axles.Center, "axles.center"), p.center()
		if !p.ready() {
			return
		}
		v := tongue + measure.WeightAt(measure.Moment(full, a-xc), a)
		if measure.NotOver(v, 0) {
			v = min(v, 0) // At the rung that keeps the hitch down, to the last bit.
		}
		p.TongueAtPayload = p.load(v, say("%s + %s x (1 - %s / %s)", tongue, near{full}, near{xc}, a))
	},
}

var tongueShareAtPayload = &Definition{
	Name: "tongue-share-at-payload", Label: "Tongue share at the payload, even load",
	What:    "How much of the trailer and its load is on the truck when the payload is spread evenly. Outside the band, the load must go farther forward or back.",
	Formula: "on the truck at the payload / (E + payload)",
	Unit:    "%", Source: staticsSource,
	work: func(p *calc) {
		tongue := rest(p, p.TongueAtPayload, "tongue-at-payload")
		full := rest(p, p.Payload, "payload")
		empty := p.empty()
		if !p.ready() {
			return
		}
		p.TongueShareAtPayload = p.share(measure.ShareOf(tongue, empty+full), say("%s / (%s + %s)", near{tongue}, empty, near{full}))
	},
}

var axlesAtPayload = &Definition{
	Name: "axles-at-payload", Label: "On the axles at the payload, even load",
	What:    "How much of the trailer and its load the axles carry when the payload is spread evenly.",
	Formula: "E + payload - on the truck at the payload",
	Unit:    "lb", Source: staticsSource,
	work: func(p *calc) {
		tongue := rest(p, p.TongueAtPayload, "tongue-at-payload")
		full := rest(p, p.Payload, "payload")
		empty := p.empty()
		if !p.ready() {
			return
		}
		p.shared()
		p.AxlesAtPayload = p.load(empty+full-tongue, say("%s + %s - %s", empty, near{full}, near{tongue}))
	},
}

// WhyMore explains the higher numbers that people quote for the same trailer.
const WhyMore = "Some sellers quote more: they add what the truck carries to the axle ratings, or leave out the empty weight. " +
	"The GVWR on the label already includes what is on the truck."

// OnTruck is PayloadSays in the few words that a card or a row of a list has room for.
func (w *Work) OnTruck() string {
	share := w.Figure(tongueShareAtPayload.Name)
	switch {
	case !w.Payload.Known:
		return ""
	case !w.tongueWeighed():
		return "tongue not weighed"
	case share == nil:
		return "share on the truck not known"
	case w.TongueAtPayload.Value < 0:
		return "evenly loaded it lifts the hitch"
	}
	return "loaded, " + share.Text + " on the truck"
}

// PayloadSays is what must be said next to the payload wherever it is shown: how the
// loaded trailer presses on the truck, or that nobody knows. It is empty where there is no
// payload.
func (w *Work) PayloadSays() string {
	if !w.Payload.Known {
		return ""
	}
	tongue, share := w.Figure(tongueAtPayload.Name), w.Figure(tongueShareAtPayload.Name)
	switch {
	case !w.tongueWeighed():
		return TongueUnknown
	case tongue == nil || share == nil:
		return "how much of it is on the truck is not known"
	case w.TongueAtPayload.Value < 0:
		return fmt.Sprintf("spread evenly, it lifts the hitch with %s", (-w.TongueAtPayload.Value).Load())
	}
	return fmt.Sprintf("spread evenly, %s of the loaded trailer (%s) is on the truck", share.Text, tongue.Text)
}
